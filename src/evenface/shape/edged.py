"""Edging round any outline: each stretch with its inner side, its mitres, and the carrier that is left.

An arc between two lines that run into it smoothly may be *rounded afterwards*: the strips of the two lines run
on to the sharp corner, are mitred there, and the arc is worked into them, so the carrier keeps a corner.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from math import acos, cos, degrees, hypot, pi, sin, sqrt

from .crossing import crossings
from .faults import need
from .offset import moved_each
from .outline import Outline
from .ring import ring_of, turn_at
from .segment import Point, Segment
from .validity import checked

SMOOTH_RAD = 0.02  # about a degree: what a drawing calls tangent
SHARPEST_RAD = 150 * pi / 180  # a corner that turns more has no mitre worth the name


@dataclass(frozen=True, slots=True)
class Stretch:
    """One stretch of edging: ``number`` of its segment in the outline.

    ``outer`` is the finished edge, run on to the sharp corner where a rounding is worked in afterwards;
    ``inner`` its side at the carrier, None where an arc is used up by the width. ``start_deg`` and ``end_deg``
    lie between the joint and the edge, 90 for a square end.
    """

    number: int
    outer: Segment
    inner: Segment | None
    width_mm: float
    start_deg: float
    end_deg: float


@dataclass(frozen=True, slots=True)
class Edged:
    """Every stretch that carries edging, and the carrier inside them."""

    stretches: tuple[Stretch, ...]
    carrier: Outline


def roundable(outline: Outline) -> tuple[int, ...]:
    """The arcs that could be rounded afterwards: turning outwards, between two lines tangent to them."""
    segments = outline.outer_segments()
    count = len(segments)
    found = []
    for number, arc in enumerate(segments):
        before, after = segments[number - 1], segments[(number + 1) % count]
        if count <= 3 or not 0 < arc.sweep < SHARPEST_RAD or before.is_arc or after.is_arc:
            continue
        if max(abs(turn_at(before, arc)), abs(turn_at(arc, after))) < SMOOTH_RAD:
            found.append(number)
    return tuple(found)


def edged(outline: Outline, widths_mm: Sequence[float], rounded: Collection[int] = ()) -> Edged:
    """The outer ring with edging of one width per segment; holes stay as they are.

    Raises
    ShapeError
        ``count``, ``used_up`` or ``no_meeting`` (see ``offset.moved_each``), ``edging`` where two mitred
        lines do not meet, and what ``validity.checked`` finds in the carrier.
    """
    segments = list(outline.outer_segments())
    need(len(widths_mm) == len(segments), "count", f"expected {len(segments)} widths, one per segment")
    for number in rounded:
        _sharpen(segments, number)
    kept = [number for number in range(len(segments)) if number not in rounded]
    outers = [segments[number] for number in kept]
    widths = [widths_mm[number] for number in kept]
    sharp = Outline((ring_of(outers),))
    inners = moved_each(sharp, [-width for width in widths])
    stretches = []
    for place, (number, outer, inner, width) in enumerate(zip(kept, outers, inners, widths, strict=True)):
        if width <= 0:
            continue
        start = inner.first if inner else _joint(inners, place)
        end = inner.last if inner else _joint(inners, place)
        stretches.append(
            Stretch(
                number,
                outer,
                inner,
                width,
                _angle(outer.first, outer.heading(0.0), start),
                _angle(outer.last, outer.heading(1.0), end, back=True),
            )
        )
    left = ring_of(inner for inner in inners if inner is not None)
    return Edged(tuple(stretches), checked(Outline((left, *outline.holes))))


def _sharpen(segments: list[Segment], number: int) -> None:
    """Run the lines before and after an arc on to their corner; the arc itself is left in its place."""
    before, after = number - 1, (number + 1) % len(segments)
    a, b = segments[before], segments[after]
    reach = segments[number].radius * 1e3
    found = crossings(_run_on(a, reach, last=True), _run_on(b, reach, last=False))
    need(bool(found), "edging", "two lines that are to be mitred do not meet")
    x, y = found[0]
    segments[before] = replace_ends(a, last=(x, y))
    segments[after] = replace_ends(b, first=(x, y))


def _run_on(line: Segment, by_mm: float, last: bool) -> Segment:
    ux, uy = line.heading(0.0)
    if last:
        return replace_ends(line, last=(line.x1 + ux * by_mm, line.y1 + uy * by_mm))
    return replace_ends(line, first=(line.x0 - ux * by_mm, line.y0 - uy * by_mm))


def replace_ends(line: Segment, first: Point | None = None, last: Point | None = None) -> Segment:
    """A line with one or both ends moved."""
    return Segment(*(first or line.first), *(last or line.last))


def _joint(inners: Sequence[Segment | None], place: int) -> Point:
    """Where the neighbours of a used-up arc meet."""
    following = (inners[(place + step) % len(inners)] for step in range(1, len(inners)))
    return next(segment.first for segment in following if segment is not None)


def _angle(outer: Point, heading: Point, inner: Point, back: bool = False) -> float:
    """Angle in degrees between the joint and the edge it ends, on the edging's side."""
    ux, uy = (-heading[0], -heading[1]) if back else heading
    dx, dy = inner[0] - outer[0], inner[1] - outer[1]
    away = hypot(dx, dy)
    if away < 1e-12:
        return 90.0
    angle = degrees(acos(max(-1.0, min(1.0, (ux * dx + uy * dy) / away))))
    return min(angle, 180.0 - angle)


def rounding_reserve(radius_mm: float, turn_rad: float, width1_mm: float, width2_mm: float) -> float:
    """Least wood between a carrier's corner and the arc rounded round it, for any turn of the outline, mm.

    With p = (R − w1, R − w2) measured square to the two lines, |p|² = (p1² + p2² − 2·p1·p2·cos τ)/sin² τ and
    the reserve R − |p|; where the corner lies beside the arc the narrower edging counts. At 90° this is
    ``corner.corner_reserve``.
    """
    need(0 < turn_rad < pi, "angle", f"a corner must turn by 0 to 180°, got {degrees(turn_rad):.1f}°")
    p1, p2, c = radius_mm - width1_mm, radius_mm - width2_mm, cos(turn_rad)
    if p1 <= 0 and p2 <= 0:
        return min(width1_mm, width2_mm)
    if p1 - p2 * c < 0 or p2 - p1 * c < 0:
        return min(width1_mm, width2_mm)
    return radius_mm - sqrt(p1 * p1 + p2 * p2 - 2 * p1 * p2 * c) / sin(turn_rad)


def rounding_width(radius_mm: float, turn_rad: float, wood_mm: float) -> float:
    """Smallest width of both edgings that leaves ``wood_mm`` behind a rounding: R − (R − m)·cos(τ/2)."""
    if wood_mm >= radius_mm:
        return wood_mm
    return max(wood_mm, radius_mm - (radius_mm - wood_mm) * cos(turn_rad / 2))


def rounding_radius(width_mm: float, turn_rad: float, wood_mm: float) -> float:
    """Largest radius an edging of this width on both sides carries: (w − m·cos(τ/2))/(1 − cos(τ/2)).

    Raises
    ShapeError
        ``too_narrow`` when the width is below the wood wanted.
    """
    need(width_mm >= wood_mm, "too_narrow", f"an edging of {width_mm} mm cannot leave {wood_mm} mm of wood")
    c = cos(turn_rad / 2)
    return (width_mm - wood_mm * c) / (1 - c)
