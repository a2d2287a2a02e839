"""Arcs made ready for files: cut to at most 45°, or turned into points within a stated tolerance."""

from __future__ import annotations

from collections.abc import Iterable
from math import acos, ceil, pi

from .faults import need
from .outline import Outline
from .ring import Ring, ring_of, segments_of
from .segment import Point, Segment


def split_arc(segment: Segment, most_rad: float = pi / 4) -> tuple[Segment, ...]:
    """An arc cut into equal arcs of at most ``most_rad``; a line comes back as it is."""
    count = max(1, ceil(abs(segment.sweep) / most_rad - 1e-9))
    return tuple(segment.part(k / count, (k + 1) / count) for k in range(count)) if count > 1 else (segment,)


def split_arcs(outline: Outline, most_rad: float = pi / 4) -> Outline:
    """The same outline with no arc beyond ``most_rad``: what writers of arcs draw without visible error."""
    return Outline(
        tuple(ring_of(p for s in segments_of(ring) for p in split_arc(s, most_rad)) for ring in outline.rings)
    )


def sampled(segments: Iterable[Segment], tolerance_mm: float = 0.01) -> list[Point]:
    """Points along a chain, its first point included, the last left out when it closes on the first.

    Chords stay within ``tolerance_mm`` of their arcs (on the inner side).
    """
    need(tolerance_mm > 0, "tolerance", f"a tolerance must be above 0, got {tolerance_mm}")
    points: list[Point] = []
    last: Point | None = None
    for s in segments:
        count = _chords(s, tolerance_mm)
        points += [s.at(k / count) if k else s.first for k in range(count)]
        last = s.last
    if last is not None and abs(last[0] - points[0][0]) + abs(last[1] - points[0][1]) > 1e-9:
        points.append(last)
    return points


def sampled_ring(ring: Ring, tolerance_mm: float = 0.01) -> list[Point]:
    """The ring as a polygon whose sides stay within ``tolerance_mm`` of it."""
    return sampled(segments_of(ring), tolerance_mm)


def _chords(s: Segment, tolerance: float) -> int:
    """Chords whose rise r·(1 − cos(θ/2)) stays within the tolerance."""
    if not s.is_arc or tolerance >= s.radius:
        return 1 if not s.is_arc else max(1, ceil(abs(s.sweep) / (pi / 2)))
    return max(1, ceil(abs(s.sweep) / (2 * acos(1 - tolerance / s.radius)) - 1e-9))
