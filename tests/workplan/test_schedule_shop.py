"""From steps to tasks: goes of clamping, shared pressings, locked days, ticks, and the day of delivery."""

from dataclasses import replace
from datetime import date, datetime, timedelta

import jobs_by_hand as by_hand
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workplan.pieces_by_file import steps_of
from workplan.random_panels import jobs, made

from evenface.evidence import Status
from evenface.piece.calendar_records import Done, Locked, Person, ShopCalendar, week_of
from evenface.piece.records import Side
from evenface.workplan import Minutes, Work, breaches, derive_steps
from evenface.workplan.calendar import plan_shop
from evenface.workplan.glue_card import glue_cards
from evenface.workplan.schedule.deadline import changes_of, deadline
from evenface.workplan.schedule.loads import Need, fits_press, press_loads
from evenface.workplan.schedule.needs import needs_of
from evenface.workplan.schedule.tasks import problem_of
from evenface.workplan.schedule.verify import faults

MONDAY = date(2027, 1, 11)
DAY = 1440
PANELS = made(*(replace(by_hand.panel(by_hand.edge(Side.FRONT)), name=f"p{n}", count=n) for n in (1, 2, 3)))
STEPS = derive_steps(PANELS)
SHOP = ShopCalendar(clamps=9, press_mm=(2600.0, 1300.0), press_hours=2.0, benches=1)


def needs(shop, panels=PANELS, steps=STEPS):
    return needs_of(panels, steps, glue_cards(panels, steps), shop)


def steps_faults(steps, plan):
    """Of placed steps: each there once, and after what it waits for, reckoned from the clock alone."""
    when = {one.step.id: (plan.days.clock(one.start_h), plan.days.clock(one.end_h)) for one in plan.placed}
    assert len(when) == len(plan.placed) == len(steps)
    return [
        (step.id, before.id)
        for step in steps
        for before in step.after
        if when[step.id][0] < when[before.id][1] + timedelta(hours=before.wait_h) - timedelta(minutes=1)
    ]


@given(jobs(), st.integers(1, 3), st.sampled_from((2, 7, 30)), st.sampled_from((None, (1500.0, 700.0))))
@settings(max_examples=25, deadline=None)
def test_a_shop_of_any_size_makes_sound_plans_of_any_job(panels, people, clamps, press):
    steps = derive_steps(panels)
    crew = tuple(Person(f"p{n}") for n in range(people))
    shop = ShopCalendar(people=crew, clamps=clamps, press_mm=press, benches=2)
    plan = plan_shop(steps, shop, MONDAY, needs(shop, panels, steps))
    assert not faults(plan.plan.problem, plan.plan.placings, plan.plan.bound)
    assert not steps_faults(steps, plan)
    assert not [(b.step, b.rule) for b in breaches(panels, plan.placed)]
    for task in plan.plan.problem.tasks:
        for step, count in task.pieces:
            assert 0 < count <= next(s for s in steps if s.id == step).hand_minutes.pieces
    for step in steps:
        counts = [n for t in plan.plan.problem.tasks for s, n in t.pieces if s == step.id]
        assert sum(counts) == step.hand_minutes.pieces


@pytest.mark.parametrize("name", ["wall-cupboard", "drawer-pedestal", "lined-tray"])
def test_nothing_is_laid_down_with_wet_glue_on_it(name):
    steps = steps_of(name)
    short = ShopCalendar(people=(Person("a", week_of(((480, 610), (640, 760)))),))
    plan = plan_shop(steps, short, MONDAY)
    closing = [
        one for one in plan.placed if one.step.work in (Work.ASSEMBLE, Work.LINE_BOARD, Work.SET_DOWELS)
    ]
    assert closing
    for one in closing:
        if one.step.hand_minutes.total <= 120.0:
            assert one.end_h - one.start_h == pytest.approx(
                one.step.hand_minutes.total / 60.0, abs=1.1 / 60.0
            )


def test_more_pieces_than_clamps_are_glued_in_several_goes():
    glue = next(s for s in STEPS if s.work is Work.GLUE_EDGING and s.hand_minutes.pieces == 3)
    each = needs(SHOP)[glue.id].clamps
    shop = replace(SHOP, clamps=2 * each)
    tasks = problem_of(STEPS, shop, MONDAY, needs(shop)).problem.tasks
    goes = [task for task in tasks if any(step == glue.id for step, _ in task.pieces)]
    assert [task.pieces for task in goes] == [((glue.id, 2),), ((glue.id, 1),)]
    assert [task.holds[0].amount for task in goes] == [2 * each, each]
    alike = [n for n, s in enumerate(goes)]
    assert alike == [0, 1]
    total = glue.hand_minutes.total + glue.hand_minutes.set_up
    assert sum(task.minutes for task in goes) == pytest.approx(total, abs=2)


