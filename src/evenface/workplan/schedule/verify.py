"""A second look at a plan, sharing nothing with what makes plans: it reckons from dates, day by day.

Only the records of problem and plan are read. Open time is counted minute by minute from the people's weeks.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum

from evenface.workplan.schedule.problem import Placing, Problem, Task

_DAY = 1440
_LEAST_PART = 20


class Fault(StrEnum):
    """What can be wrong with a plan."""

    LEFT_OUT = "a task is not in the plan"
    STRANGE = "a task nobody asked for"
    TWICE = "a task is there twice"
    HANDS = "not as many people as are wanted, or somebody who does not exist"
    TWO_AT_ONCE = "somebody does two things at once"
    AWAY = "begun or ended while somebody is away or the shop is closed"
    TIME = "not the time the work takes"
    TORN = "laid down in the middle of what must be done in one go"
    SCRAP = "begun right before closing"
    ORDER = "begun before what goes first is done and has had its wait"
    NOT_YET = "begun before it may"
    LOCKED = "not begun on its locked day"
    SHORT = "more in use than there is"
    BOUND = "ends before what is said to be the earliest end"


@dataclass(frozen=True, slots=True)
class Found:
    """One fault, at a task (empty for the whole plan), with the figures in words."""

    fault: Fault
    task: str
    told: str


def faults(
    problem: Problem,
    placings: Sequence[Placing],
    bound: int = 0,
    late_locks: Sequence[str] = (),
) -> list[Found]:
    """Everything wrong with a plan. late_locks : locked tasks the plan itself says it could not keep."""
    tasks = {task.id: task for task in problem.tasks}
    found = list(_counted(tasks, placings))
    known = [one for one in placings if one.task in tasks]
    days = _Days(problem)
    for one in known:
        found += _hours(days, tasks[one.task], one)
        found += _bounds(tasks[one.task], one, late_locks)
    ends = {one.task: one.end for one in known}
    for one in known:
        for before, wait in tasks[one.task].after:
            if before in ends and one.start < ends[before] + wait:
                gap = one.start - ends[before]
                found.append(Found(Fault.ORDER, one.task, f"{gap} min after {before}, {wait} are needed"))
    found += _people(known)
    found += _shared(problem, tasks, known)
    if known and max(ends.values()) < bound:
        found.append(Found(Fault.BOUND, "", f"ends at {max(ends.values())}, said to be {bound} at least"))
    return found


def _counted(tasks: dict[str, Task], placings: Sequence[Placing]) -> Iterator[Found]:
    there = Counter(one.task for one in placings)
    for name in tasks:
        if not there[name]:
            yield Found(Fault.LEFT_OUT, name, "")
    for name, times in there.items():
        if name not in tasks:
            yield Found(Fault.STRANGE, name, "")
        elif times > 1:
            yield Found(Fault.TWICE, name, f"{times} times")


class _Days:
    """Open minutes by people and day, each looked up once."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.known: dict[tuple[tuple[int, ...], int], set[int]] = {}
        self.longest: dict[tuple[int, ...], int] = {}

    def open(self, who: tuple[int, ...], day: int) -> set[int]:
        if (who, day) not in self.known:
            self.known[who, day] = _open_minutes(self.problem, who, day)
        return self.known[who, day]

    def longest_of(self, who: tuple[int, ...]) -> int:
        if who not in self.longest:
            self.longest[who] = _longest_stretch(self.problem, who)
        return self.longest[who]


def _open_minutes(problem: Problem, who: Sequence[int], day_number: int) -> set[int]:
    """Minutes of that day at which all of these people are at work."""
    day = problem.first + timedelta(days=day_number)
    if day in problem.closed:
        return set()
    together = set(range(_DAY))
    for one in who:
        person = problem.people[one]
        if day in person.absent:
            return set()
        at_work: set[int] = set()
        for start, end in person.week[day.weekday()]:
            at_work |= set(range(start, end))
        together &= at_work
    return together


