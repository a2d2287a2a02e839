"""Dimensions, radii, angles and leaders taken apart into lines, dots and lettering, for plain writers."""

from collections.abc import Iterator
from math import hypot

from evenface.drawings.scene import (
    Circle,
    Dimension,
    Leader,
    Line,
    Path,
    Primitive,
    RadiusDimension,
    Stroke,
    Text,
    way_of,
)
from evenface.shape.segment import Point

TICK_MM = 1.1
OVERSHOOT_MM = 1.2
ARROW_MM = 2.2
DOT_MM = 0.5


def taken_apart(one: Primitive, scale: float) -> Iterator[Line | Path | Circle | Text]:
    """The plain strokes and lettering of a dimension or leader; nothing for any other primitive."""
    match one:
        case Dimension():
            yield from _dimension(one, scale)
            yield one.text
        case RadiusDimension():
            yield from _line(one.at, one.elbow, one.layer)
            yield from _line(one.elbow, one.tail, one.layer)
            yield arrow_head(one.at, one.elbow, scale, one.layer)
            yield one.text
        case Leader():
            for first, second in zip(one.points, one.points[1:], strict=False):
                yield from _line(first, second, one.layer)
            yield Circle(*one.points[0], DOT_MM / scale, Stroke.FINE, one.layer)
            yield one.text
        case _:
            return


def _dimension(one: Dimension, scale: float) -> Iterator[Line]:
    ux, uy = way_of(one.angle_deg)
    low, high = one.reach
    yield Line(
        one.on[0] + ux * low,
        one.on[1] + uy * low,
        one.on[0] + ux * high,
        one.on[1] + uy * high,
        Stroke.FINE,
        one.layer,
    )
    for first, second in one.extensions:
        yield from _line(first, second, one.layer)
    tick = TICK_MM / scale
    sx, sy = way_of(one.angle_deg + 45.0)
    for foot in (one.foot(one.start), one.foot(one.end)):
        yield Line(
            foot[0] - sx * tick,
            foot[1] - sy * tick,
            foot[0] + sx * tick,
            foot[1] + sy * tick,
            Stroke.VISIBLE,
            one.layer,
        )


def _line(first: Point, second: Point, layer: str) -> Iterator[Line]:
    if first != second:
        yield Line(*first, *second, Stroke.FINE, layer)


def arrow_head(tip: Point, towards: Point, scale: float, layer: str) -> Path:
    """An open arrow at `tip`, its legs opening towards the other point."""
    dx, dy = towards[0] - tip[0], towards[1] - tip[1]
    size = ARROW_MM / scale / (hypot(dx, dy) or 1.0)
    ux, uy = dx * size, dy * size
    legs = ((ux - 0.25 * uy, uy + 0.25 * ux), (ux + 0.25 * uy, uy - 0.25 * ux))
    first, last = ((tip[0] + x, tip[1] + y, 0.0) for x, y in legs)
    return Path((first, (*tip, 0.0), last), closed=False, stroke=Stroke.FINE, layer=layer)
