"""A plan from the rack for command line and web: planned, then reserved, all of it or nothing."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from evenface.documents.display import DASH, sentence
from evenface.documents.rack_tables import size_text
from evenface.documents.tables import Table, table
from evenface.finding import gravest_first
from evenface.job.from_rack import TakenPiece, taken_by, with_rack
from evenface.job.opening import Opened
from evenface.job.plan import LAYOUT_BUDGET_S, plan
from evenface.job.rack_batches import batch_findings
from evenface.job.rack_thickness import thickness_findings
from evenface.layouts import Layout, Progress
from evenface.layouts.solve import NONE_KEPT
from evenface.result import Result
from evenface.store.rack import Rack
from evenface.store.rack_codes import code_text
from evenface.words import ENGLISH, Manner, Said, said

type FromRack = tuple[Result, tuple[TakenPiece, ...], tuple[tuple[str, Said], ...]]
"""The result, what it takes of the rack, and what was left out, by code, with the reason."""


def plan_from_rack(
    opened: Opened,
    seconds: float = LAYOUT_BUDGET_S,
    seed: int = 0,
    progress: Callable[[Progress], None] | None = None,
    reserve: bool = True,
    rack: Rack | None = None,
    kept: Mapping[str, Layout] = NONE_KEPT,
) -> FromRack:
    """Plan the job from what is free or reserved for it, and reserve what the plan takes.

    What was reserved for the job and is not taken any more is free again. reserve=False only looks.
    kept : as `plan` takes it.
    rack : one that is open already; the caller closes it. Raises Taken when somebody was quicker: plan anew.
    """
    if rack is None:
        with Rack() as mine:
            return plan_from_rack(opened, seconds, seed, progress, reserve, mine, kept)
    name = opened.job.name
    offered = with_rack(opened, rack.open_to(name))
    result = plan(offered.opened, budget_s=seconds, seed=seed, progress=progress, kept=kept)
    taken = taken_by(offered, result.layouts)
    more = (
        *thickness_findings(taken, result.sketch.constructions),
        *batch_findings(taken, result.layouts, result.sketch),
    )
    if more:
        result = replace(result, findings=gravest_first((*result.findings, *more)))
    if reserve and (taken or rack.items(job=name)):
        rack.reserve(name, [(one.item, one.rests) for one in taken], instead=True)
    return result, taken, offered.left_out


def taken_table(
    taken: Sequence[TakenPiece], left_out: Sequence[tuple[str, Said]], manner: Manner = ENGLISH
) -> Table:
    """What to fetch from the rack, and below it what could not be planned from."""
    rows = [
        (
            code_text(one.item.code),
            one.item.material,
            size_text(one.item, manner),
            one.item.place or DASH,
            str(len(one.rests)),
        )
        for one in taken
    ]
    unit = manner.length_unit
    notes = [f"{code_text(code)}: {sentence(reason, manner)}" for code, reason in left_out]
    notes += [
        sentence(
            said(
                "{code}: planned from its sound length, {length:mm} from {begin:mm} on; cut the damage out first.",
                code=code_text(one.item.code),
                length=length / 100,
                begin=begin / 100,
            ),
            manner,
        )
        for one in taken
        if one.item.form == "roll" and one.item.defects
        for begin, length in one.stretches
    ]
    if not taken:
        notes.insert(0, manner.translate("Nothing of the rack is of use for it."))
    headings = ("code", "material", f">size [{unit}]", "place", ">rests kept")
    return table("Reserved in the rack", headings, rows, " ".join(notes), manner)
