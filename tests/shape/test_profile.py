"""Profiles: depth, bands and wood left, by hand and in the plan they stand for."""

from itertools import pairwise
from math import acos, atan, hypot, pi, sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shape.shape_samples import panels

from evenface.shape.build import rectangle, rounded_rectangle
from evenface.shape.distance import least_distance
from evenface.shape.edge_shape import EdgeShape, level_of_breakthrough, undercut, wood_left
from evenface.shape.faults import ShapeError
from evenface.shape.offset import offset
from evenface.shape.profile import band, wander
from evenface.shape.profile_shapes import (
    bevel_under,
    chamfer,
    cove,
    free_profile,
    round_over,
    stepped,
    thumbnail,
)
from evenface.shape.reserve import reserve_inside


def test_depths_by_hand():
    """Round-over r − √(r² − (r − z)²), cove √(r² − z²), chamfer straight, step with the greater depth."""
    assert round_over(4).depth_at(0.9) == pytest.approx(4 - sqrt(16 - 3.1**2))
    assert round_over(4, quirk_mm=1).depth_at(1.9) == pytest.approx(4 - sqrt(16 - 3.1**2))
    assert round_over(4, quirk_mm=1).depth_at(0.5) == pytest.approx(4)
    assert cove(6).depth_at(3) == pytest.approx(sqrt(27))
    assert chamfer(4, 2).depth_at(1) == pytest.approx(1.5)
    assert stepped((3, 6), (4, 2)).depth_at(3) == 6
    assert stepped((3, 6), (4, 2)).depth_at(3.001) == 2
    assert round_over(4).depth_at(4.5) == 0
    nail = thumbnail(20, 2, 8)
    assert nail.depth_at(2) == pytest.approx(8)
    assert nail.height_mm == pytest.approx(2 + 20 - sqrt(400 - 64))


def test_the_greatest_depth_may_lie_inside_an_arc():
    """A half round hollow r 5 between z 2 and 12: deepest 5 at z 7."""
    hollow = free_profile(((0, 0, 0), (2, 0, -1.0), (12, 0, 0)))
    assert hollow.depth_between(0, 20) == pytest.approx((5, 7))
    assert hollow.depth_between(0, 4) == pytest.approx((4, 4))  # √(25 − 9)


@pytest.mark.parametrize(
    ("radius", "thickness", "shown", "above"),
    [
        (6, 0.8, 6 * acos(1 - 0.8 / 6), sqrt(36 - 5.2**2)),  # 3.134 and 2.993
        (6, 2.0, 6 * acos(1 - 2 / 6), sqrt(36 - 16)),  # 5.046
        (1.0, 2.0, pi / 2 + 1, 1.0),  # radius below the facing: 2.571
        (0.5, 2.0, pi / 4 + 1.5, 0.5),  # 2.285
        (2, 2, pi, 2),
    ],
)
def test_band_of_facing_in_a_round_over(radius, thickness, shown, above):
    found = band(round_over(radius), 0, thickness)
    assert (found.true_width_mm, found.from_above_mm) == pytest.approx((shown, above), abs=1e-12)


def test_band_in_a_chamfer_and_at_a_step():
    """45°: √2·t; 2 wide on 4 high: t·√(1 + ¼); shallower than the facing: slope and the rest upright."""
    assert band(chamfer(3), 0, 0.8).true_width_mm == pytest.approx(0.8 * sqrt(2))
    assert band(chamfer(4, 2), 0, 0.8).true_width_mm == pytest.approx(0.8 * hypot(1, 0.5))
    assert band(chamfer(0.5), 0, 0.8).true_width_mm == pytest.approx(0.5 * sqrt(2) + 0.3)
    step = stepped((3, 6), (4, 2))
    assert band(step, 0, 3).from_above_mm == 0  # the floor of the step shows the layer below
    assert band(step, 3, 5).from_above_mm == pytest.approx(4)


@given(st.floats(0.5, 12), st.lists(st.floats(0.1, 5), min_size=1, max_size=6))
def test_bands_of_all_layers_add_up_to_the_curve(radius, layers):
    levels = [0.0]
    for t in layers:
        levels.append(levels[-1] + t)
    assume(levels[-1] > radius)
    total = sum(band(round_over(radius), a, b).true_width_mm for a, b in pairwise(levels))
    assert total == pytest.approx(pi * radius / 2 + levels[-1] - radius)


