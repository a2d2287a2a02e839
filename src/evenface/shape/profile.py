"""The shape worked on an edge: its depth d into the wood, against z below the face it is worked from.

A profile is a chain of lines and arcs in the plane (z, d). z never runs back, so at every level there is one
depth; steps (z standing still) are allowed. Beyond its last point the edge is full (d = 0).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite, pi, sqrt

from evenface.words import said

from .faults import ShapeError
from .segment import ON_MM, Segment

type ProfilePoint = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Profile:
    """Chain of (z, d, bulge) points, mm, z from the worked face downwards, starting at z = 0.

    ``name`` is the trade's word for it. ``tangent_radius_mm`` is the radius of an arc that starts flush with
    the face (0 when the profile meets it at an angle): there the seen edge wanders with the cutter's height.

    Raises
    ShapeError
        ``not_finite``, ``too_few``, ``start`` (z not 0), ``runs_back`` with its place, ``negative`` (d < 0).
    """

    name: str
    points: tuple[ProfilePoint, ...]

    def __post_init__(self) -> None:
        if not all(isfinite(v) for p in self.points for v in p):
            raise ShapeError("not_finite", f"every figure of profile {self.name!r} must be a finite number")
        if len(self.points) < 2:
            raise ShapeError(
                "too_few", said("profile {name} needs at least two points", name=repr(self.name))
            )
        if abs(self.points[0][0]) > ON_MM:
            start = self.points[0][0]
            message = said(
                "profile {name} must start at z 0, got {start:mm}", name=repr(self.name), start=start
            )
            raise ShapeError("start", message)
        for number, s in enumerate(self.segments):
            if s.box[0] < s.x0 - ON_MM or s.box[2] > s.x1 + ON_MM or s.x1 < s.x0 - ON_MM:
                raise ShapeError(
                    "runs_back",
                    said(
                        "profile {name}: segment {number:count} from z {z:g}, d {d:g} runs back towards the face: no "
                        "cutter from that side makes it, split it into two profiles",
                        name=repr(self.name),
                        number=number,
                        z=s.x0,
                        d=s.y0,
                    ),
                )
            if s.box[1] < -ON_MM:
                raise ShapeError(
                    "negative",
                    said(
                        "profile {name}: segment {number:count} stands proud of the edge",
                        name=repr(self.name),
                        number=number,
                    ),
                )

    @property
    def segments(self) -> tuple[Segment, ...]:
        """The pieces as segments in the plane x = z, y = d."""
        pairs = zip(self.points, self.points[1:], strict=False)
        return tuple(
            Segment(z0, d0, z1, d1, bulge) for (z0, d0, bulge), (z1, d1, _) in pairs
            if abs(z1 - z0) + abs(d1 - d0) > ON_MM
        )  # fmt: skip

    @property
    def height_mm(self) -> float:
        """How far down the edge the profile reaches."""
        return self.points[-1][0]

    @property
    def deepest_mm(self) -> float:
        return self.depth_between(0.0, self.height_mm)[0]

    def depth_at(self, z_mm: float) -> float:
        """Depth d at a level, mm; at a step the greater of the two."""
        return self.depth_between(z_mm, z_mm)[0]

    def depth_between(self, z_from_mm: float, z_to_mm: float) -> tuple[float, float]:
        """The greatest depth between two levels and the level it is found at, in closed form, mm."""
        best = (0.0, min(max(z_from_mm, self.height_mm), z_to_mm))
        for piece in self.clipped(z_from_mm, z_to_mm):
            for z, d in _deepest_candidates(piece):
                if d > best[0] + 1e-12:
                    best = (d, z)
        return best

    def clipped(self, z_from_mm: float, z_to_mm: float) -> tuple[Segment, ...]:
        """The pieces of the profile between two levels, both included; steps at a level belong to it."""
        return tuple(p for s in self.segments if (p := _clip(s, z_from_mm, z_to_mm)))

    @property
    def tangent_radius_mm(self) -> float:
        first = self.segments[0]
        return first.radius if first.is_arc and abs(first.heading(0.0)[0]) < 1e-6 else 0.0


def _clip(s: Segment, low: float, high: float) -> Segment | None:
    if s.x1 < low - ON_MM or s.x0 > high + ON_MM:
        return None
    if s.x1 - s.x0 < ON_MM:  # a step stands at one level: all of it belongs to that level
        return s
    start = 0.0 if s.x0 >= low else _share_at(s, low)
    end = 1.0 if s.x1 <= high else _share_at(s, high)
    return s.part(start, max(start, end))


def _share_at(s: Segment, z: float) -> float:
    """Share of the length at which a piece that never runs back reaches level z."""
    if not s.is_arc:
        return (z - s.x0) / (s.x1 - s.x0)
    across = sqrt(max(s.radius**2 - (z - s.cx) ** 2, 0.0))
    ends = (s.share_of((z, s.cy + across)), s.share_of((z, s.cy - across)))
    return min((min(max(e, 0.0), 1.0) for e in ends), key=lambda share: abs(s.at(share)[0] - z))


def _deepest_candidates(piece: Segment) -> list[tuple[float, float]]:
    spots = [piece.first, piece.last]
    if piece.is_arc and piece.holds_angle(pi / 2):
        spots.append((piece.cx, piece.cy + piece.radius))
    return spots


@dataclass(frozen=True, slots=True)
class Band:
    """A layer's edge as it shows in the profile: true width along the curve, and seen from above, mm.

    ``wander_mm`` is how far its upper line moves for the given error of the cutter's height.
    """

    true_width_mm: float
    from_above_mm: float
    wander_mm: float


def band(profile: Profile, z_from_mm: float, z_to_mm: float, height_error_mm: float = 0.0) -> Band:
    """What shows of a layer between two levels: a facing of thickness t is the band from 0 to t.

    Round-over r ≥ t: r·acos(1 − t/r); r < t: πr/2 + (t − r); chamfer: t/sin α. Where a round-over starts
    flush with the face, an error δ moves the line by √(2rδ).
    """
    pieces = [p for p in profile.clipped(z_from_mm, z_to_mm) if _shows(p, z_from_mm, z_to_mm)]
    shown = sum(p.length for p in pieces)
    below = max(0.0, z_to_mm - max(z_from_mm, profile.height_mm))
    depths = [d for p in pieces for d in (p.y0, p.y1, p.box[3], p.box[1])] or [0.0]
    if below > 0:
        depths.append(0.0)
    return Band(shown + below, max(depths) - min(depths), wander(profile, height_error_mm))


def _shows(piece: Segment, z_from: float, z_to: float) -> bool:
    """Whether a piece belongs to the layer: a step on the border between two is the top of the lower one."""
    return piece.x1 - piece.x0 > ON_MM or z_from - ON_MM <= piece.x0 < z_to - ON_MM


def wander(profile: Profile, height_error_mm: float) -> float:
    """How far the line where the profile leaves the face moves for an error of the cutter's height, mm.

    √(2rδ) for an arc flush with the face (r 6, 0.1 mm: 1.1 mm); δ/tan α for a slope at α below the face.
    """
    first, error = profile.segments[0], abs(height_error_mm)
    if profile.tangent_radius_mm:
        r = profile.tangent_radius_mm
        return sqrt(2 * r * error) if error < r else sqrt(2 * r * r)
    dz, dd = first.heading(0.0)
    if dz < 1e-9:  # a step straight into the face: its height does not move the line
        return 0.0
    return error * abs(dd) / dz
