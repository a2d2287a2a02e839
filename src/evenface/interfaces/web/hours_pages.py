"""The page beside the calendar: who works when, and with how many clamps, presses and benches."""

from collections.abc import Mapping
from typing import Final

from starlette.responses import Response

from evenface.errors import FileError
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import Outcome
from evenface.interfaces.web.entry_pages import entries_page, handlers, told_at
from evenface.interfaces.web.hours import (
    add_person,
    hold_step,
    hours_alike,
    hours_by_day,
    remove_person,
)
from evenface.interfaces.web.hours_entries import hours_entries, hours_groups
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.job.pricing import steps_of_sketch
from evenface.store import KeptJob
from evenface.words import Manner, say

ABOUT: Final = "hours"
FIELDS: Final = ("person", "day")
"""What is typed to add something; a reason that fits none of them is told at the first that was sent."""


def _page(
    site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None,
    told: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    view = site.desk.look(job, flat=False)
    steps = {} if asked.live else steps_of(view, asked.manner)
    groups = hours_groups(view, asked.manner, steps)
    return entries_page(
        site, asked, job, view, groups, status, out, "hours.html", ("deeds", "person", "held"),
        title="Who works when", about=ABOUT, steps=steps, told=told or {}, sent=asked.form,
        here=f"/jobs/{job.id}/hours",
    )  # fmt: skip


def steps_of(view: View, manner: Manner) -> dict[str, str]:
    """Steps of the work by their number, as the calendar names them; none while a step is moved that is not there."""
    try:
        return {step.id: say(step.title, manner) for step in steps_of_sketch(view.sketch)}
    except FileError:
        return {}


@changing
def change(site: Site, asked: Asked) -> Response:
    """Add or take out a person, lay hours out by weekday, hold a step; a slip comes back with its reason."""
    job, version = site.job(asked), asked.whole("version")
    do, _, which = asked.form.get("do", "").partition(" ")
    place = "did"
    try:
        if do == "add":
            add_person(site, job, version, asked.form.get("person", ""))
        elif do == "hold":
            known = list(steps_of(site.desk.look(job, flat=False), asked.manner))
            step, day = asked.form.get("step", ""), asked.form.get("day", "")
            hold_step(site, job, version, step, day, known)
        elif do == "out" and which.isascii() and which.isdigit() and len(which) < 4:
            remove_person(site, job, version, int(which))
        elif do == "by-day":
            hours_by_day(site, job, version, which)
        elif do == "alike":
            hours_alike(site, job, version, which)
        else:
            raise NoSuchPage("There is no such thing to do here.")
    except FileError as error:
        if do not in ("add", "hold"):
            raise
        told = told_at(error, FIELDS, "person" if do == "add" else "day", asked.manner)
        return _page(site, asked, job, 422, None, told)
    deeds = {"add": "added", "hold": "held", "out": "out"}
    return done(f"/jobs/{job.id}/hours", deeds.get(do, "laid"), place)


_SHOW, _EDIT = handlers(ABOUT, hours_entries, _page)
ROUTES: Final = (
    ("GET", "/jobs/{job}/hours", _SHOW),
    ("POST", "/jobs/{job}/hours", _EDIT),
    ("POST", "/jobs/{job}/people", change),
)
