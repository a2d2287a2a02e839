"""The whole result: the sketch, laid out on stock and turned into a buying list."""

import time
from collections.abc import Callable, Mapping
from dataclasses import replace

from evenface import __version__
from evenface.finding import Finding, gravest_first
from evenface.job.buying import buying_rows
from evenface.job.opening import Opened
from evenface.job.remaking import remakings
from evenface.job.sketch import sketch
from evenface.layouts import Demand, Layout, Progress, solve_all
from evenface.layouts.demand import demands_of, kg_per_m2
from evenface.layouts.engine import Engine
from evenface.layouts.handling import heavy_turns
from evenface.layouts.solve import NONE_KEPT
from evenface.layouts.sticks import stick_demands
from evenface.materials import Carrier, Facing
from evenface.piece.records import Role
from evenface.result import Result, Sketch

LAYOUT_BUDGET_S = 3.0
SAID_BY_CHECKS = {"layout.too_large"}
"""Findings of the layouts that a check has already made, with the line of the job it belongs to."""


def plan(
    opened: Opened,
    budget_s: float = LAYOUT_BUDGET_S,
    seed: int = 0,
    progress: Callable[[Progress], None] | None = None,
    engine: Engine | None = None,
    kept: Mapping[str, Layout] = NONE_KEPT,
) -> Result:
    """Plan the job. `budget_s` is the solver's time for all materials together.

    kept : layouts made before, by material: what still serves is not planned anew.
    engine : the packing engine to ask, for a caller who may want to stop it; the caller closes it.
    """
    started = time.perf_counter()
    drafted = sketch(opened)
    layouts = lay_out(drafted, opened, budget_s, seed, progress, engine, kept)
    return result_of(opened, drafted, layouts, seed, started)


def result_of(
    opened: Opened, drafted: Sketch, layouts: tuple[Layout, ...], seed: int, started: float
) -> Result:
    """The whole result of a sketch that is laid out. started : on the clock of `time.perf_counter`."""
    return Result(
        version=__version__,
        hashes=opened.hashes,
        seed=seed,
        sketch=drafted,
        layouts=layouts,
        buying=buying_rows(drafted, layouts, opened.catalogue),
        findings=gravest_first(
            (*drafted.findings, *_of_layouts(layouts, drafted), *_at_the_saw(layouts, drafted, opened))
        ),
        seconds=time.perf_counter() - started,
    )


def lay_out(
    drafted: Sketch,
    opened: Opened,
    budget_s: float,
    seed: int,
    progress: Callable[[Progress], None] | None,
    engine: Engine | None = None,
    kept: Mapping[str, Layout] = NONE_KEPT,
) -> tuple[Layout, ...]:
    """One layout a sheet material, in the order of first use, then one for each section of wood."""
    demands = all_demands(drafted)
    return solve_all(demands, budget_s=budget_s, seed=seed, progress=progress, engine=engine, kept=kept)


def all_demands(drafted: Sketch) -> tuple[Demand, ...]:
    """What is to be laid out: sheet materials in the order of first use, then each section of wood."""
    return (
        *demands_of(
            drafted.job,
            drafted.all_parts,
            sheet_materials(drafted),
            [panel for construction in drafted.constructions for panel in construction.panels],
            drafted.constructions,
        ),
        *stick_demands(drafted.job, drafted.all_parts),
    )


def _at_the_saw(layouts: tuple[Layout, ...], drafted: Sketch, opened: Opened) -> list[Finding]:
    """What is heavy to turn, and where spoiled parts are made again."""
    materials, lift = sheet_materials(drafted), drafted.job.cutting.lift_kg
    found = [
        finding
        for layout in layouts
        if (material := materials.get(layout.material)) is not None
        for finding in heavy_turns(layout, kg_per_m2(material), lift)
    ]
    if opened.made.spoiled:
        for again in remakings(drafted, opened, all_demands(drafted), layouts):
            found += again.findings
    return found


def sheet_materials(drafted: Sketch) -> dict[str, Carrier | Facing]:
    """The record of every sheet material the job uses, by name."""
    found: dict[str, Carrier | Facing] = {}
    for construction in drafted.constructions:
        for panel in construction.panels:
            found.setdefault(panel.carrier.material.name, panel.carrier.material)
            for role in (Role.FACE, Role.BACK):
                face = panel.face(role)
                if face is not None:
                    found.setdefault(face.material.name, face.material)
        for board in construction.boards:
            if board.facing is not None:
                found.setdefault(board.facing.name, board.facing)
    return found


def _of_layouts(layouts: tuple[Layout, ...], drafted: Sketch) -> list[Finding]:
    """What the layouts found, with the names a maker knows instead of part numbers."""
    parts = {part.id: part for part in drafted.all_parts}
    return [
        replace(
            finding,
            piece=parts[finding.part].piece,
            part=parts[finding.part].name,
            origin=parts[finding.part].origin,
        )
        if finding.part in parts
        else finding
        for layout in layouts
        for finding in layout.findings
        if finding.code not in SAID_BY_CHECKS
    ]
