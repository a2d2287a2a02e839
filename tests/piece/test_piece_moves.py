"""`[order]` read: what is a move, and what is refused with its place."""

import pytest

from evenface.construction.kinds import KINDS
from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.piece.order_moves import Move

JOB = """format = 1
[job]
name = "Shelf"
[buildup.shelf]
carrier = "mdf-19"
glue = "pva-d3"
[[piece]]
kind = "panels"
name = "Shelf"
[[piece.panel]]
name = "shelf"
size = [600, 300]
buildup = "shelf"
"""


def read(text):
    return read_job(JOB + text, "job.toml", load_catalogue(), KINDS)


def test_moves_are_read_in_the_order_of_the_file():
    job = read(
        '[[order.move]]\nstep = "1.1-02"\nafter = "1.1-03"\n[[order.move]]\nstep = " 1-01 "\nbefore = "fit-01"\n'
    )
    assert job.moves == (
        Move("1.1-02", after="1.1-03", origin="order.move[0]"),
        Move("1-01", before="fit-01", origin="order.move[1]"),
    )
    assert job.texts["order.move[1].step"][0] == 18


def test_a_job_without_an_order_moves_nothing():
    assert read("").moves == ()


def test_corners_are_shaped_before_facing_unless_the_job_says_after():
    assert read("").corners == "before facing"
    moved = read('[order]\ncorners = "after facing"\n[[order.move]]\nstep = "1.1-02"\nafter = "1.1-03"\n')
    assert (moved.corners, len(moved.moves)) == ("after facing", 1)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("order = 3\n", "[[order.move]]"),
        ('[order]\ncorners = "first"\n', '"after facing"'),
        ("[order]\ncorners = 3\n", '"after facing"'),
        ("[order]\nmove = 3\n", "[[order.move]]"),
        ("[order]\nmoves = []\n", "Did you mean 'move'"),
        ('[[order.move]]\nstep = "a"\n', "after = … or before = …; given neither"),
        ('[[order.move]]\nstep = "a"\nafter = "b"\nbefore = "c"\n', "given both"),
        ('[[order.move]]\nafter = "b"\n', "step = …"),
        ('[[order.move]]\nstep = 4\nafter = "b"\n', "the name of a step"),
        ('[[order.move]]\nstep = "a"\nafter = "a"\n', "another step"),
        ('[[order.move]]\nstep = "a"\nafter = "b"\nfater = "c"\n', "Did you mean 'after'"),
    ],
)
def test_what_is_no_move_is_refused(text, told):
    with pytest.raises(FileError) as fault:
        # a bare key has to stand before the tables
        read_job(
            text + JOB if text.startswith("order =") else JOB + text, "job.toml", load_catalogue(), KINDS
        )
    assert told in str(fault.value)
