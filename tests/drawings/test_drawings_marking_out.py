"""Parts marked out as they stand: figures from the low corner, the same on both of a pair, clear of one another."""

from itertools import combinations

import pytest
from drawings.sample_wholes import NAMES, example

from evenface.construction.as_it_stands import centres_of, standing
from evenface.drawings.marking_out import marked_out
from evenface.drawings.scene import Circle, Text, text_box

MARGIN = 0.05


def figures(scene, upright):
    """The figures along the lower edge (turned), or those beside the left one."""
    turned = 0.0 if upright else 90.0
    found = [
        one
        for one in scene.primitives
        if isinstance(one, Text) and one.layer == "dimensions" and one.angle_deg == turned
    ]
    return [float(one.text) for one in found]


def names_of(construction):
    return [one.name for one in (*construction.panels, *construction.boards)]


@pytest.mark.parametrize("name", NAMES)
def test_every_worked_part_is_marked_out_on_half_a_page_or_a_whole_one(name):
    construction = example(name)
    for part in names_of(construction):
        worked = [one for one in construction.arranged.worked if one.part == part and one.kind != "mitre"]
        scenes = marked_out(construction, part, "1.1")
        faces = {one.face for one in worked if one.face in ("top", "bottom")}
        if standing(construction, part) is not None:
            assert len(scenes) == (max(1, len(faces)) if worked else 0)
        for scene in scenes:
            assert scene.width_mm <= 170.0
            assert scene.height_mm <= 132.0


@pytest.mark.parametrize("name", ["wall-cupboard", "drawer-pedestal", "desk-drawer"])
def test_lettering_lies_on_no_other(name):
    construction = example(name)
    for part in names_of(construction):
        for scene in marked_out(construction, part, "1.1"):
            texts = [one for one in scene.primitives if isinstance(one, Text)]
            for one, other in combinations(texts, 2):
                a, b = text_box(one, scene.scale), text_box(other, scene.scale)
                apart = a[2] <= b[0] + 0.3 / scene.scale or b[2] <= a[0] + 0.3 / scene.scale
                above = a[3] <= b[1] + 0.3 / scene.scale or b[3] <= a[1] + 0.3 / scene.scale
                assert apart or above, (part, one.text, other.text)


def test_a_left_and_a_right_side_carry_the_same_figures():
    left, right = (
        marked_out(example("wall-cupboard"), f"{which} side", "1")[0] for which in ("left", "right")
    )
    for upright in (True, False):
        assert sorted(figures(left, upright)) == sorted(figures(right, upright))
    assert {0.0, 9.0, 228.6, 464.1, 711.1, 720.0} <= set(figures(left, True))
    assert {0.0, 37.0, 40.0, 300.2, 310.2, 320.2} <= set(figures(left, False))


def test_a_door_is_seen_from_behind_with_its_hinges_where_they_are():
    """Left door, from behind: its left edge is to the right on the paper, the cups 23.5 mm from it."""
    (scene,) = marked_out(example("wall-cupboard"), "left door 1", "1.8")
    cups = [one for one in scene.primitives if isinstance(one, Circle)]
    assert sorted((round(one.x, 3), round(one.y, 3)) for one in cups) == [(373.5, 100.0), (373.5, 617.0)]
    assert figures(scene, upright=False) == pytest.approx([397.0, 23.5, 0.0])
    assert {one.text for one in scene.primitives if isinstance(one, Text)} >= {"left edge", "upper edge"}


@pytest.mark.parametrize("name", ["wall-cupboard", "drawer-pedestal"])
def test_figures_are_those_of_the_places(name):
    """Every middle of a hole, as the part stands, is one of the figures of its drawing."""
    construction = example(name)
    for part in names_of(construction):
        stands = standing(construction, part)
        for scene in marked_out(construction, part, "1"):
            given = [*figures(scene, upright=True), *figures(scene, upright=False)]
            for one in construction.arranged.worked:
                if one.part == part and one.centres and stands is not None:
                    drawn = scene.title.endswith(stands.word(one.face))
                    for first, second in centres_of(stands, one) if drawn else []:
                        assert min(abs(first - figure) for figure in given) <= 0.05 + 1e-9
                        assert min(abs(second - figure) for figure in given) <= 0.05 + 1e-9
