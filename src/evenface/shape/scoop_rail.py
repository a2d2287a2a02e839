"""The rail for a scooped hollow: a carriage on two feet runs down and up without tipping.

Every foot runs in a hollow of its own, so the cutter's axis stays square to the surface while its tip follows
the arc of the scoop. Foot centres follow that same arc; the rail lies a foot's radius outside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, ceil, cos, degrees, radians, sin, tan

from evenface.words import said

from .build import circle
from .faults import ShapeError, need
from .hollow import Hollow
from .outline import Outline
from .segment import Box, Segment

FOOT_MM = 16.0
"""Across a foot: half a dowel glued under the carriage."""
LAND_MM = 20.0  # left between the two hollows of a rail
END_MM = 40.0  # of each end of a rail, to screw it down by
UNDER_MM = 10.0  # of rail left under its hollows
STEEPEST_DEG = 45.0  # a cutter sinks in no steeper, and a foot does not climb: practice


@dataclass(frozen=True, slots=True)
class ScoopRail:
    """Outline of the rail seen from its side, its underside at y = 0; and what runs on it.

    feet : where the feet lie when the tip is deepest. tip : the way of one foot's centre, which is the way of
    the tip. apart_mm : between the feet. rise_mm : from the underside of the rail to the underside of the
    carriage when the tip is deepest, feet being half rounds. middle : upright line through the rail's middle.
    ends : zones to screw the rail down by.
    """

    outline: Outline
    feet: tuple[Outline, Outline]
    tip: Segment
    apart_mm: float
    foot_mm: float
    rise_mm: float
    steepest_deg: float
    middle: Segment
    ends: tuple[Box, Box]


def deepest_scoop(path_mm: float) -> float:
    """The deepest scoop a path of this length allows with a carriage: half of it times tan(45°/2), mm."""
    return path_mm / 2 * tan(radians(STEEPEST_DEG / 2))


def scoop_rail(hollow: Hollow, foot_mm: float = FOOT_MM) -> ScoopRail:
    """The rail that scoops a hollow of radius R over a path 2h: hollows of radius R + foot/2 on a half angle
    asin(h/R), at least 20 mm of level rail between them.

    Raises
    ShapeError
        ``scoop`` (not scooped), ``size`` (no foot), ``steep`` with the shortest path that would do as its value.
    """
    R = hollow.scoop_radius_mm
    need(R > 0, "scoop", "only a scooped hollow needs a rail")
    need(foot_mm > 0, "size", f"a foot needs a size above 0, got {foot_mm}")
    half = hollow.path[0].length / 2
    angle = asin(half / R)
    if degrees(angle) > STEEPEST_DEG + 1e-9:
        shortest = 2 * (R - R * cos(angle)) / tan(radians(STEEPEST_DEG / 2))
        message = said(
            "its scoop ends at {angle:deg} to the surface, and more than {most:deg} is too steep for a carriage: a "
            "path of at least {shortest:mm} would do",
            angle=round(degrees(angle)), most=STEEPEST_DEG, shortest=shortest,
        )  # fmt: skip
        raise ShapeError("steep", message, value=shortest)
    radius = R + foot_mm / 2
    chord, sag = 2 * radius * sin(angle), radius * (1 - cos(angle))
    apart = ceil(chord + LAND_MM)
    length, height = apart + chord + 2 * END_MM, UNDER_MM + sag
    bulge = -tan(angle / 2)
    middles = (length / 2 + apart / 2, length / 2 - apart / 2)
    top = [v for x in middles for v in ((x + chord / 2, height, bulge), (x - chord / 2, height, 0.0))]
    outline = Outline.of([(0.0, 0.0), (length, 0.0), (length, height), *top, (0.0, height)])
    level = UNDER_MM + foot_mm / 2
    left = middles[1]
    rise = R - R * cos(angle)
    tip = Segment(left - half, level + rise, left + half, level + rise, tan(angle / 2))
    feet = (circle(foot_mm, (left, level)), circle(foot_mm, (middles[0], level)))
    middle = Segment(length / 2, 0.0, length / 2, height)
    ends = ((0.0, 0.0, END_MM, height), (length - END_MM, 0.0, length, height))
    return ScoopRail(outline, feet, tip, apart, foot_mm, level, degrees(angle), middle, ends)
