"""Memory is tidied while nobody waits: a full collection stops every answer for a tenth of a second and more."""

import asyncio
import gc
from typing import Final

from starlette.types import ASGIApp, Receive, Scope, Send

REST_S: Final = 2.0
THRESHOLDS: Final = (10_000, 20, 1_000)
"""New objects before the youngest are looked through, such looks before the older ones, and before all."""


class Tidy:
    """Before an app: once nothing was asked for a while, everything is looked through, and never again until then.

    What is there at the first rest (the program, its tables, its templates) is not looked through any more.
    """

    def __init__(self, app: ASGIApp, rest_s: float = REST_S) -> None:
        self.app, self.rest_s = app, rest_s
        self._next: asyncio.TimerHandle | None = None
        self._frozen = False

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if self._next is not None:
            self._next.cancel()
        try:
            await self.app(scope, receive, send)
        finally:
            if self._next is not None:
                self._next.cancel()
            self._next = asyncio.get_running_loop().call_later(self.rest_s, self._tidy)

    def _tidy(self) -> None:
        gc.collect()
        if not self._frozen:
            gc.freeze()
            self._frozen = True


def collect_seldom() -> None:
    """From now on this process looks for rubbish less often; `Tidy` makes up for it."""
    gc.set_threshold(*THRESHOLDS)
