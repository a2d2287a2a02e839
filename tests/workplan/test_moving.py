"""Steps moved by hand: the plan follows, no circle comes of it, and the checker tells what breaks."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workplan.pieces_by_file import example, find, steps_of

from evenface.finding import Severity
from evenface.piece.order_moves import Move
from evenface.words import say
from evenface.workplan import Work, breaches, one_after_another
from evenface.workplan.graph import in_order
from evenface.workplan.moving import move_findings, unknown_steps, with_moves


def played(name, *moves):
    """The moved steps, and what the checker says of them."""
    steps = with_moves(steps_of(name), moves)
    panels, pieces = example(name)
    told = breaches(panels, one_after_another(in_order(steps)), pieces=pieces)
    return steps, move_findings(told, steps, moves)


def test_without_moves_nothing_changes():
    assert with_moves(steps_of("notice-panel"), ()) == steps_of("notice-panel")


def test_a_door_hung_before_the_sides_are_on_is_a_stop_that_names_its_move():
    steps = steps_of("wall-cupboard")
    door, sides = find(steps, Work.HANG), find(steps, Work.ASSEMBLE, "left side")
    move = Move(door.id, before=sides.id, origin="order.move[0]")
    moved, told = played("wall-cupboard", move)
    ids = [step.id for step in moved]
    assert ids.index(door.id) == ids.index(sides.id) - 1
    own = [finding for finding in told if finding.at == door.id]
    assert {finding.code for finding in own} == {"order.square"}
    assert {finding.severity for finding in own} == {Severity.STOP}
    assert {finding.origin for finding in told} == {"order.move[0]"}
    assert say(own[0].remedies[0].message).startswith(f"Take the move of {door.id} out again")


def test_a_move_that_breaks_nothing_is_told_nothing_of():
    steps = steps_of("drawer-pedestal")
    back, hardware = find(steps, Work.FIT_PART, "back"), find(steps, Work.FIT_HARDWARE)
    moved, told = played("drawer-pedestal", Move(back.id, after=hardware.id))
    ids = [step.id for step in moved]
    assert ids.index(back.id) == ids.index(hardware.id) + 1
    assert not told


def test_what_follows_a_moved_glue_up_waits_for_its_glue():
    steps = steps_of("drawer-pedestal")
    one = find(steps, Work.ASSEMBLE, "drawer 1")
    other = find(steps, Work.ASSEMBLE, "drawer 2")
    moved = {step.id: step for step in with_moves(steps, (Move(one.id, after=other.id),))}
    assert {after.id: after.wait_h for after in moved[one.id].after}[other.id] == other.wait.most_h
    level = find(steps, Work.FLUSH_JOINTS, "drawer 1")
    # what stood between is now before the glue-up, and the checker will have a word about it
    assert one.id not in {after.id for after in moved[level.id].after}


def test_a_name_that_is_no_step_is_found():
    moves = (Move("1-77", after="1-01", origin="a"), Move("1-01", before="1-88", origin="b"))
    told = unknown_steps(steps_of("notice-panel"), moves)
    assert [(move.origin, key, name) for move, key, name in told] == [
        ("a", "step", "1-77"),
        ("b", "before", "1-88"),
    ]


@given(st.data())
@settings(max_examples=60)
def test_any_moves_give_one_order_without_a_circle(data):
    name = data.draw(st.sampled_from(("notice-panel", "lined-tray", "drawer-pedestal")))
    ids = [step.id for step in steps_of(name)]
    moves = []
    for _ in range(data.draw(st.integers(1, 3))):
        one, target = data.draw(st.lists(st.sampled_from(ids), min_size=2, max_size=2, unique=True))
        moves.append(Move(one, after=target) if data.draw(st.booleans()) else Move(one, before=target))
    moved = with_moves(steps_of(name), moves)
    assert sorted(step.id for step in moved) == sorted(ids)
    assert in_order(moved) == moved
    last = moves[-1]
    place = {step.id: number for number, step in enumerate(moved)}
    assert place[last.step] - place[last.target] == (1 if last.after else -1)


@given(st.data())
@settings(max_examples=40)
def test_a_moved_plan_worked_in_its_order_is_accepted_or_told_why(data):
    """Whatever is moved: either nothing breaks, or every breach is a finding with a reason and a way back."""
    ids = [step.id for step in steps_of("notice-panel")]
    one, target = data.draw(st.lists(st.sampled_from(ids), min_size=2, max_size=2, unique=True))
    _, told = played("notice-panel", Move(one, after=target))
    for finding in told:
        assert say(finding.message)
        assert say(finding.why)
        assert finding.remedies


@pytest.mark.parametrize("work", [Work.PACK, Work.LAY_IN, Work.FINISH_OUTSIDE])
def test_what_is_moved_before_the_glue_up_breaks(work):
    steps = steps_of("notice-panel")
    _, told = played("notice-panel", Move(find(steps, work).id, before=find(steps, Work.ASSEMBLE).id))
    assert told
