"""Steps follow from the construction, and every plan made is one the checker accepts."""

from dataclasses import replace

import jobs_by_hand as by_hand
import pytest
from hypothesis import given
from hypothesis import strategies as st
from workplan.random_panels import HPL, LINOLEUM, cutout, grip, insert, jobs, made

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.evidence import Status
from evenface.materials import load_catalogue
from evenface.parts import parts_of
from evenface.piece.records import Corner, CornerAt, Meeting, Order, Profile, Side
from evenface.words import say
from evenface.workplan import Work, breaches, derive_steps, one_after_another, order_findings, panels_to_make
from evenface.workplan.graph import in_order
from evenface.workplan.whole_bench import WHOLE


def works(steps, part="1.1"):
    return [step.work for step in steps if step.part == part]


def before(steps, first, second):
    order = works(steps)
    return max(i for i, w in enumerate(order) if w is first) < min(
        i for i, w in enumerate(order) if w is second
    )


@given(jobs(), st.sampled_from(("before facing", "after facing")), st.sampled_from((0.0, 4.0, 30.0)))
def test_every_plan_made_is_accepted(panels, corners, days_lain):
    steps = derive_steps(panels, days_lain, corners)
    told = breaches(panels, one_after_another(steps), days_lain)
    assert not told, [(b.rule.value, b.step, say(b.message)) for b in told]


@given(jobs())
def test_the_order_given_keeps_what_each_step_says_goes_before(panels):
    steps = derive_steps(panels)
    assert in_order(steps) == steps


def test_edging_under_a_facing_goes_on_and_is_flushed_before_it():
    steps = derive_steps(made(by_hand.panel(*by_hand.ALL_UNDER)))
    assert before(steps, Work.GLUE_EDGING, Work.FLUSH_EDGING)
    assert before(steps, Work.FLUSH_EDGING, Work.BOND)
    assert Work.LEVEL not in works(steps)
    assert Work.FIT_FACING not in works(steps)


def test_edging_after_the_facing_waits_for_the_trimmed_facing():
    sides = tuple(by_hand.flush(side, Order.FACING_FIRST) for side in Side)
    steps = derive_steps(made(by_hand.panel(*sides)))
    assert before(steps, Work.TRIM, Work.GLUE_EDGING)
    assert before(steps, Work.GLUE_EDGING, Work.LEVEL)
    assert Work.FLUSH_EDGING not in works(steps)


def test_a_facing_between_edgings_is_fitted_and_has_nothing_to_trim():
    steps = derive_steps(made(by_hand.panel(*(by_hand.flush(side) for side in Side))))
    assert before(steps, Work.GLUE_EDGING, Work.FIT_FACING)
    assert before(steps, Work.FIT_FACING, Work.BOND)
    assert Work.TRIM not in works(steps)


def test_of_mixed_edges_the_later_one_is_glued_after_the_facing():
    later = by_hand.flush(Side.FRONT, Order.FACING_FIRST)
    steps = derive_steps(made(by_hand.panel(by_hand.edge(Side.LEFT), later)))
    glued = {step.sides[0]: n for n, step in enumerate(steps) if step.work is Work.GLUE_EDGING}
    bond = next(n for n, step in enumerate(steps) if step.work is Work.BOND)
    assert glued[Side.LEFT] < bond < glued[Side.FRONT]


@pytest.mark.parametrize("corners", ["before facing", "after facing"])
def test_corners_of_a_facing_that_lies_over_may_be_shaped_before_or_after_it(corners):
    rounded = tuple(Corner(at, "radius", 20.0) for at in CornerAt)
    panels = made(by_hand.panel(*by_hand.ALL_UNDER, corners=rounded))
    steps = derive_steps(panels, corners=corners)
    assert before(steps, Work.SHAPE_CORNERS, Work.BOND) == (corners == "before facing")
    assert not breaches(panels, one_after_another(steps))


def test_corners_beside_a_flush_facing_are_shaped_after_it_whatever_is_asked():
    rounded = (Corner(CornerAt.FRONT_LEFT, "radius", 20.0),)
    edges = tuple(by_hand.flush(side) for side in Side)
    steps = derive_steps(made(by_hand.panel(*edges, corners=rounded)), corners="before facing")
    assert before(steps, Work.BOND, Work.SHAPE_CORNERS)


@pytest.mark.parametrize("when", ["before facing", "after facing"])
def test_an_insert_goes_in_when_it_is_asked_to(when):
    one = by_hand.panel(inserts=(insert("pull", when, 60.0),), grips=(grip("hollow", "pull"),))
    steps = derive_steps(made(one))
    assert before(steps, Work.FLUSH_INSERT, Work.BOND) == (when == "before facing")
    assert before(steps, Work.BOND, Work.ROUT_GRIP)


def test_the_wait_before_flushing_is_longer_than_the_press_time_of_a_wet_glue():
    for glue, longer in (("pva-d3", True), ("polyurethane", False), ("contact-water", False)):
        steps = derive_steps(made(by_hand.panel(by_hand.edge(Side.FRONT)), edging_glue=glue))
        glued = next(step for step in steps if step.work is Work.GLUE_EDGING)
        flush = next(step for step in steps if step.work is Work.FLUSH_EDGING)
        wait = next(a.wait_h for a in flush.after if a.id == glued.id)
        assert (wait > glued.wait.least_h) == longer, glue


