"""The same actions for programs: one table of operations, from which both the addresses and their description come.

Start at `OPERATIONS`; the modules named there hold what each does, `api_describe` the OpenAPI document.
"""

import json
import logging
from collections.abc import Awaitable, Callable
from typing import Any, Final, cast

from pydantic import BaseModel, TypeAdapter, ValidationError
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from evenface.errors import Complaint, EvenfaceError, FileError, MissingWord, Place
from evenface.interfaces.web import (
    api_answers,
    api_begin,
    api_compare,
    api_jobs,
    api_making,
    api_money,
    api_papers,
    api_rack,
    api_solid,
    api_workshop,
)
from evenface.interfaces.web.api_describe import openapi
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.api_shapes import job_answer
from evenface.interfaces.web.faults import FAULT, KEPT, TRY
from evenface.interfaces.web.problems import complaints_problem, problem
from evenface.interfaces.web.site import NoSuchPage, NotAsThingsStand, Site
from evenface.store import NoSuchJob, Stale
from evenface.store.rack_records import NoSuchItem, RackError
from evenface.words import Manner

BASE: Final = "/api/v1"
LOG: Final = logging.getLogger(__name__)
OPERATIONS: Final[tuple[Operation, ...]] = (
    *api_jobs.OPERATIONS,
    *api_answers.OPERATIONS,
    *api_solid.OPERATIONS,
    *api_begin.OPERATIONS,
    *api_making.OPERATIONS,
    *api_rack.OPERATIONS,
    *api_money.OPERATIONS,
    *api_compare.OPERATIONS,
    *api_papers.OPERATIONS,
    *api_workshop.OPERATIONS,
)


def api_app(site: Site) -> Starlette:
    """The app for programs, to be mounted at `BASE`."""
    by_path: dict[str, dict[str, Operation]] = {}
    for one in OPERATIONS:
        by_path.setdefault(one.path, {})[one.method] = one
    described = json.dumps(openapi(OPERATIONS, BASE), ensure_ascii=False).encode()

    async def description(request: Request) -> Response:
        return Response(described, media_type="application/json")

    routes = [
        Route(path.replace("{paper}", "{paper:path}"), _answering(site, ways), methods=list(ways))
        for path, ways in by_path.items()
    ]  # one route for each address, so that a refusal names every way there is
    return Starlette(
        routes=[Route("/openapi.json", description, methods=["GET"]), *routes],
        exception_handlers={HTTPException: _refused},
    )


async def _refused(request: Request, error: Exception) -> Response:
    """An address or a method that is not there."""
    error = cast(HTTPException, error)
    ways = (error.headers or {}).get("Allow", "")
    if error.status_code == 405:
        answer = problem(405, "method", ways or "another method", request.method, request.url.path)
    else:
        hint = f"{BASE}/openapi.json lists every address."
        answer = problem(
            error.status_code, "address", "an address there is", request.url.path, "the address", hint
        )
    for name, value in (error.headers or {}).items():
        answer.headers[name] = value
    return answer


def _answering(site: Site, ways: dict[str, Operation]) -> Callable[[Request], Awaitable[Response]]:
    async def answer(request: Request) -> Response:
        one = ways["GET" if request.method == "HEAD" else request.method]
        units = request.query_params.get("units", "mm")
        if one.units and units not in ("mm", "inch"):
            return problem(422, "query", "mm or inch", repr(units[:40]), "units")
        body: BaseModel | None = None
        if one.body is not None:
            kind = request.headers.get("content-type", "").split(";")[0].strip().lower()
            if kind != "application/json":
                return problem(415, "media-type", "application/json", repr(kind[:60]), "Content-Type")
            try:
                body = one.body.model_validate_json(await request.body())
            except ValidationError as error:
                return _wrong_body(error)
        path = {name: str(value) for name, value in request.path_params.items()}
        call = Call(path, body, Manner(system=units if one.units else "mm"))
        return await run_in_threadpool(_guarded, site, one, call)

    return answer


def _guarded(site: Site, one: Operation, call: Call) -> Response:
    """What the operation answers; a fault of our own becomes a problem, its trace goes to the log."""
    try:
        return _done(site, one, call)
    except Exception:
        LOG.exception("%s %s%s could not be answered", one.method, BASE, one.path)
        hint = f"{KEPT} {TRY}"
        return problem(500, "fault", "an answer", FAULT.removesuffix("."), "evenface itself", hint)


def _wrong_body(error: ValidationError) -> Response:
    complaints = [
        Complaint(
            Place("the body", key=".".join(map(str, one["loc"]))), f"what is described ({one['msg']})",
            ascii(one.get("input"))[:80],
        )
        for one in error.errors(include_url=False)
    ]  # fmt: skip
    return complaints_problem(422, "body", complaints)


def _done(site: Site, one: Operation, call: Call) -> Response:
    """What the operation answers; named errors become problems."""
    try:
        answer = one.handler(site, call)
    except Stale as stale:
        now = job_answer(stale.newest).model_dump(mode="json")
        hint = "Look at `now`, and send the change again with its version."
        return problem(
            409, "stale", f"version {stale.newest.version}", "an older one", "version", hint, now=now
        )
    except EvenfaceError as error:
        return _trouble(error)
    if isinstance(answer, Response):
        return answer
    made = Response(TypeAdapter(one.answer).dump_json(answer), one.status, media_type="application/json")
    if one.status == 201:
        made.headers["Location"] = f"{BASE}/jobs/{answer.id}"
    return made


def _trouble(error: EvenfaceError) -> Response:
    if isinstance(error, FileError):
        return complaints_problem(422, "job-file", error.complaints)
    if isinstance(error, MissingWord):
        known = ", ".join(error.known[:40]) or "a name that is there"
        return problem(422, "name", known, repr(error.given[:60]), error.kind)
    found = next(words for kind, words in _TROUBLES if isinstance(error, kind))
    status, word, expected, where, hint = found
    return problem(status, word, expected, str(error), where, hint)


_TROUBLES: Final[tuple[tuple[type[EvenfaceError], tuple[int, str, str, str, str]], ...]] = (
    (NoSuchJob, (404, "not-here", "something that is there", "the address", "")),
    (NoSuchPage, (404, "not-here", "something that is there", "the address", "")),
    (NoSuchItem, (404, "not-here", "something that is there", "the address", "")),
    (api_answers.NotYet, (409, "not-planned", "a job whose layouts are reckoned", "the job",
                          "POST to its plan, and wait until its state is done.")),
    (NotAsThingsStand, (409, "as-things-stand", "something that can be done now", "the job", "")),
    (RackError, (409, "as-things-stand", "something that can be done now", "the rack", "")),
    (EvenfaceError, (503, "not-now", "files that can be read and written", "this machine", "")),
)  # fmt: skip
"""What each error is told as, the first that fits: status, name, what was expected, where, what to try."""


def api_page_values() -> dict[str, Any]:
    """What the plain page about the API lists."""
    return {"operations": [(one.method, BASE + one.path, one.summary) for one in OPERATIONS]}
