"""Moisture into a sheet, and the bow it makes on the way.

J. Crank, The Mathematics of Diffusion, 1975, eqs 4.17-4.18 and p. 48 (MEMORY of the equations); two uptake
values READ in the documentation of the open package polykin; transient bow DERIVED from the series. The
numeric solver is asked for 1e-3 of the step (60 graded cells), 1 % of the peak bow and 3 % of its time.
"""

from dataclasses import replace

import numpy as np
import pytest

from evenface.mechanics import Climate, Stack, first_years, saturation_pressure_pa
from evenface.mechanics.cells import cut_into_cells, profile_weights
from evenface.mechanics.march import March, march
from evenface.mechanics.modal import history, modes_of, profiles
from evenface.mechanics.vapour import air_permeability
from evenface.mechanics.weights import curvature_weights

THICKNESS_MM = 18.0
LOW, HIGH = 0.4, 0.6


def board() -> Stack:
    return Stack(
        *(np.array([v]) for v in (THICKNESS_MM, 3000.0, 3000.0, 0.3, 1150.0, 0.0, 0.005, 0.005, 25.0, 74.0))
    )


DIFFUSIVITY = float(air_permeability(20.0) / 25.0 * saturation_pressure_pa(20.0) / 74.0) * 1e6  # mm²/day


def profile_at(fourier: list[float], *, one_side: bool) -> tuple[np.ndarray, np.ndarray]:
    """Cell shares of the step (times, cells) and cell widths, at D·t/h² given."""
    stack = board()
    grid = cut_into_cells(stack, 20.0, 20.0, cells=60, sealed=(one_side, False))
    saturation = float(saturation_pressure_pa(20.0))
    start = np.full(grid.width_mm.shape, LOW * saturation)
    air = np.full((2, 2), HIGH * saturation)
    rows = [
        profiles(modes_of(grid), start, air, fo * THICKNESS_MM**2 / DIFFUSIVITY)[1] / saturation
        for fo in fourier
    ]
    return (np.array(rows) - LOW) / (HIGH - LOW), grid.width_mm


def marched(days: int) -> March:
    return march(board(), Climate(np.full(days, HIGH)), Climate(np.full(days, HIGH)), LOW, days=days)


def test_uptake_read_in_a_package() -> None:
    # sheet open on one face over its thickness a: Fo = D·t/a² = 0.25 and 0.125
    share, width = profile_at([0.25, 0.125], one_side=True)
    uptake = share @ width / THICKNESS_MM
    assert uptake == pytest.approx([0.562233541762138, 0.39892798988456807], abs=1e-4)


def test_half_time_with_both_faces_open() -> None:
    times = np.linspace(0.045, 0.053, 9)
    share, width = profile_at(times.tolist(), one_side=False)
    half = np.interp(0.5, share @ width / THICKNESS_MM, times)
    assert half == pytest.approx(0.0491826849, rel=1e-3)


def test_uptake_and_depths_with_both_faces_open() -> None:
    share, width = profile_at([0.01, 0.02, 0.05, 0.1, 0.2], one_side=False)
    middle = np.cumsum(width) - width / 2
    uptake = share @ width / THICKNESS_MM
    assert uptake == pytest.approx([0.225676, 0.319154, 0.504088, 0.697882, 0.887403], abs=1e-3)
    for depth, expected in (
        (0.5, [0.000814, 0.024839, 0.227688, 0.525513, 0.823133]),
        (0.25, [0.0771, 0.211476, 0.446824, 0.664403, 0.874936]),
    ):
        seen = [np.interp(depth * THICKNESS_MM, middle, row) for row in share]
        assert seen == pytest.approx(expected, abs=1e-3)


def test_the_march_reaches_the_same_uptake() -> None:
    run = marched(9)
    fo = DIFFUSIVITY * run.days[1:] / THICKNESS_MM**2
    n = np.arange(400)[:, None]
    odd = (2 * n + 1) ** 2 * np.pi**2
    series = 1 - np.sum(8 / odd * np.exp(-odd * fo), axis=0)
    share = (run.humidity - LOW) @ run.cells.width_mm / THICKNESS_MM / (HIGH - LOW)
    assert share[1:] == pytest.approx(series, abs=1e-3)


def bow_share(fourier: np.ndarray) -> np.ndarray:
    """κ·h/(β·ΔM) on the fast path, top face stepped and bottom sealed."""
    stack = board()
    grid = cut_into_cells(stack, 20.0, 20.0, cells=60, sealed=(True, False))
    saturation = float(saturation_pressure_pa(20.0))
    weights = profile_weights(grid, *curvature_weights(stack))
    start = np.full(grid.width_mm.shape, LOW * saturation)
    step = float(fourier[1] - fourier[0]) * THICKNESS_MM**2 / DIFFUSIVITY
    air = np.full((fourier.size, 2), HIGH * saturation)
    curvature = history(modes_of(grid), *weights, start, air, step)[:, 0]
    return curvature * THICKNESS_MM / (0.005 * (HIGH - LOW))


def test_bow_of_a_board_wetted_on_one_face() -> None:
    # DERIVED: 0.960 β·ΔM/h whatever the diffusivity; the exposed face is the convex one
    fourier = np.arange(0.0, 1.0001, 0.0005)
    bow = bow_share(fourier)
    at = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 1.0]
    expected = [0.418731, 0.557028, 0.717461, 0.914142, 0.954462, 0.802209, 0.632902, 0.386975, 0.112695]
    assert np.interp(at, fourier, bow) == pytest.approx(expected, abs=1e-3)
    assert bow.max() == pytest.approx(0.9601263, rel=1e-3)
    assert fourier[bow.argmax()] == pytest.approx(0.0845901, rel=0.03)


@pytest.mark.parametrize("resistance", [250.0, 700.0])
def test_the_peak_does_not_depend_on_resistance_and_dies_out(resistance: float) -> None:
    stack = replace(board(), vapour_resistance=np.array([resistance]))
    bow = first_years(stack, Climate(np.full(30, HIGH)), None, LOW, days=4000).curvature_per_mm[:, 0]
    assert bow.max() * THICKNESS_MM / (0.005 * (HIGH - LOW)) == pytest.approx(0.9601, rel=0.01)
    assert bow.argmax() == pytest.approx(0.0846 * THICKNESS_MM**2 / (DIFFUSIVITY * 25 / resistance), abs=1)
    assert abs(bow[-1]) < 1e-9
