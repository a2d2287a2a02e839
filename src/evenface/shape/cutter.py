"""Router cutters: the shape they leave, how deep they reach, how fast they may turn, passes to depth."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, pi, sqrt
from typing import Literal

from .faults import need

type CutterShape = Literal["straight", "ball", "core-box", "cove"]

# Highest rotation by diameter, trade practice: (up to mm, revolutions per minute).
ROTATION_LIMITS = ((25.0, 24_000), (32.0, 18_000), (57.0, 16_000), (89.0, 12_000))


@dataclass(frozen=True, slots=True)
class Cutter:
    """A cutter as measured, mm.

    ``cutting_length_mm`` is the length of its edges, ``reach_mm`` from its tip to where something wider than
    the cutter begins (the cutting length when not given). ``corner_radius_mm`` rounds the tip: 0 for a
    straight cutter, half the diameter for ball and core-box (set here), the cove's own radius for a cove
    cutter, whose tip stays flat over diameter − 2·radius.

    Raises
    ShapeError
        ``size`` or ``corner_radius`` when the figures do not make a cutter.
    """

    diameter_mm: float
    cutting_length_mm: float
    shape: CutterShape = "straight"
    corner_radius_mm: float = 0.0
    reach_mm: float = 0.0
    name: str = ""

    def __post_init__(self) -> None:
        d = self.diameter_mm
        need(d > 0 and self.cutting_length_mm > 0, "size", f"a cutter needs sizes above 0, got {d} mm across")
        need(
            self.shape in ("straight", "ball", "core-box", "cove"),
            "shape",
            f"no cutter is called {self.shape!r}",
        )
        if self.shape in ("ball", "core-box"):
            object.__setattr__(self, "corner_radius_mm", d / 2)
        if not self.reach_mm:
            object.__setattr__(self, "reach_mm", self.cutting_length_mm)
        r = self.corner_radius_mm
        need(0 <= r <= d / 2, "corner_radius", f"a tip's radius must be 0 to half of {d} mm, got {r}", r)
        need(self.shape != "straight" or r == 0, "corner_radius", "a straight cutter has a square tip")
        need(self.shape != "cove" or r > 0, "corner_radius", "a cove cutter needs the radius of its cove")

    @property
    def radius_mm(self) -> float:
        return self.diameter_mm / 2

    def half_width(self, height_mm: float) -> float:
        """Half the width it cuts at a height above its tip; 0 below the tip.

        D/2 − r + √(r² − (r − h)²) up to the tip's radius r, D/2 above.
        """
        r, h = self.corner_radius_mm, height_mm
        if h < 0:
            return 0.0
        if h >= r:
            return self.diameter_mm / 2
        return self.diameter_mm / 2 - r + sqrt(max(r * r - (r - h) ** 2, 0.0))


def rotation_limit(diameter_mm: float) -> int | None:
    """Highest safe revolutions per minute for a diameter; None above 89 mm (not for a hand router).

    The figure on the cutter itself comes first when it is lower.
    """
    return next((limit for up_to, limit in ROTATION_LIMITS if diameter_mm <= up_to), None)


def largest_diameter(rotation_rpm: float) -> float | None:
    """Largest cutter diameter allowed at a router's lowest speed; None when it turns too fast for all."""
    fitting = [up_to for up_to, limit in ROTATION_LIMITS if rotation_rpm <= limit]
    return max(fitting, default=None)


def rim_speed_m_per_s(diameter_mm: float, rotation_rpm: float) -> float:
    """Speed of the cutting edge, m/s."""
    return pi * diameter_mm / 1000 * rotation_rpm / 60


@dataclass(frozen=True, slots=True)
class Passes:
    """Number of passes and the depth of each, mm; the depths after each pass from the surface."""

    count: int
    each_mm: float

    @property
    def depths_mm(self) -> tuple[float, ...]:
        return tuple(self.each_mm * (k + 1) for k in range(self.count))


def passes(depth_mm: float, cutter: Cutter, deepest_pass_mm: float | None = None) -> Passes:
    """Equal passes down to a depth, none deeper than ``deepest_pass_mm``.

    When that is not given: half the cutter's diameter, at most 8 mm (common practice for a hand router).
    """
    most = min(cutter.diameter_mm / 2, 8.0) if deepest_pass_mm is None else deepest_pass_mm
    need(
        depth_mm > 0 and most > 0,
        "size",
        f"expected a depth and a pass above 0, got {depth_mm} and {most} mm",
    )
    count = max(1, ceil(depth_mm / most - 1e-9))
    return Passes(count, depth_mm / count)


def reach_left(cutter: Cutter, depth_mm: float, above_mm: float = 0.0) -> float:
    """Reach the cutter has beyond what a cut needs; negative when it does not reach.

    ``above_mm`` is what stands between the router's base and the wood: template, base of a jig. The cutter's
    own limit is its reach below the base, so ``reach_mm`` must cover depth and whatever is above.
    """
    return cutter.reach_mm - depth_mm - above_mm


def cutter_that_would_do(
    cutters: tuple[Cutter, ...], largest_diameter_mm: float, depth_mm: float = 0.0, above_mm: float = 0.0
) -> Cutter | None:
    """The largest of the cutters no wider than ``largest_diameter_mm`` that reaches, or None."""
    fitting = [
        c for c in cutters
        if c.diameter_mm <= largest_diameter_mm + 1e-9 and reach_left(c, depth_mm, above_mm) >= 0
    ]  # fmt: skip
    return max(fitting, key=lambda c: c.diameter_mm, default=None)
