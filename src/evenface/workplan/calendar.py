"""A list schedule on working days: what is most urgent of what is ready goes first; waits run day and night.

One person works. Clamps, presses and bench room are not counted. Hours count from midnight of the first day.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta

from evenface.workplan.graph import in_order, tails_h
from evenface.workplan.records import Placed, Step

_TINY: float = 1e-9


@dataclass(frozen=True, slots=True)
class WorkDays:
    """When the shop is open: from `opens_h` for `hours` on these weekdays (0 = Monday), not on free days.

    Raises ValueError for a day that does not fit into 24 hours or a week without a working day.
    """

    first: date
    hours: float = 7.0
    opens_h: float = 8.0
    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    free: frozenset[date] = field(default_factory=frozenset)

    def __post_init__(self) -> None:
        if not (self.hours > 0.0 and self.opens_h >= 0.0 and self.opens_h + self.hours <= 24.0):
            raise ValueError(
                f"expected hours within one day, was given {self.hours} from {self.opens_h} o'clock"
            )
        if not set(self.weekdays) & set(range(7)):
            raise ValueError(f"expected at least one working day of 0 to 6, was given {self.weekdays}")

    def windows(self, from_h: float) -> Iterator[tuple[float, float]]:
        """Open hours from that hour on, one pair a day, cut at the beginning."""
        number = int(from_h // 24.0)
        while True:
            day = self.first + timedelta(days=number)
            start, end = 24.0 * number + self.opens_h, 24.0 * number + self.opens_h + self.hours
            if day.weekday() in self.weekdays and day not in self.free and end > from_h + _TINY:
                yield max(start, from_h), end
            number += 1

    def fit(self, from_h: float, needed_h: float) -> tuple[float, float]:
        """First hours for work not to be torn apart; work longer than a day begins in the morning."""
        if needed_h <= self.hours + _TINY:
            for start, end in self.windows(from_h):
                if end - start >= needed_h - _TINY:
                    return start, start + needed_h
        begin = next(s for s, e in self.windows(from_h) if e - s >= self.hours - _TINY)
        return begin, self.after_hours(begin, needed_h)

    def after_hours(self, from_h: float, needed_h: float) -> float:
        """The hour at which so many open hours have passed."""
        left = needed_h
        for start, end in self.windows(from_h):
            if end - start >= left - _TINY:
                return start + left
            left -= end - start
        raise AssertionError("the days never end")

    def clock(self, hour: float) -> datetime:
        """Date and time of that hour, to the minute."""
        return datetime.combine(self.first, time()) + timedelta(minutes=round(hour * 60.0))


@dataclass(frozen=True, slots=True)
class Schedule:
    """Placed steps in the order they begin; the last hour of work, and the hour no plan can beat.

    bound_by : "waits" when the longest way through decides the bound, "hands" when the work of one person.
    """

    days: WorkDays
    placed: tuple[Placed, ...]
    end_h: float
    bound_h: float
    bound_by: str

    @property
    def finish(self) -> datetime:
        return self.days.clock(self.end_h)

    @property
    def bound(self) -> datetime:
        return self.days.clock(self.bound_h)


def schedule(steps: Sequence[Step], days: WorkDays) -> Schedule:
    """Place every step. Raises ValueError for steps that wait for each other, see `graph.in_order`."""
    tails = tails_h(steps)
    left = {step.id: step for step in steps}
    ends: dict[str, float] = {}
    placed: list[Placed] = []
    now = 0.0
    while left:
        ready = {
            step.id: max((ends[a.id] + a.wait_h for a in step.after), default=0.0)
            for step in left.values()
            if all(a.id in ends for a in step.after)
        }
        fits = {one: days.fit(max(now, ready[one]), _hours(left[one])) for one in ready}
        soonest = min(start for start, _ in fits.values())
        chosen = max(
            (one for one in fits if fits[one][0] <= soonest + _TINY), key=lambda one: (tails[one], one)
        )
        start, end = fits[chosen]
        placed.append(Placed(left.pop(chosen), start, end))
        ends[chosen] = now = end
    return Schedule(days, tuple(placed), max(ends.values(), default=0.0), *_bound(steps, days))


def _bound(steps: Sequence[Step], days: WorkDays) -> tuple[float, str]:
    """Each step as early as its waits allow, as if there were hands for all; or all hands in one row."""
    ends: dict[str, float] = {}
    for step in in_order(steps):
        ready = max((ends[a.id] + a.wait_h for a in step.after), default=0.0)
        ends[step.id] = days.fit(ready, _hours(step))[1]
    waits = max(ends.values(), default=0.0)
    hands = days.after_hours(0.0, sum(map(_hours, steps))) if steps else 0.0
    return (waits, "waits") if waits >= hands else (hands, "hands")


def _hours(step: Step) -> float:
    return step.hand_minutes.total / 60.0
