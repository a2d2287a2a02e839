"""How much a part may bow, cup or twist, over which gauge, and how a bend is held against it."""

from dataclasses import dataclass

from evenface.behaviour import Bend, Direction
from evenface.construction import BuiltPanel
from evenface.materials.rules import rule

METRE_MM = 1000.0


@dataclass(frozen=True, slots=True)
class Limit:
    """So many mm over a gauge, with its source."""

    mm: float
    gauge_mm: float
    source: str


def limit_for(panel: BuiltPanel, direction: Direction) -> Limit:
    """The limit promised in the job, else the usual one for the use of the part."""
    own = panel.panel.limit
    if own is not None:
        return Limit(own.mm, own.gauge_mm, own.source)
    use = "door" if panel.panel.use in ("door", "front") else "top"
    if direction is Direction.TWIST:
        found = rule(f"flatness-{use}-twist")
        return Limit(found.nominal, 0.0, found.source)
    found = rule(f"flatness-{use}")
    return Limit(found.nominal, METRE_MM, found.source)


def held_against(bend: Bend, limit: Limit) -> tuple[float, float]:
    """The deciding rise and the limit, both over the gauge that fits the part. [mm]

    A part longer than the gauge is read with a straightedge of the gauge's length; on a shorter one the limit
    shrinks with the length, since makers mean a rate when they say "per metre".
    """
    if bend.direction is Direction.TWIST or limit.gauge_mm <= 0:
        return abs(bend.deciding_mm), limit.mm
    if bend.gauge_mm >= limit.gauge_mm:
        return abs(bend.deciding_mm) * (limit.gauge_mm / bend.gauge_mm) ** 2, limit.mm
    return abs(bend.deciding_mm), limit.mm * bend.gauge_mm / limit.gauge_mm


def over_the_part(bend: Bend, limit: Limit) -> float:
    """The limit as a rise over the bend's own gauge, to be drawn and listed beside it. [mm]"""
    rise, allowed = held_against(bend, limit)
    return allowed * abs(bend.deciding_mm) / rise if rise > 0.0 else allowed
