"""Strips of two and three layers.

S. Timoshenko 1925, J. Opt. Soc. Am. 11:233-255 (formula READ in public code that cites it); a general FE
code's example manual, example E.15 (READ; its "5.625 m" is a misprint for mm); B. A. Boley & J. H. Weiner,
Theory of Thermal Stresses, p. 429, as used in verification manuals (READ); C.-H. Hsueh 2002, Thin Solid
Films 418:182-188 (MEMORY). Cases without a printed source are CONSTRUCTED and checked by FE elsewhere.
"""

import numpy as np
import pytest

from evenface.mechanics.laminate import (
    FREE,
    HELD_ACROSS,
    Plies,
    deform,
    even_strain,
    free_resultants,
    isotropic,
    laminate,
    stress_at,
    strip,
)
from evenface.mechanics.rise import arc_rise_mm, bow_mm


def strip_curvature(plies: Plies, strains: list[float]) -> float:
    free = np.repeat(np.array(strains)[:, None], 2, axis=1)
    _, curvature = strip(plies, *even_strain(free, plies.thickness_mm))
    return float(curvature)


def test_cantilever_of_two_equal_layers() -> None:
    # READ: tip deflection 5.625 mm, exact arithmetic, hence 1e-6
    curvature = strip_curvature(isotropic([150, 150], [2e5, 2e5], 0.3), [1e-5 * 50, 5e-6 * 50])
    assert curvature == pytest.approx(-1.25e-6, rel=1e-6)
    assert abs(curvature) * 3000**2 / 2 == pytest.approx(5.625, rel=1e-6)


def test_beam_that_bends_far_in_inches() -> None:
    # READ: 0.90 in; the arc values are DERIVED geometry given to four figures
    curvature = strip_curvature(isotropic([0.05, 0.05], [1e7, 1e7], 0.0), [2.5e-6 * 400, 1.45e-5 * 400])
    assert curvature == pytest.approx(0.072, rel=1e-6)
    assert float(bow_mm(curvature, 10.0)) == pytest.approx(0.9, rel=1e-6)
    assert arc_rise_mm(curvature, 10.0, along_arc=True) == pytest.approx(0.8903, rel=1e-3)
    mean_strain = (2.5e-6 + 1.45e-5) / 2 * 400
    assert arc_rise_mm(curvature, 10.0 * (1 + mean_strain), along_arc=True) == pytest.approx(0.8963, rel=1e-3)


@pytest.mark.parametrize(("moduli", "thicknesses"), [(1, 1.0), (4, 0.5), (20, 0.05**0.5)])
def test_largest_curvature_for_a_thickness(moduli: float, thicknesses: float) -> None:
    # DERIVED from the formula: 1.5 Δε/h whenever (t1/t2)²·E1/E2 = 1
    t1 = thicknesses / (1 + thicknesses)
    curvature = strip_curvature(isotropic([t1, 1 - t1], [moduli, 1.0], 0.0), [0.0, 1.0])
    assert curvature == pytest.approx(1.5, rel=1e-9)
    for other in (0.9 * t1, 1.1 * t1):
        assert strip_curvature(isotropic([other, 1 - other], [moduli, 1.0], 0.0), [0.0, 1.0]) < 1.5


def test_two_layers_against_the_printed_formula() -> None:
    t1, t2, E1, E2, e1, e2 = 16.0, 0.8, 3000.0, 10_000.0, 0.0, 0.001
    m, n, h = t1 / t2, E1 / E2, t1 + t2
    expected = 6 * (e2 - e1) * (1 + m) ** 2 / (h * (3 * (1 + m) ** 2 + (1 + m * n) * (m**2 + 1 / (m * n))))
    assert strip_curvature(isotropic([t1, t2], [E1, E2], 0.0), [e1, e2]) == pytest.approx(expected, rel=1e-12)
    assert expected * 1e6 / 8 == pytest.approx(4.774, abs=5e-4)  # DERIVED worked example, 3 decimals


def test_laminate_on_particleboard_drying() -> None:
    # CONSTRUCTED; expected values printed to 9 figures, hence 1e-6
    plies = isotropic([18, 0.8], [3000, 10_000], 0.3)
    strains = np.array([[-0.00065, -0.00065], [-0.0015, -0.0015]])
    strain, curvature = strip(plies, *even_strain(strains, plies.thickness_mm))
    assert float(curvature) == pytest.approx(-2.68416934e-05, rel=1e-6)
    assert float(strain) == pytest.approx(-0.00073785772, rel=1e-6)
    stresses = [
        E * (strain + z * curvature - e)
        for E, z, e in [
            (3000, -9.4, -0.00065),
            (3000, 8.6, -0.00065),
            (10_000, 8.6, -0.0015),
            (10_000, 9.4, -0.0015),
        ]
    ]
    assert stresses == pytest.approx([0.493363, -0.956089, 5.313037, 5.098304], rel=1e-6)
    assert 0.4 * (stresses[2] + stresses[3]) == pytest.approx(4.164536, rel=1e-6)


def test_the_same_as_plate_and_held_straight_across() -> None:
    plies = isotropic([18, 0.8], [3000, 10_000], 0.3)
    strains = np.array([[-0.00065, -0.00065], [-0.0015, -0.0015]])
    built = laminate(plies)
    N, M = free_resultants(built, *even_strain(strains, plies.thickness_mm))
    free = deform(built, N, M, FREE)
    assert free.curvature_per_mm[:2] == pytest.approx([-2.68416934e-05] * 2, rel=1e-6)
    assert stress_at(built, free, 1, 9.0, strains[1])[0] == pytest.approx(7.43667199, rel=1e-6)
    held = deform(built, N, M, HELD_ACROSS)
    assert held.curvature_per_mm == pytest.approx([-3.48942014e-05, 0, 0], rel=1e-6)
    assert held.holding_moment_N[0] == 0.0
    assert held.holding_moment_N[1] > 0.0


def test_three_layers_with_a_glue_line() -> None:
    # MEMORY of the N-layer formula, CONSTRUCTED inputs; 1e-7 as printed
    plies = isotropic([18, 0.1, 0.8], [3000, 1300, 10_000], 0.3)
    assert strip_curvature(plies, [-0.00065, 0.0, -0.0015]) == pytest.approx(-2.6485891904e-05, rel=1e-7)


def test_rise_of_an_arc() -> None:
    # DERIVED geometry, printed to 8 figures
    assert float(bow_mm(5e-5, 1000)) == pytest.approx(6.25, rel=1e-12)
    assert arc_rise_mm(5e-5, 1000) == pytest.approx(6.2509769, rel=1e-7)
    assert arc_rise_mm(5e-5, 1000, along_arc=True) == pytest.approx(6.2496745, rel=1e-7)
    assert arc_rise_mm(-5e-5, 1000) == -arc_rise_mm(5e-5, 1000)
