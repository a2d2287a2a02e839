"""Edging round a free outline: which side a stretch belongs to, what is left of the carrier, what bends."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, degrees

from evenface.construction.records import BuiltPanel
from evenface.materials.rules import rule
from evenface.piece.records import Side
from evenface.shape.corner_pieces import BentStrips, CurvedBlank, bent_strips, ring_segments
from evenface.shape.faults import ShapeError
from evenface.shape.offset import offset, offset_each
from evenface.shape.outline import Outline
from evenface.shape.segment import Segment

RUN_OUT_DEG = rule("grain-run-out").nominal
"""Segments are made so short that their grain runs out by no more."""


def side_of(segment: Segment) -> Side:
    """The side a stretch of an outline belongs to: the one its middle faces most. Outer rings only."""
    dx, dy = segment.heading(0.5)
    outward_x, outward_y = dy, -dx
    if abs(outward_x) > abs(outward_y):
        return Side.RIGHT if outward_x > 0 else Side.LEFT
    return Side.REAR if outward_y > 0 else Side.FRONT


def carrier_of_free_outline(panel: BuiltPanel) -> Outline:
    """The carrier inside the edging of a free outline.

    Raises ValueError without a free outline, ShapeError when edging of these widths cannot follow it.
    """
    outline = panel.panel.outline
    if outline is None:
        raise ValueError("expected a panel with a free outline")
    widths = [panel.edging_width_mm(side_of(segment)) for segment in outline.outer_segments()]
    if len(set(widths)) == 1:
        return offset(outline, -widths[0], "mitre").only
    return offset_each(outline, [-width for width in widths])


@dataclass(frozen=True, slots=True)
class CurvedEdge:
    """An arc of an outline that carries edging; strips and segments are None where neither can be made."""

    side: Side
    radius_mm: float
    sweep_deg: float
    strips: BentStrips | None
    segments: CurvedBlank | None


def curved_edges(panel: BuiltPanel) -> Iterator[CurvedEdge]:
    """Every arc of the free outline with an edging on it, in the order of the outline."""
    outline = panel.panel.outline
    for segment in outline.outer_segments() if outline else ():
        side = side_of(segment)
        width = panel.edging_width_mm(side)
        if not segment.is_arc or width <= 0:
            continue
        # a hollow arc bends the edging to its own radius from the other side: outside radius is the larger
        radius = segment.radius if segment.sweep > 0 else segment.radius + width
        sweep = degrees(abs(segment.sweep))
        count = max(1, ceil(sweep / (2 * RUN_OUT_DEG) - 1e-9))
        try:
            strips, segments = (
                bent_strips(radius, width, sweep_deg=sweep),
                ring_segments(radius, width, count, sweep),
            )
        except ShapeError:
            yield CurvedEdge(side, segment.radius, sweep, None, None)
            continue
        yield CurvedEdge(side, segment.radius, sweep, strips, segments)
