"""What a whole piece looks like on the checker's bench: which joints are closed, what is set, dry, packed."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import Final

from evenface.words import said
from evenface.workplan.glue_ups import joined
from evenface.workplan.records import PieceToMake, Placed, Work
from evenface.workplan.rules import Rule, Told
from evenface.workplan.seams import Meets, Node, Seam, seams_of

TINY: Final = 1e-9


@dataclass(slots=True)
class WholeState:
    """The state of one piece. lacks : what a part still lacks, finish_h : when the finish of a part is dry."""

    piece: PieceToMake
    lacks: Callable[[str], tuple[str, ...]]
    finish_h: Callable[[str], float | None]
    seams: tuple[Seam, ...] = ()
    set_h: dict[int, float] = field(default_factory=dict)
    firm_h: dict[int, float] = field(default_factory=dict)
    dowels_h: dict[str, float] = field(default_factory=dict)
    levelled: set[str] = field(default_factory=set)
    level_bodies: set[frozenset[Node]] = field(default_factory=set)
    outside_h: dict[str, float] = field(default_factory=dict)
    done: set[Work] = field(default_factory=set)
    run_in: set[str] = field(default_factory=set)
    dry_fitted: bool = False
    packed: bool = False
    on_site: bool = False
    delivered: bool = False

    def __post_init__(self) -> None:
        self.seams = seams_of(self.piece)

    def holds(self, part: str) -> bool:
        """Whether that part is built in already."""
        return any(part in self._parts(self.seams[number].nodes) for number in self.set_h)

    def parts_ready(self, one: Placed) -> Told:
        """Every part of the step is faced, worked, drilled and its finish dry."""
        for part in one.step.parts:
            for what in self.lacks(part):
                yield Rule.UNREADY, said("{part} lacks this: {what:word}.", part=part, what=what)
            dry = self.finish_h(part)
            if dry is not None and one.start_h < dry - TINY:
                yield Rule.NOT_SET, said("The finish is not dry.")

    def _square(self, seams: list[Seam], one: Placed) -> Told:
        if any(seam.number not in self.set_h for seam in seams):
            yield Rule.SQUARE, said("Not everything is assembled yet.")
        elif any(one.start_h < self.set_h[seam.number] - TINY for seam in seams):
            yield Rule.SQUARE, said("Its glue has not set.")

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
        """Rigid joints of the bodies these joints touch, also by a part that is held free in one."""
        touched = {node for seam in seams for node in seam.nodes}
        touched |= {s.receiver for s in self.seams if s.meets is Meets.CAPTIVE and s.enters in touched}
        return self._rigid_of(nodes for nodes in self._bodies() if nodes & touched)

    def _body(self, node: Node) -> set[str]:
        return self._parts(next((nodes for nodes in self._bodies() if node in nodes), {node}))

    def _runs(self, body: set[str]) -> bool:
        names = {name for name, part in self.piece.ids.items() if part in body}
        return any(g.between[0] in names and g.between[1] not in names for g in self.piece.arranged.gaps)

    def _parts(self, nodes: Iterable[Node]) -> set[str]:
        ids = self.piece.ids
        return {ids[name] for name, _ in nodes}
