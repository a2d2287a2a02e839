"""Plates by lamination theory.

P. K. Mallick, Fiber-Reinforced Composites 2008, Example 3.15, worked with all numbers in the notebook
example_3_15 of the repository pycomposites (READ); A. K. Kaw, Mechanics of Composite Materials, Example 4.5
(problem READ on lecture slides, constants and results MEMORY); repository tompouce, test_loaddef_T (READ);
wood and laminate cases CONSTRUCTED.
"""

import numpy as np
import pytest
from scipy.optimize import brentq

from evenface.mechanics.laminate import (
    Deformation,
    Laminate,
    Plies,
    deform,
    even_strain,
    free_resultants,
    isotropic,
    laminate,
    sloping_strain,
    stress_at,
)


def warped(plies: Plies, strains: list[list[float]]) -> tuple[Laminate, Deformation]:
    built = laminate(plies)
    N, M = free_resultants(built, *even_strain(np.array(strains), plies.thickness_mm))
    return built, deform(built, N, M)


def alike(angles: list[float], ply: float, E1: float, E2: float, nu: float, G: float) -> Plies:
    count = len(angles)
    return Plies(*(np.full(count, v, dtype=float) for v in (ply, E1, E2, nu, G)), np.array(angles))


def test_cross_ply_cooled_by_100_k() -> None:
    # READ; all matrices printed to 9 figures, hence 1e-6
    strain = [5e-5, -1.2e-3]
    built, one = warped(alike([0, 90], 1.0, 133_400, 8784, 0.26, 3254), [strain, strain])
    assert one.curvature_per_mm[:2] * 1000 == pytest.approx([-0.511739221, 0.511739221], rel=1e-6)
    assert abs(one.curvature_per_mm[2]) * 1000 < 1e-9
    assert one.strain[:2] == pytest.approx([-0.000261548375] * 2, rel=1e-6)
    A = [built.A[0, 0], built.A[0, 1], built.A[2, 2]]
    assert pytest.approx([142819.728, 4588.10285, 6508.0], rel=1e-6) == A
    assert built.B[0, 0] == pytest.approx(-62586.5893, rel=1e-6)
    D = [built.D[0, 0], built.D[0, 1], built.D[2, 2]]
    assert pytest.approx([47606.576, 1529.36762, 2169.33333], rel=1e-6) == D
    N, M = free_resultants(built, *even_strain([strain, strain], [1.0, 1.0]))
    assert N[0] / -100 * 1000 == pytest.approx(65.2626612, rel=1e-6)
    assert M[0] / -100 == pytest.approx(0.0721009402, rel=1e-6)


def test_cross_ply_cooled_by_75_k_listed_from_the_top() -> None:
    # READ problem, MEMORY values; the source's z points down, so its bottom is our top and κ changes sign
    strain = [2e-8 * -75, 2.25e-5 * -75]
    built, one = warped(alike([0, 90], 5.0, 181_000, 10_300, 0.28, 7170), [strain, strain])
    assert one.curvature_per_mm[:2] * 1000 == pytest.approx([-0.127647634, 0.127647634], rel=1e-5)
    assert one.strain[0] == pytest.approx(-0.000390715152, rel=1e-5)
    N, M = free_resultants(built, *even_strain([strain, strain], [5.0, 5.0]))
    assert N[0] * 1000 == pytest.approx(-113123.825, rel=1e-5)
    assert M[0] == pytest.approx(-153.777644, rel=1e-5)
    stress = stress_at(built, one, 1, 5.0, strain)
    assert stress[:2] == pytest.approx([7.53482935, 47.182918], rel=1e-5)


def test_symmetric_cross_ply_stays_flat() -> None:
    # READ to four figures, recomputed to nine
    _, one = warped(alike([0, 90, 90, 0], 0.1, 100_000, 10_000, 0.25, 5000), [[5e-5, 5e-4]] * 4)
    assert one.strain[:2] == pytest.approx([9.89130435e-05] * 2, rel=1e-6)
    assert np.max(np.abs(one.curvature_per_mm)) * 1000 < 1e-9


def test_two_wood_plies_crossed_by_five_degrees_twist() -> None:
    # CONSTRUCTED; κxy is the engineering twist −2·∂²w/∂x∂y
    strain = [0.00036485477704616473, 0.015320025]
    _, one = warped(alike([5, -5], 4.0, 13_000, 653, 0.5, 1544), [strain, strain])
    assert abs(one.curvature_per_mm[2]) == pytest.approx(0.000953802921, rel=1e-5)
    assert np.max(np.abs(one.curvature_per_mm[:2])) < 1e-12
    assert one.strain[:2] == pytest.approx([0.000440316441, 0.0149881369], rel=1e-5)


