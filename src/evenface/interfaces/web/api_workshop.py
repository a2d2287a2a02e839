"""The workshop as one job has it, for programs: the aims of its layouts, who works when."""

from typing import Annotated, Final, Literal, cast

from pydantic import Field

from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.aims import keep_aims
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.hours import (
    SHOP,
    add_person,
    hold_step,
    hours_alike,
    hours_by_day,
    remove_person,
)
from evenface.interfaces.web.hours_pages import steps_of
from evenface.interfaces.web.site import Site
from evenface.piece.cutting_forms import AimWord
from evenface.store import KeptJob, Stale


class Aims(s.AtVersion):
    """What makes a good layout, the first aim first; none at all takes them as usual."""

    aims: Annotated[list[AimWord], Field(max_length=6)]


class NewPerson(s.AtVersion):
    """Somebody who works on the job, at first the hours of the workshop."""

    name: Annotated[str, Field(min_length=1, max_length=200)]


class HoursLaid(s.AtVersion):
    """Hours written for each weekday, or alike from Monday to Friday. person : from 1; none for the workshop."""

    way: Literal["by day", "alike"]
    person: Annotated[int | None, Field(ge=1, lt=1000)] = None


class HeldStep(s.AtVersion):
    """A step that must begin on a day, with the time of the clock if told, such as 2027-02-03 09:30."""

    step: Annotated[str, Field(max_length=100, description="As listed.")]
    day: Annotated[str, Field(min_length=10, max_length=40)]


def person_more(site: Site, call: Call) -> s.JobAnswer:
    """A person more."""
    asked = cast(NewPerson, call.body)
    return s.job_answer(add_person(site, _at(site, call, asked), asked.version, asked.name))


def person_away(site: Site, call: Call) -> s.JobAnswer:
    """A person less."""
    asked = cast(s.AtVersion, call.body)
    return s.job_answer(
        remove_person(site, _at(site, call, asked), asked.version, _number(call, "person") - 1)
    )


def lay_hours(site: Site, call: Call) -> s.JobAnswer:
    """Hours by weekday, or alike."""
    asked = cast(HoursLaid, call.body)
    job, whose = _at(site, call, asked), SHOP if asked.person is None else str(asked.person - 1)
    lay = hours_by_day if asked.way == "by day" else hours_alike
    return s.job_answer(lay(site, job, asked.version, whose))


def hold(site: Site, call: Call) -> s.JobAnswer:
    """A step held to its day."""
    asked = cast(HeldStep, call.body)
    job = _at(site, call, asked)
    known = list(steps_of(site.desk.look(job, flat=False), call.manner))
    return s.job_answer(hold_step(site, job, asked.version, asked.step, asked.day, known))


def _number(call: Call, what: str) -> int:
    """Of a person or line in the address, from 1; 0 for none."""
    given = call.path[what]
    return int(given) if given.isascii() and given.isdigit() and len(given) < 6 else 0


def _at(site: Site, call: Call, asked: s.AtVersion) -> KeptJob:
    """The job, still as it was looked at. Raises Stale."""
    job = call.job(site)
    if asked.version != job.version:
        raise Stale(job)
    return job


def set_aims(site: Site, call: Call) -> s.JobAnswer:
    """The aims in that order."""
    asked = cast(Aims, call.body)
    return s.job_answer(keep_aims(site, call.job(site), asked.version, asked.aims))


_JOB: Final = "/jobs/{job}"
OPERATIONS: Final = (
    Operation("POST", f"{_JOB}/aims", "setAims", "Say what makes a good layout, the first aim first", set_aims,
              s.JobAnswer, Aims, refusals=(409,)),
    Operation("POST", f"{_JOB}/people", "addPerson", "Somebody more who works on the job", person_more, s.JobAnswer,
              NewPerson, refusals=(409,)),
    Operation("POST", f"{_JOB}/people/{{person}}/remove", "removePerson", "Take a person out, by the number from 1",
              person_away, s.JobAnswer, s.AtVersion, refusals=(409,)),
    Operation("POST", f"{_JOB}/hours", "layHours", "Hours for each weekday, or alike from Monday to Friday",
              lay_hours, s.JobAnswer, HoursLaid, refusals=(409,)),
    Operation("POST", f"{_JOB}/held", "holdStep", "Hold a step to the day on which it must begin", hold, s.JobAnswer,
              HeldStep, refusals=(409,)),
)  # fmt: skip
