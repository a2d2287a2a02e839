"""Corners with edging: closed forms by hand, and against the rings they stand for."""

from math import acos, atan2, cos, degrees, pi, radians, sin, sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from evenface.shape.build import CornerCut, rectangle
from evenface.shape.corner import (
    clip_legs,
    corner_reserve,
    largest_radius,
    mitre_angles,
    mitred_inside_length,
    smallest_width,
)
from evenface.shape.corner_pieces import bent_strips, clipped_corner, corner_block, full_ring, ring_segments
from evenface.shape.faults import ShapeError
from evenface.shape.reserve import reserve_inside
from evenface.shape.ring import ring_bounds

# 4 mm round-over where a carrier begins 0.9 below the face: 4 − √(4² − 3.1²) = 1.4722, and 2 mm to be left
WOOD = 2 + 4 - sqrt(16 - 3.1**2)


@pytest.mark.parametrize(
    ("radius", "w1", "w2", "reserve"),
    [
        (60, 14, 14, 60 - 46 * sqrt(2)),
        (60, 20, 20, 60 - 40 * sqrt(2)),
        (20, 40, 12, 12),
        (60, 14, 40, 60 - sqrt(46**2 + 20**2)),  # 9.840
        (5, 14, 9, 9),
        (0, 14, 9, 9),
    ],
)
def test_reserve_by_hand(radius, w1, w2, reserve):
    assert corner_reserve(radius, w1, w2) == pytest.approx(reserve, abs=1e-12)
    assert corner_reserve(radius, w2, w1) == pytest.approx(reserve, abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(st.floats(2, 140), st.floats(3, 70), st.floats(3, 70))
def test_reserve_is_that_of_the_rings(radius, w1, w2):
    """Panel 600 × 400, one round corner, edging w1 on the left and w2 in front, plenty elsewhere."""
    square = CornerCut()
    panel = rectangle(600, 400, [CornerCut("radius", radius), square, square, square])
    carrier = rectangle(600 - w1 - 100, 400 - w2 - 100).moved(w1, w2)
    assert corner_reserve(radius, w1, w2) == pytest.approx(
        reserve_inside(carrier.outer, panel.outer).reserve_mm, abs=1e-7
    )


def test_smallest_width_and_largest_radius_by_hand():
    """R 60, 3.47 mm: 60·0.29289 + 3.4722·0.70711 = 20.03; 14 carries (√2·14 − 3.4722)/(√2 − 1) = 39.42."""
    assert smallest_width(60, WOOD) == pytest.approx(20.0288, abs=1e-4)
    assert largest_radius(14, WOOD) == pytest.approx(39.4165, abs=1e-4)
    assert smallest_width(60, 6) == pytest.approx(60 * (1 - 1 / sqrt(2)) + 6 / sqrt(2))
    assert largest_radius(14, 6) == pytest.approx(33.3137, abs=1e-4)
    assert smallest_width(3, 5) == 5  # a radius below the wood wanted: the straights decide


@settings(max_examples=60, deadline=None)
@given(st.floats(0.5, 8), st.floats(8, 40), st.floats(8, 40))
def test_remedies_leave_exactly_the_wood(m, w1, w2):
    R = largest_radius(w1, m, w2)
    assert corner_reserve(R, w1, w2) >= m - 1e-9
    assert corner_reserve(R + 0.01, w1, w2) < m
    assert corner_reserve(R * 1.2, *(smallest_width(R * 1.2, m),) * 2) == pytest.approx(m)
    # where a neighbour is exactly as wide as the wood wanted the root is double: rounding enters by its square root
    assert smallest_width(R, m, w2) <= w1 + 1e-6


@settings(max_examples=60, deadline=None)
@given(st.floats(30, 140), st.floats(6, 20), st.floats(6, 20), st.floats(1, 5))
def test_clipped_carrier_keeps_the_wood_in_the_rings_too(R, w1, w2, m):
    legs = clip_legs(R, w1, w2, m)
    assume(min(legs) > 0.1)
    square = CornerCut()
    panel = rectangle(800, 600, [CornerCut("radius", R), square, square, square])
    carrier = rectangle(600, 400).moved(w1, w2)
    clipped = [(w1 + legs[0], w2, 0.0), *carrier.outer[1:], (w1, w2 + legs[1], 0.0)]
    reserve = reserve_inside(tuple(clipped), panel.outer).reserve_mm
    assert reserve == pytest.approx(m, abs=1e-7)


def test_clip_by_hand():
    """c = 46 − √((60 − 3.4722)² − 46²) = 13.145; wood at the middle (28 + c)/√2 − 60(√2 − 1)."""
    c = 46 - sqrt((60 - WOOD) ** 2 - 46**2)
    assert clip_legs(60, 14, 14, WOOD) == pytest.approx((c, c))
    assert c == pytest.approx(13.14, abs=0.01)
    clipped = clipped_corner(60, 14, WOOD)
    middle = (28 + c) / sqrt(2) - 60 * (sqrt(2) - 1)
    assert clipped.wood_at_middle_mm == pytest.approx(middle)
    assert clipped.carrier_flat_mm == pytest.approx(c * sqrt(2))
    assert clipped.block.length_mm == pytest.approx(2 * sqrt(60**2 - (60 - middle) ** 2))
    assert clipped.block.run_out_deg == pytest.approx(degrees(acos((60 - middle) / 60)))
    with pytest.raises(ShapeError, match=r"at least 13\.15"):
        clipped_corner(60, 14, WOOD, leg_mm=12)
    with pytest.raises(ShapeError, match="no clip is needed"):
        clipped_corner(20, 14, 2)


def test_ring_segments_by_hand():
    """R 60, w 14: n 1 → 84.85 × 27.47, 45°; n 3 → 31.06 × 15.57, 15°."""
    one, three = ring_segments(60, 14, 1), ring_segments(60, 14, 3)
    assert (one.length_mm, one.depth_mm) == pytest.approx((120 * sin(pi / 4), 60 - 46 * cos(pi / 4)))
    assert (one.run_out_deg, three.run_out_deg, three.mitre_deg) == pytest.approx((45, 15, 15))
    assert (three.length_mm, three.depth_mm) == pytest.approx((31.0583, 15.5674), abs=1e-4)


@settings(max_examples=40, deadline=None)
@given(st.floats(30, 200), st.floats(5, 28), st.integers(1, 6))
def test_a_segment_fits_its_blank_exactly(R, w, n):
    """The piece between radii R − w and R: its bounds along and across the chord are the blank."""
    blank, half = ring_segments(R, w, n), radians(90 / n / 2)
    ring = (
        (-(R - w) * sin(half), (R - w) * cos(half), 0.0),
        (-R * sin(half), R * cos(half), -sin(half / 2) / cos(half / 2)),
        (R * sin(half), R * cos(half), 0.0),
        ((R - w) * sin(half), (R - w) * cos(half), sin(half / 2) / cos(half / 2)),
    )
    left, low, right, high = ring_bounds(ring)
    assert (right - left, high - low) == pytest.approx((blank.length_mm, blank.depth_mm))


def test_full_ring_and_block():
    """12 segments about R 300: 600·tan 15° = 160.77 long, mitres 15°; a block is as long as the radius."""
    ring = full_ring(300, 40, 12)
    assert ring.length_mm == pytest.approx(160.770, abs=1e-3)
    assert ring.depth_mm == pytest.approx(300 - 260 * cos(pi / 12))
    assert ring.mitre_deg == pytest.approx(15)
    assert corner_block(60, 14).across_grain_mm == 60


def test_bent_strips_by_hand():
    """R 60, w 14, 1 %: mean radius 53 → t ≤ 1.06, so 14 strips of 1.0; four lose 1/16: 5.6° of 90°."""
    fourteen = bent_strips(60, 14)
    assert (fourteen.count, fourteen.thickness_mm) == (14, 1.0)
    assert fourteen.strain == pytest.approx(1 / 106)
    assert fourteen.strain_inner == pytest.approx(1 / 93)
    four = bent_strips(60, 14, 4)
    assert four.spring_back_deg == pytest.approx(5.625)
    assert (four.form_inner_mm, four.form_outer_mm) == pytest.approx((46 * 15 / 16, 60 * 15 / 16))
    assert sum(four.lengths_mm) / 4 == pytest.approx(53 * pi / 2)  # mean length lies on the mean radius
    assert bent_strips(60, 14, 4, straight_mm=100).lengths_mm[0] == pytest.approx(four.lengths_mm[0] + 200)


@given(st.floats(30, 300), st.floats(4, 25), st.integers(2, 20))
def test_the_form_and_what_springs_back_give_the_radius(R, w, n):
    """Curvature of the form less its lost share is 1/R; turned angle less the lost share is 90°."""
    strips = bent_strips(R, w, n)
    assert (1 - strips.lost_share) / strips.form_outer_mm == pytest.approx(1 / R)
    assert strips.form_sweep_deg * (1 - strips.lost_share) == pytest.approx(90)


def test_unequal_mitres():
    """14 beside 40: atan(14/40) = 19.29°, the inside length loses the neighbours' widths."""
    assert mitre_angles(14, 40) == pytest.approx((degrees(atan2(14, 40)), degrees(atan2(40, 14))))
    assert mitre_angles(14, 40)[0] == pytest.approx(19.29, abs=0.005)
    assert mitre_angles(14, 14) == pytest.approx((45, 45))
    assert mitred_inside_length(600, 14, (40, 20)) == pytest.approx(540)
    # 135°, equal widths: half each, and long − w·cot 67.5° per end
    assert mitre_angles(14, 14, radians(135)) == pytest.approx((67.5, 67.5))
    assert mitred_inside_length(600, 14, (14, 14), radians(135)) == pytest.approx(600 - 2 * 14 * 0.41421356)


@given(st.floats(5, 60), st.floats(5, 60), st.floats(0.4, 2.7))
def test_both_edgings_share_the_joint(w1, w2, corner):
    """The joint's length w/sin α is the same from both sides, and the angles fill the corner."""
    a1, a2 = (radians(a) for a in mitre_angles(w1, w2, corner))
    assert a1 + a2 == pytest.approx(corner)
    assert w1 / sin(a1) == pytest.approx(w2 / sin(a2))


@pytest.mark.parametrize(
    "build",
    [
        lambda: largest_radius(2, 3),
        lambda: smallest_width(60, 5, 4),
        lambda: ring_segments(14, 20, 2),
        lambda: bent_strips(60, 14, 1),
        lambda: clip_legs(60, 2, 14, 3),
        lambda: corner_reserve(-1, 5, 5),
    ],
)
def test_what_cannot_be_is_refused(build):
    with pytest.raises(ShapeError):
        build()


def test_thin_edging_and_large_radius_exclude_each_other():
    """With 3.47 mm of wood, 12 mm carries R 32 and 6 mm R 12."""
    assert largest_radius(12, WOOD) == pytest.approx(32.6, abs=0.05)
    assert largest_radius(6, WOOD) == pytest.approx(12.1, abs=0.05)
