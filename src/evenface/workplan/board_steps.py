"""The steps of a board of solid wood: milled, lined, its joints cut, drilled, finished where it is closed in."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final

from evenface.construction import Worked
from evenface.construction.placed import Lining
from evenface.materials import Glue
from evenface.piece.records import Role
from evenface.words import NOTHING, Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.durations import usual_minutes
from evenface.workplan.glue_ups import joint_firm_h, joint_press_h
from evenface.workplan.machining import wood_lines
from evenface.workplan.records import After, BoardToMake, Step, Wait, Work
from evenface.workplan.safety import cautions_of_wood
from evenface.workplan.sayings import SAYINGS, title_of

CONDITION_ID: Final = "all-01"


def cleared(worked: Iterable[Worked]) -> tuple[Worked, ...]:
    """What of this is a facing taken off for a joint."""
    return tuple(one for one in worked if "cleared" in one.kind)


def cut(worked: Iterable[Worked]) -> tuple[Worked, ...]:
    """What of this is sawn or routed: grooves, housings, fingers, mitres."""
    return tuple(one for one in worked if one.diameter_mm == 0.0 and "cleared" not in one.kind)


def bored(worked: Iterable[Worked]) -> tuple[Worked, ...]:
    """What of this is drilled."""
    return tuple(one for one in worked if one.diameter_mm > 0.0)


def sentences(worked: Iterable[Worked]) -> tuple[Said, ...]:
    """What to do, each sentence once."""
    return tuple(dict.fromkeys(one.said for one in worked if one.said != NOTHING))


@dataclass(slots=True)
class BoardDeriver:
    """Writes the steps of one board. glue : of its lining."""

    to_make: BoardToMake
    lain_h: float
    glue: Glue | None
    made: list[Step] = field(default_factory=list)

    def steps(self) -> list[Step]:
        """All steps of the board; the last one ends it."""
        board, worked = self.to_make.board.board, self.to_make.worked
        length, area = board.length_mm / 1000.0, board.length_mm * board.width_mm / 1e6
        apart = max(0.0, times.conditioning_h(Role.EDGING) - self.lain_h)
        last: After | Step = self._add(Work.MILL_BOARD, After(CONDITION_ID, apart), self._sizes(), length)
        if board.lining is not None:
            rest = max(0.0, times.conditioning_h(Role.FACE) - self.lain_h)
            wait = Wait("glue", joint_press_h(self.glue), joint_firm_h(self.glue), _LINED)
            one = self._add(
                Work.LINE_BOARD, last, self._lining(board.lining), 0.0, area, wait, After(CONDITION_ID, rest)
            )
            last = After(one.id, wait.most_h)
        last = self._add(Work.CUT_LENGTH, last, self._ends(), 0.0)
        for work, places in (
            (Work.CLEAR_JOINT, cleared(worked)),
            (Work.CUT_JOINT, cut(worked)),
            (Work.DRILL, bored(worked)),
        ):
            if places:
                last = self._add(work, last, sentences(places), length)
        cure = Wait("finish", times.FINISH_H.nominal, times.FINISH_H.high, _CURED)
        self._add(Work.FINISH, last, (_INSIDE,), length, 0.0, cure)
        return self.made

    def _sizes(self) -> tuple[Said, ...]:
        board = self.to_make.board.board
        length = self.to_make.sizes.layers[0].cut_mm[0] if self.to_make.sizes is not None else board.length_mm
        return (
            said(
                "{n:count} of {length:mm} × {width:mm} × {thick:mm}; finished length {net:mm}",
                n=self.to_make.board.count,
                length=length,
                width=board.width_mm,
                thick=board.thickness_mm,
                net=board.length_mm,
            ),
        )

    def _lining(self, lining: Lining) -> tuple[Said, ...]:
        """Size of the blanks, and what is glued with what."""
        facing, sizes = self.to_make.board.facing, self.to_make.sizes
        blanks = tuple(
            said(
                "{role:word}: {n:count} of {length:mm} × {width:mm}, direction at {turned:deg} to the length",
                role="lining",
                n=self.to_make.board.count,
                length=layer.blank_mm[0],
                width=layer.blank_mm[1],
                turned=layer.direction_deg,
            )
            for layer in (sizes.layers if sizes is not None else ())
            if layer.role is Role.FACE
        )
        named = facing.title if facing is not None else lining.facing
        glue = self.glue.title if self.glue is not None else lining.glue
        return (*blanks, said("{facing}, glued with {glue}.", facing=named, glue=glue))

    def _ends(self) -> tuple[Said, ...]:
        """Length, and the angle of both ends where they are not square."""
        board = self.to_make.board.board
        length = said("{n:count} to {length:mm}", n=self.to_make.board.count, length=board.length_mm)
        if board.ends_deg == (90.0, 90.0):
            return (length,)
        one, other = board.ends_deg
        return length, said("Ends at {one:deg} and {other:deg} to the length.", one=one, other=other)

    def _add(
        self,
        work: Work,
        last: After | Step,
        settings: Sequence[Said],
        length_m: float,
        area_m2: float = 0.0,
        wait: Wait | None = None,
        more: After | None = None,
    ) -> Step:
        told, part = SAYINGS[work], self.to_make.part
        before = [After(last.id) if isinstance(last, Step) else last, *((more,) if more else ())]
        step = Step(
            id=f"{part}-{len(self.made) + 1:02}",
            work=work,
            part=part,
            parts=(part,),
            piece=self.to_make.board.piece,
            title=title_of(work),
            why=told.why,
            after=tuple(before),
            hand_minutes=usual_minutes(work, self.to_make.board.count, length_m, area_m2),
            tools=told.tools,
            settings=(*settings, *wood_lines(work, self.to_make.worked)),
            check=told.check,
            cautions=cautions_of_wood(work, self.glue),
            undo_risk=told.undo,
            occupies=told.occupies,
            wait=wait,
        )
        self.made.append(step)
        return step


_LINED: Final = said("The glue has to hold, and its water to spread, before the board is worked.")
_CURED: Final = said("The finish has to be dry before parts are laid together.")
_INSIDE: Final = said("All faces that are closed in, edges of grooves too; the places to be glued stay bare.")
