"""Laws of every whole piece: its plan is accepted, every joint is closed once, within the glue's open time."""

from dataclasses import replace

import pytest
from construction import test_carcase_sizes as carcase
from construction import test_lined_box_laws as box
from construction import test_top_on_base_laws as table
from hypothesis import given, settings
from hypothesis import strategies as st
from workplan.pieces_by_file import of

from evenface.construction.kinds import KINDS
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.words import say
from evenface.workplan import Work, breaches, derive_steps, one_after_another
from evenface.workplan.glue_ups import bodies_of, open_min
from evenface.workplan.graph import in_order
from evenface.workplan.seams import Meets, seams_of

CATALOGUE = load_catalogue()
FRAME = """format = 1
[job]
name = "Glaze room"
[buildup.notice]
face = "linoleum-2"
back = "linoleum-2"
carrier = {{ material = "mdf-12", thickness = 11.8 }}
glue = "{glue}"
[[piece]]
kind = "framed panel"
name = "Notice panel"
count = {count}
size = [{width}, 800]
buildup = "notice"
[piece.frame]
wood = "ash"
width = 50
thickness = 28
joint = "{joint}"
seat = "{seat}"
"""


def lawful(job):
    """Everything that holds for the plan of a job with one piece."""
    panels, pieces = of(job)
    steps = derive_steps(panels, pieces=pieces)
    assert in_order(steps) == steps
    told = breaches(panels, one_after_another(steps), pieces=pieces)
    assert not told, [(b.rule.value, b.step, say(b.message)) for b in told]
    (piece,) = pieces
    closing = [step for step in steps if step.work is not Work.SET_DOWELS]
    closed = [number for step in closing for number in (*step.joints, *step.dry)]
    assert sorted(closed) == list(range(len(piece.arranged.joints)))
    for body in bodies_of(piece):
        for up in body.glue_ups:
            assert up.minutes / up.people <= open_min(piece.glue) + 1e-9
            assert all(seam.meets is Meets.RIGID for seam in up.seams)
            assert not any(seam.joint.glued for seam in up.dry)
    return steps, piece


def with_description(job, description):
    return replace(job, pieces=(replace(job.pieces[0], description=description),))


@settings(max_examples=40, deadline=None)
@given(carcase.carcases())
def test_every_carcase_has_a_plan_that_is_accepted(description):
    steps, piece = lawful(with_description(carcase.PEDESTAL_JOB, description))
    hinged = {seam.enters for seam in seams_of(piece) if seam.meets is Meets.HINGE}
    assert sum(step.work is Work.HANG for step in steps) == len(hinged)


@settings(max_examples=25, deadline=None)
@given(box.boxes())
def test_every_lined_box_is_cleared_before_its_joints_and_its_plan_is_accepted(description):
    steps, _ = lawful(with_description(box.READ, description))
    for clear in (step for step in steps if step.work is Work.CLEAR_JOINT):
        cut = next(step for step in steps if step.work is Work.CUT_JOINT and step.part == clear.part)
        line = next(step for step in steps if step.work is Work.LINE_BOARD and step.part == clear.part)
        assert steps.index(line) < steps.index(clear) < steps.index(cut)


@settings(max_examples=25, deadline=None)
@given(table.desks())
def test_every_table_has_a_plan_that_is_accepted(description):
    lawful(with_description(table.JOB, description))


@settings(max_examples=20, deadline=None)
@given(
    st.sampled_from(("mitre", "butt", "bridle")),
    st.sampled_from(("rebate", "rebate behind", "groove")),
    st.sampled_from(("pva-d3", "urea", "polyurethane", "epoxy")),
    st.integers(1, 3),
    st.integers(500, 2400),
)
def test_every_framed_panel_stays_loose_and_its_plan_is_accepted(joint, seat, glue, count, width):
    text = FRAME.format(joint=joint, seat=seat, glue=glue, count=count, width=width)
    steps, piece = lawful(read_job(text, "job.toml", CATALOGUE, KINDS))
    made = [step.work for step in steps]
    held = {seam.number for seam in seams_of(piece) if "panel" in (name for name, _ in seam.nodes)}
    assert not held & {number for step in steps for number in step.joints}
    if seat != "groove":  # the frame is made and finished before the panel goes in
        assert made.index(Work.FINISH_OUTSIDE) < made.index(Work.LAY_IN)


@pytest.mark.parametrize("glue", ["contact-solvent"])
def test_a_job_without_a_glue_for_joints_still_has_a_plan(glue):
    text = FRAME.format(joint="bridle", seat="rebate", glue=glue, count=1, width=900)
    _, piece = lawful(read_job(text, "job.toml", CATALOGUE, KINDS))
    assert piece.glue is None


TRAY = """format = 1
[job]
name = "Glaze room"
[[piece]]
kind = "lined box"
name = "Tray"
size = [250, 250, 97]
walls = { wood = "ash", thickness = 10 }
lining = { facing = "linoleum-2", glue = "pva-d3" }
bottom = { wood = "ash", thickness = 5, groove = 3, up = 3, play = 0.5 }
fingers = { cutter = 4 }
"""
DIVIDED = """[[piece.divider]]
way = "left to right"
wood = "ash"
thickness = 3
depth = 3
play = 0.5
below = 1
"""


CROSSED = DIVIDED.replace("left to right", "front to rear").replace("below = 1", "below = 0")


@pytest.mark.parametrize(
    ("besides", "first", "last"),
    [
        ("", set(), {"bottom"}),
        (DIVIDED, {"divider left to right"}, {"bottom"}),
        (CROSSED + DIVIDED, {"divider left to right"}, {"bottom"}),  # the other drops in from above at last
    ],
)
def test_what_is_put_in_dry_counts_when_a_glue_up_is_divided(besides, first, last):
    """Two people would close the four corners in time, with the bottom to put in between them they would not.

    Then two corners are closed first, both sides on one wall: a divider housed in the sides goes in there and then,
    the bottom slides in before the last wall.
    """
    _, piece = lawful(read_job(TRAY + besides, "job.toml", CATALOGUE, KINDS))
    (body,) = bodies_of(piece)
    assert [{seam.enters[0] for seam in up.dry} for up in body.glue_ups] == [first, last]
