"""The plan as a calendar file after RFC 5545, for any calendar program.

Times are floating: the clock on the workshop's wall, in no zone. An event is known by its name in the job, so a
file written anew replaces what was taken in before.
"""

from collections.abc import Iterator, Mapping
from datetime import date, datetime, time, timedelta
from hashlib import sha256
from typing import Final

from evenface.piece.calendar_records import DAY_MIN
from evenface.words import ENGLISH, Manner, Said, said, say
from evenface.workplan.calendar import Schedule
from evenface.workplan.schedule.hours import OpenHours
from evenface.workplan.schedule.problem import Placing, Task

_LONGEST_OCTETS: Final = 75


def calendar_ics(
    job: str,
    plan: Schedule,
    parts: Mapping[str, str],
    stamp: date,
    due: date | None = None,
    manner: Manner = ENGLISH,
) -> bytes:
    """Every go of the plan as an event, one for each stretch it is worked on; the day wanted as a whole day.

    parts : name of each part by its id. stamp : the day the plan was made (midnight UTC is written).
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//evenface//order of work//EN", "CALSCALE:GREGORIAN"]
    lines.append("X-WR-CALNAME:" + escaped(job))
    made = f"DTSTAMP:{stamp:%Y%m%d}T000000Z"
    if plan.plan is not None:
        tasks = {task.id: task for task in plan.plan.problem.tasks}
        for one in plan.plan.placings:
            lines += _events(job, plan, tasks[one.task], one, parts, made, manner)
    if due is not None:
        lines += ["BEGIN:VEVENT", f"UID:{_uid(job, 'due')}", made, f"DTSTART;VALUE=DATE:{due:%Y%m%d}"]
        wanted = say(said("Wanted: {job}", job=job), manner)
        lines += ["SUMMARY:" + escaped(wanted), "TRANSP:TRANSPARENT", "END:VEVENT"]
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in folded(line)).encode()


def _events(
    job: str,
    plan: Schedule,
    task: Task,
    one: Placing,
    parts: Mapping[str, str],
    made: str,
    manner: Manner,
) -> Iterator[str]:
    stretches = stretches_of(plan, one)
    for number, (start, end) in enumerate(stretches, start=1):
        yield "BEGIN:VEVENT"
        yield f"UID:{_uid(job, f'{task.id} {number}')}"
        yield made
        yield f"DTSTART:{_clock(plan, start)}"
        yield f"DTEND:{_clock(plan, end)}"
        going_on = f" ({number}/{len(stretches)})" if len(stretches) > 1 else ""
        yield "SUMMARY:" + escaped(_summary(plan, task, parts, manner) + going_on)
        yield "DESCRIPTION:" + escaped("\n".join(_description(plan, task, one, manner)))
        yield "END:VEVENT"


def stretches_of(plan: Schedule, one: Placing) -> list[tuple[int, int]]:
    """The open stretches in which a go is worked on, in minutes from midnight of the first day."""
    if plan.plan is None:
        return [(one.start, one.end)]
    problem = plan.plan.problem
    hours = OpenHours(problem.first, [problem.people[who] for who in one.people], problem.closed)
    return hours.stretches(one.start, one.end)


def _summary(plan: Schedule, task: Task, parts: Mapping[str, str], manner: Manner) -> str:
    steps = {one.step.id: one.step for one in plan.placed}
    first = steps[task.pieces[0][0]]
    own = [steps[step] for step, _ in task.pieces]
    names = [parts.get(step.part, step.piece or step.part) for step in own]
    title = say(first.title, manner)
    where = ", ".join(name for name in dict.fromkeys(names) if name)
    return f"{title[:1].upper()}{title[1:]}" + (f": {where}" if where else "")


def _description(plan: Schedule, task: Task, one: Placing, manner: Manner) -> Iterator[str]:
    steps = {placed.step.id: placed.step for placed in plan.placed}
    counted = ", ".join(f"{step} × {count}" for step, count in task.pieces)
    yield say(said("Step {steps}, {minutes:count} min", steps=counted, minutes=task.minutes), manner)
    people = plan.plan.problem.people if plan.plan is not None else ()
    names = [people[who].name for who in one.people if people[who].name]
    if names:
        yield ", ".join(names)
    checks = dict.fromkeys(steps[step].check for step, _ in task.pieces)
    yield from (say(check, manner) for check in checks if check != Said(""))


def _clock(plan: Schedule, minute: int) -> str:
    first = datetime.combine(plan.days.first, time())
    return f"{first + timedelta(days=minute // DAY_MIN, minutes=minute % DAY_MIN):%Y%m%dT%H%M%S}"


def _uid(job: str, what: str) -> str:
    return f"{sha256(f'{job}\n{what}'.encode()).hexdigest()[:32]}@evenface"


def escaped(text: str) -> str:
    """A text as a value: backslash, semicolon, comma and line end are escaped, other control signs left out."""
    text = text.replace("\r\n", "\n").replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    return "".join(sign for sign in text.replace("\n", "\\n") if sign.isprintable())


def folded(line: str) -> list[str]:
    """The line in parts of at most 75 octets, each but the first begun with a space; no sign is cut in two."""
    parts, current = [], ""
    for sign in line:
        if len((current + sign).encode()) > _LONGEST_OCTETS:
            parts.append(current)
            current = " "
        current += sign
    return [*parts, current]
