"""Outlines moved outwards or inwards by a distance, exactly: lines stay lines, arcs stay arcs.

Every line and arc is shifted, every corner that opens gets an arc about its vertex (or a mitre); the pieces
are cut where they meet, and those nearer to the original than the distance are thrown away. What is left
chains into the rings of the result: none (it vanished), one, or several (it split).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, hypot, isfinite, pi, tan
from typing import Literal

from evenface.words import said

from .chain import chained, merged
from .crossing import boxes_apart, crossings
from .faults import Place, ShapeError, need
from .outline import Outline
from .ring import Ring, is_inside, ring_area, ring_of, segments_of, turn_at
from .segment import Segment, arc_about
from .validity import checked

type Joint = Literal["round", "mitre"]

_KEEP_MM = 1e-6  # how much nearer than the distance a piece may be by rounding
_SMALL_MM = 1e-9
_NONE_MM = 1e-4  # a smaller offset is no offset: it would come too near the rounding of the trimming
_SHARPEST_MITRE = 150 * pi / 180


@dataclass(frozen=True, slots=True)
class Offset:
    """What an outline became. ``outlines`` is empty when nothing is left."""

    distance_mm: float
    outlines: tuple[Outline, ...]

    @property
    def vanished(self) -> bool:
        return not self.outlines

    @property
    def split(self) -> bool:
        return len(self.outlines) > 1

    @property
    def area_mm2(self) -> float:
        return sum(o.area_mm2 for o in self.outlines)

    def _fault(self) -> ShapeError:
        moved, count = self.distance_mm, len(self.outlines)
        if self.vanished:
            return ShapeError(
                "vanished",
                said("nothing is left of the outline moved by {moved:mm2}", moved=moved),
                value=moved,
            )
        message = said(
            "the outline moved by {moved:mm2} falls into {count:count} parts", moved=moved, count=count
        )
        return ShapeError("split", message)

    @property
    def only(self) -> Outline:
        """The one outline of the result.

        Raises
        ShapeError
            ``vanished`` or ``split`` when there is none or more than one.
        """
        if self.vanished or self.split:
            raise self._fault()
        return self.outlines[0]


def offset(outline: Outline, distance_mm: float, joint: Joint = "round") -> Offset:
    """The outline grown (``distance_mm`` > 0) or shrunk (< 0) by a distance all round; holes move too.

    ``joint`` says what an opening corner becomes: ``round`` an arc (all points at the distance), ``mitre``
    the straight lines run on to their meeting (corners sharper than 30° stay round). Distances below
    1e-4 mm leave the outline as it is.
    """
    need(isfinite(distance_mm), "not_finite", f"an offset must be a number, got {distance_mm}")
    if abs(distance_mm) < _NONE_MM:
        return Offset(distance_mm, (outline,))
    if len(outline.rings) == 1 and (smooth := _smooth(outline.outer, distance_mm)):
        return Offset(distance_mm, (smooth,))
    raw = [p for ring in outline.rings for p in _shifted(ring, distance_mm, joint)]
    return Offset(distance_mm, _trimmed(raw, outline.segments, abs(distance_mm)))


def swept(way: Sequence[Segment], radius_mm: float) -> Outline:
    """All points within ``radius_mm`` of a way of segments that run on from one another: a disc moved along it.

    Bends of the way are sharp on their inner side and round on their outer side; a way that comes back to
    itself leaves holes.

    Raises
    ShapeError
        ``size`` for a radius of 0 or less, ``path`` for an empty way or one that does not run on.
    """
    need(radius_mm > 0, "size", f"a way is swept with a radius above 0, got {radius_mm}")
    runs_on = all(hypot(a.x1 - b.x0, a.y1 - b.y0) < _KEEP_MM for a, b in pairwise(way))
    need(bool(way) and runs_on, "path", "a way needs segments that run on from one another")
    both = [*way, *(s.reversed() for s in reversed(way))]
    pieces: list[Segment] = []
    for number, s in enumerate(both):
        before = both[number - 1]
        turn = pi if number in (0, len(way)) else turn_at(before, s)
        if turn > 1e-9:
            pieces += _corner(before, s, turn, radius_mm, "round")
        moved = _moved(s, radius_mm)
        if moved:
            pieces.append(moved)
    pieces = [p for p in pieces if p.length > _SMALL_MM]
    if len(way) == 1 and not way[0].is_arc and way[0].length > _KEEP_MM:  # a slot: nothing is to be cut
        return Outline((ring_of(merged(pieces)),))
    outlines = _trimmed(pieces, way, radius_mm)
    return Offset(radius_mm, outlines).only


def _smooth(ring: Ring, distance: float) -> Outline | None:
    """A ring without corners that only turns to the left, and nowhere tighter than it shrinks: every piece moved.

    A disc of its least radius then rolls round the whole of its inside (Blaschke's rolling theorem), so nothing is
    cut. None for any other ring.
    """
    segments = segments_of(ring)
    if any(s.is_arc and (s.sweep < 0 or s.radius + distance < _NONE_MM) for s in segments):
        return None
    if any(abs(turn_at(a, b)) > 1e-9 for a, b in zip((segments[-1], *segments[:-1]), segments, strict=True)):
        return None
    moved = [m for s in segments if (m := _moved(s, distance)) and m.length > _SMALL_MM]
    return Outline((ring_of(merged(moved)),))


def _trimmed(pieces: Sequence[Segment], original: Sequence[Segment], distance: float) -> tuple[Outline, ...]:
    """Shifted pieces cut where they meet, those too near thrown away, the rest chained to outlines."""
    return _outlines(chained(_kept(_cut(pieces), original, distance)))


def _shifted(ring: Ring, distance: float, joint: Joint) -> list[Segment]:
    """Every segment moved to its right by ``distance``, with the corners that open filled."""
    segments = segments_of(ring)
    pieces: list[Segment] = []
    for before, s in zip((segments[-1], *segments[:-1]), segments, strict=True):
        turn = turn_at(before, s)
        if abs(turn) > 1e-9 and (turn > 0) == (distance > 0):
            pieces += _corner(before, s, turn, distance, joint)
        moved = _moved(s, distance)
        if moved:
            pieces.append(moved)
    return [p for p in pieces if p.length > _SMALL_MM]


def _moved(s: Segment, distance: float) -> Segment | None:
    """One segment moved to its right; None when an arc's radius is used up."""
    if s.is_arc:
        radius = s.radius + (distance if s.sweep > 0 else -distance)
        return arc_about(s.cx, s.cy, radius, s.start, s.sweep) if radius > _SMALL_MM else None
    ux, uy = s.heading(0.0)
    dx, dy = uy * distance, -ux * distance
    return Segment(s.x0 + dx, s.y0 + dy, s.x1 + dx, s.y1 + dy)


def _corner(before: Segment, after: Segment, turn: float, distance: float, joint: Joint) -> list[Segment]:
    ux, uy = before.heading(1.0)
    x, y = after.first
    if joint == "mitre" and abs(turn) < _SHARPEST_MITRE:
        vx, vy = after.heading(0.0)
        reach = distance * tan(turn / 2)
        start = (x + uy * distance, y - ux * distance)
        end = (x + vy * distance, y - vx * distance)
        tip = (start[0] + ux * reach, start[1] + uy * reach)
        return [Segment(*start, *tip), Segment(*tip, *end)]
    start_angle = atan2(-ux * distance, uy * distance)
    return [arc_about(x, y, abs(distance), start_angle, turn)]


def _cut(pieces: Sequence[Segment]) -> list[Segment]:
    """The pieces cut at every place where they meet."""
    cuts: list[set[float]] = [{0.0, 1.0} for _ in pieces]
    for i, a in enumerate(pieces):
        for j in range(i + 1, len(pieces)):
            b = pieces[j]
            if boxes_apart(a.box, b.box) > _KEEP_MM:
                continue
            for point in crossings(a, b):
                cuts[i].add(a.share_of(point))
                cuts[j].add(b.share_of(point))
    cut: list[Segment] = []
    for piece, shares in zip(pieces, cuts, strict=True):
        end = _KEEP_MM / piece.length
        inner = sorted(s for s in shares if end < s < 1 - end)
        distinct = [s for k, s in enumerate(inner) if k == 0 or s - inner[k - 1] > end]
        cut += [piece.part(p, q) for p, q in pairwise([0.0, *distinct, 1.0])]
    return cut


def _kept(pieces: Sequence[Segment], original: Sequence[Segment], distance: float) -> list[Segment]:
    """The pieces nowhere nearer to the original than the distance (their middle decides: they are cut)."""
    kept = []
    for piece in pieces:
        x, y = piece.at(0.5)
        box = (x, y, x, y)
        if all(
            boxes_apart(box, s.box) >= distance - _KEEP_MM or s.distance_to((x, y)) >= distance - _KEEP_MM
            for s in original
        ):
            kept.append(piece)
    return kept


def _outlines(rings: Sequence[Ring]) -> tuple[Outline, ...]:
    """Rings sorted into outer ones and the holes that lie in them, largest first."""
    areas = [(ring_area(ring), ring) for ring in rings]
    outers = sorted(((a, r) for a, r in areas if a > 0), key=lambda pair: -pair[0])
    holes = [r for a, r in areas if a < 0]
    return tuple(Outline((outer, *(h for h in holes if is_inside(outer, h[0][:2])))) for _, outer in outers)


def offset_each(outline: Outline, distances_mm: Sequence[float]) -> Outline:
    """The outer ring with each segment moved outwards by its own distance (< 0 inwards), joints mitred.

    For edging of different widths round one panel; raises what ``moved_each`` raises.
    """
    moved = [segment for segment in moved_each(outline, distances_mm) if segment is not None]
    return checked(Outline((ring_of(moved),)))


def moved_each(outline: Outline, distances_mm: Sequence[float]) -> tuple[Segment | None, ...]:
    """Every segment of the outer ring moved outwards by its own distance (< 0 inwards) and cut where they meet.

    ``distances_mm`` has one figure per segment. An arc whose radius is used up by its distance is None and its
    neighbours meet; a line that would turn round is refused.

    Raises
    ShapeError
        ``count``; with the place ``used_up``, or ``no_meeting`` when two moved neighbours do not meet (a
        line moved in less than the arc tangent to it).
    """
    segments = outline.outer_segments()
    need(len(distances_mm) == len(segments), "count", f"expected {len(segments)} distances, one per segment")
    moved = [
        (i, m) for i, (s, d) in enumerate(zip(segments, distances_mm, strict=True)) if (m := _moved(s, d))
    ]
    joints = [
        _meeting(i, a, b, segments) for (i, a), (_, b) in zip(moved, (*moved[1:], moved[0]), strict=True)
    ]
    starts = (joints[-1], *joints[:-1])
    cut: list[Segment | None] = [None] * len(segments)
    for (number, s), start, end in zip(moved, starts, joints, strict=True):
        share = s.share_of(end) - s.share_of(start)
        if share <= 0:
            message = "a side is used up at these distances: make them smaller"
            raise ShapeError("used_up", message, Place(0, number, *start))
        cut[number] = Segment(*start, *end, tan(share * s.sweep / 4))
    return tuple(cut)


def _meeting(number: int, a: Segment, b: Segment, original: Sequence[Segment]) -> tuple[float, float]:
    """Where two moved neighbours, run on, meet nearest to their old joint."""
    old = original[number].last
    if hypot(a.x1 - b.x0, a.y1 - b.y0) < _KEEP_MM:
        return a.last
    found = crossings(_run_on(a), _run_on(b))
    if not found:
        raise ShapeError(
            "no_meeting",
            "two neighbours moved by different distances do not meet: give them the same distance",
            Place(0, number, *old),
        )
    return min(found, key=lambda p: hypot(p[0] - old[0], p[1] - old[1]))


def _run_on(s: Segment) -> Segment:
    """The segment run on at both ends: a line a hundredfold, an arc to nearly the full circle."""
    if not s.is_arc:
        dx, dy = (s.x1 - s.x0) * 100, (s.y1 - s.y0) * 100
        return Segment(s.x0 - dx, s.y0 - dy, s.x1 + dx, s.y1 + dy)
    middle = s.start + s.sweep / 2
    return arc_about(s.cx, s.cy, s.radius, middle - 0.999 * pi, 1.998 * pi)