def _hours(calendar: _Days, task: Task, one: Placing) -> Iterator[Found]:
    who = one.people
    if len(set(who)) != task.people or any(not 0 <= p < len(calendar.problem.people) for p in who):
        yield Found(Fault.HANDS, task.id, f"{who}, {task.people} are wanted")
        return
    if one.end <= one.start or one.start < 0:
        yield Found(Fault.TIME, task.id, f"from {one.start} to {one.end}")
        return
    days = {n: calendar.open(who, n) for n in range(one.start // _DAY, (one.end - 1) // _DAY + 1)}
    at_work = [m for m in range(one.start, one.end) if m % _DAY in days[m // _DAY]]
    if not at_work or at_work[0] != one.start or at_work[-1] != one.end - 1:
        yield Found(Fault.AWAY, task.id, f"from {one.start} to {one.end}")
    if len(at_work) != task.minutes:
        yield Found(Fault.TIME, task.id, f"{len(at_work)} open min for {task.minutes}")
    runs = _runs(at_work)
    longest = calendar.longest_of(who)
    if not task.may_split and len(runs) > 1:
        morning = one.start - 1 if one.start % _DAY else None
        opens = morning is None or morning % _DAY not in days[one.start // _DAY]
        if task.minutes <= longest or not opens or runs[0] < longest:
            yield Found(Fault.TORN, task.id, f"in {len(runs)} parts, {longest} min is the longest stretch")
    if task.may_split and runs and runs[0] < min(task.minutes, _LEAST_PART, longest):
        yield Found(Fault.SCRAP, task.id, f"only {runs[0]} min before closing")


def _runs(minutes: Sequence[int]) -> list[int]:
    """Lengths of what follows without a gap; midnight is a gap."""
    runs: list[int] = []
    last = -2
    for minute in minutes:
        if minute == last + 1 and minute % _DAY:
            runs[-1] += 1
        else:
            runs.append(1)
        last = minute
    return runs


def _longest_stretch(problem: Problem, who: Sequence[int]) -> int:
    """The longest time these people are ever together without a break, in a week without free days."""
    best = 0
    for weekday in range(7):
        together = set(range(_DAY))
        for one in who:
            together &= {m for start, end in problem.people[one].week[weekday] for m in range(start, end)}
        best = max([best, *_runs(sorted(together))])
    return best


def _bounds(task: Task, one: Placing, late_locks: Sequence[str]) -> Iterator[Found]:
    if one.start < task.begin_from:
        yield Found(Fault.NOT_YET, task.id, f"at {one.start}, not before {task.begin_from}")
    if task.begin_until is not None and one.start > task.begin_until and task.id not in late_locks:
        yield Found(Fault.LOCKED, task.id, f"at {one.start}, at the latest {task.begin_until}")


def _people(placings: Sequence[Placing]) -> Iterator[Found]:
    own: dict[int, list[Placing]] = defaultdict(list)
    for one in placings:
        for person in one.people:
            own[person].append(one)
    for person, busy in own.items():
        free_from, last = 0, ""
        for one in sorted(busy, key=lambda p: (p.start, p.end)):
            if one.start < free_from:
                yield Found(Fault.TWO_AT_ONCE, one.task, f"person {person} is at {last} until {free_from}")
            if one.end > free_from:
                free_from, last = one.end, one.task


def _shared(problem: Problem, tasks: dict[str, Task], placings: Sequence[Placing]) -> Iterator[Found]:
    for what, there_is in problem.capacity.items():
        changes = [(0, one.amount, "") for one in problem.taken if one.what == what]
        changes += [(one.until, -one.amount, "") for one in problem.taken if one.what == what]
        for one in placings:
            for hold in tasks[one.task].holds:
                if hold.what == what:
                    changes.append((one.start, hold.amount, one.task))
                    changes.append((one.end + hold.after_min, -hold.amount, one.task))
        in_use = 0
        for moment, change, task in sorted(changes):  # what is given back at a moment is free at that moment
            in_use += change
            if change > 0 and in_use > there_is:
                yield Found(Fault.SHORT, task, f"{in_use} {what} at {moment}, there are {there_is}")
                break
