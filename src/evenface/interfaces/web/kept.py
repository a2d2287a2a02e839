"""What was made once for a state of a job, kept for the next who asks."""

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future
from typing import Any


class Kept:
    """The newest things made, by what they were made from. Safe for several threads; each is made once."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._made: OrderedDict[Hashable, Any] = OrderedDict()
        self._doors: dict[Hashable, threading.Lock] = {}
        self._begun: dict[Hashable, Future[Any]] = {}
        self._lock = threading.Lock()

    def get(self, key: Hashable, make: Callable[[], Any]) -> Any:
        """What is kept under the key, else made now; who asks meanwhile waits for it. What `make` raises, this does."""
        with self._lock:
            if key in self._made:
                self._made.move_to_end(key)
                return self._made[key]
            door = self._doors.setdefault(key, threading.Lock())
        with door:
            with self._lock:
                if key in self._made:
                    return self._made[key]
            try:
                made = make()
                with self._lock:
                    self._made[key] = made
                    while len(self._made) > self._most:
                        self._made.popitem(last=False)
            finally:
                with self._lock:
                    self._doors.pop(key, None)
        return made

    def begun(self, key: Hashable, make: Callable[[], Any]) -> Future[Any]:
        """What is kept under the key, made beside the caller once from now on. What `make` raised is told once."""
        with self._lock:
            future = self._begun.get(key)
            if future is None:
                future = self._begun[key] = Future()
                threading.Thread(target=self._make, args=(key, make, future), daemon=True).start()
            elif future.done():
                del self._begun[key]  # a fault is tried again by whoever asks next
        return future

    def _make(self, key: Hashable, make: Callable[[], Any], future: Future[Any]) -> None:
        try:
            future.set_result(self.get(key, make))
        except BaseException as fault:
            future.set_exception(fault)

    def known(self, key: Hashable) -> Any:
        """What is kept under the key, None where nothing is; nothing is made."""
        with self._lock:
            return self._made.get(key)
