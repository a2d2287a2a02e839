"""Hollows: their shape at every depth, and the wall, web and floor they leave."""

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.shape.build import circle, rectangle, slot
from evenface.shape.cutter import Cutter
from evenface.shape.faults import ShapeError
from evenface.shape.hollow import Hollow
from evenface.shape.hollow_wood import Slab, finger_room, floor_left, wall_left, web_left
from evenface.shape.segment import Segment, arc_about

BALL = Cutter(20, 30, "ball")


def test_half_widths_by_hand():
    """Ball r 10 at 2 above the tip: √(100 − 64) = 6. Cove r 6 on 24: 6 + √(36 − 16) at 2. Straight: all."""
    assert BALL.half_width(2) == pytest.approx(6)
    assert BALL.half_width(10) == BALL.half_width(15) == 10
    assert BALL.half_width(-0.1) == 0
    assert Cutter(24, 20, "cove", 6).half_width(2) == pytest.approx(6 + sqrt(20))
    assert Cutter(24, 20, "cove", 6).half_width(0) == 6
    assert Cutter(12, 20).half_width(0) == 6


def test_even_hollow_in_a_slot_insert_by_hand():
    """Ball r 10, 8 deep: half width √(100 − 4) = 9.798; axis 20 from the slot's sides: wall 10.202."""
    hollow = Hollow(BALL, 8, (Segment(30, 20, 80, 20),))
    wall = wall_left(hollow, [Slab(0, 16, slot(110, 40).outer)])
    assert wall.wood_mm == pytest.approx(20 - sqrt(96))
    assert floor_left(hollow, 16) == 8
    opening = hollow.section_at(0)
    assert opening.size == pytest.approx((50 + 2 * sqrt(96), 2 * sqrt(96)))


def test_a_stepped_insert_is_judged_slab_by_slab():
    """Below 6 mm the insert is only 24 wide: half width there √(100 − 64) = 6, wall 6; above 10.2."""
    hollow = Hollow(BALL, 8, (Segment(30, 20, 80, 20),))
    narrow = rectangle(110, 24).moved(0, 8)
    wall = wall_left(hollow, [Slab(0, 6, slot(110, 40).outer), Slab(6, 16, narrow.outer)])
    assert (wall.wood_mm, wall.below_mm) == (pytest.approx(6), 6)
    with pytest.raises(ValueError, match="no slab"):
        wall_left(hollow, [Slab(9, 16, narrow.outer)])


def test_breaking_through_is_negative():
    """Axis 4 from the side, half width 9.8: 5.8 through; axis outside by 3: 12.8 through."""
    insert = [Slab(0, 16, rectangle(110, 40).outer)]
    assert wall_left(Hollow(BALL, 8, (Segment(30, 4, 80, 4),)), insert).wood_mm == pytest.approx(4 - sqrt(96))
    assert wall_left(Hollow(BALL, 8, (Segment(30, -3, 80, -3),)), insert).wood_mm == pytest.approx(
        -3 - sqrt(96)
    )


def test_plunge_and_curved_path():
    """A plunge in a round insert: r − half width. A path on a concentric arc: the same all along it."""
    plunge = Hollow(BALL, 8, at=(3, 4))
    assert wall_left(plunge, [Slab(0, 16, circle(60).outer)]).wood_mm == pytest.approx(30 - 5 - sqrt(96))
    curved = Hollow(BALL, 8, (arc_about(0, 0, 12, 0.3, 1.5),))
    assert wall_left(curved, [Slab(0, 16, circle(60).outer)]).wood_mm == pytest.approx(18 - sqrt(96))
    assert plunge.section_at(0).size == pytest.approx((2 * sqrt(96),) * 2)


