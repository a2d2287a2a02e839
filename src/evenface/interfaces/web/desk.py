"""A job as it lies on the desk: its text read and sketched, or every complaint and the last good sketch."""

import hashlib
import threading
from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from evenface.construction import BuiltPanel
from evenface.construction.kinds import KINDS
from evenface.finding import Change, Finding
from evenface.job.memory import Memory
from evenface.job.opening import OWN_MATERIALS, Opened
from evenface.job.sketch import sketch
from evenface.job.try_remedy import came_and_went
from evenface.materials import Catalogue, load_catalogue
from evenface.parts import Part
from evenface.piece import open_made
from evenface.piece.editing import apply_changes
from evenface.piece.one_figure import retyped
from evenface.piece.reader import read_source
from evenface.piece.records import NOTHING_MADE, Job, Made
from evenface.piece.source_text import Source, parse
from evenface.result import Sketch
from evenface.store import KeptJob

KEPT: Final = 24
"""Sketches kept ready: undo, redo and a second page then answer without reckoning."""
MEMORIES: Final = 8
"""Jobs whose panels are remembered."""

LONGEST_NAME: Final = 120
NAMELESS: Final = "Job without a name"


@dataclass(frozen=True, slots=True)
class View:
    """What a text says: opened and sketched. Never half filled in: a text with faults raises instead.

    source : the text parsed, with the places of its entries. flat : whether the sketch knows the flatness.
    """

    text: str
    source: Source
    opened: Opened
    sketch: Sketch
    flat: bool

    @property
    def name(self) -> str:
        """The name the job gives itself, as long as the list of jobs takes it."""
        return self.sketch.job.name[:LONGEST_NAME] or NAMELESS

    @property
    def panels(self) -> tuple[BuiltPanel, ...]:
        return tuple(panel for one in self.sketch.constructions for panel in one.panels)

    def part(self, part_id: str) -> tuple[Part, BuiltPanel] | None:
        """The part of that number with its panel."""
        for part, panel in zip(self.sketch.parts, self.panels, strict=True):
            if part.id == part_id:
                return part, panel
        return None


@dataclass(frozen=True, slots=True)
class Trial:
    """What a remedy would do: the text and view after it, the findings that go and that come."""

    before: View
    after: View
    gone: tuple[Finding, ...]
    new: tuple[Finding, ...]


class Desk:
    """Reads and sketches texts, the newest of them kept ready. Safe for several threads."""

    def __init__(self, home: Path | None = None) -> None:
        """home : where the sizes and ticks of jobs lie that belong to no file."""
        self.home = home
        self._live, self._full = _Shelf(), _Shelf()
        self._flat: dict[int, View] = {}

    def look(
        self, job: KeptJob, text: str | None = None, flat: bool = True, source: Source | None = None
    ) -> View:
        """The job's text, or another in its place, read and sketched. Raises FileError with every complaint.

        flat=False answers while one types: without the flatness, unless that is at hand. source : of that other
        text, where it is parsed already.
        """
        words = job.text if text is None else text
        known, made_path = _beside(job, self.home)
        key = _key(words, job, known, made_path)
        at_hand = self._full.get(key)
        if at_hand is None and flat:
            at_hand = self._full.view(key, job, self._drafted(key, job, words, source), True)
        if at_hand is None:
            return self._drafted(key, job, words, source)
        if text is None:
            self._flat[job.id] = at_hand
        return at_hand

    def last_flat(self, job: KeptJob) -> View | None:
        """The newest view of the job that knows its flatness, perhaps of an older text."""
        return self._flat.get(job.id)

    def _drafted(self, key: str, job: KeptJob, words: str, parsed: Source | None) -> View:
        found = self._live.get(key)
        if found is not None:
            return found
        source, opened = open_source(words, job, self.home, parsed)
        return self._live.view(key, job, View(words, source, opened, NOTHING, False), False)

    def change(self, job: KeptJob, changes: Sequence[Change], flat: bool = True) -> View:
        """The job with those changes made. Raises FileError: nothing is changed then."""
        quick = self._retyped(job, changes[0]) if len(changes) == 1 else None
        if quick is not None:
            return self.look(job, quick[0], flat, quick[1])
        return self.look(job, apply_changes(job.text, changes, _name(job)), flat)

    def _retyped(self, job: KeptJob, change: Change) -> tuple[str, Source] | None:
        """A figure typed anew into a text that was parsed before; None where it has to be parsed."""
        known, made_path = _beside(job, self.home)
        seen = self._live.get(_key(job.text, job, known, made_path))
        return None if seen is None else retyped(seen.source, job.text, change)

    def attempt(self, job: KeptJob, changes: Sequence[Change]) -> Trial:
        """The changes tried; nothing is kept. Raises FileError."""
        before, after = self.look(job), self.change(job, changes)
        return Trial(before, after, *came_and_went(before.sketch.findings, after.sketch.findings))


