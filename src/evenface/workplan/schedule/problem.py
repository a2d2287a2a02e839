"""What is to be put on the calendar, and a plan of it. Minutes count from midnight of the first day."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from itertools import combinations

from evenface.piece.calendar_records import Person
from evenface.workplan.schedule.hours import OpenHours


@dataclass(frozen=True, slots=True)
class Hold:
    """So much of clamps, press or bench, from the beginning of the work until so long after its end."""

    what: str
    amount: int
    after_min: int = 0


@dataclass(frozen=True, slots=True)
class Taken:
    """What is in use already, by a step that is ticked off."""

    what: str
    amount: int
    until: int


@dataclass(frozen=True, slots=True)
class Task:
    """Work done in one go: a step, some pieces of a step, or several steps that share a pressing.

    pieces : how many pieces of each step. after : tasks to be finished before, and the wait after each.
    begin_from, begin_until : bounds of the first minute; of a locked step they are those of its day.
    kind : of work; like is put to like where it costs nothing.
    """

    id: str
    pieces: tuple[tuple[str, int], ...]
    minutes: int
    people: int = 1
    may_split: bool = True
    holds: tuple[Hold, ...] = ()
    after: tuple[tuple[str, int], ...] = ()
    begin_from: int = 0
    begin_until: int | None = None
    kind: str = ""

    def __post_init__(self) -> None:
        if self.minutes < 1 or self.people < 1 or self.begin_from < 0:
            raise ValueError(f"{self.id}: expected work of a minute or more by somebody, was given {self}")


@dataclass(frozen=True, slots=True)
class Problem:
    """Tasks, who is there when, and how much there is of what is shared.

    Tasks stand in an order that keeps all precedence. Raises ValueError for one that does not, for more people
    or more of something than there is.
    """

    first: date
    tasks: tuple[Task, ...]
    people: tuple[Person, ...]
    closed: frozenset[date] = field(default_factory=frozenset)
    capacity: Mapping[str, int] = field(default_factory=dict)
    taken: tuple[Taken, ...] = ()

    def __post_init__(self) -> None:
        seen: set[str] = set()
        for task in self.tasks:
            if task.id in seen or not seen >= {before for before, _ in task.after}:
                raise ValueError(f"{task.id}: expected each task once and after those it waits for")
            seen.add(task.id)
            if task.people > len(self.people):
                raise ValueError(f"{task.id}: expected at most {len(self.people)} people, got {task.people}")
            for hold in task.holds:
                if hold.amount > self.capacity.get(hold.what, 0):
                    raise ValueError(f"{task.id}: more {hold.what} than there is: {hold.amount}")

    def crews(self) -> dict[int, list[tuple[tuple[int, ...], OpenHours]]]:
        """For each number of people wanted, every group that shares an hour, with its hours.

        Raises ValueError where so many never meet.
        """
        found: dict[int, list[tuple[tuple[int, ...], OpenHours]]] = {}
        for count in sorted({task.people for task in self.tasks} | {1}):
            found[count] = []
            for group in combinations(range(len(self.people)), count):
                try:
                    hours = OpenHours(self.first, [self.people[one] for one in group], self.closed)
                except ValueError:
                    continue
                found[count].append((group, hours))
            if not found[count]:
                raise ValueError(f"expected {count} people who share an hour, there are none")
        return found


@dataclass(frozen=True, slots=True)
class Placing:
    """A task on the calendar; people by their number in the problem."""

    task: str
    start: int
    end: int
    people: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan and what is known of better ones.

    bound : no plan ends before. bound_by : "waits" (the longest way through), "hands", what is short ("clamps",
    "press", "bench"), or "search" where the solver proved it. late_locks : locked tasks begun after their day.
    """

    problem: Problem
    placings: tuple[Placing, ...]
    bound: int
    bound_by: str
    late_locks: tuple[str, ...] = ()

    @property
    def end(self) -> int:
        return max((one.end for one in self.placings), default=0)

    @property
    def proved(self) -> bool:
        """Whether no plan can be shorter; never said of one that misses a locked day."""
        return self.end <= self.bound and not self.late_locks

    @property
    def interruptions(self) -> int:
        """How many times work is laid down overnight or longer before it is finished."""
        from evenface.piece.calendar_records import DAY_MIN

        return sum((one.end - 1) // DAY_MIN - one.start // DAY_MIN > 0 for one in self.placings)
