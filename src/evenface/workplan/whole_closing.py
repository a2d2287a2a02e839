"""What it takes to close the joints of a piece: parts ready, dowels in, the order in which things can be reached."""

from dataclasses import dataclass

from evenface.words import said
from evenface.workplan import glue_times as times
from evenface.workplan.glue_ups import closing_min, joined, joint_firm_h, joint_press_h, open_min
from evenface.workplan.records import Placed
from evenface.workplan.rules import Rule, Told
from evenface.workplan.seams import CLOSED_SEAT, Meets, Node, Seam
from evenface.workplan.whole_state import TINY, WholeState


@dataclass(slots=True)
class Closing(WholeState):
    """Glue-ups, and the levelling and finishing that follows them."""

    def set_dowels(self, one: Placed) -> Told:
        yield from self.parts_ready(one)
        for part in one.step.parts:
            if self._all_closed(part):
                yield Rule.ASSEMBLED, said("{part} is glued up already.", part=part)
            self.dowels_h[part] = one.end_h + joint_press_h(self.piece.glue)

    def _all_closed(self, part: str) -> bool:
        """Whether no copy of the part has a dowelled joint left to close: alike drawers are glued one by one."""
        own = [
            seam.number
            for seam in self.seams
            if seam.joint.kind == "dowel" and seam.joint.glued and self.piece.ids[seam.enters[0]] == part
        ]
        return all(number in self.set_h for number in own) if own else self.holds(part)

    def assemble(self, one: Placed) -> Told:
        yield from self.parts_ready(one)
        seams = [self.seams[number] for number in one.step.joints]
        dry = [self.seams[number] for number in one.step.dry]
        yield from self._may_close(seams, dry, one)
        glue = self.piece.glue
        needs = closing_min(seams, len({seam.enters for seam in dry})) / max(one.step.people, 1)
        if needs > open_min(glue) + TINY:
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
                elif one.start_h < hour - TINY:
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
            one.start_h < self.set_h[other.number] - TINY
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
        alike: dict[frozenset[str], list[frozenset[Node]]] = {}
        for body in self._bodies():
            if self._parts(body) <= set(one.step.parts):
                alike.setdefault(frozenset(self._parts(body)), []).append(body)
        for bodies in alike.values():
            yield from self._level_one(bodies, one)
        for part in one.step.parts:
            if part in self.outside_h and sum(part in self._parts(n) for n in self._bodies()) == 1:
                yield Rule.FINISHED, said("The outside is finished already.")
            self.levelled.add(part)

    def _level_one(self, bodies: list[frozenset[Node]], one: Placed) -> Told:
        """One of several alike bodies: the first that is together and not level yet."""
        left = [body for body in bodies if body not in self.level_bodies]
        together = [body for body in left if all(s.number in self.firm_h for s in self._rigid_of([body]))]
        if not together:
            yield Rule.PRESENT, said("Not all of it is assembled.")
            return
        firm = {body: max(self.firm_h[s.number] for s in self._rigid_of([body])) for body in together}
        body = min(together, key=lambda one: firm[one])
        self.level_bodies.add(body)
        if one.start_h < firm[body] - TINY:
            yield (
                Rule.WET_JOINT,
                said("The joint needs {hours:count} h more.", hours=firm[body] - one.start_h),
            )

    def finish_outside(self, one: Placed) -> Told:
        for part in one.step.parts:
            if part not in self.levelled:
                yield Rule.PROUD, said("The joints are not level yet.")
            self.outside_h[part] = one.end_h + times.FINISH_H.nominal
