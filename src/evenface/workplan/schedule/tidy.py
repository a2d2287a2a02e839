"""Like to like: of plans as short and as calm as the one found, the one in which the machine is changed least."""

from collections import defaultdict
from typing import Final

from evenface.piece.calendar_records import DAY_MIN
from evenface.workplan.schedule.listing import placed_in_order, rank_of
from evenface.workplan.schedule.problem import Plan

_STRETCHES_DAYS: Final = (14, 5, 3, 2, 1)


def changes_of_work(plan: Plan) -> int:
    """How many times somebody goes from one kind of work to another."""
    kinds = {task.id: task.kind for task in plan.problem.tasks}
    last: dict[int, str] = {}
    changes = 0
    for one in sorted(plan.placings, key=lambda p: p.start):
        for person in one.people:
            changes += last.get(person, kinds[one.task]) != kinds[one.task]
            last[person] = kinds[one.task]
    return changes


def tidied(plan: Plan) -> Plan:
    """The plan with equal work put together as far as it ends no later and is interrupted no more often."""
    best, fewest = plan, changes_of_work(plan)
    for days in _STRETCHES_DAYS:
        tried = placed_in_order(plan.problem, _order(best, days * DAY_MIN), plan.bound, plan.bound_by)
        changes = changes_of_work(tried)
        if rank_of(tried) <= rank_of(plan) and changes < fewest:
            best, fewest = tried, changes
    return best


def _order(plan: Plan, stretch_min: int) -> dict[str, float]:
    """Stretch by stretch, in each the kinds of work in the order in which they first appear."""
    kinds = {task.id: task.kind for task in plan.problem.tasks}
    seen: dict[int, list[str]] = defaultdict(list)
    keys: dict[str, tuple[int, int, int]] = {}
    for one in plan.placings:
        stretch = one.start // stretch_min
        if kinds[one.task] not in seen[stretch]:
            seen[stretch].append(kinds[one.task])
        keys[one.task] = (stretch, seen[stretch].index(kinds[one.task]), one.start)
    return {task: float(number) for number, task in enumerate(sorted(keys, key=keys.__getitem__))}
