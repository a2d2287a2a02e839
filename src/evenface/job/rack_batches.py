"""Facings of several batches in one job: told, with where each batch lies, so that neighbours come from one."""

from collections.abc import Iterable, Sequence
from typing import Final

from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.job.from_rack import TakenPiece
from evenface.job.plan import sheet_materials
from evenface.layouts import Layout
from evenface.materials import Facing
from evenface.result import Sketch
from evenface.words import listed, said

BOUGHT: Final = "bought"
UNKNOWN: Final = "not told"


def batch_findings(
    taken: Iterable[TakenPiece], layouts: Sequence[Layout], drafted: Sketch
) -> tuple[Finding, ...]:
    """One finding for each facing that comes from more than one batch; what is bought counts as one of its own.

    Boards are not looked at: nobody sees them. Only plans that take something of the rack can mix.
    """
    records = sheet_materials(drafted)
    batches: dict[str, dict[str, int]] = {}
    for one in taken:
        if isinstance(records.get(one.item.material), Facing):
            counts = batches.setdefault(one.item.material, {})
            name = one.item.batch or UNKNOWN
            counts[name] = counts.get(name, 0) + max(1, len(one.stretches))
    found = []
    for layout in layouts:
        counts = batches.get(layout.material, {})
        more = len(layout.sheets) - sum(counts.values())
        if counts and more > 0:
            counts[BOUGHT] = more
        if len(counts) > 1:
            found.append(_mixed(layout.material, counts))
    return tuple(found)


def _mixed(material: str, counts: dict[str, int]) -> Finding:
    return Finding(
        code="layout.mixed_batches",
        severity=Severity.WEIGH,
        at=material,
        value=certain(len(counts)),
        limit=1,
        unit="batches",
        message=said(
            "{material} comes from several batches: {batches}.",
            material=material,
            batches=listed(
                said("{name:word} ({count:count})", name=name, count=count) for name, count in counts.items()
            ),
        ),
        why=said("Sheets of two batches differ in colour and move differently."),
        source="rack",
        weakest=Status.PRACTICE,
        remedies=(
            Remedy(
                "layout.one_batch_beside",
                said(
                    "Put what stands side by side in one set (same_batch, same_sheet), or plan without the odd sheet."
                ),
            ),
        ),
    )
