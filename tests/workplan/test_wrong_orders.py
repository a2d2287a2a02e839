"""Wrong orders made by moving one step, each rejected with the reason a maker would give.

`REASONS` is written by hand from the trade, not from what the steps say of each other: the later work of
each pair, done before the earlier one, breaks one of the rules beside it.
"""

import random
from pathlib import Path

import jobs_by_hand as by_hand
import pytest
from workplan.random_panels import LINOLEUM, cutout, grip, insert, made

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.materials import load_catalogue
from evenface.parts import parts_of
from evenface.piece import open_job
from evenface.piece.records import Corner, CornerAt, Ends, Meeting, Order, Profile, Side
from evenface.workplan import Rule, Work, breaches, derive_steps, one_after_another, panels_to_make

W, R = Work, Rule
REASONS = {
    (W.CONDITION, W.GLUE_EDGING): {R.CONDITION},
    (W.CONDITION, W.GLUE_INSERT): {R.CONDITION},
    (W.CONDITION, W.BOND): {R.CONDITION},
    (W.CUT_CARRIER, W.GLUE_EDGING): {R.PRESENT},
    (W.CUT_CARRIER, W.PREPARE): {R.PRESENT},
    (W.CUT_FACING, W.BOND): {R.PRESENT},
    (W.CUT_FACING, W.FIT_FACING): {R.PRESENT},
    (W.MILL_EDGING, W.GLUE_EDGING): {R.PRESENT},
    (W.TRIM_ENDS, W.SHAPE_CORNERS): {R.ENDS},
    (W.TRIM_ENDS, W.PROFILE): {R.ENDS},
    (W.TRIM_ENDS, W.FINISH): {R.ENDS},
    (W.GLUE_CORNERS, W.SHAPE_CORNERS): {R.PRESENT},
    (W.FLUSH_EDGING, W.PREPARE): {R.CLEAN},
    (W.FLUSH_EDGING, W.BOND): {R.BENEATH},
    (W.ROUT_RECESS, W.GLUE_INSERT): {R.PRESENT},
    (W.GLUE_INSERT, W.FLUSH_INSERT): {R.PRESENT},
    (W.PREPARE, W.BOND): {R.CLEAN},
    (W.FIT_FACING, W.BOND): {R.FITTED},
    (W.BOND, W.TRIM): {R.PRESENT},
    (W.BOND, W.LEVEL): {R.PRESENT},
    (W.BOND, W.ROUT_CUTOUT): {R.BENEATH},
    (W.BOND, W.ROUT_GRIP): {R.BENEATH},
    (W.BOND, W.DRILL): {R.BENEATH},
    (W.BOND, W.PROFILE): {R.OVERHANG, R.PROUD},
    (W.TRIM, W.PROFILE): {R.OVERHANG},
    (W.TRIM, W.FINISH): {R.OVERHANG},
    (W.TRIM, W.DRILL): {R.OVERHANG},
    (W.TRIM, W.LEVEL): {R.OVERHANG},
    (W.LEVEL, W.PROFILE): {R.PROUD},
    (W.LEVEL, W.FINISH): {R.PROUD},
    (W.SHAPE_CORNERS, W.PROFILE): {R.CORNERS_FIRST},
    (W.SHAPE_CORNERS, W.FINISH): {R.FINISHED},
    (W.PROFILE, W.FINISH): {R.FINISHED},
    (W.ROUT_CUTOUT, W.FINISH): {R.FINISHED},
    (W.ROUT_GRIP, W.FINISH): {R.FINISHED},
    (W.TRIM, W.DRY_FIT): {R.LEFT_OUT},
    (W.FINISH, W.DRY_FIT): {R.LEFT_OUT},
    (W.DRILL, W.DRY_FIT): {R.LEFT_OUT},
    (W.BOND, W.DRY_FIT): {R.LEFT_OUT},
    (W.GLUE_CORNERS, W.FLUSH_EDGING): {R.PRESENT},
}
ROUND = tuple(Corner(at, "radius", 20.0) for at in CornerAt)
SOLID = (Corner(CornerAt.FRONT_LEFT, "radius", 20.0, "block"),)
CLIPPED = (Corner(CornerAt.FRONT_LEFT, "radius", 60.0, "clipped"),)
BUTT = tuple(Corner(at, ends=Ends.BUTT) for at in CornerAt)
LATER = tuple(by_hand.flush(side, Order.FACING_FIRST) for side in Side)
BETWEEN = tuple(by_hand.flush(side) for side in Side)


def profiled(*sides: Side) -> tuple[Profile, ...]:
    return (Profile(sides, "round-over", radius_mm=3.0),)