NOTHING: Final = Sketch(Job(1, "", {}, ()), NOTHING_MADE, (), (), ())
"""In a view that is still to be sketched; it never leaves this module."""


class _Shelf:
    """The newest views of one sort, and what each job remembers of its panels. Safe for several threads."""

    def __init__(self) -> None:
        self._views: OrderedDict[str, View] = OrderedDict()
        self._memories: OrderedDict[int, Memory] = OrderedDict()
        self._lock, self._sketching = threading.Lock(), threading.Lock()

    def get(self, key: str) -> View | None:
        with self._lock:
            if key in self._views:
                self._views.move_to_end(key)
            return self._views.get(key)

    def view(self, key: str, job: KeptJob, given: View, flat: bool) -> View:
        """The view sketched and kept. One sketch at a time: a memory is not for two threads."""
        with self._sketching:
            ready = self.get(key)
            if ready is not None:
                return ready
            memory = self._memories.setdefault(job.id, Memory())
            self._memories.move_to_end(job.id)
            made = replace(given, sketch=sketch(given.opened, flat, memory), flat=flat)
            with self._lock:
                self._views[key] = made
                while len(self._views) > KEPT:
                    self._views.popitem(last=False)
            while len(self._memories) > MEMORIES:
                self._memories.popitem(last=False)
            return made


def open_source(
    text: str, job: KeptJob, home: Path | None = None, parsed: Source | None = None
) -> tuple[Source, Opened]:
    """The text with the materials and the made sizes that lie beside the job's file, where it has one."""
    own, made_path = _beside(job, home)
    catalogue = load_catalogue(own)
    source = parsed or parse(text, _name(job))
    read = read_source(source, catalogue, KINDS, job.file.parent if job.file else None)
    made = _made(made_path, read, catalogue)
    hashes = {"job": _digest(text)}
    for name, file in (("made", made_path), ("materials", own)):
        if file is not None:
            hashes[name] = hashlib.sha256(file.read_bytes()).hexdigest()[:16]
    return source, Opened(read, made, catalogue, hashes)


def name_in(text: str) -> str:
    """The name a job gives itself; a plain word where it has none or cannot be read."""
    import tomllib

    try:
        named = tomllib.loads(text).get("job", {}).get("name")
    except (tomllib.TOMLDecodeError, AttributeError, RecursionError):
        named = None
    return named[:LONGEST_NAME] if isinstance(named, str) and named.strip() else NAMELESS


def made_place(job: KeptJob, home: Path | None) -> Path:
    """Where the made file of a job lies: beside its file, else in the app's own folder."""
    if job.file is not None:
        return job.file.with_name(f"{job.file.stem}.made.toml")
    return (home or Path()) / "made" / f"job-{job.id}.made.toml"


def _beside(job: KeptJob, home: Path | None) -> tuple[Path | None, Path | None]:
    made = made_place(job, home) if home is not None or job.file is not None else None
    own = job.file.parent / OWN_MATERIALS if job.file is not None else None
    return own if own and own.is_file() else None, made if made and made.is_file() else None


def _made(path: Path | None, job: Job, catalogue: Catalogue) -> Made:
    return open_made(path, job, catalogue) if path is not None else NOTHING_MADE


def _stamp(path: Path | None) -> str:
    return "" if path is None else hashlib.sha256(path.read_bytes()).hexdigest()


def _key(text: str, job: KeptJob, known: Path | None, made: Path | None) -> str:
    """What a view of that text rests on."""
    return _digest(text, *(_stamp(one) for one in (known, made)), str(job.file))


def _digest(*words: str) -> str:
    return hashlib.sha256("\0".join(words).encode("utf-8", "surrogatepass")).hexdigest()[:16]


def _name(job: KeptJob) -> str:
    return job.file.name if job.file else ""
