"""Templates at 1:1, measured in their SVG: edge, cut, centre lines, zones, and both check lines."""

from datetime import date

import pytest
from drawings.measured import letterings, ways_of

from evenface.documents.templates_pages import template_pages
from evenface.drawings import pair_of, pattern_of, template_of, to_svg
from evenface.drawings.scene import Circle, Dimension
from evenface.shape.build import bar, d_shape, rounded_rectangle
from evenface.shape.cutter import Cutter
from evenface.shape.template import Guide, template_for
from evenface.shape.template_board import corner_holes, template_board
from evenface.shape.template_pair import paired

PART = rounded_rectangle(140, 60, 12)
CUTTER = Cutter(12.7, 30)


def made(work="inside"):
    return template_for(PART, work, Guide(24), CUTTER)


@pytest.mark.parametrize(("work", "away"), [("inside", 5.65), ("outside", -5.65)])
def test_edge_and_cut_lie_apart_by_the_offset(work, away):
    """(24 − 12.7)/2 = 5.65: the template's hole is larger than the cut, its outside smaller."""
    scene = template_of(made(work), "basin")
    assert scene.scale == 1.0
    (edge,) = ways_of(to_svg(scene), scene, "template")
    (cut,) = ways_of(to_svg(scene), scene, "part")
    low, high = PART.bounds[:2], PART.bounds[2:]
    assert cut.box == pytest.approx((*low, *high), abs=0.001)
    assert edge.box == pytest.approx(
        (low[0] - away, low[1] - away, high[0] + away, high[1] + away), abs=0.001
    )
    assert edge.radii == pytest.approx([12 + away] * 8, abs=0.001)


def test_both_check_lines_measure_100_mm():
    scenes = (template_of(made(), "a"), pattern_of([d_shape(120, 60, 8)], "b"))
    for scene in scenes:
        lengths = {one.angle_deg: one.length_mm for one in scene.primitives if isinstance(one, Dimension)}
        assert lengths == {0.0: pytest.approx(100.0, abs=1e-9), 90.0: pytest.approx(100.0, abs=1e-9)}


def test_it_says_guide_cutter_face_and_holes():
    words = " ".join(letterings(to_svg(template_of(made(), "basin", holes=corner_holes(PART)))))
    for part in ("bush 24 mm", "cutter 12.7 mm", "5.65 mm", "show face up", "24000", "4 holes of 24 mm"):
        assert part in words


def test_holes_and_hold_down_zones_where_they_belong():
    template = made()
    board = template_board(template, 152)
    scene = template_of(template, "basin", board=board, holes=corner_holes(PART))
    holes = [one for one in scene.primitives if isinstance(one, Circle) and one.layer == "holes"]
    left, low, right, high = PART.bounds
    assert {(round(hole.x, 6), round(hole.y, 6)) for hole in holes} == {
        (x, y) for x in (left + 12, right - 12) for y in (low + 12, high - 12)
    }
    assert [hole.radius_mm for hole in holes] == pytest.approx([12.0] * 4, abs=1e-9)
    zones = [way.box for way in ways_of(to_svg(scene), scene, "hold-down") if way.closed]
    for zone in board.hold_down:
        assert any(box == pytest.approx(zone, abs=0.001) for box in zones)
    assert letterings(to_svg(scene)).count("hold down here") == 2


def test_pair_shows_recess_and_the_gap():
    """Guides 27 and 17, cutter 5: (17 + 5 − 27 + 5)/2 = 0. Guide 18 leaves 0.5 on each side."""
    big, cutter = Guide(27), Cutter(5, 20)
    recess = bar(120, 40, 12)
    for small, gap in ((Guide(17), "0 mm"), (Guide(18), "0.5 mm")):
        scene = pair_of(paired(recess, big, small, cutter), (big, small), cutter, "grip")
        words = letterings(to_svg(scene))
        assert f"gap on each side {gap}" in words
        inserts = ways_of(to_svg(scene), scene, "insert")
        assert len(inserts) == (gap != "0 mm")
        for insert in inserts:
            assert insert.box[0] == pytest.approx(recess.bounds[0] + 0.5, abs=0.001)
        (drawn,) = ways_of(to_svg(scene), scene, "recess")
        assert drawn.box == pytest.approx(recess.bounds, abs=0.001)


def test_it_can_be_printed_over_pages():
    template = made()
    scene = template_of(template, "basin", board=template_board(template, 152))
    assert template_pages(scene, date(2026, 3, 4)).startswith(b"%PDF")


def test_nothing_to_draw():
    with pytest.raises(ValueError, match="at least one outline"):
        pattern_of([], "nothing")
