"""Cubic curves of other programs turned into tangent arcs within a stated tolerance."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, hypot, pi, sin, sqrt, tan

from .segment import Point, Segment

FIT_MM = 0.01


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic curve by its two ends and two handles."""

    start: Point
    handle1: Point
    handle2: Point
    end: Point

    def at(self, t: float) -> Point:
        u = 1 - t
        a, b, c, d = u**3, 3 * u * u * t, 3 * u * t * t, t**3
        x = a * self.start[0] + b * self.handle1[0] + c * self.handle2[0] + d * self.end[0]
        y = a * self.start[1] + b * self.handle1[1] + c * self.handle2[1] + d * self.end[1]
        return x, y

    def halves(self) -> tuple[Cubic, Cubic]:
        p01, p12 = _mid(self.start, self.handle1), _mid(self.handle1, self.handle2)
        p23 = _mid(self.handle2, self.end)
        p012, p123 = _mid(p01, p12), _mid(p12, p23)
        middle = _mid(p012, p123)
        return Cubic(self.start, p01, p012, middle), Cubic(middle, p123, p23, self.end)


def cubic_of_quadratic(start: Point, handle: Point, end: Point) -> Cubic:
    """The same curve with two handles."""
    return Cubic(start, _towards(start, handle, 2 / 3), _towards(end, handle, 2 / 3), end)


def cubics_of_arc(s: Segment) -> list[Cubic]:
    """An arc as cubics of at most 22.5° (off by less than 1e-7 of the radius)."""
    count = max(1, int(abs(s.sweep) / (pi / 8)) + 1)
    step = s.sweep / count
    reach = 4 / 3 * tan(step / 4) * s.radius
    cubics = []
    for k in range(count):
        a, b = s.start + k * step, s.start + (k + 1) * step
        p = (s.cx + s.radius * cos(a), s.cy + s.radius * sin(a))
        q = (s.cx + s.radius * cos(b), s.cy + s.radius * sin(b))
        cubics.append(
            Cubic(
                p,
                (p[0] - reach * sin(a), p[1] + reach * cos(a)),
                (q[0] + reach * sin(b), q[1] - reach * cos(b)),
                q,
            )
        )
    return cubics


def fitted(curve: Cubic, tolerance_mm: float = FIT_MM, depth: int = 14) -> list[Segment]:
    """Pairs of tangent arcs that stay within ``tolerance_mm`` of the curve (looked at in 15 places each)."""
    pair = _biarc(curve)
    if depth == 0 or (pair and _off(curve, pair) <= 0.8 * tolerance_mm):
        return pair or [Segment(*curve.start, *curve.end)]
    first, second = curve.halves()
    return fitted(first, tolerance_mm, depth - 1) + fitted(second, tolerance_mm, depth - 1)


def _off(curve: Cubic, arcs: list[Segment]) -> float:
    return max(min(s.distance_to(curve.at(k / 16)) for s in arcs) for k in range(1, 16))


def _biarc(curve: Cubic) -> list[Segment] | None:
    """Two arcs, tangent to the curve at its ends and to each other, with equal reach along both tangents."""
    p, q = curve.start, curve.end
    vx, vy = q[0] - p[0], q[1] - p[1]
    squared = vx * vx + vy * vy
    if squared < 1e-18:
        return None
    t0, t1 = _tangents(curve)
    if t0 is None or t1 is None or min(vx * t0[0] + vy * t0[1], vx * t1[0] + vy * t1[1]) < 0:
        return None  # it turns back against its chord: halve it first
    along = vx * (t0[0] + t1[0]) + vy * (t0[1] + t1[1])
    turn = 1 - (t0[0] * t1[0] + t0[1] * t1[1])
    if turn < 1e-12:
        if along <= 0:
            return None
        d = squared / (2 * along)
    else:
        d = (-along + sqrt(along * along + 2 * turn * squared)) / (2 * turn)
    joint = ((p[0] + d * t0[0] + q[0] - d * t1[0]) / 2, (p[1] + d * t0[1] + q[1] - d * t1[1]) / 2)
    first = Segment(*p, *joint, _bulge(t0, p, joint))
    back = Segment(*q, *joint, _bulge((-t1[0], -t1[1]), q, joint))
    return [first, back.reversed()]


def _tangents(curve: Cubic) -> tuple[Point | None, Point | None]:
    forward = next(
        (t for p in (curve.handle1, curve.handle2, curve.end) if (t := _unit(curve.start, p))), None
    )
    backward = next(
        (t for p in (curve.handle2, curve.handle1, curve.start) if (t := _unit(p, curve.end))), None
    )
    return forward, backward


def _bulge(tangent: Point, start: Point, end: Point) -> float:
    """Bulge of the arc leaving ``start`` along ``tangent``: half its sweep lies between tangent and chord."""
    cx, cy = end[0] - start[0], end[1] - start[1]
    half = atan2(tangent[0] * cy - tangent[1] * cx, tangent[0] * cx + tangent[1] * cy)
    return tan(half / 2)


def _unit(a: Point, b: Point) -> Point | None:
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = hypot(dx, dy)
    return (dx / length, dy / length) if length > 1e-9 else None


def _mid(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _towards(a: Point, b: Point, share: float) -> Point:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
