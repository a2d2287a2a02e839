"""Searches side by side: each in a thread of its own, what they find told to one listener as it comes."""

import queue
import threading
import time
from collections.abc import Callable, Iterator
from types import TracebackType
from typing import Self

from evenface.layouts.engine import Engine, EngineFailed

GRACE_S = 0.3
"""A child that keeps silent is given up a little earlier, and that is heard."""


class Beside[News]:
    """Runs iterators at once, each with the engine it asks; leaving the block ends them all.

    A search that fails is told of once, as its name with the problem; a search that ends, with None.
    """

    def __init__(self) -> None:
        self._news: queue.SimpleQueue[tuple[str, News | EngineFailed | None]] = queue.SimpleQueue()
        self._searches: list[tuple[Engine, threading.Thread]] = []
        self._left = threading.Event()

    def begin(self, name: str, engine: Engine, search: Iterator[News]) -> None:
        """Start one more search; no two at once may ask the same engine."""
        thread = threading.Thread(target=self._run, args=(name, search), daemon=True)
        self._searches.append((engine, thread))
        thread.start()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._left.set()
        for engine, thread in self._searches:
            while thread.is_alive():  # a child that was just being started is ended in the next round
                engine.halt()
                thread.join(0.02)
            engine.resume()

    def heard(self, limit_s: float) -> Iterator[tuple[str, News | EngineFailed | None]]:
        """What the searches tell, until all have ended or the time is up."""
        until = time.monotonic() + limit_s + GRACE_S
        running = len(self._searches)
        while running:
            try:
                name, news = self._news.get(timeout=max(0.0, until - time.monotonic()))
            except queue.Empty:
                return
            running -= news is None
            yield name, news

    def _run(self, name: str, search: Iterator[News]) -> None:
        try:
            for news in search:
                if self._left.is_set():
                    break
                self._news.put((name, news))
        except EngineFailed as problem:
            self._news.put((name, problem))
        finally:
            close: Callable[[], None] | None = getattr(search, "close", None)
            if close is not None:
                close()
            self._news.put((name, None))
