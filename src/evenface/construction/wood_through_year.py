"""How a width of solid wood changes over the year of the room it stands in."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from evenface.climate.sorption import wood_moisture
from evenface.construction.room_air import ends_of_year
from evenface.evidence import Status, weakest
from evenface.materials import Wood
from evenface.mechanics.wood import across_the_width
from evenface.piece.records import Job

RING_ANGLE: Final = {"flat": 0.0, "rift": 45.0, "quarter": 90.0}
"""Angle of the rings to the width of a board by how it was sawn. [degrees]"""


@dataclass(frozen=True, slots=True)
class ThroughYear:
    """A width through the year against what it was when it was made. [mm]

    least_mm, most_mm : change of the width in the driest and the dampest 5 % of the days, with the wood's own
    movement at the end of its range that makes it larger. status : the weakest figure behind it.
    """

    least_mm: float
    most_mm: float
    status: Status

    @property
    def swing_mm(self) -> float:
        return self.most_mm - self.least_mm

    def over(self, factor: float) -> "ThroughYear":
        """The same for a width `factor` times as large."""
        return ThroughYear(self.least_mm * factor, self.most_mm * factor, self.status)

    def beside(self, other: "ThroughYear") -> "ThroughYear":
        """Both together, in one row."""
        return ThroughYear(
            self.least_mm + other.least_mm, self.most_mm + other.most_mm, weakest((self.status, other.status))
        )


def width_through_year(
    job: Job, wood: Wood, width_mm: float, cut: str = "flat", room: str = ""
) -> ThroughYear:
    """Change of `width_mm` across the grain between making, at the shop's humidity, and the ends of the year.

    room : kind of room, the job's own when left out. KeyError for a cut that is not flat, rift or quarter.
    Free wood that follows the room wholly: an upper bound for thick or lacquered wood.
    """
    start = _moisture(job.shop_humidity)
    ends = [_moisture(end) - start for end in ends_of_year(job, room or job.room)]
    pair = (wood.movement_tangential.high, wood.movement_radial.high)
    per_moisture = _across(*pair, RING_ANGLE[cut])
    least, most = sorted(width_mm * per_moisture * end for end in ends)
    status = weakest((wood.movement_tangential.status, wood.movement_radial.status))
    return ThroughYear(min(least, 0.0), max(most, 0.0), status)


@lru_cache(maxsize=256)
def _across(tangential: float, radial: float, ring_angle_deg: float) -> float:
    return float(across_the_width(tangential, radial, ring_angle_deg))


@lru_cache(maxsize=256)
def _moisture(humidity: float) -> float:
    return float(wood_moisture(humidity, 20.0))
