"""Hatching by material as plain strokes clipped to an area: no patterns, which some PDF tools drop.

Own plain style after the idea of the drawing standards: end grain oblique, long grain with uneven lines
along it, boards by their make, thin sheets solid.
"""

from collections.abc import Callable, Iterator, Sequence
from math import ceil, cos, floor, radians, sin
from typing import Final

from evenface.drawings.scene import Area, Fill
from evenface.shape.ring import Ring, segments_of
from evenface.shape.segment import Point

type Dash = tuple[float, float, float, float]

SOLID: Final = frozenset({Fill.LAMINATE, Fill.LINOLEUM, Fill.GLUE, Fill.PAPER, Fill.PIECE, Fill.BAND})
"""Materials shown as a flat tone."""
_MOST_ROWS: Final = 4000
_LONG_GRAIN: Final = (1.0, 1.7, 0.8, 1.3, 2.0)


def hatch(area: Area, scale: float) -> Iterator[Dash]:
    """Strokes (x0, y0, x1, y1) of an area in mm of the piece; their spacing is mm of the paper."""
    if area.fill not in SOLID:
        yield from _WAYS[area.fill](area, scale)


def _oblique(spacing_mm: float, turn_deg: float = 45.0) -> Callable[[Area, float], Iterator[Dash]]:
    def draw(area: Area, scale: float) -> Iterator[Dash]:
        rows = _Rows(area, area.angle_deg + turn_deg)
        for v in rows.levels(spacing_mm / scale):
            for u0, u1 in rows.spans(v):
                yield rows.back(u0, v, u1, v)

    return draw


def _long_grain(area: Area, scale: float) -> Iterator[Dash]:
    """Uneven lines along the grain, as dressed timber looks from the side."""
    rows = _Rows(area, area.angle_deg)
    v, number = rows.low + 0.5 / scale, 0
    while v < rows.high and number < _MOST_ROWS:
        for u0, u1 in rows.spans(v):
            yield rows.back(u0, v, u1, v)
        v += _LONG_GRAIN[number % len(_LONG_GRAIN)] / scale
        number += 1


def _strewn(spacing_mm: float, length_mm: float, turned: bool) -> Callable[[Area, float], Iterator[Dash]]:
    """Short strokes strewn evenly: ways of them differ when `turned`."""

    def draw(area: Area, scale: float) -> Iterator[Dash]:
        rows = _Rows(area, 0.0)
        step, half = spacing_mm / scale, length_mm / scale / 2
        for number, v in enumerate(rows.levels(step)):
            for u0, u1 in rows.spans(v):
                for place in range(ceil(u0 / step), floor(u1 / step) + 1):
                    u = (place + 0.8 * (_chance(place, number) - 0.5)) * step
                    angle = 180.0 * _chance(number, place + 7) if turned else 20.0
                    du, dv = half * cos(radians(angle)), half * sin(radians(angle))
                    if rows.hold(u - du, v - dv) and rows.hold(u + du, v + dv):
                        yield rows.back(u - du, v - dv, u + du, v + dv)

    return draw


def _chance(a: int, b: int) -> float:
    """A number from 0 to 1 that looks like chance and is the same every time."""
    mixed = (a * 73856093 ^ b * 19349663) & 0xFFFFFFFF
    mixed = (mixed ^ (mixed >> 13)) * 1274126177 & 0xFFFFFFFF
    return (mixed ^ (mixed >> 16)) / 0xFFFFFFFF


class _Rows:
    """An area turned so that the strokes run along u, and cut by rows of constant v (even-odd rule)."""

    def __init__(self, area: Area, angle_deg: float) -> None:
        self._cos, self._sin = cos(radians(angle_deg)), sin(radians(angle_deg))
        self._edges: list[tuple[Point, Point]] = []
        for ring in area.rings:
            points = [self._turned(point) for point in flattened(ring)]
            self._edges += list(zip(points, (*points[1:], points[0]), strict=True))
        self.low = min(point[1] for edge in self._edges for point in edge)
        self.high = max(point[1] for edge in self._edges for point in edge)

    def levels(self, step: float) -> Iterator[float]:
        """Rows at whole multiples of the step, so that neighbouring areas of a kind run through."""
        step = max(step, (self.high - self.low) / _MOST_ROWS)
        first = floor(self.low / step) + 1
        for number in range(first, ceil(self.high / step)):
            yield (number + 0.013) * step  # a hair off, so that no row runs along an edge

    def spans(self, v: float) -> Iterator[tuple[float, float]]:
        crossed = sorted(
            a[0] + (v - a[1]) * (b[0] - a[0]) / (b[1] - a[1])
            for a, b in self._edges
            if (a[1] <= v) != (b[1] <= v)
        )
        for u0, u1 in zip(crossed[::2], crossed[1::2], strict=False):
            if u1 - u0 > 1e-9:
                yield u0, u1

    def hold(self, u: float, v: float) -> bool:
        """Whether a point of the turned area lies in it."""
        return any(u0 <= u <= u1 for u0, u1 in self.spans(v))

    def _turned(self, point: Point) -> Point:
        x, y = point
        return x * self._cos + y * self._sin, y * self._cos - x * self._sin

    def back(self, u0: float, v0: float, u1: float, v1: float) -> Dash:
        c, s = self._cos, self._sin
        return u0 * c - v0 * s, u0 * s + v0 * c, u1 * c - v1 * s, u1 * s + v1 * c


def flattened(ring: Ring, step_deg: float = 3.0) -> Sequence[Point]:
    """A ring as a polygon, for hatching only: arcs become chords of at most `step_deg`."""
    points: list[Point] = []
    for segment in segments_of(ring):
        count = max(1, ceil(abs(segment.sweep) / radians(step_deg))) if segment.is_arc else 1
        points += [segment.at(number / count) for number in range(count)]
    return points


_WAYS: Final[dict[Fill, Callable[[Area, float], Iterator[Dash]]]] = {
    Fill.END_GRAIN: _oblique(1.3),
    Fill.LONG_GRAIN: _long_grain,
    Fill.MDF: _strewn(1.1, 0.28, turned=False),
    Fill.PARTICLEBOARD: _strewn(1.5, 1.0, turned=True),
    Fill.COMPACT: _oblique(0.5),
    Fill.OFFCUT: _oblique(4.0),
    Fill.WASTE: _oblique(1.2, 135.0),
}
