"""Layouts reckoned beside the pages, with progress; a newer state or a word from the maker ends them."""

import threading
from dataclasses import dataclass
from typing import Final

from evenface.errors import Sentence
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.faults import told_beside
from evenface.job.plan import LAYOUT_BUDGET_S, plan
from evenface.layouts import Progress
from evenface.result import Result

KEPT: Final = 8


class Cancelled(Exception):
    """The maker does not want to wait for it any more."""


@dataclass(slots=True)
class Work:
    """A plan under way or done. state : running, done, cancelled or failed."""

    view: View
    state: str = "running"
    progress: Progress | None = None
    result: Result | None = None
    problem: Sentence = ""


class Planner:
    """One plan at a time for each text; what is done is kept. Safe for several threads."""

    def __init__(self, budget_s: float = LAYOUT_BUDGET_S) -> None:
        self.budget_s = budget_s
        self._works: dict[str, Work] = {}
        self._lock = threading.Lock()
        self._one = threading.Lock()

    def work(self, view: View) -> Work | None:
        """The plan of this view, if it was asked for."""
        return self._works.get(_key(view))

    def start(self, view: View) -> Work:
        """Begin, unless it is under way or done."""
        with self._lock:
            work = self.work(view)
            if work is not None and work.state in ("running", "done"):
                return work
            work = Work(view)
            for key in [k for k, one in self._works.items() if one.state != "running"][: -KEPT + 1 or None]:
                del self._works[key]
            self._works[_key(view)] = work
        threading.Thread(target=self._run, args=(work,), daemon=True).start()
        return work

    def cancel(self, view: View) -> None:
        """The page is free at once; the search itself ends at its next step or at its time limit."""
        work = self.work(view)
        if work is not None and work.state == "running":
            work.state = "cancelled"

    def result(self, view: View) -> Result:
        """The whole result, waited for."""
        with self._one:
            work = self.work(view)
            if work is None or work.result is None:
                work = Work(view, "done", result=plan(view.opened, budget_s=self.budget_s))
                self._works[_key(view)] = work
            assert work.result is not None  # just made or found
            return work.result

    def _run(self, work: Work) -> None:
        def hear(progress: Progress) -> None:
            if work.state == "cancelled":
                raise Cancelled
            work.progress = progress

        try:
            with self._one:
                if work.state == "cancelled":
                    return
                result = plan(work.view.opened, budget_s=self.budget_s, progress=hear)
        except Cancelled:
            return
        except Exception as problem:  # a thread has nobody else to tell
            work.problem, work.state = told_beside(problem), "failed"
            return
        work.result = result
        if work.state == "running":
            work.state = "done"


def _key(view: View) -> str:
    return repr(sorted(view.opened.hashes.items()))
