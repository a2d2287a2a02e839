"""How wide solid wood may be: faced, in a mitre, under a facing, let into a board, as a frame.

Only what grows with the width can set a width: cup, slip at the edges, opening of a mitre, mismatch. Shear of a
glue line and tension across the grain reach their level within a few centimetres and stay there.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from evenface.climate.sorption import wood_humidity, wood_moisture
from evenface.climate.year import RoomYear
from evenface.construction.faced_boards import CUP_MM, Swing, faced_board, farthest_swing, free_strain
from evenface.construction.wood_through_year import RING_ANGLE
from evenface.evidence import Status, weakest
from evenface.materials import Facing, Glue, values_of
from evenface.materials import Wood as WoodKind
from evenface.materials.rules import rule
from evenface.mechanics.wood import largest_within
from evenface.words import Said, said

SLIP_MM: Final = 0.2
"""What a careful maker lets pass: slip at each edge."""
BOND_MPA: Final = {True: 4.0, False: 0.3}
"""What a rigid and a contact glue line bear for long; from memory."""
WIDTHS: Final = np.arange(10.0, 402.0, 2.0)


@dataclass(frozen=True, slots=True)
class Ground:
    """The wood and what the air does to it: moisture and humidity it moves by from bonding to the worst month."""

    wood: WoodKind
    cut: str
    thickness_mm: float
    moisture_change: float
    humidity_change: float
    status: Status = Status.MEMORY


@dataclass(frozen=True, slots=True)
class Reason:
    """One reason against width. width_mm : where it reaches its limit; None where it never does.

    level : value at 200 mm, against `limit`, in `unit`. grows : whether width makes it worse at all.
    """

    name: str
    width_mm: float | None
    level: float
    limit: float
    unit: str
    grows: bool


@dataclass(frozen=True, slots=True)
class WidthLimit:
    """The largest safe width of one use of solid wood. width_mm : low to high with the wood's movement.

    binds : name of the reason that sets it. practice : the trade's own rule, as common practice.
    """

    use: str
    title: Said
    width_mm: tuple[float, float, float] | None
    binds: str
    reasons: tuple[Reason, ...]
    practice: Said
    source: str
    weakest: Status


def ground_of(wood: WoodKind, cut: str, thickness_mm: float, year: RoomYear, bonded_at: float) -> Ground:
    """The change from the air at bonding to the month farthest from it; spells are too short for solid wood.

    Raises ValueError for a cut that is not flat, rift or quarter.
    """
    swing = farthest_swing(year, bonded_at)
    return _checked(Ground(wood, cut, thickness_mm, swing.moisture, swing.humidity, year.status))


def ground_of_change(
    wood: WoodKind, cut: str, thickness_mm: float, moisture_change: float, bonded_at: float = 0.5
) -> Ground:
    """The same for a change of moisture content given as such (−0.03: it dries by 3 %)."""
    before = float(wood_moisture(bonded_at, 20.0))
    far = float(wood_humidity(max(0.01, before + moisture_change), 20.0))
    given = Status.MEASURED
    return _checked(Ground(wood, cut, thickness_mm, moisture_change, far - bonded_at, given))


def _checked(ground: Ground) -> Ground:
    if ground.cut not in RING_ANGLE:
        raise ValueError(f"expected a cut of flat, rift or quarter, was given {ground.cut!r}")
    if not ground.thickness_mm > 0.0:
        raise ValueError(f"expected a thickness above 0, was given {ground.thickness_mm:g}")
    return ground


def strain_across(ground: Ground, end: int = 1) -> float:
    """Free strain across the width at the low (0), nominal (1) or high (2) movement of the wood."""
    return free_strain(ground.wood, ground.cut, ground.moisture_change, end)


def faced_limit(ground: Ground, facing: Facing, glue: Glue, both: bool) -> WidthLimit:
    """Faced solid wood: cup and slip set the width; shear and tension are told beside them."""
    low, middle, high = (_faced_reasons(ground, facing, glue, both, end) for end in (0, 1, 2))
    growing = [[one for one in reasons if one.grows] for reasons in (low, middle, high)]
    widths = [
        min((one.width_mm for one in reasons if one.width_mm is not None), default=None)
        for reasons in growing
    ]
    binds = min(growing[1], key=lambda one: np.inf if one.width_mm is None else one.width_mm)
    title = said(
        "{wood}, {cut:word}-sawn, {thickness:mm}, {sheet} on {sides:word}",
        wood=ground.wood.title,
        cut=ground.cut,
        thickness=ground.thickness_mm,
        sheet=facing.title,
        sides="both faces" if both else "one face",
    )
    found = None
    if widths[1] is not None:
        top = float(WIDTHS[-1])
        found = (widths[2] or 0.0, widths[1], top if widths[0] is None else widths[0])
    statuses = [v.status for record in (ground.wood, facing, glue) for v in values_of(record).values()]
    return WidthLimit(
        use="faced",
        title=title,
        width_mm=found,
        binds=binds.name if binds.width_mm is not None else "",
        reasons=middle,
        practice=said(
            "Common practice: a few centimetres with strong corner joints is done and lasts; 200 mm is refused."
        ),
        source=rule("edging-width-mitre").source,
        weakest=weakest((*statuses, ground.status)),
    )


def _faced_reasons(ground: Ground, facing: Facing, glue: Glue, both: bool, end: int) -> tuple[Reason, ...]:
    wood = ground.wood
    told = faced_board(
        wood,
        ground.cut,
        ground.thickness_mm,
        Swing(ground.moisture_change, ground.humidity_change),
        facing,
        glue.rigid,
        WIDTHS,
        both_sides=both,
        end=end,
    )
    at = int(np.searchsorted(WIDTHS, 200.0))
    strength = wood.tension_across.nominal if wood.tension_across else None
    rows = [
        ("cup", told.cup_mm, CUP_MM, "mm", True),
        ("slip at each edge", told.edge_slip_mm, SLIP_MM, "mm", True),
        ("shear of the glue line", told.bond_shear_mpa, BOND_MPA[glue.rigid], "MPa", False),
    ]
    if strength is not None:
        rows.append(("tension across the grain", np.maximum(told.tension_mpa, 0.0), strength, "MPa", False))
    reasons = []
    for name, effect, limit, unit, grows in rows:
        width = largest_within(WIDTHS, np.broadcast_to(effect, WIDTHS.shape), limit)
        reached = None if np.isinf(width) else width
        level = float(abs(np.broadcast_to(effect, WIDTHS.shape)[at]))
        reasons.append(Reason(name, reached, level, limit, unit, grows))
    return tuple(reasons)
