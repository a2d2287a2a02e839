"""Sizes of a framed panel: members, opening, and the gap that the year of the room asks for.

Lengths in mm. A member keeps its length and changes its width. Where a joint fixes it decides how much of
that change reaches the opening:

- butt and bridle: the shoulders of the rails hold the inner edges of the stiles apart, so a stile grows
  outwards and only its ledge moves; a rail is held at its middle, so half its width grows inwards;
- mitre: the joint opens at one end; at worst the whole width grows inwards.
"""

from dataclasses import dataclass
from math import ceil
from typing import Final

import numpy as np

from evenface.construction.ground import Ground
from evenface.construction.kinds.framed_panel.records import Framed
from evenface.construction.placed import BuildUpSizes
from evenface.construction.room_air import year_of
from evenface.construction.wood_through_year import ThroughYear, width_through_year
from evenface.evidence import Value
from evenface.piece.records import Role

FITTING_MM: Final = 0.5
"""COMMON PRACTICE: air on each side that lets a panel be lifted out and in."""
STEP_MM: Final = 0.5


@dataclass(frozen=True, slots=True)
class FrameSizes:
    """What a framed panel measures. [mm]

    stile, rail : width of the boards, ledge and all. inset : from the frame's outside to the panel's edge,
    across a stile and across a rail. panel : length (along x) and width (along z). depth_to_face : from the
    frame's face to the panel's. seat_depth : of the rebate, or width of the groove. shifts : how far the
    opening's edge moves inwards (> 0) through the year, for a stile and for a rail. panel_grows : half of what
    the panel grows by, along x and z, at most. asked_gap : what the year asks for on each side, the larger of
    both directions.
    """

    stile_mm: float
    rail_mm: float
    inset_mm: tuple[float, float]
    panel_mm: tuple[float, float]
    depth_to_face_mm: float
    seat_depth_mm: float
    gap_mm: float
    asked_gap_mm: float
    shifts: tuple[ThroughYear, ThroughYear]
    panel_grows_mm: tuple[float, float]
    thickness: BuildUpSizes


def frame_sizes(framed: Framed, ground: Ground) -> FrameSizes:
    """Sizes of frame and panel. MissingWord for a wood the catalogue lacks."""
    frame = framed.frame
    thickness = ground.sizes_of(framed.panel.buildup)
    seen = (frame.width, frame.rail_width or frame.width)
    under = frame.ledge if frame.seat == "rebate" else 0.0
    boards = (seen[0] + under, seen[1] + under)
    shifts = _shifts(framed, ground, boards)
    openings = (framed.width_mm - 2 * seen[0], framed.height_mm - 2 * seen[1])
    grows = _panel_grows(framed, ground, openings)
    asked = max(shift.most_mm + grown for shift, grown in zip(shifts, grows, strict=True)) + FITTING_MM
    asked = max(FITTING_MM, ceil(round(asked / STEP_MM, 6)) * STEP_MM)
    gap = frame.gap if frame.gap is not None else asked
    over = 0.0 if frame.seat == "rebate" else frame.ledge
    inset = (seen[0] - over + gap, seen[1] - over + gap)
    return FrameSizes(
        stile_mm=boards[0],
        rail_mm=boards[1],
        inset_mm=inset,
        panel_mm=(framed.width_mm - 2 * inset[0], framed.height_mm - 2 * inset[1]),
        depth_to_face_mm=frame.shy if frame.seat == "rebate" else frame.lip,
        seat_depth_mm=thickness.thickness_mm
        + (frame.shy if frame.seat == "rebate" else 0.0)
        + (STEP_MM if frame.seat == "groove" else 0.0),
        gap_mm=gap,
        asked_gap_mm=asked,
        shifts=shifts,
        panel_grows_mm=grows,
        thickness=thickness,
    )


def rail_length_mm(framed: Framed, sizes: FrameSizes) -> float:
    """Length of a rail: over the mitres, between the stiles, or through their slots."""
    return framed.width_mm - (2 * sizes.stile_mm if framed.frame.joint == "butt" else 0.0)


def _shifts(framed: Framed, ground: Ground, boards: tuple[float, float]) -> tuple[ThroughYear, ThroughYear]:
    """How far the edge the panel lies against moves inwards, for a stile and for a rail."""
    frame = framed.frame
    wood = ground.materials.wood(frame.wood)
    per_mm = width_through_year(ground.job, wood, 1.0, frame.cut)
    # the panel's edge lies against a shoulder that stands this far outside the member's inner edge
    back = frame.ledge
    if frame.joint == "mitre":
        return per_mm.over(boards[0] - back), per_mm.over(boards[1] - back)
    return _turned(per_mm.over(back)), per_mm.over(max(boards[1] / 2 - back, 0.0))


def _turned(change: ThroughYear) -> ThroughYear:
    """The same change the other way round."""
    return ThroughYear(-change.most_mm, -change.least_mm, change.status)


def _panel_grows(framed: Framed, ground: Ground, openings: tuple[float, float]) -> tuple[float, float]:
    """Half of what the panel grows by between the shop and the damp end of the year, along x and z."""
    humidity = year_of(ground.job, ground.job.room).humidity
    damp = max(float(np.percentile(humidity, 95)) - ground.job.shop_humidity, 0.0)
    layer = next(one for one in ground.job.buildups[framed.panel.buildup].layers if one.role is Role.CARRIER)
    board = ground.materials.carrier(layer.material)
    pair: tuple[Value, Value] = (board.expansion_along, board.expansion_across)
    along, across = pair if layer.direction_deg == 0.0 else pair[::-1]
    return openings[0] * along.high * damp / 2, openings[1] * across.high * damp / 2
