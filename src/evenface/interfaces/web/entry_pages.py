"""What pages of entries have in common: shown, typed into, answered; and a slip in what is added told at its field."""

from collections.abc import Callable, Sequence
from typing import Any

from starlette.responses import Response

from evenface.errors import FileError, told_at_entry
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import Outcome, Paged, answered, beside_entries
from evenface.interfaces.web.entries import Entry
from evenface.interfaces.web.piece_entries import Group, form_of
from evenface.interfaces.web.site import Asked, Handler, Site
from evenface.store import KeptJob
from evenface.words import Manner


def handlers(
    about: str, entries: Callable[[View, Manner], Sequence[Entry]], page: Paged
) -> tuple[Handler, Handler]:
    """Of one page of a job: what shows it, and what takes in what was typed, kept where it can be, else given back.

    about : what the maker believes to be editing. entries : all of the page, in a view.
    """

    def show(site: Site, asked: Asked) -> Response:
        return page(site, asked, site.job(asked), 200, None)

    def edit(site: Site, asked: Asked) -> Response:
        def find(view: View) -> tuple[str, Sequence[Entry]]:
            return about, entries(view, asked.manner)

        return answered(site, asked, site.job(asked), find, page)

    return show, edit


def entries_page(
    site: Site, asked: Asked, job: KeptJob, view: View, groups: Sequence[Group], status: int, out: Outcome | None,
    template: str, besides: Sequence[str] = (), **values: Any,
) -> Response:  # fmt: skip
    """A page of entries whole, or for our script only what changes in it.

    besides : forms beside the entries that go on from the newest version. values : title, about and what the template
    asks for besides.
    """
    entries = [entry for group in groups for entry in group.entries]
    values |= beside_entries(site, asked, job, entries, out)
    values |= form_of(view, groups, asked, out.told if out else None)
    name = "entries_edited.html" if asked.live else template
    return site.page(name, asked, status, job=job, groups=groups, besides=besides, **values)


def told_at(error: FileError, fields: Sequence[str], usual: str, manner: Manner) -> dict[str, str]:
    """Why something could not be added, by the field it is told at; what fits none of the fields at the usual one."""
    told: dict[str, str] = {}
    for one in error.complaints:
        at = one.place.key if one.place.key in fields else usual
        told[at] = f"{told.get(at, '')} {told_at_entry(one, manner)}".strip()
    return told
