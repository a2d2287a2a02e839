"""One line or arc between two points, and the closed forms everything else rests on."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import atan, atan2, cos, hypot, pi, sin, tan

type Point = tuple[float, float]
type Box = tuple[float, float, float, float]

TURN = 2.0 * pi
FLAT_MM = 1e-10  # an arc whose rise over its chord is below this is a line: far below any tool
ON_MM = 1e-7  # two points nearer than this are the same place
_ANGLE = 1e-12


def _box_of(x0: float, y0: float, x1: float, y1: float) -> Box:
    """Of a line: the cheapest way, for every panel has dozens."""
    if x0 > x1:
        x0, x1 = x1, x0
    if y0 > y1:
        y0, y1 = y1, y0
    return x0, y0, x1, y1


@dataclass(frozen=True, slots=True)
class Segment:
    """A line (bulge 0) or an arc from (x0, y0) to (x1, y1), mm.

    ``bulge`` = tan(sweep / 4), positive when the arc turns counter-clockwise. ``cx, cy, radius`` describe the
    circle (radius 0 for a line), ``start`` the angle at which the arc begins and ``sweep`` its signed angle,
    both in radians.
    """

    x0: float
    y0: float
    x1: float
    y1: float
    bulge: float = 0.0
    cx: float = field(init=False)
    cy: float = field(init=False)
    radius: float = field(init=False)
    start: float = field(init=False)
    sweep: float = field(init=False)
    box: Box = field(init=False)

    def __post_init__(self) -> None:
        place = object.__setattr__
        dx, dy = self.x1 - self.x0, self.y1 - self.y0
        chord, b = hypot(dx, dy), self.bulge
        mx, my = (self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2
        if b == 0.0 or abs(b) * chord / 2 < FLAT_MM:
            cx, cy, radius, start, sweep = mx, my, 0.0, 0.0, 0.0
        else:
            rise = (1 - b * b) / (4 * b)  # from mid-chord to the centre, in chord lengths, to the left
            cx, cy = mx - dy * rise, my + dx * rise
            radius = chord * (1 + b * b) / (4 * abs(b))
            start, sweep = atan2(self.y0 - cy, self.x0 - cx), 4 * atan(b)
        place(self, "cx", cx)
        place(self, "cy", cy)
        place(self, "radius", radius)
        place(self, "start", start)
        place(self, "sweep", sweep)
        place(self, "box", self._bounds() if radius else _box_of(self.x0, self.y0, self.x1, self.y1))

    def _bounds(self) -> Box:
        """Of an arc: its ends and the quarters of its circle that it reaches."""
        xs, ys = [self.x0, self.x1], [self.y0, self.y1]
        for quarter, (ux, uy) in enumerate(((1, 0), (0, 1), (-1, 0), (0, -1))):
            if self.holds_angle(quarter * pi / 2):
                xs.append(self.cx + ux * self.radius)
                ys.append(self.cy + uy * self.radius)
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def is_arc(self) -> bool:
        return self.radius > 0.0

    @property
    def length(self) -> float:
        if self.radius:
            return self.radius * abs(self.sweep)
        return hypot(self.x1 - self.x0, self.y1 - self.y0)

    @property
    def first(self) -> Point:
        return self.x0, self.y0

    @property
    def last(self) -> Point:
        return self.x1, self.y1

    def at(self, share: float) -> Point:
        """The point at ``share`` (0 to 1) of the length."""
        if self.radius:
            angle = self.start + share * self.sweep
            return self.cx + self.radius * cos(angle), self.cy + self.radius * sin(angle)
        return self.x0 + share * (self.x1 - self.x0), self.y0 + share * (self.y1 - self.y0)

    def heading(self, share: float) -> Point:
        """Unit vector of travel at ``share`` of the length."""
        if self.radius:
            angle = self.start + share * self.sweep
            turn = 1.0 if self.sweep > 0 else -1.0
            return -sin(angle) * turn, cos(angle) * turn
        length = self.length or 1.0
        return (self.x1 - self.x0) / length, (self.y1 - self.y0) / length

    def share_of_angle(self, angle: float) -> float:
        """Share of the sweep at which the arc reaches ``angle``; above 1 when it does not."""
        turned = (angle - self.start) if self.sweep > 0 else (self.start - angle)
        turned %= TURN
        if turned > TURN - _ANGLE:
            turned = 0.0
        return turned / abs(self.sweep)

    def holds_angle(self, angle: float) -> bool:
        return self.share_of_angle(angle) <= 1.0 + _ANGLE

    def share_of(self, point: Point) -> float:
        """Share of the length nearest a point known to lie on the line or circle; may leave 0 to 1."""
        x, y = point
        if self.radius:
            share = self.share_of_angle(atan2(y - self.cy, x - self.cx))
            beyond = TURN / abs(self.sweep)
            return share - beyond if share - 1.0 > beyond - share else share
        dx, dy = self.x1 - self.x0, self.y1 - self.y0
        squared = dx * dx + dy * dy
        return ((x - self.x0) * dx + (y - self.y0) * dy) / squared if squared else 0.0

    def part(self, share0: float, share1: float) -> Segment:
        """The piece between two shares of the length, in the same direction."""
        start = self.first if share0 <= 0.0 else self.at(share0)
        end = self.last if share1 >= 1.0 else self.at(share1)
        bulge = tan(self.sweep * (share1 - share0) / 4) if self.radius else 0.0
        return Segment(*start, *end, bulge)

    def reversed(self) -> Segment:
        return Segment(self.x1, self.y1, self.x0, self.y0, -self.bulge)

    def nearest(self, point: Point) -> Point:
        """The point of this segment nearest to ``point``, in closed form."""
        x, y = point
        if self.radius:
            ux, uy = x - self.cx, y - self.cy
            away = hypot(ux, uy)
            if away > 0.0 and self.holds_angle(atan2(uy, ux)):
                return self.cx + ux * self.radius / away, self.cy + uy * self.radius / away
            near_first = hypot(x - self.x0, y - self.y0) <= hypot(x - self.x1, y - self.y1)
            return self.first if near_first else self.last
        share = min(1.0, max(0.0, self.share_of(point)))
        return self.at(share)

    def distance_to(self, point: Point) -> float:
        """Least distance from ``point`` to this segment, in closed form, mm."""
        x, y = self.nearest(point)
        return hypot(point[0] - x, point[1] - y)


def arc_about(cx: float, cy: float, radius: float, start: float, sweep: float) -> Segment:
    """The arc about (cx, cy) that begins at angle ``start`` and turns by ``sweep`` (radians, below 2π)."""
    end = start + sweep
    return Segment(
        cx + radius * cos(start),
        cy + radius * sin(start),
        cx + radius * cos(end),
        cy + radius * sin(end),
        tan(sweep / 4),
    )
