"""A job begun from a form, a piece more in a job, a copy of a job: each a text that can be read at once."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from evenface.construction.kinds import KINDS
from evenface.errors import FileError, Unreadable, told_at_entry, told_of_value
from evenface.finding import Change
from evenface.interfaces.web.desk import View, name_in
from evenface.interfaces.web.keeping import keep_changes, keep_text
from evenface.interfaces.web.patterns import (
    BACK,
    CHOICE,
    LENGTH,
    PATTERNS,
    TEXT,
    WHOLE,
    Asked,
    Given,
    Pattern,
)
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.interfaces.web.written import table_text
from evenface.materials import Catalogue, load_catalogue
from evenface.store import KeptJob
from evenface.units import length_figure, number_text, read_length
from evenface.words import ENGLISH, Manner, Own, said, say

SAME: Final = "the same"
NOTHING: Final = "nothing"
EIGHTH_MM: Final = 25.4 / 8
PROBE: Final = KeptJob(0, "", 0, "", None, "", False, False)
_WHERE: Final = ("place", "room")


@dataclass(slots=True)
class Begun:
    """What became of a form: the job, or the reason of each field (under "" what concerns none)."""

    job: KeptJob | None = None
    reasons: dict[str, str] = field(default_factory=dict)


def offered() -> tuple[Pattern, ...]:
    """The sorts of piece whose kind is there."""
    return tuple(one for one in PATTERNS.values() if one.kind in KINDS)


def pattern_named(name: str) -> Pattern:
    """Raises NoSuchPage."""
    found = PATTERNS.get(name)
    if found is None or found.kind not in KINDS:
        raise NoSuchPage(said("There is no sort of piece called {name}.", name=repr(name[:40])))
    return found


def fields_of(pattern: Pattern, catalogue: Catalogue, buildups: tuple[str, ...] = ()) -> tuple[Asked, ...]:
    """Name and figures of the piece, then its layers; with build-ups to choose from, those first."""
    facings, none = catalogue.names("facing"), (NOTHING,)
    carriers = catalogue.names("carrier")
    thick = {
        "box": "birch-ply-4",
        "top": "birch-ply-21",
        "table": "birch-ply-21",
        "door": "mdf-19",
        "drawer": "mdf-16",
        "cupboard": "mdf-19",
    }
    usual_carrier = thick.get(pattern.name, "birch-ply-18")
    known = (Asked("buildup", "Build-up", buildups[0], CHOICE, buildups),) if buildups else ()
    layers = [
        Asked(
            "face", "Facing", "linoleum-2" if pattern.name == "box" else "hpl-0.8", CHOICE, (*facings, *none)
        ),
        Asked("back", "Facing below or behind", SAME, CHOICE, (SAME, *none, *facings)),
        Asked("carrier", "Carrier", usual_carrier, CHOICE, carriers),
        Asked("glue", "Glue", "pva-d3", CHOICE, catalogue.names("glue")),
    ]
    if pattern.edging:
        layers += [
            Asked("edging", "Edging wood", "ash", CHOICE, (*catalogue.names("wood"), *none)),
            Asked(
                "edging_width",
                "Edging width",
                "4" if pattern.name in ("door", "cupboard", "drawer") else "10",
            ),
        ]
    title = Asked("name", "Name", pattern.title.removeprefix("A ").capitalize(), TEXT)
    return (title, *pattern.fields, *known, *([] if buildups else layers))


def titles_of(catalogue: Catalogue) -> dict[str, str]:
    """What a maker calls each material, by its name in the catalogue."""
    found = {name: catalogue.facing(name).title for name in catalogue.names("facing")}
    found |= {name: catalogue.carrier(name).title for name in catalogue.names("carrier")}
    found |= {name: catalogue.glue(name).title for name in catalogue.names("glue")}
    found |= {name: catalogue.finish(name).title for name in catalogue.names("finish")}
    return found | {name: catalogue.wood(name).title for name in catalogue.names("wood")}


def begin_job(site: Site, form: Mapping[str, str], manner: Manner) -> Begun:
    """A new job with one piece. form : what, and the fields of `fields_of`, job, place, room."""
    pattern = pattern_named(form.get("what", ""))
    given, reasons = read_fields(fields_of(pattern, load_catalogue(None)), form, manner)
    if reasons:
        return Begun(reasons=reasons)
    job = {"name": " ".join(form.get("job", "").split())[:120] or given["name"]}
    job |= {key: form[key] for key in _WHERE if form.get(key)}
    text = "format = 1\n\n" + table_text("job", job, many=False)
    text += "\n" + buildup_text(_free(pattern.name, ()), given, pattern)
    text += "\n" + pattern.write(_named_in(given, pattern, manner), pattern.name)
    return _made(site, text, manner)


def _named_in(given: Given, pattern: Pattern, manner: Manner) -> Given:
    """The figures, with a name for a loose part in the maker's language."""
    return {**given, "part": manner.translate(pattern.name)}


