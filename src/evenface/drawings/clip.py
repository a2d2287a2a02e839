"""Rings of lines and arcs cut off at an upright line; arcs stay arcs."""

from collections.abc import Iterator
from itertools import pairwise

from evenface.shape.crossing import crossings
from evenface.shape.ring import Ring, segments_of
from evenface.shape.segment import Segment

_SAME_MM = 1e-9


def between(ring: Ring, low: float, high: float) -> Ring:
    """What of a ring lies between two upright lines, x = low and x = high; empty when nothing does."""
    return _cut(_cut(ring, low, 1.0), high, -1.0)


def _cut(ring: Ring, limit: float, side: float) -> Ring:
    """The part of a ring with side · (x − limit) ≥ 0; pieces that fall apart stay joined along the line."""
    if len(ring) < 2:
        return ()
    kept = [part for segment in segments_of(ring) for part in _parts(segment, limit, side)]
    if not any(side * (x - limit) > _SAME_MM for part in kept for x in (part.box[0], part.box[2])):
        return ()
    vertices = []
    for part, after in zip(kept, (*kept[1:], kept[0]), strict=True):
        vertices.append((part.x0, part.y0, part.bulge if part.is_arc else 0.0))
        if abs(part.x1 - after.x0) + abs(part.y1 - after.y0) > _SAME_MM:
            vertices.append((part.x1, part.y1, 0.0))
    return tuple(vertices)


def _parts(segment: Segment, limit: float, side: float) -> Iterator[Segment]:
    x0, y0, x1, y1 = segment.box
    near, far = sorted((side * (x0 - limit), side * (x1 - limit)))
    if near >= -_SAME_MM:
        yield segment
        return
    if far <= _SAME_MM:
        return
    upright = Segment(limit, y0 - 1.0, limit, y1 + 1.0)
    shares = {0.0, 1.0, *(min(1.0, max(0.0, segment.share_of(p))) for p in crossings(segment, upright))}
    for a, b in pairwise(sorted(shares)):
        if (b - a) * segment.length > _SAME_MM and side * (segment.at((a + b) / 2)[0] - limit) > 0:
            yield segment.part(a, b)
