"""Wrong orders of whole pieces, made by moving one step, each rejected with the reason a maker would give.

`REASONS` is written by hand from the trade, not from what the steps say of each other: the later work of each
pair, done before the earlier one, breaks one of the rules beside it.
"""

import random

import pytest
from workplan.pieces_by_file import NAMES, example, steps_of

from evenface.workplan import Rule, Work, breaches, one_after_another

W, R = Work, Rule
REASONS = {
    (W.CONDITION, W.MILL_BOARD): {R.CONDITION},
    (W.MILL_BOARD, W.CUT_JOINT): {R.PRESENT},
    (W.MILL_BOARD, W.LINE_BOARD): {R.PRESENT},
    (W.MILL_BOARD, W.CUT_LENGTH): {R.PRESENT},
    (W.LINE_BOARD, W.CUT_LENGTH): {R.BENEATH},
    (W.CUT_LENGTH, W.CUT_JOINT): {R.PRESENT},
    (W.CUT_LENGTH, W.DRILL): {R.PRESENT},
    (W.CUT_LENGTH, W.CLEAR_JOINT): {R.PRESENT},
    (W.MILL_BOARD, W.DRILL): {R.PRESENT},
    (W.LINE_BOARD, W.CLEAR_JOINT): {R.PRESENT},
    (W.LINE_BOARD, W.CUT_JOINT): {R.BENEATH, R.CLEARED},
    (W.CLEAR_JOINT, W.CUT_JOINT): {R.CLEARED},
    (W.CUT_JOINT, W.FINISH): {R.FINISHED},
    (W.BOND, W.CUT_JOINT): {R.BENEATH},
    (W.TRIM, W.CUT_JOINT): {R.OVERHANG},
    (W.CUT_JOINT, W.DRY_FIT): {R.LEFT_OUT},
    (W.FINISH, W.DRY_FIT): {R.LEFT_OUT},
    (W.BOND, W.ASSEMBLE): {R.UNREADY},
    (W.TRIM, W.ASSEMBLE): {R.UNREADY},
    (W.PROFILE, W.ASSEMBLE): {R.UNREADY},
    (W.CUT_JOINT, W.ASSEMBLE): {R.UNREADY},
    (W.DRILL, W.ASSEMBLE): {R.UNREADY},
    (W.FINISH, W.ASSEMBLE): {R.UNREADY},
    (W.DRY_FIT, W.SET_DOWELS): {R.UNREADY},
    (W.DRY_FIT, W.ASSEMBLE): {R.UNREADY},
    (W.SET_DOWELS, W.ASSEMBLE): {R.UNREADY},
    (W.ASSEMBLE, W.FLUSH_JOINTS): {R.PRESENT},
    (W.FLUSH_JOINTS, W.FINISH_OUTSIDE): {R.PROUD},
    (W.ASSEMBLE, W.FIT_PART): {R.SQUARE},
    (W.ASSEMBLE, W.LAY_IN): {R.SQUARE},
    (W.FINISH_OUTSIDE, W.LAY_IN): {R.UNREADY},
    (W.FINISH_OUTSIDE, W.PUT_IN): {R.UNREADY},
    (W.ASSEMBLE, W.FIT_HARDWARE): {R.SQUARE},
    (W.ASSEMBLE, W.HANG): {R.SQUARE},
    (W.ASSEMBLE, W.PUT_IN): {R.SQUARE},
    (W.ASSEMBLE, W.SCREW_ON): {R.SQUARE},
    (W.FIT_PART, W.SCREW_ON): {R.SQUARE},
    (W.PUT_IN, W.SCREW_ON): {R.SQUARE},
    (W.ASSEMBLE, W.PACK): {R.PACKED},
    (W.HANG, W.PACK): {R.PACKED},
    (W.LAY_IN, W.PACK): {R.PACKED},
    (W.FIT_HARDWARE, W.PACK): {R.PACKED},
    (W.SET_PLACE, W.PACK): {R.PACKED},
    (W.DRILL, W.PACK): {R.PACKED},
    (W.DRY_FIT, W.PACK): {R.PACKED},
    (W.PACK, W.DELIVER): {R.PACKED},
    (W.DELIVER, W.FIT_ON_SITE): {R.PACKED},
}


def touches(early, late):
    """Of one part or one body of a piece; a front needs what it is screwed to, and no other drawer."""
    if W.DELIVER in (early.work, late.work) or early.work is W.CONDITION:
        return True
    if early.piece != late.piece:
        return False
    if early.part:
        return early.part in late.parts
    if (early.work, late.work) in BY_BODY:
        return bool(set(early.parts) <= set(late.parts) or set(late.parts) <= set(early.parts))
    if (early.work, late.work) == (W.PUT_IN, W.SCREW_ON):
        return any(part in early.parts for part in late.parts)
    return True


BY_BODY = {
    (W.ASSEMBLE, W.FLUSH_JOINTS),
    (W.ASSEMBLE, W.FIT_PART),
    (W.ASSEMBLE, W.LAY_IN),
    (W.SET_DOWELS, W.ASSEMBLE),
    (W.FLUSH_JOINTS, W.FINISH_OUTSIDE),
    (W.FINISH_OUTSIDE, W.PUT_IN),
}


def wrong_orders(steps):
    """Each pair the trade has a word about, and the order with the later one moved before the earlier."""
    for place, early in enumerate(steps):
        for late in steps[place + 1 :]:
            if (early.work, late.work) in REASONS and touches(early, late):
                moved = [step for step in steps if step is not late]
                moved.insert(moved.index(early), late)
                yield early, late, moved


ORDERS = [(name, *wrong) for name in NAMES for wrong in wrong_orders(steps_of(name))]
BY_PAIR: dict[tuple[Work, Work], list] = {}
for order in ORDERS:
    BY_PAIR.setdefault((order[1].work, order[2].work), []).append(order)
ASKED = [one for same in BY_PAIR.values() for one in random.Random(3).sample(same, min(len(same), 12))]


def test_there_are_enough_of_them_and_every_reason_is_among_them():
    assert len(ASKED) >= 200
    assert {(early.work, late.work) for _, early, late, _ in ASKED} >= REASONS.keys() - {
        (W.PROFILE, W.ASSEMBLE)  # no example profiles a panel that is glued up
    }


@pytest.mark.parametrize("number", range(len(ASKED)))
def test_a_wrong_order_is_rejected_with_the_right_reason(number):
    name, early, late, moved = ASKED[number]
    panels, pieces = example(name)
    found = {breach.rule for breach in breaches(panels, one_after_another(moved), pieces=pieces)}
    assert REASONS[early.work, late.work] & found, (name, early.id, late.id, found)


@pytest.mark.parametrize("name", NAMES)
def test_the_plan_of_each_example_is_accepted(name):
    panels, pieces = example(name)
    assert not breaches(panels, one_after_another(steps_of(name)), pieces=pieces)


@pytest.mark.parametrize("name", NAMES)
def test_no_shuffled_order_slips_through(name):
    draw = random.Random(5)
    panels, pieces = example(name)
    steps = list(steps_of(name))
    for _ in range(10):
        draw.shuffle(steps)
        assert breaches(panels, one_after_another(steps), pieces=pieces)
