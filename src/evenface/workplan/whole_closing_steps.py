"""Gluing up a piece: dowels set, its joints closed in the order they can be reached, levelled, finished."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from evenface.words import Said, listed, said
from evenface.workplan import glue_times as times
from evenface.workplan.durations import piece_minutes, usual_minutes
from evenface.workplan.glue_ups import Body, GlueUp, joint_firm_h, joint_press_h, open_min
from evenface.workplan.records import After, Wait, Work
from evenface.workplan.seams import Seam, of_wood
from evenface.workplan.whole_writer import WholeWriter, names_of

_SET: Final = said("The glue has to hold before the piece is moved or opened.")
_DRY: Final = said("Finish has to be dry before anything lies on it.")


@dataclass(slots=True)
class ClosingWriter(WholeWriter):
    """Writes the steps that make one of several parts."""

    def _body(self, body: Body, before: list[After]) -> list[After]:
        """All glue-ups of one body, then its joints levelled and its outside finished where it is of wood."""
        dowelled = [s for up in body.glue_ups for s in up.seams if s.joint.kind == "dowel" and s.joint.glued]
        done = self._dowels(body, dowelled, before) if dowelled else list(before)
        for up in body.glue_ups:
            done = [self._glue_up(body, up, done)]
        if not self._of_wood(body):
            return done
        done = [replace(after, wait_h=max(after.wait_h, self._firm_h(body))) for after in done]
        minutes = usual_minutes(Work.FLUSH_JOINTS, self.piece.count)
        level = self._add(Work.FLUSH_JOINTS, body.nodes, minutes, done, body.name)
        cure = Wait("finish", times.FINISH_H.nominal, times.FINISH_H.high, _DRY)
        minutes = usual_minutes(Work.FINISH_OUTSIDE, self.piece.count)
        end = self._add(Work.FINISH_OUTSIDE, body.nodes, minutes, [After(level.id)], body.name, (), cure)
        return [After(end.id, cure.least_h)]

    def _of_wood(self, body: Body) -> bool:
        """Whether boards meet in it: their joints are levelled and their outside is finished."""
        return any(of_wood(self.piece, seam) for up in body.glue_ups for seam in up.seams)

    def _dowels(self, body: Body, dowelled: Sequence[Seam], before: list[After]) -> list[After]:
        press = joint_press_h(self.piece.glue)
        number = sum(seam.joint.number for seam in dowelled)
        step = self._add(
            Work.SET_DOWELS,
            {seam.enters for seam in dowelled},
            piece_minutes(Work.SET_DOWELS, self.piece.count, number),
            before,
            body.name,
            (said("{count:count} dowels, into the ends of the boards.", count=number),),
            Wait("glue", press, press, _SET),
            tuple(seam.number for seam in dowelled),
        )
        return [After(step.id, press)]

    def _firm_h(self, body: Body) -> float:
        return joint_firm_h(self.piece.glue) if any(up.glued for up in body.glue_ups) else 0.0

    def _glue_up(self, body: Body, up: GlueUp, before: list[After]) -> After:
        glue = self.piece.glue
        press = joint_press_h(glue)
        most = joint_firm_h(glue) if self._of_wood(body) else press
        wait = Wait("glue", press, most, _SET) if up.glued else None
        nodes = {node for seam in (*up.seams, *up.dry) for node in seam.nodes}
        step = self._add(
            Work.ASSEMBLE,
            nodes,
            piece_minutes(Work.ASSEMBLE, self.piece.count, up.minutes or 2.0 * len(up.seams)),
            before,
            listed(names_of(nodes)) if len(body.glue_ups) > 1 else body.name,
            tuple(_closing(up, open_min(glue), glue.title if glue is not None else "")),
            wait,
            joints=tuple(seam.number for seam in up.seams),
            dry=tuple(seam.number for seam in up.dry),
            people=up.people,
        )
        return After(step.id, press if up.glued else 0.0)


def _closing(up: GlueUp, window: float, glue: str) -> Iterator[Said]:
    """What is closed, in what time, and what goes in dry."""
    kinds: dict[str, int] = {}
    for seam in up.seams:
        kinds[seam.joint.kind] = kinds.get(seam.joint.kind, 0) + 1
    for kind, number in kinds.items():
        yield said("{number:count} × {kind:word}", number=number, kind=kind)
    for part in dict.fromkeys(seam.enters[0] for seam in up.dry):
        yield said("In before the last part is on, dry, without a drop of glue: {part}.", part=part)
    if up.glued:
        yield said(
            "One person needs {minutes} min to spread and close; {glue} gives {window} min{help}.",
            minutes=round(up.minutes, 1),
            glue=glue or "white glue",
            window=round(window, 1),
            help=said(": with a helper") if up.people > 1 else said(""),
        )
