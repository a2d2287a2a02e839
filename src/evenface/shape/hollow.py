"""A hollow for the fingers: one cutter moved along a path at a depth, even or scooped.

Everything is seen square to the surface the cutter enters (face, edge or under side): the path lies in that
plane, depth runs into the wood. One description serves all three ways in.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from .cutter import Cutter
from .faults import need
from .offset import swept
from .outline import Outline
from .segment import Point, Segment

type Approach = Literal["face", "edge", "under"]

_GOLDEN = (sqrt(5) - 1) / 2


@dataclass(frozen=True, slots=True)
class Hollow:
    """A cutter, the depth of its tip and the way of its axis, mm.

    ``path`` is the way of the axis (empty when it only plunges at ``at``). ``scoop_radius_mm`` 0 keeps the
    depth even; otherwise the tip follows an arc of that radius, deepest over the middle of one straight
    path, and is R − √(R² − s²) higher at a distance s from it. The axis stays square to the surface.

    Raises
    ShapeError
        ``size``, ``approach``, ``scoop`` (radius too small for the path, or the path not straight).
    """

    cutter: Cutter
    depth_mm: float
    path: tuple[Segment, ...] = ()
    at: Point = (0.0, 0.0)
    scoop_radius_mm: float = 0.0
    approach: Approach = "face"

    def __post_init__(self) -> None:
        need(self.depth_mm > 0, "size", f"a hollow needs a depth above 0, got {self.depth_mm}")
        need(
            self.approach in ("face", "edge", "under"), "approach", f"a cutter enters by no {self.approach!r}"
        )
        if self.scoop_radius_mm:
            straight = len(self.path) == 1 and not self.path[0].is_arc
            need(straight, "scoop", "a scooped hollow needs one straight path")
            half = self.path[0].length / 2
            need(
                self.scoop_radius_mm > half,
                "scoop",
                f"the scoop's radius must exceed {half} mm, half its path",
            )

    @property
    def way(self) -> tuple[Segment, ...]:
        """The way of the axis; a plunge is a segment without length."""
        return self.path or (Segment(*self.at, *self.at),)

    def tip_depth(self, from_middle_mm: float) -> float:
        """Depth of the tip at a distance from the middle of the path, mm; negative where it is in the air."""
        R = self.scoop_radius_mm
        return self.depth_mm - (R - sqrt(R * R - from_middle_mm**2) if R else 0.0)

    def half_path_at(self, below_mm: float) -> float:
        """Half the length of path over which the tip lies below a depth, mm."""
        half = sum(s.length for s in self.path) / 2
        R, t = self.scoop_radius_mm, self.depth_mm - below_mm
        return min(half, sqrt(max(R * R - (R - t) ** 2, 0.0))) if 0 <= t < R else half

    def half_width_at(self, below_mm: float) -> float:
        """Half the hollow's width at the middle of its path, at a depth below the surface, mm."""
        return self.cutter.half_width(self.depth_mm - below_mm)

    def half_length_at(self, below_mm: float) -> float:
        """Half the hollow's length along its path at a depth below the surface, mm; 0 below its floor.

        Scooped: the greatest s + half width under the tip at s. That is concave in s, so one search finds it.
        """
        if below_mm > self.depth_mm:
            return 0.0
        half = self.half_path_at(below_mm)
        if not self.scoop_radius_mm:
            return half + self.half_width_at(below_mm)
        return _peak(lambda s: s + self.cutter.half_width(self.tip_depth(s) - below_mm), half)

    def section_at(self, below_mm: float) -> Outline:
        """The opening at a depth below the surface: a circle for a plunge, a slot along any other path.

        A scooped hollow is shown by the slot of its greatest length and width there, which encloses it.

        Raises
        ShapeError
            ``depth`` at or below the floor, ``path`` when the path does not run on.
        """
        r = self.half_width_at(below_mm)
        need(r > 0, "depth", f"the hollow is {self.depth_mm} mm deep, its opening was asked at {below_mm} mm")
        if self.path and not self.scoop_radius_mm:
            return swept(self.path, r)
        line = self.way[0]
        x, y = line.at(0.5)
        reach = max(self.half_length_at(below_mm) - r, 0.0)
        if reach == 0:
            return Outline((((x - r, y, 1.0), (x + r, y, 1.0)),))
        ux, uy = line.heading(0.0)
        (ax, ay), (bx, by) = (x - ux * reach, y - uy * reach), (x + ux * reach, y + uy * reach)
        nx, ny = -uy * r, ux * r
        ring = (
            (ax - nx, ay - ny, 0.0),
            (bx - nx, by - ny, 1.0),
            (bx + nx, by + ny, 0.0),
            (ax + nx, ay + ny, 1.0),
        )
        return Outline((ring,))

    def mirrored(self, x_mm: float = 0.0) -> Hollow:
        """The left hand of a right-hand hollow, mirrored about the line x = ``x_mm``."""
        flipped = tuple(Segment(2 * x_mm - s.x0, s.y0, 2 * x_mm - s.x1, s.y1, -s.bulge) for s in self.path)
        at = (2 * x_mm - self.at[0], self.at[1])
        return Hollow(self.cutter, self.depth_mm, flipped, at, self.scoop_radius_mm, self.approach)


def _peak(height: Callable[[float], float], end: float) -> float:
    """Greatest value of a concave function from 0 to ``end``, by golden section."""
    low, high = 0.0, end
    while high - low > 1e-9:
        a, b = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        if height(a) < height(b):
            low = a
        else:
            high = b
    return max(height(0.0), height(low), height(high), height(end))
