"""Matched runs: one blank in order, cut apart last, with the pattern that is lost and the runs that do not go."""

from dataclasses import replace
from pathlib import Path

import pytest
from jobs_by_hand import edge, flush, job, layers, panel

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.finding import Severity
from evenface.layouts import Demand, solve_all, verify
from evenface.layouts.demand import demands_of
from evenface.layouts.runs import GAP
from evenface.materials import Carrier, Facing, load_catalogue
from evenface.parts import parts_of
from evenface.piece import read_job
from evenface.piece.records import Allowances, Edge, Panel, Role, Side

KERF_MM = 3.2
EXAMPLES = Path(__file__).parents[2] / "examples"
EDGES: tuple[Edge, ...] = tuple(edge(side, 6.0) for side in Side)


def front(
    name: str,
    length_mm: float = 720.0,
    width_mm: float = 400.0,
    overhang_mm: float = 2.5,
    run: str = "doors",
    count: int = 1,
    edges: tuple[Edge, ...] = EDGES,
) -> Panel:
    """A door of the run, edged in 6 mm under its facings, faced 2.5 mm over its edges."""
    made: Panel = panel(*edges, name=name, length_mm=length_mm, width_mm=width_mm, run=run)
    over = Allowances(overhang_mm=dict.fromkeys(Side, overhang_mm))
    return replace(made, allowances=over, count=count)


def face_demand(*fronts: Panel, count: int = 1, face: str = "hpl-0.8") -> Demand:
    """What is cut from the facing of these fronts."""
    placed = (replace(one, origin=f"piece[0].panel[{number}]") for number, one in enumerate(fronts))
    made = construct(job(*placed, count=count, buildup=layers(face)), load_catalogue(), KINDS)
    panels = made[0].panels
    materials: dict[str, Carrier | Facing] = {p.carrier.material.name: p.carrier.material for p in panels}
    for one in panels:
        for role in (Role.FACE, Role.BACK):
            sheet = one.face(role)
            if sheet is not None:
                materials[sheet.material.name] = sheet.material
    (found,) = [
        demand
        for demand in demands_of(job(*fronts), parts_of(made), materials, panels)
        if demand.material == face
    ]
    return found


def codes(demand: Demand) -> list[str]:
    return [finding.code for finding in demand.findings]


def test_the_faces_of_a_run_are_one_blank_in_order() -> None:
    demand = face_demand(
        front("left"), front("middle", width_mm=420.0), front("right"), front("lone", run="")
    )
    run, lone = sorted(demand.blanks, key=lambda blank: not blank.run)
    assert (lone.part, lone.inside) == ("1.4", ())
    assert (run.parted, run.length, run.count) == ("along", 72_500, 1)
    assert [(one.part, one.start, one.size) for one in run.inside] == [
        ("1.1", 0, 40_500),
        ("1.2", 40_820, 42_500),
        ("1.3", 83_640, 40_500),
    ]
    assert run.width == 83_640 + 40_500


def test_the_run_is_laid_out_cut_apart_in_order_and_any_other_order_is_seen() -> None:
    demand = face_demand(front("left"), front("middle", width_mm=420.0), front("right"))
    (layout,) = solve_all((demand,), budget_s=0.0)
    (sheet,) = layout.sheets
    (placed,) = sheet.placed
    assert layout.checked
    assert [one.part for one in placed.inside] == ["1.1", "1.2", "1.3"]
    assert [(one.part, one.y - placed.y, one.length, one.width) for one in placed.apart] == [
        ("1.1", 0, 72_500, 40_500),
        ("1.2", 40_820, 72_500, 42_500),
        ("1.3", 83_640, 72_500, 40_500),
    ]
    sideways = replace(sheet, placed=(replace(placed, parted="across"),))
    assert {fault.rule for fault in verify(demand, replace(layout, sheets=(sideways,)))} == {"apart"}
    assert "layout.run_pattern" in [finding.code for finding in layout.findings]
    wrong = replace(sheet, placed=(replace(placed, inside=placed.inside[::-1]),))
    assert {fault.rule for fault in verify(demand, replace(layout, sheets=(wrong,)))} == {"apart"}


def test_drawer_fronts_one_above_the_other_follow_the_pattern_along_its_length() -> None:
    (run,) = face_demand(front("top", 140.0, 600.0), front("mid", 180.0, 600.0)).blanks
    assert (run.parted, run.length, run.width) == ("across", 14_500 + 320 + 18_500, 60_500)


