"""The card of gluing in wood that is let into a panel."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from evenface.construction import BuiltPanel
from evenface.construction.records import BuiltInsert
from evenface.materials import Glue
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.clamps import clamps_for, force_n
from evenface.workplan.glue_amounts import line_of
from evenface.workplan.glue_edges import wood_card
from evenface.workplan.glue_records import GlueCard, GlueLine
from evenface.workplan.pressing import UNCOUNTED, Means, wood_pressure
from evenface.workplan.records import Step

LEVEL_CLAMPS: Final = 2
"""On the waxed cauls that keep an insert level which goes right through: own estimate."""


def insert_card(
    step: Step, panel: BuiltPanel, means: Means = UNCOUNTED, glues: Sequence[Glue] = ()
) -> GlueCard:
    """The card of one insert. Raises ValueError for a name the panel has no insert of."""
    insert = next((one for one in panel.inserts if one.asked.name == step.feature), None)
    if insert is None:
        raise ValueError(f"{step.id}: expected the name of an insert, was given {step.feature!r}")
    glue = panel.edging_glue
    made = wood_card(
        step,
        panel,
        tuple(_lines(insert, glue)),
        (0.0, 0.0, 0.0),
        insert.wood,
        means,
        [(one, tuple(_lines(insert, one))) for one in glues],
    )
    pressure = wood_pressure(glue, insert.wood)
    bed = 0.0 if insert.through else insert.piece.area_mm2
    force = force_n(pressure.nominal, bed) if pressure and bed else None
    return replace(
        made,
        force_n=force,
        means=tuple(_means(insert, glue, force)),
        order=_order(insert),
        clamps=_clamps(insert, glue, force),
    )


def wall_mm2(insert: BuiltInsert) -> float:
    """Walls of the recess: its outline times the board it is let into. [mm²]"""
    deep = insert.ground_mm if insert.through else min(insert.height_mm, insert.asked.depth_mm or 0.0)
    return insert.piece.perimeter_mm * deep


def _clamps(insert: BuiltInsert, glue: Glue, force: float | None) -> int:
    if times.is_contact(glue):
        return 0
    if insert.through:
        return LEVEL_CLAMPS
    return clamps_for(force) if force is not None else 0


def _lines(insert: BuiltInsert, glue: Glue) -> Iterator[GlueLine]:
    yield line_of(said("walls of the recess, thinly"), wall_mm2(insert) / 1e6, glue)
    if not insert.through:
        yield line_of(said("bed of the recess"), insert.piece.area_mm2 / 1e6, glue)
    if glue.sides == 2:
        whole = (wall_mm2(insert) + (0.0 if insert.through else insert.piece.area_mm2)) / 1e6
        yield line_of(said("insert"), whole, glue)


def _means(insert: BuiltInsert, glue: Glue, force: float | None) -> Iterator[Said]:
    if insert.through:
        yield said("The walls press it: a sliding fit, waxed cauls above and below keep it level.")
        return
    if times.is_contact(glue) or force is None:
        yield said("Tap it down with a block, from the middle outwards.")
        return
    yield said(
        "{force} kN on its bed: {count:count} clamps over one padded caul; drill or groove a way for the glue to "
        "escape, or it lifts the insert.",
        force=round(force / 1000.0, 1),
        count=clamps_for(force),
    )


def _order(insert: BuiltInsert) -> Said:
    return said(
        "Walls first, then the bed; set it in at one end, press out the air; it stands proud by {proud:mm2}.",
        proud=insert.flush_mm,
    )
