"""Look for what makes an outline impossible to cut: crossings, steps too small to be meant, stray holes."""

from __future__ import annotations

from itertools import combinations
from math import hypot

from evenface.words import said

from .crossing import crossings
from .faults import Place, ShapeError
from .outline import Outline
from .ring import Ring, is_inside, segments_of, turn_at
from .segment import ON_MM, Point, Segment

TINY_MM = 0.01  # shorter segments come from drawing errors, not from a maker's wish


def checked(outline: Outline) -> Outline:
    """The outline itself when nothing is wrong with it.

    Raises
    ShapeError
        The first of ``problems``.
    """
    for problem in problems(outline):
        raise problem
    return outline


def problems(outline: Outline) -> tuple[ShapeError, ...]:
    """Everything wrong with an outline, each with its place.

    Words: ``zero_length``, ``tiny_segment``, ``self_crossing``, ``turns_back`` (a spike without width),
    ``rings_cross``, ``hole_outside``, ``hole_in_hole``.
    """
    found: list[ShapeError] = []
    for number, ring in enumerate(outline.rings):
        found += _short_segments(number, ring)
    if not found:  # crossings at a zero length are noise
        for number, ring in enumerate(outline.rings):
            found += _self_crossings(number, ring)
        found += _between_rings(outline)
    return tuple(found)


def _short_segments(number: int, ring: Ring) -> list[ShapeError]:
    found = []
    for index, s in enumerate(segments_of(ring)):
        place = Place(number, index, s.x0, s.y0)
        if s.length < ON_MM:
            found.append(ShapeError("zero_length", "a segment has no length: remove its vertex", place))
        elif s.length < TINY_MM:
            found.append(
                ShapeError(
                    "tiny_segment",
                    said(
                        "a segment is only {length:.4f} mm long, expected at least {least}: close the gap",
                        length=s.length,
                        least=str(TINY_MM),
                    ),
                    place,
                    s.length,
                )
            )
    return found


def _self_crossings(number: int, ring: Ring) -> list[ShapeError]:
    segments = segments_of(ring)
    found = []
    for (i, a), (j, b) in combinations(enumerate(segments), 2):
        joints = _joints(i, j, segments)
        for x, y in crossings(a, b):
            if all(hypot(x - jx, y - jy) > 10 * ON_MM for jx, jy in joints):
                found.append(
                    ShapeError(
                        "self_crossing",
                        said("the outline meets itself: segments {one} and {other}", one=i, other=j),
                        Place(number, i, x, y),
                    )
                )
                break
    for index, (before, after) in enumerate(zip((segments[-1], *segments[:-1]), segments, strict=True)):
        if abs(turn_at(before, after)) > 3.1415926 and not (before.is_arc or after.is_arc):
            place = Place(number, index, after.x0, after.y0)
            found.append(ShapeError("turns_back", "the outline runs back along itself", place))
    return found


def _joints(i: int, j: int, segments: tuple[Segment, ...]) -> list[Point]:
    """The vertices two segments share by being neighbours."""
    shared = []
    if (i + 1) % len(segments) == j:
        shared.append(segments[j].first)
    if (j + 1) % len(segments) == i:
        shared.append(segments[i].first)
    return shared


def _between_rings(outline: Outline) -> list[ShapeError]:
    found: list[ShapeError] = []
    for (i, ring), (j, other) in combinations(enumerate(outline.rings), 2):
        met = next((p for a in segments_of(ring) for b in segments_of(other) for p in crossings(a, b)), None)
        if met:
            found.append(
                ShapeError(
                    "rings_cross", said("ring {one} meets ring {other}", one=j, other=i), Place(j, 0, *met)
                )
            )
            continue
        x, y, _ = other[0]
        inside = is_inside(ring, (x, y))
        if i == 0 and not inside:
            found.append(ShapeError("hole_outside", "a hole lies outside the outline", Place(j, 0, x, y)))
        elif i and (inside or is_inside(other, (ring[0][0], ring[0][1]))):
            found.append(
                ShapeError(
                    "hole_in_hole",
                    said("holes {one} and {other} lie in each other", one=i, other=j),
                    Place(j, 0, x, y),
                )
            )
    return found
