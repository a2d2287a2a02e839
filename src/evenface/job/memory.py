"""What a sketch remembers of the one before, so that an edit costs what it touches and no more."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

from evenface.behaviour import Behaviour, behaviour_of, finish_of
from evenface.checks.ask import CHECKS
from evenface.checks.flatness import check_flatness
from evenface.checks.question import Asked
from evenface.construction import BuiltPanel, Construction
from evenface.construction.build import build_panel
from evenface.construction.ground import Materials
from evenface.finding import Finding
from evenface.job.opening import Opened
from evenface.parts import Part, part_of
from evenface.piece.records import Job, Made, Panel, Piece


class Memory:
    """Answers by what they are about, each with what it was given. Not for several threads at once."""

    def __init__(self) -> None:
        self._answers: dict[str, tuple[object, object]] = {}
        self._used: set[str] = set()
        self._ground: object = None
        self.hits = self.misses = 0

    def stand_on(self, ground: object) -> None:
        """What every answer rests on; another ground and nothing is remembered."""
        if self._ground != ground:
            self._answers.clear()
            self._ground = ground
        self._used.clear()

    def recall[T](self, about: str, given: object, make: Callable[[], T]) -> T:
        """The answer of last time where the same was given, else a new one. Compared, not hashed."""
        self._used.add(about)
        known = self._answers.get(about)
        if known is not None and known[0] == given:
            self.hits += 1
            return known[1]  # type: ignore[return-value]  # made by the same `make` under the same name
        self.misses += 1
        answer = make()
        self._answers[about] = (given, answer)
        return answer

    def keep(self, about: str) -> None:
        """An answer that another one rests on: not to be forgotten, though nobody asked for it."""
        self._used.add(about)

    def forget_the_rest(self) -> None:
        """Drop what was not asked for since `stand_on`: panels that are gone."""
        self._answers = {about: kept for about, kept in self._answers.items() if about in self._used}


class Remembering:
    """The steps of a sketch that concern one piece or panel, each asked of the memory first.

    A panel's answers rest on its own record and on the job's tables, never on another panel, and a piece's
    never on another piece: the ground is the job without its pieces and without the places of its entries in
    the file, and the state of the logger's file beside it.
    """

    def __init__(self, memory: Memory, opened: Opened) -> None:
        self.memory, self.opened = memory, opened
        bare = replace(opened.job, pieces=(), texts={}, name="", client="", due="")
        memory.stand_on((bare, opened.made, opened.catalogue, _logger_state(opened.job)))

    def constructed(self, piece: Piece, make: Callable[[], Construction]) -> Construction:
        """The piece as it will be built."""
        made = self.memory.recall(f"piece {piece.origin} {piece.name}", piece, make)
        for panel in made.panels:
            self.memory.keep(_about(piece, panel.panel))
        return made

    def built(
        self, job: Job, piece: Piece, panel: Panel, materials: Materials, made: Made
    ) -> tuple[BuiltPanel, tuple[Finding, ...]]:
        """The panel with everything resolved."""
        return self.memory.recall(
            _about(piece, panel),
            (piece.name, piece.count, panel),
            lambda: build_panel(job, piece, panel, materials, made),
        )

    def part(self, panel: BuiltPanel, part_id: str) -> Part:
        """The panel as a part."""
        return self.memory.recall(f"part {part_id}", panel, lambda: part_of(panel, part_id))

    def checked(self, asked: Asked) -> Iterator[Finding]:
        """What every check of a single panel has to say."""

        def ask() -> tuple[Finding, ...]:
            return tuple(finding for check in CHECKS for finding in check(asked))

        yield from self.memory.recall(f"checks {asked.part.id}", (asked.panel, asked.part), ask)

    def behaviour(self, panel: BuiltPanel) -> Behaviour:
        """The panel through the year."""
        job, made, catalogue = self.opened.job, self.opened.made, self.opened.catalogue
        return self.memory.recall(
            f"year {panel.piece} {panel.origin} {panel.name}",
            panel,
            lambda: behaviour_of(job, panel, made, finish_of(job, panel, catalogue)),
        )

    def flatness(self, panel: BuiltPanel, behaviour: Behaviour) -> tuple[Finding, ...]:
        """Whether it stays flat enough."""
        job, made, catalogue = self.opened.job, self.opened.made, self.opened.catalogue
        return self.memory.recall(
            f"flat {panel.piece} {panel.origin} {panel.name}",
            (panel, behaviour),
            lambda: tuple(check_flatness(job, [panel], [behaviour], catalogue, made)),
        )

    def forget_the_rest(self) -> None:
        """After the last panel."""
        self.memory.forget_the_rest()


def _about(piece: Piece, panel: Panel) -> str:
    return f"built {piece.origin} {panel.origin} {panel.name}"


def _logger_state(job: Job) -> int:
    """When the logger's file was last written; 0 where there is none."""
    if not (job.logger and job.file):
        return 0
    try:
        return (Path(job.file).parent / job.logger).stat().st_mtime_ns
    except (OSError, ValueError):
        return 0
