"""Free lenticular disc with an inelastic curvature, and the geometry of a bow.

A. Fernandes, C. Maurini, S. Vidoli: Multiparameter actuation for shape control of bistable composite
plates, Int. J. Solids Struct. 47 (2010) 1449-1458. READ (in the code of an open finite element library):
critical value 2√(1−ν)/(1+ν) and radius R0. DERIVED: the relation (1+ν)(k−h)+k³=0 below it, and the pair
after it. Curvatures were confirmed elsewhere with a Ritz solution of the von Kármán equations to 8 digits;
they are rounded to six, hence 1e-5.
"""

import numpy as np
import pytest

from evenface.mechanics.large_bow import (
    curvature_of_sagitta,
    even_curvatures,
    half_pipe_curvatures,
    lenticular_disc_curvature,
    sagitta,
    sagitta_of_arc,
    sagitta_of_chord,
    splitting_curvature,
)

NU = 0.3


def test_radius_and_critical_value() -> None:
    unit = lenticular_disc_curvature(1.0, 1.0, NU)
    assert unit == pytest.approx(0.249657299, rel=1e-8)
    assert splitting_curvature(NU) == pytest.approx(1.28716927, rel=1e-8)
    assert splitting_curvature(NU) / unit == pytest.approx(5.15574459, rel=1e-8)
    # rise at the rim when the linear plate reaches the critical curvature: κa²/2
    assert splitting_curvature(NU) / unit / 2 == pytest.approx(2.5778722, rel=1e-7)


def test_dome_before_it_splits() -> None:
    unit = lenticular_disc_curvature(1.0, 1.0, NU)
    free = np.array([0.2, 0.5, 0.9]) * splitting_curvature(NU)
    kx, ky = even_curvatures(free, free, NU)
    assert kx / unit == pytest.approx(np.array([0.98528874, 2.12063416, 3.14653732]), rel=1e-5)
    assert ky == pytest.approx(kx, rel=1e-12)


def test_half_pipe_after_it_has_split() -> None:
    unit = lenticular_disc_curvature(1.0, 1.0, NU)
    large, small = half_pipe_curvatures(1.2 * splitting_curvature(NU), NU)
    assert large / unit == pytest.approx(6.24443, rel=1e-5)
    assert small / unit == pytest.approx(1.79852, rel=2e-5)  # printed to five decimals


def test_sagitta_by_three_definitions() -> None:
    """DERIVED, plain geometry: κ = 5e-5 over 1000 mm; printed to 1e-7."""
    assert float(sagitta(5e-5, 1000)) == pytest.approx(6.25, rel=1e-12)
    assert float(sagitta_of_chord(5e-5, 1000)) == pytest.approx(6.2509769, rel=1e-8)
    assert float(sagitta_of_arc(5e-5, 1000)) == pytest.approx(6.2496745, rel=1e-8)
    assert float(curvature_of_sagitta(sagitta_of_chord(5e-5, 1000), 1000)) == pytest.approx(5e-5, rel=1e-12)


def test_bimetal_beam_at_finite_rotation() -> None:
    """B.A. Boley, J.H. Weiner, Theory of Thermal Stresses (1985) p. 429. READ: linear 0.90 in; arcs DERIVED.

    κ = 0.072 /in over 10 in; the arcs are printed to four decimals, hence 1e-4.
    """
    assert float(sagitta(0.072, 10)) == pytest.approx(0.900, rel=1e-12)
    assert float(sagitta_of_arc(0.072, 10)) == pytest.approx(0.8903, rel=1e-4)
    # the arc lengthened by the mean strain 0.0034 under the given temperature
    assert float(sagitta_of_arc(0.072, 10 * 1.0034)) == pytest.approx(0.8963, rel=1e-4)
