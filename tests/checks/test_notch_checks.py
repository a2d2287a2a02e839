"""Notches: each finding with its number reckoned by hand on a panel of 1000 × 500."""

from dataclasses import replace

import pytest
from jobs_by_hand import ALL_UNDER, built, edge, job, layers, panel

from evenface.checks import ask_all
from evenface.construction import Construction
from evenface.finding import Finding, Severity
from evenface.parts import part_of
from evenface.piece.records import Corner, CornerAt, Cutout, Insert, Notch, Panel, Side
from evenface.shape.build import circle, rounded_rectangle
from evenface.words import say

PIPE = Notch("pipe", Side.REAR, 300.0, 90.0, 60.0, 7.0, origin="pipe")


def asked(one: Panel) -> tuple[Finding, ...]:
    made = job(one, buildup=layers())
    panels, _ = built(made)
    return ask_all(made, [Construction(made.pieces[0], panels)], [part_of(panels[0], "1.1")])


def notched(notch: Notch = PIPE, **other: object) -> Panel:
    return panel(*ALL_UNDER, notches=(notch,), **other)


def the(code: str, one: Panel) -> Finding:
    (found,) = [finding for finding in asked(one) if finding.code == code]
    return found


def codes(one: Panel) -> set[str]:
    return {finding.code for finding in asked(one) if finding.code.startswith(("notch", "cutout", "outline"))}


def number(finding: Finding) -> float | None:
    assert finding.value is not None
    return finding.value.nominal


def test_a_notch_with_all_it_needs_is_told_nothing() -> None:
    assert codes(notched(replace(PIPE, returned=True))) == set()


def test_its_inner_corners_are_held_to_the_radius_of_the_laminate() -> None:
    assert the("cutout.inner_radius", notched(replace(PIPE, inner_radius_mm=2.0))).severity is Severity.STOP
    near = the("cutout.inner_radius", notched(replace(PIPE, inner_radius_mm=5.0)))
    assert near.severity is Severity.WEIGH
    assert near.remedies[0].changes[0].path == "pipe.radius"
    assert near.limit == 6.0
    # longer than 250 mm: the larger of what the sources say
    long = the("cutout.inner_radius", notched(replace(PIPE, length_mm=260.0, inner_radius_mm=6.0)))
    assert long.limit == 6.4
    assert "3 mm" in say(long.message)


def test_board_and_ends_show_in_a_notch_cut_through_the_edging() -> None:
    found = the("notch.bare", notched())
    assert found.remedies[0].changes[0].path == "pipe.returned"
    assert the("notch.wet_edge", notched(replace(PIPE, wet=True))).at == "pipe"
    # within the edging of 20 nothing shows, but a millimetre and a half springs off
    assert codes(notched(replace(PIPE, depth_mm=12.0))) == set()
    assert number(the("notch.thin_edging", notched(replace(PIPE, depth_mm=18.5)))) == pytest.approx(1.5)


def test_edging_that_cannot_return_says_why() -> None:
    shallow = replace(PIPE, depth_mm=25.0, returned=True)
    found = the("notch.cannot_return", notched(shallow))
    assert found.severity is Severity.STOP
    assert "27 mm" in say(found.message)  # 20 of edging and 7 of radius
    bare = panel(edge(Side.FRONT), notches=(replace(PIPE, returned=True),))
    assert "no edging" in say(the("notch.cannot_return", bare).message)


def test_tongues_beside_and_between_notches() -> None:
    beside = [f for f in asked(notched(replace(PIPE, along_mm=75.0))) if f.code == "notch.tongue"]
    assert [number(one) for one in beside] == [pytest.approx(30)]
    two = panel(*ALL_UNDER, notches=(PIPE, replace(PIPE, name="other", along_mm=420.0)))
    assert number(the("notch.tongue", two)) == pytest.approx(30)
    behind = panel(*ALL_UNDER, notches=(replace(PIPE, depth_mm=470.0),))
    assert number(the("notch.tongue", behind)) == pytest.approx(30)


def test_what_lies_near_a_notch_is_measured_to_it() -> None:
    hole = Cutout("hole", circle(40.0, (300.0, 400.0)), origin="hole")
    web = the("cutout.web", notched(cutouts=(hole,)))
    assert number(web) == pytest.approx(440 - 420)
    wood = Insert("wood", rounded_rectangle(80, 40, 10).moved(260, 396), "beech", depth_mm=8.0, origin="wood")
    assert number(the("insert.near", notched(inserts=(wood,)))) == pytest.approx(4)


def test_a_notch_that_runs_past_its_edge_is_no_outline() -> None:
    found = the("outline.impossible", notched(replace(PIPE, along_mm=30.0)))
    assert found.origin == "pipe"


def test_a_notched_corner_is_judged_alike() -> None:
    corner = Corner(CornerAt.FRONT_LEFT, "notch", notch_mm=(80.0, 55.0), inner_radius_mm=2.0, origin="c")
    one = panel(*ALL_UNDER, corners=(corner,))
    assert {"notch.bare", "cutout.inner_radius"} <= codes(one)
    assert the("cutout.inner_radius", one).remedies[0].changes[0].path == "c.inner_radius"
    whole = panel(*ALL_UNDER, corners=(replace(corner, inner_radius_mm=7.0, returned=True),))
    assert codes(whole) == set()
