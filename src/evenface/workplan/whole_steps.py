"""The steps of a whole piece once its parts are made: assembled, fitted, hung, packed, fixed where it stands."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from evenface.construction.placed import Fitting
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.durations import piece_minutes, usual_minutes
from evenface.workplan.glue_ups import (
    Body,
    GlueUp,
    bodies_of,
    joint_firm_h,
    joint_press_h,
    open_min,
)
from evenface.workplan.machining import wood_lines
from evenface.workplan.piece_mass import masses_kg
from evenface.workplan.records import After, Minutes, PieceToMake, Step, Wait, Work
from evenface.workplan.safety import DUST, HEAVY, RAGS, cautions_of
from evenface.workplan.sayings import SAYINGS
from evenface.workplan.seams import Meets, Node, Seam, nodes_of, of_wood, placement_of, seams_of, sizes_of

ONE_MAN_KG: Final = 25.0
IN_JOINTS: Final = ("dowel", "biscuit", "loose tongue")
_SET: Final = said("The glue has to hold before the piece is moved or opened.")
_DRY: Final = said("Finish has to be dry before anything lies on it.")


@dataclass(slots=True)
class WholeDeriver:
    """Writes the steps of one piece after its dry fit. done : what must be before the next step."""

    piece: PieceToMake
    done: list[After]
    made: list[Step] = field(default_factory=list)

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
        self._add(Work.PACK, everything, piece_minutes(Work.PACK, self.piece.count, len(everything)))
        return self.made

    def on_site(self, delivered: After) -> list[Step]:
        """What is left where the piece stands."""
        everything = nodes_of(self.piece.arranged) or [(name, 0) for name in self.piece.ids]
        walls = [one for one in self.piece.arranged.fittings if one.name.startswith("wall")]
        self.done = [delivered]
        minutes = piece_minutes(Work.FIT_ON_SITE, self.piece.count, 1 + sum(one.count for one in walls))
        self._add(Work.FIT_ON_SITE, everything, minutes, settings=_bought(walls))
        return self.made[-1:]

    # --- gluing up ----------------------------------------------------------------------------------

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
            ", ".join(_names(nodes)) if len(body.glue_ups) > 1 else body.name,
            tuple(_closing(up, open_min(glue), glue.title if glue is not None else "")),
            wait,
            joints=tuple(seam.number for seam in up.seams),
            dry=tuple(seam.number for seam in up.dry),
            people=up.people,
        )
        return After(step.id, press if up.glued else 0.0)

    # --- fitting ------------------------------------------------------------------------------------

    def _each_part(self, work: Work, seams: Sequence[Seam], meets: Meets) -> None:
        """One step for each part that is fitted so, in the order of the joints."""
        parts: dict[Node, list[Seam]] = {}
        for seam in seams:
            if seam.meets is meets:
                parts.setdefault(self._moved(seam), []).append(seam)
        for node, own in parts.items():
            names = {name for seam in own for name, _ in seam.nodes}
            bought = [one for one in self.piece.arranged.fittings if _belongs(one, node[0], names)]
            counted = meets in (Meets.HINGE, Meets.FRONT)
            number = sum(seam.joint.number for seam in own)
            things = number if meets is Meets.HINGE else 1
            if not counted:
                things = sum(one.count for one in bought)
            nodes = {one for seam in own for one in seam.nodes}
            self._add(
                work, nodes, piece_minutes(work, self.piece.count, things), name=node[0],
                settings=_bought(bought, number if counted else 0), dry=tuple(seam.number for seam in own),
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
        bought = [
            one
            for one in self.piece.arranged.fittings
            if one.name not in IN_JOINTS
            and not one.name.startswith("wall")
            and not any(_belongs(one, node[0], names) for node, names in own.items())
            and not ("screw" in one.name and set(one.parts) <= screwed)
        ]
        if bought:
            names = {name for one in bought for name in one.parts}
            nodes = [node for node in nodes_of(self.piece.arranged) if node[0] in names]
            number = sum(one.count for one in bought)
            minutes = piece_minutes(Work.FIT_HARDWARE, self.piece.count, number)
            self._add(Work.FIT_HARDWARE, nodes, minutes, settings=_bought(bought))

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
            self._add(Work.SET_PLACE, lone, minutes, name=", ".join(_names(lone)))

    # --- a step -------------------------------------------------------------------------------------

    def _add(
        self,
        work: Work,
        nodes: Iterable[Node],
        minutes: Minutes,
        before: Sequence[After] | None = None,
        name: str = "",
        settings: tuple[Said, ...] = (),
        wait: Wait | None = None,
        joints: tuple[int, ...] = (),
        dry: tuple[int, ...] = (),
        people: int = 1,
    ) -> Step:
        told, piece = SAYINGS[work], self.piece
        nodes = sorted(nodes, key=lambda node: (list(piece.ids).index(node[0]), node[1]))
        parts = tuple(dict.fromkeys(piece.ids[node[0]] for node in nodes))
        mass = masses_kg(piece, nodes)
        step = Step(
            id=f"{piece.number}-{len(self.made) + 1:02}",
            work=work,
            part="",
            parts=parts,
            piece=piece.name,
            title=said("{work:word}: {name}", work=work.value, name=name or piece.name),
            why=told.why,
            after=tuple(self.done if before is None else before),
            hand_minutes=minutes,
            tools=told.tools,
            settings=(*settings, *wood_lines(work)),
            check=told.check,
            cautions=(*self._cautions(work), *((said(HEAVY, mass=mass),) if _lifted(work, mass) else ())),
            undo_risk=told.undo,
            people=max(people, 2 if _lifted(work, mass) else 1),
            occupies=told.occupies,
            wait=wait,
            joints=joints,
            dry=dry,
        )
        self.made.append(step)
        if before is None:
            self.done = [After(step.id)]
        return step

    def _cautions(self, work: Work) -> tuple[Said, ...]:
        if work in (Work.ASSEMBLE, Work.SET_DOWELS) and self.piece.panels:
            panel = self.piece.panels[0].panel
            glue = self.piece.glue
            return cautions_of(Work.GLUE_EDGING, replace(panel, edging_glue=glue)) if glue is not None else ()
        return {Work.FLUSH_JOINTS: (DUST,), Work.FINISH_OUTSIDE: (DUST, RAGS)}.get(work, ())


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


def _lifted(work: Work, mass: float) -> bool:
    """Whether two people are wanted because the piece has to be lifted as a whole."""
    return work in (Work.PACK, Work.DELIVER, Work.FIT_ON_SITE) and mass > ONE_MAN_KG


def _belongs(fitting: Fitting, part: str, beside: set[str]) -> bool:
    """Whether it is for putting that part to what stands beside it."""
    return fitting.name not in IN_JOINTS and (part in fitting.parts or set(fitting.parts) <= beside)


def _names(nodes: Iterable[Node]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name, _ in sorted(nodes)))


def _bought(fittings: Iterable[Fitting], number: int = 0) -> tuple[Said, ...]:
    """What is screwed on. number : of it here, where a fitting is counted for several parts together."""
    return tuple(
        said("{count:count} × {name:word}, {size}", count=number or one.count, name=one.name, size=one.size)
        for one in fittings
    )


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
