"""Rotation, rim speed, feed and passes of blades and cutters.

v = π D n / 60 000 (m/s), S = s_z n Z / 1000 (m/min), passes no deeper than half the cutter: trade reference.
Rotation limits by diameter and the feed per tooth in laminate: READ; other feeds and rotations: common practice.
"""

import math
from dataclasses import dataclass
from typing import Final

from evenface.evidence import Status, Value

ROTATION: Final = ((25.0, 24_000.0), (32.0, 18_000.0), (57.0, 16_000.0), (89.0, 12_000.0))
"""READ, a trade article: up to this diameter [mm] at most so many turns a minute in a router."""
FACED_RIM: Final = Value(
    22.0, 15.0, 30.0, "m/s", Status.READ, "an industry compendium: 15 to 30 m/s on faced panels"
)
TOOTH_LAMINATE_MM: Final = Value(
    0.04, 0.03, 0.05, "mm", Status.READ, "an industry compendium: 0.03 to 0.05 mm a tooth in laminate"
)
TOOTH_WOOD_MM: Final = Value(0.1, 0.05, 0.2, "mm", Status.PRACTICE, "common practice in wood and boards")


@dataclass(frozen=True, slots=True)
class Cutter:
    """A router cutter. diameter_mm : the largest it turns. teeth : cutting edges."""

    diameter_mm: float
    teeth: int = 2

    def __post_init__(self) -> None:
        if self.diameter_mm <= 0.0 or self.teeth < 1:
            raise ValueError(
                f"expected a diameter above 0 and a tooth at least, was given {self.diameter_mm} and {self.teeth}"
            )


def rim_speed_m_s(diameter_mm: float, turns_per_min: float) -> float:
    """v = π D n / 60 000."""
    return math.pi * diameter_mm * turns_per_min / 60_000.0


def turns_for(rim_m_s: float, diameter_mm: float) -> float:
    """Turns a minute that give this rim speed."""
    return 60_000.0 * rim_m_s / (math.pi * diameter_mm)


def most_turns(diameter_mm: float) -> float:
    """The most a cutter of this diameter may turn in a router. [1/min]

    Beyond the largest diameter of the list the rim speed of its last row is kept. What is stamped on the tool
    goes before.
    """
    for largest, turns in ROTATION:
        if diameter_mm <= largest:
            return turns
    largest, turns = ROTATION[-1]
    return turns_for(rim_speed_m_s(largest, turns), diameter_mm)


def feed_m_min(tooth_mm: float, turns_per_min: float, teeth: int) -> float:
    """S = s_z n Z."""
    return tooth_mm * turns_per_min * teeth / 1000.0


def tooth_mm(feed_m_per_min: float, turns_per_min: float, teeth: int) -> float:
    """What each tooth takes at this feed: the same formula the other way round."""
    return feed_m_per_min * 1000.0 / (turns_per_min * teeth)


def passes(depth_mm: float, diameter_mm: float) -> tuple[int, float]:
    """How many passes, none deeper than half the cutter, and how deep each is. [mm]"""
    count = max(1, math.ceil(depth_mm / (diameter_mm / 2.0) - 1e-9))
    return count, depth_mm / count
