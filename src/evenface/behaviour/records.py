"""How a part behaves through the year."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from evenface.evidence import Band, Status
from evenface.words import Said


class Direction(StrEnum):
    """Bow follows the longer edge, cup the shorter one, twist the diagonals."""

    BOW = "bow"
    CUP = "cup"
    TWIST = "twist"


@dataclass(frozen=True, slots=True)
class Bend:
    """One direction of bending over the settled year, in mm over the gauge.

    gauge_mm : the length the rise is measured over (of twist: the diagonal).
    worst : band of the day on which its edge lies furthest from flat; its nominal is None for twist.
    month : 1 to 12, of that day. positive domes the show face.
    year : bands of twelve months, from the worst day of each; empty for twist.
    shares : share of the variance each uncertain property explains on that day, greatest first.
    half_mm : of twist, what half of all such panels stay within.
    """

    direction: Direction
    gauge_mm: float
    worst: Band
    month: int
    year: tuple[Band, ...]
    shares: Mapping[str, float]
    half_mm: float | None = None

    @property
    def deciding_mm(self) -> float:
        """The edge of the band that decides, signed."""
        return self.worst.worst


@dataclass(frozen=True, slots=True)
class Drying:
    """What the glue's water does before it is gone: the greatest extra rise, and on which day. [mm]

    gone_day : from then on less than a tenth of it is left.
    """

    direction: Direction
    most_mm: float
    day: int
    gone_day: int


@dataclass(frozen=True, slots=True)
class Behaviour:
    """A part through the year.

    first_years : nominal bow and cup by month for two years after bonding, from the month of bonding on, the
    glue's water included. drying : what of it is the water; empty for a glue without.
    held : free, hinged, screwed or groove. holding_n : greatest force at one fixing of a part that is held,
    when it takes out the worst bow; of a groove, in the middle of its length. None for a part that hangs free.
    notes : what the figures rest on, in words. weakest : the weakest evidence among them.
    """

    piece: str
    part: str
    thickness_mm: float
    bends: tuple[Bend, ...]
    first_years: Mapping[Direction, tuple[float, ...]]
    holding_n: float | None
    mass_kg_m2: float
    weakest: Status
    notes: tuple[Said, ...]
    origin: str = ""
    held: str = "free"
    first_month: int = 9
    drying: tuple[Drying, ...] = ()

    def bend(self, direction: Direction) -> Bend:
        """The bend of that direction; every behaviour has all three."""
        return next(bend for bend in self.bends if bend.direction is direction)
