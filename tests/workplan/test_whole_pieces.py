"""Whole pieces of the examples: the order a maker would work in at the bench."""

import re
from dataclasses import replace

import pytest
from workplan.pieces_by_file import EXAMPLES, NAMES, example, find, of, steps_of

from evenface.construction.kinds import KINDS
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.words import say
from evenface.workplan import Work, derive_steps, joint_findings
from evenface.workplan.glue_ups import bodies_of
from evenface.workplan.seams import Meets, seams_of

W = Work


def works(name, part=""):
    """What is done, of the pieces as wholes or of one part, in its order."""
    return [step.work for step in steps_of(name) if step.part == part]


def titles(name, work):
    return [say(step.title).split(": ", 1)[1] for step in steps_of(name) if step.work is work]


def test_a_cupboard_is_closed_from_the_inside_outwards_with_its_back_dry_in_the_grooves():
    divider, sides = (step for step in steps_of("wall-cupboard") if step.work is W.ASSEMBLE)
    told = [say(one) for one in sides.settings]
    assert "divider" in say(divider.title)
    assert "side" not in say(divider.title)
    assert "In before the last part is on, dry, without a drop of glue: back." in told
    (piece,) = example("wall-cupboard")[1]
    back = {seam.number for seam in seams_of(piece) if seam.meets is Meets.CAPTIVE}
    assert set(sides.dry) == back
    assert len(back) == 4


def test_a_cupboard_is_hung_when_it_stands_and_its_shelves_go_in_last():
    whole = works("wall-cupboard")
    order = [W.DRY_FIT, W.SET_DOWELS, W.ASSEMBLE, W.FIT_HARDWARE, W.HANG, W.SET_PLACE, W.PACK, W.DELIVER]
    places = [whole.index(work) for work in order]
    assert places == sorted(places)
    assert whole[-1] is W.FIT_ON_SITE
    assert titles("wall-cupboard", W.HANG) == ["left door 1", "right door 1", "left door 2", "right door 2"]
    hung = find(steps_of("wall-cupboard"), W.HANG, "left door 1")
    assert say(hung.settings[0]).startswith("2 × hinge with plate")  # two of the four that are bought


def test_each_drawer_is_a_body_of_its_own_and_its_front_comes_when_it_runs():
    (piece,) = example("drawer-pedestal")[1]
    names = [body.name for body in bodies_of(piece)]
    assert names[0] == "Drawer pedestal"
    assert names[1:5] == [f"drawer {number}" for number in (1, 2, 3, 4)]
    assert titles("drawer-pedestal", W.PUT_IN) == [f"drawer {number}" for number in (1, 2, 3, 4)]
    whole = works("drawer-pedestal")
    assert max(n for n, w in enumerate(whole) if w is W.PUT_IN) < whole.index(W.SCREW_ON)
    assert whole.index(W.FIT_PART) < whole.index(W.FIT_HARDWARE) < whole.index(W.PUT_IN)


def test_a_large_drawer_needs_a_helper_within_the_open_time_a_small_one_does_not():
    steps = steps_of("drawer-pedestal")
    assert find(steps, W.ASSEMBLE, "drawer 1").people == 1
    assert find(steps, W.ASSEMBLE, "drawer 4").people == 2


def test_a_frame_is_made_and_finished_before_its_panel_goes_in_loose():
    whole = works("notice-panel")
    assert whole[1:6] == [W.DRY_FIT, W.ASSEMBLE, W.FLUSH_JOINTS, W.FINISH_OUTSIDE, W.LAY_IN]
    laid = find(steps_of("notice-panel"), W.LAY_IN)
    assert laid.joints == ()
    assert len(laid.dry) == 4
    assert {after.wait_h for after in laid.after} == {24.0}  # the finish of the frame is dry


def test_a_lined_wall_is_lined_cleared_and_cut_in_this_order():
    wall = next(step.part for step in steps_of("lined-tray") if step.work is W.LINE_BOARD)
    assert works("lined-tray", wall) == [
        W.MILL_BOARD, W.LINE_BOARD, W.CUT_LENGTH, W.CLEAR_JOINT, W.CUT_JOINT, W.FINISH,
    ]  # fmt: skip
    line, length = (find([s for s in steps_of("lined-tray") if s.part == wall], w)
                    for w in (W.LINE_BOARD, W.CUT_LENGTH))  # fmt: skip
    assert {after.id: after.wait_h for after in length.after}[line.id] == 24.0


def test_loose_panels_are_packed_sent_and_fixed_too():
    whole = works("glaze-room")
    assert whole.count(W.DRY_FIT) == whole.count(W.PACK) == whole.count(W.FIT_ON_SITE) == 3
    assert whole.count(W.DELIVER) == 1
    assert not set(whole) & {W.ASSEMBLE, W.SET_DOWELS, W.FIT_HARDWARE}


def test_everything_is_done_in_some_example():
    done = {step.work for name in NAMES for step in steps_of(name)}
    # wood let in, and edging beside a facing, are tried elsewhere
    assert set(Work) - done <= {W.GLUE_CORNERS, W.LEVEL, W.FIT_FACING, W.PROFILE}


