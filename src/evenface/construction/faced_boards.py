"""A board of solid wood with a facing on it: what the materials make of it for the mechanics, and its free strain."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from evenface.climate.sorption import wood_moisture
from evenface.climate.year import RoomYear
from evenface.construction.wood_through_year import RING_ANGLE
from evenface.evidence import Value
from evenface.materials import Facing, Wood
from evenface.mechanics.faced_wood import FacedWood, Glue, Sheet, faced_wood
from evenface.mechanics.faced_wood import Wood as FreeBoard
from evenface.mechanics.wood import across_the_width, modulus_across_the_width

ROLLING_SHARE: Final = 0.022
POISSON_TR: Final = 0.35
"""Rolling shear modulus over E_L, and ν_TR, of a hardwood; from memory."""
SHEET_THROUGH_MPA: Final = 800.0
LINE_MM: Final = 0.1
RIGID_MPA: Final = 500.0
SOFT_MPA: Final = 0.5
"""Shear moduli across a sheet, of a rigid and of a contact glue line under a load that lasts; from memory."""
CUP_MM: Final = 0.3
"""What a careful maker lets pass: cup of the width."""


@dataclass(frozen=True, slots=True)
class Swing:
    """Change of the wood's moisture and of the air's humidity from bonding on, as fractions."""

    moisture: float
    humidity: float


def farthest_swing(year: RoomYear, bonded_at: float) -> Swing:
    """From the air at bonding to the month farthest from it; spells are too short for solid wood."""
    _, months = year.month_means()
    far = float(months[int(np.argmax(np.abs(months - bonded_at)))])
    return Swing(float(wood_moisture(far, 20.0) - wood_moisture(bonded_at, 20.0)), far - bonded_at)


def free_strain(wood: Wood, cut: str, moisture_change: float, end: int = 1) -> float:
    """Free strain across the width at the low (0), nominal (1) or high (2) movement of the wood."""
    pair = (_at(wood.movement_tangential, end), _at(wood.movement_radial, end))
    return float(across_the_width(*pair, RING_ANGLE[cut])) * moisture_change


def faced_board(
    wood: Wood,
    cut: str,
    thickness_mm: float,
    swing: Swing,
    facing: Facing,
    rigid: bool,
    widths_mm: ArrayLike,
    *,
    both_sides: bool = False,
    turned: bool = False,
    end: int = 1,
) -> FacedWood:
    """Cup, slip, shear and tension over the widths. end : see `free_strain`. rigid : the glue does not creep.

    turned : the sheet's long way stands across the grain. KeyError for a cut that is not flat, rift or quarter.
    """
    pairs = [
        (facing.modulus_along.nominal, facing.expansion_along.nominal),
        (facing.modulus_across.nominal, facing.expansion_across.nominal),
    ]
    along, across = reversed(pairs) if turned else pairs
    sheet = Sheet(
        facing.thickness.nominal,
        along[0],
        across[0],
        facing.poisson.nominal * (along[0] / across[0] if turned else 1.0),
        facing.shear_modulus.nominal,
        SHEET_THROUGH_MPA,
        along[1] * swing.humidity,
        across[1] * swing.humidity,
    )
    line = Glue(LINE_MM, RIGID_MPA if rigid else SOFT_MPA)
    board = _board(wood, cut, thickness_mm, swing, end)
    return faced_wood(widths_mm, board, sheet, line, both_sides=both_sides)


def _board(wood: Wood, cut: str, thickness_mm: float, swing: Swing, end: int) -> FreeBoard:
    along = wood.modulus_along.nominal
    rolling = ROLLING_SHARE * along
    return FreeBoard(
        thickness_mm,
        along,
        modulus_across_the_width(
            wood.modulus_tangential.nominal,
            wood.modulus_radial.nominal,
            rolling,
            POISSON_TR,
            RING_ANGLE[cut],
        ),
        wood.poisson_lt.nominal,
        wood.shear_lt.nominal,
        rolling,
        wood.movement_along.nominal * swing.moisture,
        free_strain(wood, cut, swing.moisture, end),
    )


def _at(value: Value, end: int) -> float:
    return (value.low, value.nominal, value.high)[end]
