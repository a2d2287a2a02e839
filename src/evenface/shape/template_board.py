"""The board a template is cut from, the holes drilled before routing, and the frame for a bare base."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from .cutter import Cutter
from .faults import need
from .outline import Outline
from .ring import segments_of
from .template import Template


@dataclass(frozen=True, slots=True)
class CornerHole:
    """A hole drilled in a corner before sawing or routing: centre and diameter, mm."""

    x_mm: float
    y_mm: float
    diameter_mm: float


def corner_holes(cutout: Outline) -> tuple[CornerHole, ...]:
    """The holes to drill first in the rounded inner corners of a cut-out: one per corner arc."""
    return tuple(
        CornerHole(s.cx, s.cy, 2 * s.radius)
        for s in segments_of(cutout.outer)
        if s.is_arc and 0 < s.sweep < 3.0  # a half circle and more is an end, not a corner
    )


LEAST_BOARD_MM = (300.0, 200.0)  # smallest template board that can be clamped beside the router (practice)
LEAST_THICKNESS_MM = 10.0


@dataclass(frozen=True, slots=True)
class TemplateBoard:
    """The board a template is cut from: (left, low, right, high) of board and of what the router sweeps.

    Hold-down zones are the rectangles of the board the router's base never covers.
    """

    board: tuple[float, float, float, float]
    swept: tuple[float, float, float, float]
    hold_down: tuple[tuple[float, float, float, float], ...]
    centre: tuple[float, float]
    thickness_mm: float


def template_board(
    template: Template,
    base_diameter_mm: float,
    clamp_mm: float = 60.0,
    thickness_mm: float = LEAST_THICKNESS_MM,
) -> TemplateBoard:
    """Smallest board for a template: the router's base stays on it, with a clamping strip at both ends.

    Sizes are rounded up to whole millimetres and never below 300 × 200.
    """
    need(
        base_diameter_mm > template.guide.diameter_mm,
        "size",
        "the router's base must be wider than its guide",
    )
    left, low, right, high = template.outline.bounds
    reach = (base_diameter_mm - template.guide.diameter_mm) / 2
    if template.work == "outside":
        reach = (base_diameter_mm + template.guide.diameter_mm) / 2
    swept = (left - reach, low - reach, right + reach, high + reach)
    cx, cy = (left + right) / 2, (low + high) / 2
    length = max(ceil(swept[2] - swept[0] + 2 * clamp_mm), LEAST_BOARD_MM[0])
    width = max(ceil(swept[3] - swept[1]), LEAST_BOARD_MM[1])
    board = (cx - length / 2, cy - width / 2, cx + length / 2, cy + width / 2)
    zones = ((board[0], board[1], swept[0], board[3]), (swept[2], board[1], board[2], board[3]))
    return TemplateBoard(board, swept, zones, (cx, cy), max(thickness_mm, LEAST_THICKNESS_MM))


def base_frame(
    length_mm: float, width_mm: float, base_diameter_mm: float, cutter: Cutter
) -> tuple[float, float]:
    """Inside size of a frame in which a router's round base runs, for a rectangular recess of the given size.

    Recess + base − cutter: a 203 mm slot with a 152 mm base and a 38 mm cutter needs 317 mm.
    """
    add = base_diameter_mm - cutter.diameter_mm
    need(
        min(length_mm, width_mm) >= cutter.diameter_mm, "too_narrow", "the recess is narrower than the cutter"
    )
    need(add > 0, "size", "the base must be wider than the cutter")
    return length_mm + add, width_mm + add
