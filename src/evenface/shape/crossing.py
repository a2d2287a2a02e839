"""Where two segments meet: closed forms for line and arc, with shared stretches given by their ends."""

from __future__ import annotations

from math import hypot, sqrt

from .segment import ON_MM, Box, Point, Segment


def boxes_apart(a: Box, b: Box) -> float:
    """Least distance between two boxes, 0 when they touch: a lower bound for what is inside them."""
    dx = max(a[0] - b[2], b[0] - a[2], 0.0)
    dy = max(a[1] - b[3], b[1] - a[3], 0.0)
    return hypot(dx, dy)


def crossings(a: Segment, b: Segment, near: float = ON_MM) -> list[Point]:
    """Points that lie on both segments, ``near`` mm being the same place.

    Where the two run along each other, the ends of the shared stretch are given.
    """
    if boxes_apart(a.box, b.box) > near:
        return []
    if a.is_arc and b.is_arc:
        found = _circle_circle(a, b, near)
    elif a.is_arc or b.is_arc:
        arc, line = (a, b) if a.is_arc else (b, a)
        found = _line_circle(line, arc, near)
    else:
        found = _line_line(a, b, near)
    return [p for p in found if a.distance_to(p) <= near and b.distance_to(p) <= near]


def _line_line(a: Segment, b: Segment, near: float) -> list[Point]:
    ax, ay = a.x1 - a.x0, a.y1 - a.y0
    bx, by = b.x1 - b.x0, b.y1 - b.y0
    cross = ax * by - ay * bx
    long = max(hypot(ax, ay), hypot(bx, by))
    if abs(cross) <= near * long:  # parallel to within the tolerance over the longer one
        return [a.first, a.last, b.first, b.last]
    along = ((b.x0 - a.x0) * by - (b.y0 - a.y0) * bx) / cross
    meeting = (a.x0 + along * ax, a.y0 + along * ay)
    return [meeting, *_shared_ends(a, b, near)]


def _line_circle(line: Segment, arc: Segment, near: float) -> list[Point]:
    dx, dy = line.heading(0.0)
    along = (arc.cx - line.x0) * dx + (arc.cy - line.y0) * dy
    foot = (line.x0 + along * dx, line.y0 + along * dy)
    away = hypot(foot[0] - arc.cx, foot[1] - arc.cy)
    if away > arc.radius + near:
        return []
    if away >= arc.radius - near / 1000:  # tangent: two roots would be one place smeared along the line
        return [foot, *_shared_ends(line, arc, near)]
    half = sqrt(arc.radius**2 - away**2)
    return [
        (foot[0] - half * dx, foot[1] - half * dy),
        (foot[0] + half * dx, foot[1] + half * dy),
        *_shared_ends(line, arc, near),
    ]


def _circle_circle(a: Segment, b: Segment, near: float) -> list[Point]:
    dx, dy = b.cx - a.cx, b.cy - a.cy
    apart = hypot(dx, dy)
    if apart <= near:
        return [a.first, a.last, b.first, b.last]
    if apart > a.radius + b.radius + near or apart < abs(a.radius - b.radius) - near:
        return []
    along = (apart * apart + a.radius**2 - b.radius**2) / (2 * apart)
    ux, uy = dx / apart, dy / apart
    squared = a.radius**2 - along**2
    if squared <= (a.radius * near) / 500:
        side = 1.0 if along > 0 else -1.0
        touching = (a.cx + side * a.radius * ux, a.cy + side * a.radius * uy)
        return [touching, *_shared_ends(a, b, near)]
    half = sqrt(squared)
    mx, my = a.cx + along * ux, a.cy + along * uy
    return [(mx - half * uy, my + half * ux), (mx + half * uy, my - half * ux), *_shared_ends(a, b, near)]


def _shared_ends(a: Segment, b: Segment, near: float) -> list[Point]:
    """Ends common to both, exactly as stored, so that joints stay joints."""
    return [
        p
        for p in (a.first, a.last)
        if hypot(p[0] - b.x0, p[1] - b.y0) <= near or hypot(p[0] - b.x1, p[1] - b.y1) <= near
    ]
