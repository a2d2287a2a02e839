"""How far one ring lies inside, or outside, another; negative by how far it pokes out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import count, pairwise
from math import inf

from .crossing import crossings
from .distance import farthest_candidates, least_distance
from .offset import offset
from .outline import Outline
from .ring import Ring, is_inside, ring_area, ring_length, segments_of
from .segment import Point, Segment

_CLOSE_MM = 1e-9
_SAME_MM = 1e-6
_DEPTH_MM = 1e-4


@dataclass(frozen=True, slots=True)
class Reserve:
    """Signed reserve (mm) and the point of the inner ring that decides it, with the nearest outer point."""

    reserve_mm: float
    at: Point
    nearest: Point
    segment: int


def reserve_inside(inner: Ring, outer: Ring) -> Reserve:
    """How far ``inner`` lies inside ``outer``, mm.

    Positive: the least distance between the two. Negative: the greatest distance by which a point of
    ``inner`` lies outside ``outer``. Right to 1e-6 mm; holes are not looked at.
    """
    return reserve_of(segments_of(inner), outer)


def reserve_outside(ring: Ring, other: Ring) -> Reserve:
    """How far ``ring`` keeps clear of ``other``, mm; negative by how deep the two overlap.

    The depth is the greatest distance from either ring to the other among points inside it. Two that lie
    exactly over one another have no such points: their depth is that of the deepest point inside both, to
    1e-3 mm.
    """
    one = reserve_of(segments_of(ring), other, inside=False)
    if abs(one.reserve_mm) < _SAME_MM and _lie_on_one_another(ring, other):
        return _of_one_ring(ring, one)
    back = reserve_of(segments_of(other), ring, inside=False)
    if back.reserve_mm < one.reserve_mm:
        return Reserve(back.reserve_mm, back.nearest, back.at, one.segment)
    return one


def _lie_on_one_another(ring: Ring, other: Ring) -> bool:
    """Whether two rings bound the same area, by area and every joint and middle of each on the other."""
    if abs(abs(ring_area(ring)) - abs(ring_area(other))) > _SAME_MM * max(1.0, ring_length(ring)):
        return False
    pairs = ((segments_of(ring), segments_of(other)), (segments_of(other), segments_of(ring)))
    return all(
        _off(point, around) < _SAME_MM
        for chain, around in pairs
        for s in chain
        for point in (s.first, s.at(0.5))
    )


def _of_one_ring(ring: Ring, met: Reserve) -> Reserve:
    """How far a ring can be moved in before nothing is left of it: its deepest point."""
    outline = Outline.of(ring)
    low, high, left = 0.0, min(outline.size) / 2, outline
    while high - low > _DEPTH_MM / 2:
        middle = (low + high) / 2
        moved = offset(outline, -middle)
        if moved.vanished:
            high = middle
        else:
            low, left = middle, moved.outlines[0]
    x, y, _ = left.outer[0]
    chain = segments_of(ring)
    nearest = min((s.nearest((x, y)) for s in chain), key=lambda p: (p[0] - x) ** 2 + (p[1] - y) ** 2)
    return Reserve(-(low + high) / 2, (x, y), nearest, met.segment)


def reserve_of(chain: Sequence[Segment], other: Ring, inside: bool = True) -> Reserve:
    """Signed reserve of any chain of segments (open too) inside, or outside, a ring, mm."""
    around = segments_of(other)
    wrong: list[tuple[int, Segment]] = []
    for number, segment in enumerate(chain):
        pieces = _pieces(segment, around)
        for piece in pieces:
            middle = piece.at(0.5)
            if is_inside(other, middle) != inside and _off(middle, around) > _CLOSE_MM:
                wrong.append((number, piece))
    if not wrong:
        near = least_distance(chain, around)
        return Reserve(near.distance_mm, near.point_a, near.point_b, near.segment_a)
    depth, at, number = _farthest(wrong, around)
    nearest = min((s.nearest(at) for s in around), key=lambda p: (p[0] - at[0]) ** 2 + (p[1] - at[1]) ** 2)
    return Reserve(-depth, at, nearest, number)


def _pieces(segment: Segment, around: Sequence[Segment]) -> list[Segment]:
    """The segment cut where it meets ``around``."""
    shares = [segment.share_of(p) for other in around for p in crossings(segment, other)]
    cuts = sorted({0.0, 1.0, *(s for s in shares if 1e-12 < s < 1 - 1e-12)})
    return [segment.part(a, b) for a, b in pairwise(cuts)] if len(cuts) > 2 else [segment]


def _off(point: Point, chain: Sequence[Segment]) -> float:
    return min(s.distance_to(point) for s in chain)


def _farthest(pieces: Sequence[tuple[int, Segment]], around: Sequence[Segment]) -> tuple[float, Point, int]:
    """The greatest distance from the pieces to ``around``, by halving with exact bounds on both sides.

    Over a piece, the distance to the nearest of many segments is at most its greatest distance to any one of
    them, which has a closed form; where one segment is nearest throughout the two agree at once, and where
    the nearest changes each halving closes half of the rest.
    """
    best = (-inf, pieces[0][1].first, pieces[0][0])
    queue: list[tuple[float, int, int, Segment]] = []
    order = count()

    def look_at(number: int, piece: Segment) -> None:
        nonlocal best
        bound = inf
        for other in around:
            spots = [piece.first, piece.last, *farthest_candidates(piece, other)]
            highest = max(spots, key=other.distance_to)
            bound = min(bound, other.distance_to(highest))
            depth = _off(highest, around)
            if depth > best[0]:
                best = (depth, highest, number)
        heappush(queue, (-bound, next(order), number, piece))

    for number, piece in pieces:
        look_at(number, piece)
    while queue and -queue[0][0] > best[0] + _CLOSE_MM:
        _, _, number, piece = heappop(queue)
        if piece.length < _CLOSE_MM:
            continue
        look_at(number, piece.part(0.0, 0.5))
        look_at(number, piece.part(0.5, 1.0))
    return best
