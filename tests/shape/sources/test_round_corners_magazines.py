"""Round corners behind edging: two magazine articles on edged tops (READ: construction), the sums DERIVED.

The articles build corners of a block, of segments or of bent strips round a carrier rounded to R − w. A square
carrier corner stays covered while √((R − w1)² + (R − w2)²) ≤ R − m, for equal widths w ≥ 0.293 R + 0.707 m; segments
are 2R·sin(θ/2) long and R − (R − w)·cos(θ/2) deep, of a full ring 2R·tan(180°/N). Figures below are worked by hand
to the digits shown; the tolerance is half of the last digit.
"""

from math import pi

import pytest

from evenface.shape.build import rounded_rectangle
from evenface.shape.corner import corner_reserve, largest_radius, smallest_width
from evenface.shape.corner_pieces import full_ring, ring_segments


@pytest.mark.parametrize(
    ("radius", "w1", "w2", "reserve"),
    [(60, 14, 14, -5.05), (60, 20, 20, 3.43), (60, 14, 40, 9.84), (20, 40, 12, 12.0), (100, 30, 25, -2.59)],
)
def test_reserve(radius, w1, w2, reserve):
    """R 100, 30 and 25: 100 − √(70² + 75²) = 100 − 102.591."""
    assert corner_reserve(radius, w1, w2) == pytest.approx(reserve, abs=0.005)


@pytest.mark.parametrize(("width", "wood", "radius"), [(12, 2, 36.14), (6, 2, 15.66), (14, 3.4722, 39.42)])
def test_largest_radius_for_a_width(width, wood, radius):
    """(√2·w − m)/(√2 − 1): 12 with 2 left 36.14, 6 with 2 left 15.66."""
    assert largest_radius(width, wood) == pytest.approx(radius, abs=0.005)


@pytest.mark.parametrize("radius", [20, 60, 120, 300])
@pytest.mark.parametrize("wood", [0, 2, 6])
def test_equal_widths_with_rounded_factors(radius, wood):
    """0.293 and 0.707 are rounded to three digits: off by at most 0.0002·R."""
    assert smallest_width(radius, wood) == pytest.approx(
        0.293 * radius + 0.707 * wood, abs=0.0002 * radius + 0.001
    )


@pytest.mark.parametrize(
    ("count", "length", "depth", "run_out"),
    [(1, 84.85, 27.47, 45), (2, 45.92, 17.50, 22.5), (3, 31.06, 15.57, 15)],
)
def test_segments_of_a_corner_of_60_edged_14(count, length, depth, run_out):
    made = ring_segments(60, 14, count)
    assert (made.length_mm, made.depth_mm) == pytest.approx((length, depth), abs=0.005)
    assert made.run_out_deg == pytest.approx(run_out)


def test_a_full_ring():
    """16 segments about a table of 1200, edging 60: 2·600·tan 11.25° = 238.69 long, 600 − 540·cos 11.25° deep."""
    made = full_ring(600, 60, 16)
    assert (made.length_mm, made.depth_mm) == pytest.approx((238.69, 70.38), abs=0.005)
    assert made.mitre_deg == 11.25


def test_perimeter_and_area_of_a_rounded_rectangle():
    """P = 2(L + W) − 1.717 R, A = LW − 0.858 R²; three digits, so off by at most 0.0005 of R and R²."""
    shape = rounded_rectangle(1800, 650, 60)
    assert shape.perimeter_mm == pytest.approx(2 * 2450 - 1.717 * 60, abs=0.0005 * 60)
    assert shape.area_mm2 == pytest.approx(1800 * 650 - 0.858 * 3600, abs=0.0005 * 3600)
    assert shape.area_mm2 == pytest.approx(1800 * 650 - (4 - pi) * 3600, abs=1e-6)
