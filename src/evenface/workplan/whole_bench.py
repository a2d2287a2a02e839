"""A whole piece on the checker's bench: assembled, fitted, hung, packed, fixed where it stands.

It reads the joints of the construction and what a step says it does; not what the step says must go before it.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from evenface.words import Said, listed, said
from evenface.workplan.records import Placed, Work
from evenface.workplan.rules import Rule, Told
from evenface.workplan.seams import Meets, Seam, nodes_of, of_wood
from evenface.workplan.whole_closing import Closing
from evenface.workplan.whole_state import TINY

WHOLE: Final = frozenset(
    {
        Work.SET_DOWELS,
        Work.ASSEMBLE,
        Work.FLUSH_JOINTS,
        Work.FINISH_OUTSIDE,
        Work.FIT_PART,
        Work.LAY_IN,
        Work.FIT_HARDWARE,
        Work.PUT_IN,
        Work.SCREW_ON,
        Work.HANG,
        Work.SET_PLACE,
        Work.PACK,
        Work.FIT_ON_SITE,
    }
)


@dataclass(slots=True)
class Whole(Closing):
    """One piece, played step by step."""

    def play(self, one: Placed) -> Told:
        """Do this work, telling what stands against it."""
        work = one.step.work
        if self.packed and work is not Work.FIT_ON_SITE:
            yield Rule.PACKED, said("The piece is packed already.")
        if work not in (Work.PACK, Work.FIT_ON_SITE) and not self.dry_fitted:
            yield Rule.UNREADY, said("The piece has not been dry fitted.")
        yield from _PLAYS[work](self, one)
        self.done.add(work)

    def left_out(self) -> Iterator[Said]:
        """What is never done, in words of the work."""
        for seam in self.seams:
            if seam.number not in self.set_h:
                yield said(
                    "Never joined: {one} and {other} ({kind:word}).",
                    one=seam.receiver[0], other=seam.enters[0], kind=seam.joint.kind,
                )  # fmt: skip
        if not self.packed:
            yield said("Never done: {what:word}.", what=Work.PACK.value)
        if not self.on_site:
            yield said("Never done: {what:word}.", what=Work.FIT_ON_SITE.value)

    def fit(self, one: Placed) -> Told:
        """Without glue, when what holds it is together, set and finished."""
        seams = [self.seams[number] for number in one.step.dry]
        yield from self.parts_ready(one)
        yield from self._square(self._around(seams), one)
        yield from self._outside_dry(self._around(seams), one)
        yield from self._join_dry(seams, one)
        for seam in one.step.joints:
            yield Rule.LOOSE, said("{part} must stay free.", part=self.seams[seam].enters[0])

    def hang(self, one: Placed) -> Told:
        """What is set to the gaps: the case is together, its back in, everything that runs in its place."""
        yield from self.everything_square(one)
        seams = [self.seams[number] for number in one.step.dry]
        for seam in self.seams:
            if seam.meets in (Meets.FIT, Meets.LOOSE) and seam.number not in self.set_h:
                yield Rule.SQUARE, said("{part} is not in yet.", part=seam.enters[0])
        for seam in seams:
            body = self._body(seam.enters)
            if seam.meets is Meets.FRONT and self._runs(body) and not body <= self.run_in:
                yield Rule.SQUARE, said("What it is screwed to does not run yet.")
        yield from self._join_dry(seams, one)

    def put_in(self, one: Placed) -> Told:
        yield from self.everything_square(one)
        yield from self._outside_dry(self._within(one.step.parts), one)
        self.run_in |= set(one.step.parts)

    def everything_square(self, one: Placed) -> Told:
        yield from self.parts_ready(one)
        yield from self._square([s for s in self.seams if s.meets is Meets.RIGID], one)

    def pack(self, one: Placed) -> Told:
        if not self.dry_fitted:
            yield Rule.PACKED, said("The piece has not been dry fitted.")
        for part in one.step.parts:
            for what in self.lacks(part):
                yield Rule.PACKED, said("{part} lacks this: {what:word}.", part=part, what=what)
            dry = max(filter(None, (self.finish_h(part), self.outside_h.get(part))), default=0.0)
            if one.start_h < dry - TINY:
                yield Rule.NOT_SET, said("The finish is not dry.")
        for seam in self.seams:
            if seam.number not in self.set_h:
                yield Rule.PACKED, said("{part} is not in its place.", part=seam.enters[0])
            elif one.start_h < self.set_h[seam.number] - TINY:
                yield Rule.NOT_SET, said("Glue of the piece has not set.")
        for body in self._bodies():
            if body not in self.level_bodies and any(of_wood(self.piece, s) for s in self._rigid_of([body])):
                parts = listed(sorted(self._parts(body)))
                yield (
                    Rule.PACKED,
                    said("{part} lacks this: {what:word}.", part=parts, what=Work.FLUSH_JOINTS.value),
                )
        for work in self._asked() - self.done:
            yield Rule.PACKED, said("Packed without this: {what:word}.", what=work.value)
        if self.packed:
            yield Rule.TWICE, said("The piece is packed twice.")
        self.packed = True

    def fix(self, _one: Placed) -> Told:
        if not self.delivered:
            yield Rule.PACKED, said("The piece is not there yet.")
        self.on_site = True

    def _asked(self) -> set[Work]:
        """Work this piece asks for besides its joints."""
        if not self.seams:
            return set()
        met = {node for seam in self.seams for node in seam.nodes}
        asked = {Work.SET_PLACE} if set(nodes_of(self.piece.arranged)) - met else set()
        if any("hinge" in one.name or "runner" in one.name for one in self.piece.arranged.fittings):
            asked.add(Work.FIT_HARDWARE)
        return asked

    def _join_dry(self, seams: list[Seam], one: Placed) -> Told:
        for seam in seams:
            if seam.number in self.set_h:
                yield Rule.TWICE, said("That joint is closed already.")
            self.set_h[seam.number] = self.firm_h[seam.number] = one.end_h

    def _outside_dry(self, rigid: list[Seam], one: Placed) -> Told:
        """Where boards meet in a glued body, its outside is finished and dry before anything loose comes to it."""
        wood = {part for s in rigid if of_wood(self.piece, s) for part in self._parts(s.nodes)}
        for part in sorted(wood):
            dry = self.outside_h.get(part)
            if dry is None:
                yield Rule.UNREADY, said("The outside of {part} is not finished.", part=part)
            elif one.start_h < dry - TINY:
                yield Rule.NOT_SET, said("The finish is not dry.")


_PLAYS: Final[Mapping[Work, Callable[[Whole, Placed], Told]]] = {
    Work.SET_DOWELS: Whole.set_dowels,
    Work.ASSEMBLE: Whole.assemble,
    Work.FLUSH_JOINTS: Whole.level,
    Work.FINISH_OUTSIDE: Whole.finish_outside,
    Work.FIT_PART: Whole.fit,
    Work.LAY_IN: Whole.fit,
    Work.FIT_HARDWARE: Whole.everything_square,
    Work.PUT_IN: Whole.put_in,
    Work.SCREW_ON: Whole.hang,
    Work.HANG: Whole.hang,
    Work.SET_PLACE: Whole.everything_square,
    Work.PACK: Whole.pack,
    Work.FIT_ON_SITE: Whole.fix,
}
