"""Blanks, mitres and forms for the constructions that carry an edging round a large corner."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, ceil, cos, degrees, pi, radians, sin, sqrt, tan

from evenface.words import said

from .corner import clip_legs
from .faults import need

WORKING_MM = 5.0  # added to depth and length of a curved blank; 5 to 10 by practice
STRAIN_LIMIT = 0.01  # air-dry bending, t/2r about 0.8 to 1.0 %


@dataclass(frozen=True, slots=True)
class CurvedBlank:
    """A blank from which one piece of a round corner is sawn.

    ``length_mm`` along the chord and ``depth_mm`` square to it, both net; ``rough_*`` with the working
    allowance. ``mitre_deg`` is cut off a square end, ``run_out_deg`` the angle between grain (along the
    chord) and the outline at the ends. ``across_grain_mm`` is what moves with moisture under a facing.
    """

    count: int
    length_mm: float
    depth_mm: float
    mitre_deg: float
    run_out_deg: float
    across_grain_mm: float

    @property
    def rough_length_mm(self) -> float:
        return self.length_mm + WORKING_MM

    @property
    def rough_depth_mm(self) -> float:
        return self.depth_mm + WORKING_MM


def ring_segments(radius_mm: float, width_mm: float, count: int, sweep_deg: float = 90.0) -> CurvedBlank:
    """A corner of ``count`` segments: length 2R·sin(θ/2), depth R − (R − w)·cos(θ/2), run-out θ/2.

    ``sweep_deg`` is the angle of the whole corner. The carrier's corner is rounded to R − w.
    """
    R, w = radius_mm, width_mm
    need(count >= 1, "count", f"a ring needs at least one segment, got {count}")
    need(0 < w < R, "radius", f"a ring of segments needs a radius above its width, got R {R} and w {w}", R)
    half = radians(sweep_deg) / count / 2
    need(half < pi / 2, "angle", f"one segment cannot turn by {degrees(2 * half):.0f}°: take more segments")
    depth = R - (R - w) * cos(half)
    return CurvedBlank(count, 2 * R * sin(half), depth, degrees(half), degrees(half), depth)


def full_ring(radius_mm: float, width_mm: float, count: int) -> CurvedBlank:
    """A closed ring of straight segments to be turned round: outer length 2R·tan(π/N), mitres 180/N."""
    R, w, half = radius_mm, width_mm, pi / count
    need(count >= 3, "count", f"a full ring needs at least three segments, got {count}")
    need(0 < w < R, "radius", f"a ring of segments needs a radius above its width, got R {R} and w {w}", R)
    depth = R - (R - w) * cos(half)
    return CurvedBlank(count, 2 * R * tan(half), depth, degrees(half), degrees(half), depth)


def corner_block(radius_mm: float, width_mm: float) -> CurvedBlank:
    """A square block let into the corner, its sides as long as the radius, grain along one side.

    The straight edgings stop at it, the carrier is notched square by R − w, and the rounding ends in grain
    running straight out (90°) on one of the two sides.
    """
    side = max(radius_mm, width_mm)
    return CurvedBlank(1, side, side, 0.0, 90.0, side)


@dataclass(frozen=True, slots=True)
class ClippedCorner:
    """A carrier corner cut off at 45° with a block on the flat joint.

    The edgings run on past the corner and are clipped together with the carrier. ``leg_mm`` is taken from
    each side of the carrier, ``carrier_flat_mm`` the length of its cut, ``joint_mm`` the whole joint through
    the edgings to the square outline; ``block`` the piece that stands on it, grain along the joint;
    ``wood_at_middle_mm`` what is left there after rounding.
    """

    leg_mm: float
    carrier_flat_mm: float
    joint_mm: float
    block: CurvedBlank
    wood_at_middle_mm: float


def clipped_corner(
    radius_mm: float,
    width1_mm: float,
    wood_mm: float,
    leg_mm: float | None = None,
    width2_mm: float | None = None,
) -> ClippedCorner:
    """The carrier clipped at 45°, with the least leg that leaves ``wood_mm`` unless a longer one is given.

    ``width2_mm`` None means both edgings alike.

    Raises
    ShapeError
        ``too_narrow`` (a width below the wood wanted), ``leg`` (shorter than the least, 0 because no clip is
        needed, or so long that the joint passes the centre of the rounding).
    """
    R, w1 = radius_mm, width1_mm
    w2 = w1 if width2_mm is None else width2_mm
    least = max(clip_legs(R, w1, w2, wood_mm))
    leg = least if leg_mm is None else leg_mm
    need(
        leg >= least - 1e-9,
        "leg",
        said("a leg of {leg:mm} leaves too little wood: at least {least:mm2}", leg=leg, least=least),
        least,
    )
    need(leg > 0, "leg", "the square carrier corner leaves enough wood: no clip is needed", leg)
    outside = w1 + w2 + leg  # where the joint meets the square outline, from its corner
    from_centre = (2 * R - outside) / sqrt(2)
    need(
        from_centre > 0,
        "leg",
        said("a leg of {leg:mm} passes the centre of the rounding: use a corner block", leg=leg),
        leg,
    )
    wood = R - from_centre
    on_straights = outside > R  # the joint ends beyond the arc
    length = outside * sqrt(2) if on_straights else 2 * sqrt(R * R - from_centre * from_centre)
    run_out = 45.0 if on_straights else degrees(acos(from_centre / R))
    block = CurvedBlank(1, length, wood, 0.0, run_out, wood)
    return ClippedCorner(leg, leg * sqrt(2), outside * sqrt(2), block, wood)


@dataclass(frozen=True, slots=True)
class BentStrips:
    """Strips bent and glued to a round corner.

    ``strain`` is t/2r on the mean radius of the pack, ``strain_inner`` on that of the innermost strip.
    ``lost_share`` of the form's curvature springs back (1/n²), so the form is made to ``form_inner_mm`` and
    ``form_outer_mm`` = radius·(1 − 1/n²) and turns ``form_sweep_deg`` with the same arc length.
    ``spring_back_deg`` is what a form without that allowance would miss on the corner.
    ``lengths_mm`` from the innermost strip out, on each strip's own mean line, straights included.
    """

    count: int
    thickness_mm: float
    strain: float
    strain_inner: float
    lost_share: float
    inner_radius_mm: float
    outer_radius_mm: float
    form_inner_mm: float
    form_outer_mm: float
    form_sweep_deg: float
    spring_back_deg: float
    lengths_mm: tuple[float, ...]


def thickest_strip(radius_mm: float, width_mm: float, strain_limit: float = STRAIN_LIMIT) -> float:
    """Thickest strip that bends to the pack's mean radius within the strain limit: t = 2·r·ε."""
    return 2 * (radius_mm - width_mm / 2) * strain_limit


