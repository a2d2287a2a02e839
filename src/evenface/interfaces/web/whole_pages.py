"""The pages of everything that can be said of a piece, and of a part that stands by itself."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from starlette.responses import Response

from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import Outcome, answered, name_of
from evenface.interfaces.web.entry_pages import entries_page
from evenface.interfaces.web.piece_entries import Group
from evenface.interfaces.web.site import Asked, NoSuchPage, Site, own_page
from evenface.interfaces.web.tables_added import copy_table, remove_table
from evenface.interfaces.web.whole_entries import whole_part, whole_piece
from evenface.store import KeptJob
from evenface.words import Manner, said

_WRITTEN: Final = re.compile(r"piece\[\d+\]\.panel\[\d+\]")


@dataclass(frozen=True, slots=True)
class _Said:
    """What is edited: its name for the reader, what the maker believes to be editing, its groups, the way back."""

    called: str
    about: str
    groups: tuple[Group, ...]
    back: str


type _Find = Callable[[View, Asked], _Said | None]


def _piece(view: View, asked: Asked) -> _Said | None:
    number = asked.whole("piece")
    if not 1 <= number <= len(view.sketch.constructions):
        return None
    name = view.sketch.constructions[number - 1].piece.name
    groups = whole_piece(view, number - 1, asked.manner)
    return _Said(name, f"{number}: {name}", groups, f"/pieces/{number}")


def _part(view: View, asked: Asked) -> _Said | None:
    part_id = asked.path["part"]
    found = view.part(part_id)
    if found is None or not _WRITTEN.fullmatch(found[1].origin):
        return None
    part, panel = found
    named: Manner = asked.manner
    called = f"{named.name(part.name)}, {part.piece}"
    return _Said(called, name_of(panel), whole_part(view, panel.origin, named), f"/parts/{part_id}")


def _pages(find: _Find, missing: str) -> tuple[Callable[[Site, Asked], Response], ...]:
    """The page and what is sent from it, of a piece or a part."""

    def page(
        site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None
    ) -> Response:
        view = site.desk.look(job, flat=False)
        one = _found(view, asked)
        title = f"{one.called}: {asked.manner.translate('Everything that can be said')}"
        return entries_page(
            site, asked, job, view, one.groups, status, out, "whole.html", ("deeds",), title=title, called=one.called,
            about=one.about, back=f"/jobs/{job.id}{one.back}",
        )  # fmt: skip

    def _found(view: View, asked: Asked) -> _Said:
        one = find(view, asked)
        if one is None:
            raise NoSuchPage(said("This job has nothing like that: {what}.", what=missing))
        return one

    def show(site: Site, asked: Asked) -> Response:
        return page(site, asked, site.job(asked))

    def edit(site: Site, asked: Asked) -> Response:
        def entries(view: View) -> tuple[str, list[Any]] | None:
            one = find(view, asked)
            return (
                None if one is None else (one.about, [each for group in one.groups for each in group.entries])
            )

        job = site.job(asked)
        _found(site.desk.look(job, flat=False), asked)
        return answered(site, asked, job, entries, page)

    return show, edit


@changing
def change(site: Site, asked: Asked) -> Response:
    """A table of a list more, like another, or one taken out; back to the page it was asked on."""
    job, version = site.job(asked), asked.whole("version")
    do, _, path = asked.form.get("do", "").partition(" ")
    back = own_page(asked.form.get("back", ""), f"/jobs/{job.id}")
    if do == "like":
        copy_table(site, job, version, path)
        return done(back, "added")
    if do == "out":
        remove_table(site, job, version, path)
        return done(back, "out")
    raise NoSuchPage("There is no such thing to do here.")


_PIECE: Final = _pages(_piece, "a piece of that number")
_PART: Final = _pages(_part, "a part that stands by itself under that number")
ROUTES: Final = (
    ("GET", "/jobs/{job}/pieces/{piece}/all", _PIECE[0]),
    ("POST", "/jobs/{job}/pieces/{piece}/all", _PIECE[1]),
    ("GET", "/jobs/{job}/parts/{part}/all", _PART[0]),
    ("POST", "/jobs/{job}/parts/{part}/all", _PART[1]),
    ("POST", "/jobs/{job}/tables", change),
)
