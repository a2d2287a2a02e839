"""The pages of flatness: a part through the year, its backers, widths of solid wood, a remedy in numbers."""

from typing import Any, Final

from starlette.responses import Response

from evenface.climate import place_names, room_kind_names
from evenface.construction import BuiltPanel
from evenface.construction.wood_through_year import RING_ANGLE
from evenface.documents.display import called
from evenface.documents.finding_tables import CAUTION
from evenface.documents.flat_tables import flat_notes, month_table
from evenface.documents.pictures import year_scene
from evenface.interfaces.web.air_words import place_words, room_words
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.flatness import (
    backers_of,
    backers_shown,
    effect_shown,
    effect_task,
    limits_shown,
    question_of,
    year_of,
)
from evenface.interfaces.web.pages import part_of_page, remedy_of
from evenface.interfaces.web.site import Asked, NoSuchPage, Site, drawn
from evenface.interfaces.web.starting import titles_of
from evenface.parts import Part
from evenface.words import said, say


def flat(site: Site, asked: Asked) -> Response:
    """A part through the year: chart with band and limit, months, what it rests on."""
    job = site.job(asked)
    view = site.desk.look(job)
    one, panel = part_of_page(view, asked)
    year = year_of(view, one.id)
    if year is None:
        raise NoSuchPage(said("Nothing is known of the year of part {part}.", part=one.id))
    parts = [
        (part.id, f"{part.id} {asked.manner.name(part.name)}")
        for part in view.sketch.parts
        if year_of(view, part.id) is not None
    ]
    title = say(said("Flat through the year: {part}", part=one.name), asked.manner)
    return site.page(
        "flat.html", asked, title=title, job=job, part=one, parts=parts,
        picture=drawn(year_scene(panel, year, asked.manner)), months=month_table(year, asked.manner),
        notes=flat_notes(year, asked.manner), caution=CAUTION,
    )  # fmt: skip


def backers(site: Site, asked: Asked) -> Response:
    """Every way to back a part, side by side."""
    job = site.job(asked)
    view = site.desk.look(job, flat=False)
    one, panel = part_of_page(view, asked)
    name = _name(panel)
    task = backers_of(site, job, view, name, again=asked.query.get("again") == "yes")
    state = task.state  # read once: the reckoning goes on while the page is made
    values: dict[str, Any] = {"job": job, "part": one, "task": task, "state": state}
    values["address"] = f"/jobs/{job.id}/backers/{one.id}"
    if state == "done":
        values["table"] = backers_shown(
            task.value,
            called((panel.piece, panel.name), asked.manner),
            view.sketch.job.currency,
            asked.manner,
        )
    page = "backers_live.html" if asked.live else "backers.html"
    return site.page(page, asked, title=say(said("Backers: {part}", part=one.name), asked.manner), **values)


@changing
def limits(site: Site, asked: Asked) -> Response:
    """The largest safe widths of a wood where the piece will stand."""
    job = site.job(asked)
    view = site.desk.look(job, flat=False)
    question = question_of(view, asked.query)
    catalogue = view.opened.catalogue
    choices = {
        "wood": ("Wood", catalogue.names("wood"), question.wood),
        "cut": ("Cut", tuple(RING_ANGLE), question.cut),
        "facing": ("Facing", catalogue.names("facing"), question.facing),
        "board": ("Board beside it", catalogue.names("carrier"), question.board),
        "glue": ("Glue", catalogue.names("glue"), question.glue),
    }
    places = dict(zip(place_names(), place_words(), strict=True))
    rooms = dict(zip(room_kind_names(), room_words(asked.manner), strict=True))
    return site.page(
        "limits.html", asked, title="How wide may wood be?", job=job, question=question, choices=choices,
        titles=titles_of(catalogue), place=places.get(question.place, question.place),
        room=rooms.get(question.room, question.room),
        table=limits_shown(view, question, asked.manner),
    )  # fmt: skip


def effect(site: Site, asked: Asked) -> Response:
    """A remedy in numbers, before and after."""
    job = site.job(asked)
    if asked.whole("version") != job.version:
        raise NoSuchPage("The job was changed meanwhile. Look at the findings again.")
    view = site.desk.look(job)
    finding, remedy = remedy_of(view, asked)
    trial = site.desk.attempt(job, remedy.changes)
    one = _part(view.sketch.parts, finding.piece, finding.part)
    task = effect_task(site, job, trial)
    state = task.state
    query = f"version={job.version}&finding={asked.whole('finding')}&remedy={asked.whole('remedy')}"
    values: dict[str, Any] = {"job": job, "task": task, "state": state}
    values |= {"address": f"/jobs/{job.id}/effect?{query}", "pictures": []}
    if state == "done":
        values["table"] = effect_shown(task.value, trial, one, view.sketch.job.currency, asked.manner)
        if finding.code.startswith(("flat.", "balance")):
            values["pictures"] = [_year(each, one, asked) for each in (trial.before, trial.after)]
    page = "effect_live.html" if asked.live else "effect.html"
    return site.page(page, asked, title="In numbers", **values)


def _year(view: Any, part: str, asked: Asked) -> Any:
    found, year = view.part(part), year_of(view, part)
    return drawn(year_scene(found[1], year, asked.manner)) if found is not None and year is not None else ""


def _part(parts: tuple[Part, ...], piece: str, name: str) -> str:
    return next((one.id for one in parts if (one.piece, one.name) == (piece, name)), "")


def _name(panel: BuiltPanel) -> str:
    return f"{panel.piece}, {panel.name}"


ROUTES: Final = (
    ("GET", "/jobs/{job}/flat/{part}", flat),
    ("GET", "/jobs/{job}/backers/{part}", backers),
    ("GET", "/jobs/{job}/limits", limits),
    ("GET", "/jobs/{job}/effect", effect),
)