def bent_strips(
    radius_mm: float,
    width_mm: float,
    count: int | None = None,
    strain_limit: float = STRAIN_LIMIT,
    sweep_deg: float = 90.0,
    straight_mm: float = 0.0,
) -> BentStrips:
    """Number and thickness of strips, their strain, lengths and form radii.

    ``count`` None takes the fewest within ``strain_limit``: R 60, w 14 at 1 % needs 14 strips of 1.0 mm.
    ``straight_mm`` is what each end runs on past the bend. Two strips at least: one alone springs back whole.
    """
    R, w = radius_mm, width_mm
    need(0 < w < R, "radius", f"bent strips need a radius above the width, got R {R} and w {w}", R)
    need(strain_limit > 0, "strain", f"the strain limit must be above 0, got {strain_limit}")
    n = count if count is not None else max(2, ceil(w / thickest_strip(R, w, strain_limit) - 1e-9))
    need(n >= 2, "count", f"bent strips need at least two, got {n}: one strip springs back altogether", n)
    t, lost, sweep = w / n, 1 / n**2, radians(sweep_deg)
    return BentStrips(
        count=n,
        thickness_mm=t,
        strain=t / (2 * (R - w / 2)),
        strain_inner=t / (2 * (R - w) + t),
        lost_share=lost,
        inner_radius_mm=R - w,
        outer_radius_mm=R,
        form_inner_mm=(R - w) * (1 - lost),
        form_outer_mm=R * (1 - lost),
        form_sweep_deg=sweep_deg / (1 - lost),
        spring_back_deg=sweep_deg * lost,
        lengths_mm=tuple((R - w + (k + 0.5) * t) * sweep + 2 * straight_mm for k in range(n)),
    )
