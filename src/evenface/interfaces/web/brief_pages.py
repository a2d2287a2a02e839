"""The page of what the job and its pieces must bear; what to build from follows it."""

from collections.abc import Sequence
from typing import Final

from starlette.responses import Response

from evenface.interfaces.web.brief_entries import brief_entries, brief_groups
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import Outcome, answered, beside_entries
from evenface.interfaces.web.entries import Entry
from evenface.interfaces.web.piece_entries import form_of
from evenface.interfaces.web.site import Asked, Site
from evenface.store import KeptJob

ABOUT: Final = "brief"


def show(site: Site, asked: Asked) -> Response:
    """Every need, of the job and of each piece."""
    return _page(site, asked, site.job(asked))


def edit(site: Site, asked: Asked) -> Response:
    """What was typed: kept where it can be, else given back with the reason."""

    def find(view: View) -> tuple[str, Sequence[Entry]]:
        return ABOUT, brief_entries(view, asked.manner)

    return answered(site, asked, site.job(asked), find, _page)


def _page(site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None) -> Response:
    view = site.desk.look(job, flat=False)
    groups = brief_groups(view, asked.manner)
    entries = [entry for group in groups for entry in group.entries]
    return site.page(
        "brief_edited.html" if asked.live else "brief.html", asked, status, title="What it must bear", job=job,
        groups=groups, about=ABOUT, **beside_entries(site, asked, job, entries, out),
        **form_of(view, groups, asked, out.told if out else None),
    )  # fmt: skip


ROUTES: Final = (
    ("GET", "/jobs/{job}/brief", show),
    ("POST", "/jobs/{job}/brief", edit),
)
