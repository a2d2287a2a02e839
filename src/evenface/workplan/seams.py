"""Which of several alike parts meet in a joint, and what sort of meeting it is: read from where the parts stand."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from math import dist

from evenface.construction import Arranged, Joint
from evenface.construction.placed import HAIR_MM, Placement, Point
from evenface.workplan.records import PieceToMake

type Node = tuple[str, int]
"""A part as it stands: its name, and which of its placements."""
type Sizes = Mapping[str, tuple[float, float, float]]

CLOSED_SEAT = 4
"""A part seated on so many sides goes in before the last of them is on."""


class Meets(Enum):
    """What becomes of a joint."""

    RIGID = "glued or screwed when the piece is assembled"
    CAPTIVE = "closed without glue round a part that stays free"
    FIT = "fitted without glue afterwards"
    LOOSE = "put in loose afterwards"
    FRONT = "screwed on at the end"
    HINGE = "hung"


@dataclass(frozen=True, slots=True)
class Seam:
    """A joint between two parts as they stand. number : its place among the joints of the piece."""

    number: int
    joint: Joint
    receiver: Node
    enters: Node
    meets: Meets

    @property
    def nodes(self) -> tuple[Node, Node]:
        return self.receiver, self.enters

    @property
    def seat(self) -> bool:
        """Whether the part only lies in a groove: it takes no clamp and decides no order."""
        return self.joint.kind == "groove"


def seams_of(piece: PieceToMake) -> tuple[Seam, ...]:
    """Every joint of the piece with the parts that meet in it, in the order of the joints."""
    sizes = sizes_of(piece)
    met = list(_met(piece.arranged, sizes))
    shut = {enters for joint, one, enters in met if _shut(joint, placement_of(piece.arranged, one), sizes)}
    return tuple(
        Seam(number, joint, receiver, enters, _meets(joint, receiver, enters, met, shut))
        for number, (joint, receiver, enters) in enumerate(met)
    )


def sizes_of(piece: PieceToMake) -> Sizes:
    """Length, width and thickness of each part by its name. [mm]"""
    panels = {
        one.panel.name: (one.panel.length_mm, one.panel.width_mm, one.panel.thickness_mm)
        for one in piece.panels
    }
    boards = {
        one.board.name: (one.board.board.length_mm, one.board.board.width_mm, one.board.board.over_mm)
        for one in piece.boards
    }
    return panels | boards


def nodes_of(arranged: Arranged) -> tuple[Node, ...]:
    """Every part that stands in the piece."""
    seen: dict[str, int] = {}
    found = []
    for placement in arranged.placements:
        number = seen.get(placement.part, 0)
        seen[placement.part] = number + 1
        found.append((placement.part, number))
    return tuple(found)


def of_wood(piece: PieceToMake, seam: Seam) -> bool:
    """Whether two boards meet in it, so that the joint shows and is levelled."""
    boards = {one.board.name for one in piece.boards}
    return all(name in boards for name, _ in seam.nodes)


def placement_of(arranged: Arranged, node: Node) -> Placement:
    """Where that part stands. IndexError for a node that is none."""
    return [one for one in arranged.placements if one.part == node[0]][node[1]]


def _met(arranged: Arranged, sizes: Sizes) -> Iterator[tuple[Joint, Node, Node]]:
    for joint in arranged.joints:
        middle = tuple((a + b) / 2 for a, b in zip(joint.start, joint.end, strict=True))
        at = (middle[0], middle[1], middle[2])
        one, other = (_nearest(arranged, sizes, name, at) for name in joint.between)
        yield joint, one, other


def _nearest(arranged: Arranged, sizes: Sizes, name: str, at: Point) -> Node:
    """The placement of that part that lies nearest to a point."""
    boxes = [one.box(*sizes[name]) for one in arranged.placements if one.part == name]
    away = [dist(at, _clamped(at, low, high)) for low, high in boxes]
    return name, away.index(min(away)) if away else 0


def _clamped(at: Point, low: Point, high: Point) -> tuple[float, ...]:
    return tuple(min(max(x, a), b) for x, a, b in zip(at, low, high, strict=True))


def _shut(joint: Joint, receiver: Placement, sizes: Sizes) -> bool:
    """Whether it is a housing without glue that runs out at neither end: nothing slides into it afterwards."""
    if joint.kind != "housing" or joint.glued:
        return False
    low, high = receiver.box(*sizes[receiver.part])
    way = max(range(3), key=lambda n: abs(joint.end[n] - joint.start[n]))
    first, last = sorted((joint.start[way], joint.end[way]))
    return first > low[way] + HAIR_MM and last < high[way] - HAIR_MM


def _meets(
    joint: Joint, one: Node, other: Node, met: Sequence[tuple[Joint, Node, Node]], shut: set[Node]
) -> Meets:
    if joint.glued:
        return Meets.RIGID
    if other in shut:
        return Meets.CAPTIVE
    if joint.kind == "hinge":
        return Meets.HINGE
    if joint.kind == "screw" and not joint.moves:
        # a part held by one row of screws only is a front: it waits until its gaps can be seen
        times = min(_count(node, "screw", met) for node in (one, other))
        lone = any(_all(node, met) == 1 for node in (one, other))
        return Meets.FRONT if times == 1 and lone else Meets.RIGID
    if joint.kind == "groove" and _count(other, "groove", met) >= CLOSED_SEAT:
        return Meets.CAPTIVE
    return Meets.LOOSE if joint.moves else Meets.FIT


def _count(node: Node, kind: str, met: Sequence[tuple[Joint, Node, Node]]) -> int:
    return sum(1 for joint, *nodes in met if joint.kind == kind and node in nodes and not joint.glued)


def _all(node: Node, met: Sequence[tuple[Joint, Node, Node]]) -> int:
    return sum(1 for _, *nodes in met if node in nodes)
