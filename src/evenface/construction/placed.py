"""Where the parts of a whole piece stand, how they are joined, what lies between them, what is worked into them.

Piece coordinates in mm, as one stands before it: x from its left side to the right, y from its front to the
rear, z from the floor (or its lowest part) upwards. Part coordinates are those of a panel: x along its length,
y along its width, z towards its show face; a board lies with its grain along x.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from functools import cache
from math import dist
from typing import Final

from evenface.evidence import Value
from evenface.finding import Finding
from evenface.materials import Facing, Wood
from evenface.piece.records import Meeting, Panel, Side
from evenface.words import NOTHING, Said

type Point = tuple[float, float, float]
"""x, y, z in piece coordinates. [mm]"""

type Stretch = tuple[float, float]
"""From and to, one way. [mm]"""

HAIR_MM: Final = 1e-6
"""Sums of sizes agree to this; anything more is a mistake of the kind, not of rounding."""


class Axis(StrEnum):
    """A direction of the piece."""

    RIGHT = "+x"
    LEFT = "-x"
    REAR = "+y"
    FRONT = "-y"
    UP = "+z"
    DOWN = "-z"

    @property
    def vector(self) -> Point:
        """Its unit vector."""
        return _VECTORS[self]


_VECTORS: Final[Mapping[Axis, Point]] = {
    Axis.RIGHT: (1.0, 0.0, 0.0),
    Axis.LEFT: (-1.0, 0.0, 0.0),
    Axis.REAR: (0.0, 1.0, 0.0),
    Axis.FRONT: (0.0, -1.0, 0.0),
    Axis.UP: (0.0, 0.0, 1.0),
    Axis.DOWN: (0.0, 0.0, -1.0),
}


def across(one: Axis, other: Axis) -> Axis:
    """The third direction of a right-handed part whose x and y point along `one` and `other`.

    Raises ValueError when the two are parallel.
    """
    return _across(one, other)


@cache
def _across(one: Axis, other: Axis) -> Axis:
    a, b = one.vector, other.vector
    cross = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    found = next((axis for axis, vector in _VECTORS.items() if vector == cross), None)
    if found is None:
        raise ValueError(f"expected two directions at right angles, was given {one} and {other}")
    return found


@dataclass(frozen=True, slots=True)
class Placement:
    """One part (one of its count) where it stands.

    part : name of a panel or board of the piece. at : where its corner x = y = z = 0 stands.
    x_axis, y_axis : where its length and its width point; its show face looks along `z_axis`.
    apart : how far it is moved when the piece is drawn taken apart, mm. label : which of several
    ("left", "2 from above"). sunk : it is housed in its neighbours, so its box may enter theirs.
    """

    part: str
    at: Point
    x_axis: Axis = Axis.RIGHT
    y_axis: Axis = Axis.REAR
    apart: Point = (0.0, 0.0, 0.0)
    label: str = ""
    sunk: bool = False

    def __post_init__(self) -> None:
        across(self.x_axis, self.y_axis)

    @property
    def z_axis(self) -> Axis:
        """Where its show face looks."""
        return across(self.x_axis, self.y_axis)

    @property
    def axes(self) -> tuple[Point, Point, Point]:
        """Unit vectors of its length, its width and the way its show face looks."""
        return self.x_axis.vector, self.y_axis.vector, self.z_axis.vector

    def point(self, x: float, y: float, z: float) -> Point:
        """A point of the part in piece coordinates. [mm]"""
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.axes
        at_x, at_y, at_z = self.at
        return (
            at_x + (x * ax + y * bx + z * cx),
            at_y + (x * ay + y * by + z * cy),
            at_z + (x * az + y * bz + z * cz),
        )

    def box(self, length: float, width: float, thickness: float) -> tuple[Point, Point]:
        """Lower and upper corner of the part in piece coordinates. [mm]"""
        one, other = self.point(0.0, 0.0, 0.0), self.point(length, width, thickness)
        low = tuple(min(pair) for pair in zip(one, other, strict=True))
        high = tuple(max(pair) for pair in zip(one, other, strict=True))
        return (low[0], low[1], low[2]), (high[0], high[1], high[2])


@dataclass(frozen=True, slots=True)
class Lining:
    """A facing glued to the show face of a board, over the whole of it. thickness_mm : of the sheet; line_mm : of
    the glue. direction_deg : of the sheet against the board's length."""

    facing: str
    thickness_mm: float
    glue: str
    line_mm: float
    direction_deg: float = 0.0
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Board:
    """A part of solid wood: a rectangle with its grain along the length, finished sizes in mm.

    ends_deg : angle of its two ends seen on its face, 90 for square. use : frame, rail, side, bottom, batten.
    reasons : how its sizes came about, in reading order. lining : what is glued to its show face; thickness_mm is
    of the wood alone. wider_mm : what it is left wider when it is cut, to be planed away where it stands.
    """

    name: str
    count: int
    wood: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    cut: str = "flat"
    use: str = "rail"
    ends_deg: tuple[float, float] = (90.0, 90.0)
    reasons: tuple[Said, ...] = ()
    origin: str = ""
    lining: Lining | None = None
    wider_mm: float = 0.0

    def __post_init__(self) -> None:
        if self.count < 1:
            raise ValueError(f"expected at least one of board {self.name!r}, was given {self.count}")

    @property
    def over_mm(self) -> float:
        """Thickness over wood, glue line and lining."""
        return self.thickness_mm + (self.lining.thickness_mm + self.lining.line_mm if self.lining else 0.0)


