"""The days of `evenface steps`: when it begins, with what hours, what is ticked off, and whether the day holds."""

from datetime import date
from pathlib import Path
from typing import Final

from rich.console import Console
from rich.markup import escape

from evenface.documents.calendar_file import calendar_ics
from evenface.documents.day_plan import deadline_table
from evenface.documents.moments import day_text, moment_text
from evenface.errors import Complaint, FileError, Place
from evenface.finding import Finding, Severity
from evenface.interfaces.screen import show_table
from evenface.job.opening import Opened
from evenface.job.shop_days import Planner, planner_of
from evenface.piece.calendar_records import ShopCalendar
from evenface.pricing.own_times import own_times_beside
from evenface.result import Result
from evenface.toml_places import key_path
from evenface.words import ENGLISH, Manner, Said, said, say
from evenface.workplan.calendar import Schedule
from evenface.workplan.schedule.deadline import deadline

DAYS_FILE: Final = "order-of-work.ics"


def write_days(opened: Opened, result: Result, out: Path, manner: Manner) -> Path:
    """The calendar file of a planned job, by the quick schedule, into the folder of its packet."""
    drafted = result.sketch
    planner = planner_of(opened, drafted, own_times_beside(Path(opened.job.file)))
    names = {part.id: f"{part.id} {manner.name(part.name)} ({part.piece})" for part in drafted.all_parts}
    due = due_of("", opened.job.due)
    file = out / DAYS_FILE
    file.write_bytes(calendar_ics(opened.job.name, planner.plan(), names, planner.first, due, manner))
    return file


def late_findings(plan: Schedule, shop: ShopCalendar, manner: Manner = ENGLISH) -> tuple[Finding, ...]:
    """Locked days that are not kept."""
    if plan.plan is None:
        return ()
    begins = {one.task: one.start for one in plan.plan.placings}
    late = {
        step: plan.days.clock(begins[task.id] / 60.0)
        for task in plan.plan.problem.tasks
        if task.id in plan.plan.late_locks
        for step, _ in task.pieces
    }
    return tuple(
        Finding(
            code="steps.locked_day",
            severity=Severity.STOP,
            origin=one.origin or key_path(("calendar", "locked")),
            at=one.step,
            message=said(
                "Step {step} is locked on {day}, but cannot begin before {begin}.",
                step=one.step,
                day=day_text(one.begin, manner),
                begin=moment_text(late[one.step], manner),
            ),
            why=said("What goes before it is not done, or has not had its wait, by then."),
            source="the plan",
        )
        for one in shop.locked
        if one.step in late
    )


def due_of(asked: str, job_due: str) -> date | None:
    """The day wanted: as asked, else the job's. Raises FileError for no date."""
    text = asked or job_due
    if not text:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise FileError([Complaint(Place(key="--due"), "a date such as 2026-12-18", asked)]) from None


def show_due(
    console: Console, planner: Planner, plan: Schedule, due: date, full: bool, manner: Manner
) -> bool:
    """Say whether the day wanted holds; with `full` also what would bring it in. True when it holds."""
    found = deadline(plan, planner.shop, due, planner.plan_for if full else lambda _: plan)
    if found.holds:
        told = said(
            "Wanted by {due}: holds, with {days:days} and {hours:count} working hours to spare.",
            due=day_text(due, manner),
            days=found.days_spare,
            hours=found.hours_spare,
        )
    else:
        told = said(
            "Wanted by {due}: does not hold, {days:days} late. {proof}",
            due=day_text(due, manner),
            days=-found.days_spare,
            proof=said("No plan of this shop holds it.")
            if found.impossible
            else said("A better plan may exist, but none was found."),
        )
    if full:
        show_table(console, deadline_table(found, manner))
    console.print(escape(say(told, manner)))
    return found.holds


def ending(plan: Schedule, manner: Manner) -> str:
    """When it is done, and how near that is to the earliest possible."""
    hours = sum(one.step.hand_minutes.total * one.step.people for one in plan.placed) / 60.0
    done = said(
        "{count:count} steps, {hours} hours of hands, done {finish}; ",
        count=len(plan.placed),
        hours=f"{hours:.1f}",
        finish=moment_text(plan.finish, manner),
    )
    if plan.proved:
        rest = said("no shorter plan exists ({by:word} decide).", by=plan.bound_by)
    else:
        rest = said(
            "no plan is done before {bound} ({by:word} decide); {gap} at most could still be won.",
            bound=moment_text(plan.bound, manner),
            by=plan.bound_by,
            gap=_gap(plan.end_h - plan.bound_h),
        )
    return say(done, manner) + say(rest, manner)


def _gap(hours: float) -> Said:
    """Hours by the clock, days from a day on."""
    return said("{days:days}", days=hours / 24.0) if hours >= 36.0 else said("{hours:count} h", hours=hours)
