"""The page of what each variant sets differently; they stand side by side on the page of alternatives."""

from collections.abc import Mapping
from typing import Final

from starlette.responses import Response

from evenface.errors import FileError
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.edits import Outcome
from evenface.interfaces.web.entry_pages import entries_page, handlers, told_at
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


def _page(
    site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None,
    told: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    view = site.desk.look(job, flat=False)
    groups = variant_groups(view, asked.manner)
    names = [f"{group.title}: {group.says}" for group in groups[1:]]
    return entries_page(
        site, asked, job, view, groups, status, out, "variants.html", ("deeds", "more"), title="What variants set",
        about=ABOUT, names=names, may={} if asked.live else may_differ(view, asked.manner), told=told or {},
        sent=asked.form, here=f"/jobs/{job.id}/variants",
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
        return _page(site, asked, job, 422, None, told_at(error, ("path", "new"), "new", asked.manner))
    return done(f"/jobs/{job.id}/variants", "added")


_SHOW, _EDIT = handlers(ABOUT, variant_entries, _page)
ROUTES: Final = (
    ("GET", "/jobs/{job}/variants", _SHOW),
    ("POST", "/jobs/{job}/variants", _EDIT),
    ("POST", "/jobs/{job}/differences", change),
)
