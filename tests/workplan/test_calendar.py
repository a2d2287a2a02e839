"""The calendar, held against a verifier of its own and against days reckoned by hand."""

from dataclasses import replace
from datetime import date, datetime
from itertools import pairwise

import jobs_by_hand as by_hand
import pytest
from hypothesis import given
from hypothesis import strategies as st
from workplan.random_panels import jobs, made

from evenface.evidence import Status
from evenface.piece.records import Side
from evenface.workplan import After, Minutes, Work, breaches, derive_steps
from evenface.workplan.allowed import GLUING
from evenface.workplan.calendar import WorkDays, schedule
from evenface.workplan.graph import in_order

MONDAY, FRIDAY = date(2027, 1, 11), date(2027, 1, 15)
ANY = derive_steps(made(by_hand.panel(by_hand.edge(Side.FRONT))))[0]


def step(name, hours, *after):
    minutes = Minutes(60.0 * hours, 0.0, 1, Status.MEASURED, "by hand")
    return replace(ANY, id=name, hand_minutes=minutes, after=tuple(After(*one) for one in after))


def clocked(plan):
    return {p.step.id: (plan.days.clock(p.start_h), plan.days.clock(p.end_h)) for p in plan.placed}


def faults(plan, steps):
    """What is wrong with a schedule, reckoned from its dates alone."""
    days, when = plan.days, clocked(plan)
    out = [f"{s.id} missing" for s in steps if s.id not in when]
    row = sorted(when.values())
    out += [f"two at once at {b}" for (_, a_end), (b, _) in pairwise(row) if b < a_end]
    for one in steps:
        start, end = when[one.id]
        for before in one.after:
            gap = (start - when[before.id][1]).total_seconds() / 3600.0
            if gap < before.wait_h - 0.02:  # dates are to the minute
                out.append(f"{one.id} only {gap} h after {before.id}")
        for moment in (start, end):
            hour = moment.hour + moment.minute / 60.0
            if moment.weekday() not in days.weekdays or moment.date() in days.free:
                out.append(f"{one.id} on a free day")
            if not days.opens_h - 0.02 <= hour <= days.opens_h + days.hours + 0.02:
                out.append(f"{one.id} at {hour} o'clock")
        in_one_go = one.work in GLUING and one.hand_minutes.total / 60.0 <= days.hours
        if in_one_go and start.date() != end.date():
            out.append(f"{one.id} torn apart")
    return out


@given(jobs(), st.integers(0, 6), st.sampled_from((3.0, 7.0, 10.0)))
def test_schedules_keep_hands_days_waits_and_the_physics_of_the_order(panels, later, hours):
    steps = derive_steps(panels)
    days = WorkDays(MONDAY.replace(day=11 + later), hours, free=frozenset({date(2027, 1, 19)}))
    plan = schedule(steps, days)
    assert not faults(plan, steps)
    assert plan.bound_h <= plan.end_h + 1e-6
    assert not [(b.step, b.rule) for b in breaches(panels, plan.placed)]


def test_the_verifier_sees_a_step_too_early_two_at_once_and_a_sunday():
    steps = (step("a", 2.0), step("b", 2.0, ("a", 8.0)))
    plan = schedule(steps, WorkDays(MONDAY))
    first, second = plan.placed
    for start in (first.end_h + 1.0, first.start_h + 1.0, 24.0 * 6 + 9.0):
        assert faults(replace(plan, placed=(first, replace(second, start_h=start, end_h=start + 2.0))), steps)


def test_a_wait_goes_over_night_for_nothing():
    plan = schedule((step("a", 6.0), step("b", 2.0, ("a", 8.0))), WorkDays(MONDAY))
    assert clocked(plan)["a"] == (datetime(2027, 1, 11, 8), datetime(2027, 1, 11, 14))
    assert clocked(plan)["b"] == (datetime(2027, 1, 12, 8), datetime(2027, 1, 12, 10))
    assert plan.bound == plan.finish


def test_a_wait_goes_over_the_weekend_for_nothing_and_a_free_monday_is_kept():
    steps = (step("a", 1.0), step("b", 1.0, ("a", 60.0)))
    assert clocked(schedule(steps, WorkDays(FRIDAY)))["b"][0] == datetime(2027, 1, 18, 8)
    free = frozenset({date(2027, 1, 18)})
    assert clocked(schedule(steps, WorkDays(FRIDAY, free=free)))["b"][0] == datetime(2027, 1, 19, 8)


def test_other_work_fills_a_wait():
    steps = (step("glue", 1.0), step("flush", 1.0, ("glue", 3.0)), step("mill", 2.0))
    when = clocked(schedule(steps, WorkDays(MONDAY)))
    assert when["glue"][0].hour == 8
    assert when["mill"] == (datetime(2027, 1, 11, 9), datetime(2027, 1, 11, 11))
    assert when["flush"][0].hour == 12


def test_the_longest_way_goes_first():
    steps = (step("short", 2.0), step("long", 2.0), step("end", 2.0, ("long", 20.0)))
    assert clocked(schedule(steps, WorkDays(MONDAY)))["long"][0].hour == 8


def test_a_gluing_longer_than_a_day_begins_in_the_morning_and_goes_on_the_next_day():
    glue = replace(step("b", 10.0, ("a", 0.0)), work=Work.BOND)
    plan = schedule((step("a", 1.0), glue), WorkDays(MONDAY))
    assert clocked(plan)["b"] == (datetime(2027, 1, 12, 8), datetime(2027, 1, 13, 11))


def test_other_work_is_laid_down_in_the_evening_and_taken_up_again():
    plan = schedule((step("a", 1.0), step("b", 10.0, ("a", 0.0))), WorkDays(MONDAY))
    assert clocked(plan)["b"] == (datetime(2027, 1, 11, 9), datetime(2027, 1, 12, 12))


def test_the_bound_is_the_hands_where_nothing_waits():
    plan = schedule(tuple(step(str(n), 3.0) for n in range(5)), WorkDays(MONDAY))
    assert plan.bound == datetime(2027, 1, 13, 9)  # 15 hours at 7 a day
    assert plan.finish == plan.bound
    assert plan.proved
    assert plan.bound_by == "hands"
    glued = schedule(tuple(replace(step(str(n), 3.0), work=Work.BOND) for n in range(5)), WorkDays(MONDAY))
    assert glued.finish == datetime(2027, 1, 13, 11)  # two gluings of three hours fit a day
    assert not glued.proved


@pytest.mark.parametrize(
    "wrong", [{"hours": 0.0}, {"hours": 17.0}, {"opens_h": -1.0}, {"weekdays": ()}, {"weekdays": (9,)}]
)
def test_days_that_cannot_be_are_refused(wrong):
    with pytest.raises(ValueError, match="expected"):
        WorkDays(MONDAY, **wrong)


def test_a_circle_a_stranger_and_a_double_are_refused():
    for steps in (
        (step("a", 1.0, ("b", 0.0)), step("b", 1.0, ("a", 0.0))),
        (step("a", 1.0, ("x", 0.0)),),
        (step("a", 1.0), step("a", 1.0)),
    ):
        with pytest.raises(ValueError, match="a"):
            in_order(steps)
