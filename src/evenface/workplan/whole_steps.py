"""The steps of a whole piece once its parts are made: assembled, fitted, hung, packed, fixed where it stands."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from evenface.construction.placed import Fitting
from evenface.words import listed, said
from evenface.workplan.durations import piece_minutes, usual_minutes
from evenface.workplan.glue_ups import Body, bodies_of
from evenface.workplan.records import After, PieceToMake, Step, Work
from evenface.workplan.sayings import SAYINGS
from evenface.workplan.seams import Meets, Node, Seam, nodes_of, placement_of, seams_of, sizes_of
from evenface.workplan.whole_closing_steps import ClosingWriter
from evenface.workplan.whole_writer import bought, names_of

IN_JOINTS: Final = ("dowel", "biscuit", "loose tongue")


@dataclass(slots=True)
class WholeDeriver(ClosingWriter):
    """Writes the steps of one piece after its dry fit."""

    def assembled(self) -> list[Step]:
        """Everything up to the packed piece; the last step packs it."""
        seams, bodies = seams_of(self.piece), bodies_of(self.piece)
        dry_fit = list(self.done)
        last = [(body, self._body(body, dry_fit)) for body in bodies]
        runs = [(body, ends) for body, ends in last[1:] if self._runs(body, seams)]
        still = [ends for body, ends in last if body not in [one for one, _ in runs]]
        self.done = [after for ends in still for after in ends] or dry_fit
        self._each_part(Work.FIT_PART, seams, Meets.FIT)
        self._each_part(Work.LAY_IN, seams, Meets.LOOSE)
        self.done += [after for _, ends in runs for after in ends]
        below, last_in = self._lone(seams, bodies)
        self._places(below)
        self._hardware(seams)
        for body, _ in runs:
            self._add(Work.PUT_IN, body.nodes, usual_minutes(Work.PUT_IN, self.piece.count), name=body.name)
        self._each_part(Work.SCREW_ON, seams, Meets.FRONT)
        self._each_part(Work.HANG, seams, Meets.HINGE)
        self._places(last_in)
        everything = nodes_of(self.piece.arranged) or [(name, 0) for name in self.piece.ids]
        glued = {node for body in bodies for node in body.nodes}
        glued |= {seam.enters for seam in seams if seam.meets is Meets.CAPTIVE}
        things = len(bodies) + sum(
            node not in glued for node in everything
        )  # what is glued up is wrapped as one
        self._add(Work.PACK, everything, piece_minutes(Work.PACK, self.piece.count, things))
        return self.made

    def on_site(self, delivered: After) -> list[Step]:
        """What is left where the piece stands."""
        everything = nodes_of(self.piece.arranged) or [(name, 0) for name in self.piece.ids]
        walls = [one for one in self.piece.arranged.fittings if one.name.startswith("wall")]
        self.done = [delivered]
        minutes = piece_minutes(Work.FIT_ON_SITE, self.piece.count, 1 + sum(one.count for one in walls))
        self._add(Work.FIT_ON_SITE, everything, minutes, settings=bought(walls))
        return self.made[-1:]

    def _each_part(self, work: Work, seams: Sequence[Seam], meets: Meets) -> None:
        """One step for each part that is fitted so, in the order of the joints."""
        parts: dict[Node, list[Seam]] = {}
        for seam in seams:
            if seam.meets is meets:
                parts.setdefault(self._moved(seam), []).append(seam)
        for node, own in parts.items():
            names = {name for seam in own for name, _ in seam.nodes}
            fitted = [one for one in self.piece.arranged.fittings if _belongs(one, node[0], names)]
            counted = meets in (Meets.HINGE, Meets.FRONT)
            number = sum(seam.joint.number for seam in own)
            things = number if meets is Meets.HINGE else 1
            if not counted:
                things = sum(one.count for one in fitted)
            nodes = {one for seam in own for one in seam.nodes}
            self._add(
                work, nodes, piece_minutes(work, self.piece.count, things), name=node[0],
                settings=bought(fitted, number if counted else 0), dry=tuple(seam.number for seam in own),
            )  # fmt: skip

    def _moved(self, seam: Seam) -> Node:
        """The part that is brought to the other: a front to its box, else what enters."""
        return seam.receiver if seam.meets is Meets.FRONT else seam.enters

    def _hardware(self, seams: Sequence[Seam]) -> None:
        later = (Meets.FIT, Meets.LOOSE, Meets.FRONT)
        own: dict[Node, set[str]] = {}
        for seam in seams:
            if seam.meets in later:
                own.setdefault(self._moved(seam), set()).update(name for name, _ in seam.nodes)
        screwed = {
            name
            for seam in seams
            if seam.meets is Meets.RIGID and seam.joint.kind == "screw"
            for name, _ in seam.nodes
        }
        fitted = [
            one
            for one in self.piece.arranged.fittings
            if one.name not in IN_JOINTS
            and not one.name.startswith("wall")
            and not any(_belongs(one, node[0], names) for node, names in own.items())
            and not ("screw" in one.name and set(one.parts) <= screwed)
        ]
        if fitted:
            names = {name for one in fitted for name in one.parts}
            nodes = [node for node in nodes_of(self.piece.arranged) if node[0] in names]
            number = sum(one.count for one in fitted)
            minutes = piece_minutes(Work.FIT_HARDWARE, self.piece.count, number)
            self._add(Work.FIT_HARDWARE, nodes, minutes, settings=bought(fitted))

    def _runs(self, body: Body, seams: Sequence[Seam]) -> bool:
        """A body joined to no other that has air to it: it runs in it."""
        for seam in seams:
            if seam.meets is not Meets.FRONT and len(set(seam.nodes) & body.nodes) == 1:
                return False
        names = {name for name, _ in body.nodes}
        return any(
            gap.between[0] in names and gap.between[1] not in names for gap in self.piece.arranged.gaps
        )

    def _lone(self, seams: Sequence[Seam], bodies: Sequence[Body]) -> tuple[list[Node], list[Node]]:
        """Parts that meet no other: those the piece stands on, and those that go in last."""
        if not seams:
            return [], []
        met = {node for seam in seams for node in seam.nodes}
        lone = [node for node in nodes_of(self.piece.arranged) if node not in met]
        floor = min((self._low(node) for node in bodies[0].nodes), default=0.0) if bodies else 0.0
        below = [node for node in lone if self._low(node) < floor]
        return below, [node for node in lone if node not in below]

    def _low(self, node: Node) -> float:
        """Height of the lowest point of a part. [mm]"""
        low, _ = placement_of(self.piece.arranged, node).box(*sizes_of(self.piece)[node[0]])
        return low[2]

    def _places(self, lone: Sequence[Node]) -> None:
        """What meets nothing is set in its place: a base before the piece is fitted, loose shelves last."""
        if lone:
            minutes = piece_minutes(Work.SET_PLACE, self.piece.count, len(lone))
            self._add(Work.SET_PLACE, lone, minutes, name=listed(names_of(lone)))


def delivery(packed: Sequence[Step], pieces: Sequence[PieceToMake]) -> Step:
    """All pieces of the job to where they stand."""
    told = SAYINGS[Work.DELIVER]
    pieces_in_all = sum(one.count for one in pieces)
    return Step(
        id="all-02",
        work=Work.DELIVER,
        part="",
        parts=tuple(dict.fromkeys(part for step in packed for part in step.parts)),
        piece="",
        title=said("{work:word}", work=Work.DELIVER.value),
        why=told.why,
        after=tuple(After(step.id) for step in packed),
        hand_minutes=usual_minutes(Work.DELIVER, pieces_in_all),
        tools=told.tools,
        check=told.check,
        cautions=tuple(dict.fromkeys(caution for step in packed for caution in step.cautions)),
        undo_risk=told.undo,
        people=max(step.people for step in packed),
        occupies=told.occupies,
    )


def _belongs(fitting: Fitting, part: str, beside: set[str]) -> bool:
    """Whether it is for putting that part to what stands beside it."""
    return fitting.name not in IN_JOINTS and (part in fitting.parts or set(fitting.parts) <= beside)
