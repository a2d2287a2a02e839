"""The finished edge of a panel through its thickness: how far each corner of its outline moves in at a level.

An outline is a ring of points here, its arcs split fine. A corner between an edge with a profile and one without
is not profiled: on a rounding the profile runs out along the arc.
"""

from dataclasses import dataclass, field
from math import hypot
from typing import Final

from shapely import Polygon

from evenface.construction import BuiltPanel
from evenface.construction.free_outlines import side_of, sides_of
from evenface.construction.shapes import edge_shape
from evenface.drawings.outlines import finished_outline
from evenface.drawings.solid_mesh import Plan
from evenface.piece.records import Side
from evenface.shape.arcs import sampled
from evenface.shape.edge_shape import EdgeShape
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.ring import segments_of
from evenface.shape.segment import Point, Segment

FINE_MM: Final = 0.05
"""Chords of an outline stay so near to their arcs."""
_PROFILE_FINE_MM: Final = 0.03
_HAIR: Final = 1e-6
_PARALLEL: Final = 0.2


@dataclass(frozen=True, slots=True)
class Level:
    """A height z and from which side it is looked at: a step in a profile lies twice at one height. [mm]"""

    z: float
    side: int = 0

    @property
    def looked_at(self) -> float:
        return self.z + self.side * 10 * _HAIR


@dataclass(slots=True)
class EdgeOfPanel:
    """The outline with its profiles.

    ring : points round the finished outline. ends : profiles (as numbers of `shapes`) at both ends of each side
    of the ring, -1 for none. heights : levels at which a profile begins, bends or ends.
    """

    ring: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...]
    ends: tuple[tuple[int, int, float, float], ...]
    shapes: tuple[EdgeShape, ...]
    heights: tuple[float, ...]
    thickness_mm: float
    _moves: dict[Level, list[Point]] = field(default_factory=dict)
    _numbers: dict[Point, int] = field(default_factory=dict)

    def levels(self, z0: float, z1: float) -> list[Level]:
        """Levels from z0 to z1, both included; a step is there twice."""
        found = [Level(z0, 1)]
        for z in self.heights:
            if z0 + _HAIR < z < z1 - _HAIR:
                stepped = any(
                    abs(shape.depth_at(z - 10 * _HAIR) - shape.depth_at(z + 10 * _HAIR)) > 1e-3
                    for shape in self.shapes
                )
                found += [Level(z, -1), Level(z, 1)] if stepped else [Level(z)]
        return [*found, Level(z1, -1)]

    def outline_at(self, level: Level) -> Polygon:
        """The finished outline at a level."""
        return Polygon([_plus(p, w) for p, w in zip(self.ring, self.moves(level), strict=True)], self.holes)

    def moved(self, plan: Plan, level: Level) -> Plan:
        """A plan with those of its points that lie on the outline moved in."""
        if not self.shapes:
            return plan
        return tuple(tuple(_plus(p, self._move(p, level)) for p in ring) for ring in plan)

    def moves(self, level: Level) -> list[Point]:
        """How each point of the ring moves at that level."""
        if level not in self._moves:
            z = min(max(level.looked_at, 0.0), self.thickness_mm)
            depths = [shape.depth_at(z) for shape in self.shapes] + [0.0]
            self._moves[level] = [self._corner(n, depths) for n in range(len(self.ring))]
        return self._moves[level]

    def _corner(self, n: int, depths: list[float]) -> Point:
        one, other = self._depths(n - 1, depths)[1], self._depths(n, depths)[0]
        (ax, ay), (bx, by) = self._inwards(n - 1), self._inwards(n)
        cross = ax * by - ay * bx
        if abs(cross) > _PARALLEL:
            return (one * by - other * ay) / cross, (ax * other - bx * one) / cross
        mx, my = ax + bx, ay + by
        size = hypot(mx, my) or 1.0
        return mx / size * (one + other) / 2, my / size * (one + other) / 2

    def _depths(self, n: int, depths: list[float]) -> tuple[float, float]:
        """The depth at both ends of a side of the ring: between that of two profiles along an arc."""
        first, last, from_share, to_share = self.ends[n]
        a, b = depths[first], depths[last]
        return a + (b - a) * from_share, a + (b - a) * to_share

    def _inwards(self, n: int) -> Point:
        (x0, y0), (x1, y1) = self.ring[n], self.ring[(n + 1) % len(self.ring)]
        long = hypot(x1 - x0, y1 - y0)
        return -(y1 - y0) / long, (x1 - x0) / long

    def _move(self, point: Point, level: Level) -> Point:
        place = self._place(point)
        if place is None:
            return 0.0, 0.0
        number, share = place
        moves = self.moves(level)
        if share == 0.0:
            return moves[number]
        z = min(max(level.looked_at, 0.0), self.thickness_mm)
        a, b = self._depths(number, [shape.depth_at(z) for shape in self.shapes] + [0.0])
        nx, ny = self._inwards(number)
        deep = a + (b - a) * share
        return nx * deep, ny * deep

    def _place(self, point: Point) -> tuple[int, float] | None:
        """Which side of the ring a point lies on and where; None inside."""
        if not self._numbers:
            self._numbers.update({_key(p): n for n, p in enumerate(self.ring)})
        known = self._numbers.get(_key(point))
        if known is not None:
            return known, 0.0
        for n, (x0, y0) in enumerate(self.ring):
            x1, y1 = self.ring[(n + 1) % len(self.ring)]
            dx, dy = x1 - x0, y1 - y0
            along = ((point[0] - x0) * dx + (point[1] - y0) * dy) / (dx * dx + dy * dy)
            if 0.0 < along < 1.0 and hypot(x0 + along * dx - point[0], y0 + along * dy - point[1]) < 1e-6:
                return n, along
        return None