def quick(found):
    """The same needs as if the glue stayed open for long."""
    return {step: replace(need, open_min=1000.0) for step, need in found.items()}


def test_panels_of_one_build_up_share_a_pressing_as_far_as_the_press_goes():
    bonds = [step.id for step in STEPS if step.work is Work.BOND]
    wide = press_loads(STEPS, quick(needs(SHOP)), (9000.0, 5000.0))
    assert [dict(load.pieces) for load in wide] == [dict(zip(bonds, (1, 2, 3), strict=True))]
    sizes = [needs(SHOP)[step].press_mm for step in bonds]
    small = press_loads(STEPS, quick(needs(SHOP)), (sizes[0][0], 2 * sizes[0][1]))
    assert len(small) == 3
    assert all(sum(count for _, count in load.pieces) == 2 for load in small)


def test_glue_that_skins_over_ends_a_pressing():
    found = {step: replace(need, spread_min=4.0, open_min=9.0) for step, need in needs(SHOP).items()}
    loads = press_loads(STEPS, found, (9000.0, 5000.0))
    assert sorted(sum(count for _, count in load.pieces) for load in loads) == [2, 2, 2]


def test_other_glue_or_build_up_is_pressed_apart():
    found = quick(needs(SHOP))
    first = next(step for step, need in found.items() if need.press_mm)
    found[first] = replace(found[first], alike=("pva-d4",))
    assert len(press_loads(STEPS, found, (9000.0, 5000.0))) == 2


@given(st.lists(st.tuples(st.integers(100, 900), st.integers(100, 900)), max_size=8))
def test_a_press_never_takes_more_than_its_area_or_longer_than_itself(sizes):
    if fits_press(sizes, (1600.0, 900.0)):
        assert sum(a * b for a, b in sizes) <= 1600 * 900
        assert all(max(one) <= 1600 and min(one) <= 900 for one in sizes)
    assert fits_press(sizes[:1], (900.0, 1600.0))


def test_a_tick_is_taken_off_and_its_wait_and_clamps_still_count():
    shop = replace(SHOP, press_mm=None, benches=None)
    glue = next(s for s in STEPS if s.work is Work.GLUE_EDGING)
    before = [s for s in STEPS if s.id == "all-01" or (s.part == glue.part and s.id < glue.id)]
    tuesday = MONDAY + timedelta(days=1)
    done = (*(Done(s.id, 10.0, MONDAY, 600) for s in before), Done(glue.id, 25.0, tuesday, 11 * 60))
    to_plan = problem_of(STEPS, shop, MONDAY, needs(shop), done, now=DAY + 660)
    names = {step for task in to_plan.problem.tasks for step, _ in task.pieces}
    assert names == {s.id for s in STEPS} - {one.step for one in done}
    (taken,) = to_plan.problem.taken
    assert taken.until == DAY + 660 + needs(shop)[glue.id].held_min
    plan = plan_shop(STEPS, shop, MONDAY, needs(shop), done, now=DAY + 660)
    assert not faults(plan.plan.problem, plan.plan.placings, plan.plan.bound)
    ticked = {one.step for one in done}
    assert not [one for one in steps_faults(STEPS, plan) if one[0] not in ticked]
    assert min(one.start for one in plan.plan.placings) >= DAY + 660
    assert plan.ticked == {one.step for one in done}
    placed = next(one for one in plan.placed if one.step.id == glue.id)
    assert (plan.days.clock(placed.start_h), plan.days.clock(placed.end_h)) == (
        datetime(2027, 1, 12, 10, 35),
        datetime(2027, 1, 12, 11),
    )


def test_when_all_is_ticked_the_plan_ends_with_the_last_tick():
    done = tuple(Done(s.id, 10.0, MONDAY, 600) for s in STEPS)
    plan = plan_shop(STEPS, SHOP, MONDAY, needs(SHOP), done, now=600)
    assert plan.finish == datetime(2027, 1, 11, 10)
    assert not plan.plan.placings


