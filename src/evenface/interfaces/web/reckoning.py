"""Long reckonings beside the pages: asked for by a key, with progress, ended by a word from the maker."""

import threading
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from evenface.errors import Sentence
from evenface.interfaces.web.faults import told_beside

KEPT: Final = 24
"""Answers kept ready for a second look."""


class Ended(Exception):
    """The maker does not want to wait for it any more."""


@dataclass(slots=True)
class Task:
    """A reckoning under way or done. state : running, done, cancelled or failed. said : how far it is."""

    key: str
    state: str = "running"
    said: str = ""
    value: Any = None
    problem: Sentence = ""

    def hear(self, number: int, total: int, what: str) -> None:
        """Called from inside the reckoning at each step. Raises Ended once it was stopped."""
        if self.state == "cancelled":
            raise Ended
        self.said = f"{number} / {total}: {what}"


class Reckoner:
    """One reckoning at a time; the newest answers are kept by their key. Safe for several threads."""

    def __init__(self) -> None:
        self._tasks: OrderedDict[str, Task] = OrderedDict()
        self._lock, self._one = threading.Lock(), threading.Lock()

    def ask(self, key: str, work: Callable[[Task], Any], again: bool = False) -> Task:
        """The task of that key: the one there is, or begun now. again : begin one that was stopped or failed."""
        with self._lock:
            task = self._tasks.get(key)
            if task is not None and (not again or task.state in ("running", "done")):
                self._tasks.move_to_end(key)
                return task
            task = self._tasks[key] = Task(key)
            for old in [one for one, kept in self._tasks.items() if kept.state != "running"][:-KEPT]:
                del self._tasks[old]
        threading.Thread(target=self._run, args=(task, work), daemon=True).start()
        return task

    def known(self, key: str) -> Task | None:
        """The task of that key, if it was asked for."""
        return self._tasks.get(key)

    def forget(self, key: str) -> None:
        """Let an answer go that may not hold any more; what is under way stays."""
        with self._lock:
            task = self._tasks.get(key)
            if task is not None and task.state != "running":
                del self._tasks[key]

    def stop(self, key: str) -> None:
        """The page is free at once; the reckoning itself ends at its next step."""
        task = self._tasks.get(key)
        if task is not None and task.state == "running":
            task.state = "cancelled"

    def _run(self, task: Task, work: Callable[[Task], Any]) -> None:
        try:
            with self._one:
                if task.state == "cancelled":
                    return
                task.value = work(task)
        except Ended:
            return
        except Exception as problem:  # a thread has nobody else to tell
            task.problem, task.state = told_beside(problem), "failed"
            return
        if task.state == "running":
            task.state = "done"
