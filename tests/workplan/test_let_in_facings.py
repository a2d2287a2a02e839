"""A facing let in between edgings is cut to the opening they leave, not to a drawing."""

from workplan.pieces_by_file import example, steps_of

from evenface.words import say
from evenface.workplan import Work

MEASURE = "Measure the opening between the edgings first: cut to what it came out as, not as drawn."


def works_of(name: str, part: str) -> list[Work]:
    return [step.work for step in steps_of(name) if step.id.startswith(f"{part}-")]


def settings(name: str, part: str) -> list[str]:
    (step,) = [one for one in steps_of(name) if one.id.startswith(f"{part}-") and one.work is Work.CUT_FACING]
    return [say(line) for line in step.settings]


def test_linoleum_let_in_is_cut_when_all_its_edgings_are_on():
    works = works_of("desk-drawer", "1.1")
    last_edging = max(n for n, work in enumerate(works) if work is Work.GLUE_EDGING)
    assert works.index(Work.CUT_FACING) > last_edging
    assert works.index(Work.FIT_FACING) > works.index(Work.CUT_FACING)
    assert settings("desk-drawer", "1.1")[0] == MEASURE


def test_laminate_over_its_edging_is_cut_with_the_carrier():
    works = works_of("drawer-pedestal", "1.1")
    assert works.index(Work.CUT_FACING) < works.index(Work.GLUE_EDGING)
    assert MEASURE not in settings("drawer-pedestal", "1.1")


def test_the_last_edge_waits_for_no_other():
    from evenface.piece.records import Side
    from evenface.workplan.glue_edges import _order

    panels, _ = example("desk-drawer")
    front = next(one.panel for one in panels if one.panel.name == "drawer front")
    assert say(_order(front, Side.LEFT, 2, 4)) == (
        "Edge 3 of 4, left. The next goes on when this one is out of the clamps."
    )
    assert say(_order(front, Side.RIGHT, 3, 4)) == "Edge 4 of 4, right."
