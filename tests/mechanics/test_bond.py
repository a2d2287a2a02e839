"""Laws of the glue line."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.mechanics.bond import (
    Bond,
    bent_sagitta,
    bond,
    bond_end,
    bond_end_of_force,
    built_up_share,
    force_along,
    length_until_steady,
    shear_along,
)

CONTACT = bond(0.8, 9_500, 3_000, 12, 960, 80, 0.15, 0.5)

lines = st.builds(
    bond,
    st.floats(0.3, 3.0),
    st.floats(100.0, 15_000.0),
    st.floats(50.0, 4_000.0),
    st.floats(3.0, 40.0),
    st.floats(500.0, 13_000.0),
    st.floats(30.0, 1_200.0),
    st.floats(0.05, 0.5),
    st.floats(0.1, 1_000.0),
)


@settings(max_examples=60)
@given(lines, st.floats(-0.02, 0.02), st.floats(5.0, 900.0))
def test_shear_is_the_slope_of_the_force_and_the_force_ends_at_zero(
    line: Bond, difference: float, half: float
) -> None:
    force = difference / float(line.flexibility)
    x, step = 0.37 * half, 1e-4 * half
    slope = (
        float(force_along(line, force, half, x - step)) - float(force_along(line, force, half, x + step))
    ) / (2 * step)
    tight = 1e-5 * abs(force) * float(line.decay_per_mm) + 1e-12
    assert slope == pytest.approx(float(shear_along(line, force, half, x)), rel=1e-4, abs=tight)
    assert float(force_along(line, force, half, half)) == pytest.approx(0.0, abs=1e-12 + 1e-12 * abs(force))
    end = bond_end(line, difference, half)
    assert float(shear_along(line, force, half, half)) == pytest.approx(
        float(end.peak_shear_mpa), rel=1e-9, abs=1e-15
    )
    assert float(force_along(line, force, half, 0.0)) == pytest.approx(
        float(end.face_force), rel=1e-9, abs=1e-12
    )


@settings(max_examples=60)
@given(lines, st.floats(1e-4, 0.02), st.floats(2.0, 900.0))
def test_energy_balance_and_bounds(line: Bond, difference: float, half: float) -> None:
    """The slip can never pass the free mismatch of the half, and never goes the other way."""
    end = bond_end(line, difference, half)
    assert 0 < float(end.glue_slip_mm) <= float(end.slip_mm) <= difference * half * (1 + 1e-12)
    assert 0 < float(end.share) <= 1
    mirrored = bond_end(line, -difference, half)
    assert float(mirrored.peak_shear_mpa) == -float(end.peak_shear_mpa)


def test_rising_width_saturates_shear_and_slip() -> None:
    widths = np.array([10.0, 40.0, 100.0, 300.0, 1000.0])
    end = bond_end(CONTACT, 0.01, widths / 2)
    assert np.all(np.diff(end.peak_shear_mpa) >= 0)
    assert end.peak_shear_mpa[-1] == pytest.approx(end.peak_shear_mpa[-2], rel=1e-4)
    steady = float(length_until_steady(CONTACT, 0.95))
    at_steady = bond_end(CONTACT, 0.01, steady / 2)
    assert float(at_steady.peak_shear_mpa) == pytest.approx(0.95 * end.peak_shear_mpa[-1], rel=1e-6)


def test_narrow_bond_follows_the_free_mismatch() -> None:
    """A bond far shorter than its build-up length carries nothing: the slip is the whole mismatch."""
    end = bond_end(CONTACT, 0.01, 0.05)
    assert float(end.slip_mm) == pytest.approx(0.01 * 0.05, rel=1e-4)
    assert float(built_up_share(CONTACT, 0.05)) < 1e-4


def test_sagitta_is_twice_integrated_curvature() -> None:
    half, curvature = 60.0, 1e-4
    x = np.linspace(0, half, 20_001)
    local = curvature * force_along(CONTACT, 1.0, half, x)
    double = np.trapezoid(local * (half - x), x)
    assert float(bent_sagitta(CONTACT, curvature, half)) == pytest.approx(double, rel=1e-7)
    stiff = bond(0.8, 9_500, 3_000, 12, 960, 1e6, 0.01, 1e5)
    assert float(bent_sagitta(stiff, curvature, half)) == pytest.approx(curvature * half**2 / 2, rel=2e-3)


def test_faced_alike_on_both_sides_is_half_the_carrier_held_flat() -> None:
    """By symmetry the middle plane neither moves nor is sheared; force balance of the whole says the same."""
    t1, E1, t2, E2 = 0.8, 9_500.0, 20.0, 900.0
    line = bond(t1, E1, 3_000, t2 / 2, E2, 80, 0.1, 500, held_flat=True)
    face_strain = 0.01 * E2 * t2 / (E2 * t2 + 2 * E1 * t1)  # carrier grows by 0.01, the faces do not
    assert float(bond_end(line, 0.01, 1e4).face_force) == pytest.approx(E1 * t1 * face_strain, rel=1e-9)


def test_given_force_and_given_strain_agree_and_nonsense_is_refused() -> None:
    by_strain = bond_end(CONTACT, 0.004, [20.0, 80.0])
    by_force = bond_end_of_force(CONTACT, 0.004 / CONTACT.flexibility, [20.0, 80.0])
    assert by_strain.slip_mm == pytest.approx(by_force.slip_mm, rel=1e-12)
    with pytest.raises(ValueError, match="glue thickness: expected a value above zero"):
        bond(0.8, 9_500, 3_000, 12, 960, 80, 0.0, 0.5)
    with pytest.raises(ValueError, match="share"):
        length_until_steady(CONTACT, 1.0)
