"""Upright boxes seen slantwise from the front, the right and above: which hides which, and where each shows.

Dimetric after the idea of ISO 5456-3: widths and heights keep their measure, depths are halved; the width runs
7° down to the right, the depth 42° up to the right.
"""

from collections.abc import Iterator, Sequence
from math import cos, radians, sin
from typing import Final

from evenface.construction.placed import Point as Point3
from evenface.drawings.placed_parts import Solid
from evenface.drawings.scene import box_round
from evenface.shape.segment import Box, Point

DEPTH_SHARE: Final = 0.5
_WIDTH: Final = (cos(radians(7.0)), -sin(radians(7.0)))
_DEPTH: Final = (DEPTH_SHARE * cos(radians(42.0)), DEPTH_SHARE * sin(radians(42.0)))
_NEARER: Final = (1.0, -1.0, 1.0)
"""In which way along x, y and z a thing comes nearer to the eye."""
_SAMPLES: Final = 9


def on_paper(point: Point3) -> Point:
    """Where a point of the piece is drawn, in mm of the piece."""
    x, y, z = point
    return x * _WIDTH[0] + y * _DEPTH[0], x * _WIDTH[1] + y * _DEPTH[1] + z


def outline(solid: Solid) -> tuple[Point, ...]:
    """The six corners round a box as it is seen."""
    (x0, y0, z0), (x1, y1, z1) = solid
    corners = ((x0, y0, z0), (x1, y0, z0), (x1, y1, z0), (x1, y1, z1), (x0, y1, z1), (x0, y0, z1))
    return tuple(on_paper(one) for one in corners)


def inner_edges(solid: Solid) -> Iterator[tuple[Point, Point]]:
    """The three edges that meet in the corner nearest to the eye."""
    (x0, y0, z0), (x1, y1, z1) = solid
    near = on_paper((x1, y0, z1))
    for far in ((x0, y0, z1), (x1, y1, z1), (x1, y0, z0)):
        yield near, on_paper(far)


def back_to_front(solids: Sequence[Solid]) -> list[int]:
    """The order in which boxes are painted, so that each covers what lies behind it.

    Boxes that enter each other are taken as beside each other where they do so least. Where three cover each
    other in a ring no order is right; the one that lies farthest off is then painted first.
    """
    outlines = [outline(one) for one in solids]
    behind: dict[int, set[int]] = {n: set() for n in range(len(solids))}
    for a in range(len(solids)):
        for b in range(a):
            if _overlap(outlines[a], outlines[b]):
                front, rear = (a, b) if _in_front(solids[a], solids[b]) else (b, a)
                behind[front].add(rear)
    order: list[int] = []
    left = set(behind)
    while left:
        free = [n for n in left if not behind[n] & left]
        first = min(free or left, key=lambda n: (_nearness(solids[n]), n))
        order.append(first)
        left.remove(first)
    return order


def seen_points(solids: Sequence[Solid], order: Sequence[int]) -> list[list[Point]]:
    """For each box the places on its three sides that nothing painted later covers."""
    outlines = [outline(one) for one in solids]
    boxes = [box_round(ring) for ring in outlines]
    cuts = [tuple(_half_planes(ring)) for ring in outlines]
    seen: list[list[Point]] = [[] for _ in solids]
    for place, n in enumerate(order):
        later = [(boxes[m], cuts[m]) for m in order[place + 1 :] if _meet(boxes[n], boxes[m])]
        seen[n] = [
            point
            for face in _faces(solids[n])
            for point in face
            if not any(_holds(*one, point) for one in later)
        ]
    return seen


def _faces(solid: Solid) -> Iterator[Iterator[Point]]:
    low, high = solid
    for fixed, near in ((1, low[1]), (2, high[2]), (0, high[0])):
        one, other = (n for n in range(3) if n != fixed)
        yield (
            on_paper(_set({fixed: near, one: _at(low, high, one, a), other: _at(low, high, other, b)}))
            for a in range(1, _SAMPLES)
            for b in range(1, _SAMPLES)
        )


def _at(low: Point3, high: Point3, axis: int, step: int) -> float:
    return low[axis] + (high[axis] - low[axis]) * step / _SAMPLES


def _set(given: dict[int, float]) -> Point3:
    return given[0], given[1], given[2]


def _in_front(one: Solid, other: Solid) -> bool:
    """Whether the first lies nearer, by the direction in which the two are farthest apart."""
    gaps = [max(one[0][n] - other[1][n], other[0][n] - one[1][n]) for n in range(3)]
    axis = max(range(3), key=lambda n: gaps[n])
    return (_middle(one, axis) - _middle(other, axis)) * _NEARER[axis] > 0


def _middle(solid: Solid, axis: int) -> float:
    return (solid[0][axis] + solid[1][axis]) / 2


def _nearness(solid: Solid) -> float:
    return sum(_NEARER[n] * _middle(solid, n) for n in range(3))


def _overlap(one: Sequence[Point], other: Sequence[Point]) -> bool:
    """Whether two convex outlines share an area: no side of either parts them."""
    return not any(_parts(a, b, one, other) for ring in (one, other) for a, b in _sides(ring))


def _parts(a: Point, b: Point, one: Sequence[Point], other: Sequence[Point]) -> bool:
    nx, ny = b[1] - a[1], a[0] - b[0]
    first = [x * nx + y * ny for x, y in one]
    second = [x * nx + y * ny for x, y in other]
    hair = 1e-6 * (abs(nx) + abs(ny))
    return max(first) <= min(second) + hair or max(second) <= min(first) + hair


def _sides(ring: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    yield from zip(ring, (*ring[1:], ring[0]), strict=True)


def _half_planes(ring: Sequence[Point]) -> Iterator[tuple[float, float, float]]:
    """Each side of a convex outline as (a, b, c): a point lies within where a·x + b·y ≥ c."""
    for (x0, y0), (x1, y1) in _sides(ring):
        a, b = y0 - y1, x1 - x0
        yield a, b, a * x0 + b * y0 - 1e-9


def _meet(one: Box, other: Box) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]


def _holds(box: Box, sides: Sequence[tuple[float, float, float]], point: Point) -> bool:
    x, y = point
    if not (box[0] <= x <= box[2] and box[1] <= y <= box[3]):
        return False
    return all(a * x + b * y >= c for a, b, c in sides)
