"""`evenface steps`: the order of work on the calendar, checked, with bench cards when a folder is named."""

from pathlib import Path

from rich.console import Console
from rich.markup import escape

from evenface.checks.moisture_log import check_moisture_log
from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.documents.bench_cards import bench_cards_pdf
from evenface.documents.calendar_file import calendar_ics
from evenface.documents.day_plan import day_plan_table
from evenface.documents.moisture_table import moisture_table
from evenface.errors import Complaint, FileError, Place
from evenface.finding import Severity, gravest_first
from evenface.interfaces.days import DAYS_FILE, due_of, ending, late_findings, show_due
from evenface.interfaces.hand_over_papers import write_papers
from evenface.interfaces.screen import manner_of, show_findings, show_table, tell
from evenface.job.opening import open_with_all
from evenface.job.order_of_work import order_of_work
from evenface.job.shop_days import Planner, cards_of
from evenface.parts import boards_of, parts_of
from evenface.pricing.own_times import own_times_beside
from evenface.words import said
from evenface.workplan import breaches, joint_findings, order_findings
from evenface.workplan.care import care_sheet
from evenface.workplan.glue_gate import gate_findings
from evenface.workplan.moving import move_findings

CARDS_FILE = "bench-cards.pdf"


def plan_steps(
    path: Path,
    out: Path | None,
    start: str,
    hours: float | None,
    days_lain: float,
    per_page: int,
    materials: Path | None,
    units: str,
    due: str = "",
    seconds: float = 2.0,
) -> int:
    """Show the steps of the job and write its cards and days.

    The exit code is 1 when the piece or the order has a stop, or the day asked for with `due` does not hold.
    """
    console = Console(highlight=False)
    manner = manner_of(units)
    wanted = due_of(due, "")
    if per_page not in (1, 4):
        raise FileError([Complaint(Place(key="--per-page"), "1 or 4", str(per_page))])
    opened = open_with_all(path, materials)
    constructions = construct(opened.job, opened.catalogue, KINDS, opened.made)
    parts = parts_of(constructions)
    order = order_of_work(constructions, parts, days_lain, own_times_beside(path), opened.job)
    panels, steps = order.panels, order.steps
    cards = cards_of(opened, order)
    names = {
        part.id: f"{part.id} {manner.name(part.name)} ({part.piece})"
        for part in (*parts, *boards_of(constructions))
    }
    planner = Planner(opened, panels, steps, cards, start, hours)
    plan = planner.plan(seconds)
    show_table(console, day_plan_table(plan, names, manner))
    if opened.made.moisture:
        show_table(console, moisture_table(opened.made.moisture, manner))
    built = [panel for one in constructions for panel in one.panels]
    damp = [
        *check_moisture_log(opened.job, built, opened.made),
        *gate_findings((card.glue for card in cards), opened.made.moisture),
    ]
    stops = [f for one in constructions for f in one.findings if f.severity is Severity.STOP]
    told_of_glue = [finding for card in cards for finding in card.findings]
    told = move_findings(
        breaches(panels, plan.placed, days_lain, pieces=order.pieces), steps, opened.job.moves
    )
    late = late_findings(plan, planner.shop, manner)
    every = [
        *stops,
        *damp,
        *late,
        *told,
        *order_findings(panels),
        *joint_findings(order.pieces),
        *told_of_glue,
    ]
    show_findings(console, gravest_first(every), manner)
    console.print(escape(ending(plan, manner)))
    day = wanted or due_of("", opened.job.due)
    holds = day is None or show_due(console, planner, plan, day, wanted is not None, manner)
    if out is not None:
        care = {one.piece.name: care_sheet(one.panels, one.boards) for one in constructions}
        pages = bench_cards_pdf(
            opened.job.name, plan, names, cards, care, planner.first, 1 if per_page == 1 else 4, manner
        )
        out.mkdir(parents=True, exist_ok=True)
        (out / CARDS_FILE).write_bytes(pages)
        (out / DAYS_FILE).write_bytes(calendar_ics(opened.job.name, plan, names, planner.first, day, manner))
        papers = write_papers(out, opened, constructions, care, planner.first, manner)
        told_of = said(
            "Written to {file}: cards for {count:count} steps and the care sheets; {days} for a calendar program; "
            "{papers} for the client.",
            file=str(out / CARDS_FILE), count=len(plan.placed), days=DAYS_FILE, papers=", ".join(papers),
        )  # fmt: skip
        tell(console, told_of)
    stopped = any(one.severity is Severity.STOP for one in every)
    return int(bool(told or stopped or late) or (wanted is not None and not holds))
