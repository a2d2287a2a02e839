"""Laws of solid wood: movement, cut, rings, mitres, limits."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.mechanics.wood import (
    across_the_width,
    coefficient_from_shrinkage,
    largest_within,
    mismatch,
    mitre_angles,
    mitre_opening,
    modulus_across_the_width,
    movement,
    movement_from_shrinkage,
    ridge,
    ring_cup,
    ring_curvature,
)

moist = st.floats(0.0, 0.30)


@settings(max_examples=60)
@given(st.floats(10.0, 900.0), st.floats(0.02, 0.13), moist, moist, moist)
def test_exact_movement_depends_only_on_where_it_ends(
    size: float, shrinkage: float, first: float, second: float, third: float
) -> None:
    straight = size + float(movement_from_shrinkage(size, shrinkage, first, third))
    halfway = size + float(movement_from_shrinkage(size, shrinkage, first, second))
    detour = halfway + float(movement_from_shrinkage(halfway, shrinkage, second, third))
    assert detour == pytest.approx(straight, rel=1e-12)


def test_both_equations_agree_about_a_moisture_of_ten_percent() -> None:
    """The linear one is its tangent at 10 %: over 6 to 14 % they stay within 2 %."""
    C = coefficient_from_shrinkage(0.105)
    assert float(movement_from_shrinkage(250, 0.105, 0.10, 0.1001)) == pytest.approx(
        float(movement(250, C, 0.10, 0.1001)), rel=1e-6
    )
    exact = float(movement_from_shrinkage(250, 0.105, 0.06, 0.14))
    assert exact == pytest.approx(float(movement(250, C, 0.06, 0.14)), rel=0.02)


def test_moisture_above_fibre_saturation_moves_nothing() -> None:
    assert float(movement_from_shrinkage(250, 0.105, 0.35, 0.60)) == 0.0
    assert float(movement_from_shrinkage(250, 0.105, 0.60, 0.0)) == pytest.approx(-250 * 0.105, rel=1e-12)


def test_cut_of_the_board() -> None:
    assert float(across_the_width(0.38, 0.21, 0)) == pytest.approx(0.38)
    assert float(across_the_width(0.38, 0.21, 90)) == pytest.approx(0.21)
    assert float(across_the_width(0.38, 0.21, 45)) == pytest.approx(0.295)
    E = modulus_across_the_width(774, 1858, 195, 0.373, [0, 45, 90])  # beech, J. Wood Sci. 2019, READ
    assert E[0] == pytest.approx(774)
    assert E[2] == pytest.approx(1858)
    assert E[1] < 774  # rift: the rings roll
    # the same by turning the 3 × 3 plane compliance with matrices
    c = s = np.sqrt(0.5)
    compliance = np.array([[1 / 774, -0.373 / 774, 0], [-0.373 / 774, 1 / 1858, 0], [0, 0, 1 / 195]])
    pull = np.array([c * c, s * s, c * s])  # stress in ring axes for a pull of 1 across the width
    assert pull @ compliance @ pull == pytest.approx(1 / E[1], rel=1e-12)


@settings(max_examples=60)
@given(st.floats(10.0, 300.0), st.floats(5.0, 400.0), st.floats(-200.0, 200.0), st.floats(-0.02, 0.02))
def test_ring_cup_mirrors(width: float, pith: float, offset: float, difference: float) -> None:
    cup = float(ring_cup(width, pith, difference, 0.0, offset))
    assert float(ring_cup(width, pith, difference, 0.0, -offset)) == pytest.approx(cup, rel=1e-9, abs=1e-12)
    assert float(ring_cup(width, pith, 0.0, difference, offset)) == pytest.approx(-cup, rel=1e-9, abs=1e-12)
    assert cup * difference >= -1e-12
    assert float(ring_curvature(width, pith, difference, 0.0, offset)) * width**2 / 8 == pytest.approx(cup)


def test_pith_in_the_board_is_refused() -> None:
    with pytest.raises(ValueError, match="pith_distance_mm"):
        ring_cup(100, 0.0, -0.01, -0.005)


def test_unequal_mitres_are_not_at_45_degrees() -> None:
    narrow, wide = mitre_angles(14, 40)
    assert float(narrow) == pytest.approx(19.3, abs=0.05)
    assert float(wide) == pytest.approx(70.7, abs=0.05)


def test_mitre_of_equal_members() -> None:
    """Shrinking opens the inner corner by ε·w·√2, swelling the outer one; alike both ways it stays tight."""
    dry = mitre_opening(60, 60, -0.01, -0.01)
    assert float(dry.inside_mm) == pytest.approx(0.01 * 60 * np.sqrt(2), rel=0.01)
    assert float(dry.outside_mm) == -float(dry.inside_mm)
    wet = mitre_opening(60, 60, 0.01, 0.01)
    assert float(wet.outside_mm) > 0 > float(wet.inside_mm)
    same = mitre_opening(60, 35, -0.01, -0.01, -0.01, -0.01)
    assert float(same.inside_mm) == pytest.approx(0.0, abs=1e-9)


def test_mitre_against_points_that_move() -> None:
    """The four ends of the two mitre faces moved with their own wood; members turned to touch outside."""
    w1, w2, e1, e2, a1, a2 = 25.0, 60.0, -0.012, -0.006, -0.0003, -0.0001
    first = np.array([w2 * (1 + a1), w1 * (1 + e1)])  # member along x: inner end of its face from the outer
    second = np.array([w2 * (1 + e2), w1 * (1 + a2)])  # member along y
    wedge = np.arctan2(second[1], second[0]) - np.arctan2(first[1], first[0])
    ours = mitre_opening(w1, w2, e1, e2, a1, a2)
    assert float(ours.angle_deg) == pytest.approx(np.degrees(wedge), rel=1e-9)
    across_the_face = (second[0] * first[1] - second[1] * first[0]) / np.linalg.norm(second)
    assert float(ours.inside_mm) == pytest.approx(-across_the_face, rel=0.02)  # faces also slide along


def test_mismatch_and_ridge() -> None:
    assert float(mismatch(60, 0.0152, 0.0017)) == pytest.approx(0.81)
    assert float(ridge(18, 0.01, 0.004)) == pytest.approx(0.054)
    assert float(ridge(18, 0.004, 0.01)) == -float(ridge(18, 0.01, 0.004))


def test_largest_size_within_a_limit() -> None:
    sizes = np.array([20.0, 40.0, 80.0])
    assert largest_within(sizes, [0.1, -0.2, -0.6], 0.3) == pytest.approx(50.0)
    assert largest_within(sizes, [0.1, 0.1, 0.1], 0.3) == float("inf")
    assert largest_within(sizes, [0.4, 0.5, 0.6], 0.3) == 0.0
    assert largest_within(sizes, [0.3, 0.3, 0.3], 0.3) == float("inf")
    with pytest.raises(ValueError, match="rising"):
        largest_within([20.0, 20.0], [0.1, 0.2], 0.3)
