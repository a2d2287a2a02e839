"""Open hours on one line: minutes from midnight of the first day, the working stretches laid end to end."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from datetime import date, timedelta
from typing import Final

from evenface.piece.calendar_records import DAY_MIN, Person, Stretch

LEAST_PART_MIN: Final = 20
"""Work that may be split is not begun for less than this before closing: own estimate."""
_CHUNK_DAYS: Final = 60
_LAST_DAY: Final = 6000


class OpenHours:
    """When all of these people are there.

    Raises ValueError where they share no hour, and when no open hour is found within sixteen years.
    """

    def __init__(self, first: date, people: Sequence[Person], closed: frozenset[date]) -> None:
        self.first, self.closed = first, closed.union(*(one.absent for one in people))
        self.week = tuple(_shared([one.week[day] for one in people]) for day in range(7))
        self.longest = max((end - start for day in self.week for start, end in day), default=0)
        if self.longest == 0:
            raise ValueError(f"expected people who share an hour, was given {[one.name for one in people]}")
        self.starts: list[int] = []
        self.ends: list[int] = []
        self.worked: list[int] = []
        """Minutes worked before each stretch."""
        self._days = 0

    def next_begin(self, from_min: int, minutes: int, may_split: bool) -> int:
        """First moment at which this work may begin, as far as the hours go.

        What may not be split stays within one stretch; when it is longer than any, it begins with the longest.
        """
        needed = minutes if not may_split else min(minutes, LEAST_PART_MIN)
        needed = min(needed, self.longest)
        at = self._index(from_min)
        while True:
            start, end = self._stretch(at)
            begin = max(start, from_min)
            if end - begin >= needed:
                return begin
            at += 1

    def end_of(self, begin: int, minutes: int) -> int:
        """The moment at which so many minutes have been worked since `begin`, an open moment."""
        at = self._index(begin)
        start, _ = self._stretch(at)
        wanted = self.worked[at] + max(0, begin - start) + minutes
        while self.worked[-1] + self.ends[-1] - self.starts[-1] < wanted:
            self._extend()
        at = bisect_left(self.worked, wanted) - 1
        return self.starts[at] + wanted - self.worked[at]

    def worked_before(self, moment: int) -> int:
        """Open minutes before that moment."""
        at = self._index(moment)
        start, _ = self._stretch(at)
        return self.worked[at] + max(0, moment - start)

    def stretches(self, start: int, end: int) -> list[tuple[int, int]]:
        """The open stretches between two moments."""
        found = []
        at = self._index(start)
        while self._stretch(at)[0] < end:
            found.append((max(start, self.starts[at]), min(end, self.ends[at])))
            at += 1
        return found

    def closing(self, moment: int) -> int:
        """The end of the stretch in which this open moment lies."""
        return self.ends[self._index(moment)]

    def _index(self, moment: int) -> int:
        """The stretch that holds this moment or is the next after it."""
        while not self.ends or self.ends[-1] <= moment:
            self._extend()
        return bisect_right(self.ends, moment)

    def _stretch(self, at: int) -> tuple[int, int]:
        while at >= len(self.starts):
            self._extend()
        return self.starts[at], self.ends[at]

    def _extend(self) -> None:
        if self._days >= _LAST_DAY:
            raise ValueError(
                "expected an open hour within sixteen years; everybody is away or the shop closed"
            )
        done = self.worked[-1] + self.ends[-1] - self.starts[-1] if self.worked else 0
        for number in range(self._days, self._days + _CHUNK_DAYS):
            day = self.first + timedelta(days=number)
            for start, end in () if day in self.closed else self.week[day.weekday()]:
                self.starts.append(number * DAY_MIN + start)
                self.ends.append(number * DAY_MIN + end)
                self.worked.append(done)
                done += end - start
        self._days += _CHUNK_DAYS


def _shared(days: Sequence[Sequence[Stretch]]) -> tuple[Stretch, ...]:
    """What several days' stretches have in common."""
    found = tuple(days[0])
    for other in days[1:]:
        both = [(max(a, c), min(b, d)) for a, b in found for c, d in other]
        found = tuple(sorted((start, end) for start, end in both if start < end))
    return found