def edge_of_panel(panel: BuiltPanel) -> EdgeOfPanel:
    """The edge with its profiles; plain where they cannot be worked, which is a finding of the checks."""
    outline = finished_outline(panel)
    try:
        made = _edge(panel, outline, _shapes_of(panel))
        if all(made.outline_at(level).is_valid for level in made.levels(0.0, panel.thickness_mm)):
            return made
    except ShapeError:
        pass
    return _edge(panel, outline, {})


def _shapes_of(panel: BuiltPanel) -> dict[Side, EdgeShape]:
    shapes = {side: edge_shape(panel, side) for side in Side}
    return {side: shape for side, shape in shapes.items() if shape.top or shape.bottom}


def _edge(panel: BuiltPanel, outline: Outline, worked: dict[Side, EdgeShape]) -> EdgeOfPanel:
    segments = segments_of(outline.outer)
    shapes = tuple(worked.values())
    number = {side: n for n, side in enumerate(worked)}
    profiles = _profile_of_each(panel, segments, number)
    ring: list[Point] = []
    ends: list[tuple[int, int, float, float]] = []
    for n, segment in enumerate(segments):
        points = sampled([segment], FINE_MM)[:-1]
        own = profiles[n]
        first, last = own if own is not None else (_known(profiles, n, -1), _known(profiles, n, 1))
        ring += points
        ends += [(first, last, k / len(points), (k + 1) / len(points)) for k in range(len(points))]
    holes = tuple(tuple(sampled(segments_of(hole), FINE_MM)) for hole in outline.holes)
    heights = {z for shape in shapes for z in _heights(shape)}
    return EdgeOfPanel(tuple(ring), holes, tuple(ends), shapes, tuple(sorted(heights)), panel.thickness_mm)


def _heights(shape: EdgeShape) -> list[float]:
    return [round(y, 6) for _, y in sampled(shape.curve(0.0, shape.thickness_mm), _PROFILE_FINE_MM)]


def _profile_of_each(
    panel: BuiltPanel, segments: tuple[Segment, ...], number: dict[Side, int]
) -> list[tuple[int, int] | None]:
    """The profile of each segment; None for a corner, which takes after its neighbours."""
    if panel.panel.outline is not None:
        return [(number.get(side, -1),) * 2 for side in sides_of(panel)]
    found: list[tuple[int, int] | None] = []
    for segment in segments:
        side = _side_of_rectangle(panel, segment)
        if side is not None:
            found.append((number.get(side, -1),) * 2)
        else:
            found.append(None if _at_corner(panel, segment) else (-1, -1))
    return found


def _known(profiles: list[tuple[int, int] | None], n: int, way: int) -> int:
    """The profile of the next segment that way that has one of its own."""
    for _ in profiles:
        n = (n + way) % len(profiles)
        near = profiles[n]
        if near is not None:
            return near[0]
    return -1


def _side_of_rectangle(panel: BuiltPanel, segment: Segment) -> Side | None:
    """The side of the rectangle a line lies on; None for arcs, bevelled corners and the walls of notches."""
    if segment.is_arc:
        return None
    at = {
        Side.FRONT: (1, 0.0),
        Side.REAR: (1, panel.width_mm),
        Side.LEFT: (0, 0.0),
        Side.RIGHT: (0, panel.length_mm),
    }
    side = side_of(segment)
    axis, level = at[side]
    return side if all(abs(point[axis] - level) < _HAIR for point in (segment.first, segment.last)) else None


def _at_corner(panel: BuiltPanel, segment: Segment) -> bool:
    """Whether it joins two sides of the rectangle, as a rounding or a bevelled corner does."""
    on_x = [min(abs(x), abs(x - panel.length_mm)) < _HAIR for x in (segment.x0, segment.x1)]
    on_y = [min(abs(y), abs(y - panel.width_mm)) < _HAIR for y in (segment.y0, segment.y1)]
    return (on_x[0] and on_y[1]) or (on_y[0] and on_x[1])


def _key(point: Point) -> Point:
    return round(point[0], 6), round(point[1], 6)


def _plus(p: Point, w: Point) -> Point:
    return p[0] + w[0], p[1] + w[1]
