"""What a hollow leaves of the wood around it: wall in its insert, web to other edges, floor, finger room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import count
from math import sqrt

from .hollow import Hollow
from .reserve import reserve_of
from .ring import Ring
from .segment import Point, Segment

_CLOSE_MM = 1e-4


@dataclass(frozen=True, slots=True)
class Slab:
    """The insert between two depths below the surface: its ring as seen from where the cutter enters."""

    from_mm: float
    to_mm: float
    ring: Ring


@dataclass(frozen=True, slots=True)
class Wall:
    """Least wood beside a hollow, the depth below the surface and the point of the axis it is found at."""

    wood_mm: float
    below_mm: float
    at: Point


def wall_left(hollow: Hollow, insert: Sequence[Slab]) -> Wall:
    """Least wood between a hollow and the side of its insert at any depth, mm; negative: through.

    A cutter never widens towards its tip, so in each slab the hollow is widest at the slab's top: exact with
    one look per slab. Slabs below the floor say nothing about the wall.

    Raises
    ValueError
        When no slab lies above the floor of the hollow.
    """
    walls = [_least_wood(hollow, slab.ring, max(slab.from_mm, 0.0), True) for slab in insert
             if slab.from_mm < hollow.depth_mm]  # fmt: skip
    if not walls:
        raise ValueError(f"no slab of the insert lies within the hollow's {hollow.depth_mm} mm of depth")
    return min(walls, key=lambda wall: wall.wood_mm)


def web_left(hollow: Hollow, other: Ring, below_mm: float = 0.0) -> Wall:
    """Least wood between a hollow and a ring it must stay clear of (cut-out, other hollow, hinge cup), mm."""
    return _least_wood(hollow, other, below_mm, False)


def floor_left(hollow: Hollow, wood_below_mm: float) -> float:
    """Wood under the deepest point, given the depth of wood below the surface there, mm."""
    return wood_below_mm - hollow.depth_mm


def _least_wood(hollow: Hollow, ring: Ring, below: float, inside: bool) -> Wall:
    if not hollow.scoop_radius_mm:
        found = reserve_of(hollow.way, ring, inside)
        return Wall(found.reserve_mm - hollow.half_width_at(below), below, found.at)
    return _scooped(hollow, ring, below, inside)


def _scooped(hollow: Hollow, ring: Ring, below: float, inside: bool) -> Wall:
    """Least of (signed distance of the axis − half width there), by halving the path.

    Over a stretch the distance has an exact least and the width an exact greatest (nearest the middle), so
    their difference bounds the stretch from below and any point of it from above.
    """
    line, half = hollow.path[0], hollow.half_path_at(below)
    total = line.length
    best = Wall(float("inf"), below, line.at(0.5))
    queue: list[tuple[float, int, float, float]] = []
    order = count()

    def look_at(low: float, high: float) -> None:
        nonlocal best
        stretch = Segment(*line.at(0.5 + low / total), *line.at(0.5 + high / total))
        found = reserve_of((stretch,), ring, inside)
        nearest_middle = 0.0 if low <= 0 <= high else min(abs(low), abs(high))
        widest = hollow.cutter.half_width(hollow.tip_depth(nearest_middle) - below)
        heappush(queue, (found.reserve_mm - widest, next(order), low, high))
        here = (line.share_of(found.at) - 0.5) * total
        narrower = hollow.cutter.half_width(max(hollow.tip_depth(here) - below, 0.0))
        if found.reserve_mm - narrower < best.wood_mm:
            best = Wall(found.reserve_mm - narrower, below, found.at)

    look_at(-half, 0.0)
    look_at(0.0, half)
    while queue and queue[0][0] < best.wood_mm - _CLOSE_MM:
        _, _, low, high = heappop(queue)
        if high - low > _CLOSE_MM:
            look_at(low, (low + high) / 2)
            look_at((low + high) / 2, high)
    return best


@dataclass(frozen=True, slots=True)
class FingerRoom:
    """The room a hollow gives: its opening at the surface and how deep a round finger gets, mm."""

    opening_length_mm: float
    opening_width_mm: float
    depth_mm: float
    finger_depth_mm: float


def finger_room(hollow: Hollow, finger_mm: float) -> FingerRoom:
    """Opening, depth, and the depth a finger of the given thickness reaches across the hollow's width.

    A finger no thicker than the cutter reaches the floor. A thicker one rests on the two arrises of the
    opening, b from the middle, at a − √(a² − b²) with a half its thickness.
    """
    b, a, depth = hollow.half_width_at(0.0), finger_mm / 2, hollow.depth_mm
    reached = depth if a <= hollow.cutter.radius_mm else min(depth, a - sqrt(max(a * a - b * b, 0.0)))
    return FingerRoom(2 * hollow.half_length_at(0.0), 2 * b, depth, reached)
