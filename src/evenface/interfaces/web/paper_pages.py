"""The page of everything that can be downloaded, and each paper by its name."""

from typing import Any, Final

from starlette.responses import Response

from evenface.interfaces.web.papers import KINDS, Papers
from evenface.interfaces.web.site import Asked, Site
from evenface.store import KeptJob


def paper(site: Site, asked: Asked) -> Response:
    """What can be downloaded, with the size of what is made already."""
    job = site.job(asked)
    known = Papers(site, job, site.desk.look(job, flat=False), asked.manner)
    values: dict[str, Any] = {"job": job, "papers": known.listed(), "templates": known.templates()}
    return site.page("paper.html", asked, title="Paper", **values)


def paper_file(site: Site, asked: Asked) -> Response:
    """One paper. Its name is looked up among those there are, never used as a path."""
    job, name = site.job(asked), asked.path["name"]
    known = Papers(site, job, site.desk.look(job, flat=False), asked.manner)
    if name == "drawings":
        return _drawings(site, asked, job, known)
    content, plain = known.content(name), name.rsplit("/", 1)[-1]
    headers = {"Content-Disposition": f'attachment; filename="{plain}"'}
    return Response(content, media_type=KINDS[plain.rsplit(".", 1)[-1]], headers=headers)


def _drawings(site: Site, asked: Asked, job: KeptJob, known: Papers) -> Response:
    """Every drawing by itself, once the sheets are laid out and all are drawn; both beside the page."""
    view = site.desk.look(job)
    work = site.planner.work(view) or site.planner.start(view)
    state = work.state  # read once: the plan goes on while the page is made
    drawings = known.drawings() if state == "done" else None
    state = "drawing" if state == "done" and drawings is None else state
    name = "drawings_live.html" if asked.live else "drawings.html"
    return site.page(
        name, asked, title="Drawings", job=job, drawings=drawings, state=state, work=work,
    )  # fmt: skip


ROUTES: Final = (
    ("GET", "/jobs/{job}/paper", paper),
    ("GET", "/jobs/{job}/paper/{name:path}", paper_file),
)
