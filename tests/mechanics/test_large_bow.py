"""Laws of bow geometry and of the correction for large bows."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.mechanics.large_bow import (
    bow_per_thickness,
    curvature_of_sagitta,
    half_pipe_curvatures,
    large_bow,
    panel_curvature_unit,
    sagitta,
    sagitta_of_arc,
    sagitta_of_chord,
)


@settings(max_examples=60)
@given(st.floats(-1e-3, 1e-3), st.floats(50.0, 1900.0))
def test_arc_parabola_and_chord_stand_in_order(curvature: float, length: float) -> None:
    arc, parabola, chord = (
        abs(float(f(curvature, length))) for f in (sagitta_of_arc, sagitta, sagitta_of_chord)
    )
    assert arc <= parabola * (1 + 1e-12)
    assert parabola <= chord * (1 + 1e-12)


@settings(max_examples=60)
@given(st.floats(-200.0, 200.0), st.floats(410.0, 3000.0))
def test_measured_bow_gives_back_itself(bow: float, chord: float) -> None:
    back = float(sagitta_of_chord(curvature_of_sagitta(bow, chord), chord))
    assert back == pytest.approx(bow, rel=1e-9, abs=1e-9)


def test_flat_panel_has_no_bow_and_no_division_by_zero() -> None:
    assert float(sagitta_of_chord(0.0, 800)) == 0.0
    assert float(sagitta_of_arc(0.0, 800)) == 0.0
    flat = large_bow(0.0, 0.0, 1800, 650, 18)
    assert float(flat.share_x) == 1.0
    assert float(flat.curvature_y) == 0.0


def test_chord_longer_than_the_circle_is_refused() -> None:
    with pytest.raises(ValueError, match="diameter"):
        sagitta_of_chord(1e-2, 201)


def test_small_bows_are_left_alone_and_large_ones_lose() -> None:
    """A square of 600 in 4 mm, equal pull both ways: the loss grows with the bow."""
    linear = np.array([0.03, 0.3, 1.0]) * 4.0 * 8 / 600**2
    corrected = large_bow(linear, linear, 600, 600, 4.0)
    loss = 1 - corrected.share_x
    assert loss[0] < 5e-4
    assert 0.01 < loss[1] < 0.04  # a few percent at 0.3 × thickness
    assert 0.10 < loss[2] < 0.22  # 15 to 20 % at 1 × thickness
    assert np.all(np.diff(loss) > 0)
    assert not corrected.splits.any()


def test_correction_solves_its_own_balance_and_is_odd_and_turns_with_the_panel() -> None:
    first = large_bow(6e-5, 2e-5, 1400, 500, 6.0)
    unit = float(panel_curvature_unit(1400, 500, 6.0, 0.3))
    kx, ky = float(first.curvature_x) * unit, float(first.curvature_y) * unit
    assert (kx - 6e-5 * unit) + 0.3 * (ky - 2e-5 * unit) + kx * ky**2 == pytest.approx(0.0, abs=1e-10)
    mirrored = large_bow(-6e-5, -2e-5, 1400, 500, 6.0)
    turned = large_bow(2e-5, 6e-5, 500, 1400, 6.0)
    assert float(mirrored.curvature_x) == pytest.approx(-float(first.curvature_x), rel=1e-12)
    assert float(turned.curvature_y) == pytest.approx(float(first.curvature_x), rel=1e-12)


def test_half_pipe_keeps_its_bow() -> None:
    """With the pull in one direction only (free curvature ν-coupled to keep ky = 0) nothing is lost."""
    pipe = large_bow(1e-4, -1e-12, 1000, 300, 3.0, poisson=0.0)
    assert float(pipe.share_x) == pytest.approx(1.0, abs=1e-9)


def test_strip_limit_of_the_stretching() -> None:
    """Endless strip: membrane strain κxκy(y²/2 − W²/24) gives m = W⁴/720 exactly."""
    strip = float(panel_curvature_unit(1e9, 100, 2.0, 0.3))
    assert strip == pytest.approx(100**2 * np.sqrt((1 - 0.09) / 60) / 2.0, rel=1e-6)


def test_square_agrees_with_the_clamped_square_plate() -> None:
    """One Ritz term (1−x²)²(1−y²)² bounds the clamped mean deflection from below: 3.781e-4."""
    unit = float(panel_curvature_unit(1.0, 1.0, 1.0, 0.0))
    assert 3.781e-4 < unit**2 / 12 < 3.781e-4 * 1.05


def test_pull_past_the_split_is_marked() -> None:
    past = large_bow(1e-3, 1e-3, 600, 600, 2.0)
    assert bool(past.splits)
    assert np.isfinite(past.curvature_x)
    with pytest.raises(ValueError, match="dome"):
        half_pipe_curvatures(0.5, 0.3)
    assert half_pipe_curvatures(-2.0, 0.3) == pytest.approx([-k for k in half_pipe_curvatures(2.0, 0.3)])
    assert bow_per_thickness([-9.0], 18.0) == pytest.approx([0.5])
