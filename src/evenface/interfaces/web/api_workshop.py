"""The workshop as one job has it, for programs: aims of layouts, who works when, what can be bought and paid."""

from typing import Annotated, Final, Literal, cast

from pydantic import Field

from evenface.finding import Change
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
from evenface.interfaces.web.job_stock import keep_damage, keep_line, remove_damage, remove_line
from evenface.interfaces.web.job_stock_entries import lines_of
from evenface.interfaces.web.price_settings import add
from evenface.interfaces.web.site import Site
from evenface.interfaces.web.tables_added import copy_table
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


Millimetres = Annotated[float, Field(gt=0, le=20_000)]
Spot = Annotated[float, Field(ge=-20_000, le=20_000)]


class NewLine(s.AtVersion):
    """What the layouts may be cut from: a sheet, board or rest by size_mm, a roll by width_mm alone."""

    material: Annotated[str, Field(min_length=1, max_length=100)]
    size_mm: Annotated[list[Millimetres], Field(min_length=2, max_length=2)] | None = None
    width_mm: Millimetres | None = None
    price: Annotated[str, Field(max_length=13, pattern=r"^\d{1,9}(\.\d{1,2})?$")] | None = None
    copies: Annotated[int, Field(ge=1, le=10_000)] | None = None
    form: Literal["sheet", "rolled_sheet", "roll", "offcut", "board", "stick"] | None = None


class NewDamage(s.AtVersion):
    """Damage in a sheet or board: where it begins from the left and the front, its length and width."""

    at_mm: Annotated[list[Spot], Field(min_length=2, max_length=2)]
    size_mm: Annotated[list[Millimetres], Field(min_length=2, max_length=2)]
    kind: Literal["knot", "split", "pith", "sapwood", "other"] = "knot"


class WhichDamage(s.AtVersion):
    """Damage of a line, by its number from 1."""

    damage: Annotated[int, Field(ge=1, le=10_000)]


class NewExtra(s.AtVersion):
    """Something more the price rests on. figure : its price or share, as in the file."""

    kind: Literal["subcontract", "fitting", "other", "offer.payment", "risk", "rate.fixed_costs"]
    name: Annotated[str, Field(min_length=1, max_length=200)]
    figure: Annotated[str, Field(max_length=20)] = ""


class WhichTable(s.AtVersion):
    """A table of a list of a piece or part, such as piece[0].bay[1]."""

    path: Annotated[str, Field(min_length=1, max_length=300)]


def table_more(site: Site, call: Call) -> s.JobAnswer:
    """A table like another."""
    asked = cast(WhichTable, call.body)
    return s.job_answer(copy_table(site, _at(site, call, asked), asked.version, asked.path))


def extra_more(site: Site, call: Call) -> s.JobAnswer:
    """Something more to be paid."""
    asked = cast(NewExtra, call.body)
    job = _at(site, call, asked)
    return s.job_answer(add(site, job, asked.version, asked.kind, asked.name, asked.figure))


def line_more(site: Site, call: Call) -> s.JobAnswer:
    """A line more."""
    asked = cast(NewLine, call.body)
    job = _at(site, call, asked)
    at = f"stock[{len(lines_of(site.desk.look(job, flat=False)))}]"
    entries: list[tuple[str, object]] = [("material", asked.material)]
    entries += [(f"size[{place}]", f"{one:g}") for place, one in enumerate(asked.size_mm or ())]
    more = {"width": asked.width_mm, "price": asked.price, "copies": asked.copies, "form": asked.form}
    entries += [(key, one) for key, one in more.items() if one is not None]
    changes = [
        Change(f"{at}.{key}", "", f"{one:g}" if isinstance(one, float) else str(one)) for key, one in entries
    ]
    return s.job_answer(keep_line(site, job, asked.version, changes))


def line_away(site: Site, call: Call) -> s.JobAnswer:
    """A line less."""
    asked = cast(s.AtVersion, call.body)
    job = _at(site, call, asked)
    return s.job_answer(remove_line(site, job, asked.version, _number(call, "line") - 1))


def damage_more(site: Site, call: Call) -> s.JobAnswer:
    """Damage more on a line."""
    asked = cast(NewDamage, call.body)
    job, table = _at(site, call, asked), {"at": asked.at_mm, "size": asked.size_mm, "kind": asked.kind}
    return s.job_answer(keep_damage(site, job, asked.version, _number(call, "line") - 1, table))


def damage_away(site: Site, call: Call) -> s.JobAnswer:
    """Damage less on a line."""
    asked = cast(WhichDamage, call.body)
    job, line = _at(site, call, asked), _number(call, "line") - 1
    return s.job_answer(remove_damage(site, job, asked.version, line, asked.damage - 1))


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
    Operation("POST", f"{_JOB}/stock", "addStockLine", "Something more the layouts may be cut from", line_more,
              s.JobAnswer, NewLine, refusals=(409,)),
    Operation("POST", f"{_JOB}/stock/{{line}}/remove", "removeStockLine", "Take a line of stock out", line_away,
              s.JobAnswer, s.AtVersion, refusals=(409,)),
    Operation("POST", f"{_JOB}/stock/{{line}}/damage", "addDamage", "Damage in a sheet or board of that line",
              damage_more, s.JobAnswer, NewDamage, refusals=(409,)),
    Operation("POST", f"{_JOB}/stock/{{line}}/damage/remove", "removeDamage", "Take damage of a line out",
              damage_away, s.JobAnswer, WhichDamage, refusals=(409,)),
    Operation("POST", f"{_JOB}/extras", "addExtra", "Something more the price of the job rests on", extra_more,
              s.JobAnswer, NewExtra, refusals=(409,)),
    Operation("POST", f"{_JOB}/tables", "copyTable", "A table more of a list of a piece, like another", table_more,
              s.JobAnswer, WhichTable, refusals=(409,)),
)  # fmt: skip
