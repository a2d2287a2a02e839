"""Cup of a board from the curve of its rings.

R. E. Booker, N. Ward, Q. Williams: A theory of cross-sectional shrinkage distortion, Wood Sci. Technol. 26
(1992) 353-368. MEMORY: the idea of mapping in polar coordinates. DERIVED: the displacement field; it was
confirmed with finite elements of cylindrical orthotropy (cup −0.3791115 / −0.3420535 / −0.4228737 mm, stress
under 0.001 MPa). Spruce movement α_T 0.3425, α_R 0.1816: Maas and Wittel 2026, READ. Asked for to 0.1 %,
met to the printed digits, 1e-6.
"""

import numpy as np
import pytest

from evenface.mechanics.wood import ring_cup, ring_curvature

T, R = 0.3425 * -0.05, 0.1816 * -0.05


def test_flat_sawn_spruce_drying_by_5_percent() -> None:
    """Width 120, thickness 20, pith 60 mm below mid-thickness."""
    assert pytest.approx(-0.008045, rel=1e-9) == T - R
    assert float(ring_cup(120, 60, T, R)) == pytest.approx(-0.37911169, rel=1e-6)
    assert float(ring_cup(120, 70, T, R)) == pytest.approx(-0.3420539, rel=1e-6)
    assert float(ring_cup(120, 50, T, R)) == pytest.approx(-0.42287322, rel=1e-6)


def test_parabola_overstates_it() -> None:
    parabola = float(ring_curvature(1e-3, 60, T, R)) * 120**2 / 8
    assert parabola == pytest.approx(-0.4827, rel=1e-5)
    assert parabola / float(ring_cup(120, 60, T, R)) == pytest.approx(1.27, abs=0.005)


def test_finite_strain_by_polar_mapping() -> None:
    """Radii × (1 + ε_R), angles × (1 + ε_T)/(1 + ε_R): gives −0.37790 mm; small strain is 0.4 % off."""

    def height(x: float, y: float) -> float:
        radius, angle = np.hypot(x, y) * (1 + R), np.arctan2(x, y) * (1 + T) / (1 + R)
        return float(radius * np.cos(angle))

    mapped = height(0.0, 60.0) - height(60.0, 60.0)
    assert mapped == pytest.approx(-0.37790044, rel=1e-6)
    assert float(ring_cup(120, 60, T, R)) == pytest.approx(mapped, rel=5e-3)
