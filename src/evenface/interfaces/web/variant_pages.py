"""The page of what each variant sets differently; they stand side by side on the page of alternatives."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

from starlette.responses import Response

from evenface.errors import FileError, told_at_entry
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import Outcome, answered, beside_entries
from evenface.interfaces.web.entries import Entry
from evenface.interfaces.web.piece_entries import form_of
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.interfaces.web.variant_entries import (
    leave_out,
    may_differ,
    set_difference,
    variant_entries,
    variant_groups,
)
from evenface.store import KeptJob

ABOUT: Final = "variants"


def show(site: Site, asked: Asked) -> Response:
    """Every variant with what it sets."""
    return _page(site, asked, site.job(asked))


def edit(site: Site, asked: Asked) -> Response:
    """What was typed: kept where it can be, else given back with the reason."""

    def find(view: View) -> tuple[str, Sequence[Entry]]:
        return ABOUT, variant_entries(view, asked.manner)

    return answered(site, asked, site.job(asked), find, _page)


def _page(
    site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None,
    told: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    view = site.desk.look(job, flat=False)
    groups = variant_groups(view, asked.manner)
    entries = [entry for group in groups for entry in group.entries]
    values: dict[str, Any] = beside_entries(site, asked, job, entries, out)
    values |= form_of(view, groups, asked, out.told if out else None)
    values |= {
        "may": {} if asked.live else may_differ(view, asked.manner),
        "told": told or {},
        "sent": asked.form,
    }
    names = [f"{group.title}: {group.says}" for group in groups[1:]]
    return site.page(
        "variants_edited.html" if asked.live else "variants.html", asked, status, title="What variants set",
        job=job, groups=groups, about=ABOUT, names=names, here=f"/jobs/{job.id}/variants", **values,
    )  # fmt: skip


@changing
def change(site: Site, asked: Asked) -> Response:
    """An entry more or less that a variant sets; a slip comes back with its reason."""
    job, version, form = site.job(asked), asked.whole("version"), asked.form
    do, *numbers = form.get("do", "").split(" ")
    which = [int(one) for one in numbers if one.isascii() and one.isdigit() and len(one) < 6]
    if do == "out" and len(which) == 2:
        leave_out(site, job, version, which[0], which[1])
        return done(f"/jobs/{job.id}/variants", "out")
    if do != "add":
        raise NoSuchPage("There is no such thing to do here.")
    try:
        set_difference(site, job, version, asked.whole("variant"), form.get("path", ""), form.get("new", ""))
    except FileError as error:
        told: dict[str, str] = {}
        for one in error.complaints:
            at = one.place.key if one.place.key in ("path", "new") else "new"
            told[at] = f"{told.get(at, '')} {told_at_entry(one, asked.manner)}".strip()
        return _page(site, asked, job, 422, None, told)
    return done(f"/jobs/{job.id}/variants", "added")


ROUTES: Final = (
    ("GET", "/jobs/{job}/variants", show),
    ("POST", "/jobs/{job}/variants", edit),
    ("POST", "/jobs/{job}/differences", change),
)
