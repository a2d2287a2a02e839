"""Outlines without corners moved straight, without a search for crossings: the same laws hold as for any other."""

from math import cos, pi, sin, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenface.shape.build import CornerCut, rectangle
from evenface.shape.chain import chained
from evenface.shape.offset import _cut, _kept, _outlines, _shifted, offset, swept
from evenface.shape.outline import Outline
from evenface.shape.segment import Segment

radii = st.tuples(*[st.floats(5.0, 40.0) for _ in range(4)])
sizes = st.tuples(st.floats(90.0, 700.0), st.floats(85.0, 300.0))


def smooth(size: tuple[float, float], corners: tuple[float, ...]) -> Outline:
    return rectangle(*size, [CornerCut("radius", radius) for radius in corners])


def the_long_way(outline: Outline, distance: float) -> Outline:
    """Moved, cut where pieces meet, and those too near thrown away: what every outline with corners goes through."""
    pieces = _shifted(outline.outer, distance, "round")
    (moved,) = _outlines(chained(_kept(_cut(pieces), outline.segments, abs(distance))))
    return moved


@given(sizes, radii, st.floats(-0.95, 2.0))
def test_moved_straight_is_what_the_long_way_gives(size, corners, share):
    outline = smooth(size, corners)
    distance = share * min(corners)
    if abs(distance) < 1e-3:
        return
    moved = offset(outline, distance).only
    assert moved.same_as(the_long_way(outline, distance), 1e-6)
    # Steiner's formula for a convex body moved outwards, and inwards down to its least radius
    wanted = outline.area_mm2 + outline.perimeter_mm * distance + pi * distance**2
    assert moved.area_mm2 == pytest.approx(wanted, rel=1e-9)


@given(sizes, radii)
def test_shrunk_beyond_the_least_radius_every_point_keeps_its_distance(size, corners):
    outline, distance = smooth(size, corners), 1.1 * min(corners)
    moved = offset(outline, -distance).only
    for segment in moved.segments:
        point = segment.at(0.3)
        assert min(one.distance_to(point) for one in outline.segments) == pytest.approx(distance, abs=1e-6)


def test_a_waist_is_no_smooth_convex_outline_and_splits_as_ever():
    waist = Outline.of([(0, 0), (100, 0), (100, 60), (70, 60), (70, 20), (30, 20), (30, 60), (0, 60)])
    ends = offset(waist, -12)
    assert len(ends.outlines) == 2  # the 20 mm of the waist are used up
    beside = 30 - sqrt(12**2 - 8**2) - 12  # as far as an arc of 12 about the inner corner lets them
    assert [one.size[0] for one in ends.outlines] == pytest.approx([beside, beside], abs=1e-9)


@given(st.floats(-200, 200), st.floats(-200, 200), st.floats(5, 400), st.floats(0, 6.28), st.floats(1, 30))
def test_a_slot_is_a_disc_moved_along_a_line(x, y, long, turn, radius):
    way = Segment(x, y, x + long * cos(turn), y + long * sin(turn))
    slot = swept([way], radius)
    assert slot.area_mm2 == pytest.approx(2 * radius * long + pi * radius**2, rel=1e-9)
    assert slot.perimeter_mm == pytest.approx(2 * long + 2 * pi * radius, rel=1e-9)
    for segment in slot.segments:
        assert way.distance_to(segment.at(0.37)) == pytest.approx(radius, abs=1e-7)


@given(sizes, radii, st.floats(-50, 400))
def test_mirrored_keeps_area_length_and_comes_back(size, corners, about):
    outline = smooth(size, corners).with_hole(smooth((30, 22), (4, 5, 6, 7)).moved(41, 40))
    seen = outline.mirrored(about)
    assert seen.area_mm2 == pytest.approx(outline.area_mm2, rel=1e-12)
    assert seen.perimeter_mm == pytest.approx(outline.perimeter_mm, rel=1e-12)
    assert seen.bounds[0] == pytest.approx(2 * about - outline.bounds[2], abs=1e-9)
    assert seen.mirrored(about).same_as(outline, 1e-7)
    x, y = outline.segments[1].at(0.25)
    there = 2 * about - x, y
    assert min(one.distance_to(there) for one in seen.segments) < 1e-7