@dataclass(frozen=True, slots=True)
class BuiltBoard:
    """A board with its wood and its lining found. count : of it in the whole job (board × piece)."""

    piece: str
    board: Board
    wood: Wood
    count: int
    facing: Facing | None = None

    @property
    def name(self) -> str:
        return self.board.name


@dataclass(frozen=True, slots=True)
class Worked:
    """Something worked into a part: groove, rebate, housing, fingers, holes, a face cleared for a joint.

    part : whose. face : "top", "bottom", or the edge it is worked into. x0_mm … y1_mm : its rectangle on that
    face in part coordinates (on an edge, x along the edge and y across the thickness). depth_mm : into it.
    diameter_mm, centres : for holes. number : of fingers or pins. joint : name of the joint it serves.
    said : what to do, with its sizes.
    """

    part: str
    kind: str
    face: str
    depth_mm: float
    x0_mm: float = 0.0
    y0_mm: float = 0.0
    x1_mm: float = 0.0
    y1_mm: float = 0.0
    diameter_mm: float = 0.0
    centres: tuple[tuple[float, float], ...] = ()
    number: int = 0
    joint: str = ""
    said: Said = NOTHING
    origin: str = ""

    def space(
        self, size_mm: Point, first: Stretch | None = None, second: Stretch | None = None
    ) -> tuple[Stretch, Stretch, Stretch]:
        """Where it lies along length, width and thickness of a part of that size. [mm]

        first, second : both ways of its rectangle, where it is not its own: of one hole of several.
        """
        first, second = first or (self.x0_mm, self.x1_mm), second or (self.y0_mm, self.y1_mm)
        low = self.face in ("left", "front", "bottom")
        whole = size_mm[0 if self.face in ("left", "right") else 1 if self.face in ("front", "rear") else 2]
        deep = (0.0, self.depth_mm) if low else (whole - self.depth_mm, whole)
        if self.face in ("left", "right"):
            return deep, first, second
        return (first, deep, second) if self.face in ("front", "rear") else (first, second, deep)


@dataclass(frozen=True, slots=True)
class Joint:
    """Two parts joined.

    kind : dowel, loose tongue, biscuit, screw, housing, mitre with tongue, fingers, groove, bridle, butt, hinge …
    between : names of the parts, the one that receives first. start, end : the line of the joint.
    enters_mm : how far the second part reaches into the first. deduction : what this takes from or adds to sizes.
    number : of dowels, screws, fingers along it. glued : whether glue holds it. area_mm2 : glued.
    moves : the second part is free to move in the first.
    """

    kind: str
    between: tuple[str, str]
    start: Point
    end: Point
    enters_mm: float = 0.0
    number: int = 0
    glued: bool = True
    area_mm2: float = 0.0
    moves: bool = False
    deduction: Said = NOTHING
    name: str = ""
    origin: str = ""

    @property
    def length_mm(self) -> float:
        return dist(self.start, self.end)


