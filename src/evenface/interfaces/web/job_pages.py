"""The page of what holds for a whole job: for whom, where, with which saw and router, of which build-ups."""

from typing import Final

from starlette.responses import Response

from evenface.finding import Change
from evenface.interfaces.web import aims
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.edits import Outcome
from evenface.interfaces.web.entry_pages import entries_page, handlers
from evenface.interfaces.web.job_entries import job_entries, job_groups
from evenface.interfaces.web.keeping import keep_changes
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.store import KeptJob
from evenface.toml_places import key_path

ABOUT: Final = "job"
LONGEST_NAME: Final = 60


def _page(site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None) -> Response:
    view = site.desk.look(job, flat=False)
    groups = job_groups(view, asked.manner)
    return entries_page(
        site, asked, job, view, groups, status, out, "job.html", ("aims", "buildups"), title="Job and workshop",
        about=ABOUT, buildups=tuple(view.sketch.job.buildups), **aims.shown(view),
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


_SHOW, _EDIT = handlers(ABOUT, job_entries, _page)
ROUTES: Final = (
    ("GET", "/jobs/{job}/job", _SHOW),
    ("POST", "/jobs/{job}/job", _EDIT),
    ("POST", "/jobs/{job}/buildups", change_buildups),
    *aims.ROUTES,
)
