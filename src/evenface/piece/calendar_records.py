"""When and with what the shop works: opening hours, people, free days, clamps, press, benches; ticks of what is done.

Times of day are minutes from midnight, of the clock on the wall.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Final

type Stretch = tuple[int, int]
"""Minutes of the day from and to which is worked."""
type Week = tuple[tuple[Stretch, ...], ...]
"""What is worked on each weekday, Monday first."""

DAY_MIN: Final = 24 * 60


def week_of(stretches: tuple[Stretch, ...], weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)) -> Week:
    """The same stretches on each of these weekdays (0 = Monday)."""
    return tuple(stretches if day in weekdays else () for day in range(7))


USUAL_WEEK: Final = week_of(((8 * 60, 15 * 60),))


@dataclass(frozen=True, slots=True)
class Person:
    """Who works, when, and on which days not. Raises ValueError for stretches that overlap or leave the day."""

    name: str
    week: Week = USUAL_WEEK
    absent: frozenset[date] = field(default_factory=frozenset)

    def __post_init__(self) -> None:
        if len(self.week) != 7 or not any(self.week):
            raise ValueError(f"{self.name}: expected seven days with at least one that is worked")
        for day in self.week:
            marks = [minute for stretch in day for minute in stretch]
            if marks != sorted(set(marks)) or (marks and not 0 <= marks[0] < marks[-1] <= DAY_MIN):
                raise ValueError(f"{self.name}: expected stretches one after another within a day, got {day}")


@dataclass(frozen=True, slots=True)
class Locked:
    """A step that must begin on this day, or at this very minute where the time is told."""

    step: str
    begin: datetime
    to_the_minute: bool
    origin: str = ""


@dataclass(frozen=True, slots=True)
class ShopCalendar:
    """What the plan of the days is made from.

    start : first day of work, None for the day that is asked for. closed : days nobody works. clamps, benches :
    how many there are, None for not counted. press_mm : length and width of the plate or bag, None for one that
    takes any panel by itself. presses : how many of them.
    press_hours : how long it stays closed, None for as long as the glue asks when pressed by hand.
    """

    start: date | None = None
    people: tuple[Person, ...] = (Person(""),)
    closed: frozenset[date] = field(default_factory=frozenset)
    clamps: int | None = None
    press_mm: tuple[float, float] | None = None
    presses: int = 1
    press_hours: float | None = None
    benches: int | None = None
    locked: tuple[Locked, ...] = ()
    origin: str = "calendar"


USUAL_CALENDAR: Final = ShopCalendar()


@dataclass(frozen=True, slots=True)
class Done:
    """A step ticked off. minutes : by the clock, None for not noted. day, at : when it ended, None for not noted."""

    step: str
    minutes: float | None = None
    day: date | None = None
    at_min: int | None = None
    origin: str = ""


def by_step(done: tuple[Done, ...]) -> Mapping[str, Done]:
    """Ticks by the step."""
    return {one.step: one for one in done}
