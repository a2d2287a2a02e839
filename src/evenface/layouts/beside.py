"""Searches side by side: each in a thread of its own, what they find told to one listener as it comes."""

import queue
import threading
import time
from collections.abc import Callable, Iterator, Mapping
from types import TracebackType
from typing import Self

from evenface.layouts.engine import Engine, EngineFailed

GRACE_S = 2.0


class Beside[News]:
    """Runs iterators at once, each with the engine it asks; leaving the block ends them all.

    A search that fails is told of once, as its name with the problem; a search that ends, with None.
    """

    def __init__(self, searches: Mapping[str, tuple[Engine, Iterator[News]]]) -> None:
        self._news: queue.SimpleQueue[tuple[str, News | EngineFailed | None]] = queue.SimpleQueue()
        self._engines = [engine for engine, _ in searches.values()]
        self._left = threading.Event()
        self._threads = [
            threading.Thread(target=self._run, args=(name, search), daemon=True)
            for name, (_, search) in searches.items()
        ]

    def __enter__(self) -> Self:
        for thread in self._threads:
            thread.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._left.set()
        for engine, thread in zip(self._engines, self._threads, strict=True):
            while thread.is_alive():  # a child that was just being started is ended in the next round
                engine.halt()
                thread.join(0.02)
            engine.resume()

    def heard(self, limit_s: float) -> Iterator[tuple[str, News | EngineFailed | None]]:
        """What the searches tell, until all have ended or the time is up."""
        until = time.monotonic() + limit_s + GRACE_S
        running = len(self._threads)
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
