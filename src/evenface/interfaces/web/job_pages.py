"""The page of what holds for a whole job: for whom, where, with which saw and router, of which build-ups."""

from collections.abc import Sequence
from typing import Final

from starlette.responses import RedirectResponse, Response

from evenface.finding import Change
from evenface.interfaces.web.actions import MEANWHILE
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import Outcome, take_in, waiting
from evenface.interfaces.web.entries import Entry
from evenface.interfaces.web.job_entries import job_entries, job_groups
from evenface.interfaces.web.keeping import keep_changes
from evenface.interfaces.web.piece_entries import form_of
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.store import KeptJob
from evenface.toml_places import key_path

ABOUT: Final = "job"
LONGEST_NAME: Final = 60


def show(site: Site, asked: Asked) -> Response:
    """Everything that holds for the whole job."""
    return _page(site, asked, site.job(asked))


def edit(site: Site, asked: Asked) -> Response:
    """What was typed: kept where it can be, else given back with the reason."""

    def find(view: View) -> tuple[str, Sequence[Entry]]:
        return ABOUT, job_entries(view, asked.manner)

    out = take_in(site, asked, site.job(asked), find)
    status = 409 if out.clashes else 422 if out.reasons else 200
    if status != 200 or asked.live:
        return _page(site, asked, out.job, status, out)
    return RedirectResponse(asked.address, 303)


def _page(site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None) -> Response:
    view = site.desk.look(job, flat=False)
    groups = job_groups(view, asked.manner)
    entries = [entry for group in groups for entry in group.entries]
    typed, reasons = waiting(site, job, entries, asked.manner) if out is None else ({}, out.reasons)
    clashes = {} if out is None else out.clashes
    if out is not None:
        typed = {path: asked.form[path] for path in (*reasons, *clashes) if path in asked.form}
    said = asked.manner.translate(MEANWHILE) if clashes else reasons.get("", "")
    return site.page(
        "job_edited.html" if asked.live else "job.html", asked, status, title="Job and workshop", job=job,
        groups=groups, about=ABOUT, reasons=reasons, typed=typed, clashes=clashes, message=said,
        buildups=tuple(view.sketch.job.buildups), **form_of(view, groups, asked),
    )  # fmt: skip


@changing
def change_buildups(site: Site, asked: Asked) -> Response:
    """A build-up more, like another, or one taken out that nothing is built of."""
    job = site.job(asked)
    known = tuple(site.desk.look(job, flat=False).sketch.job.buildups)
    like, name = asked.form.get("like", ""), " ".join(asked.form.get("name", "").split())
    if like not in known:
        raise NoSuchPage("That build-up is not there any more.")
    page, version = f"/jobs/{job.id}/job", asked.whole("version")
    if asked.form.get("do") == "remove":
        keep_changes(site, job, version, [Change(key_path(("buildup", like)), "", "")])
        return done(page, "out")
    if not name or len(name) > LONGEST_NAME or name in known or not name.isprintable():
        raise NoSuchPage("Expected a name for the build-up that no other has.")
    keep_changes(site, job, version, [Change(key_path(("buildup", name, "like")), "", like)])
    return done(page, "added")


ROUTES: Final = (
    ("GET", "/jobs/{job}/job", show),
    ("POST", "/jobs/{job}/job", edit),
    ("POST", "/jobs/{job}/buildups", change_buildups),
)
