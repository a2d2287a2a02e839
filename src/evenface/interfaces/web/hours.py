"""What is done with the shop's days beside typing: a person more or less, hours by weekday, a step held to its day."""

from collections.abc import Callable
from typing import Any, Final

import tomlrt

from evenface.errors import Complaint, FileError, Place, one_of
from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import found
from evenface.interfaces.web.hours_entries import AT, USUAL_HOURS, people_of, written_week
from evenface.interfaces.web.keeping import keep_changes, keep_edited
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.piece.calendar_forms import read_week
from evenface.piece.calendar_records import USUAL_WEEK, Week
from evenface.store import KeptJob
from evenface.toml_places import key_path

SHOP: Final = "shop"
"""Whose hours: of the workshop; of a person, the number, from 0."""


def add_person(site: Site, job: KeptJob, version: int, name: str) -> KeptJob:
    """The job with a person more, who works the hours of the shop. Raises Stale, FileError."""
    known, name = people_of(site.desk.look(job, flat=False)), " ".join(name.split())
    if not name or name in {one.get("name") for one in known}:
        given = repr(name) if name else "nothing"
        raise FileError([Complaint(Place(key="person"), "a name that nobody else has here", given)])
    if known:
        return keep_changes(site, job, version, [Change(f"{AT}.person[{len(known)}].name", "", name)])

    def begin(calendar: Any) -> None:
        calendar["person"] = [tomlrt.Table.inline({"name": name})]

    return _with_calendar(site, job, version, begin)


def remove_person(site: Site, job: KeptJob, version: int, number: int) -> KeptJob:
    """The job without that person. Raises NoSuchPage, Stale, FileError."""
    known = people_of(site.desk.look(job, flat=False))
    if not 0 <= number < len(known):
        raise NoSuchPage("That person is not there any more.")
    path = f"{AT}.person" if len(known) == 1 else f"{AT}.person[{number}]"
    return keep_changes(site, job, version, [Change(path, "", "")])


def hours_by_day(site: Site, job: KeptJob, version: int, whose: str) -> KeptJob:
    """The hours of the shop or of a person written for each weekday, to be changed one by one."""
    view = site.desk.look(job, flat=False)
    week, number = _week(view, whose), _number(view, whose)

    def spread(calendar: Any) -> None:
        holder = calendar if number is None else calendar["person"][number]
        holder["hours"] = tomlrt.Table.inline(written_week(week))

    return _with_calendar(site, job, version, spread)


def hours_alike(site: Site, job: KeptJob, version: int, whose: str) -> KeptJob:
    """The hours of the first day that is worked on every day from Monday to Friday."""
    view = site.desk.look(job, flat=False)
    week, number = _week(view, whose), _number(view, whose)
    day = next(iter(written_week(week).values()), USUAL_HOURS)

    def gather(calendar: Any) -> None:
        holder = calendar if number is None else calendar["person"][number]
        holder["hours"] = day

    return _with_calendar(site, job, version, gather)


def hold_step(site: Site, job: KeptJob, version: int, step: str, day: str, known: list[str]) -> KeptJob:
    """The job with a step that must begin on that day. known : the steps there are. Raises Stale, FileError."""
    if step not in known:
        raise FileError([Complaint(Place(key="step"), one_of(tuple(known[:6])), repr(step[:40]))])
    if not day.strip():
        raise FileError([Complaint(Place(key="day"), 'a day such as "2027-02-03 09:30"', "nothing")])
    path = key_path((AT, "locked", step))
    return keep_changes(site, job, version, [Change(path, "", day.strip())])


def _week(view: View, whose: str) -> Week:
    number = _number(view, whose)
    if number is not None:
        return view.sketch.job.calendar.people[number].week
    written: Any = found(view.source.data, f"{AT}.hours")
    return USUAL_WEEK if written is None else read_week(written)


def _number(view: View, whose: str) -> int | None:
    """Of a person; None for the shop. Raises NoSuchPage."""
    if whose == SHOP:
        return None
    if whose.isascii() and whose.isdigit() and len(whose) < 4 and int(whose) < len(people_of(view)):
        return int(whose)
    raise NoSuchPage("That person is not there any more.")


def _with_calendar(site: Site, job: KeptJob, version: int, change: Callable[[Any], None]) -> KeptJob:
    """The job with its calendar changed, which is begun where there is none."""

    def edit(document: Any) -> None:
        if AT not in document:
            document[AT] = tomlrt.Table.section({})
        change(document[AT])

    return keep_edited(site, job, version, edit)
