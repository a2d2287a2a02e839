"""A drawing as one list of primitives, in true millimetres of the piece; writers turn it into files.

x runs to the right, y up. Positions and lengths are mm of the piece; heights of lettering, widths of lines
and gaps are mm on the paper. `scale` is paper over piece: 0.1 for 1:10.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import cos, isfinite, radians, sin
from typing import Final

from evenface.shape.ring import Ring, ring_bounds
from evenface.shape.segment import Box, Point, Segment

TEXT_MM: Final = 3.0
SMALL_MM: Final = 2.4
ADVANCE: Final = 0.602
"""Width of every sign of the lettering over its size: it is set in a face whose signs are all as wide."""
ASCENT: Final = 0.76
DESCENT: Final = 0.24
MARGIN_MM: Final = 3.0


class Stroke(StrEnum):
    """What a line stands for; writers choose width and dashes by it."""

    VISIBLE = "visible"
    CUT = "cut"
    HIDDEN = "hidden"
    CENTRE = "centre"
    DOTTED = "dotted"
    FINE = "fine"
    HATCH = "hatch"
    ACCENT = "accent"


class Fill(StrEnum):
    """The material an area is shown as."""

    END_GRAIN = "end grain"
    LONG_GRAIN = "long grain"
    MDF = "mdf"
    PARTICLEBOARD = "particleboard"
    COMPACT = "compact"
    LAMINATE = "laminate"
    LINOLEUM = "linoleum"
    PAPER = "paper"
    GLUE = "glue"
    OFFCUT = "offcut"
    WASTE = "waste"
    PIECE = "piece"
    BAND = "band"


class Anchor(StrEnum):
    """Which end of a text stands at its point."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from (x0, y0) to (x1, y1)."""

    x0: float
    y0: float
    x1: float
    y1: float
    stroke: Stroke = Stroke.VISIBLE
    layer: str = "outline"


@dataclass(frozen=True, slots=True)
class Path:
    """Vertices (x, y, bulge); arcs stay arcs. The bulge of the last vertex counts only when closed."""

    vertices: Ring
    closed: bool = True
    stroke: Stroke = Stroke.VISIBLE
    layer: str = "outline"

    @property
    def segments(self) -> tuple[Segment, ...]:
        """Its lines and arcs, in order."""
        following = (*self.vertices[1:], self.vertices[0]) if self.closed else self.vertices[1:]
        return tuple(
            Segment(x0, y0, x1, y1, bulge)
            for (x0, y0, bulge), (x1, y1, _) in zip(self.vertices, following, strict=False)
        )


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle."""

    x: float
    y: float
    radius_mm: float
    stroke: Stroke = Stroke.VISIBLE
    layer: str = "outline"


@dataclass(frozen=True, slots=True)
class Area:
    """An area shown as a material; inner rings are left out. angle_deg : way of grain or hatching."""

    rings: tuple[Ring, ...]
    fill: Fill
    layer: str = "hatch"
    angle_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class Text:
    """Lettering: (x, y) is on its base line, size and reckoning of its box in mm of the paper."""

    x: float
    y: float
    text: str
    size_mm: float = TEXT_MM
    anchor: Anchor = Anchor.MIDDLE
    angle_deg: float = 0.0
    layer: str = "text"

    @property
    def width_mm(self) -> float:
        """How long it is on the paper."""
        return text_width_mm(self.text, self.size_mm)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measured length between two points.

    angle_deg : way of the dimension line: 0 along x, 90 along y, anything else aligned.
    on : a point of the dimension line. reach : the stretch of the line drawn, as distances along its way.
    extensions : the lines that lead from the piece to it, where lettering interrupts them in pieces.
    """

    start: Point
    end: Point
    angle_deg: float
    on: Point
    reach: tuple[float, float]
    text: Text
    extensions: tuple[tuple[Point, Point], ...] = ()
    layer: str = "dimensions"

    def foot(self, point: Point) -> Point:
        """Where a point falls square on the dimension line."""
        ux, uy = way_of(self.angle_deg)
        along = (point[0] - self.on[0]) * ux + (point[1] - self.on[1]) * uy
        return self.on[0] + along * ux, self.on[1] + along * uy

    @property
    def length_mm(self) -> float:
        """What it measures."""
        ux, uy = way_of(self.angle_deg)
        return abs((self.end[0] - self.start[0]) * ux + (self.end[1] - self.start[1]) * uy)


@dataclass(frozen=True, slots=True)
class RadiusDimension:
    """A radius: arrow at a point of the arc, from there by way of an elbow to its text."""

    centre: Point
    at: Point
    elbow: Point
    tail: Point
    text: Text
    layer: str = "dimensions"


@dataclass(frozen=True, slots=True)
class Leader:
    """A line from a dot on the thing to its label."""

    points: tuple[Point, ...]
    text: Text
    layer: str = "labels"


type Primitive = Line | Path | Circle | Area | Text | Dimension | RadiusDimension | Leader


