"""Least distance between chains of lines and arcs, in closed form, pruned by boxes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, hypot, sin

from .crossing import boxes_apart, crossings
from .segment import Point, Segment


@dataclass(frozen=True, slots=True)
class Nearest:
    """Least distance (mm) with the two points and the two segments it was found at."""

    distance_mm: float
    point_a: Point
    point_b: Point
    segment_a: int
    segment_b: int


def least_distance(chain_a: Sequence[Segment], chain_b: Sequence[Segment]) -> Nearest:
    """Least distance between two chains of segments (rings or open), exact to rounding.

    0 where they touch or cross. Only pairs whose boxes lie nearer than the best found so far are looked at.

    Raises
    ValueError
        When a chain is empty.
    """
    if not chain_a or not chain_b:
        raise ValueError("least_distance needs at least one segment on each side")
    pairs = sorted(
        (boxes_apart(a.box, b.box), i, j) for i, a in enumerate(chain_a) for j, b in enumerate(chain_b)
    )
    best = Nearest(float("inf"), (0.0, 0.0), (0.0, 0.0), -1, -1)
    for bound, i, j in pairs:
        if bound >= best.distance_mm:
            break
        apart, p, q = segment_distance(chain_a[i], chain_b[j])
        if apart < best.distance_mm:
            best = Nearest(apart, p, q, i, j)
    return best


def segment_distance(a: Segment, b: Segment) -> tuple[float, Point, Point]:
    """Least distance between two segments and where: crossings, ends, and the common normals."""
    met = crossings(a, b, near=1e-12)
    if met:
        return 0.0, met[0], met[0]
    best = min(_from_ends(a, b), _from_ends(b, a, swap=True))
    for p, q in _common_normals(a, b):
        apart = hypot(p[0] - q[0], p[1] - q[1])
        if apart < best[0]:
            best = (apart, p, q)
    return best


def _from_ends(a: Segment, b: Segment, swap: bool = False) -> tuple[float, Point, Point]:
    found = []
    for p in (a.first, a.last):
        q = b.nearest(p)
        apart = hypot(p[0] - q[0], p[1] - q[1])
        found.append((apart, q, p) if swap else (apart, p, q))
    return min(found)


def _common_normals(a: Segment, b: Segment) -> list[tuple[Point, Point]]:
    """Pairs of inner points whose joining line is normal to both segments; two lines have none to add."""
    if a.is_arc and b.is_arc:
        return _arc_arc(a, b)
    if a.is_arc:
        return [(q, p) for p, q in _line_arc(b, a)]
    if b.is_arc:
        return _line_arc(a, b)
    return []


def _line_arc(line: Segment, arc: Segment) -> list[tuple[Point, Point]]:
    share = line.share_of((arc.cx, arc.cy))
    if not 0.0 <= share <= 1.0:
        return []
    foot = line.at(share)
    away = hypot(foot[0] - arc.cx, foot[1] - arc.cy)
    if away == 0.0:
        return []
    ux, uy = (foot[0] - arc.cx) / away, (foot[1] - arc.cy) / away
    return [(foot, p) for p in _on_arc(arc, ux, uy)]


def _arc_arc(a: Segment, b: Segment) -> list[tuple[Point, Point]]:
    dx, dy = b.cx - a.cx, b.cy - a.cy
    apart = hypot(dx, dy)
    if apart == 0.0:  # concentric: an end of one faces the other
        return []
    ux, uy = dx / apart, dy / apart
    return [(p, q) for p in _on_arc(a, ux, uy) for q in _on_arc(b, ux, uy)]


def _on_arc(arc: Segment, ux: float, uy: float) -> list[Point]:
    """The points of the arc in direction (ux, uy) and against it."""
    found = []
    for side in (1.0, -1.0):
        x, y = arc.cx + side * arc.radius * ux, arc.cy + side * arc.radius * uy
        share = arc.share_of((x, y))
        if 0.0 <= share <= 1.0:
            found.append((x, y))
    return found


def farthest_candidates(piece: Segment, other: Segment) -> list[Point]:
    """Inner points of ``piece`` at which its distance to ``other`` can be greatest.

    Taken together with the ends of ``piece`` they hold the maximum: points where ``piece`` runs square to the
    direction from the other's centre or ends, where an arc runs along a line, and where an arc's two ends are
    equally near.
    """
    found: list[Point] = []
    centres = [other.first, other.last]
    if other.is_arc:
        centres.append((other.cx, other.cy))
    for point in centres:
        found += _square_to(piece, point)
    if other.is_arc:
        found += _on_bisector(piece, other)
    elif piece.is_arc:
        dx, dy = other.heading(0.0)
        found += _on_arc(piece, -dy, dx)
    return found


def _square_to(piece: Segment, point: Point) -> list[Point]:
    if not piece.is_arc:
        share = piece.share_of(point)
        return [piece.at(share)] if 0.0 < share < 1.0 else []
    dx, dy = point[0] - piece.cx, point[1] - piece.cy
    away = hypot(dx, dy)
    return _on_arc(piece, dx / away, dy / away) if away else []


def _on_bisector(piece: Segment, arc: Segment) -> list[Point]:
    """Where ``piece`` crosses the line of points equally far from the two ends of ``arc``."""
    middle = arc.start + arc.sweep / 2
    ux, uy = cos(middle), sin(middle)
    reach = 4 * (hypot(piece.x0 - arc.cx, piece.y0 - arc.cy) + piece.length + arc.radius)
    ray = Segment(arc.cx - ux * reach, arc.cy - uy * reach, arc.cx + ux * reach, arc.cy + uy * reach)
    return crossings(piece, ray)
