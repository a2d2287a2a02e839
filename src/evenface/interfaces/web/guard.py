"""The door of the app: only this machine's own pages get in, and nothing foreign gets onto them."""

import hmac
from http.cookies import CookieError, SimpleCookie
from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

COOKIE: Final = "evenface_own"
LARGEST_BODY: Final = 2_500_000
"""A job file of 2 MB, written as a form, and no more."""
OWN_HOSTS: Final = ("127.0.0.1", "localhost")
POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)


class Guard:
    """Refuses foreign hosts, origins, bodies too large and changes without our cookie."""

    def __init__(self, app: ASGIApp, secret: str) -> None:
        self.app, self.secret = app, secret

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refused = self._refused(scope["method"], headers)

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                self._add_headers(MutableHeaders(scope=message), headers)
            await send(message)

        if refused is not None:
            await refused(scope, receive, guarded)
        else:
            await self.app(scope, receive, guarded)

    def _refused(self, method: str, headers: Headers) -> PlainTextResponse | None:
        host = headers.get("host", "")
        if host.rsplit(":", 1)[0] not in OWN_HOSTS:
            return _no(403, "This app answers only under 127.0.0.1 and localhost.")
        if method in ("GET", "HEAD"):
            return None
        if headers.get("origin") != f"http://{host}":
            return _no(403, "A change must come from a page of this app.")
        if not hmac.compare_digest(_cookie(headers).encode(), self.secret.encode()):
            return _no(403, "This page is not known here any more. Load it again.")
        return _too_large(headers)

    def _add_headers(self, answer: MutableHeaders, asked: Headers) -> None:
        answer["Content-Security-Policy"] = POLICY
        answer["X-Content-Type-Options"] = "nosniff"
        answer["Referrer-Policy"] = "same-origin"
        answer["Cross-Origin-Opener-Policy"] = "same-origin"
        answer["Cross-Origin-Resource-Policy"] = "same-origin"
        answer.setdefault("Cache-Control", "no-store")
        html = answer.get("content-type", "").startswith("text/html")
        if html and _cookie(asked) != self.secret:
            answer.append("Set-Cookie", f"{COOKIE}={self.secret}; HttpOnly; SameSite=Strict; Path=/")


def _too_large(headers: Headers) -> PlainTextResponse | None:
    size = headers.get("content-length", "")
    if not size.isdecimal():
        return _no(411, "The size of what is sent must be told.")
    if len(size) > 9 or int(size) > LARGEST_BODY:
        return _no(413, "A job file may have at most 2 MB.")
    return None


def _cookie(headers: Headers) -> str:
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
    except CookieError:
        return ""
    return found.value if found else ""


def _no(status: int, sentence: str) -> PlainTextResponse:
    return PlainTextResponse(sentence + "\n", status)
