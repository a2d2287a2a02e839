"""Ways swept by a disc, slots along them, bending forms and scoop rails: by hand, and laws over random ones."""

from itertools import pairwise
from math import asin, cos, degrees, hypot, pi, radians, sin, sqrt, tan

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from evenface.shape.bending_form import BACK_MM, bending_form
from evenface.shape.build import slot
from evenface.shape.corner_pieces import bent_strips
from evenface.shape.cutter import Cutter
from evenface.shape.distance import least_distance
from evenface.shape.faults import ShapeError
from evenface.shape.hollow import Hollow
from evenface.shape.offset import swept
from evenface.shape.ring import segments_of
from evenface.shape.scoop_rail import END_MM, LAND_MM, UNDER_MM, deepest_scoop, scoop_rail
from evenface.shape.segment import Segment, arc_about
from evenface.shape.template import Guide
from evenface.shape.template_way import bends_of, template_along
from evenface.shape.validity import problems

TWELVE = Cutter(12, 60)


def way_of(*points):
    return tuple(Segment(*a, *b) for a, b in pairwise(points))


# ---- swept ----------------------------------------------------------------------------------------------


def test_a_straight_way_is_a_slot():
    assert swept(way_of((10, 20), (110, 20)), 15).same_as(slot(130, 30).moved(-5, 5))


def test_a_right_angle_by_hand():
    """160 long, r 10: two bars of 20, two half discs, a quarter disc outside the bend less the square inside."""
    made = swept(way_of((0, 0), (100, 0), (100, 60)), 10)
    assert made.area_mm2 == pytest.approx(160 * 20 + pi * 100 - 100 + pi * 25, abs=1e-9)
    assert made.bounds == pytest.approx((-10, -10, 110, 70))


def test_an_arc_is_swept_to_two_arcs():
    """A quarter of radius 50 and r 10: a quarter ring of radii 40 and 60, and two half discs."""
    made = swept((arc_about(0, 0, 50, 0, pi / 2),), 10)
    assert made.area_mm2 == pytest.approx(pi / 4 * (60**2 - 40**2) + pi * 100, abs=1e-9)
    assert {round(s.radius, 6) for s in made.segments} == {10, 40, 60}


def test_a_way_that_comes_back_leaves_a_hole():
    assert len(swept(way_of((0, 0), (100, 0), (100, 100), (0, 100), (0, 5)), 10).holes) == 1


@pytest.mark.parametrize(
    ("way", "radius", "problem"),
    [
        ((), 5, "path"),
        (way_of((0, 0), (9, 0)), 0, "size"),
        ((Segment(0, 0, 9, 0), Segment(10, 0, 20, 0)), 5, "path"),
    ],
)
def test_what_cannot_be_swept(way, radius, problem):
    with pytest.raises(ShapeError) as error:
        swept(way, radius)
    assert error.value.problem == problem


@st.composite
def open_ways(draw):
    """Two to four pieces, each turning by up to 80° from the last."""
    x, y, heading = 0.0, 0.0, 0.0
    points = [(x, y)]
    for _ in range(draw(st.integers(2, 4))):
        length = draw(st.floats(40, 120))
        x, y = x + length * cos(heading), y + length * sin(heading)
        points.append((x, y))
        heading += radians(draw(st.floats(-80, 80)))
    return way_of(*points)


@given(open_ways(), st.floats(4, 14))
@settings(max_examples=40, deadline=None)
def test_every_point_of_the_border_lies_at_the_radius(way, radius):
    made = swept(way, radius)
    assert not {flaw.problem for flaw in problems(made)} - {"tiny_segment"}
    assert least_distance(made.segments, way).distance_mm == pytest.approx(radius, abs=1e-5)
    for s in made.segments:
        assert min(piece.distance_to(s.at(0.5)) for piece in way) == pytest.approx(radius, abs=1e-5)


# ---- slots along a way ----------------------------------------------------------------------------------


def test_a_bent_slot_by_hand():
    """Bush 30, cutter 12, a right angle: slot 30 wide; inside the bend an arc of 9, 9·(√2 − 1) further in."""
    way = way_of((0, 0), (100, 0), (100, 60))
    made = template_along(way, Guide(30), TWELVE)
    assert made.offset_mm == 9
    assert made.outline.same_as(swept(way, 15))
    (bend,) = bends_of(way, made.offset_mm)
    assert (bend.turn_deg, bend.further_mm) == pytest.approx((90, 9 * (sqrt(2) - 1)))
    sharp = swept(way, 6)
    assert made.part.area_mm2 - sharp.area_mm2 == pytest.approx(81 - pi * 81 / 4, abs=1e-6)


