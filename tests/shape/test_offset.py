"""Offsets: laws that hold for every outline, collapses by hand, shapely as second opinion."""

from math import asin, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shape.shape_samples import any_outline, notched, panels, polygon

from evenface.shape.build import CornerCut, Notch, circle, rectangle, rounded_rectangle, slot
from evenface.shape.distance import least_distance
from evenface.shape.faults import ShapeError
from evenface.shape.offset import offset, offset_each
from evenface.shape.validity import problems

# shapely gives back nothing for a buffer of 1e-200, and no maker asks for one
DISTANCES = st.one_of(st.floats(-30, -0.01), st.floats(0.01, 60))


@settings(max_examples=40, deadline=None)
@given(panels(), st.floats(0.5, 80))
def test_steiner(o, d):
    """A convex outline grown by d: A + P·d + πd², P + 2πd."""
    grown = offset(o, d).only
    assert grown.area_mm2 == pytest.approx(o.area_mm2 + o.perimeter_mm * d + pi * d * d, rel=1e-10)
    assert grown.perimeter_mm == pytest.approx(o.perimeter_mm + 2 * pi * d, rel=1e-10)


@settings(max_examples=40, deadline=None)
@given(panels(), st.floats(0.5, 60))
def test_out_then_in_returns_a_convex_outline(o, d):
    assert offset(offset(o, d).only, -d).only.same_as(o, 1e-5)


@settings(max_examples=25, deadline=None)
@given(notched(), st.floats(0.5, 9))
def test_in_then_out_never_leaves_the_outline_and_out_then_in_never_cuts_into_it(o, d):
    """Opening is inside, closing is outside, whatever the radii allow."""
    opened = sum(p.area_mm2 for s in offset(o, -d).outlines for p in offset(s, d).outlines)
    closed = offset(offset(o, d).only, -d).area_mm2
    assert opened <= o.area_mm2 + 1e-6 <= closed + 2e-6


def test_radii_that_allow_come_back_in_both_directions():
    """Every inner and outer corner has r 12: 10 in and out, and out and in, return it."""
    o = rectangle(400, 300, [CornerCut("radius", 12)] * 4, [Notch("back", 100, 80, 60, 12)])
    o = offset(offset(o, 12).only, -12).only  # rounds nothing: the notch's mouth corners stay sharp
    assert offset(offset(o, 10).only, -10).only.same_as(o, 1e-6)


@settings(max_examples=40, deadline=None)
@given(any_outline(), DISTANCES)
def test_every_piece_lies_at_the_distance(o, d):
    """No point nearer than |d|; ends and middles exactly at it; no flaw in the result."""
    result = offset(o, d)
    for part in result.outlines:
        assert {flaw.problem for flaw in problems(part)} <= {"tiny_segment"}  # which may be the true shape
        assert least_distance(part.segments, o.segments).distance_mm == pytest.approx(abs(d), abs=1e-5)
        for s in part.segments:
            for share in (0.0, 0.5):
                assert min(t.distance_to(s.at(share)) for t in o.segments) == pytest.approx(abs(d), abs=1e-5)


@settings(max_examples=40, deadline=None)
@given(any_outline(), DISTANCES)
def test_area_agrees_with_shapely(o, d):
    """Second opinion, quad_segs 200, chords within 1e-3 mm.

    The engine behind shapely straightens hollow stretches by up to 1 % of the distance before it starts, so
    that times the length is all it can vouch for; the next test is the sharp one.
    """
    theirs = polygon(o, 1e-3).buffer(d, quad_segs=200).area
    assert offset(o, d).area_mm2 == pytest.approx(theirs, rel=1e-4, abs=0.01 * abs(d) * o.perimeter_mm + 0.5)


@settings(max_examples=40, deadline=None)
@given(any_outline(), DISTANCES, st.lists(st.tuples(st.floats(-0.2, 1.2), st.floats(-0.2, 1.2)), min_size=20))
def test_a_point_is_in_the_result_when_its_signed_distance_says_so(o, d, shares):
    left, low, right, high = o.bounds
    result = offset(o, d)
    for u, v in shares:
        point = (left + u * (right - left), low + v * (high - low))
        away = min(s.distance_to(point) for s in o.segments)
        depth = (away if o.contains(point) else -away) + d
        if abs(depth) > 1e-5:
            assert any(part.contains(point) for part in result.outlines) == (depth > 0)


