"""Closed skins of triangles: a plan with holes lofted through levels, and the lines in which its faces meet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import IntEnum
from itertools import pairwise
from math import atan2, degrees
from typing import Final

from shapely import LineString, MultiPolygon, Polygon, constrained_delaunay_triangles
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from evenface.construction.placed import Point
from evenface.shape.segment import Point as Flat

type Triangle = tuple[int, int, int]
type Line = tuple[Point, Point]
type Plan = tuple[tuple[Flat, ...], ...]
"""Outer ring counter-clockwise, then holes clockwise; a ring is not closed by its first point."""

SHARP_DEG: Final = 25.0
"""Faces that meet flatter than this are one face to the eye."""
LEAST_MM2: Final = 0.01
"""Smaller scraps of a plan are left out."""
_HAIR_MM: Final = 1e-7


@dataclass(frozen=True, slots=True)
class Mesh:
    """A closed skin, outwards counter-clockwise, in coordinates of the part. [mm]

    points : corners. triangles : three numbers of points each. lines : edges that are drawn. covered : edges that
    other layers of the part lie on.
    """

    points: tuple[Point, ...]
    triangles: tuple[Triangle, ...]
    lines: tuple[Line, ...] = ()
    covered: tuple[Line, ...] = ()

    @property
    def volume_mm3(self) -> float:
        """What the skin holds, by the divergence theorem: signed tetrahedra to the origin."""
        total = 0.0
        for i, j, k in self.triangles:
            (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.points[i], self.points[j], self.points[k]
            total += ax * (by * cz - bz * cy) - ay * (bx * cz - bz * cx) + az * (bx * cy - by * cx)
        return total / 6


def plan_of_polygon(polygon: Polygon) -> Plan:
    """The rings of a polygon, each turned so that material lies on its left."""
    turned = orient(polygon)
    rings = (turned.exterior, *turned.interiors)
    return tuple(_without_spikes([(float(x), float(y)) for x, y, *_ in ring.coords[:-1]]) for ring in rings)


def _without_spikes(ring: list[Flat]) -> tuple[Flat, ...]:
    """A ring less the points where it turns back on itself: rounding leaves such hairs along arcs."""
    left = list(ring)
    n = 0
    while n < len(left) and len(left) > 3:
        (px, py), (x, y), (qx, qy) = left[n - 1], left[n], left[(n + 1) % len(left)]
        ax, ay, bx, by = x - px, y - py, qx - x, qy - y
        back = ax * bx + ay * by < 0 and abs(ax * by - ay * bx) < _HAIR_MM * (abs(ax) + abs(ay))
        if back or abs(ax) + abs(ay) < _HAIR_MM:
            del left[n]
            n = max(n - 2, 0)
        else:
            n += 1
    return tuple(left)


def polygons_in(shape: BaseGeometry, least_mm2: float = LEAST_MM2) -> Iterator[Polygon]:
    """The polygons of a shape that are no scraps."""
    for one in getattr(shape, "geoms", [shape]):
        if isinstance(one, Polygon) and one.area > least_mm2:
            yield one
        elif isinstance(one, MultiPolygon):
            yield from polygons_in(one, least_mm2)


def as_polygon(plan: Plan) -> Polygon:
    return Polygon(plan[0], plan[1:])


class Rim(IntEnum):
    """How the border of a body at its lower or upper end shows."""

    NONE = 0
    DRAWN = 1
    COVERED = 2


DRAWN: Final = (Rim.DRAWN, Rim.DRAWN)


def loft(plans: Sequence[Plan], levels: Sequence[float], rims: tuple[Rim, Rim] = DRAWN) -> Mesh:
    """The skin through plans at levels that do not fall; every plan has rings of the same lengths.

    rims : how the lower and the upper one show.
    """
    points = [(x, y, z) for plan, z in zip(plans, levels, strict=True) for ring in plan for x, y in ring]
    count = sum(len(ring) for ring in plans[0])
    last = count * (len(plans) - 1)
    triangles = [(k, j, i) for i, j, k in _cap(plans[0])]
    triangles += [(i + last, j + last, k + last) for i, j, k in _cap(plans[-1])]
    sides = _sides(plans[0])
    for layer in range(len(plans) - 1):
        low, high = layer * count, (layer + 1) * count
        for a, b in sides:
            triangles += [(low + a, low + b, high + b), (low + a, high + b, high + a)]
    ends = [[(points[a + base], points[b + base]) for a, b in sides] for base in (0, last)]
    drawn, covered = (
        tuple(line for lines, rim in zip(ends, rims, strict=True) if rim is kind for line in lines)
        for kind in (Rim.DRAWN, Rim.COVERED)
    )
    return Mesh(tuple(points), tuple(triangles), (*drawn, *_uprights(points, plans, sides)), covered)


def _sides(plan: Plan) -> list[tuple[int, int]]:
    """The numbers of the points at both ends of every side."""
    sides, start = [], 0
    for ring in plan:
        own = range(start, start + len(ring))
        sides += list(zip(own, [*own[1:], start], strict=True))
        start += len(ring)
    return sides


def _cap(plan: Plan) -> list[Triangle]:
    """The plan in triangles, counter-clockwise."""
    number = {point: n for n, point in enumerate(point for ring in plan for point in ring)}
    found = []
    for piece in polygons_in(constrained_delaunay_triangles(as_polygon(plan)), 0.0):
        a, b, c = ((float(x), float(y)) for x, y, *_ in piece.exterior.coords[:3])
        turn = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
        i, j, k = number[a], number[b], number[c]
        found.append((i, j, k) if turn > 0 else (i, k, j))
    return found


def _uprights(points: Sequence[Point], plans: Sequence[Plan], sides: Sequence[tuple[int, int]]) -> list[Line]:
    """Corners of the plan from level to level, and the creases of the wall."""
    count, found = len(sides), []
    for number in _sharp(plans[0]):
        ups = [points[number + layer * count] for layer in range(len(plans))]
        found += [pair for pair in pairwise(ups) if pair[0] != pair[1]]
    for layer in range(1, len(plans) - 1):
        found += _creases(points, sides, layer * count, count)
    return found


def _creases(points: Sequence[Point], sides: Sequence[tuple[int, int]], base: int, count: int) -> list[Line]:
    """Lines along a level where the wall turns sharply."""
    sharp = {
        n
        for n in range(count)
        if _turns(points[base - count + n], points[base + n], points[base + count + n])
    }
    return [(points[base + a], points[base + b]) for a, b in sides if a in sharp and b in sharp]


def _turns(below: Point, here: Point, above: Point) -> bool:
    """Whether three points one above the other bend by more than a face may."""
    (ax, ay, az), (bx, by, bz) = (
        tuple(q - p for p, q in zip(one, other, strict=True)) for one, other in ((below, here), (here, above))
    )
    cross = (ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx)
    size = sum(n * n for n in cross) ** 0.5
    return degrees(atan2(size, ax * bx + ay * by + az * bz)) > SHARP_DEG


def _sharp(plan: Plan) -> list[int]:
    """The corners of a plan that show as upright lines."""
    found, start = [], 0
    for ring in plan:
        for n, (x, y) in enumerate(ring):
            (px, py), (qx, qy) = ring[n - 1], ring[(n + 1) % len(ring)]
            ax, ay, bx, by = x - px, y - py, qx - x, qy - y
            if abs(degrees(atan2(ax * by - ay * bx, ax * bx + ay * by))) > SHARP_DEG:
                found.append(start + n)
        start += len(ring)
    return found


def parting_lines(below: BaseGeometry, above: BaseGeometry, z: float) -> list[Line]:
    """What is drawn at a level where one plan gives way to another of the same wood: only where they differ."""
    left = below.boundary.symmetric_difference(above.boundary)
    parts = [one for one in getattr(left, "geoms", [left]) if isinstance(one, LineString)]
    return [((a[0], a[1], z), (b[0], b[1], z)) for one in parts for a, b in pairwise(one.coords)]
