"""Beams: closed forms of the textbooks, and worked clamping cauls.

Any table of beam deflections (S. P. Timoshenko, Strength of Materials). MEMORY: the formulas; each is
checked here against direct integration of M/EI, so nothing rests on the table. The caul values (5ql⁴/384EI,
ash 40 × 60, an 18 mm edge at 0.5 N/mm²) were reckoned elsewhere with an unstated modulus; they fit 12.0 GPa
to the printed 0.1 mm.
"""

import numpy as np
import pytest

from evenface.mechanics.sag import Held, moment_under_even_load, sag_under_even_load, sag_under_point_load

EI, L = 3.1e9, 900.0


def integrated(load: np.ndarray, x: np.ndarray, held: Held) -> np.ndarray:
    """Deflection by four-fold integration of a load on a fine grid, with the ends as held."""
    step = x[1] - x[0]

    def once(y: np.ndarray) -> np.ndarray:
        return np.concatenate([[0.0], np.cumsum((y[1:] + y[:-1]) / 2) * step])

    shear0, moment0 = once(load), once(once(load))
    base = once(once(moment0))
    slope = once(moment0)
    ramp, parabola, cubic = x, x**2 / 2, x**3 / 6
    # EI w = base + c3·x³/6 + c2·x²/2 + c1·x ; unknowns from the ends
    if held is Held.RESTING:  # w(L) = 0, M(L) = 0, M(0) = 0
        c3, c2 = -moment0[-1] / x[-1], 0.0
        c1 = -(base[-1] + c3 * cubic[-1]) / x[-1]
    elif held is Held.FIXED:  # w(L) = w'(L) = 0
        c1 = 0.0
        c3, c2 = np.linalg.solve([[cubic[-1], parabola[-1]], [parabola[-1], x[-1]]], [-base[-1], -slope[-1]])
    else:  # shear and moment vanish at the tip
        c1, c3 = 0.0, -shear0[-1]
        c2 = -(moment0[-1] + c3 * x[-1])
    return (base + c3 * cubic + c2 * parabola + c1 * ramp) / EI


@pytest.mark.parametrize("held", list(Held))
def test_even_load(held: Held) -> None:
    x = np.linspace(0, L, 4_001)
    expected = np.max(np.abs(integrated(np.full_like(x, 0.35), x, held)))
    assert float(sag_under_even_load(0.35, L, EI, held)) == pytest.approx(expected, rel=1e-5)  # grid


@pytest.mark.parametrize("held", list(Held))
@pytest.mark.parametrize("place", [0.2, 0.5, 0.71])
def test_point_load(held: Held, place: float) -> None:
    x = np.linspace(0, L, 4_001)
    load = np.zeros_like(x)
    load[round(place * 4_000)] = 120.0 / (x[1] - x[0])
    expected = np.max(np.abs(integrated(load, x, held)))
    ours = float(sag_under_point_load(120, L, EI, held, at_mm=place * L))
    assert ours == pytest.approx(expected, rel=2e-4)  # one grid cell wide


def test_usual_places_of_a_point_load() -> None:
    assert float(sag_under_point_load(100, L, EI)) == pytest.approx(100 * L**3 / (48 * EI), rel=1e-12)
    assert float(sag_under_point_load(100, L, EI, Held.FIXED)) == pytest.approx(100 * L**3 / (192 * EI))
    assert float(sag_under_point_load(100, L, EI, Held.OVERHANG)) == pytest.approx(100 * L**3 / (3 * EI))


def test_greatest_moments() -> None:
    assert float(moment_under_even_load(0.35, L)) == pytest.approx(0.35 * L * L / 8)
    assert float(moment_under_even_load(0.35, L, Held.FIXED)) == pytest.approx(0.35 * L * L / 12)
    assert float(moment_under_even_load(0.35, L, Held.OVERHANG)) == pytest.approx(0.35 * L * L / 2)


@pytest.mark.parametrize(
    ("depth", "height", "span", "crown"), [(40, 60, 650, 2.4), (40, 60, 1000, 13.6), (50, 100, 1000, 2.3)]
)
def test_crown_of_a_caul(depth: float, height: float, span: float, crown: float) -> None:
    stiffness = 12_000 * depth * height**3 / 12
    assert float(sag_under_even_load(18 * 0.5, span, stiffness)) == pytest.approx(crown, abs=0.06)
