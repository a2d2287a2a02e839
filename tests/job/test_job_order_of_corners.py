"""Both orders of corners and facing: chosen in the job file, each accepted on a calendar."""

from datetime import date

import pytest

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.job.order_of_work import order_of_work
from evenface.materials import load_catalogue
from evenface.parts import parts_of
from evenface.piece import read_job
from evenface.workplan import Work, breaches
from evenface.workplan.calendar import WorkDays, schedule

JOB = """format = 1
[job]
name = "Glaze room"
[buildup.top]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "mdf-19"
glue = "pva-d3"
[[piece]]
kind = "panels"
name = "Bench"
[[piece.panel]]
name = "top"
size = [1200, 600]
buildup = "top"
edging = { wood = "ash", width = 20, section = "under", order = "edging first" }
corners = { radius = 18 }
"""


def played(said):
    catalogue = load_catalogue()
    job = read_job(JOB + said, "job.toml", catalogue, KINDS)
    constructions = construct(job, catalogue, KINDS)
    order = order_of_work(constructions, parts_of(constructions), job=job)
    works = [step.work for step in order.steps]
    days = WorkDays(date(2027, 1, 11), 7.0)
    return works, breaches(order.panels, schedule(order.steps, days).placed, pieces=order.pieces)


@pytest.mark.parametrize(
    ("said", "first"),
    [
        ("", True),
        ('[order]\ncorners = "before facing"\n', True),
        ('[order]\ncorners = "after facing"\n', False),
    ],
)
def test_either_order_can_be_chosen_and_is_accepted(said, first):
    works, told = played(said)
    assert (works.index(Work.SHAPE_CORNERS) < works.index(Work.BOND)) is first
    assert works.index(Work.FLUSH_EDGING) < works.index(Work.SHAPE_CORNERS) < works.index(Work.FINISH)
    assert not told
