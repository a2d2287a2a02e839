"""What no plan can beat: the longest way through, the work of all hands, the use of what is short."""

from collections.abc import Iterable, Mapping
from datetime import timedelta
from itertools import pairwise

from evenface.piece.calendar_records import DAY_MIN
from evenface.workplan.schedule.hours import OpenHours
from evenface.workplan.schedule.problem import Problem


def tails_of(problem: Problem) -> Mapping[str, int]:
    """Minutes by the clock from the beginning of each task to the end of all that depends on it, at least."""
    tails = {task.id: task.minutes for task in problem.tasks}
    by_id = {task.id: task for task in problem.tasks}
    for task in reversed(problem.tasks):
        for before, wait in task.after:
            tails[before] = max(tails[before], by_id[before].minutes + wait + tails[task.id])
    return tails


def heads_of(problem: Problem) -> tuple[Mapping[str, int], int]:
    """The earliest beginning of each task with hands and tools for all at once, and the end of the last."""
    crews = problem.crews()
    begins: dict[str, int] = {}
    ends: dict[str, int] = {}
    for task in problem.tasks:
        ready = max((ends[before] + wait for before, wait in task.after), default=0)
        ready = max(ready, task.begin_from)
        starts = [
            (hours.next_begin(ready, task.minutes, task.may_split), hours) for _, hours in crews[task.people]
        ]
        begins[task.id] = min(start for start, _ in starts)
        ends[task.id] = min(hours.end_of(start, task.minutes) for start, hours in starts)
    return begins, max(ends.values(), default=0)


def lower_bound(problem: Problem) -> tuple[int, str]:
    """The latest end that is proved to be needed, and by what: "waits", "hands", or the thing that is short.

    Of everybody's work: all that can begin only after some moment, and is followed by at least some tail, takes
    the open hours from that moment on, then the tail. Of clamps, press and bench the same by the clock.
    """
    if not problem.tasks:
        return 0, "waits"
    heads, best = heads_of(problem)
    tails = tails_of(problem)
    rests = {task.id: tails[task.id] - task.minutes for task in problem.tasks}
    by = "waits"
    hands = _hands(problem, heads, rests)
    if hands > best:
        best, by = hands, "hands"
    for what, amount in sorted(problem.capacity.items()):
        used = max(
            _used(problem, what, amount, heads, rests), _begun_a_day(problem, what, amount, heads, rests)
        )
        if used > best:
            best, by = used, what
    return best, by


def _hands(problem: Problem, heads: Mapping[str, int], rests: Mapping[str, int]) -> int:
    everybody = [OpenHours(problem.first, [person], problem.closed) for person in problem.people]
    found = 0
    for tail in _some(rests.values()):
        chosen = sorted((t for t in problem.tasks if rests[t.id] >= tail), key=lambda t: -heads[t.id])
        work = 0
        for at, task in enumerate(chosen):
            work += task.minutes * task.people
            head = heads[task.id]
            if at + 1 < len(chosen) and heads[chosen[at + 1].id] == head:
                continue
            found = max(found, _time_for(everybody, head, work) + tail)
    return found


def _time_for(everybody: list[OpenHours], from_min: int, work: int) -> int:
    """When so many minutes have been worked by all together, everybody working all the time."""
    if len(everybody) == 1:
        begin = everybody[0].next_begin(from_min, 1, may_split=True)
        return everybody[0].end_of(begin, work)
    before = sum(hours.worked_before(from_min) for hours in everybody)
    low, high = from_min, from_min + 1440
    while sum(hours.worked_before(high) for hours in everybody) - before < work:
        low, high = high, high + 2 * (high - from_min)
    while high - low > 1:
        middle = (low + high) // 2
        enough = sum(hours.worked_before(middle) for hours in everybody) - before >= work
        low, high = (low, middle) if enough else (middle, high)
    return high


def _used(
    problem: Problem, what: str, amount: int, heads: Mapping[str, int], rests: Mapping[str, int]
) -> int:
    uses = []
    for task in problem.tasks:
        for hold in task.holds:
            if hold.what == what:
                held = hold.amount * (task.minutes + hold.after_min)
                uses.append((heads[task.id], held, rests[task.id] - hold.after_min))
    found = 0
    for tail in _some(rest for _, _, rest in uses):
        area = 0
        chosen = sorted((use for use in uses if use[2] >= tail), reverse=True)
        for use, following in pairwise([*chosen, (-1, 0, 0)]):
            area += use[1]
            if following[0] != use[0]:
                found = max(found, use[0] + -(-area // amount) + tail)
    return found


def _begun_a_day(
    problem: Problem, what: str, amount: int, heads: Mapping[str, int], rests: Mapping[str, int]
) -> int:
    """Clamps closed for hours are begun with only so often between opening and closing, so days are needed.

    One clamp held for at least so long begins at most 1 + (open span / that long) uses a day; some use falls on
    the day on which the last of them all is begun, and is followed by its work and tail.
    """
    uses = [
        (heads[task.id], hold.amount, task.minutes + hold.after_min, task.minutes + rests[task.id])
        for task in problem.tasks
        for hold in task.holds
        if hold.what == what
    ]
    week = [[stretch for one in problem.people for stretch in one.week[day]] for day in range(7)]
    span = max((max(e for _, e in day) - min(s for s, _ in day) for day in week if day), default=0)
    found = 0
    for tail in _some(one[3] for one in uses):
        number, shortest = 0, span
        for head, count, held, _ in sorted((use for use in uses if use[3] >= tail), reverse=True):
            number, shortest = number + count, min(shortest, held)
            days = -(-number // (amount * (1 + (span - 1) // max(1, shortest))))
            found = max(found, _opening(problem, week, head, days) + tail)
    return found


def _opening(problem: Problem, week: list[list[tuple[int, int]]], from_min: int, count: int) -> int:
    """When the shop opens on the so-manieth day on which anybody works, the day of `from_min` being the first."""
    number, left = from_min // DAY_MIN, count
    while True:
        day = problem.first + timedelta(days=number)
        if week[day.weekday()] and day not in problem.closed:
            left -= 1
            if left <= 0:
                opens = number * DAY_MIN + min(start for start, _ in week[day.weekday()])
                return max(from_min, opens) if count == 1 else opens
        number += 1


def _some(values: Iterable[int], most: int = 60) -> list[int]:
    """The different values, thinned out when there are many: fewer give a weaker bound, never a wrong one."""
    every = sorted(set(values))
    return every[:: max(1, len(every) // most)]
