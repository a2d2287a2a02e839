"""The door of the app: only its own pages and programs get in, and nothing foreign gets onto the pages."""

import hmac
import ipaddress
import logging
import socket
from collections.abc import Callable
from http.cookies import CookieError, SimpleCookie
from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import ClientDisconnect
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from evenface.interfaces.web.problems import problem

LOG: Final = logging.getLogger(__name__)
COOKIE: Final = "evenface_own"
LARGEST_BODY: Final = 2_500_000
"""A job file of 2 MB, written as a form, and no more."""
OWN_HOSTS: Final = ("127.0.0.1", "localhost")
API: Final = "/api/"
FAULT: Final = "evenface could not answer. Everything kept so far stands: go back and try once more.\n"
POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)


def on_this_machine(host: str) -> bool:
    """Whether a name without its port is one of this machine alone: localhost, or a round trip in figures."""
    found = _figures(host)
    return host.lower() in OWN_HOSTS or (found is not None and found.is_loopback)


def on_this_net(host: str) -> bool:
    """Whether a shared app answers under that name: an address in figures, or this machine's own name.

    A foreign page can make its own name lead here, but neither figures nor the name of this machine.
    """
    own = socket.gethostname().lower()
    return host.lower() in (*OWN_HOSTS, own, f"{own}.local") or _figures(host) is not None


def _figures(host: str) -> ipaddress.IPv4Address | ipaddress.IPv6Address | None:
    """The address a host names in figures; None for a name."""
    try:
        return ipaddress.ip_address(host.removeprefix("[").removesuffix("]"))
    except ValueError:
        return None


class Guard:
    """Refuses foreign hosts, origins, bodies too large and changes without our cookie.

    A program that speaks JSON has no cookie: it is let in unless a browser says that a foreign page asks. What
    it changes must be sent as JSON, which a foreign page cannot send without being refused beforehand.
    """

    def __init__(self, app: ASGIApp, secret: str, own: Callable[[str], bool] = on_this_machine) -> None:
        self.app, self.secret, self.own = app, secret, own

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            return
        headers = Headers(scope=scope)
        refused = self._refused(scope["method"], scope["path"], headers)

        begun = False

        async def guarded(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                self._add_headers(MutableHeaders(scope=message), headers)
            await send(message)

        try:
            await (refused or self.app)(scope, receive, guarded)
        except ClientDisconnect:
            return  # nobody is there any more to be told
        except Exception:
            if begun:
                raise
            LOG.exception("%s %r could not be answered", scope["method"], scope["path"])
            await PlainTextResponse(FAULT, 500)(scope, receive, guarded)

    def _refused(self, method: str, path: str, headers: Headers) -> Response | None:
        for_program = path.startswith(API)
        found = self._foreign(method, headers, for_program) or _too_large(headers)
        if found is None:
            return None
        status, sentence = found
        if not for_program:
            return PlainTextResponse(sentence + "\n", status)
        return problem(status, "refused", "a request of this app's own", "another", "the headers", sentence)

    def _foreign(self, method: str, headers: Headers, for_program: bool) -> tuple[int, str] | None:
        host, origin = headers.get("host", ""), headers.get("origin")
        why = ""
        if not self.own(_without_port(host)):
            why = "This app answers only under 127.0.0.1 and localhost, or as it was shared."
        elif headers.get("sec-fetch-site", "none") not in ("same-origin", "none"):
            why = "Another site asked for this. Type the address into the browser instead."
        elif for_program:
            why = "" if origin in (None, f"http://{host}") else "A foreign page asked for this."
        elif method not in ("GET", "HEAD"):
            if origin != f"http://{host}":
                why = "A change must come from a page of this app."
            elif not hmac.compare_digest(_cookie(headers).encode(), self.secret.encode()):
                why = "This page is not known here any more. Load it again."
        return (403, why) if why else None

    def _add_headers(self, answer: MutableHeaders, asked: Headers) -> None:
        answer["Content-Security-Policy"] = POLICY
        answer["X-Content-Type-Options"] = "nosniff"
        answer["X-Frame-Options"] = "DENY"
        answer["Referrer-Policy"] = "same-origin"
        answer["Cross-Origin-Opener-Policy"] = "same-origin"
        answer["Cross-Origin-Resource-Policy"] = "same-origin"
        answer.setdefault("Cache-Control", "no-store")
        html = answer.get("content-type", "").startswith("text/html")
        if html and _cookie(asked) != self.secret:
            answer.append("Set-Cookie", f"{COOKIE}={self.secret}; HttpOnly; SameSite=Strict; Path=/")


def _without_port(host: str) -> str:
    name, colon, port = host.rpartition(":")
    return name if colon and port.isdecimal() else host


def _too_large(headers: Headers) -> tuple[int, str] | None:
    if "transfer-encoding" in headers:
        return 411, "The size of what is sent must be told."
    size = headers.get("content-length", "0")
    if not (size.isascii() and size.isdecimal()):
        return 400, "The size of what is sent must be a number."
    if len(size) > 9 or int(size) > LARGEST_BODY:
        return 413, "A job file may have at most 2 MB."
    return None


def _cookie(headers: Headers) -> str:
    try:
        found = SimpleCookie(headers.get("cookie", "")).get(COOKIE)
    except CookieError:
        return ""
    return found.value if found else ""
