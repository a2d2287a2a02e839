"""Before a shared app: who has not given the access code sees the page that asks for it, and nothing else."""

import math
from collections.abc import Callable
from typing import Final
from urllib.parse import parse_qs

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from evenface.interfaces.web.access import Access, TooOften
from evenface.interfaces.web.problems import problem

SESSION: Final = "evenface_session"
PATH: Final = "/access"
OPEN: Final = ("/static/style.css", "/static/icon.svg", "/static/access.js")
LARGEST: Final = 2_000
"""Bytes of a form that holds one code."""
NEEDED: Final = "This app asks for the access code that stands in the window where it was started."


class AccessDoor:
    """Lets in those with a session, or with the code as `Authorization: Bearer`; asks the others."""

    def __init__(self, app: ASGIApp, access: Access, page: Callable[[str], str]) -> None:
        self.app, self.access, self.page = app, access, page

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        request = Request(scope, receive)
        if scope["path"] in OPEN or self.access.knows(request.cookies.get(SESSION, "")):
            await self.app(scope, receive, send)
            return
        try:
            answer = await self._asked(request)
        except TooOften as often:
            answer = self._slower(scope["path"], often.wait_s)
        await (answer or self.app)(scope, receive, send)

    async def _asked(self, request: Request) -> Response | None:
        """The answer for one who is not known yet; None lets in."""
        client = request.client.host if request.client else ""
        if request.url.path == PATH and request.method == "POST":
            return await self._entered(request, client)
        scheme, _, code = request.headers.get("authorization", "").partition(" ")
        if scheme.lower() == "bearer" and self.access.fits(code, client):
            return None
        return self._refused(request.url.path)

    async def _entered(self, request: Request, client: str) -> Response:
        if int(request.headers.get("content-length", "0")) > LARGEST:
            return self._refused(PATH, 413)
        fields = parse_qs((await request.body()).decode("utf-8", "replace"), max_num_fields=10)
        if not await run_in_threadpool(self.access.fits, fields.get("code", [""])[0], client):
            return self._refused(PATH, 403, "That is not the code. It is new at each start.")
        answer = RedirectResponse("/", 303)
        answer.set_cookie(SESSION, self.access.begin(), httponly=True, samesite="strict", path="/")
        return answer

    def _refused(self, path: str, status: int = 401, told: str = "") -> Response:
        if path.startswith("/api/"):
            answer: Response = problem(
                status, "access-code", "the access code, as Authorization: Bearer CODE", "no code that fits",
                "the request's headers", NEEDED,
            )  # fmt: skip
        else:
            answer = HTMLResponse(self.page(told), status)
        if status == 401:
            answer.headers["WWW-Authenticate"] = 'Bearer realm="evenface"'
        return answer

    def _slower(self, path: str, wait_s: float) -> Response:
        seconds = max(1, math.ceil(wait_s))
        answer = self._refused(path, 429, f"Too many wrong codes. Wait {seconds} seconds.")
        answer.headers["Retry-After"] = str(seconds)
        return answer