def faced(backer_mm: float, E: float, strain: float) -> float:
    plies = isotropic([backer_mm, 18, 0.8], [E, 3000, 10_000], 0.3)
    _, one = warped(plies, [[strain] * 2, [-0.00065] * 2, [-0.0015] * 2])
    return float(one.curvature_per_mm[0])


def test_balanced_and_thin_backer_and_the_backer_that_balances() -> None:
    assert abs(faced(0.8, 10_000, -0.0015)) < 1e-12
    assert faced(0.5, 8000, -0.0016) == pytest.approx(-9.10664757e-06, rel=1e-6)
    assert brentq(lambda t: faced(t, 8000, -0.0016), 0.3, 2.0, xtol=1e-12) == pytest.approx(
        0.86474196, rel=1e-6
    )


def test_directional_laminate_on_one_face_and_crossed_on_two() -> None:
    core = (18.0, 3000.0, 3000.0, 0.3, 3000 / 2.6, 0.0)
    sheet = (0.8, 13_000.0, 9500.0, 0.3, 4000.0, 0.0)
    turned = (*sheet[:5], 90.0)
    move, still = [-0.0009, -0.0019], [-0.00065, -0.00065]
    _, one = warped(Plies(*map(np.array, zip(core, sheet, strict=True))), [still, move])
    assert one.curvature_per_mm[:2] == pytest.approx([-9.19348086e-06, -3.71144187e-05], rel=1e-6)
    _, two = warped(Plies(*map(np.array, zip(turned, core, sheet, strict=True))), [move, still, move])
    assert two.curvature_per_mm[:2] == pytest.approx([2.14223782e-05, -2.14223782e-05], rel=1e-6)


def test_directional_laminate_on_fibreboard_worked_example() -> None:
    # DERIVED worked example printed to four figures, hence 2e-4
    core = (16.0, 3000.0, 3000.0, 0.25, 1200.0, 0.0)
    sheet = (0.8, 12_000.0, 9500.0, 0.3, 4000.0, 0.0)
    plies = Plies(*map(np.array, zip(core, sheet, strict=True)))
    _, one = warped(plies, [[5e-4, 5e-4], [3.5e-4, 7e-4]])
    assert one.curvature_per_mm[:2] == pytest.approx([-6.175e-6, 7.445e-6], rel=2e-4)
    _, dry = warped(plies, [[0.0, 0.0], [-7e-4, -1.4e-3]])
    assert dry.curvature_per_mm[:2] == pytest.approx([-3.130e-5, -5.153e-5], rel=2e-4)


def test_thirteen_birch_plies() -> None:
    # DERIVED worked example, moduli printed to the MPa
    built = laminate(alike([90.0 * (i % 2) for i in range(13)], 18 / 13, 15_300, 765, 0.45, 1040))
    inner, bend = np.linalg.inv(built.A), np.linalg.inv(built.D)
    assert 1 / np.diag(inner)[:2] / 18 == pytest.approx([8663, 7536], abs=0.6)
    assert 12 / np.diag(bend)[:2] / 18**3 == pytest.approx([9783, 6415], abs=0.6)
    assert np.max(np.abs(built.B)) < 1e-9 * built.A[0, 0] * 18
    N, M = free_resultants(built, *even_strain([[0.01, 0.41]] * 13, np.full(13, 18 / 13)))
    assert deform(built, N, M).strain[:2] == pytest.approx([0.0339, 0.0395], abs=5e-5)


@pytest.mark.parametrize(
    ("moisture", "curvature", "bow"),
    [(3.5, 2.8875e-5, 14.4375), (5.5, 4.5375e-5, 22.6875), (8.5, 7.0125e-5, 35.0625)],
)
def test_door_between_two_climates_bends_without_stress(
    moisture: float, curvature: float, bow: float
) -> None:
    # EN 1121 climates and movement READ on trade pages; results DERIVED arithmetic
    top = 0.00033 * moisture
    plies = isotropic([40.0], [3000.0], [0.3])
    built = laminate(plies)
    N, M = free_resultants(built, *sloping_strain([[0.0, 0.0]], [[top, top]], plies.thickness_mm))
    one = deform(built, N, M)
    assert one.curvature_per_mm[0] == pytest.approx(curvature, rel=1e-9)
    assert one.curvature_per_mm[0] * 2000**2 / 8 == pytest.approx(bow, rel=1e-9)
    for z, share in ((-20.0, 0.0), (3.0, 23 / 40), (20.0, 1.0)):
        assert np.max(np.abs(stress_at(built, one, 0, z, [top * share] * 2))) < 1e-9
