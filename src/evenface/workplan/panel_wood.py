"""The wood of one panel: edging one side at a time, corner pieces, flushing, inserts."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from evenface.construction import Edging, EndKind
from evenface.piece.records import CornerAt, Insert, Meeting, Order, Role, Side
from evenface.workplan import glue_times as times
from evenface.workplan.panel_writer import PanelWriter, shaped, why_wait
from evenface.workplan.records import After, PanelToMake, Wait, Work

FACES: Final = (Role.FACE, Role.BACK)


def glued_later(edging: Edging, roles: Iterable[Role]) -> bool:
    """Whether an edging goes on after the facings: never when one of them has to lie over it."""
    meets = [edging.meets(role) for role in roles]
    return edging.order is Order.FACING_FIRST and bool(meets) and Meeting.UNDER not in meets


@dataclass(slots=True)
class WoodWriter(PanelWriter):
    """Writes the steps of a panel's wood."""

    def _edge(self, edgings: Sequence[Edging], done: list[str]) -> list[str]:
        """One side at a time: what stops against a neighbour first, what runs past it last."""
        last: list[After] = []
        out = list(done)
        for edging in sorted(edgings, key=_runs_past):
            last = self._trim_ends(_hidden(edging, self.long), done, last)
            one = self._glue(edging, done, last)
            last = [After(one, times.press_h(self.to_make.panel.edging_glue))]
            out.append(one)
        ends = tuple((side, at) for side, at in self.long if self._may_trim(side, at))
        return [*out, *(one.id for one in self._trim_ends(ends, done, last) if one not in last)]

    def _glue(self, edging: Edging, done: list[str], last: list[After]) -> str:
        glue = self.to_make.panel.edging_glue
        press = times.press_h(glue)
        before = [*self._dry(done), After(self.milled), self._conditioned(Role.EDGING), *last]
        wait = Wait("glue", press, times.flush_wait_h(glue), why_wait(times.is_wet(glue)))
        one = self.add(
            Work.GLUE_EDGING, before, sides=(edging.side,), wait=wait, length_mm=edging.outer_length_mm
        )
        self.long |= {
            (edging.side, end.at)
            for end in (edging.start, edging.end)
            if end.kind in (EndKind.FREE, EndKind.THROUGH)
            or (end.kind is EndKind.BETWEEN and _neighbour(edging.side, end.at) not in self.glued)
        }
        self.glued[edging.side] = one
        return one

    def _trim_ends(
        self, ends: Iterable[tuple[Side, CornerAt]], done: list[str], last: list[After]
    ) -> list[After]:
        """A step that trims these ends, or what came last where there are none."""
        ends = sorted(ends)
        if not ends:
            return last
        press = times.press_h(self.to_make.panel.edging_glue)
        before = [*self._dry(done), *last, *(After(self.glued[side], press) for side, _ in ends)]
        corners = tuple(at for at in CornerAt if any(at is where for _, where in ends))
        self.long -= set(ends)
        return [After(self.add(Work.TRIM_ENDS, before, corners=corners))]

    def _may_trim(self, side: Side, at: CornerAt) -> bool:
        """An end that runs past its neighbour waits for it; one that stops against it must not."""
        edging, other = self.to_make.panel.edging(side), _neighbour(side, at)
        stops = edging is not None and any(
            end.at is at and end.kind is EndKind.BETWEEN for end in (edging.start, edging.end)
        )
        return stops or other in self.glued or self.to_make.panel.edging(other) is None

    def _corner_pieces(self, done: list[str], now: bool) -> list[str]:
        if not _of_pieces(self.to_make) or not now:
            return done
        glue = self.to_make.panel.edging_glue
        press = times.press_h(glue)
        before = [*(After(one, press) for one in done), self._conditioned(Role.EDGING)]
        wait = Wait("glue", press, times.flush_wait_h(glue), why_wait(times.is_wet(glue)))
        return [*done, self.add(Work.GLUE_CORNERS, before, wait=wait)]

    def _flush(self, done: list[str]) -> list[str]:
        """Down to the carrier, on each face where nothing stands level with a sheet."""
        out = list(done)
        for role in FACES:
            low = [e for e in self.first if role not in self.roles or e.meets(role) is Meeting.UNDER]
            if low:
                length = sum(edging.outer_length_mm for edging in low)
                sides = tuple(edging.side for edging in low)
                before = self._dry(done)
                out.append(self.add(Work.FLUSH_EDGING, before, (role,), sides, length_mm=length))
        return out

    def _inserts(self, when: str, done: list[str]) -> list[str]:
        out = list(done)
        wet = self.to_make.panel.edging_glue
        wait = Wait("glue", times.press_h(wet), times.flush_wait_h(wet), why_wait(times.is_wet(wet)))
        for insert in self.to_make.panel.panel.inserts:
            if (insert.when if self.roles else "before facing") != when:
                continue
            roles = insert_roles(insert)
            recess = self.add(Work.ROUT_RECESS, [*self._dry(out)], roles, feature=insert.name)
            glue = self.add(
                Work.GLUE_INSERT,
                [After(recess), self._conditioned(Role.EDGING)],
                roles,
                feature=insert.name,
                wait=wait,
            )
            flushed = After(glue, wait.most_h)
            out.append(self.add(Work.FLUSH_INSERT, [flushed], roles, feature=insert.name))
        return out


def _of_pieces(to_make: PanelToMake) -> bool:
    """Whether a corner gets wood of its own; a clipped one has its block, unless no clip is needed."""
    unclipped = {one.at for one in to_make.panel.corners if one.fault and one.construction == "clipped"}
    return any(one.construction != "rounded" and one.at not in unclipped for one in shaped(to_make))


def insert_roles(insert: Insert) -> tuple[Role, ...]:
    """The faces at which an insert shows."""
    if insert.depth_mm is None:
        return FACES
    return (Role.FACE,) if insert.face == "top" else (Role.BACK,)


def _runs_past(edging: Edging) -> int:
    order: Mapping[EndKind, int] = {EndKind.BETWEEN: 0, EndKind.SHORT: 0, EndKind.THROUGH: 2}
    return sum(order.get(end.kind, 1) for end in (edging.start, edging.end))


def _neighbour(side: Side, at: CornerAt) -> Side:
    """The other edge of that corner."""
    return at.along_width if side is at.along_length else at.along_length


def _hidden(edging: Edging, long: Iterable[tuple[Side, CornerAt]]) -> tuple[tuple[Side, CornerAt], ...]:
    """Ends left long that this edging is about to run past."""
    past = [end.at for end in (edging.start, edging.end) if end.kind is EndKind.THROUGH]
    return tuple((side, at) for side, at in long if at in past and side is not edging.side)
