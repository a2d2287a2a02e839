"""Least distances and signed reserves, by hand and against shapely."""

from itertools import pairwise
from math import hypot, sqrt

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shape.shape_samples import any_outline, panels, polygon

from evenface.shape.build import CornerCut, circle, rectangle, rounded_rectangle, slot
from evenface.shape.distance import least_distance, segment_distance
from evenface.shape.offset import offset
from evenface.shape.reserve import reserve_inside, reserve_outside
from evenface.shape.ring import segments_of
from evenface.shape.segment import Segment, arc_about


def carrier(length, width, w):
    return rectangle(length - 2 * w, width - 2 * w).moved(w, w)


@pytest.mark.parametrize(
    ("radius", "width", "reserve"),
    [
        (60, 14, 60 - 46 * sqrt(2)),  # −5.0538: the carrier's corner stands 46√2 from the centre
        (60, 20, 60 - 40 * sqrt(2)),  # 3.4315
        (20, 12, 20 - 8 * sqrt(2)),  # 8.6863
        (6, 14, 14),  # radius within the edging: the straights decide
    ],
)
def test_square_carrier_in_a_rounded_panel(radius, width, reserve):
    panel = rounded_rectangle(600, 400, radius)
    found = reserve_inside(carrier(600, 400, width).outer, panel.outer)
    assert found.reserve_mm == pytest.approx(reserve, abs=1e-9)


def test_unequal_widths_wider_than_the_radius_do_not_stop_falsely():
    """R 20 behind 40 and 12: 12 mm of wood, along the straight."""
    inner = rectangle(600 - 80, 400 - 24).moved(40, 12)
    assert reserve_inside(inner.outer, rounded_rectangle(600, 400, 20).outer).reserve_mm == pytest.approx(12)


def test_line_and_arc_by_hand():
    """A line 3 above a half circle of r 10: 3; shifted past its end: to the end point."""
    arc = arc_about(0, 0, 10, 0, 3.14159265358979)
    assert segment_distance(Segment(-5, 13, 5, 13), arc)[0] == pytest.approx(3)
    apart, p, q = segment_distance(Segment(12, -8, 20, -8), arc)
    assert apart == pytest.approx(hypot(2, 8))
    assert p == (12, -8)
    assert q == pytest.approx((10, 0))


def test_arcs_facing_each_other_and_inside_each_other():
    """Circles r 10 and r 4, centres 20 apart: 6; 3 apart: 10 − 4 − 3 = 3; concentric: 6."""
    big = circle(20)
    for apart, least in ((20, 6), (3, 3), (0, 6)):
        small = circle(8, (apart, 0))
        assert least_distance(big.segments, small.segments).distance_mm == pytest.approx(least)


def test_poking_out_depth_is_the_farthest_point_not_a_vertex():
    """A circle r 30 about (0, 25) in a bar y ≤ 40: its top pokes out 15, found on the arc."""
    bar = rectangle(200, 100).moved(-100, -60)
    found = reserve_inside(circle(60, (0, 25)).outer, bar.outer)
    assert found.reserve_mm == pytest.approx(-15, abs=1e-8)
    assert found.at == pytest.approx((0, 55), abs=1e-4)


def test_poking_out_over_a_notch_is_found_between_two_sides():
    """A line across the mouth of a 40 wide, deep notch: its middle is 20 from both sides."""
    u = rectangle(200, 100).with_hole(rectangle(40, 60).moved(80, 20))  # the hole stands for the notch
    across = rectangle(100, 2).moved(50, 49)
    found = reserve_outside(across.outer, u.holes[0])
    # the strip runs through the hole's middle: deepest point is 20 from both long sides
    assert found.reserve_mm == pytest.approx(-20, abs=1e-8)


@settings(max_examples=40, deadline=None)
@given(any_outline(), any_outline(), st.floats(0, 900), st.floats(0, 900))
def test_least_distance_agrees_with_shapely(a, b, dx, dy):
    """Chords within 1e-4 mm on either side: agreement within 3e-4."""
    b = b.moved(dx, dy)
    ours = least_distance(a.segments, b.segments).distance_mm
    theirs = polygon(a).boundary.distance(polygon(b).boundary)
    assert ours == pytest.approx(theirs, abs=3e-4)


