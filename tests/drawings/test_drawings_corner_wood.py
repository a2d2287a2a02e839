"""Built corners and curved edging in plan: every joint where the record has it; legends say what has no room."""

from dataclasses import replace
from math import atan2, cos, hypot, pi, sin

import pytest
from drawings.measured import letterings, ways_of
from drawings.sample_panels import box, built, edges
from drawings.test_drawings_clear import check_clear

from evenface.drawings import plan_of, to_svg
from evenface.drawings.legend import outline_size
from evenface.drawings.plan_details import details_of
from evenface.drawings.scene import Area, Fill, Path, text_box, texts_of
from evenface.piece.records import Corner, CornerAt, Cutout, Meeting, Panel
from evenface.shape.build import circle, d_shape, rounded_rectangle, slot
from evenface.shape.ring import ring_area, segments_of
from evenface.words import ENGLISH, Manner

R, W = 60.0, 20.0


def panel(construction, at=CornerAt.FRONT_LEFT, seen=True, pieces=0, radius=R):
    corner = Corner(at, "radius", radius, construction, pieces=pieces, origin="c")
    meeting = Meeting.FLUSH if seen else Meeting.UNDER
    return built(Panel("top", 1, 900, 500, "b", edges=edges((W,) * 4, meeting, meeting), corners=(corner,)))


def areas(scene):
    return [one for one in scene.primitives if isinstance(one, Area) and one.fill is Fill.LONG_GRAIN]


@pytest.mark.parametrize("at", list(CornerAt))
def test_segments_meet_on_the_radii(at):
    """Three segments: joints at 30° and 60° of the corner, from R − w to R about its centre, in each corner."""
    scene = plan_of(panel("ring", at, pieces=3), scale=0.2)
    right, rear = "right" in at.value, "rear" in at.value
    cx, cy = 900 - R if right else R, 500 - R if rear else R
    sx, sy = (1 if right else -1), (1 if rear else -1)
    found = [way.points for way in ways_of(to_svg(scene), scene, "edging") if len(way.points) == 2]
    for degrees in (30, 60):
        c, s = cos(degrees * pi / 180), sin(degrees * pi / 180)
        ends = [(cx + sx * r * c, cy + sy * r * s) for r in (R, R - W)]
        assert any(
            max(hypot(a[0] - b[0], a[1] - b[1]) for a, b in zip(sorted(points), sorted(ends), strict=True))
            < 0.01
            for points in found
        )
    assert len(areas(scene)) == 3


def test_the_grain_of_a_segment_runs_along_its_chord():
    (one, two) = areas(plan_of(panel("ring", pieces=2), scale=0.5))
    assert sorted((round(one.angle_deg % 180, 6), round(two.angle_deg % 180, 6))) == pytest.approx(
        [112.5, 157.5]
    )
    mirrored = areas(plan_of(panel("ring", CornerAt.FRONT_RIGHT, pieces=2), scale=0.5))
    assert sorted(round(area.angle_deg % 180, 6) for area in mirrored) == pytest.approx([22.5, 67.5])


@pytest.mark.parametrize(
    ("construction", "area"),
    [("block", R * R - (1 - pi / 4) * R * R), ("ring", pi / 4 * (R**2 - (R - W) ** 2))],
)
def test_the_grain_fills_the_piece_and_nothing_else(construction, area):
    scene = plan_of(panel(construction), scale=0.5)
    assert sum(abs(ring_area(ring)) for one in areas(scene) for ring in one.rings) == pytest.approx(area)


def test_a_clipped_corner_shows_its_block():
    """The block stands on the joint between the edgings: its area is that of the corner cut off, rounded."""
    made = panel("clipped", radius=80.0)
    (block,) = areas(plan_of(made, scale=0.5))
    corner = made.corners[0]
    outside = corner.along_x[0]
    rounded = outside * outside / 2 - (1 - pi / 4) * 80.0**2
    if outside < 80.0:
        from_centre = 80.0 - corner.blank.depth_mm
        half = (80.0**2 - from_centre**2) ** 0.5
        rounded = 80.0**2 * atan2(half, from_centre) - from_centre * half
    assert abs(ring_area(block.rings[0])) == pytest.approx(rounded, rel=1e-6)
    assert block.angle_deg % 180 == pytest.approx(135)


def test_strips_show_the_glue_lines_that_can_be_told_apart():
    """Eight strips of 2.5: at 1:2 seven lines, 1.25 mm apart; at 1:20 every fourth, 0.5 mm apart."""
    for scale, radii in ((0.5, {57.5, 55, 52.5, 50, 47.5, 45, 42.5}), (0.05, {50.0})):
        scene = plan_of(panel("strips", pieces=8), scale=scale)
        arcs = [
            s
            for one in scene.primitives
            if isinstance(one, Path) and one.layer == "edging"
            for s in segments_of(one.vertices)[:1]
            if s.is_arc
        ]
        assert {round(s.radius, 3) for s in arcs} == radii | {R - W}
        assert all(hypot(s.cx - R, s.cy - R) < 1e-6 for s in arcs)


def test_under_a_facing_joints_are_dashed_and_no_grain_is_seen():
    for construction in ("block", "ring", "strips", "clipped"):
        assert not areas(plan_of(panel(construction, seen=False), scale=0.5))


# ---- legend ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("outline", "text"),
    [
        (circle(35, (9, 9)), "Ø35"),
        (rounded_rectangle(400, 260, 20), "400 × 260, R20"),
        (slot(120, 40), "120 × 40, R20"),
        (box(0, 0, 90, 60), "90 × 60"),
    ],
)
def test_sizes_in_the_legend(outline, text):
    assert outline_size(outline, ENGLISH) == text


def test_a_d_names_both_its_radii():
    assert outline_size(d_shape(160, 50, 9), ENGLISH).count("R") == 2


def crowded():
    names = ("basin", "tap", "left pipe", "right pipe", "cable", "second cable", "vent")
    outlines = (
        rounded_rectangle(400, 260, 20).moved(250, 150), circle(35, (450, 440)), circle(50, (200, 420)),
        circle(50, (260, 420)), rounded_rectangle(60, 90, 12).moved(60, 380), box(40, 60, 90, 60),
        circle(30, (700, 430)),
    )  # fmt: skip
    cutouts = tuple(Cutout(name, outline) for name, outline in zip(names, outlines, strict=True))
    return replace(panel("block"), panel=replace(panel("block").panel, cutouts=cutouts))


@pytest.mark.parametrize("scale", [0.2, 0.1, 0.05, 0.02])
@pytest.mark.parametrize("system", ["mm", "inch"])
def test_a_crowded_plan_names_everything_somewhere_and_nothing_in_another(scale, system):
    made = crowded()
    scene = plan_of(made, Manner(system), scale)
    check_clear(scene)
    words = letterings(to_svg(scene))
    rows = " ".join(words)
    for detail in details_of(made):
        assert detail.name in rows
        for text in texts_of(scene.primitives):
            if text.text == detail.name and text.layer == "labels":
                a = text_box(text, scene.scale)
                for other in details_of(made):
                    b = other.box
                    assert other == detail or not (
                        a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
                    )
    if system == "mm":
        assert "basin 400 × 260, R20" in rows
        assert "front left corner R60 mm, block" in rows


def test_a_number_in_the_plan_stands_in_the_legend_too():
    scene = plan_of(crowded(), scale=0.02)
    words = letterings(to_svg(scene))
    numbers = [word for word in words if word.startswith("(") and word.endswith(")")]
    assert numbers
    for number in numbers:
        assert any(f"{number} " in row for row in words if row != number)
