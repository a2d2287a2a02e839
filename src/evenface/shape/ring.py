"""A closed ring of lines and arcs: length, area, moments and winding, all in closed form."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import atan2, cos, pi, sin, sqrt

from .segment import Box, Point, Segment

type Vertex = tuple[float, float, float]
type Ring = tuple[Vertex, ...]


@dataclass(frozen=True, slots=True)
class Moments:
    """Area and area moments about the origin: ``first_x`` = ∫x dA, ``second_xx`` = ∫x² dA (mm² to mm⁴)."""

    area: float = 0.0
    first_x: float = 0.0
    first_y: float = 0.0
    second_xx: float = 0.0
    second_yy: float = 0.0
    second_xy: float = 0.0

    def plus(self, other: Moments) -> Moments:
        return Moments(
            self.area + other.area,
            self.first_x + other.first_x,
            self.first_y + other.first_y,
            self.second_xx + other.second_xx,
            self.second_yy + other.second_yy,
            self.second_xy + other.second_xy,
        )

    @property
    def centroid(self) -> Point:
        return self.first_x / self.area, self.first_y / self.area


@lru_cache(maxsize=8192)
def segments_of(ring: Ring) -> tuple[Segment, ...]:
    """The segments of a ring; segment i starts at vertex i."""
    following = (*ring[1:], ring[0])
    return tuple(
        Segment(x0, y0, x1, y1, bulge) for (x0, y0, bulge), (x1, y1, _) in zip(ring, following, strict=True)
    )


def ring_of(segments: Iterable[Segment]) -> Ring:
    """The ring whose segments these are, in order."""
    return tuple((s.x0, s.y0, s.bulge if s.is_arc else 0.0) for s in segments)


def ring_length(ring: Ring) -> float:
    return sum(s.length for s in segments_of(ring))


def ring_bounds(ring: Ring) -> Box:
    boxes = [s.box for s in segments_of(ring)]
    return (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )


def ring_area(ring: Ring) -> float:
    """Signed area, positive when the ring runs counter-clockwise: shoelace plus r²(θ − sin θ)/2 per arc."""
    total = 0.0
    for s in segments_of(ring):
        total += (s.x0 * s.y1 - s.x1 * s.y0) / 2
        if s.radius:
            total += s.radius**2 * (s.sweep - sin(s.sweep)) / 2
    return total


def ring_moments(ring: Ring) -> Moments:
    """Signed area moments of a ring by Green's theorem, line by line and arc by arc."""
    total = Moments()
    for s in segments_of(ring):
        total = total.plus(_arc_moments(s) if s.is_arc else _line_moments(s))
    return total


def _line_moments(s: Segment) -> Moments:
    """The same line integrals as for an arc (one form for both, or the parts would not add up)."""
    a, b, c, d = s.x0, s.y0, s.x1, s.y1
    dx, dy = c - a, d - b
    return Moments(
        (a * d - c * b) / 2,
        dy * (a * a + a * c + c * c) / 6,
        -dx * (b * b + b * d + d * d) / 6,
        dy * (a + c) * (a * a + c * c) / 12,
        -dx * (b + d) * (b * b + d * d) / 12,
        dy * (b * (3 * a * a + 2 * a * c + c * c) + d * (a * a + 2 * a * c + 3 * c * c)) / 24,
    )


def _arc_moments(s: Segment) -> Moments:
    """½∮(x dy − y dx), ½∮x²dy, −½∮y²dx, ⅓∮x³dy, −⅓∮y³dx, ½∮x²y dy; x = cx + r cos φ, y = cy + r sin φ."""
    x, y, r = s.cx, s.cy, s.radius
    end = s.start + s.sweep
    at_end, at_start = _antiderivatives(end), _antiderivatives(s.start)
    c1, c2, c3, c4, s1, s2, s3, s4, cs, ccs, cccs = (p - q for p, q in zip(at_end, at_start, strict=True))
    xx = x * x * c1 + 2 * x * r * c2 + r * r * c3
    yy = y * y * s1 + 2 * y * r * s2 + r * r * s3
    xxx = x**3 * c1 + 3 * x * x * r * c2 + 3 * x * r * r * c3 + r**3 * c4
    yyy = y**3 * s1 + 3 * y * y * r * s2 + 3 * y * r * r * s3 + r**3 * s4
    xxy = y * xx + r * (x * x * cs + 2 * x * r * ccs + r * r * cccs)
    return Moments(
        r * (r * s.sweep + x * c1 + y * s1) / 2,
        r * xx / 2,
        r * yy / 2,
        r * xxx / 3,
        r * yyy / 3,
        r * xxy / 2,
    )