def test_wander_of_a_line_that_starts_flush():
    """r 6, 0.1 mm: √1.2 = 1.095; a 45° chamfer moves by the error, a quirk and a step not at all."""
    assert wander(round_over(6), 0.1) == pytest.approx(1.0954, abs=1e-4)
    assert wander(chamfer(1), 0.1) == pytest.approx(0.1)
    assert wander(chamfer(1, 2), 0.1) == pytest.approx(0.2)
    assert wander(round_over(6, quirk_mm=0.5), 0.1) == 0


def test_wood_left_is_judged_at_the_carrier_not_at_the_face():
    """R 60, edging 20.03, r 4, carrier 0.9 below the face: 2.00 left, though it is 4 deep on top."""
    edge = EdgeShape(19.8, round_over(4))
    panel, carrier = rounded_rectangle(600, 400, 60), rectangle(559.942, 359.942).moved(20.029, 20.029)
    least = reserve_inside(carrier.outer, panel.outer).reserve_mm
    left = wood_left(least, edge, 0.9, 18.9)
    assert left.wood_mm == pytest.approx(2.0, abs=1e-3)
    assert left.z_mm == pytest.approx(18.9)
    assert wood_left(least, edge, 0.9, 19.8).wood_mm == pytest.approx(least - 4)


@settings(max_examples=25, deadline=None)
@given(panels(("square", "radius")), st.floats(1, 12), st.floats(0.0, 1.0))
def test_distance_less_depth_is_the_distance_to_the_outline_moved_in(panel, radius, share):
    """The one-search rule against the slow way: the outline moved in by d(z), level by level."""
    length, width = panel.size
    inner = rectangle(length * 0.4, width * 0.4).moved(length * 0.3, width * 0.3)
    depth = round_over(radius).depth_at(share * radius)
    least = reserve_inside(inner.outer, panel.outer).reserve_mm
    assume(least > depth > 1e-4)  # a smaller offset is none
    moved = offset(panel, -depth).only
    slow = least_distance(inner.segments, moved.segments).distance_mm
    assert slow == pytest.approx(least - depth, abs=1e-6)


def test_level_of_breakthrough_by_hand():
    """A bevel 6 deep on 10 high meets wood 5 thick at z = 10·(1 − 5/6) = 1.667."""
    edge = EdgeShape(20, None, bevel_under(10, 6))
    assert level_of_breakthrough(5, edge, 0, 20) == pytest.approx(10 / 6, abs=1e-8)
    assert level_of_breakthrough(6.1, edge, 0, 20) is None


def test_bevel_under_as_seen_and_against_a_frame():
    edge = EdgeShape(19.8, round_over(2), bevel_under(12, 8))
    assert edge.flat_mm == pytest.approx(5.8)
    assert undercut(edge, 10) == pytest.approx(2)
    assert undercut(edge, 10, 6) == pytest.approx(6)
    assert atan(8 / 12) == pytest.approx(0.588, abs=1e-3)


def test_layers_of_a_section_add_up():
    """Carrier, facing and back cut by round-over and bevel: areas sum to the whole edge."""
    edge = EdgeShape(19.8, round_over(4), bevel_under(10, 6))
    layers = [edge.layer_section(a, b, 30).area_mm2 for a, b in ((0, 0.9), (0.9, 18.9), (18.9, 19.8))]
    assert sum(layers) == pytest.approx(30 * 19.8 - 30 - (4 - pi) * 4)
    assert edge.layer_section(0, 19.8, 30).area_mm2 == pytest.approx(sum(layers))


@pytest.mark.parametrize(
    ("build", "problem"),
    [
        (lambda: EdgeShape(18, round_over(10), round_over(9)), "profiles_meet"),
        (lambda: free_profile(((0, 2, 0), (5, 4, 0), (3, 0, 0))), "runs_back"),
        (lambda: free_profile(((0, 4, 2.0), (4, 0, 0))), "runs_back"),
        (lambda: free_profile(((0, 1, 0), (5, -1, 0))), "negative"),
        (lambda: free_profile(((1, 1, 0), (5, 0, 0))), "start"),
        (lambda: round_over(0), "size"),
        (lambda: thumbnail(5, 2, 8), "radius"),
        (lambda: EdgeShape(18, round_over(4)).layer_section(10, 18, 3), "inner"),
    ],
)
def test_impossible_profiles_are_refused(build, problem):
    with pytest.raises(ShapeError) as error:
        build()
    assert error.value.problem == problem


def test_a_step_asked_about_a_hair_beside_its_level_is_taken_whole():
    step = stepped((5.0, 3.0))
    assert step.depth_between(5.0 + 1e-10, 20.0)[0] == 3.0
    assert step.depth_between(5.0 + 1e-3, 20.0)[0] == 0.0