def test_scooped_hollow_by_hand():
    """Scoop R 80, 8 deep: the tip meets the surface √(80² − 72²) = 34.87 from the middle."""
    hollow = Hollow(BALL, 8, (Segment(0, 20, 110, 20),), scoop_radius_mm=80)
    assert hollow.half_path_at(0) == pytest.approx(sqrt(80**2 - 72**2))
    assert hollow.tip_depth(20) == pytest.approx(8 - (80 - sqrt(6400 - 400)))
    # The surface outline is the envelope of circles: at s the tip is t(s) deep, reach s + √(20 t − t²)
    reaches = []
    for k in range(20_001):
        s = 34.87 * k / 20_000
        t = max(hollow.tip_depth(s), 0.0)
        reaches.append(s + sqrt(20 * t - t * t))
    assert hollow.half_length_at(0) == pytest.approx(max(reaches), abs=1e-4)


@settings(max_examples=20, deadline=None)
@given(st.floats(60, 400), st.floats(-0.15, 0.15), st.floats(3, 9))
def test_scooped_wall_agrees_with_a_walk_along_the_path(radius, slope, depth):
    """B&B against 2,000 looks along the path; a tilted path in an unsymmetric insert."""
    path = Segment(20, 20 - 40 * slope, 100, 20 + 40 * slope)
    hollow = Hollow(BALL, depth, (path,), scoop_radius_mm=radius)
    insert = rectangle(130, 44)
    wall = wall_left(hollow, [Slab(0, 16, insert.outer)]).wood_mm
    half, slow = hollow.half_path_at(0), float("inf")
    for k in range(2001):
        s = (k / 1000 - 1) * half
        x, y = path.at(0.5 + s / path.length)
        signed = min(x, 130 - x, y, 44 - y)
        slow = min(slow, signed - BALL.half_width(max(hollow.tip_depth(s), 0)))
    # at the ends the width grows as the root of the depth: a rounding of 1e-11 there shows as 1e-5
    assert wall <= slow + 1e-4
    assert wall == pytest.approx(slow, abs=0.02)


@settings(max_examples=30, deadline=None)
@given(st.floats(1, 12), st.floats(0.1, 5))
def test_deeper_never_leaves_more_wall(depth, more):
    insert = [Slab(0, 20, slot(120, 44).outer)]
    path = (Segment(35, 20, 90, 23),)
    assert (
        wall_left(Hollow(BALL, depth + more, path), insert).wood_mm
        <= wall_left(Hollow(BALL, depth, path), insert).wood_mm
    )


def test_web_to_a_neighbour_and_mirrored_pair():
    hollow = Hollow(BALL, 8, (Segment(30, 20, 80, 20),))
    cup = circle(35, (120, 20)).outer
    assert web_left(hollow, cup).wood_mm == pytest.approx(40 - 17.5 - sqrt(96))
    left = hollow.mirrored(200)
    insert = slot(110, 40).mirrored(200)
    assert wall_left(left, [Slab(0, 16, insert.outer)]).wood_mm == pytest.approx(20 - sqrt(96))


def test_finger_room_by_hand():
    """18 mm finger in a ball of 20: to the floor. 24 mm on an opening of 2·9.798: 12 − √(144 − 96) = 5.07."""
    hollow = Hollow(BALL, 8, (Segment(30, 20, 80, 20),))
    assert finger_room(hollow, 18).finger_depth_mm == 8
    assert finger_room(hollow, 24).finger_depth_mm == pytest.approx(12 - sqrt(48))
    assert finger_room(hollow, 24).opening_width_mm == pytest.approx(2 * sqrt(96))


@pytest.mark.parametrize(
    ("build", "problem"),
    [
        (lambda: Hollow(BALL, 0), "size"),
        (lambda: Hollow(BALL, 8, (Segment(0, 0, 100, 0),), scoop_radius_mm=40), "scoop"),
        (lambda: Hollow(BALL, 8, scoop_radius_mm=100), "scoop"),
        (lambda: Hollow(BALL, 8).section_at(8.5), "depth"),
        (lambda: Cutter(20, 30, "cove", 12), "corner_radius"),
        (lambda: Cutter(20, 30, "straight", 2), "corner_radius"),
        (lambda: Cutter(0, 30), "size"),
    ],
)
def test_impossible_hollows_are_refused(build, problem):
    with pytest.raises(ShapeError) as error:
        build()
    assert error.value.problem == problem
