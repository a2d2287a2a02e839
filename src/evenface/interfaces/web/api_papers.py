"""Every paper of a job, for programs: which there are, and each by its name."""

from typing import Final

from pydantic import BaseModel
from starlette.responses import Response

from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.papers import KINDS, Papers
from evenface.interfaces.web.site import Site


class PaperLine(BaseModel):
    """A paper that can be had. bytes : its size, none while it is not made."""

    name: str
    title: str
    bytes: int | None
    address: str


def papers(site: Site, call: Call) -> list[PaperLine]:
    """Papers and templates; drawings and layouts come with them, under `drawings/`."""
    job = call.job(site)
    known = Papers(site, job, site.desk.look(job, flat=False), call.manner)
    return [
        PaperLine(
            name=one.name, title=one.title, bytes=one.bytes, address=f"/api/v1/jobs/{job.id}/papers/{one.name}"
        )
        for one in (*known.listed(), *(one for _, kinds in known.templates() for one in kinds))
    ]  # fmt: skip


def paper(site: Site, call: Call) -> Response:
    """One paper; its name is looked up among those there are, never used as a path."""
    job, name = call.job(site), call.path["paper"]
    content = Papers(site, job, site.desk.look(job, flat=False), call.manner).content(name)
    return Response(content, media_type=KINDS[name.rsplit(".", 1)[-1]])


_JOB: Final = "/jobs/{job}"
OPERATIONS: Final = (
    Operation("GET", f"{_JOB}/papers", "listPapers", "Every paper that can be had", papers, list[PaperLine],
              units=True),
    Operation("GET", f"{_JOB}/papers/{{paper}}", "readPaper", "One paper, made now if it is not there", paper,
              media="*/*", units=True),
)  # fmt: skip