def _made(site: Site, text: str, manner: Manner) -> Begun:
    try:
        site.desk.look(PROBE, text, flat=False)
    except FileError as error:
        return Begun(reasons={"": " ".join(told_at_entry(one, manner) for one in error.complaints)})
    return Begun(site.store.add(name_in(text), text))


def add_piece(site: Site, job: KeptJob, version: int, form: Mapping[str, str], manner: Manner) -> Begun:
    """A piece more at the end of the job, of one of its build-ups. Raises Stale."""
    view = site.desk.look(job, flat=False)
    pattern = pattern_named(form.get("what", ""))
    known = tuple(view.sketch.job.buildups)
    given, reasons = read_fields(fields_of(pattern, view.opened.catalogue, known), form, manner)
    if given.get("name") in {one.name for one in view.sketch.job.pieces}:
        reasons["name"] = manner.translate("Expected a name no other piece of the job has.")
    if reasons:
        return Begun(reasons=reasons)
    text = job.text.rstrip() + "\n"
    if pattern.thin and BACK not in known:
        text += "\n" + _back_text(given)
    text += "\n" + pattern.write(_named_in(given, pattern, manner), given["buildup"])
    try:
        return Begun(keep_text(site, job, version, text))
    except FileError as error:
        return Begun(reasons={"": " ".join(told_at_entry(one, manner) for one in error.complaints)})


def remove_piece(site: Site, job: KeptJob, version: int, number: int) -> KeptJob:
    """The job without that piece; undo brings it back. Raises NoSuchPage, Stale, FileError for the last one."""
    if not 0 <= number < len(written_pieces(site.desk.look(job, flat=False))):
        raise NoSuchPage("That piece is not there any more.")
    return keep_changes(site, job, version, [Change(f"piece[{number}]", "", "")])


def remove_part(site: Site, job: KeptJob, version: int, origin: str) -> KeptJob:
    """The job without a panel that is written by itself. Raises NoSuchPage, Stale, FileError."""
    known = {panel.origin for panel in site.desk.look(job, flat=False).panels}
    if origin not in known or not re.fullmatch(r"piece\[\d+\]\.panel\[\d+\]", origin):
        raise NoSuchPage("That part does not stand in the job by itself.")
    return keep_changes(site, job, version, [Change(origin, "", "")])


def copy_part(site: Site, job: KeptJob, version: int, origin: str) -> KeptJob:
    """A panel more, like that one, under a name of its own. Raises NoSuchPage, Stale, FileError."""
    view = site.desk.look(job, flat=False)
    like = next((panel for panel in view.panels if panel.origin == origin), None)
    found = re.fullmatch(r"(piece\[(\d+)\]\.panel)\[\d+\]", origin)
    if like is None or found is None:
        raise NoSuchPage("That part does not stand in the job by itself.")
    beside = written_pieces(view)[int(found[2])]["panel"]
    name = _free(like.name, tuple(str(one.get("name", "")) for one in beside))
    at = f"{found[1]}[{len(beside)}]"
    return keep_changes(
        site, job, version, [Change(f"{at}.name", "", name), Change(f"{at}.like", "", like.name)]
    )


