"""Plans of random shops, held against the second look; days reckoned by hand; the solver beside the list."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.piece.calendar_records import Person, week_of
from evenface.workplan.schedule.bounds import lower_bound
from evenface.workplan.schedule.hours import OpenHours
from evenface.workplan.schedule.improve import improved
from evenface.workplan.schedule.listing import list_plan
from evenface.workplan.schedule.problem import Hold, Plan, Problem, Taken, Task
from evenface.workplan.schedule.tidy import changes_of_work, tidied
from evenface.workplan.schedule.verify import faults

MONDAY = date(2027, 1, 11)
H, DAY = 60, 1440
LUNCH = ((8 * H, 12 * H), (12 * H + 30, 15 * H + 30))
ONE = Person("Ottoline")


@st.composite
def problems(draw, most_tasks=14):
    """Shops of one to three people with breaks, free days and absence; tasks that wait for earlier ones."""
    weeks = (week_of(LUNCH), week_of(((420, 900),), (0, 1, 3)), week_of(((480, 600),), (1, 2, 5)), ONE.week)
    days = [MONDAY + timedelta(days=n) for n in range(12)]
    people = tuple(
        Person(f"p{n}", draw(st.sampled_from(weeks)), draw(st.frozensets(st.sampled_from(days), max_size=4)))
        for n in range(draw(st.integers(1, 3)))
    )
    capacity = {"clamps": draw(st.integers(2, 8)), "press": 1}
    tasks = []
    for number in range(draw(st.integers(1, most_tasks))):
        before = draw(st.frozensets(st.integers(0, max(0, number - 1)), max_size=2 if number else 0))
        holds = draw(
            st.sampled_from(((), (Hold("clamps", 2, 480),), (Hold("press", 1, 100),), (Hold("clamps", 1),)))
        )
        tasks.append(
            Task(
                f"t{number:02}",
                ((f"s{number}", 1),),
                draw(st.integers(1, 500)),
                may_split=draw(st.booleans()),
                holds=holds,
                after=tuple((f"t{b:02}", draw(st.sampled_from((0, 30, 480, 1440)))) for b in sorted(before)),
                begin_from=draw(st.sampled_from((0, 0, 0, 700, 4000))),
            )
        )
    closed = draw(st.frozensets(st.sampled_from(days), max_size=3))
    taken = (Taken("clamps", 1, draw(st.integers(0, 3000))),)
    return Problem(MONDAY, tuple(tasks), people, closed, capacity, taken)


@given(problems())
@settings(max_examples=60, deadline=None)
def test_no_fault_is_found_in_any_plan_and_it_never_ends_before_the_bound(problem):
    plan = list_plan(problem, passes=3)
    assert not faults(problem, plan.placings, plan.bound)
    assert {one.task for one in plan.placings} == {task.id for task in problem.tasks}


@given(problems(7))
@settings(max_examples=12, deadline=None)
def test_the_solver_is_never_worse_has_no_faults_and_proves_no_more_than_it_finds(problem):
    pytest.importorskip("ortools")
    plan = list_plan(problem, passes=2)
    better = improved(plan, seconds=2.0)
    assert better.end <= plan.end
    assert plan.bound <= better.bound <= better.end
    assert not faults(problem, better.placings, better.bound)


def task(name, minutes, *after, **more):
    return Task(name, ((name, 1),), minutes, after=after, **more)


def planned(*tasks, people=(ONE,), passes=10, **more):
    plan = list_plan(Problem(MONDAY, tasks, people, **more), passes)
    assert not faults(plan.problem, plan.placings, plan.bound, plan.late_locks)
    return plan, {one.task: (one.start, one.end, one.people) for one in plan.placings}


def test_work_that_may_be_split_goes_over_the_evening_and_a_gluing_does_not():
    _, when = planned(task("saw", 5 * H), task("plane", 4 * H, ("saw", 0)))
    assert when["plane"][:2] == (13 * H, DAY + 10 * H)
    plan, when = planned(task("saw", 5 * H), task("glue", 4 * H, ("saw", 0), may_split=False))
    assert when["glue"][:2] == (DAY + 8 * H, DAY + 12 * H)
    assert plan.proved
    assert plan.interruptions == 0


def test_nothing_is_begun_for_the_last_few_minutes():
    _, when = planned(task("saw", 7 * H - 10), task("plane", 30, ("saw", 0)))
    assert when["plane"][0] == DAY + 8 * H


def test_a_gluing_longer_than_any_stretch_begins_with_the_longest():
    _, when = planned(
        task("first", 30),
        task("glue", 5 * H, ("first", 0), may_split=False),
        people=(Person("", week_of(LUNCH)),),
    )
    assert when["glue"][:2] == (DAY + 8 * H, DAY + 13 * H + 30)


def test_clamps_are_waited_for_and_given_back_at_night():
    glues = [task(f"g{n}", H, holds=(Hold("clamps", 6, 8 * H),), may_split=False) for n in range(3)]
    plan, when = planned(*glues, capacity={"clamps": 12})
    assert sorted(start for start, _, _ in when.values()) == [8 * H, 9 * H, DAY + 8 * H]
    assert plan.proved
    assert plan.bound_by == "clamps"


def test_two_people_work_side_by_side_and_lift_together():
    pair = (ONE, Person("Bo", week_of(((10 * H, 15 * H),))))
    plan, when = planned(
        task("a", 3 * H), task("b", 3 * H), task("lift", 30, ("a", 0), ("b", 0), people=2), people=pair
    )
    assert {when["a"][2], when["b"][2]} == {(0,), (1,)}
    assert when["lift"] == (13 * H, 13 * H + 30, (0, 1))
    assert (plan.bound, plan.bound_by) == (
        12 * H + 30,
        "hands",
    )  # six hours of two people, as if work had no parts


def test_holidays_and_absence_are_kept():
    away = Person("Ottoline", absent=frozenset({MONDAY}))
    _, when = planned(task("a", H), people=(away,), closed=frozenset({MONDAY + timedelta(days=1)}))
    assert when["a"][0] == 2 * DAY + 8 * H


def test_a_locked_step_begins_on_its_day_and_what_goes_before_is_hurried():
    locked = task("glue", H, ("mill", 24 * H), begin_from=2 * DAY, begin_until=3 * DAY - 1)
    others = [task(f"o{n}", 6 * H) for n in range(3)]
    _, when = planned(*others, task("mill", H), locked)
    assert when["mill"][0] == 8 * H
    assert 2 * DAY <= when["glue"][0] < 3 * DAY


def test_a_locked_day_that_cannot_be_kept_is_told():
    locked = task("glue", H, ("mill", 24 * H), begin_from=0, begin_until=DAY - 1)
    plan, when = planned(task("mill", H), locked)
    assert plan.late_locks == ("glue",)
    assert when["glue"][0] == DAY + 9 * H
    assert not plan.proved


def test_the_bound_joins_heads_hands_and_tails():
    late = [task(f"t{n}", 5 * H, begin_from=DAY) for n in range(2)]
    problem = Problem(MONDAY, (task("a", H), *late, task("end", H, ("t0", 24 * H), ("t1", 24 * H))), (ONE,))
    bound, by = lower_bound(problem)
    assert (bound, by) == (2 * DAY + 11 * H + 25 * H, "hands")  # Tuesday 7 h, Wednesday 3 h, a day, an hour


def test_the_same_problem_gives_the_same_plan():
    glues = [
        task(f"g{n}", 100 + n, holds=(Hold("clamps", 6, 8 * H),), may_split=n % 2 == 0) for n in range(9)
    ]
    problem = Problem(MONDAY, tuple(glues), (ONE, Person("Bo")), capacity={"clamps": 13})
    assert list_plan(problem) == list_plan(problem)
    pytest.importorskip("ortools")
    assert improved(list_plan(problem, 1), 2.0) == improved(list_plan(problem, 1), 2.0)


def test_the_solver_finds_what_the_list_misses_and_calms_the_days():
    pytest.importorskip("ortools")
    sizes = (170, 160, 130, 120, 110, 100, 50)
    problem = Problem(MONDAY, tuple(task(f"t{n}", m, may_split=False) for n, m in enumerate(sizes)), (ONE,))
    plan = list_plan(problem, passes=0)
    better = improved(plan, 6.0)
    assert plan.end > better.end == DAY + 15 * H  # 840 minutes fill two days exactly
    assert better.proved
    split = Problem(MONDAY, tuple(task(f"t{n}", m) for n, m in enumerate(sizes)), (ONE,))
    calm = improved(list_plan(split, passes=0), 6.0)
    assert (calm.end, calm.interruptions) == (DAY + 15 * H, 0)


def test_hours_of_people_who_never_meet_or_never_come_are_refused():
    with pytest.raises(ValueError, match="share an hour"):
        OpenHours(MONDAY, (Person("a", week_of(((0, 60),))), Person("b", week_of(((60, 120),)))), frozenset())
    sunday = Person("a", week_of(((480, 600),), (6,)))
    never = frozenset(MONDAY + timedelta(days=n) for n in range(7000))
    with pytest.raises(ValueError, match="sixteen years"):
        OpenHours(MONDAY, (sunday,), never).next_begin(0, 10, True)


def test_a_problem_out_of_order_or_asking_too_much_is_refused():
    for tasks, more in (
        ((task("b", 1, ("a", 0)), task("a", 1)), {}),
        ((task("a", 1, people=2),), {}),
        ((task("a", 1, holds=(Hold("clamps", 5),)),), {"capacity": {"clamps": 4}}),
    ):
        with pytest.raises(ValueError, match=r"[ab]:"):
            Problem(MONDAY, tasks, (ONE,), **more)
    with pytest.raises(ValueError, match="a minute or more"):
        task("a", 0)


def test_a_plan_says_it_is_proved_only_when_it_ends_at_the_bound():
    plan, _ = planned(task("a", H))
    assert plan.proved
    assert not replace(plan, bound=plan.bound - 1).proved
    assert not Plan(plan.problem, plan.placings, plan.bound, "waits", ("a",)).proved


@given(problems())
@settings(max_examples=25, deadline=None)
def test_putting_like_to_like_costs_nothing(problem):
    kinds = tuple(replace(one, kind="saw" if n % 2 else "glue") for n, one in enumerate(problem.tasks))
    plan = list_plan(replace(problem, tasks=kinds), passes=1)
    tidy = tidied(plan)
    assert not faults(plan.problem, tidy.placings, tidy.bound)
    assert (tidy.end, tidy.interruptions) <= (plan.end, plan.interruptions)
    assert changes_of_work(tidy) <= changes_of_work(plan)


def test_what_is_sawn_is_sawn_together():
    mixed = [task(f"t{n}", 60, kind="saw" if n % 2 else "mill") for n in range(6)]
    plan, _ = planned(*mixed, passes=0)
    assert changes_of_work(plan) == 5
    assert changes_of_work(tidied(plan)) == 1


def test_without_the_extra_the_list_schedule_stands(monkeypatch):
    from evenface.workplan.schedule import improve

    monkeypatch.setattr(improve, "find_spec", lambda name: None)
    problem = Problem(MONDAY, tuple(task(f"t{n}", 170 - n, may_split=False) for n in range(7)), (ONE,))
    plan = list_plan(problem, passes=0)
    assert not plan.proved
    assert improved(plan, 5.0) is plan
