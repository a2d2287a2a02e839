"""The band of facing a profile lays open: closed forms DERIVED for a round-over and a chamfer through a sheet.

Round-over r through a sheet of t < r: arc r·acos(1 − t/r), seen from above √(r² − (r − t)²). Where r < t the arc lies
in the sheet whole and the flat edge below it shows too: πr/2 + (t − r). Chamfer at α from the face: t/sin α. A tangent
round-over has no sharp line: with an error δ of depth its seen edge wanders √(2rδ). Figures worked by hand to the
digits shown, tolerance half the last digit.
"""

from math import radians, sin, tan

import pytest

from evenface.shape.profile import band, wander
from evenface.shape.profile_shapes import chamfer, round_over


@pytest.mark.parametrize(
    ("radius", "sheet", "width", "seen"),
    [
        (4, 0.8, 2.57, 2.40),
        (6, 0.8, 3.13, 2.99),
        (3, 2.0, 3.69, 2.83),
        (1.0, 2.0, 2.57, 1.0),
        (0.5, 2.0, 2.29, 0.5),
    ],
)
def test_round_over_through_a_sheet(radius, sheet, width, seen):
    """4 through 0.8: 4·acos 0.8 = 2.574; 3 through 2: 3·acos(1/3) = 3.693; 1 through 2: π/2 + 1 = 2.571."""
    made = band(round_over(radius), 0.0, sheet)
    assert made.true_width_mm == pytest.approx(width, abs=0.005)
    assert made.from_above_mm == pytest.approx(seen, abs=0.005)


@pytest.mark.parametrize(
    ("angle", "sheet", "width"), [(45, 0.8, 1.13), (45, 2.0, 2.83), (30, 0.8, 1.60), (60, 1.2, 1.39)]
)
def test_chamfer_through_a_sheet(angle, sheet, width):
    """t/sin α with the angle measured from the face: 0.8/sin 30° = 1.6."""
    made = band(chamfer(5.0, 5.0 / tan(radians(angle))), 0.0, sheet)
    assert made.true_width_mm == pytest.approx(width, abs=0.005)
    assert made.true_width_mm == pytest.approx(sheet / sin(radians(angle)), abs=1e-9)


@pytest.mark.parametrize(("radius", "error", "wanders"), [(6, 0.1, 1.1), (3, 0.1, 0.77), (4, 0.05, 0.63)])
def test_wander_of_a_tangent_round_over(radius, error, wanders):
    """√(2·6·0.1) = 1.095: the first order; the closed form differs by δ²/8r, far below the digits shown."""
    assert wander(round_over(radius), error) == pytest.approx(wanders, abs=0.02)


def test_what_a_profile_takes_where_the_carrier_begins():
    """Round-over 4, carrier 0.9 below the face: 4 − √(4² − 3.1²) = 1.47, not 4."""
    assert round_over(4).depth_at(0.9) == pytest.approx(1.47, abs=0.005)
