"""Is this order possible? A plan is played through on the checker's own picture of each panel.

It does not read what a step says must go before it: only what the step does, and when.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from evenface.piece.records import Role
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.allowed import DUSTY, GLUING, HANDLERS, MACHINING, missing_of
from evenface.workplan.allowed_shape import finish_set, may_machine
from evenface.workplan.boards_bench import BoardState
from evenface.workplan.records import PanelToMake, PieceToMake, Placed, Step, Work
from evenface.workplan.rules import Rule, Told
from evenface.workplan.surfaces import Surfaces
from evenface.workplan.whole_bench import WHOLE, Whole


@dataclass(frozen=True, slots=True)
class Breach:
    """A step that cannot be done there; `step` is empty for something that is never done."""

    rule: Rule
    step: str
    part: str
    message: Said


def breaches(
    panels: Sequence[PanelToMake],
    placed: Sequence[Placed],
    days_lain: float = 0.0,
    without: frozenset[Rule] = frozenset(),
    pieces: Sequence[PieceToMake] = (),
) -> tuple[Breach, ...]:
    """Everything in these placed steps that cannot be done so; empty for a sound plan.

    placed : in any order; they are played by the hour they begin. without : rules left out, to ask what
    a rule is there for. pieces : as given to the deriving of the steps; with them boards and whole pieces are
    played too.
    """
    bench = _Bench(
        {one.part: Surfaces(one.panel, one.worked, one.drilled) for one in panels}, pieces, days_lain * 24.0
    )
    found: list[Breach] = []
    for one in sorted(placed, key=lambda p: p.start_h):
        told = tuple(bench.play(one))
        found += [Breach(rule, one.step.id, one.step.part, why) for rule, why in told]
    found += bench.left_out()
    return tuple(breach for breach in found if breach.rule not in without)


def one_after_another(steps: Sequence[Step]) -> tuple[Placed, ...]:
    """These steps in this order, each begun when everything before it has had its wait."""
    placed: list[Placed] = []
    clock = 0.0
    for step in steps:
        end = clock + step.hand_minutes.total / 60.0
        placed.append(Placed(step, clock, end))
        clock = end + (step.wait.most_h if step.wait is not None else 0.0)
    return tuple(placed)


class _Bench:
    """Everything of the job, and when its stock was laid up."""

    def __init__(self, panels: Mapping[str, Surfaces], pieces: Sequence[PieceToMake], lain_h: float) -> None:
        self.panels = panels
        self.boards = {one.part: BoardState(one, piece.glue) for piece in pieces for one in piece.boards}
        self.wholes = {piece.name: Whole(piece, self._lacks, self._finish_h) for piece in pieces}
        self.of = {part: piece.name for piece in pieces for part in piece.ids.values()}
        self.lain_h = lain_h
        self.laid_up_h: float | None = None
        self.fit: set[str] = set()
        self.delivered = False

    def play(self, one: Placed) -> Told:
        step = one.step
        if step.work is Work.CONDITION:
            if self.laid_up_h is not None:
                yield Rule.TWICE, said("The stock is laid up twice.")
            self.laid_up_h = one.end_h
        elif step.work is Work.DRY_FIT:
            yield from self._dry_fit(one)
        elif step.work is Work.DELIVER:
            yield from self._deliver()
        elif step.work in WHOLE and step.piece in self.wholes:
            yield from self.wholes[step.piece].play(one)
        elif step.part in self.boards:
            yield from self._on_a_board(one)
        elif step.part in self.panels and step.work in HANDLERS:
            yield from self._on_a_panel(one)
        else:
            yield Rule.PRESENT, said("There is no part {part}.", part=step.part or step.piece)

    def _on_a_panel(self, one: Placed) -> Told:
        step, panel = one.step, self.panels[one.step.part]
        yield from self._free(step.part)
        if step.work in GLUING or step.work is Work.MILL_EDGING:
            yield from self._conditioned(one, Role.FACE if step.work is Work.BOND else Role.EDGING)
        if step.work in MACHINING:
            yield from may_machine(panel, one)
        yield from HANDLERS[step.work](panel, one)
        if step.work in DUSTY:
            panel.clean.clear()

    def _on_a_board(self, one: Placed) -> Told:
        yield from self._free(one.step.part)
        if one.step.work in (Work.MILL_BOARD, Work.LINE_BOARD):
            yield from self._conditioned(one, Role.FACE if one.step.work is Work.LINE_BOARD else Role.EDGING)
        yield from self.boards[one.step.part].play(one)

    def _free(self, part: str) -> Told:
        """What is built in or packed is not worked by itself any more."""
        whole = self.wholes.get(self.of.get(part, ""))
        if whole is not None and whole.packed:
            yield Rule.PACKED, said("The piece is packed already.")
        elif whole is not None and whole.holds(part):
            yield Rule.ASSEMBLED, said("{part} is glued up already.", part=part)

    def _conditioned(self, one: Placed, joint: Role) -> Told:
        needed = max(0.0, times.conditioning_h(joint) - self.lain_h)
        lain = None if self.laid_up_h is None else one.start_h - self.laid_up_h
        if lain is None or lain < needed - 1e-9:
            yield (
                Rule.CONDITION,
                said(
                    "Glued after {lain:days} of lying together; {needed:days} are needed."
                    if one.step.work not in (Work.MILL_BOARD, Work.MILL_EDGING)
                    else "Milled after {lain:days} of lying together; {needed:days} are needed.",
                    lain=max(0.0, (lain or 0.0) + self.lain_h) / 24.0,
                    needed=(needed + self.lain_h) / 24.0,
                ),
            )

    def _lacks(self, part: str) -> tuple[str, ...]:
        if part in self.boards:
            return self.boards[part].missing()
        return missing_of(self.panels[part]) if part in self.panels else ()

    def _finish_h(self, part: str) -> float | None:
        if part in self.boards:
            return self.boards[part].finish_dry_h
        return self.panels[part].finish_dry_h if part in self.panels else None

    def _dry_fit(self, one: Placed) -> Told:
        if one.step.piece in self.fit:
            yield Rule.TWICE, said("{piece} is dry fitted twice.", piece=one.step.piece)
        self.fit.add(one.step.piece)
        for panel in self.panels.values():
            if panel.panel.piece == one.step.piece:
                for what in missing_of(panel):
                    yield Rule.LEFT_OUT, said("Dry fitted without this: {what:word}.", what=what)
                yield from finish_set(panel, one)
                if panel.unset(one.start_h):
                    yield Rule.NOT_SET, said("Glue of a panel has not set.")
        whole = self.wholes.get(one.step.piece)
        if whole is None:
            return
        whole.dry_fitted = True
        for board in whole.piece.boards:
            for what in self.boards[board.part].missing():
                yield Rule.LEFT_OUT, said("Dry fitted without this: {what:word}.", what=what)
            dry = self._finish_h(board.part)
            if dry is not None and one.start_h < dry - 1e-9:
                yield Rule.NOT_SET, said("The finish is not dry.")

    def _deliver(self) -> Told:
        if self.delivered:
            yield Rule.TWICE, said("The job is delivered twice.")
        self.delivered = True
        for name, whole in self.wholes.items():
            if not whole.packed:
                yield Rule.PACKED, said("{piece} is not packed.", piece=name)
            whole.delivered = True

    def left_out(self) -> Iterator[Breach]:
        for part, panel in self.panels.items():
            for what in missing_of(panel):
                yield Breach(Rule.LEFT_OUT, "", part, said("Never done: {what:word}.", what=what))
            if panel.panel.piece not in self.fit:
                yield Breach(Rule.LEFT_OUT, "", part, said("The piece is never dry fitted."))
        for part, board in self.boards.items():
            for what in board.missing():
                yield Breach(Rule.LEFT_OUT, "", part, said("Never done: {what:word}.", what=what))
        for whole in self.wholes.values():
            for told in whole.left_out():
                yield Breach(Rule.LEFT_OUT, "", "", told)