@settings(max_examples=25, deadline=None)
@given(any_outline(), DISTANCES, st.floats(-50, 50))
def test_mirror_and_offset_may_change_places(o, d, x):
    """Mirrored part = mirrored template."""
    one, two = offset(o.mirrored(x), d), offset(o, d)
    assert len(one.outlines) == len(two.outlines)
    assert one.area_mm2 == pytest.approx(two.area_mm2, rel=1e-9, abs=1e-6)
    if len(one.outlines) == 1:
        assert one.only.same_as(two.only.mirrored(x), 1e-5)


def test_arcs_with_less_radius_than_the_offset_vanish():
    """R 60 in by 20 keeps R 40; in by 60 and more the corners are sharp."""
    o = rounded_rectangle(600, 400, 60)
    assert {round(s.radius, 9) for s in offset(o, -20).only.segments} == {0, 40}
    assert offset(o, -60).only.same_as(rectangle(480, 280).moved(60, 60))
    assert offset(o, -75).only.same_as(rectangle(450, 250).moved(75, 75))


def test_an_outline_splits_where_a_neck_is_too_narrow():
    """H of two 100 × 200 blocks and a 20 neck: by 12 it splits in two 76 × 176 blocks.

    Each bulges into the neck between arcs of 12 about its two mouth corners: twice the integral from 0 to 10
    of 12 − √(144 − y²), that is 2·(120 − 5√44 − 72·asin(10/12)) = 31.81 mm² more.
    """
    h = rectangle(300, 200, notches=[Notch("front", 100, 100, 90), Notch("back", 100, 100, 90)])
    result = offset(h, -12)
    assert result.split
    bulge = 2 * (120 - 5 * sqrt(44) - 72 * asin(10 / 12))
    assert [o.area_mm2 for o in result.outlines] == pytest.approx([76 * 176 + bulge] * 2)
    with pytest.raises(ShapeError) as error:
        _ = result.only
    assert error.value.problem == "split"


def test_vanishing_and_exact_collapse():
    assert offset(slot(100, 30), -15).vanished
    assert offset(slot(100, 30), -15.1).vanished
    assert not offset(slot(100, 30), -14.99).vanished
    with pytest.raises(ShapeError) as error:
        _ = offset(slot(100, 30), -16).only
    assert error.value.problem == "vanished"


def test_a_notch_closes_when_grown_by_half_its_width():
    """10 wide, 80 deep, out by 20: the notch leaves a dimple of two arcs r 20 at its mouth."""
    o = rectangle(100, 100, notches=[Notch("back", 30, 10, 80)])
    grown = offset(o, 20).only
    dip = grown.area_mm2 - (100 * 100 + 400 * 20 + pi * 400)
    # two arcs of r 20, centres 10 apart: the dimple is 10·20 less the arcs' area between them
    under = 2 * (20**2 / 2 * (pi / 2 - 1.3181160716528182) + 5 * sqrt(20**2 - 5**2) / 2)  # acos(5/20)
    assert dip == pytest.approx(-(200 - under), abs=1e-9)


def test_holes_shrink_as_the_outline_grows_and_vanish():
    o = circle(100).with_hole(circle(20))
    assert offset(o, 4).area_mm2 == pytest.approx(pi * (54**2 - 6**2))
    assert offset(o, 12).only.holes == ()
    assert offset(o, -15).area_mm2 == pytest.approx(pi * (35**2 - 25**2))


def test_mitred_corners_stay_sharp():
    assert offset(rectangle(100, 50), 3, "mitre").only.same_as(rectangle(106, 56).moved(-3, -3))


def test_each_side_by_its_own_distance():
    """Edging 14 front, 20 right, 30 back, 40 left: the carrier is 540 × 356 at (40, 14)."""
    inner = offset_each(rectangle(600, 400), [-14, -20, -30, -40])
    assert inner.same_as(rectangle(540, 356).moved(40, 14))
    alike = rounded_rectangle(600, 400, 60)
    assert offset_each(alike, [-14] * 8).same_as(offset(alike, -14).only, 1e-6)


def test_unequal_distances_beside_a_tangent_arc_are_refused_with_the_place():
    with pytest.raises(ShapeError) as error:
        offset_each(rounded_rectangle(600, 400, 60), [-14, -14, -8, -14, -14, -14, -14, -14])
    assert error.value.problem == "no_meeting"
    assert error.value.place is not None


def test_a_side_used_up_is_refused():
    with pytest.raises(ShapeError) as error:
        offset_each(rectangle(600, 50), [-26, -10, -26, -10])
    assert error.value.problem == "used_up"
