"""Each rule of the checker has a wrong plan that it alone rejects: leave the rule out, and it passes."""

from dataclasses import replace

import jobs_by_hand as by_hand
import pytest
from workplan.random_panels import cutout, made
from workplan.test_whole_rules import PIECES

from evenface.piece.records import Corner, CornerAt, Profile, Role, Side
from evenface.workplan import Rule, Work, breaches, derive_steps, one_after_another

EDGED = made(by_hand.panel(by_hand.edge(Side.FRONT), profiles=(Profile((Side.FRONT,), "chamfer"),)))
PLAIN = made(by_hand.panel(cutouts=(cutout(),)))
TWO = made(by_hand.panel(by_hand.edge(Side.FRONT), by_hand.edge(Side.LEFT)))
FLUSH = made(by_hand.panel(by_hand.flush(Side.FRONT), profiles=(Profile((Side.FRONT,), "chamfer"),)))
ROUND = made(
    by_hand.panel(
        *by_hand.ALL_UNDER,
        corners=tuple(Corner(at, "radius", 20.0) for at in CornerAt),
        profiles=(Profile(tuple(Side), "chamfer"),),
    )
)


def find(steps, work, which=0):
    return [step for step in steps if step.work is work][which]


def dropped(steps, work):
    return [step for step in steps if step.work is not work]


def moved(steps, work, target, which=0, after=True):
    """The steps with one of them put right after (or before) another."""
    one = find(steps, work, which)
    rest = [step for step in steps if step is not one]
    rest.insert(rest.index(find(rest, target, -1 if after else 0)) + after, one)
    return rest


def at(placed, work, hours):
    """The placed steps with those of one work begun so many hours after glue was last closed before them."""
    glued = (Work.GLUE_EDGING, Work.BOND)
    out = list(placed)
    for number, one in enumerate(placed):
        if one.step.work is work:
            closed = max(p.end_h for p in placed[:number] if p.step.work in glued)
            out[number] = replace(one, start_h=closed + hours, end_h=closed + hours + 0.01)
    return out


def unconditioned():
    steps = derive_steps(PLAIN)
    return PLAIN, one_after_another([replace(steps[0], wait=None), *steps[1:]])


def nothing_milled():
    return EDGED, one_after_another(moved(derive_steps(EDGED), Work.MILL_EDGING, Work.DRY_FIT))


def cut_twice():
    steps = derive_steps(EDGED)
    return EDGED, one_after_another([*steps[:2], steps[1], *steps[2:]])


def sanded_through_the_facing():
    steps = list(derive_steps(EDGED))
    steps.insert(steps.index(find(steps, Work.TRIM)), find(steps, Work.FLUSH_EDGING))
    return EDGED, one_after_another(steps)


def bridged():
    return PLAIN, one_after_another(moved(derive_steps(PLAIN), Work.ROUT_CUTOUT, Work.CUT_CARRIER))


def dusty():
    steps = moved(derive_steps(EDGED), Work.PREPARE, Work.FLUSH_EDGING, after=False)
    return EDGED, one_after_another(steps)


def unfitted():
    return FLUSH, one_after_another(dropped(derive_steps(FLUSH), Work.FIT_FACING))


def back_two_days_later():
    steps = list(derive_steps(PLAIN))
    bond = find(steps, Work.BOND)
    here = steps.index(bond)
    steps[here : here + 1] = [replace(bond, roles=(Role.FACE,)), replace(bond, roles=(Role.BACK,))]
    placed = list(one_after_another(steps))
    placed[here + 1 :] = [replace(p, start_h=p.start_h + 48, end_h=p.end_h + 48) for p in placed[here + 1 :]]
    return PLAIN, placed


def trimmed_under_pressure():
    return PLAIN, at(one_after_another(derive_steps(PLAIN)), Work.TRIM, 0.5)


def flushed_next_morning():
    placed = at(one_after_another(derive_steps(EDGED)), Work.TRIM_ENDS, 8.5)
    return EDGED, at(placed, Work.FLUSH_EDGING, 9.0)


def all_at_once():
    placed = list(one_after_another(derive_steps(TWO)))
    first, second = [n for n, p in enumerate(placed) if p.step.work is Work.GLUE_EDGING]
    start = placed[first].end_h
    placed[second] = replace(placed[second], start_h=start, end_h=start + 0.1)
    return TWO, placed


def long_end_under_the_cutter():
    return EDGED, one_after_another(moved(derive_steps(EDGED), Work.TRIM_ENDS, Work.PROFILE))


def drilled_from_the_overhang():
    steps = moved(derive_steps(PLAIN), Work.DRILL, Work.TRIM, after=False)
    return PLAIN, one_after_another(steps)


def profiled_on_proud_wood():
    steps = derive_steps(FLUSH)
    return FLUSH, one_after_another(moved(steps, Work.LEVEL, Work.PROFILE))


def profiled_square():
    return ROUND, one_after_another(moved(derive_steps(ROUND), Work.SHAPE_CORNERS, Work.PROFILE))


def profiled_after_oiling():
    return EDGED, one_after_another(moved(derive_steps(EDGED), Work.PROFILE, Work.FINISH))


def never_drilled():
    return PLAIN, one_after_another(dropped(derive_steps(PLAIN), Work.DRILL))


WRONG = {
    Rule.CONDITION: unconditioned,
    Rule.PRESENT: nothing_milled,
    Rule.TWICE: cut_twice,
    Rule.COVERED: sanded_through_the_facing,
    Rule.BENEATH: bridged,
    Rule.CLEAN: dusty,
    Rule.FITTED: unfitted,
    Rule.SAME_DAY: back_two_days_later,
    Rule.NOT_SET: trimmed_under_pressure,
    Rule.WET_JOINT: flushed_next_morning,
    Rule.ONE_AT_A_TIME: all_at_once,
    Rule.ENDS: long_end_under_the_cutter,
    Rule.OVERHANG: drilled_from_the_overhang,
    Rule.PROUD: profiled_on_proud_wood,
    Rule.CORNERS_FIRST: profiled_square,
    Rule.FINISHED: profiled_after_oiling,
    Rule.LEFT_OUT: never_drilled,
}


def test_every_rule_has_its_wrong_plan():
    assert not WRONG.keys() & PIECES.keys()
    assert WRONG.keys() | PIECES.keys() == set(Rule)


@pytest.mark.parametrize("rule", list(WRONG))
def test_a_rule_alone_rejects_its_wrong_plan(rule):
    panels, placed = WRONG[rule]()
    assert {breach.rule for breach in breaches(panels, placed)} == {rule}
    assert not breaches(panels, placed, without=frozenset({rule}))
