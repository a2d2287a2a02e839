"""Isotherms of boards: EWPAA, Facts about particleboard and MDF, p. 37 (READ), and a plywood curve (READ).

MC at 30/45/65/75/90 % humidity: 6-8, 7-9, 9-11, 10-12, 15-16 % for particleboard and MDF; the spread of our
points must hold the guide's range to half a percent. Plywood u = 0.218h^1.44 + 0.535h^28.16.
"""

import numpy as np
import pytest

from evenface.climate import isotherm

GUIDE = {0.30: (6, 8), 0.45: (7, 9), 0.65: (9, 11), 0.75: (10, 12), 0.90: (15, 16)}


@pytest.mark.parametrize("kind", ["mdf", "particleboard"])
def test_trade_guide(kind: str) -> None:
    board = isotherm(kind)
    for humidity, (low, high) in GUIDE.items():
        assert low - 0.5 < 100 * float(board.moisture(humidity)) < high + 1.0
        least, most = board.spread(humidity)
        assert 100 * float(least) < low + 0.5
        assert 100 * float(most) > high - 0.5


def test_plywood_curve_lies_in_the_band() -> None:
    h = np.array([0.30, 0.45, 0.65, 0.75, 0.85])
    low, high = isotherm("plywood").spread(h)
    curve = 0.218 * h**1.44 + 0.535 * h**28.16
    assert np.all((low - 0.005 <= curve) & (curve <= high + 0.005))


@pytest.mark.parametrize(
    ("kind", "slope"), [("plywood", 0.17), ("particleboard", 0.12), ("mdf", 0.10), ("laminate", 0.06)]
)
def test_slopes_from_30_to_65_percent(kind: str, slope: float) -> None:
    """DERIVED/MEMORY, two digits."""
    board = isotherm(kind)
    assert float(board.moisture(0.65) - board.moisture(0.30)) / 0.35 == pytest.approx(slope, abs=0.005)