@settings(max_examples=25, deadline=None)
@given(panels(), panels(), st.floats(-60, 60), st.floats(-60, 60))
def test_poke_out_is_the_depth_at_which_the_outline_must_grow(inner, outer, dx, dy):
    """Grown by the missing reserve the outer ring just holds the inner one; by 0.01 less it does not."""
    inner = inner.moved(dx, dy)
    missing = -reserve_inside(inner.outer, outer.outer).reserve_mm
    assume(missing > 0.05)
    grown = offset(outer, missing + 1e-5).only
    assert reserve_inside(inner.outer, grown.outer).reserve_mm >= -1e-6
    short = offset(outer, missing - 0.01).only
    assert reserve_inside(inner.outer, short.outer).reserve_mm == pytest.approx(-0.01, abs=1e-5)


@settings(max_examples=30, deadline=None)
@given(panels(("square", "radius")), st.lists(st.floats(0.5, 40), min_size=2, max_size=4))
def test_containment_falls_with_the_reserve(panel, steps):
    """Moving the inner ring outwards step by step never increases the reserve, and each step counts whole."""
    length, width = panel.size
    start = rectangle(length * 0.3, width * 0.3).moved(length * 0.35, width * 0.35)
    rings = [offset(start, sum(steps[: k + 1])).only.outer for k in range(len(steps))]
    reserves = [reserve_inside(ring, panel.outer).reserve_mm for ring in rings]
    for (before, after), step in zip(pairwise(reserves), steps[1:], strict=True):
        assert after < before
        assert before - after <= step + 1e-6


def test_reserve_outside_is_the_gap_between_two_and_negative_when_they_overlap():
    """Two circles r 10: 25 apart leaves 5, 15 apart: 5 deep; one in another counts by its depth."""
    assert reserve_outside(circle(20).outer, circle(20, (25, 0)).outer).reserve_mm == pytest.approx(5)
    assert reserve_outside(circle(20).outer, circle(20, (15, 0)).outer).reserve_mm == pytest.approx(
        -5, abs=1e-7
    )
    assert reserve_outside(circle(100).outer, circle(20).outer).reserve_mm == pytest.approx(-40, abs=1e-7)


@pytest.mark.parametrize(
    ("outline", "depth"),
    [
        (circle(20), 10),
        (slot(100, 30), 15),
        (rectangle(80, 50), 25),
        (rounded_rectangle(80, 50, 9).rotated(0.7).moved(3, -8), 25),
        (
            rectangle(300, 200, [CornerCut("notch", bite_mm=(200, 120)), *[CornerCut()] * 3]),
            180 - sqrt(16000),
        ),
    ],
)
def test_two_outlines_that_lie_on_one_another_overlap_by_their_deepest_point(outline, depth):
    """No point of either ring lies inside the other, and still they are not merely touching.

    The L: the largest disc in it touches two outer sides and the inner corner, (100 − r)² + (80 − r)² = r².
    """
    found = reserve_outside(outline.outer, outline.outer)
    assert found.reserve_mm == pytest.approx(-depth, abs=1e-3)
    assert min(s.distance_to(found.at) for s in outline.segments) == pytest.approx(depth, abs=2e-3)
    shifted = (*outline.outer[1:], outline.outer[0])  # the same ring, begun elsewhere
    assert reserve_outside(outline.outer, shifted).reserve_mm == pytest.approx(-depth, abs=1e-3)
    moved = outline.moved(1e-3, 0.0)
    assert reserve_outside(outline.outer, moved.outer).reserve_mm < 0


def test_many_segments_are_pruned_but_the_result_stays():
    """64 × 64 segments: the same least distance as all pairs looked at one by one."""
    a = slot(300, 60)
    steps = [p for s in a.segments for p in (s.part(k / 16, (k + 1) / 16) for k in range(16))]
    b = [s for o in (rectangle(20, 20, [CornerCut("radius", 5)] * 4).moved(30 * k, 75) for k in range(8))
         for s in segments_of(o.outer)]  # fmt: skip
    assert (len(steps), len(b)) == (64, 64)
    slow = min(segment_distance(p, q)[0] for p in steps for q in b)
    assert least_distance(steps, b).distance_mm == slow == pytest.approx(15)


def test_shapely_needs_many_segments_to_see_what_the_closed_form_sees():
    """quad_segs 8 on R 60, w 20 reads 3.415 where 3.4315 is true: why it is only a second opinion."""
    coarse = shapely.box(60, 60, 540, 340).buffer(60, quad_segs=8)
    read = coarse.boundary.distance(shapely.box(20, 20, 580, 380))
    assert read == pytest.approx(3.415, abs=1e-3)