@dataclass(frozen=True, slots=True)
class Scene:
    """A drawing ready to be written. `bounds` (least x, least y, greatest x, greatest y) in mm of the piece.

    Raises ValueError when the scale or the bounds are not finite numbers above zero.
    """

    title: str
    scale: float
    bounds: Box
    primitives: tuple[Primitive, ...]

    def __post_init__(self) -> None:
        if not (isfinite(self.scale) and self.scale > 0):
            raise ValueError(f"expected a scale above 0, was given {self.scale}")
        if not (all(map(isfinite, self.bounds)) and self.width_mm > 0 and self.height_mm > 0):
            raise ValueError(f"expected a drawing with a size, was given the bounds {self.bounds}")

    @property
    def width_mm(self) -> float:
        """On the paper."""
        return (self.bounds[2] - self.bounds[0]) * self.scale

    @property
    def height_mm(self) -> float:
        """On the paper."""
        return (self.bounds[3] - self.bounds[1]) * self.scale

    @property
    def scale_text(self) -> str:
        """As it is written on a drawing: 1:10, 1:1, 2:1."""
        return scale_text(self.scale)

    def on_layer(self, layer: str) -> tuple[Primitive, ...]:
        """What lies on one layer."""
        return tuple(one for one in self.primitives if one.layer == layer)


def scale_text(scale: float) -> str:
    """1:10 for 0.1, 2:1 for 2."""
    return f"{scale:.4g}:1" if scale >= 1 else f"1:{1 / scale:.4g}"


def way_of(angle_deg: float) -> Point:
    """Unit vector of an angle; exact for the four that drawings are full of."""
    exact = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), -90.0: (0.0, -1.0)}
    return exact.get(angle_deg) or (cos(radians(angle_deg)), sin(radians(angle_deg)))


def text_width_mm(text: str, size_mm: float) -> float:
    """How long lettering of a size is on the paper, mm."""
    return ADVANCE * size_mm * len(text)


def text_corners(text: Text, scale: float) -> tuple[Point, ...]:
    """The four corners of the box round a text, mm of the piece."""
    width = text.width_mm
    left = {Anchor.START: 0.0, Anchor.MIDDLE: -width / 2, Anchor.END: -width}[text.anchor]
    low, high = -DESCENT * text.size_mm, ASCENT * text.size_mm
    ux, uy = way_of(text.angle_deg)
    return tuple(
        (text.x + (u * ux - v * uy) / scale, text.y + (u * uy + v * ux) / scale)
        for u, v in ((left, low), (left + width, low), (left + width, high), (left, high))
    )


def text_box(text: Text, scale: float) -> Box:
    """The upright box round a text, mm of the piece."""
    return box_round(text_corners(text, scale))


def box_round(points: Iterable[Point]) -> Box:
    """The upright box round some points."""
    given = list(points)
    xs, ys = [x for x, _ in given], [y for _, y in given]
    return min(xs), min(ys), max(xs), max(ys)


def texts_of(primitives: Iterable[Primitive]) -> Iterator[Text]:
    """All lettering, that of dimensions and leaders too."""
    for one in primitives:
        if isinstance(one, Text):
            yield one
        elif isinstance(one, Dimension | RadiusDimension | Leader):
            yield one.text


def bounds_of(primitives: Sequence[Primitive], scale: float, margin_mm: float = MARGIN_MM) -> Box:
    """The box round everything drawn, with a margin in mm of the paper."""
    points = [point for one in primitives for point in _extent(one)]
    points += [corner for text in texts_of(primitives) for corner in text_corners(text, scale)]
    if not points:
        points = [(0.0, 0.0)]
    x0, y0, x1, y1 = box_round(points)
    margin = margin_mm / scale
    return x0 - margin, y0 - margin, x1 + margin, y1 + margin


def _extent(one: Primitive) -> Iterator[Point]:
    match one:
        case Line():
            yield from ((one.x0, one.y0), (one.x1, one.y1))
        case Path():
            for segment in one.segments:
                yield from (segment.box[:2], segment.box[2:])
        case Circle():
            yield from (
                (one.x - one.radius_mm, one.y - one.radius_mm),
                (one.x + one.radius_mm, one.y + one.radius_mm),
            )
        case Area():
            for ring in one.rings:
                box = ring_bounds(ring)
                yield from (box[:2], box[2:])
        case Dimension():
            ux, uy = way_of(one.angle_deg)
            yield from ((one.on[0] + ux * r, one.on[1] + uy * r) for r in one.reach)
            yield from (point for line in one.extensions for point in line)
        case RadiusDimension():
            yield from (one.at, one.elbow, one.tail)
        case Leader():
            yield from one.points
        case Text():
            return


def scene_of(title: str, scale: float, primitives: Sequence[Primitive]) -> Scene:
    """A scene round these primitives, with the usual margin."""
    return Scene(title, scale, bounds_of(primitives, scale), tuple(primitives))
