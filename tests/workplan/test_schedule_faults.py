"""Faults put into sound plans, one at a time: the second look finds each and calls it by its right name."""

import random
from dataclasses import replace
from datetime import date, timedelta

import pytest

from evenface.piece.calendar_records import Person, week_of
from evenface.workplan.schedule.listing import list_plan
from evenface.workplan.schedule.problem import Hold, Placing, Problem, Taken, Task
from evenface.workplan.schedule.verify import Fault, faults

MONDAY = date(2027, 1, 11)
DAY = 1440
SEEDS = range(20)


def plan_of(seed):
    """A shop of two with breaks and absence, twelve tasks that hold clamps, wait and glue."""
    dice = random.Random(seed)
    lunch = week_of(((480, 720), (750, 930)))
    away = frozenset({MONDAY + timedelta(days=dice.randint(1, 4))})
    people = (Person("Ottoline", lunch), Person("Bo", week_of(((540, 960),), (0, 1, 2, 3)), away))
    tasks = []
    for number in range(12):
        before = () if number < 3 else ((f"t{dice.randrange(number):02}", dice.choice((60, 480, 1440))),)
        glue = number % 3 == 0
        tasks.append(
            Task(
                f"t{number:02}",
                ((f"s{number}", 1),),
                dice.randint(40, 200),
                people=2 if number == 7 else 1,
                may_split=not glue,
                holds=(Hold("clamps", dice.randint(3, 6), 480),) if glue else (),
                after=before,
                begin_from=DAY if number == 2 else 0,
                begin_until=60 * DAY if number == 4 else None,
            )
        )
    closed = frozenset({MONDAY + timedelta(days=dice.randint(5, 9))})
    problem = Problem(MONDAY, tuple(tasks), people, closed, {"clamps": 8}, (Taken("clamps", 2, 600),))
    return list_plan(problem, passes=2)


def spoil(plan, task, **more):
    """The placings with one of them changed."""
    return [replace(one, **more) if one.task == task else one for one in plan.placings]


def shifted(plan, task, minutes):
    one = next(p for p in plan.placings if p.task == task)
    return spoil(plan, task, start=one.start + minutes, end=one.end + minutes)


def left_out(plan, dice):
    gone = dice.choice(plan.placings)
    return plan.problem, [one for one in plan.placings if one != gone], gone.task


def twice(plan, dice):
    one = dice.choice(plan.placings)
    return (
        plan.problem,
        [*plan.placings, shifted(plan, one.task, 7 * DAY)[plan.placings.index(one)]],
        one.task,
    )


def strange(plan, dice):
    return plan.problem, [*plan.placings, Placing("x", 20 * DAY + 500, 20 * DAY + 510, (0,))], "x"


def hands(plan, dice):
    one = dice.choice(plan.placings)
    return plan.problem, spoil(plan, one.task, people=dice.choice(((), (0, 1, 2), (5,)))), one.task


def two_at_once(plan, dice):
    one, other = sorted(
        dice.sample([p for p in plan.placings if len(p.people) == 1], 2), key=lambda p: p.start
    )
    moved = spoil(
        plan, other.task, start=one.start, end=one.start + other.end - other.start, people=one.people
    )
    return plan.problem, moved, None


def away(plan, dice):
    """To a Sunday, at the same time of day."""
    one = dice.choice(plan.placings)
    return plan.problem, shifted(plan, one.task, (13 - one.start // DAY) * DAY), one.task


def time(plan, dice):
    one = dice.choice(plan.placings)
    return plan.problem, spoil(plan, one.task, end=one.end + dice.choice((-1, -15, 1, 15))), one.task


def torn(plan, dice):
    """A gluing over the lunch break of the first."""
    task = dice.choice([t for t in plan.problem.tasks if not t.may_split and t.people == 1])
    start = 14 * DAY + 700
    return (
        plan.problem,
        spoil(plan, task.id, start=start, end=start + task.minutes + 30, people=(0,)),
        task.id,
    )


def scrap(plan, dice):
    task = dice.choice([t for t in plan.problem.tasks if t.may_split and t.people == 1])
    start = 21 * DAY + 720 - dice.randint(1, 19)
    return (
        plan.problem,
        spoil(plan, task.id, start=start, end=start + task.minutes + 30, people=(0,)),
        task.id,
    )


def order(plan, dice):
    task = dice.choice([t for t in plan.problem.tasks if t.after])
    ends = {one.task: one.end for one in plan.placings}
    begin = max(ends[before] + wait for before, wait in task.after)
    one = next(p for p in plan.placings if p.task == task.id)
    return plan.problem, shifted(plan, task.id, begin - one.start - dice.randint(1, 60)), task.id


def not_yet(plan, dice):
    one = next(p for p in plan.placings if p.task == "t02")
    return plan.problem, shifted(plan, "t02", -(one.start // DAY) * DAY), "t02"


def locked(plan, dice):
    return plan.problem, shifted(plan, "t04", dice.randint(63, 90) * DAY), "t04"


def short(plan, dice):
    held = max(h.amount for t in plan.problem.tasks for h in t.holds)
    problem = plan.problem
    tasks = tuple(replace(t, holds=tuple(replace(h, amount=1) for h in t.holds)) for t in problem.tasks)
    first = next(p for p in plan.placings if next(t for t in tasks if t.id == p.task).holds)
    taken = (Taken("clamps", 8, first.start + dice.randint(1, 300)),)
    assert held
    return replace(problem, tasks=tasks, taken=taken), list(plan.placings), first.task


SPOILERS = {
    Fault.LEFT_OUT: left_out,
    Fault.TWICE: twice,
    Fault.STRANGE: strange,
    Fault.HANDS: hands,
    Fault.TWO_AT_ONCE: two_at_once,
    Fault.AWAY: away,
    Fault.TIME: time,
    Fault.TORN: torn,
    Fault.SCRAP: scrap,
    Fault.ORDER: order,
    Fault.NOT_YET: not_yet,
    Fault.LOCKED: locked,
    Fault.SHORT: short,
}
CASES = [(fault, seed) for fault in SPOILERS for seed in SEEDS]


def test_there_are_enough_faults():
    assert len(CASES) >= 200
    assert set(SPOILERS) | {Fault.BOUND} == set(Fault)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_plans_themselves_are_sound(seed):
    plan = plan_of(seed)
    assert not faults(plan.problem, plan.placings, plan.bound)


@pytest.mark.parametrize(("fault", "seed"), CASES)
def test_a_fault_is_found_and_named(fault, seed):
    plan = plan_of(seed)
    problem, placings, task = SPOILERS[fault](plan, random.Random(1000 + seed))
    found = {(one.fault, one.task) for one in faults(problem, placings)}
    assert fault in {one for one, _ in found}
    assert task is None or (fault, task) in found


def test_a_plan_that_beats_its_bound_is_found_out():
    plan = plan_of(1)
    assert [one.fault for one in faults(plan.problem, plan.placings, plan.end + 1)] == [Fault.BOUND]


def test_a_missed_lock_that_is_owned_up_to_is_no_fault():
    plan = plan_of(2)
    problem, placings, _ = locked(plan, random.Random(2))
    assert Fault.LOCKED in {one.fault for one in faults(problem, placings)}
    assert Fault.LOCKED not in {one.fault for one in faults(problem, placings, late_locks=("t04",))}