def test_a_bearing_as_wide_as_its_cutter_makes_the_bend_sharp():
    way = way_of((0, 0), (100, 0), (100, 60))
    made = template_along(way, Guide(12, "bearing"), TWELVE)
    assert made.part.same_as(made.outline)
    assert bends_of(way, 0.0)[0].further_mm == 0


@given(open_ways(), st.floats(14, 24), st.floats(6, 13))
@settings(max_examples=30, deadline=None)
def test_what_comes_out_is_the_way_swept_and_never_less(way, guide, cutter):
    made = template_along(way, Guide(guide), Cutter(cutter, 60))
    sharp = swept(way, cutter / 2)
    assume(not sharp.holes)
    assert made.part.area_mm2 >= sharp.area_mm2 - 1e-6
    for s in segments_of(sharp.outer):
        assert made.part.contains(s.at(0.5), 1e-5)
    mirrored = template_along(
        tuple(Segment(-s.x0, s.y0, -s.x1, s.y1) for s in way), Guide(guide), Cutter(cutter, 60)
    )
    assert mirrored.outline.same_as(made.outline.mirrored(), 1e-5)


def test_too_short_a_piece_names_the_guide_that_would_do():
    """20 long between two right angles: the guide cuts off half of itself at both, so at most 20."""
    way = way_of((0, 0), (100, 0), (100, 20), (200, 20))
    with pytest.raises(ShapeError) as error:
        template_along(way, Guide(30), TWELVE)
    assert (error.value.problem, error.value.value) == ("too_tight", pytest.approx(20))
    assert "at most 20 mm would do" in str(error.value)
    assert template_along(way, Guide(20), TWELVE)


@pytest.mark.parametrize(
    ("way", "guide", "problem"),
    [
        (way_of((0, 0), (200, 0), (200, 200), (0, 200), (0, 8)), Guide(30), "island"),
        (way_of((0, 0), (200, 0)), Guide(12), "bush"),
        (way_of((0, 0), (200, 0)), Guide(10, "bearing"), "bearing"),
    ],
)
def test_impossible_slots_are_refused(way, guide, problem):
    with pytest.raises(ShapeError) as error:
        template_along(way, guide, TWELVE)
    assert error.value.problem == problem


# ---- bending forms --------------------------------------------------------------------------------------


def test_an_inside_form_by_hand():
    """R 60, w 12 in 4 strips: 1/16 springs back, so R 45 over 96°; outside 45 + 12."""
    bend = bent_strips(60, 12, 4)
    inside, outside = bending_form(bend, True, 50), bending_form(bend, False, 50)
    assert (inside.radius_mm, outside.radius_mm) == pytest.approx((45, 57))
    assert inside.sweep_deg == pytest.approx(96)
    (arc,) = [s for s in inside.outline.segments if s.is_arc]
    (hollow,) = [s for s in outside.outline.segments if s.is_arc]
    assert (arc.radius, arc.sweep) == pytest.approx((45, radians(96)))
    assert (hollow.radius, hollow.sweep) == pytest.approx((57, -radians(96)))
    half = radians(48)
    assert inside.outline.size[0] == pytest.approx(2 * (45 * sin(half) + 50 * cos(half)))
    assert inside.back[3] - inside.back[1] < BACK_MM


@given(st.floats(40, 400), st.floats(6, 30), st.integers(3, 12), st.floats(20, 130), st.floats(10, 90))
@settings(max_examples=40, deadline=None)
def test_both_forms_close_on_a_pack_of_even_thickness(radius, width, count, sweep, straight):
    assume(radius - width > 8)
    bend = bent_strips(radius, width, count, sweep_deg=sweep)
    inside, outside = (bending_form(bend, way, straight) for way in (True, False))
    assert not problems(inside.outline)
    assert not problems(outside.outline)
    apart = least_distance(inside.outline.segments, outside.outline.segments).distance_mm
    assert apart == pytest.approx(width, abs=1e-6)
    mean = (inside.radius_mm + width / 2) * radians(inside.sweep_deg)
    assert inside.pack.area_mm2 == pytest.approx(width * (mean + 2 * straight), rel=1e-9)
    assert inside.pack.same_as(outside.pack)
    for form in (inside, outside):
        assert form.outline.mirrored().same_as(form.outline, 1e-6)
        for line in form.begins:  # square to the strips, where arc and straight meet
            assert line.length == pytest.approx(width)
            assert min(hypot(line.x0 - v[0], line.y0 - v[1]) for v in inside.outline.outer) < 1e-9


