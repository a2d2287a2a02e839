"""A base of legs and aprons is glued as flat frames first, then those are joined; nothing else is divided so."""

import pytest
from workplan.pieces_by_file import NAMES, example, steps_of

from evenface.words import say
from evenface.workplan import Work
from evenface.workplan.glue_ups import bodies_of


def met(piece, glue_up):
    return {tuple(sorted((seam.receiver[0], seam.enters[0]))) for seam in glue_up.seams}


def test_the_end_frames_of_a_desk_are_closed_before_the_long_aprons_join_them():
    (piece,) = example("glazing-desk")[1]
    base = max(bodies_of(piece), key=lambda body: len(body.glue_ups))
    assert [met(piece, one) for one in base.glue_ups] == [
        {("bearer", "long apron")},
        {("end apron", "leg")},
        {("leg", "long apron")},
    ]
    assert [len(one.seams) for one in base.glue_ups] == [4, 4, 4]
    told = [say(step.title) for step in steps_of("glazing-desk") if step.work is Work.ASSEMBLE]
    assert ["end apron" in one for one in told] == [False, True, False]


def test_each_frame_has_its_two_legs_in_it():
    """The shorter ones first: left legs with the left apron, right legs with the right one."""
    (piece,) = example("glazing-desk")[1]
    base = max(bodies_of(piece), key=lambda body: len(body.glue_ups))
    frames = base.glue_ups[1]
    by_apron = {}
    for seam in frames.seams:
        by_apron.setdefault(seam.enters, set()).add(seam.receiver)
    assert [len(legs) for legs in by_apron.values()] == [2, 2]
    assert len(set.union(*by_apron.values())) == 4


@pytest.mark.parametrize("name", NAMES)
def test_what_takes_its_parts_from_one_side_is_not_divided(name):
    for piece in example(name)[1]:
        for body in bodies_of(piece):
            for one in body.glue_ups:
                assert one.seams
            told = [seam.number for one in body.glue_ups for seam in one.seams]
            assert len(told) == len(set(told))  # each joint closed once
