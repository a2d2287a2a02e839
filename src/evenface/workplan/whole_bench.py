"""A whole piece on the checker's bench: which joints are closed, what runs, hangs, is packed, is delivered.

It reads the joints of the construction and what a step says it does; not what the step says must go before it.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final

from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.glue_ups import closing_min, joined, joint_firm_h, joint_press_h, open_min
from evenface.workplan.records import PieceToMake, Placed, Work
from evenface.workplan.rules import Rule, Told
from evenface.workplan.seams import CLOSED_SEAT, Meets, Node, Seam, nodes_of, of_wood, seams_of

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
_TINY: Final = 1e-9


@dataclass(slots=True)
class Whole:
    """The state of one piece. lacks : what a part still lacks, finish_h : when the finish of a part is dry."""

    piece: PieceToMake
    lacks: Callable[[str], tuple[str, ...]]
    finish_h: Callable[[str], float | None]
    seams: tuple[Seam, ...] = ()
    set_h: dict[int, float] = field(default_factory=dict)
    firm_h: dict[int, float] = field(default_factory=dict)
    dowels_h: dict[str, float] = field(default_factory=dict)
    levelled: set[str] = field(default_factory=set)
    outside_h: dict[str, float] = field(default_factory=dict)
    done: set[Work] = field(default_factory=set)
    run_in: set[str] = field(default_factory=set)
    dry_fitted: bool = False
    packed: bool = False
    on_site: bool = False
    delivered: bool = False

    def __post_init__(self) -> None:
        self.seams = seams_of(self.piece)

    # --- what is asked of it ------------------------------------------------------------------------

    def holds(self, part: str) -> bool:
        """Whether that part is built in already."""
        return any(part in self._parts(self.seams[number].nodes) for number in self.set_h)

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

    def play(self, one: Placed) -> Told:
        """Do this work, telling what stands against it."""
        work = one.step.work
        if self.packed and work is not Work.FIT_ON_SITE:
            yield Rule.PACKED, said("The piece is packed already.")
        if work not in (Work.PACK, Work.FIT_ON_SITE) and not self.dry_fitted:
            yield Rule.UNREADY, said("The piece has not been dry fitted.")
        yield from _PLAYS[work](self, one)
        self.done.add(work)

    # --- gluing up ----------------------------------------------------------------------------------

    def set_dowels(self, one: Placed) -> Told:
        yield from self.parts_ready(one)
        for part in one.step.parts:
            if self.holds(part):
                yield Rule.ASSEMBLED, said("{part} is glued up already.", part=part)
            self.dowels_h[part] = one.end_h + joint_press_h(self.piece.glue)

    def parts_ready(self, one: Placed) -> Told:
        """Every part of the step is faced, worked, drilled and its finish dry."""
        for part in one.step.parts:
            for what in self.lacks(part):
                yield Rule.UNREADY, said("{part} lacks this: {what:word}.", part=part, what=what)
            dry = self.finish_h(part)
            if dry is not None and one.start_h < dry - _TINY:
                yield Rule.NOT_SET, said("The finish is not dry.")

    def assemble(self, one: Placed) -> Told:
        yield from self.parts_ready(one)
        seams = [self.seams[number] for number in one.step.joints]
        dry = [self.seams[number] for number in one.step.dry]
        yield from self._may_close(seams, dry, one)
        glue = self.piece.glue
        needs = closing_min(seams, len({seam.enters for seam in dry})) / max(one.step.people, 1)
        if needs > open_min(glue) + _TINY:
            yield (
                Rule.OPEN_TIME,
                said("It needs {needs} min, the glue gives {open} min.", needs=round(needs, 1), open=open_min(glue)),
            )  # fmt: skip
        for seam in (*seams, *dry):
            glued = seam.joint.glued
            self.set_h[seam.number] = one.end_h + (joint_press_h(glue) if glued else 0.0)
            self.firm_h[seam.number] = one.end_h + (joint_firm_h(glue) if glued else 0.0)

    def _may_close(self, seams: list[Seam], dry: list[Seam], one: Placed) -> Told:
        before = joined([self.seams[n] for n in self.set_h if self.seams[n].meets is Meets.RIGID])
        for seam in seams:
            if seam.number in self.set_h:
                yield Rule.TWICE, said("That joint is closed already.")
            if seam.meets is not Meets.RIGID:
                yield Rule.LOOSE, said("{part} must stay free.", part=seam.enters[0])
            if seam.joint.kind == "dowel" and seam.joint.glued:
                hour = self.dowels_h.get(self.piece.ids[seam.enters[0]])
                if hour is None:
                    yield Rule.UNREADY, said("The dowels of {part} are not in.", part=seam.enters[0])
                elif one.start_h < hour - _TINY:
                    yield Rule.NOT_SET, said("The glue of the dowels has not set.")
        for seam in dry:
            if seam.joint.glued:
                yield Rule.LEFT_OUT, said("{part} is put in without its glue.", part=seam.enters[0])
        for seam in (*seams, *dry):
            yield from self._reach(seam, before, one)
        yield from self._free_parts(seams, dry, before)

    def _reach(self, seam: Seam, before: list[frozenset[Node]], one: Placed) -> Told:
        """Nothing enters a part that is fixed to another it also has to enter; nothing in clamps is moved."""
        group = next((nodes for nodes in before if seam.receiver in nodes), frozenset[Node]())
        own = [o for o in self.seams if o.enters == seam.enters and self._at_assembly(o)]
        others = {other.receiver for other in own}
        # in grooves it slides as long as one side is open
        all_round = len(others) >= CLOSED_SEAT and others <= group
        if all_round if seam.seat else (others - {seam.receiver}) & group:
            yield Rule.CLOSED_IN, said("{part} does not go in any more.", part=seam.enters[0])
        if any(
            one.start_h < self.set_h[other.number] - _TINY
            for other in self.seams
            if other.number in self.set_h and set(other.nodes) & set(seam.nodes)
        ):
            yield Rule.NOT_SET, said("Another joint of {part} is still in clamps.", part=seam.receiver[0])

    def _at_assembly(self, seam: Seam) -> bool:
        return seam.meets in (Meets.RIGID, Meets.CAPTIVE)

    def _free_parts(self, seams: list[Seam], dry: list[Seam], before: list[frozenset[Node]]) -> Told:
        """A part that stays free in its grooves is in before the last of what holds it is on."""
        closed = {*self.set_h, *(seam.number for seam in (*seams, *dry))}
        after = joined([self.seams[n] for n in closed if self.seams[n].meets is Meets.RIGID])
        held: dict[Node, list[Seam]] = {}
        for seam in self.seams:
            if seam.meets is Meets.CAPTIVE:
                held.setdefault(seam.enters, []).append(seam)
        for node, own in held.items():
            round_it = {seam.receiver for seam in own}
            open_yet = not any(round_it <= group for group in before)
            shut = any(round_it <= group for group in after)
            if open_yet and shut and not all(seam.number in closed for seam in own):
                yield Rule.CLOSED_IN, said("{part} is not in, and nothing goes in any more.", part=node[0])

    def level(self, one: Placed) -> Told:
        for seam in self._within(one.step.parts):
            firm = self.firm_h.get(seam.number)
            if firm is None:
                yield Rule.PRESENT, said("Not all of it is assembled.")
            elif one.start_h < firm - _TINY:
                yield (
                    Rule.WET_JOINT,
                    said("The joint needs {hours:count} h more.", hours=firm - one.start_h),
                )
        for part in one.step.parts:
            if part in self.outside_h and sum(part in self._parts(n) for n in self._bodies()) == 1:
                yield Rule.FINISHED, said("The outside is finished already.")
            self.levelled.add(part)

    def finish_outside(self, one: Placed) -> Told:
        for part in one.step.parts:
            if part not in self.levelled:
                yield Rule.PROUD, said("The joints are not level yet.")
            self.outside_h[part] = one.end_h + times.FINISH_H.nominal

    # --- fitting ------------------------------------------------------------------------------------

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
            if one.start_h < dry - _TINY:
                yield Rule.NOT_SET, said("The finish is not dry.")
        for seam in self.seams:
            if seam.number not in self.set_h:
                yield Rule.PACKED, said("{part} is not in its place.", part=seam.enters[0])
            elif one.start_h < self.set_h[seam.number] - _TINY:
                yield Rule.NOT_SET, said("Glue of the piece has not set.")
        for work in self._asked() - self.done:
            yield Rule.PACKED, said("Packed without this: {what:word}.", what=work.value)
        if self.packed:
            yield Rule.TWICE, said("The piece is packed twice.")
        self.packed = True

    def fix(self, _one: Placed) -> Told:
        if not self.delivered:
            yield Rule.PACKED, said("The piece is not there yet.")
        self.on_site = True

    # --- help ---------------------------------------------------------------------------------------

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

    def _square(self, seams: list[Seam], one: Placed) -> Told:
        if any(seam.number not in self.set_h for seam in seams):
            yield Rule.SQUARE, said("Not everything is assembled yet.")
        elif any(one.start_h < self.set_h[seam.number] - _TINY for seam in seams):
            yield Rule.SQUARE, said("Its glue has not set.")

    def _outside_dry(self, rigid: list[Seam], one: Placed) -> Told:
        """Where boards meet in a glued body, its outside is finished and dry before anything loose comes to it."""
        wood = {part for s in rigid if of_wood(self.piece, s) for part in self._parts(s.nodes)}
        for part in sorted(wood):
            dry = self.outside_h.get(part)
            if dry is None:
                yield Rule.UNREADY, said("The outside of {part} is not finished.", part=part)
            elif one.start_h < dry - _TINY:
                yield Rule.NOT_SET, said("The finish is not dry.")

    def _bodies(self) -> list[frozenset[Node]]:
        return joined([seam for seam in self.seams if seam.meets is Meets.RIGID])

    def _rigid_of(self, bodies: Iterable[frozenset[Node]]) -> list[Seam]:
        known = list(bodies)
        return [
            seam
            for seam in self.seams
            if seam.meets is Meets.RIGID and any(seam.receiver in nodes for nodes in known)
        ]

    def _within(self, parts: Iterable[str]) -> list[Seam]:
        """Rigid joints of the bodies that are made of these parts alone."""
        wanted = set(parts)
        return self._rigid_of(nodes for nodes in self._bodies() if self._parts(nodes) <= wanted)

    def _around(self, seams: Iterable[Seam]) -> list[Seam]:
        """Rigid joints of the bodies these joints touch."""
        touched = {node for seam in seams for node in seam.nodes}
        return self._rigid_of(nodes for nodes in self._bodies() if nodes & touched)

    def _body(self, node: Node) -> set[str]:
        return self._parts(next((nodes for nodes in self._bodies() if node in nodes), {node}))

    def _runs(self, body: set[str]) -> bool:
        names = {name for name, part in self.piece.ids.items() if part in body}
        return any(g.between[0] in names and g.between[1] not in names for g in self.piece.arranged.gaps)

    def _parts(self, nodes: Iterable[Node]) -> set[str]:
        ids = self.piece.ids
        return {ids[name] for name, _ in nodes}


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