def test_a_released_pack_comes_to_its_radius():
    """The share 1/n² of the form's curvature is lost: 1/45·(1 − 1/16) = 1/48, and 96°·15/16 = 90°."""
    bend = bent_strips(60, 12, 4)
    form = bending_form(bend, True)
    assert (1 - 1 / 16) / form.radius_mm == pytest.approx(1 / 48)
    assert form.sweep_deg * (1 - 1 / 16) == pytest.approx(90)


def test_a_bend_that_would_not_come_off():
    with pytest.raises(ShapeError, match="at most 150°") as error:
        bending_form(bent_strips(300, 12, 6, sweep_deg=170), True)
    assert error.value.problem == "sweep"


# ---- rails of a scoop -----------------------------------------------------------------------------------


def scoop(path, depth):
    half = path / 2
    radius = (half * half + depth * depth) / (2 * depth)
    return Hollow(Cutter(25, 60, "ball"), depth, way_of((0, 0), (path, 0)), scoop_radius_mm=radius)


def test_a_rail_by_hand():
    """80 long, 8 deep: R 104. Foot 16: hollows of R 112 on sin = 40/104, chord 2·112·40/104 = 86.154, their
    middles 107 apart, 112 − √(112² − 43.077²) = 8.615 deep."""
    rail = scoop_rail(scoop(80, 8), 16)
    arcs = [s for s in rail.outline.segments if s.is_arc]
    assert [s.radius for s in arcs] == pytest.approx([112, 112])
    assert [abs(s.x1 - s.x0) for s in arcs] == pytest.approx([2 * 112 * 40 / 104] * 2)
    assert rail.apart_mm == 107
    sag = 112 - sqrt(112**2 - (112 * 40 / 104) ** 2)
    assert rail.outline.size == pytest.approx((107 + 2 * 112 * 40 / 104 + 2 * END_MM, UNDER_MM + sag))
    assert rail.steepest_deg == pytest.approx(degrees(asin(40 / 104)))


@given(st.floats(30, 300), st.floats(0.05, 0.4), st.floats(6, 30), st.floats(-1, 1))
@settings(max_examples=40, deadline=None)
def test_both_feet_lie_on_the_rail_wherever_the_tip_is(path, share, foot, along):
    """Over its whole way a foot's centre stays half a foot from its own hollow: the carriage does not tip."""
    hollow = scoop(path, share * path / 2)
    rail = scoop_rail(hollow, foot)
    assert (
        rail.apart_mm >= 2 * (hollow.scoop_radius_mm + foot / 2) * sin(radians(rail.steepest_deg)) + LAND_MM
    )
    at = along * path / 2
    raised = hollow.depth_mm - hollow.tip_depth(at)
    for resting in rail.feet:
        x, y = (resting.bounds[0] + resting.bounds[2]) / 2, (resting.bounds[1] + resting.bounds[3]) / 2
        centre = (x + at, y + raised)
        assert min(s.distance_to(centre) for s in rail.outline.segments) == pytest.approx(foot / 2, abs=1e-6)
    assert rail.outline.same_as(rail.outline.mirrored(rail.outline.size[0] / 2), 1e-6)


def test_a_steep_scoop_names_the_path_that_would_do():
    """20 deep needs 2·20/tan(22.5°) = 96.57."""
    with pytest.raises(ShapeError) as error:
        scoop_rail(scoop(90, 20))
    assert (error.value.problem, error.value.value) == ("steep", pytest.approx(40 / tan(pi / 8)))
    assert scoop_rail(scoop(40 / tan(pi / 8) + 0.001, 20))
    assert deepest_scoop(40 / tan(pi / 8)) == pytest.approx(20)


def test_only_a_scoop_has_rails():
    with pytest.raises(ShapeError, match="only a scooped"):
        scoop_rail(Hollow(TWELVE, 8, way_of((0, 0), (80, 0))))


def test_an_even_hollow_has_its_opening_along_any_path():
    way = way_of((0, 0), (80, 0), (120, 30))
    assert Hollow(TWELVE, 8, way).section_at(0).same_as(swept(way, 6))
    ball = Hollow(Cutter(20, 60, "ball"), 8, way)
    assert ball.section_at(4).same_as(swept(way, 8))  # 4 above its tip a ball of 20 cuts 2·√(10² − 6²) wide