@dataclass(frozen=True, slots=True)
class Gap:
    """Air left on purpose: between two fronts, beside a drawer, round a loose panel.

    axis : the direction it is measured in. mm : as drawn. least_mm, most_mm : through the year, None where it
    does not move. between : the parts beside it ("outside" for the room).
    """

    name: str
    axis: Axis
    mm: float
    between: tuple[str, str]
    least_mm: float | None = None
    most_mm: float | None = None
    why: Said = NOTHING
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Chain:
    """Sizes and gaps in a row that together give a size of the piece.

    members : what stands in the row, with its size. total_mm : what they must give.
    Raises ValueError when they do not: the kind has reckoned wrongly.
    """

    name: str
    axis: Axis
    members: tuple[tuple[str, float], ...]
    total_mm: float

    def __post_init__(self) -> None:
        given = sum(size for _, size in self.members)
        if abs(given - self.total_mm) > HAIR_MM:
            raise ValueError(f"{self.name}: the row gives {given:.6f} mm, the piece {self.total_mm:.6f} mm")


@dataclass(frozen=True, slots=True)
class Fitting:
    """Something bought and screwed on or glued in: hinge, runner, screw, dowel, leg.

    name : generic, in the trade's words. count : in one piece. size : in words or numbers, with its unit.
    price : of one, where the maker gave it.
    """

    name: str
    count: int
    size: Said = NOTHING
    parts: tuple[str, ...] = ()
    price: Decimal | None = None
    why: Said = NOTHING
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Given:
    """Something the piece stands on or against that others make: a trestle, a wall. low, high : its box. [mm]"""

    name: str
    low: Point
    high: Point


@dataclass(frozen=True, slots=True)
class Assembly:
    """What a kind of piece gives for one description: everything later rooms know of a piece.

    size_mm : outside width (x), depth (y), height (z) of the piece; None for loose panels.
    panels and boards carry the count of one piece; every one of that count has a placement, or none has any.
    Raises ValueError when a placement, joint or worked place names no part, or placements and counts differ.
    """

    panels: tuple[Panel, ...]
    boards: tuple[Board, ...] = ()
    placements: tuple[Placement, ...] = ()
    joints: tuple[Joint, ...] = ()
    worked: tuple[Worked, ...] = ()
    gaps: tuple[Gap, ...] = ()
    chains: tuple[Chain, ...] = ()
    fittings: tuple[Fitting, ...] = ()
    findings: tuple[Finding, ...] = ()
    size_mm: Point | None = None
    given: tuple[Given, ...] = ()

    def __post_init__(self) -> None:
        counts = {panel.name: panel.count for panel in self.panels}
        counts |= {board.name: board.count for board in self.boards}
        if len(counts) != len(self.panels) + len(self.boards):
            raise ValueError("expected a name of its own for every panel and board of the piece")
        named = [placement.part for placement in self.placements]
        for name in (*named, *(worked.part for worked in self.worked)):
            if name not in counts:
                raise ValueError(f"no part of the piece is called {name!r}")
        for joint in self.joints:
            for name in joint.between:
                if name not in counts:
                    raise ValueError(f"joint {joint.kind!r}: no part of the piece is called {name!r}")
        for name, count in counts.items():
            if named and named.count(name) != count:
                raise ValueError(f"{name!r}: {count} made, {named.count(name)} placed")


@dataclass(frozen=True, slots=True)
class Arranged:
    """The assembly of a piece once its parts are built: what drawings, checks and steps read.

    The same fields as `Assembly` without the parts themselves.
    """

    placements: tuple[Placement, ...] = ()
    joints: tuple[Joint, ...] = ()
    worked: tuple[Worked, ...] = ()
    gaps: tuple[Gap, ...] = ()
    chains: tuple[Chain, ...] = ()
    fittings: tuple[Fitting, ...] = ()
    size_mm: Point | None = None
    given: tuple[Given, ...] = ()


LOOSE: Final = Arranged()
"""Panels that stand in no piece."""


@dataclass(frozen=True, slots=True)
class BuildUpSizes:
    """Thickness of a build-up as it will come out, from the catalogue or as measured. [mm]"""

    thickness_mm: float
    carrier_mm: float
    face_mm: float
    back_mm: float
    carrier: Value = field(repr=False)
    carrier_z0_mm: float = 0.0

    def height_of(self, top: Meeting, bottom: Meeting) -> float:
        """Height of an edging that meets the two faces so."""
        carrier_z1 = self.carrier_z0_mm + self.carrier_mm
        upper = self.thickness_mm if top is Meeting.FLUSH else carrier_z1
        return upper - (0.0 if bottom is Meeting.FLUSH else self.carrier_z0_mm)


def edge_side(face: str) -> Side | None:
    """The edge a `Worked.face` names; None for the two faces."""
    return Side(face) if face in set(Side) else None
