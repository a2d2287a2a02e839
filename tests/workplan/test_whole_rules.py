"""Each rule about whole pieces has a wrong plan that it alone rejects: leave the rule out, and it passes."""

from dataclasses import replace

import pytest
from construction import test_carcase_sizes as carcase
from workplan.pieces_by_file import example, find, of, steps_of

from evenface.construction.kinds.carcase.records import Bay, Row
from evenface.workplan import Rule, Work, breaches, derive_steps, one_after_another

W = Work


def put(name, work, word, target, target_word="", after=False):
    """The steps of an example with one of them put before (or after) another."""
    steps = list(steps_of(name))
    one, other = find(steps, work, word), find(steps, target, target_word)
    steps.remove(one)
    steps.insert(steps.index(other) + after, one)
    return name, one_after_another(steps)


def changed(name, work, word="", **changes):
    """The steps of an example with one of them told otherwise."""
    steps = list(steps_of(name))
    one = find(steps, work, word)
    steps[steps.index(one)] = replace(one, **changes)
    return name, one_after_another(steps)


def fingers_before_clearing():
    """The facing is routed off after the fingers are cut."""
    steps = list(steps_of("lined-tray"))
    clear = find(steps, W.CLEAR_JOINT)
    cut = next(step for step in steps if step.work is W.CUT_JOINT and step.part == clear.part)
    here, there = steps.index(clear), steps.index(cut)
    steps[here], steps[there] = cut, clear
    return "lined-tray", one_after_another(steps)


def drilled_in_its_frame():
    """The panel lies in its frame, and then a hole is drilled into it."""
    steps = list(steps_of("notice-panel"))
    drilled = replace(find(steps, W.TRIM), id="1.1-09", work=W.DRILL)
    steps.insert(steps.index(find(steps, W.LAY_IN)) + 1, drilled)
    return "notice-panel", one_after_another(steps)


def no_dowels():
    steps = [step for step in steps_of("wall-cupboard") if step.work is not W.SET_DOWELS]
    return "wall-cupboard", one_after_another(steps)


def alone_with_a_big_drawer():
    """The largest drawer needs a helper; one person is too slow."""
    return changed("drawer-pedestal", W.ASSEMBLE, "drawer 4", people=1)


def sides_before_the_divider():
    return put("wall-cupboard", W.ASSEMBLE, "left side", W.ASSEMBLE, "divider")


def glued_into_its_frame():
    """The loose panel is put in with glue."""
    steps = steps_of("notice-panel")
    numbers = find(steps, W.LAY_IN).dry
    return changed("notice-panel", W.LAY_IN, joints=numbers)


def hung_before_the_sides():
    """A door is hung on a case whose glue has had an hour."""
    placed = list(one_after_another(steps_of("wall-cupboard")))
    first = next(n for n, one in enumerate(placed) if one.step.work is W.FIT_HARDWARE)
    closed = max(one.end_h for one in placed[:first] if one.step.work is W.ASSEMBLE)
    earlier = placed[first].start_h - closed - 1.0
    placed[first] = replace(
        placed[first], start_h=placed[first].start_h - earlier, end_h=placed[first].end_h - earlier
    )
    return "wall-cupboard", placed


def delivered_before_it_is_packed():
    return put("notice-panel", W.PACK, "", W.DELIVER, after=True)


PIECES = {
    Rule.CLEARED: fingers_before_clearing,
    Rule.ASSEMBLED: drilled_in_its_frame,
    Rule.UNREADY: no_dowels,
    Rule.OPEN_TIME: alone_with_a_big_drawer,
    Rule.CLOSED_IN: sides_before_the_divider,
    Rule.LOOSE: glued_into_its_frame,
    Rule.SQUARE: hung_before_the_sides,
    Rule.PACKED: delivered_before_it_is_packed,
}


@pytest.mark.parametrize("rule", list(PIECES))
def test_a_rule_alone_rejects_its_wrong_piece(rule):
    name, placed = PIECES[rule]()
    panels, pieces = example(name)
    assert {breach.rule for breach in breaches(panels, placed, pieces=pieces)} == {rule}
    assert not breaches(panels, placed, pieces=pieces, without=frozenset({rule}))


def test_alike_drawers_are_levelled_each_as_soon_as_it_is_together():
    drawers = Bay((Row("drawers", count=2, growth=1.0),))
    job = carcase.PEDESTAL_JOB
    described = replace(
        job.pieces[0], description=replace(job.pieces[0].description, bays=(drawers, drawers))
    )
    panels, pieces = of(replace(job, pieces=(described,)))
    steps = list(derive_steps(panels, pieces=pieces))
    level = [step for step in steps if step.work is W.FLUSH_JOINTS]
    assert len(level) > len({step.parts for step in level}) >= 1
    assert not breaches(panels, one_after_another(steps), pieces=pieces)
    for left_out in level:
        rest = [step for step in steps if step is not left_out]
        assert Rule.PACKED in {one.rule for one in breaches(panels, one_after_another(rest), pieces=pieces)}
    early = [level[0], *(step for step in steps if step is not level[0])]
    assert Rule.PRESENT in {one.rule for one in breaches(panels, one_after_another(early), pieces=pieces)}


def test_a_back_left_out_of_its_groove_is_shut_out():
    steps = steps_of("wall-cupboard")
    closing = find(steps, W.ASSEMBLE, "left side")
    wrong = [replace(step, dry=()) if step is closing else step for step in steps]
    panels, pieces = example("wall-cupboard")
    told = breaches(panels, one_after_another(wrong), pieces=pieces)
    assert Rule.CLOSED_IN in {breach.rule for breach in told if breach.step == closing.id}


def test_a_glue_up_in_clamps_is_not_added_to():
    placed = list(one_after_another(steps_of("wall-cupboard")))
    second = next(n for n, one in enumerate(placed) if one.step.id == "1-03")
    placed[second] = replace(placed[second], start_h=placed[second - 1].end_h + 1.0)
    panels, pieces = example("wall-cupboard")
    told = breaches(panels, placed, pieces=pieces)
    assert Rule.NOT_SET in {breach.rule for breach in told if breach.step == "1-03"}


@pytest.mark.parametrize("work", [W.ASSEMBLE, W.HANG, W.PACK, W.FIT_ON_SITE])
def test_what_is_never_done_is_told(work):
    panels, pieces = example("wall-cupboard")
    steps = [step for step in steps_of("wall-cupboard") if step.work is not work]
    told = breaches(panels, one_after_another(steps), pieces=pieces)
    assert Rule.LEFT_OUT in {breach.rule for breach in told if not breach.step}