def test_linoleum_on_wet_glue_rests_a_day_before_it_is_trimmed_laminate_only_the_press_time():
    hours = {}
    for sheet in (LINOLEUM, HPL):
        steps = derive_steps(made(by_hand.panel(), face=sheet, back=sheet))
        trim = next(step for step in steps if step.work is Work.TRIM)
        hours[sheet] = max(after.wait_h for after in trim.after)
    assert hours == {LINOLEUM: 24.0, HPL: 8.0}


def test_days_the_stock_has_lain_shorten_the_wait_but_never_below_nothing():
    panels = made(by_hand.panel(by_hand.edge(Side.FRONT)))
    for lain, edging, bond in ((0.0, 240.0, 312.0), (11.0, 0.0, 48.0), (99.0, 0.0, 0.0)):
        steps = derive_steps(panels, days_lain=lain)
        waits = {s.work: a.wait_h for s in steps for a in s.after if a.id == "all-01"}
        assert (waits[Work.GLUE_EDGING], waits[Work.BOND]) == (edging, bond)


def test_every_step_says_why_what_to_check_and_what_a_slip_costs():
    everything = by_hand.panel(
        by_hand.edge(Side.FRONT),
        by_hand.flush(Side.REAR),
        by_hand.flush(Side.LEFT, Order.FACING_FIRST),
        corners=(Corner(CornerAt.FRONT_LEFT, "radius", 20.0, "block"),),
        profiles=(Profile((Side.FRONT,), "round-over", radius_mm=3.0),),
        inserts=(insert("pull", "before facing", 60.0), insert("pad", "after facing", 700.0)),
        grips=(grip("hollow", "pull"),),
        cutouts=(cutout(),),
    )
    steps = derive_steps(made(everything))
    of_boards = {Work.MILL_BOARD, Work.LINE_BOARD, Work.CUT_LENGTH, Work.CLEAR_JOINT, Work.CUT_JOINT}
    assert {step.work for step in steps} == set(Work) - WHOLE - of_boards - {Work.DELIVER}
    for step in steps:
        assert all(say(one) for one in (step.title, step.why, step.check, step.undo_risk))
        assert step.tools
        assert step.hand_minutes.total > 0.0
    water = next(step for step in steps if step.work is Work.ROUT_CUTOUT)
    assert "water" in say(water.cautions[0])


def test_twice_as_many_pieces_are_set_up_once_and_worked_twice():
    (once,) = made(by_hand.panel())
    twice = replace(once, panel=replace(once.panel, count=2))
    one, two = derive_steps((once,)), derive_steps((twice,))
    for single, double in zip(one, two, strict=True):
        if single.part:
            extra = double.hand_minutes.total - single.hand_minutes.total
            assert extra == pytest.approx(single.hand_minutes.each)
            assert extra < single.hand_minutes.total


def test_an_edging_asked_for_after_a_facing_that_lies_over_it_goes_on_first_and_that_is_said():
    half = by_hand.edge(Side.FRONT, top=Meeting.FLUSH, order=Order.FACING_FIRST)
    panels = made(by_hand.panel(half))
    assert before(derive_steps(panels), Work.GLUE_EDGING, Work.BOND)
    assert [(f.code, f.at) for f in order_findings(panels)] == [("steps.edging_goes_first", "front")]
    assert not order_findings(made(by_hand.panel(by_hand.flush(Side.FRONT, Order.FACING_FIRST))))
    assert not order_findings(made(by_hand.panel(by_hand.edge(Side.FRONT))))


def test_the_maker_s_own_times_take_the_place_of_the_estimates():
    panels = made(by_hand.panel(by_hand.edge(Side.FRONT)))
    steps = derive_steps(panels, own_minutes={Work.TRIM: (7.0, 11.0)})
    trim = next(step for step in steps if step.work is Work.TRIM)
    assert (trim.hand_minutes.total, trim.hand_minutes.status) == (18.0, Status.MEASURED)
    assert {s.hand_minutes.status for s in steps if s.work is not Work.TRIM} == {Status.PRACTICE}


def test_steps_that_cut_say_the_sizes_of_the_ladder():
    one = by_hand.panel(by_hand.edge(Side.FRONT), by_hand.edge(Side.LEFT))
    (construction,) = construct(by_hand.job(one), load_catalogue(), KINDS)
    steps = derive_steps(panels_to_make((construction,), parts_of((construction,))))
    told = {s.work: [say(line) for line in s.settings] for s in steps}
    # 1000 - 12 left, 500 - 14 front
    assert told[Work.CUT_CARRIER][0] == "1 of 988 mm × 486 mm"
    assert any(
        line.startswith("face: 1 of 1010 mm × 510 mm") for line in told[Work.CUT_FACING]
    )  # 5 mm over each edge
    assert [line.split(":")[0] for line in told[Work.MILL_EDGING][:2]] == ["front", "left"]
