"""Edging round a free outline: straight strips, roundings worked in afterwards, and pieces for its arcs."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import atan2, ceil, degrees

from evenface.construction.profile_depth import RESERVE, profile_depth_inside
from evenface.construction.records import BuiltPanel, EdgePiece, Edging
from evenface.materials.rules import rule
from evenface.piece.records import Side
from evenface.shape.corner_pieces import BentStrips, bent_strips, ring_segments
from evenface.shape.edged import Edged, Stretch, edged, roundable, rounding_reserve
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.segment import Segment

RUN_OUT_DEG = rule("grain-run-out").nominal
"""Segments are made so short that their grain runs out by no more."""

MOST_STRIPS = 8
"""Where the maker does not say how, an arc that needs more strips than this is built of segments."""


def side_of(segment: Segment) -> Side:
    """The side a stretch of an outline belongs to: the one its middle faces most. Outer rings only."""
    dx, dy = segment.heading(0.5)
    outward_x, outward_y = dy, -dx
    if abs(outward_x) > abs(outward_y):
        return Side.RIGHT if outward_x > 0 else Side.LEFT
    return Side.REAR if outward_y > 0 else Side.FRONT


def sides_of(panel: BuiltPanel) -> tuple[Side, ...]:
    """The side of every segment of the free outline: as named in the job, else by the way it faces."""
    outline = panel.panel.outline
    if outline is None:
        return ()
    return panel.panel.outline_sides or tuple(side_of(segment) for segment in outline.outer_segments())


@dataclass(frozen=True, slots=True)
class Rounding:
    """An arc of a free outline between two lines that run into it smoothly, both edged.

    widths_mm : of the edging before and after it. wood_mm : wanted between carrier and arc, profile and reserve.
    left_mm : what straight edging mitred behind the arc would leave. afterwards : whether it is made so.
    """

    number: int
    radius_mm: float
    turn_deg: float
    sides: tuple[Side, Side]
    widths_mm: tuple[float, float]
    wood_mm: float
    left_mm: float
    afterwards: bool


def roundings_of(panel: BuiltPanel) -> tuple[Rounding, ...]:
    """Every arc that could be worked into straight edging, in the order of the outline."""
    outline = panel.panel.outline
    if outline is None:
        return ()
    return tuple(_roundings(panel, outline))


def _roundings(panel: BuiltPanel, outline: Outline) -> Iterator[Rounding]:
    segments, sides = outline.outer_segments(), sides_of(panel)
    for number in roundable(outline):
        two = sides[number - 1], sides[(number + 1) % len(sides)]
        one, other = (panel.edging(side) for side in two)
        if one is None or other is None:
            continue
        alike = (one.top, one.bottom, one.order) == (other.top, other.bottom, other.order)
        wood = RESERVE.nominal + profile_depth_inside(panel, two)
        arc = segments[number]
        left = rounding_reserve(arc.radius, arc.sweep, one.width_mm, other.width_mm)
        yield Rounding(
            number,
            arc.radius,
            degrees(arc.sweep),
            two,
            (one.width_mm, other.width_mm),
            wood,
            left,
            alike and way_of(panel) == "rounded" and left >= wood - 1e-9,
        )


def way_of(panel: BuiltPanel) -> str:
    """How arcs are edged: "ring" or "strips" where the job says so for its corners, else "rounded"."""
    asked = {corner.construction for corner in panel.panel.corners}
    return next((way for way in ("ring", "strips") if way in asked), "rounded")


def edging_of_free_outline(panel: BuiltPanel) -> Edged:
    """Stretches of edging and the carrier inside them.

    Raises ValueError without a free outline, ShapeError when edging of these widths cannot follow it.
    """
    outline = panel.panel.outline
    if outline is None:
        raise ValueError("expected a panel with a free outline")
    widths = [panel.edging_width_mm(side) for side in sides_of(panel)]
    afterwards = [rounding.number for rounding in roundings_of(panel) if rounding.afterwards]
    return edged(outline, widths, afterwards)


def edged_free_outline(panel: BuiltPanel) -> BuiltPanel:
    """The panel with carrier and edging following its free outline; neither where the edging cannot."""
    try:
        made = edging_of_free_outline(panel)
    except ShapeError:
        return panel
    sides = sides_of(panel)
    pieces = tuple(
        _piece(panel, edging, stretch)
        for stretch in made.stretches
        if (edging := panel.edging(sides[stretch.number])) is not None
    )
    return replace(panel, carrier_outline=made.carrier, edge_pieces=pieces)


def _piece(panel: BuiltPanel, edging: Edging, stretch: Stretch) -> EdgePiece:
    outer, inner = stretch.outer, stretch.inner
    dx, dy = outer.heading(0.5)
    plain = EdgePiece(
        name="outline",
        what="arc" if outer.is_arc else "line",
        kind="strip",
        edging=edging,
        width_mm=stretch.width_mm,
        outer_mm=outer.length,
        inner_mm=inner.length if inner else 0.0,
        ends_deg=(stretch.start_deg, stretch.end_deg),
        direction_deg=_direction(dx, dy),
        side=edging.side,
        number=stretch.number + 1,
        origin=edging.origin,
    )
    return _curved(panel, plain, outer) if outer.is_arc else plain


def _direction(dx: float, dy: float) -> float:
    """Direction of grain against the panel's length, 0 to below 180."""
    angle = round(degrees(atan2(dy, dx)), 9) % 180.0
    return angle + 0.0


def _curved(panel: BuiltPanel, plain: EdgePiece, arc: Segment) -> EdgePiece:
    """The arc bent of strips or as a ring of segments; sawn from wide board where it is tighter than its width."""
    width, sweep = plain.width_mm, degrees(abs(arc.sweep))
    hollow = arc.sweep < 0
    # a hollow arc carries its edging on the outer side of its circle: finished inside, carrier outside
    radius = arc.radius + width if hollow else arc.radius
    corner = next(iter(panel.panel.corners), None)
    asked, strip = (corner.pieces, corner.strip_mm) if corner else (0, None)
    made = replace(plain, radius_mm=arc.radius, sweep_deg=sweep, hollow=hollow)
    way = way_of(panel)
    try:
        bend = _bend(radius, width, sweep, asked if way == "strips" else 0, strip)
        if way == "strips" or (way == "rounded" and bend.count <= MOST_STRIPS):
            return replace(made, kind="bent", count=bend.count, strips=bend)
        count = asked if way == "ring" and asked else max(1, ceil(sweep / (2 * RUN_OUT_DEG) - 1e-9))
        blank = ring_segments(radius, width, count, sweep)
        return replace(made, kind="segments", count=count, blank=blank)
    except ShapeError:
        return replace(made, kind="sawn", blank=None)


def _bend(radius: float, width: float, sweep: float, count: int, strip: float | None) -> BentStrips:
    asked = count or (ceil(width / strip - 1e-9) if strip else 0)
    return bent_strips(radius, width, max(asked, 2) if asked else None, sweep_deg=sweep)
