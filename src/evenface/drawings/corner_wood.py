"""The pieces a built corner or a curved edging is made of, in plan: blocks, segments, bent strips, their grain."""

from collections.abc import Iterator
from math import asin, ceil, cos, degrees, hypot, pi, sin, tan

from evenface.construction import BuiltCorner, BuiltPanel, EdgePiece
from evenface.drawings.draft import Draft
from evenface.drawings.scene import Area, Fill, Path, Stroke
from evenface.shape.crossing import crossings
from evenface.shape.edged import Stretch
from evenface.shape.ring import Ring
from evenface.shape.segment import Point, Segment, arc_about

_LEAST_MM = 0.45  # of paper between two glue lines: below it they run together
_SHOWN_MM = 1.5  # of paper across a piece: below it its grain is not drawn


def draw_corner_wood(draft: Draft, panel: BuiltPanel, seen: bool) -> None:
    """Block, segments or strips of every built corner. seen : no facing lies over them."""
    for corner in panel.corners:
        if corner.fault or corner.radius_mm <= 0:
            continue
        place = _placing(panel, corner)
        for segment in _glue_lines(draft, corner):
            _draw_line(draft, place, segment, seen)
        if seen:
            for ring, angle in _pieces(corner):
                _draw_grain(draft, place, ring, angle)


def draw_edge_wood(draft: Draft, piece: EdgePiece, stretch: Stretch, seen: bool) -> None:
    """The joints of segments, or the glue lines of strips, in one arc of a free outline."""
    outer, inner = stretch.outer, stretch.inner
    if not outer.is_arc or inner is None or not inner.is_arc:
        return
    if piece.kind == "bent":
        arcs = _between(draft, outer.radius, inner.radius, piece.count)
        lines = [arc_about(outer.cx, outer.cy, radius, outer.start, outer.sweep) for radius in arcs]
    elif piece.kind == "segments":
        share = inner.radius / outer.radius
        joints = [outer.at(k / piece.count) for k in range(1, piece.count)]
        lines = [
            Segment(x, y, outer.cx + share * (x - outer.cx), outer.cy + share * (y - outer.cy))
            for x, y in joints
        ]
    else:
        return
    for one in lines:
        _draw_line(draft, _Placing(0.0, 1.0, 0.0, 1.0), one, seen)


class _Placing:
    """From sizes measured off a corner, along x and along y, to the panel."""

    def __init__(self, x0: float, sx: float, y0: float, sy: float) -> None:
        self.x0, self.sx, self.y0, self.sy = x0, sx, y0, sy

    def point(self, x: float, y: float) -> Point:
        return self.x0 + self.sx * x, self.y0 + self.sy * y

    def bulge(self, bulge: float) -> float:
        return bulge * self.sx * self.sy


def _placing(panel: BuiltPanel, corner: BuiltCorner) -> _Placing:
    right, rear = corner.at.value.endswith("right"), corner.at.value.startswith("rear")
    return _Placing(
        panel.length_mm if right else 0.0,
        -1.0 if right else 1.0,
        panel.width_mm if rear else 0.0,
        -1.0 if rear else 1.0,
    )


def _glue_lines(draft: Draft, corner: BuiltCorner) -> Iterator[Segment]:
    """Joints between segments, or between strips as far as they stand apart on the paper."""
    R, w = corner.radius_mm, corner.widths_mm[0]
    if corner.construction == "ring" and corner.blank is not None:
        for k in range(1, corner.blank.count):
            angle = pi + k / corner.blank.count * pi / 2
            c, s = cos(angle), sin(angle)
            yield Segment(R + R * c, R + R * s, R + (R - w) * c, R + (R - w) * s)
    elif corner.strips is not None:
        for radius in _between(draft, R, R - w, corner.strips.count):
            yield arc_about(R, R, radius, pi, pi / 2)


def _between(draft: Draft, outer: float, inner: float, count: int) -> list[float]:
    """Radii of the glue lines between `count` strips; only so many that they can be told apart."""
    thick = (outer - inner) / count
    every = max(1, ceil(_LEAST_MM / max(abs(thick) * draft.scale, 1e-9) - 1e-9))
    return [outer - k * thick for k in range(every, count, every)]


def _pieces(corner: BuiltCorner) -> Iterator[tuple[Ring, float]]:
    """Outline of each piece that has a grain of its own, off the corner, and the way of its grain in degrees."""
    R, w = corner.radius_mm, corner.widths_mm[0]
    if corner.construction == "block":
        x, y = corner.along_x[0], corner.along_y[0]
        yield _rounded([(x, y), (0.0, y)], [(x, 0.0)], R), 0.0
    elif corner.construction == "clipped":
        joint = Segment(corner.along_x[0], 0.0, 0.0, corner.along_y[0])
        if max(corner.along_x[0], corner.along_y[0]) >= R:
            yield _rounded([joint.last], [joint.first], R), 135.0
        else:
            met = sorted(crossings(joint, arc_about(R, R, R, pi, pi / 2)))
            if len(met) == 2:
                (x0, y0), (x1, y1) = met
                half = hypot(x1 - x0, y1 - y0) / 2
                yield ((x1, y1, 0.0), (x0, y0, tan(_angle(half, R) / 2))), 135.0
    elif corner.construction == "ring" and corner.blank is not None:
        count, turn = corner.blank.count, pi / 2 / corner.blank.count
        for k in range(count):
            out = arc_about(R, R, R, pi + k * turn, turn)
            back = arc_about(R, R, R - w, pi + (k + 1) * turn, -turn)
            along = pi + (k + 0.5) * turn + pi / 2
            yield (
                ((*out.first, out.bulge), (*out.last, 0.0), (*back.first, back.bulge), (*back.last, 0.0)),
                degrees(along),
            )


def _angle(half_chord: float, radius: float) -> float:
    """Half the angle an arc turns by over a chord."""
    return asin(min(1.0, half_chord / radius))


def _rounded(before: list[Point], after: list[Point], radius: float) -> Ring:
    """A ring from the points before the rounding, over the corner's arc, to those after it."""
    arc = arc_about(radius, radius, radius, pi, pi / 2)
    points = (
        [(*p, 0.0) for p in before] + [(*arc.first, arc.bulge), (*arc.last, 0.0)] + [(*p, 0.0) for p in after]
    )
    return tuple(
        p
        for k, p in enumerate(points)
        if hypot(p[0] - points[k - 1][0], p[1] - points[k - 1][1]) > 1e-9 or p[2]
    )


def _draw_line(draft: Draft, place: _Placing, s: Segment, seen: bool) -> None:
    ring = ((*place.point(s.x0, s.y0), place.bulge(s.bulge)), (*place.point(s.x1, s.y1), 0.0))
    draft.add(Path(ring, False, Stroke.FINE if seen else Stroke.HIDDEN, "edging"))


def _draw_grain(draft: Draft, place: _Placing, ring: Ring, angle_deg: float) -> None:
    xs, ys = [v[0] for v in ring], [v[1] for v in ring]
    if min(max(xs) - min(xs), max(ys) - min(ys)) * draft.scale < _SHOWN_MM:
        return
    placed = tuple((*place.point(x, y), place.bulge(bulge)) for x, y, bulge in ring)
    turned = angle_deg if place.sx * place.sy > 0 else -angle_deg
    draft.add(Area((placed,), Fill.LONG_GRAIN, "edging", turned))
