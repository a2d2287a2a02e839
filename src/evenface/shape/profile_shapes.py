"""The profiles of the trade, each given by what a maker reads off the cutter."""

from __future__ import annotations

from math import isfinite, pi, sqrt, tan

from evenface.words import said

from .faults import ShapeError
from .profile import Profile, ProfilePoint

QUARTER = tan(pi / 8)


def round_over(radius_mm: float, quirk_mm: float = 0.0) -> Profile:
    """Quarter round, flush with face and edge; with a quirk it starts that much below the face."""
    r, q = _positive(radius_mm, "radius"), quirk_mm
    arc = ((q, r, QUARTER), (q + r, 0.0, 0.0))
    if not q:
        return Profile("round-over", arc)
    return Profile("round-over", ((0.0, r, 0.0), *arc))


def chamfer(height_mm: float, depth_mm: float | None = None) -> Profile:
    """A flat slope, ``height_mm`` down the edge and ``depth_mm`` into the face (the same when not given)."""
    h = _positive(height_mm, "height")
    d = h if depth_mm is None else _positive(depth_mm, "depth")
    return Profile("chamfer", ((0.0, d, 0.0), (h, 0.0, 0.0)))


def bevel_under(height_mm: float, depth_mm: float) -> Profile:
    """A slope from the under side so that the edge looks thin; atan(depth/height) off the edge."""
    flat = chamfer(height_mm, depth_mm)
    return Profile("bevel under", flat.points)


def cove(radius_mm: float) -> Profile:
    """Quarter hollow about the arris."""
    r = _positive(radius_mm, "radius")
    return Profile("cove", ((0.0, r, -QUARTER), (r, 0.0, 0.0)))


def thumbnail(radius_mm: float, step_mm: float, depth_mm: float) -> Profile:
    """A step down from the face, then a flat curve of ``radius_mm`` running out at the edge.

    The arc starts level (flush with the step's floor) ``depth_mm`` in from the edge.
    """
    r, d = _positive(radius_mm, "radius"), _positive(depth_mm, "depth")
    if d > r:
        raise ShapeError(
            "radius",
            said(
                "a thumbnail {deep:mm} deep needs a radius of at least that, got {radius:mm}",
                deep=d,
                radius=r,
            ),
        )
    fall = r - sqrt(r * r - d * d)
    half = sqrt(fall * fall + d * d) / 2
    bulge = (r - sqrt(r * r - half * half)) / half
    start = ((0.0, d, 0.0),) if step_mm else ()
    return Profile("thumbnail", (*start, (step_mm, d, bulge), (step_mm + fall, 0.0, 0.0)))


def stepped(*steps: tuple[float, float]) -> Profile:
    """Square steps from the face down: (height, depth) each; depths grow smaller on the way."""
    points: list[ProfilePoint] = []
    z = 0.0
    for height, depth in steps:
        points += [(z, depth, 0.0), (z + _positive(height, "height"), depth, 0.0)]
        z += height
    return Profile("stepped", (*points, (z, 0.0, 0.0)))


def free_profile(points: tuple[ProfilePoint, ...], name: str = "free") -> Profile:
    """Any chain of (z, d, bulge); bulge is positive as in a round-over, negative as in a cove."""
    return Profile(name, points)


def _positive(value: float, what: str) -> float:
    if not (isfinite(value) and value > 0):
        raise ShapeError("size", f"a profile's {what} must be above 0, got {value}")
    return value
