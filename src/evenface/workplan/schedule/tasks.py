"""From steps to tasks: goes of gluing, shared pressings, locked days, and what is ticked off already."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from evenface.piece.calendar_records import DAY_MIN, Done, Locked, Person, ShopCalendar
from evenface.workplan.allowed import GLUING
from evenface.workplan.graph import in_order
from evenface.workplan.records import Step, Work
from evenface.workplan.schedule.loads import Load, Need, clamp_loads, press_loads
from evenface.workplan.schedule.problem import Hold, Problem, Taken, Task

IN_ONE_GO: Final = GLUING | {Work.ASSEMBLE, Work.LINE_BOARD, Work.SET_DOWELS}
"""Wet glue is not laid down for the night or for dinner."""


@dataclass(frozen=True, slots=True)
class Ticked:
    """A step that is done, in minutes from midnight of the first day."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class ToPlan:
    """The problem, what is done already, and steps for which more hands are wanted than the shop has."""

    problem: Problem
    ticked: Mapping[str, Ticked]
    lacking_hands: tuple[str, ...]


def problem_of(
    steps: Sequence[Step],
    shop: ShopCalendar,
    first: date,
    needs: Mapping[str, Need] | None = None,
    done: Sequence[Done] = (),
    now: int = 0,
) -> ToPlan:
    """The steps that are left as tasks from `now` on.

    first : the day minutes count from. needs : of gluing, see `needs.needs_of`. done : ticks; a tick without a
    day counts as ended at `now`, one with a day alone at the end of that day's work.
    Raises ValueError for steps that wait for each other.
    """
    ordered = in_order(steps)
    ticked = _ticked(ordered, shop, first, done, now)
    left = [step for step in ordered if step.id not in ticked]
    asked = needs or {}
    loads = _loads(left, asked, shop)
    tasks = _tasks(left, loads, shop, ticked, first, now)
    capacity = {
        what: amount
        for what, amount in (("clamps", shop.clamps), ("bench", shop.benches))
        if amount is not None
    }
    if shop.press_mm is not None:
        capacity["press"] = shop.presses
    lacking = tuple(step.id for step in left if step.people > len(shop.people))
    taken = _still_taken(_taken(ordered, asked, shop, ticked), capacity, now)
    return ToPlan(Problem(first, tasks, shop.people, shop.closed, capacity, taken), ticked, lacking)


def _ticked(
    steps: Sequence[Step], shop: ShopCalendar, first: date, done: Sequence[Done], now: int
) -> dict[str, Ticked]:
    known = {step.id: step for step in steps}
    found = {}
    for one in done:
        if one.step not in known:
            continue
        minutes = one.minutes if one.minutes is not None else known[one.step].hand_minutes.total
        end = now
        if one.day is not None:
            at = one.at_min if one.at_min is not None else _closing(shop.people, one.day)
            end = (one.day - first).days * DAY_MIN + at
        found[one.step] = Ticked(end - whole_minutes(minutes), end)
    return found


def _closing(people: Sequence[Person], day: date) -> int:
    """When the last one goes home on that weekday; at the end of the day where nobody works."""
    return max((end for one in people for _, end in one.week[day.weekday()]), default=DAY_MIN)


def _loads(steps: Sequence[Step], needs: Mapping[str, Need], shop: ShopCalendar) -> dict[str, list[Load]]:
    """The goes of every step, in which some share a pressing."""
    found: dict[str, list[Load]] = {}
    if shop.press_mm is not None:
        for load in press_loads(steps, needs, shop.press_mm):
            for name, _ in load.pieces:
                found.setdefault(name, []).append(load)
    for step in steps:
        need = needs.get(step.id)
        if step.id in found:
            continue
        if need is not None and need.clamps and shop.clamps is not None:
            found[step.id] = clamp_loads(step, need, shop.clamps)
        else:
            found[step.id] = [Load(((step.id, step.hand_minutes.pieces),))]
    return found


