"""Twist as a band from plies that are not laid quite square; it has no nominal value."""

from functools import lru_cache

import numpy as np

from evenface.behaviour.curving import Curved
from evenface.behaviour.records import Bend, Direction
from evenface.behaviour.stacks import Stacked
from evenface.climate.year import MONTH_OF_DAY
from evenface.construction import BuiltPanel
from evenface.evidence import Band
from evenface.mechanics import Plies, sample_twist, twist_band_mm
from evenface.piece.records import Role

PLY_SCATTER_DEG = 2.0
"""Standard deviation of a veneer's grain angle in plywood; an estimate, no published source."""
SHEET_SCATTER_DEG = 1.0
"""The same for a facing or board cut a little crooked out of its sheet."""
PLY = (15_300.0, 765.0, 0.45, 1_040.0, 0.0001, 0.0041)
"""Birch veneer: E along and across, ν, G [MPa], movement along and across per 1 % moisture content [%/%]."""
MOISTURE_PER_HUMIDITY = 0.17
"""Moisture content of plywood per unit of relative humidity, 30 to 65 %. [kg/kg]"""
CROSSBAND_MM = 2.5
"""Veneer on each side of a blockboard, of several leaves side by side; its sticks even out by themselves."""

type _Ply = tuple[float, float, float, float, float, float, float, float, float]
"""Thickness, E1, E2, ν, G, angle, free strain 1, free strain 2, scatter of the angle."""


def twist_bend(panel: BuiltPanel, numbers: Stacked, shape: Curved) -> Bend:
    """The fourth corner's distance from the plane of the other three: 95 % of panels stay within the band.

    It follows the greatest change of the board's own mean humidity from bonding over the settled year.
    """
    board = 0 if panel.face(Role.BACK) is None else 1
    changes = shape.humidity - np.asarray(numbers.humidity_at_bonding)
    instant = int(np.argmax(np.abs(changes[:, board])))
    half, most = twist_mm(panel, numbers, tuple(float(change) for change in changes[instant]))
    return Bend(
        direction=Direction.TWIST,
        gauge_mm=float(np.hypot(panel.length_mm, panel.width_mm)),
        worst=Band(-most, None, most),
        month=int(MONTH_OF_DAY[min(int(shape.days[instant]), 364)]) + 1,
        year=(),
        shares={"angles of the plies and sheets": 1.0},
        half_mm=half,
    )


def twist_mm(panel: BuiltPanel, numbers: Stacked, changes: tuple[float, ...]) -> tuple[float, float]:
    """What half of all panels, and 95 of 100, stay within when their layers' humidities change so. [mm]"""
    twist = np.asarray(_twist_once(tuple(_plies(panel, numbers, changes))))
    half, most = twist_band_mm(twist, panel.length_mm, panel.width_mm, (50.0, 95.0))
    return float(half), float(most)


def _plies(panel: BuiltPanel, numbers: Stacked, changes: tuple[float, ...]) -> list[_Ply]:
    stack = numbers.stack
    found: list[_Ply] = []
    board = 0 if panel.face(Role.BACK) is None else 1
    for number, change in enumerate(changes):
        thickness = float(stack.thickness_mm[number])
        veneers = _veneers(panel, thickness, change) if number == board else []
        if veneers:
            found += veneers
            continue
        elastic = (stack.E1_MPa, stack.E2_MPa, stack.nu12, stack.G12_MPa, stack.angle_deg)
        free = (stack.expansion_1, stack.expansion_2)
        found.append(
            (
                thickness,
                *(float(row[number]) for row in elastic),
                *(float(row[number]) * change for row in free),
                SHEET_SCATTER_DEG,
            )  # type: ignore[arg-type]
        )
    return found


def _veneers(panel: BuiltPanel, thickness_mm: float, change: float) -> list[_Ply]:
    """Plywood as its plies, a blockboard as core and two crossbands; nothing for a board without plies."""
    board, turned = panel.carrier.material, panel.carrier.direction_deg
    moisture = change * MOISTURE_PER_HUMIDITY * 100.0
    free = PLY[4] * moisture, PLY[5] * moisture
    if board.board == "blockboard":
        rows = [(CROSSBAND_MM, 90.0, SHEET_SCATTER_DEG), (thickness_mm - 2 * CROSSBAND_MM, 0.0, 0.0)]
        rows.append(rows[0])
    elif board.plies > 1:
        each = thickness_mm / board.plies
        rows = [(each, 90.0 * (number % 2), PLY_SCATTER_DEG) for number in range(board.plies)]
    else:
        return []
    return [(thick, *PLY[:4], turned + angle, *free, scatter) for thick, angle, scatter in rows]


@lru_cache(maxsize=256)
def _twist_once(plies: tuple[_Ply, ...]) -> tuple[float, ...]:
    t, E1, E2, nu, G, angle, one, two, scatter = (np.array(column) for column in zip(*plies, strict=True))
    drawn = sample_twist(
        Plies(t, E1, E2, nu, G, angle), np.stack([one, two], axis=-1), scatter, draws=500, seed=1
    )
    return tuple(float(value) for value in drawn)
