"""Is this order possible? A plan is played through on the checker's own picture of each panel.

It does not read what a step says must go before it: only what the step does, and when.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from evenface.piece.records import Role
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.allowed import (
    DUSTY,
    GLUING,
    HANDLERS,
    MACHINING,
    Rule,
    Told,
    finish_set,
    may_machine,
    missing_of,
)
from evenface.workplan.records import PanelToMake, Placed, Step, Work
from evenface.workplan.surfaces import Surfaces


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
) -> tuple[Breach, ...]:
    """Everything in these placed steps that cannot be done so; empty for a sound plan.

    placed : in any order; they are played by the hour they begin. without : rules left out, to ask what
    a rule is there for.
    """
    bench = _Bench({one.part: Surfaces(one.panel) for one in panels}, days_lain * 24.0)
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
    """All panels of the job, and when their stock was laid up."""

    def __init__(self, panels: Mapping[str, Surfaces], lain_h: float) -> None:
        self.panels = panels
        self.lain_h = lain_h
        self.laid_up_h: float | None = None
        self.fit: set[str] = set()

    def play(self, one: Placed) -> Told:
        step = one.step
        if step.work is Work.CONDITION:
            if self.laid_up_h is not None:
                yield Rule.TWICE, said("The stock is laid up twice.")
            self.laid_up_h = one.end_h
        elif step.work is Work.DRY_FIT:
            yield from self._dry_fit(one)
        elif step.part not in self.panels:
            yield Rule.PRESENT, said("There is no part {part}.", part=step.part)
        else:
            panel = self.panels[step.part]
            if step.work in GLUING:
                yield from self._conditioned(one)
            if step.work in MACHINING:
                yield from may_machine(panel, one)
            yield from HANDLERS[step.work](panel, one)
            if step.work in DUSTY:
                panel.clean.clear()

    def _conditioned(self, one: Placed) -> Told:
        joint = Role.FACE if one.step.work is Work.BOND else Role.EDGING
        needed = max(0.0, times.conditioning_h(joint) - self.lain_h)
        lain = None if self.laid_up_h is None else one.start_h - self.laid_up_h
        if lain is None or lain < needed - 1e-9:
            yield (
                Rule.CONDITION,
                said(
                    "Glued after {lain:days} of lying together; {needed:days} are needed.",
                    lain=max(0.0, (lain or 0.0) + self.lain_h) / 24.0,
                    needed=(needed + self.lain_h) / 24.0,
                ),
            )

    def _dry_fit(self, one: Placed) -> Told:
        if one.step.piece in self.fit:
            yield Rule.TWICE, said("{piece} is dry fitted twice.", piece=one.step.piece)
        self.fit.add(one.step.piece)
        for panel in self.panels.values():
            if panel.panel.piece == one.step.piece:
                for what in missing_of(panel):
                    yield Rule.LEFT_OUT, said("Dry fitted without this: {what:word}.", what=what)
                yield from finish_set(panel, one)

    def left_out(self) -> Iterator[Breach]:
        for part, panel in self.panels.items():
            for what in missing_of(panel):
                yield Breach(Rule.LEFT_OUT, "", part, said("Never done: {what:word}.", what=what))
            if panel.panel.piece not in self.fit:
                yield Breach(Rule.LEFT_OUT, "", part, said("The piece is never dry fitted."))
