"""A board of solid wood on the checker's bench: what is done to it, and what each work needs to find."""

from dataclasses import dataclass
from typing import Final

from evenface.materials import Glue
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.glue_ups import joint_firm_h, joint_press_h
from evenface.workplan.records import BoardToMake, Placed, Work
from evenface.workplan.rules import Rule, Told

_FROM_THE_ENDS: Final = frozenset({Work.CLEAR_JOINT, Work.CUT_JOINT, Work.DRILL, Work.FINISH})


@dataclass(slots=True)
class BoardState:
    """The state of one board (all of its count). lined_h : when its lining may be worked."""

    to_make: BoardToMake
    glue: Glue | None
    milled: bool = False
    lined_set_h: float | None = None
    lined_firm_h: float | None = None
    to_length: bool = False
    cleared: bool = False
    joints_cut: bool = False
    drilled: bool = False
    finish_dry_h: float | None = None

    def missing(self) -> tuple[str, ...]:
        """What it still lacks, in words of the work."""
        worked = self.to_make.worked
        needs = {
            Work.MILL_BOARD: self.milled,
            Work.LINE_BOARD: self.lined_set_h is not None or self.to_make.board.board.lining is None,
            Work.CUT_LENGTH: self.to_length,
            Work.CLEAR_JOINT: self.cleared or not self._to_clear(),
            Work.CUT_JOINT: self.joints_cut
            or not any(one.diameter_mm == 0.0 and "cleared" not in one.kind for one in worked),
            Work.DRILL: self.drilled or not any(one.diameter_mm > 0.0 for one in worked),
            Work.FINISH: self.finish_dry_h is not None,
        }
        return tuple(work.value for work, done in needs.items() if not done)

    def play(self, one: Placed) -> Told:
        """Do this work, telling what stands against it."""
        work = one.step.work
        if work is not Work.MILL_BOARD and not self.milled:
            yield Rule.PRESENT, said("The board is not milled.")
        if work in _FROM_THE_ENDS and not self.to_length:
            yield Rule.PRESENT, said("The board is not cut to length.")
        if work is not Work.LINE_BOARD and self.lined_set_h is not None:
            yield from self._lining_dry(one)
        if self.finish_dry_h is not None and work is not Work.DRILL:
            yield Rule.FINISHED, said("The wood is finished already.")
        yield from self._did(one)

    def _did(self, one: Placed) -> Told:
        match one.step.work:
            case Work.MILL_BOARD:
                yield from _once(self.milled, said("The board is milled already."))
                self.milled = True
            case Work.LINE_BOARD:
                yield from self._line(one)
            case Work.CUT_LENGTH:
                yield from _once(self.to_length, said("The board has its length already."))
                self.to_length = True
            case Work.CLEAR_JOINT:
                if self.lined_set_h is None:
                    yield Rule.PRESENT, said("There is no lining yet to be cleared.")
                self.cleared = True
            case Work.CUT_JOINT:
                if self._to_clear() and not self.cleared:
                    yield Rule.CLEARED, said("The facing still covers the joint.")
                self.joints_cut = True
            case Work.DRILL:
                self.drilled = True
            case Work.FINISH:
                self.finish_dry_h = one.end_h + times.FINISH_H.nominal
            case _:
                yield Rule.PRESENT, said("That is not done to a board.")

    def _line(self, one: Placed) -> Told:
        if self.to_length:
            yield Rule.BENEATH, said("The board is lined while it is long, and cut with its lining.")
        if self.joints_cut or self.drilled:
            yield Rule.BENEATH, said("The lining would bridge a joint.")
        self.lined_set_h = one.end_h + joint_press_h(self.glue)
        self.lined_firm_h = one.end_h + joint_firm_h(self.glue)

    def _lining_dry(self, one: Placed) -> Told:
        if self.lined_set_h is not None and one.start_h < self.lined_set_h - 1e-9:
            yield Rule.NOT_SET, said("The glue of the lining has not set.")
        elif self.lined_firm_h is not None and one.start_h < self.lined_firm_h - 1e-9:
            left = self.lined_firm_h - one.start_h
            yield Rule.WET_JOINT, said("The joint needs {hours:count} h more.", hours=left)

    def _to_clear(self) -> bool:
        return any("cleared" in one.kind for one in self.to_make.worked)


def _once(done: bool, told: Said) -> Told:
    if done:
        yield Rule.TWICE, told
