"""The page of a whole piece: how it stands, its sizes, joints, gaps and fittings, and everything written of it."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from markupsafe import Markup
from starlette.responses import Response

from evenface.documents.pictures import part_ids
from evenface.documents.size_tables import parts_table
from evenface.documents.tables import Table
from evenface.documents.whole_pages import whole_pages
from evenface.drawings import whole_scenes
from evenface.drawings.sight import Look
from evenface.drawings.whole import VIEWS_PAPER_MM, view_of
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import Outcome, answered, beside_entries
from evenface.interfaces.web.entries import Entry
from evenface.interfaces.web.pages import Shown, alike, shown
from evenface.interfaces.web.piece_entries import Group, form_of, groups_of
from evenface.interfaces.web.site import Asked, NoSuchPage, Site, drawn
from evenface.store import KeptJob
from evenface.words import Manner, said

_SCALES: Final = (0.5, 0.2, 0.1, 0.05, 0.02)
_ROOM_MM: Final = 30.0
"""Of a view's paper, for the sizes beside it."""


@dataclass(frozen=True, slots=True)
class PartLine:
    """A part in the list of its piece. page : it has one. cells : heading and text."""

    id: str
    name: str
    page: bool
    cells: tuple[tuple[str, str], ...]


def piece(site: Site, asked: Asked) -> Response:
    """One piece; asked by our script, what follows an edit a moment later."""
    job = site.job(asked)
    if asked.live:
        view = site.desk.look(job, flat=False)
        values = _drawings(site, view, _number(view, asked), asked.manner)
        return site.page("piece_later.html", asked, job=job, **values)
    return _page(site, asked, job)


def edit(site: Site, asked: Asked) -> Response:
    """What was typed into its entries: kept where it can be, else given back with the reason."""
    job = site.job(asked)
    number = _number(site.desk.look(job, flat=False), asked)

    def find(view: View) -> tuple[str, Sequence[Entry]] | None:
        if number >= len(view.sketch.constructions):
            return None
        groups = _groups(site, view, number, asked.manner)
        return _about(view, number), [entry for group in groups for entry in group.entries]

    return answered(site, asked, job, find, _page)


def _page(site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None) -> Response:
    view = site.desk.look(job, flat=False)
    number = _number(view, asked)
    groups = _groups(site, view, number, asked.manner)
    entries = [entry for group in groups for entry in group.entries]
    name = view.sketch.constructions[number].piece.name
    values: dict[str, Any] = {
        "job": job, "groups": groups, "entries": entries, "about": _about(view, number), "called": name,
        "number": number + 1,
        "front": _front(view, number, asked.manner), "parts": _parts(view, number, asked.manner),
        "findings": _findings(view, number, job, asked.manner), "flat": view.flat,
    }  # fmt: skip
    values |= beside_entries(site, asked, job, entries, out) | form_of(
        view, groups, asked, out.told if out else None
    )
    if asked.live:
        return site.page("piece_edited.html", asked, status, **values)
    values |= _drawings(site, view, number, asked.manner, at_once=asked.query.get("all") == "yes")
    return site.page("piece_page.html", asked, status, title=name, **values)


def _groups(site: Site, view: View, number: int, manner: Manner) -> tuple[Group, ...]:
    """Its entries; made once for a state of the job, for the page that shows them and for the edit that follows."""
    key = ("entries", *sorted(view.opened.hashes.items()), number, manner.language, manner.system)
    made: tuple[Group, ...] = site.kept.get(key, lambda: groups_of(view, number, manner))
    return made


def _drawings(site: Site, view: View, number: int, manner: Manner, at_once: bool = True) -> dict[str, Any]:
    """The other drawings and the tables of the piece; made once for a state of the job.

    at_once=False gives them only where they are made already: the page's script asks for them a moment later.
    """
    key = ("piece", *sorted(view.opened.hashes.items()), number, manner.language, manner.system)
    made = site.kept.known(key)
    if made is None and not at_once:
        return {"drawings": [], "tables": (), "later": True}
    drawings, tables = made or site.kept.get(key, lambda: _drawings_and_tables(view, number, manner))
    return {"drawings": drawings, "tables": tables, "later": False}


def _drawings_and_tables(view: View, number: int, manner: Manner) -> tuple[list[Markup], tuple[Table, ...]]:
    construction = view.sketch.constructions[number]
    scenes = whole_scenes(construction, part_ids(view.sketch, number + 1), manner)
    pages = [one for one in whole_pages(view.sketch, manner) if one.number == number + 1]
    return [drawn(scene) for kind, scene in scenes if kind != "front"], pages[0].tables if pages else ()


def _front(view: View, number: int, manner: Manner) -> Markup | str:
    """How it looks from the front; nothing where its parts stand nowhere."""
    construction = view.sketch.constructions[number]
    size = construction.arranged.size_mm
    if size is None or not construction.arranged.placements:
        return ""
    room = [paper - _ROOM_MM for paper in VIEWS_PAPER_MM]
    fits = [one for one in _SCALES if size[0] * one <= room[0] and size[2] * one <= room[1]]
    scale = fits[0] if fits else _SCALES[-1]
    return drawn(view_of(construction, Look.FRONT, scale, part_ids(view.sketch, number + 1), manner))


def _parts(view: View, number: int, manner: Manner) -> list[PartLine]:
    """Every part of the piece, panels with a page of their own first, then boards."""
    own = f"{number + 1}."
    paged = {one.id for one in view.sketch.parts}
    parts = [one for one in view.sketch.all_parts if one.id.startswith(own)]
    table = parts_table(parts, manner)
    titles = [column.title for column in table.columns]
    return [
        PartLine(one.id, one.name, one.id in paged, tuple(zip(titles[3:], row[3:], strict=True)))
        for one, row in zip(parts, table.rows, strict=True)
    ]


def _findings(view: View, number: int, job: KeptJob, manner: Manner) -> list[Shown]:
    """What was found at the piece or a part of it."""
    piece = view.sketch.constructions[number].piece
    at = re.compile(rf"piece\[{number}\](\.|$)")
    both = zip(view.sketch.findings, shown(view, job, manner), strict=True)
    return alike([one for finding, one in both if at.match(finding.origin) or finding.piece == piece.name])


def _about(view: View, number: int) -> str:
    """What the maker believes to be editing: the place in the job, and the name."""
    one = view.sketch.constructions[number].piece
    return f"{number + 1}: {one.name}"


def _number(view: View, asked: Asked) -> int:
    """The number of the piece from 0. Raises NoSuchPage."""
    number = asked.whole("piece")
    if not 1 <= number <= len(view.sketch.constructions):
        raise NoSuchPage(said("This job has no piece {piece}.", piece=repr(asked.path["piece"][:20])))
    return number - 1


ROUTES: Final = (
    ("GET", "/jobs/{job}/pieces/{piece}", piece),
    ("POST", "/jobs/{job}/pieces/{piece}", edit),
)
