"""Loose directed pieces joined end to end into closed rings."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, hypot, pi, tan

from .ring import Ring, ring_area, ring_of
from .segment import TURN, Segment

_SAME_MM = 1e-5
_NO_AREA_MM2 = 1e-6


def chained(pieces: Sequence[Segment]) -> tuple[Ring, ...]:
    """Closed rings from directed pieces whose ends meet within 1e-5 mm.

    Where several pieces leave one place the leftmost is taken, so parts that only touch stay apart. Pieces
    that lead nowhere, doubled pieces and rings without area are dropped.
    """
    left = _without_doubles(pieces)
    rings: list[Ring] = []
    while left:
        ring = _follow(left)
        if ring and abs(ring_area(whole := ring_of(merged(ring)))) > _NO_AREA_MM2:
            rings.append(whole)
    return tuple(rings)


def _without_doubles(pieces: Sequence[Segment]) -> list[Segment]:
    """Each piece once; a piece and its reverse cancel (they bound nothing)."""
    kept: list[Segment] = []
    for piece in pieces:
        if any(_same(piece, other) for other in kept):
            continue
        back = piece.reversed()
        twin = next((k for k, other in enumerate(kept) if _same(back, other)), None)
        if twin is None:
            kept.append(piece)
        else:
            kept.pop(twin)
    return kept


def _same(a: Segment, b: Segment) -> bool:
    if abs(a.x0 - b.x0) > _SAME_MM or abs(a.y0 - b.y0) > _SAME_MM:
        return False
    if abs(a.x1 - b.x1) > _SAME_MM or abs(a.y1 - b.y1) > _SAME_MM:
        return False
    p, q = a.at(0.5), b.at(0.5)
    return hypot(p[0] - q[0], p[1] - q[1]) <= _SAME_MM


def _follow(left: list[Segment]) -> list[Segment]:
    """Take one closed run of pieces out of ``left``; pieces on a dead end are taken out and lost."""
    run = [left.pop(0)]
    while True:
        closed = next((k for k, s in enumerate(run) if _meets(run[-1], s)), None)
        onward = [k for k, s in enumerate(left) if _meets(run[-1], s)]
        if closed is not None:
            left += run[:closed]  # the way in was not part of the loop
            return run[closed:]
        if not onward:
            run.pop()
            if not run:
                return []
            continue
        best = max(onward, key=lambda k: _leftness(run[-1], left[k]))
        run.append(left.pop(best))


def _meets(a: Segment, b: Segment) -> bool:
    return abs(a.x1 - b.x0) <= _SAME_MM and abs(a.y1 - b.y0) <= _SAME_MM


def _leftness(before: Segment, after: Segment) -> float:
    """Turn to the left from one piece into the next, a turn straight back counting least."""
    ax, ay = before.heading(1.0)
    bx, by = after.heading(0.0)
    turn = atan2(ax * by - ay * bx, ax * bx + ay * by)
    bend = (after.sweep / after.length if after.length else 0.0) * 1e-6  # of two tangent ones, the more left
    return -pi if abs(turn) > pi - 1e-9 else turn + bend


def merged(ring: Sequence[Segment]) -> list[Segment]:
    """Neighbours that are one line or one arc made one again, as far as a bulge can say it."""
    whole = [ring[0]]
    for s in ring[1:]:
        joined = _joined(whole[-1], s)
        if joined:
            whole[-1] = joined
        else:
            whole.append(s)
    if len(whole) > 2 and (joined := _joined(whole[-1], whole[0])):
        whole[0] = joined
        whole.pop()
    return whole


def _joined(a: Segment, b: Segment) -> Segment | None:
    if a.is_arc != b.is_arc:
        return None
    if not a.is_arc:
        ax, ay = a.heading(0.0)
        bx, by = b.heading(0.0)
        straight = abs(ax * by - ay * bx) < 1e-9 and ax * bx + ay * by > 0
        return Segment(a.x0, a.y0, b.x1, b.y1) if straight else None
    together = a.sweep + b.sweep
    one_circle = (
        hypot(a.cx - b.cx, a.cy - b.cy) <= _SAME_MM
        and abs(a.radius - b.radius) <= _SAME_MM
        and (a.sweep > 0) == (b.sweep > 0)
        and abs(together) < TURN - 0.1
    )
    return Segment(a.x0, a.y0, b.x1, b.y1, tan(together / 4)) if one_circle else None
