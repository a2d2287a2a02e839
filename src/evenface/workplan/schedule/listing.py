"""A list schedule: what leaves least room until the end is placed first, each as early as everything allows."""

import random
from bisect import bisect_left, insort
from collections.abc import Mapping
from typing import Final

from evenface.workplan.schedule.bounds import lower_bound, tails_of
from evenface.workplan.schedule.hours import OpenHours
from evenface.workplan.schedule.problem import Placing, Plan, Problem, Task

PASSES: Final = 60
_TASKS_PLACED: Final = 9000
_FAR: Final = (0.02, 0.1, 0.3)
_SHARES: Final = (0.1, 0.3, 1.0)


def list_plan(problem: Problem, passes: int = PASSES, seed: int = 0) -> Plan:
    """A list schedule, and what is found by shaking its order so many times; the same problem, the same plan.

    Raises ValueError where people wanted together never meet.
    """
    bound, bound_by = lower_bound(problem)
    order = _latest_begins(problem)
    best = placed_in_order(problem, order, bound, bound_by)
    dice = random.Random(seed)
    spread = max(order.values(), default=0.0) - min(order.values(), default=0.0)
    for _ in range(passes):
        if best.proved:
            break
        tried = _shaken(order, spread, dice)
        plan = placed_in_order(problem, tried, bound, bound_by)
        if rank_of(plan) <= rank_of(best):
            best, order = plan, tried
    return best


def passes_for(problem: Problem) -> int:
    """Fewer passes for a large job, so that the whole takes about as long."""
    return max(8, min(PASSES, _TASKS_PLACED // max(1, len(problem.tasks))))


def placed_in_order(problem: Problem, order: Mapping[str, float], bound: int, bound_by: str) -> Plan:
    """Of what is ready always the least in this order, as early as everything allows."""
    placings, late = _Bench(problem).place_all(order)
    return Plan(problem, placings, bound, bound_by, late)


def _shaken(order: Mapping[str, float], spread: float, dice: random.Random) -> dict[str, float]:
    """The same order with some of it moved, now a little and now far."""
    far = spread * dice.choice(_FAR)
    share = dice.choice(_SHARES)
    return {one: at + far * (dice.random() - 0.5) * (dice.random() < share) for one, at in order.items()}


def rank_of(plan: Plan) -> tuple[int, int, int]:
    """Less is better: missed locked days, then the end, then interruptions."""
    return len(plan.late_locks), plan.end, plan.interruptions


def _latest_begins(problem: Problem) -> dict[str, float]:
    """When each task has to begin at the latest, locked days pulling what goes before them forward."""
    tails = tails_of(problem)
    whole = max(tails.values(), default=0)
    latest: dict[str, float] = {task.id: float(whole - tails[task.id]) for task in problem.tasks}
    by_id = {task.id: task for task in problem.tasks}
    for task in reversed(problem.tasks):
        if task.begin_until is not None:
            latest[task.id] = min(latest[task.id], float(task.begin_until - whole))
        for before, wait in task.after:
            latest[before] = min(latest[before], latest[task.id] - wait - by_id[before].minutes)
    return latest


class _Bench:
    """Who is busy when, and what is in use."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.crews = problem.crews()
        self.busy: list[list[tuple[int, int]]] = [[] for _ in problem.people]
        self.uses: dict[str, list[tuple[int, int, int]]] = {what: [] for what in problem.capacity}
        for one in problem.taken:
            self.uses[one.what].append((0, one.until, one.amount))

    def place_all(self, order: Mapping[str, float]) -> tuple[tuple[Placing, ...], tuple[str, ...]]:
        left = {task.id: {before for before, _ in task.after} for task in self.problem.tasks}
        follow: dict[str, list[str]] = {task.id: [] for task in self.problem.tasks}
        for task in self.problem.tasks:
            for before, _ in task.after:
                follow[before].append(task.id)
        by_id = {task.id: task for task in self.problem.tasks}
        ready = {one for one, before in left.items() if not before}
        done: dict[str, Placing] = {}
        while ready:
            chosen = min(ready, key=lambda one: (order[one], one))
            ready.remove(chosen)
            task = by_id[chosen]
            earliest = max((done[b].end + wait for b, wait in task.after), default=0)
            done[chosen] = self._place(task, max(earliest, task.begin_from))
            for after in follow[chosen]:
                left[after].discard(chosen)
                if not left[after]:
                    ready.add(after)
        late = tuple(
            task.id
            for task in self.problem.tasks
            if task.begin_until is not None and done[task.id].start > task.begin_until
        )
        return tuple(sorted(done.values(), key=lambda p: (p.start, p.end, p.task))), late

    def _place(self, task: Task, earliest: int) -> Placing:
        found: Placing | None = None
        for group, hours in self.crews[task.people]:
            start, end = self._earliest(task, group, hours, earliest)
            if found is None or (end, start) < (found.end, found.start):
                found = Placing(task.id, start, end, group)
        if found is None:
            raise AssertionError("a problem has a crew for every task")
        for person in found.people:
            insort(self.busy[person], (found.start, found.end))
        for hold in task.holds:
            self.uses[hold.what].append((found.start, found.end + hold.after_min, hold.amount))
        return found

    def _earliest(
        self, task: Task, group: tuple[int, ...], hours: OpenHours, earliest: int
    ) -> tuple[int, int]:
        start = hours.next_begin(earliest, task.minutes, task.may_split)
        while True:
            end = hours.end_of(start, task.minutes)
            clash = max(self._met(who, start, end) for who in group)
            clash = max(clash, self._in_use(task, start, end))
            if clash <= start:
                return start, end
            start = hours.next_begin(clash, task.minutes, task.may_split)

    def _met(self, who: int, start: int, end: int) -> int:
        """The end of the last thing this person does between two moments, 0 for nothing."""
        busy = self.busy[who]  # one after another, so the last to begin before the end is the last to end
        at = bisect_left(busy, (end, 0)) - 1
        return busy[at][1] if at >= 0 and busy[at][1] > start else 0

    def _in_use(self, task: Task, start: int, end: int) -> int:
        """When something that is short may be free again, 0 when there is enough of everything all along."""
        free_again = 0
        for hold in task.holds:
            room = self.problem.capacity[hold.what] - hold.amount
            until = end + hold.after_min
            met = [use for use in self.uses[hold.what] if use[0] < until and use[1] > start]
            if sum(amount for _, _, amount in met) <= room:
                continue
            for moment in sorted({start, *(s for s, _, _ in met if s > start)}):
                there = [use for use in met if use[0] <= moment < use[1]]
                if sum(amount for _, _, amount in there) > room:
                    free_again = max(free_again, min(e for _, e, _ in there))
                    break
        return free_again