def test_a_locked_step_begins_on_its_day():
    day = datetime(2027, 3, 3)
    last = STEPS[-1].id
    plan = plan_shop(STEPS, replace(SHOP, locked=(Locked(last, day, False),)), MONDAY, needs(SHOP))
    assert plan.days.clock(plan.placed[-1].start_h).date() == day.date()
    early = plan_shop(STEPS, replace(SHOP, locked=(Locked(last, datetime(2027, 1, 12), False),)), MONDAY)
    assert early.plan.late_locks == (last,)


def test_work_for_two_is_done_by_one_where_there_is_one_and_told():
    steps = tuple(replace(s, people=2) if s.work is Work.BOND else s for s in STEPS)
    alone = plan_shop(steps, ShopCalendar(), MONDAY)
    assert len(alone.lacking_hands) == 3
    pair = plan_shop(steps, ShopCalendar(people=(Person("a"), Person("b"))), MONDAY)
    assert not pair.lacking_hands
    bond = next(s for s in steps if s.work is Work.BOND)
    assert pair.people_of(bond.id) == ("a", "b")


def test_whether_the_day_holds_and_what_would_bring_it_in():
    minutes = Minutes(20 * 60.0, 0.0, 1, Status.MEASURED, "by hand")
    long = tuple(replace(STEPS[0], id=str(n), hand_minutes=minutes) for n in range(2))
    shop = ShopCalendar()  # 40 hours of 7 a day: 5 days and 5 hours, until Monday

    def plan_for(other):
        return plan_shop(long, other, MONDAY)

    plan = plan_for(shop)
    late = deadline(plan, shop, date(2027, 1, 15), plan_for)
    assert (late.holds, late.days_spare, late.impossible) == (False, -3, True)
    one, two, second = late.reliefs
    assert (one.finish, one.days, one.holds) == (datetime(2027, 1, 15, 16), 3, True)
    assert (two.finish, two.days) == (datetime(2027, 1, 15, 12), 3)
    assert (second.finish, second.days) == (datetime(2027, 1, 13, 14), 5)
    kept = deadline(plan, shop, date(2027, 1, 19), plan_for)
    assert (kept.holds, kept.days_spare, kept.hours_spare) == (True, 1, 9.0)
    assert not kept.impossible


def test_changes_ask_only_for_what_the_shop_counts_and_never_past_midnight():
    assert len(changes_of(ShopCalendar())) == 3
    late = ShopCalendar(people=(Person("a", week_of(((1000, 1410),))),), clamps=4, press_mm=(1000.0, 800.0))
    changes = changes_of(late)
    assert len(changes) == 6
    assert changes[0][1].people[0].week[0] == ((1000, 1440),)
    assert changes[-1][1].clamps == 8
    assert changes[3][1].press_mm == (1000.0, 1600.0)


def test_needs_are_asked_only_where_the_shop_counts():
    assert not needs(ShopCalendar())
    assert {need.press_mm is None for need in needs(ShopCalendar(clamps=5)).values()} == {True}
    assert Need().clamps == 0


def test_clamps_of_ticked_glueings_are_given_back_and_never_more_than_there_are():
    glues = [s for s in STEPS if s.work is Work.GLUE_EDGING]
    shop = replace(SHOP, press_mm=None)
    done = tuple(Done(s.id, 20.0, MONDAY, 600) for s in STEPS if s in glues)
    held = needs(shop)[glues[0].id].held_min
    soon = problem_of(STEPS, shop, MONDAY, needs(shop), done, now=700).problem
    assert sum(one.amount for one in soon.taken) == shop.clamps
    assert not problem_of(STEPS, shop, MONDAY, needs(shop), done, now=600 + held).problem.taken


def test_small_fronts_share_a_pressing_within_the_open_time_of_their_glue():
    fronts = made(
        replace(
            by_hand.panel(by_hand.edge(Side.FRONT)), name="front", count=4, length_mm=340.0, width_mm=150.0
        )
    )
    steps = derive_steps(fronts)
    found = needs(SHOP, fronts, steps)
    (bond,) = (s.id for s in steps if s.work is Work.BOND)
    loads = press_loads(steps, found, SHOP.press_mm)
    at_once = max(count for load in loads for _, count in load.pieces)
    assert at_once == max(1, int(found[bond].open_min / found[bond].spread_min))
    assert at_once > 1