@pytest.mark.parametrize("name", NAMES)
def test_every_step_says_why_what_to_check_and_what_a_slip_costs(name):
    for step in steps_of(name):
        told = (step.title, step.why, step.check, step.undo_risk, *step.settings, *step.cautions)
        assert all(say(one) for one in told)
        assert step.tools
        assert step.parts
        assert step.hand_minutes.total > 0.0


def test_several_pieces_alike_are_set_up_once_and_glued_up_each():
    panels, (piece,) = example("lined-tray")
    glue_up = find(steps_of("lined-tray"), W.ASSEMBLE)
    assert glue_up.hand_minutes.pieces == piece.count == 3
    alone = derive_steps(panels, pieces=(replace(piece, count=1),))
    saved = glue_up.hand_minutes.total - find(alone, W.ASSEMBLE).hand_minutes.total
    assert saved == pytest.approx(2 * glue_up.hand_minutes.each)


def test_contact_glue_alone_leaves_the_joints_without_a_glue_and_that_is_said():
    panels, (piece,) = example("notice-panel")
    assert not joint_findings((piece,))
    contact = replace(piece.glue, kind="contact_solvent")
    dry = tuple(replace(one, panel=replace(one.panel, glue=contact, edging_glue=contact)) for one in panels)
    assert [f.code for f in joint_findings((replace(piece, panels=dry),))] == ["steps.no_glue_for_joints"]


def test_only_parts_with_holes_are_drilled_where_that_is_known():
    drilled = {step.part for step in steps_of("wall-cupboard") if step.work is W.DRILL}
    (piece,) = example("wall-cupboard")[1]
    asked = {piece.ids[one.part] for one in piece.arranged.worked if one.diameter_mm > 0.0}
    assert drilled == asked
    assert piece.ids["loose shelf"] not in drilled
    loose = {step.part for step in steps_of("glaze-room") if step.work is W.DRILL}
    assert loose == {one.part for one in example("glaze-room")[0]}


def test_alike_fittings_are_counted_together():
    told = [say(one) for one in find(steps_of("drawer-pedestal"), W.FIT_HARDWARE).settings]
    assert sum("side runners" in line for line in told) == 1
    assert any(line.startswith("4 × pair of side runners") for line in told)


def test_a_divider_in_stopped_housings_goes_in_while_the_box_is_glued_a_loose_one_afterwards():
    (glued,) = (step for step in steps_of("lined-tray") if step.work is W.ASSEMBLE)
    told = [say(one) for one in glued.settings]
    assert "In before the last part is on, dry, without a drop of glue: divider front to rear." in told
    assert not titles("lined-tray", W.FIT_PART)
    assert titles("lined-tray", W.LAY_IN) == ["divider left to right"]


def test_a_divider_whose_housings_run_out_above_slides_in_when_the_box_is_together():
    text = (EXAMPLES / "lined-tray.toml").read_text()
    flush = text.replace("below   = 6  ", "below   = 0  ")
    assert flush != text
    panels, pieces = of(read_job(flush, "flush.toml", load_catalogue(), KINDS))
    steps = derive_steps(panels, pieces=pieces)
    assert [say(step.title) for step in steps if step.work is W.FIT_PART] == [
        "fit without glue: divider front to rear"
    ] * 2


def test_dividers_housed_both_ways_are_crossed_before_the_box_is_glued():
    text = (EXAMPLES / "lined-tray.toml").read_text()
    housed = text.replace('held    = "loose"', 'held    = "housed"')
    assert housed != text
    panels, pieces = of(read_job(housed, "housed.toml", load_catalogue(), KINDS))
    steps = derive_steps(panels, pieces=pieces)
    (glued,) = (step for step in steps if step.work is W.ASSEMBLE)
    assert {pieces[0].arranged.joints[number].kind for number in glued.dry} == {"housing", "halving"}
    assert not [step for step in steps if step.work in (W.FIT_PART, W.LAY_IN)]


def test_low_pieces_without_drawers_are_not_screwed_to_the_wall_and_nobody_climbs():
    def told(name):
        return " ".join(say(one) for one in find(steps_of(name), W.FIT_ON_SITE).cautions)

    assert "ladder" not in told("lined-tray")
    assert "tip" not in told("lined-tray")
    assert "ladder" in told("wall-cupboard")
    assert "drawers tip" in told("drawer-pedestal")


def test_a_lining_card_names_sheet_and_glue_and_the_size_of_its_blanks():
    line = find(steps_of("lined-tray"), W.LINE_BOARD)
    lines = [say(one) for one in line.settings]
    assert "Furniture linoleum 2 mm, glued with White glue (PVAc), D3." in lines
    # board 303.2 or 423.2 by 84, 5 over on every edge
    assert any(
        re.match(r"lining: 6 of (313\.2|433\.2) mm × 94 mm, direction at 0° to the length", one)
        for one in lines
    )


def test_what_is_glued_up_is_packed_as_one():
    """A tray: its box and one loose divider; four walls, bottom and housed dividers are not wrapped one by one."""
    pack = find(steps_of("lined-tray"), W.PACK)
    assert pack.hand_minutes.each == pytest.approx(10.0 + 2 * 4.0)