def test_several_alike_stand_beside_each_other_and_a_piece_made_twice_has_two_runs() -> None:
    (run,) = face_demand(front("left", count=2), front("right"), count=2).blanks
    assert [one.part for one in run.inside] == ["1.1", "1.1", "1.2"]
    assert run.count == 2


def test_pattern_lost_where_the_face_lies_over_the_edging() -> None:
    (finding,) = face_demand(front("left"), front("right")).findings
    assert finding.value is not None
    assert finding.severity is Severity.NOTE
    # (gap 3) − (kerf 3.2 + 2 × 2.5): the saw and the trimmer take more than the gap hides
    assert finding.value.nominal == pytest.approx(GAP.nominal - KERF_MM - 5.0)


def test_pattern_lost_where_the_edging_is_flush_and_seen() -> None:
    edges = tuple(flush(side, width_mm=6.0) for side in Side)
    demand = face_demand(front("left", edges=edges), front("right", edges=edges))
    (finding,) = [found for found in demand.findings if found.code == "layout.run_pattern"]
    (run,) = demand.blanks
    assert finding.value is not None
    # (gap 3 + 2 × 6 of edging) − (kerf 3.2 + 2 × overhang); what overhang is left, the blank itself says
    overhang = (run.inside[0].size / 100 - (400.0 - 12.0)) / 2
    assert finding.value.nominal == pytest.approx(GAP.nominal + 12.0 - KERF_MM - 2 * overhang, abs=0.02)


def test_more_than_three_millimetres_of_overhang_are_weighed() -> None:
    wide = face_demand(front("left"), front("right", overhang_mm=10.0))
    assert codes(wide) == ["layout.run_pattern", "layout.run_overhang"]
    assert [found.severity for found in wide.findings] == [Severity.NOTE, Severity.WEIGH]
    assert codes(face_demand(front("left", overhang_mm=3.0), front("right"))) == ["layout.run_pattern"]


def test_a_run_that_goes_on_no_sheet_stops_and_its_fronts_are_cut_one_by_one() -> None:
    demand = face_demand(*(front(str(number), width_mm=900.0) for number in range(5)))
    assert codes(demand) == ["layout.run_too_long"]
    assert demand.findings[0].severity is Severity.STOP
    assert len(demand.blanks) == 5
    (layout,) = solve_all((demand,), budget_s=0.0)
    assert layout.checked
    assert not layout.unplaced


def test_one_front_alone_is_no_run() -> None:
    demand = face_demand(front("only"))
    assert codes(demand) == []
    assert demand.blanks[0].inside == ()


def drawers_of(gap: str) -> Demand:
    """The facing of the drawer fronts of the shipped pedestal, with another gap between them."""
    text = (
        (EXAMPLES / "drawer-pedestal.toml")
        .read_text(encoding="utf-8")
        .replace("gap     = 2.5", f"gap = {gap}")
    )
    read = read_job(text, "pedestal.toml", load_catalogue(), KINDS)
    made = construct(read, load_catalogue(), KINDS)
    panels = [one for whole in made for one in whole.panels]
    materials: dict[str, Carrier | Facing] = {p.carrier.material.name: p.carrier.material for p in panels}
    materials |= {face.material.name: face.material for p in panels for face in p.faces}
    demands = demands_of(read, parts_of(made), materials, panels, made)
    (found,) = [one for one in demands if any(blank.run for blank in one.blanks)]
    return found


def test_the_pattern_is_reckoned_with_the_gap_of_the_piece() -> None:
    """A gap wider by 1.75 hides as much more of the pattern; linoleum is cut with the knife, nothing else changes."""
    lost: dict[str, float] = {}
    for gap in ("2.5", "4.25"):
        demand = drawers_of(gap)
        (told,) = [finding for finding in demand.findings if finding.code == "layout.run_pattern"]
        assert told.value is not None
        assert told.why.values["gap"] == pytest.approx(float(gap))
        assert told.value.nominal is not None
        lost[gap] = told.value.nominal
        (run,) = [blank for blank in demand.blanks if blank.run]
        assert len(run.inside) == 4
    assert lost["4.25"] - lost["2.5"] == pytest.approx(1.75)


def test_loose_fronts_are_reckoned_with_the_usual_gap() -> None:
    (told,) = [one for one in face_demand(front("left"), front("right")).findings if "pattern" in one.code]
    assert told.why.values["gap"] == GAP.nominal
