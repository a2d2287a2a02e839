"""`evenface plan`: the whole result, written as a packet."""

import datetime
import time
from collections.abc import Sequence
from pathlib import Path

from rich.console import Console
from rich.markup import escape

from evenface.documents.display import titles_of
from evenface.documents.files import write_packet
from evenface.documents.layout_files import missing_writers
from evenface.documents.layout_tables import layout_summary
from evenface.documents.plan_file import kept_plans
from evenface.finding import Severity
from evenface.interfaces.days import write_days
from evenface.interfaces.screen import manner_of, show_findings, show_table, tell
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.layouts import Progress
from evenface.words import Said, said, say

SILENT_S = 1.0
"""A job that is planned sooner needs no word about how far it is."""


def plan_and_write(
    path: Path,
    out: Path,
    seconds: float,
    seed: int,
    materials: Path | None,
    units: str,
    from_rack: bool = False,
    replan: bool = False,
) -> int:
    """Plan the job, write its packet, say where; the exit code is 1 when a stop stands.

    from_rack : what lies in the rack stands beside what can be bought; what is taken is reserved for the job.
    replan : forget the plan that lies in the folder; else what still serves of it is kept.
    """
    console = Console(highlight=False)
    manner = manner_of(units)
    opened = open_with_all(path, materials)
    kept = {} if replan else kept_plans(out, from_rack)
    if from_rack:
        from evenface.interfaces.from_rack import plan_from_rack, taken_table

        result, taken, left_out = plan_from_rack(opened, seconds, seed, _Teller(console), kept=kept)
    else:
        result = plan(opened, budget_s=seconds, seed=seed, progress=_Teller(console), kept=kept)
    written = (
        *write_packet(result, out, datetime.date.today(), manner),
        write_days(opened, result, out, manner),
    )
    show_findings(console, result.findings, manner)
    show_table(console, layout_summary(result.layouts, titles_of(result), manner, result.sketch.all_parts))
    if again := [layout.material for layout in result.layouts if layout.kept]:
        console.print(escape(say(_kept(again), manner)), style="dim")
    if from_rack:
        show_table(console, taken_table(taken, left_out, manner))
    told = said(
        "Written to {folder}: {count:count} files, packet.pdf first.", folder=str(out), count=len(written)
    )
    tell(console, told)
    for missing in missing_writers(tuple(one.name for one in written), bool(result.layouts)):
        tell(console, said(missing), style="dim")
    return int(any(finding.severity is Severity.STOP for finding in result.findings))


def _kept(materials: Sequence[str]) -> Said:
    return said(
        "Kept from the plan that lay in the folder: {materials}. With --replan they are planned anew.",
        materials=", ".join(materials),
    )


class _Teller:
    """Says how far the layouts are, at most once a second, once they take longer than one."""

    def __init__(self, console: Console) -> None:
        self.console = console
        self.last = time.monotonic()

    def __call__(self, progress: Progress) -> None:
        now = time.monotonic()
        if now - self.last >= SILENT_S:
            self.last = now
            tell(self.console, _so_far(progress), style="dim")


def _so_far(progress: Progress) -> Said:
    return said(
        "Layout {number:count} of {total:count}, {material}: {sheets:count} so far after {seconds:count} s; "
        "at most {gap:percent} of it could still be saved.",
        number=progress.number,
        total=progress.total,
        material=progress.material,
        sheets=progress.sheets,
        seconds=progress.seconds,
        gap=progress.gap,
    )
