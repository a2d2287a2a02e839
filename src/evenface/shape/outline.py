"""A flat shape bounded by rings of lines and arcs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, hypot, isfinite, sin

from evenface.words import said

from .faults import Place, ShapeError
from .ring import (
    Moments,
    Ring,
    as_ring,
    is_inside,
    ring_area,
    ring_bounds,
    ring_length,
    ring_moments,
    segments_of,
    turned_back,
)
from .segment import ON_MM, Box, Point, Segment


@dataclass(frozen=True, slots=True)
class Outline:
    """Rings of (x, y, bulge) vertices, mm: the first is the outer one, any others are holes.

    ``bulge`` = tan(sweep / 4) of the segment that starts at the vertex, positive counter-clockwise, 0 for a
    line. The outer ring runs counter-clockwise, holes clockwise, so material is always on the left.
    ``Outline.of`` turns rings the right way; ``validity.problems`` looks for crossings and tiny steps.

    Raises
    ShapeError
        ``not_finite``, ``too_few`` (one vertex, or two joined by lines) or ``wrong_winding``.
    """

    rings: tuple[Ring, ...]

    def __post_init__(self) -> None:
        if not self.rings:
            raise ShapeError("too_few", "an outline needs at least its outer ring, none was given")
        for number, ring in enumerate(self.rings):
            _check_ring(number, ring)

    @classmethod
    def of(cls, outer: Sequence[Sequence[float]], *holes: Sequence[Sequence[float]]) -> Outline:
        """From vertices (x, y) or (x, y, bulge), each ring turned the way it has to run."""
        rings = [as_ring(outer), *map(as_ring, holes)]
        turned = [
            turned_back(ring) if (ring_area(ring) < 0) == (number == 0) else ring
            for number, ring in enumerate(rings)
        ]
        return cls(tuple(turned))

    @property
    def outer(self) -> Ring:
        return self.rings[0]

    @property
    def holes(self) -> tuple[Ring, ...]:
        return self.rings[1:]

    @property
    def area_mm2(self) -> float:
        """Area of the material: outer ring less holes."""
        return sum(ring_area(ring) for ring in self.rings)

    @property
    def perimeter_mm(self) -> float:
        """Length of all rings together."""
        return sum(ring_length(ring) for ring in self.rings)

    @property
    def bounds(self) -> Box:
        """(least x, least y, greatest x, greatest y)."""
        return ring_bounds(self.outer)

    @property
    def size(self) -> Point:
        """(length along x, width along y) of the bounds."""
        left, low, right, high = self.bounds
        return right - left, high - low

    @property
    def moments(self) -> Moments:
        """Area moments about the origin."""
        total = Moments()
        for ring in self.rings:
            total = total.plus(ring_moments(ring))
        return total

    @property
    def segments(self) -> tuple[Segment, ...]:
        """All segments, ring after ring."""
        return tuple(s for ring in self.rings for s in segments_of(ring))

    def outer_segments(self, numbers: Sequence[int] | None = None) -> tuple[Segment, ...]:
        """The outer ring's segments, or those of the given numbers."""
        every = segments_of(self.outer)
        return every if numbers is None else tuple(every[n] for n in numbers)

    def contains(self, point: Point, on_mm: float = ON_MM) -> bool:
        """Whether ``point`` lies in the material; points within ``on_mm`` of a ring count as in it."""
        if any(s.distance_to(point) <= on_mm for s in self.segments):
            return True
        return is_inside(self.outer, point) and not any(is_inside(hole, point) for hole in self.holes)

    def moved(self, dx_mm: float, dy_mm: float) -> Outline:
        return Outline(tuple(tuple((x + dx_mm, y + dy_mm, b) for x, y, b in ring) for ring in self.rings))

    def rotated(self, angle_rad: float, about: Point = (0.0, 0.0)) -> Outline:
        """Turned counter-clockwise about a point."""
        c, s, (px, py) = cos(angle_rad), sin(angle_rad), about
        return Outline(
            tuple(
                tuple(
                    (px + c * (x - px) - s * (y - py), py + s * (x - px) + c * (y - py), b)
                    for x, y, b in ring
                )
                for ring in self.rings
            )
        )

    def mirrored(self, x_mm: float = 0.0) -> Outline:
        """Mirrored left for right about the line x = ``x_mm``; rings still run the right way."""
        rings = []
        for ring in self.rings:
            backwards = (
                ring[0],
                *ring[:0:-1],
            )  # mirrored and run the other way round, an arc keeps its bulge
            bulges = [vertex[2] for vertex in reversed(ring)]
            rings.append(tuple((2 * x_mm - x, y, b) for (x, y, _), b in zip(backwards, bulges, strict=True)))
        return Outline(tuple(rings))

    def with_hole(self, hole: Outline) -> Outline:
        """The same outline with the outer ring of ``hole`` cut out of it."""
        return Outline((*self.rings, turned_back(hole.outer)))

    def same_as(self, other: Outline, within_mm: float = 1e-6) -> bool:
        """Whether both have the same rings vertex by vertex, wherever each ring starts."""
        return len(self.rings) == len(other.rings) and all(
            _same_ring(a, b, within_mm) for a, b in zip(self.rings, other.rings, strict=True)
        )


def _check_ring(number: int, ring: Ring) -> None:
    for index, vertex in enumerate(ring):
        if not all(isfinite(value) for value in vertex):
            raise ShapeError(
                "not_finite", "every x, y and bulge must be a finite number", Place(number, index, 0.0, 0.0)
            )
    x, y, _ = ring[0] if ring else (0.0, 0.0, 0.0)
    if len(ring) < 2 or (len(ring) == 2 and not any(b for _, _, b in ring)):
        raise ShapeError(
            "too_few",
            said("a ring of {count} vertices bounds nothing: give three, or two and an arc", count=len(ring)),
            Place(number, 0, x, y),
        )  # fmt: skip
    area = ring_area(ring)
    if (area < 0) == (number == 0) and area != 0:
        wanted = "counter-clockwise" if number == 0 else "clockwise (it is a hole)"
        raise ShapeError(
            "wrong_winding",
            said("the ring must run {wanted:word}; Outline.of turns it", wanted=wanted),
            Place(number, 0, x, y),
            area,
        )


def _same_ring(a: Ring, b: Ring, within: float) -> bool:
    if len(a) != len(b):
        return False
    return any(
        all(
            hypot(p[0] - q[0], p[1] - q[1]) <= within and abs(p[2] - q[2]) <= within
            for p, q in zip(a, (*b[shift:], *b[:shift]), strict=True)
        )
        for shift in range(len(b))
    )