def copy_job(site: Site, job: KeptJob, manner: Manner = ENGLISH) -> KeptJob:
    """The same text as a job of its own, that belongs to no file."""
    name = say(said("{name} (copy)", name=Own(job.name)), manner)[:120]
    view = site.desk.look(job, flat=False)
    written = view.source.data.get("job")
    named = isinstance(written, Mapping) and "name" in written
    text = site.desk.change(job, [Change("job.name", "", name)], flat=False).text if named else job.text
    return site.store.add(name if named else name_in(text), text)


def written_pieces(view: View) -> list[Any]:
    """The pieces as the file has them."""
    return list(view.source.data.get("piece", []))


def buildup_text(name: str, given: Given, pattern: Pattern) -> str:
    """`[buildup.NAME]` of the layers that were chosen."""
    layers: dict[str, Any] = {}
    if given["face"] != NOTHING:
        layers["face"] = given["face"]
    back = given["face"] if given["back"] == SAME else given["back"]
    if back != NOTHING:
        layers["back"] = back
    layers |= {"carrier": given["carrier"], "glue": given["glue"]}
    if given.get("edging", NOTHING) != NOTHING:
        layers["edging"] = {"wood": given["edging"], "width": given["edging_width"]}
    text = table_text(f"buildup.{name}", layers, many=False)
    return text + "\n" + _back_text(given) if pattern.thin else text


def _back_text(given: Given) -> str:
    glue = given.get("glue", "pva-d3")
    return table_text(f"buildup.{BACK}", {"carrier": "birch-ply-6.5", "glue": glue}, many=False)


def read_fields(
    fields: tuple[Asked, ...], form: Mapping[str, str], manner: Manner
) -> tuple[dict[str, Any], dict[str, str]]:
    """What was typed as values, and by key the reason where it cannot be one."""
    given: dict[str, Any] = {}
    reasons: dict[str, str] = {}
    for one in fields:
        try:
            given[one.key] = _value(one, form.get(one.key, usual_text(one, manner)).strip(), manner)
        except ValueError as problem:
            reasons[one.key] = told_of_value(problem, manner)
    return given, reasons


def usual_text(one: Asked, manner: Manner) -> str:
    """What stands in a field at first; a length in inches as a maker with a tape would have it, to an eighth."""
    if one.kind == TEXT:
        return manner.translate(one.usual)
    if one.kind != LENGTH or manner.system != "inch" or not float(one.usual):
        return one.usual
    return length_figure(max(round(float(one.usual) / EIGHTH_MM), 1) * EIGHTH_MM, "inch")


def _value(one: Asked, typed: str, manner: Manner) -> Any:
    if one.kind == CHOICE:
        if typed not in one.choices:
            raise Unreadable(said("one of {words} …", words=", ".join(one.choices[:6])), repr(typed[:40]))
        return typed
    if one.kind == WHOLE:
        if not (typed.isascii() and typed.isdigit() and len(typed) < 5):
            raise Unreadable("a whole number", repr(typed[:40]))
        return int(typed)
    if one.kind == LENGTH:
        length = read_length(typed or "0")
        if not length:
            return 0.0  # with any unit
        if all(sign.isdigit() or sign in "+-−.,/ " for sign in typed):
            return f"{typed} in" if manner.system == "inch" and length else float(number_text(length, 4))
        return typed
    if not typed or len(typed) > 80 or not typed.isprintable():
        raise ValueError("expected a name of 1 to 80 signs")
    return typed


def _free(name: str, taken: tuple[str, ...]) -> str:
    if name not in taken:
        return name
    return next(f"{name} {number}" for number in range(2, 10_000) if f"{name} {number}" not in taken)
