"""Twist as a band from plies that are not laid quite square; it has no nominal value."""

from functools import lru_cache

import numpy as np

from evenface.behaviour.records import Bend, Direction
from evenface.behaviour.stacks import Stacked
from evenface.climate.year import MONTH_OF_DAY, RoomYear
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


def twist_bend(panel: BuiltPanel, numbers: Stacked, top: RoomYear, bottom: RoomYear) -> Bend:
    """The fourth corner's distance from the plane of the other three: 95 % of panels stay within the band.

    It follows the largest change of the mean humidity from bonding.
    """
    bonding = float(np.mean(numbers.humidity_at_bonding))
    mean = (top.humidity + bottom.humidity) / 2
    day = int(np.argmax(np.abs(mean - bonding)))
    change = float(mean[day] - bonding)
    twist = _twist_once(_plies_key(panel, numbers, change))
    (worst,) = twist_band_mm(np.asarray(twist), panel.length_mm, panel.width_mm, (95.0,))
    return Bend(
        direction=Direction.TWIST,
        gauge_mm=float(np.hypot(panel.length_mm, panel.width_mm)),
        worst=Band(-float(worst), None, float(worst)),
        month=int(MONTH_OF_DAY[day]) + 1,
        year=(),
        shares={"angles of the plies and sheets": 1.0},
    )


type _Ply = tuple[float, float, float, float, float, float, float, float, float]
"""Thickness, E1, E2, ν, G, angle, free strain 1, free strain 2, scatter of the angle."""


def _plies_key(panel: BuiltPanel, numbers: Stacked, change: float) -> tuple[_Ply, ...]:
    stack = numbers.stack
    plies: list[_Ply] = []
    carrier_at = 0 if panel.face(Role.BACK) is None else 1
    for number in range(stack.layers):
        if number == carrier_at and panel.carrier.material.plies > 1:
            plies += _veneers(panel, float(stack.thickness_mm[number]), change)
            continue
        plies.append(
            (
                float(stack.thickness_mm[number]),
                float(stack.E1_MPa[number]),
                float(stack.E2_MPa[number]),
                float(stack.nu12[number]),
                float(stack.G12_MPa[number]),
                float(stack.angle_deg[number]),
                float(stack.expansion_1[number]) * change,
                float(stack.expansion_2[number]) * change,
                SHEET_SCATTER_DEG,
            )
        )
    return tuple(plies)


def _veneers(panel: BuiltPanel, thickness_mm: float, change: float) -> list[_Ply]:
    count = panel.carrier.material.plies
    moisture = change * MOISTURE_PER_HUMIDITY * 100.0
    along, across = PLY[4] * moisture, PLY[5] * moisture
    turned = panel.carrier.direction_deg
    return [
        (thickness_mm / count, *PLY[:4], turned + 90.0 * (number % 2), along, across, PLY_SCATTER_DEG)
        for number in range(count)
    ]


@lru_cache(maxsize=256)
def _twist_once(plies: tuple[_Ply, ...]) -> tuple[float, ...]:
    t, E1, E2, nu, G, angle, one, two, scatter = (np.array(column) for column in zip(*plies, strict=True))
    drawn = sample_twist(
        Plies(t, E1, E2, nu, G, angle), np.stack([one, two], axis=-1), scatter, draws=500, seed=1
    )
    return tuple(float(value) for value in drawn)
