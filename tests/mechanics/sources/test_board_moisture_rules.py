"""Rules and arithmetic on boards and moisture.

Industry booklet "Facts about particleboard and MDF", p. 37 (READ: about 1 mm/m for 9 to 12 % and a further
1 mm/m for 12 to 16 %); glue water CONSTRUCTED; air pressures of the EN 1121 door climates (READ pairs,
vapour pressures DERIVED). Timber plate values from memory are not used here.
"""

import numpy as np
import pytest

from evenface.mechanics import GlueWater, Stack, isotropic, saturation_pressure_pa
from evenface.mechanics.cells import cut_into_cells, wetted
from evenface.mechanics.laminate import even_strain, strip
from evenface.mechanics.vapour import SECONDS_PER_DAY, air_permeability


def board(spread: float = 0.00033) -> Stack:
    # particleboard: storage 650 kg/m³ · 0.12, movement 0.033 % per 1 % water
    thickness, storage = np.array([18.0, 0.8]), np.array([650 * 0.12, 84.0])
    move = np.array([spread * 12, 0.005])
    return Stack(thickness, 3000.0, 3000.0, 0.3, 1150.0, 0.0, move, move, np.array([30.0, 17_000.0]), storage)


def test_movement_rule_of_boards() -> None:
    # plausibility, ±30 %: +25 % and +33 % humidity are about +3 and +4 % of water at slope 0.12
    stack = board()
    for change, expected in ((0.03 / 0.12, 1.0), (0.04 / 0.12, 1.0)):
        moved = float(stack.expansion_1[0]) * change * 1000 / 1.0
        assert moved == pytest.approx(expected, rel=0.33)


def test_water_of_the_glue_line() -> None:
    stack = board()
    grid = cut_into_cells(stack, 20.0, 20.0)
    added = wetted(stack, grid, GlueWater(1, 0.150 * 0.5, depth_below_mm=3.0))
    assert added.sum() == pytest.approx(0.075, rel=1e-12)
    assert added[grid.layer == 1].sum() == 0.0
    assert 100 * added.sum() / (650 * 0.018) == pytest.approx(0.641026, rel=1e-6)
    touched = np.flatnonzero(added)
    share = added[touched] / (650 * 1e-3 * grid.width_mm[touched])
    assert 100 * share[1:].max() == pytest.approx(3.846154, rel=1e-6)


def test_bow_of_a_board_wetted_three_millimetres_deep() -> None:
    # CONSTRUCTED; layer values printed to nine figures, hence 1e-6
    plies = isotropic([15.0, 3.0], [3000, 3000], 0.3)
    wet = 3.846153846153846 * 0.00033
    _, curvature = strip(plies, *even_strain([[0.0, 0.0], [wet, wet]], plies.thickness_mm))
    assert float(curvature) == pytest.approx(5.87606838e-05, rel=1e-6)


def test_vapour_runs_against_humidity_between_door_climates() -> None:
    room = 0.30 * float(saturation_pressure_pa(23.0))
    cold = 0.85 * float(saturation_pressure_pa(3.0))
    assert (room, cold) == pytest.approx((842, 644), abs=1.0)


def test_saturation_over_ice_lies_under_that_over_water() -> None:
    # MEMORY: 260 Pa over ice at −10 °C (286 over water), 2337 Pa at 20 °C
    assert saturation_pressure_pa([-10.0, 0.0, 20.0]) == pytest.approx([260.0, 610.5, 2337.0], abs=1.0)


def test_permeability_of_still_air() -> None:
    assert float(air_permeability(20.0)) / SECONDS_PER_DAY == pytest.approx(1.97e-10, rel=5e-3)
