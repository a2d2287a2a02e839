"""What the checker says of one step at the wrong moment: every sentence it has is heard at its step."""

from dataclasses import replace

import pytest
from workplan.test_checker_rules import EDGED, PLAIN, find, moved
from workplan.test_wrong_orders import CASES

from evenface.workplan import Rule, Work, breaches, derive_steps, one_after_another
from evenface.workplan.whole_bench import WHOLE

W = Work
OVER, LATER, BETWEEN, MIXED, BUTT = (
    CASES[name]
    for name in ("over the edging", "facing first", "between", "mixed", "flush above, under below")
)
MOVED = [
    (OVER, W.ROUT_RECESS, W.CUT_CARRIER, False, "The carrier is not cut."),
    (MIXED, W.GLUE_CORNERS, W.CUT_CARRIER, False, "The carrier is not cut."),
    (OVER, W.GLUE_EDGING, W.FINISH, True, "The wood is finished already."),
    (OVER, W.GLUE_EDGING, W.BOND, True, "The {role:word} that lies over it is on already."),
    (LATER, W.GLUE_EDGING, W.TRIM, False, "The {role:word} overhangs this edge."),
    (BUTT, W.TRIM_ENDS, W.BOND, False, "It runs past an end that is still long."),
    (EDGED, W.TRIM_ENDS, W.GLUE_EDGING, False, "No end is long there."),
    (EDGED, W.FLUSH_EDGING, W.GLUE_EDGING, False, "The {side:word} edging is not on."),
    (LATER, W.LEVEL, W.GLUE_EDGING, False, "The {side:word} edging is not on."),
    (OVER, W.GLUE_INSERT, W.BOND, True, "The facing that covers this insert is on already."),
    (BETWEEN, W.FIT_FACING, W.BOND, True, "The {role:word} is on already."),
    (OVER, W.SHAPE_CORNERS, W.PROFILE, True, "The edge has its profile already."),
    (OVER, W.SHAPE_CORNERS, W.GLUE_EDGING, False, "The edging of a corner is not on."),
    (MIXED, W.SHAPE_CORNERS, W.GLUE_CORNERS, False, "The corner pieces are not in."),
    (LATER, W.SHAPE_CORNERS, W.TRIM, False, "The {role:word} is not trimmed."),
    (LATER, W.PROFILE, W.GLUE_EDGING, False, "An edging to be profiled is not on."),
    (OVER, W.PROFILE, W.SHAPE_CORNERS, False, "The corners are still square."),
    (OVER, W.ROUT_GRIP, W.FLUSH_INSERT, False, "The insert it lies in is not in and level."),
]


def templates(panels, placed):
    return {breach.message.template for breach in breaches(panels, placed)}


@pytest.mark.parametrize("case", MOVED, ids=lambda case: f"{case[1].name}-{case[2].name}-{case[4][:12]}")
def test_a_step_at_the_wrong_moment_is_told_why(case):
    panels, work, target, after, template = case
    steps = derive_steps(panels)
    assert template not in templates(panels, one_after_another(steps))
    assert template in templates(panels, one_after_another(moved(steps, work, target, after=after)))


OF_BOARDS = {W.MILL_BOARD, W.LINE_BOARD, W.CUT_LENGTH}
TWICE = (
    set(W)
    - WHOLE
    - OF_BOARDS
    - {
        W.DELIVER,
        W.CLEAR_JOINT,
        W.CUT_JOINT,
        # these may be done again: cleaned, trimmed, sanded or drilled once more, nothing is lost
        W.TRIM_ENDS,
        W.FLUSH_EDGING,
        W.FLUSH_INSERT,
        W.SHAPE_CORNERS,
        W.FIT_FACING,
        W.PREPARE,
        W.TRIM,
        W.LEVEL,
        W.PROFILE,
        W.FINISH,
        W.DRILL,
    }
)


@pytest.mark.parametrize("work", sorted(TWICE))
def test_what_can_only_be_done_once_is_not_done_twice(work):
    panels = next(p for p in (OVER, MIXED) if any(step.work is work for step in derive_steps(p)))
    steps = list(derive_steps(panels))
    one = find(steps, work)
    steps.insert(steps.index(one), one)
    assert Rule.TWICE in {b.rule for b in breaches(panels, one_after_another(steps)) if b.step == one.id}


def test_an_insert_or_part_nobody_asked_for_is_not_there():
    steps = list(derive_steps(OVER))
    for work, change in ((W.ROUT_RECESS, {"feature": "other"}), (W.TRIM, {"part": "9.9"})):
        wrong = [replace(one, **change) if one.work is work else one for one in steps]
        assert Rule.PRESENT in {breach.rule for breach in breaches(OVER, one_after_another(wrong))}


def test_drilling_into_wet_finish_and_pressing_on_wet_edging_are_told():
    placed = list(one_after_another(derive_steps(PLAIN)))
    assert "The finish is not dry." not in templates(PLAIN, placed)
    for work, first, template in (
        (W.DRILL, W.FINISH, "The finish is not dry."),
        (W.BOND, W.GLUE_EDGING, "Glue of this panel has not set."),
    ):
        placed = list(one_after_another(derive_steps(EDGED)))
        end = next(one.end_h for one in placed if one.step.work is first)
        early = [
            replace(one, start_h=end + 0.1, end_h=end + 0.2) if one.step.work is work else one
            for one in placed
        ]
        assert template in {
            breach.message.template
            for breach in breaches(EDGED, early)
            if breach.step == next(one.step.id for one in placed if one.step.work is work)
        }
