"""From a request to its answer: read as the pages read it, handled beside the loop, and every fault told on a page."""

import logging
from collections.abc import Awaitable, Callable, Mapping
from typing import Final
from urllib.parse import parse_qsl

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from evenface.errors import EvenfaceError, FileError, told_of
from evenface.interfaces.web.faults import FAULT, KEPT, TRY
from evenface.interfaces.web.site import Asked, Handler, NoSuchPage, Site
from evenface.languages import LANGUAGES, manner_for
from evenface.store import KeptJob, NoSuchJob, StoreError

LOG: Final = logging.getLogger(__name__)
MOST_FIELDS: Final = 10_000
"""A cupboard of a few bays has two hundred, sent all at once where there is no script."""

NO_ADDRESS: Final = "There is no page at this address."
UNREADABLE: Final = "What was sent is no form of this app: it cannot be read."
NO_WAY: Final = "This address cannot be asked for in that way."


def answering(site: Site, handler: Handler) -> Callable[[Request], Awaitable[Response]]:
    """The handler run beside the loop; what goes wrong in it becomes a page."""

    async def answer(request: Request) -> Response:
        body = await request.body() if request.method == "POST" else b""
        form = _fields(body)
        asked = read_request(request, form or {})
        if form is None:
            return _told(site, asked, 400, "Nothing was changed", [asked.manner.translate(UNREADABLE)])
        return await run_in_threadpool(_guarded, site, handler, asked)

    return answer


def nowhere(site: Site) -> Callable[[Request, Exception], Awaitable[Response]]:
    """What answers where no handler is: a page that says so."""

    async def answer(request: Request, error: Exception) -> Response:
        status, headers = 404, None
        if isinstance(error, HTTPException):
            status, headers = error.status_code, error.headers
        asked = read_request(request, {})
        told = [asked.manner.translate(NO_WAY if status == 405 else NO_ADDRESS)]
        made = site.page("problem.html", asked, status, title="Not here", sentences=told, job=None, here="/")
        made.headers.update(headers or {})
        return made

    return answer


def _guarded(site: Site, handler: Handler, asked: Asked) -> Response:
    try:
        return _named(site, handler, asked)
    except Exception:
        LOG.exception("%s %r could not be answered", asked.method, asked.address)
        told = [asked.manner.translate(one) for one in (FAULT, KEPT, TRY)]
        return _failed(site, asked, 500, told)


def _named(site: Site, handler: Handler, asked: Asked) -> Response:
    """The answer, or of an error with a name the page that tells it."""
    try:
        return handler(site, asked)
    except (NoSuchJob, NoSuchPage) as problem:
        return _told(site, asked, 404, "Not here", [told_of(problem, asked.manner)])
    except FileError as problem:
        # the text itself has faults: it can be mended where it is written
        told = [told_of(one, asked.manner) for one in problem.complaints]
        return _told(site, asked, 422, "The job cannot be read", told, site.job(asked))
    except EvenfaceError as problem:
        # a disc that is full may have room again: what waits in a page is sent once more
        return _failed(
            site,
            asked,
            503 if isinstance(problem, StoreError) else 500,
            told_of(problem, asked.manner).splitlines(),
        )


def _told(
    site: Site, asked: Asked, status: int, title: str, told: list[str], job: KeptJob | None = None
) -> Response:
    """Nothing to answer with, and why; for our script only the sentences, beside what is typed."""
    if asked.live:
        return site.page("failed_live.html", asked, status, sentences=told)
    return site.page("problem.html", asked, status, title=title, sentences=told, job=job)


def _failed(site: Site, asked: Asked, status: int, told: list[str]) -> Response:
    """The page of a failure, with what was sent ready to be sent again; plain words if no page can be made."""
    title = "That did not work"
    try:
        if asked.live:
            return site.page("failed_live.html", asked, status, sentences=told)
        job = _job(site, asked)
        here = asked.address if asked.method == "GET" else f"/jobs/{job.id}" if job else "/"
        values = {"sent": asked.form, "again": asked.address if asked.method == "POST" else "", "here": here}
        return site.page("failed.html", asked, status, title=title, sentences=told, job=job, **values)
    except Exception:
        LOG.exception("nor could a page say so")
        return PlainTextResponse("\n".join([asked.manner.translate(title), *told, ""]), status)


def _job(site: Site, asked: Asked) -> KeptJob | None:
    """The job that was looked at, if it can be had."""
    try:
        return site.job(asked) if "job" in asked.path else None
    except Exception:
        return None


def _fields(body: bytes) -> dict[str, str] | None:
    """What a form sent; None where that is no form, or more than any page here has."""
    try:
        return dict(parse_qsl(body.decode(), keep_blank_values=True, max_num_fields=MOST_FIELDS))
    except ValueError:
        return None


def read_request(request: Request, form: Mapping[str, str]) -> Asked:
    """A request as the pages read it. form : the fields it sent."""
    system = "inch" if request.cookies.get("evenface_units") == "inch" else "mm"
    language = request.cookies.get("evenface_language") or _wished(request.headers.get("accept-language", ""))
    return Asked(
        {name: str(value) for name, value in request.path_params.items()},
        dict(request.query_params),
        form,
        manner_for(language if language in LANGUAGES else "en", system),
        request.headers.get("x-live") == "1",
        request.url.path,
        request.method,
    )


def _wished(header: str) -> str:
    """The first language of a browser's wishes that is spoken here; English where none is."""
    for one in header.split(","):
        code = one.split(";")[0].strip().lower()[:2]
        if code in LANGUAGES:
            return code
    return "en"
