"""The page of what the job and its pieces must bear; what to build from follows it."""

from typing import Final

from starlette.responses import Response

from evenface.interfaces.web.brief_entries import brief_entries, brief_groups
from evenface.interfaces.web.edits import Outcome
from evenface.interfaces.web.entry_pages import entries_page, handlers
from evenface.interfaces.web.site import Asked, Site
from evenface.store import KeptJob

ABOUT: Final = "brief"


def _page(site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None) -> Response:
    view = site.desk.look(job, flat=False)
    groups = brief_groups(view, asked.manner)
    return entries_page(
        site, asked, job, view, groups, status, out, "brief.html", title="What it must bear", about=ABOUT
    )  # fmt: skip


_SHOW, _EDIT = handlers(ABOUT, brief_entries, _page)
ROUTES: Final = (
    ("GET", "/jobs/{job}/brief", _SHOW),
    ("POST", "/jobs/{job}/brief", _EDIT),
)
