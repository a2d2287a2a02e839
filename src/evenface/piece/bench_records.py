"""What was measured at the bench: moisture of wood, board and room; flatness of finished parts."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading of the moisture log.

    what : "wood", "board" or "room". material : by its name in the catalogue, empty for the room. where : stack,
    shelf, room. value : moisture content of wood or board, relative humidity of the room, as a fraction.
    since : the day this stock came into the shop, None for not noted. temperature_c : of the room.
    """

    what: str
    value: float
    day: date
    material: str = ""
    where: str = ""
    instrument: str = ""
    since: date | None = None
    temperature_c: float | None = None
    origin: str = ""

    @property
    def days_lain(self) -> int | None:
        """Days in the shop up to the reading."""
        return None if self.since is None else (self.day - self.since).days


@dataclass(frozen=True, slots=True)
class MeasuredFlat:
    """Flatness of one finished part as measured, mm; above 0 where the show face is round.

    bow_mm along its length, cup_mm across its width, twist_mm of the fourth corner; None for not measured.
    number : which of the alike, from 1. humidity : of the room that day, as a fraction.
    """

    piece: str
    panel: str
    number: int = 1
    bow_mm: float | None = None
    cup_mm: float | None = None
    twist_mm: float | None = None
    day: date | None = None
    humidity: float | None = None
    origin: str = ""


def latest(readings: tuple[Reading, ...], what: str = "") -> dict[str, Reading]:
    """The last reading of each material (of the room under ""), of one kind where `what` is given."""
    found: dict[str, Reading] = {}
    for one in sorted(readings, key=lambda reading: reading.day):
        if not what or one.what == what:
            found[one.material] = one
    return found