def _antiderivatives(a: float) -> tuple[float, ...]:
    """∫ of cos, cos², cos³, cos⁴, sin, sin², sin³, sin⁴, cos·sin, cos²·sin, cos³·sin at angle a."""
    c, s = cos(a), sin(a)
    double, fourfold = sin(2 * a), sin(4 * a)
    return (
        s,
        a / 2 + double / 4,
        s - s**3 / 3,
        3 * a / 8 + double / 4 + fourfold / 32,
        -c,
        a / 2 - double / 4,
        -c + c**3 / 3,
        3 * a / 8 - double / 4 + fourfold / 32,
        s * s / 2,
        -(c**3) / 3,
        -(c**4) / 4,
    )


@lru_cache(maxsize=4096)
def _rising_pieces(ring: Ring) -> tuple[tuple[float, float, Segment, int], ...]:
    """The ring cut where an arc turns from rising to falling: (y from, y to, segment, side of the centre)."""
    pieces: list[tuple[float, float, Segment, int]] = []
    for s in segments_of(ring):
        if not s.is_arc:
            pieces.append((s.y0, s.y1, s, 0))
            continue
        cuts = sorted(
            share
            for share in (s.share_of_angle(pi / 2), s.share_of_angle(-pi / 2))
            if 1e-12 < share < 1 - 1e-12
        )
        shares = [0.0, *cuts, 1.0]
        heights = [s.y0, *(_turning_height(s, share) for share in cuts), s.y1]
        for (from_, to), (low, high) in zip(pairwise(shares), pairwise(heights), strict=True):
            x, _ = s.at((from_ + to) / 2)
            pieces.append((low, high, s, 1 if x > s.cx else -1))
    return tuple(pieces)


def _turning_height(s: Segment, share: float) -> float:
    return s.cy + s.radius if s.at(share)[1] > s.cy else s.cy - s.radius


def winding(ring: Ring, point: Point) -> int:
    """How often the ring turns counter-clockwise round ``point``, by signed crossings of the ray to +x."""
    x, y = point
    turns = 0
    for low, high, s, side in _rising_pieces(ring):
        if (low <= y) == (high <= y):
            continue
        if side:
            inner = max(s.radius**2 - (y - s.cy) ** 2, 0.0)
            crossing = s.cx + side * sqrt(inner)
        else:
            crossing = s.x0 + (y - s.y0) * (s.x1 - s.x0) / (s.y1 - s.y0)
        if crossing > x:
            turns += 1 if high > low else -1
    return turns


def is_inside(ring: Ring, point: Point) -> bool:
    """Whether ``point`` lies inside the ring, whichever way it runs (undefined within rounding of it)."""
    return winding(ring, point) != 0


def turned_back(ring: Ring) -> Ring:
    """The same ring run the other way round, starting at the same vertex."""
    first = segments_of(ring)
    return ring_of(s.reversed() for s in reversed(first))


def turn_at(before: Segment, after: Segment) -> float:
    """Signed angle by which the direction changes at the joint, positive to the left, radians."""
    ax, ay = before.heading(1.0)
    bx, by = after.heading(0.0)
    return atan2(ax * by - ay * bx, ax * bx + ay * by)


def as_ring(vertices: Sequence[Sequence[float]]) -> Ring:
    """Vertices given as (x, y) or (x, y, bulge) as a ring of floats."""
    return tuple((float(v[0]), float(v[1]), float(v[2]) if len(v) > 2 else 0.0) for v in vertices)
