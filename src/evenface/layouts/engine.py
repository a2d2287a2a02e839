"""The parent's end of the packing engine: start it, ask it, stop it when its time is up.

A crash, a refusal, silence beyond the deadline and a line that makes no sense all end the same way: the
answers so far stay good, and `EngineFailed` says what happened.
"""

import contextlib
import json
import os
import queue
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from types import TracebackType
from typing import Any, Self

import evenface
from evenface.layouts.stock_records import LayoutError

GRACE_S = 0.2
"""How long beyond its limit the child may stay silent before it is killed; by then it has ended by itself."""
START_S = 10.0

type Answer = dict[str, Any]


class EngineFailed(LayoutError):
    """The engine crashed, refused the question or did not answer in time."""


class _Silent(EngineFailed):
    """No answer in time."""


class Engine:
    """A packing engine in a child process, started at the first question and kept for the next ones."""

    def __init__(self, command: list[str] | None = None) -> None:
        self._command = command or [sys.executable, "-P", str(Path(__file__).with_name("engine_child.py"))]
        self._child: subprocess.Popen[str] | None = None
        self._lines: queue.SimpleQueue[str | None] = queue.SimpleQueue()
        self._halted = threading.Event()
        self._spoken = self._ready = False

    def twin(self) -> "Engine":
        """Another child of the same kind, to be asked beside this one; start and close it by itself."""
        return Engine(self._command)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, problem: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @property
    def pid(self) -> int | None:
        """Process id of the child, None when it does not run."""
        child = self._child
        return child.pid if child is not None and child.poll() is None else None

    def ask(self, question: dict[str, Any], limit_s: float) -> Iterator[Answer]:
        """Answers as they come, each better than the one before; the last has the key `done` or `late`.

        The time a child takes to start is part of limit_s; the question is told what is left of it. An engine
        that overruns its time ends with its child and `late`, after all it had found.
        Raises EngineFailed after a crash, a refusal, or no word at all to limit_s + GRACE_S; the child is then gone.
        """
        until = time.monotonic() + limit_s
        self._start()
        ended = False
        try:
            self._send(question | {"limit": max(0.0, until - time.monotonic())})
            while not ended:
                try:
                    answer = self._next(until + GRACE_S)
                except _Silent:
                    if not self._spoken:
                        raise
                    answer = {"late": True}
                if "failed" in answer:
                    ended = True
                    raise EngineFailed(f"the packing engine refused: {answer['failed']}")
                self._spoken, ended = True, "done" in answer
                if "asked" not in answer:
                    yield answer
                if "late" in answer:
                    return
        finally:
            if not ended:
                self.close()

    def close(self) -> None:
        """End the child; the next question starts another."""
        child, self._child = self._child, None
        if child is None:
            return
        with contextlib.suppress(OSError):
            child.kill()
        child.wait()
        for pipe in (child.stdin, child.stdout):
            with contextlib.suppress(OSError):
                if pipe is not None:
                    pipe.close()

    def hurry(self) -> None:
        """Work as others do from now on: what it stepped back for has ended."""
        with contextlib.suppress(AttributeError, OSError):
            if self.pid is not None:
                os.sched_setscheduler(self.pid, os.SCHED_OTHER, os.sched_param(0))

    @property
    def halted(self) -> bool:
        """Whether it was told to stop and not yet to go on."""
        return self._halted.is_set()

    def halt(self) -> None:
        """End the child and start no other, whichever thread asks, until `resume`."""
        self._halted.set()
        self.close()

    def resume(self) -> None:
        """Answer questions again."""
        self._halted.clear()

    def wake(self) -> None:
        """Start the child, if none runs, and do not wait for it: soon it will be asked."""
        with contextlib.suppress(EngineFailed):
            self._launch()

    def _start(self) -> None:
        self._launch()
        if self._ready:
            return
        try:
            self._next(time.monotonic() + START_S)
        except BaseException:
            self.close()
            raise
        self._ready = True

    def _launch(self) -> None:
        if self._halted.is_set():
            raise EngineFailed("the packing engine was told to stop")
        if self.pid is not None or (self._child is not None and not self._ready):
            return
        self.close()
        here = str(Path(evenface.__file__).parents[1])
        paths = [here, *filter(None, [os.environ.get("PYTHONPATH")])]
        env = {**os.environ, "PYTHONPATH": os.pathsep.join(paths), "OMP_NUM_THREADS": "1"}
        try:
            child = subprocess.Popen(
                self._command,
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                encoding="utf-8",
                env=env,
                # not a session of its own: between sessions the kernel heeds no niceness; Ctrl-C stays away
                process_group=0,
            )
        except OSError as problem:
            raise EngineFailed(f"the packing engine could not be started: {problem}") from problem
        self._child, self._lines, self._spoken = child, queue.SimpleQueue(), False
        self._ready = False
        threading.Thread(target=_listen, args=(child, self._lines), daemon=True).start()

    def _send(self, question: dict[str, Any]) -> None:
        child = self._child
        if child is None or child.stdin is None:
            raise EngineFailed("the packing engine is gone")
        try:
            child.stdin.write(json.dumps(question) + "\n")
            child.stdin.flush()
        except OSError as problem:
            raise EngineFailed("the packing engine stopped before it was asked") from problem

    def _next(self, until: float) -> Answer:
        try:
            line = self._lines.get(timeout=max(0.0, until - time.monotonic()))
        except queue.Empty:
            raise _Silent("the packing engine did not keep its time and was stopped") from None
        if line is None:
            child = self._child
            code = child.wait() if child is not None else None
            raise EngineFailed(f"the packing engine stopped by itself (exit code {code})")
        try:
            answer = json.loads(line)
        except ValueError:
            answer = None
        if not isinstance(answer, dict):
            raise EngineFailed("the packing engine answered with something that is no answer")
        return answer


def _listen(child: "subprocess.Popen[str]", lines: "queue.SimpleQueue[str | None]") -> None:
    """Pass on each line of the child; None when there are no more."""
    with contextlib.suppress(OSError, ValueError):
        if child.stdout is not None:
            for line in child.stdout:
                lines.put(line)
    lines.put(None)