def _tasks(
    steps: Sequence[Step],
    loads: Mapping[str, list[Load]],
    shop: ShopCalendar,
    ticked: Mapping[str, Ticked],
    first: date,
    now: int,
) -> tuple[Task, ...]:
    known = {step.id: step for step in steps}
    names: dict[int, str] = {}
    every: dict[int, Load] = {}
    for step in steps:
        for number, load in enumerate(loads[step.id], start=1):
            every.setdefault(id(load), load)
            several = len(loads[step.id]) > 1 or len(load.pieces) > 1
            names.setdefault(id(load), f"{step.id}/{number}" if several else step.id)
    own = {step.id: [names[id(load)] for load in loads[step.id]] for step in steps}
    made = [_task(load, names[key], known, own, shop, ticked, now) for key, load in every.items()]
    locked = {one.step: one for one in shop.locked}
    for number, (task, load) in enumerate(zip(made, every.values(), strict=True)):
        for one, _ in load.pieces:
            if one in locked:
                made[number] = _lock(task, locked[one], first)
    return _sorted(made)


def _task(
    load: Load,
    name: str,
    known: Mapping[str, Step],
    own: Mapping[str, list[str]],
    shop: ShopCalendar,
    ticked: Mapping[str, Ticked],
    now: int,
) -> Task:
    steps = [known[step] for step, _ in load.pieces]
    minutes = max(step.hand_minutes.set_up for step in steps) + sum(
        known[step].hand_minutes.each * count for step, count in load.pieces
    )
    after: dict[str, int] = {}
    begin_from = now
    for step in steps:
        for before in step.after:
            wait = whole_minutes(before.wait_h * 60.0)
            if before.id in ticked:
                begin_from = max(begin_from, ticked[before.id].end + wait)
            for task in own.get(before.id, ()):
                after[task] = max(wait, after.get(task, 0))
    holds = [Hold(*hold) for hold in _holds(load, shop, steps)]
    return Task(
        id=name,
        pieces=load.pieces,
        minutes=max(1, whole_minutes(minutes)),
        people=min(len(shop.people), max(step.people for step in steps)),
        may_split=not any(step.work in IN_ONE_GO for step in steps),
        holds=tuple(holds),
        after=tuple(after.items()),
        begin_from=begin_from,
        kind=steps[0].work.value,
    )


def _holds(load: Load, shop: ShopCalendar, steps: Sequence[Step]) -> list[tuple[str, int, int]]:
    found = []
    if load.clamps:
        found.append(("clamps", load.clamps, load.held_min))
    if load.presses:
        found.append(("press", load.presses, load.held_min))
    if shop.benches is not None and any("bench" in step.occupies for step in steps):
        found.append(("bench", 1, 0))
    return found


def _lock(task: Task, locked: Locked, first: date) -> Task:
    start = (locked.begin.date() - first).days * DAY_MIN
    last = start + DAY_MIN - 1
    if locked.to_the_minute:
        start = last = start + 60 * locked.begin.hour + locked.begin.minute
    return replace(task, begin_from=max(task.begin_from, start), begin_until=last)


def _taken(
    steps: Sequence[Step], needs: Mapping[str, Need], shop: ShopCalendar, ticked: Mapping[str, Ticked]
) -> list[Taken]:
    """Clamps and press still closed on what is ticked off; pressings shared then are counted as one each."""
    found = []
    for step in steps:
        need = needs.get(step.id)
        if step.id not in ticked or need is None:
            continue
        until = ticked[step.id].end + need.held_min
        if need.clamps and shop.clamps:
            amount = min(shop.clamps, need.clamps * step.hand_minutes.pieces)
            found.append(Taken("clamps", amount, until))
        elif need.press_mm and step.work is Work.BOND:
            found.append(Taken("press", 1, until))
    return found


def _still_taken(taken: Sequence[Taken], capacity: Mapping[str, int], now: int) -> tuple[Taken, ...]:
    """What is not free yet; of what was used beyond what there is, no more than there is, the longest first."""
    left = dict(capacity)
    found = []
    for one in sorted(taken, key=lambda held: -held.until):
        amount = min(one.amount, left[one.what])
        if one.until > now and amount:
            left[one.what] -= amount
            found.append(replace(one, amount=amount))
    return tuple(found)


def _sorted(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """An order that keeps all precedence, otherwise as given."""
    left = {task.id: task for task in tasks}
    done: dict[str, Task] = {}
    while left:
        ready = [task for task in left.values() if all(before in done for before, _ in task.after)]
        if not ready:
            raise ValueError(f"these tasks wait for each other: {', '.join(left)}")
        for task in ready:
            done[task.id] = left.pop(task.id)
    return tuple(done.values())


def whole_minutes(minutes: float) -> int:
    """Rounded up, but for what comes of reckoning in floating point."""
    return math.ceil(minutes - 1e-6)