CASES = {
    "over the edging": made(
        by_hand.panel(
            *by_hand.ALL_UNDER,
            corners=ROUND,
            profiles=profiled(*Side),
            cutouts=(cutout(),),
            inserts=(insert("pull", "before facing", 60.0),),
            grips=(grip("hollow", "pull"),),
        )
    ),
    "facing first": made(by_hand.panel(*LATER, corners=ROUND, profiles=profiled(*Side), cutouts=(cutout(),))),
    "between": made(
        by_hand.panel(*BETWEEN, profiles=profiled(Side.FRONT, Side.LEFT), cutouts=(cutout(),)),
        face=LINOLEUM,
        back=LINOLEUM,
    ),
    "mixed": made(
        by_hand.panel(
            by_hand.edge(Side.LEFT),
            by_hand.edge(Side.RIGHT),
            by_hand.flush(Side.FRONT, Order.FACING_FIRST),
            corners=SOLID,
            profiles=profiled(Side.FRONT),
            inserts=(insert("pad", "after facing", 700.0),),
        ),
        glue="contact-solvent",
    ),
    "nothing behind": made(
        by_hand.panel(
            *by_hand.ALL_UNDER,
            corners=ROUND,
            profiles=profiled(Side.FRONT),
            inserts=(insert("pull", "before facing", 60.0, depth_mm=None),),
        ),
        back=None,
        glue="urea",
    ),
    "flush above, under below": made(
        by_hand.panel(
            *(by_hand.edge(side, top=Meeting.FLUSH) for side in (Side.FRONT, Side.REAR, Side.RIGHT)),
            corners=BUTT,
            profiles=profiled(Side.FRONT),
        ),
        edging_glue="polyurethane",
    ),
    "clipped": made(by_hand.panel(by_hand.edge(Side.FRONT), by_hand.edge(Side.LEFT), corners=CLIPPED)),
}


def wrong_pairs(steps):
    """Each pair of steps that the trade has a word about, and the order with the later one moved before."""
    for i, early in enumerate(steps):
        for late in steps[i + 1 :]:
            if (early.work, late.work) in REASONS and _same_thing(early, late):
                moved = [step for step in steps if step is not late]
                moved.insert(moved.index(early), late)
                yield early, late, moved


def _same_thing(early, late):
    """Of one panel or piece; an insert depends on its own recess only, levelling on its own facing."""
    if (early.work, late.work) == (W.TRIM, W.LEVEL) and not set(late.roles) <= set(early.roles):
        return False
    if early.work in (W.ROUT_RECESS, W.GLUE_INSERT) and early.feature != late.feature:
        return False
    if late.work is W.DRY_FIT:
        return early.piece == late.piece
    return early.work is W.CONDITION or early.part == late.part


ORDERS = [
    (name, early, late, panels, moved)
    for name, panels in CASES.items()
    for early, late, moved in wrong_pairs(derive_steps(panels))
]


def test_there_are_enough_of_them_and_every_reason_is_among_them():
    assert len(ORDERS) >= 200
    assert {(early.work, late.work) for _, early, late, _, _ in ORDERS} == REASONS.keys()


@pytest.mark.parametrize("number", range(len(ORDERS)))
def test_a_wrong_order_is_rejected_with_the_right_reason(number):
    name, early, late, panels, moved = ORDERS[number]
    told = breaches(panels, one_after_another(moved))
    found = {breach.rule for breach in told}
    assert REASONS[early.work, late.work] & found, (name, early.id, late.id, found)


def test_no_shuffled_order_slips_through():
    draw = random.Random(11)
    panels = CASES["over the edging"]
    steps = list(derive_steps(panels))
    for _ in range(100):
        draw.shuffle(steps)
        assert breaches(panels, one_after_another(steps))


@pytest.fixture(scope="module")
def example_room():
    catalogue = load_catalogue()
    job = open_job(Path(__file__).parents[2] / "examples" / "glaze-room.toml", catalogue, KINDS)
    constructions = construct(job, catalogue, KINDS)
    return panels_to_make(constructions, parts_of(constructions))


@pytest.mark.parametrize("corners", ["before facing", "after facing"])
def test_both_plans_of_the_example_room_are_accepted(example_room, corners):
    assert not breaches(example_room, one_after_another(derive_steps(example_room, corners=corners)))


def test_two_hundred_wrong_orders_of_the_example_room_are_rejected_with_the_right_reason(example_room):
    wrong = list(wrong_pairs(derive_steps(example_room)))
    for early, late, moved in random.Random(7).sample(wrong, 200):
        found = {breach.rule for breach in breaches(example_room, one_after_another(moved))}
        assert REASONS[early.work, late.work] & found, (early.id, late.id, found)
