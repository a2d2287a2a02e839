"""The plan by days, as a table: what is done when, on which part, by whom, and when what waits for it goes on."""

from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Final

from evenface.documents.moments import day_text, moment_text, weekday_text
from evenface.documents.tables import Table, table
from evenface.units import number_text
from evenface.words import ENGLISH, Manner, said, say
from evenface.workplan.calendar import Schedule
from evenface.workplan.records import Step
from evenface.workplan.schedule.deadline import Deadline
from evenface.workplan.schedule.problem import Placing, Task

_LEAST_WAIT_H: Final = 0.1


def day_plan_table(plan: Schedule, parts: Mapping[str, str], manner: Manner = ENGLISH) -> Table:
    """A row for each go, in the order they are begun; a day is named in its first row only."""
    several = plan.plan is not None and len(plan.plan.problem.people) > 1
    who = ("who",) if several else ()
    headings = ("day", "from", "to", "step", "work", "part", *who, ">min", "goes on from")
    rows = list(_rows(plan, parts, several, manner))
    return table("Order of work", headings, rows, _note(plan, manner), manner)


def _rows(
    plan: Schedule, parts: Mapping[str, str], several: bool, manner: Manner
) -> Iterator[tuple[str, ...]]:
    if plan.plan is None:
        return
    steps = {one.step.id: one.step for one in plan.placed}
    tasks = {task.id: task for task in plan.plan.problem.tasks}
    people = plan.plan.problem.people
    waits, last = _waits(plan), ""
    for one in plan.plan.placings:
        task = tasks[one.task]
        start, end = plan.days.clock(one.start / 60.0), plan.days.clock(one.end / 60.0)
        day = day_text(start, manner)
        own = [steps[step] for step, _ in task.pieces]
        who = (", ".join(people[number].name for number in one.people),) if several else ()
        yield (
            day if day != last else "",
            f"{start:%H:%M}",
            f"{end:%H:%M}" if end.date() == start.date() else f"{weekday_text(end, manner)} {end:%H:%M}",
            ", ".join(step.id for step in own),
            say(own[0].title, manner) + _share(task, own, manner),
            ", ".join(dict.fromkeys(_name(step, parts) for step in own)),
            *who,
            number_text(task.minutes, 0),
            _until(plan, one, own, waits, manner),
        )
        last = day


def _share(task: Task, own: list[Step], manner: Manner) -> str:
    """How many of how many pieces, where it is not all."""
    if all(count == step.hand_minutes.pieces for (_, count), step in zip(task.pieces, own, strict=True)):
        return ""
    told = ", ".join(
        say(said("{count:count} of {all:count}", count=count, all=step.hand_minutes.pieces), manner)
        for (_, count), step in zip(task.pieces, own, strict=True)
    )
    return f" ({told})"


def _name(step: Step, parts: Mapping[str, str]) -> str:
    if step.part:
        return parts.get(step.part, step.part)
    return step.piece or ", ".join(step.parts[:3]) + (" …" if len(step.parts) > 3 else "")


def _waits(plan: Schedule) -> Mapping[str, float]:
    """Of each step the shortest wait anything after it has to keep, in hours; steps nothing waits for left out."""
    found: dict[str, float] = {}
    for one in plan.placed:
        for before in one.step.after:
            if before.wait_h > _LEAST_WAIT_H:
                found[before.id] = min(before.wait_h, found.get(before.id, before.wait_h))
    return found


def _until(plan: Schedule, one: Placing, own: list[Step], waits: Mapping[str, float], manner: Manner) -> str:
    """When the first of what has to wait for it may begin; empty where nothing has to."""
    hours = [waits[step.id] for step in own if step.id in waits]
    return _short(plan.days.clock(one.end / 60.0 + max(hours)), manner) if hours else ""


def _short(moment: datetime, manner: Manner) -> str:
    return f"{weekday_text(moment, manner)} {moment:%d.%m. %H:%M}"


def _note(plan: Schedule, manner: Manner) -> str:
    sentences = [said("Minutes are own estimates until you put in your times.")]
    if plan.ticked:
        sentences.append(said("Ticked off and not shown: {count:count}.", count=len(plan.ticked)))
    if plan.lacking_hands:
        sentences.append(
            said(
                "Get help, two pairs of hands are wanted ({count:count}): {steps}.",
                count=len(plan.lacking_hands),
                steps=", ".join(plan.lacking_hands[:4]) + (" …" if len(plan.lacking_hands) > 4 else ""),
            )
        )
    capacity = plan.plan.problem.capacity if plan.plan is not None else {}
    if not capacity:
        sentences.append(
            said("Clamps, press and benches are not counted: [calendar] of the job file says how many.")
        )
    return " ".join(say(one, manner) for one in sentences)


def deadline_table(found: Deadline, manner: Manner = ENGLISH) -> Table:
    """What would bring the work in, each change by itself."""
    rows = [
        (
            say(one.change, manner),
            moment_text(one.finish, manner),
            number_text(one.days, 0),
            manner.translate("yes" if one.holds else "no"),
        )
        for one in found.reliefs
    ]
    headings = ("change", "done", ">days earlier", "holds")
    note = manner.translate("Each change by itself, by the quick schedule; two together may bring more.")
    return table("What would bring it in", headings, rows, note, manner)
