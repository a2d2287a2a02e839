"""Corners that are built, not only rounded: clipped carrier, solid block, ring of segments, bent strips.

Each shortens the strips that come to it, gives the carrier's corner another shape, and needs a piece of its
own. Corners whose straight edging is rounded afterwards are no corner pieces.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import ceil

from evenface.construction.free_outlines import edged_free_outline
from evenface.construction.notches import (
    bite_in_carrier,
    fault_of,
    notches_of,
    returned_pieces,
    wall_widths,
)
from evenface.construction.profile_depth import wood_wanted_mm
from evenface.construction.records import (
    BuiltCorner,
    BuiltPanel,
    CarrierCorner,
    Edging,
    End,
    EndKind,
    Rectangle,
)
from evenface.construction.shapes import TRAVEL
from evenface.piece.records import Corner, CornerAt, Side
from evenface.shape.build import QUARTER_BULGE, plain_rectangle
from evenface.shape.corner import clip_legs
from evenface.shape.corner_pieces import bent_strips, clipped_corner, corner_block, ring_segments
from evenface.shape.faults import ShapeError, need
from evenface.shape.outline import Outline
from evenface.shape.ring import Ring
from evenface.shape.validity import TINY_MM, checked
from evenface.words import said

SEGMENTS = 2
"""Segments of a ring where the maker names no number: the grain then runs out by 22.5° at most."""

SQUARE = CarrierCorner("square")
ROUND = (Side.FRONT, Side.RIGHT, Side.REAR, Side.LEFT)
"""Sides in the order an outline runs along them."""


def with_corner_pieces(built: BuiltPanel) -> BuiltPanel:
    """The panel with its corners built, its strips ended at them and its carrier cut to them.

    A corner that cannot be built so is left as it was, with the reason in its `fault`.
    """
    if built.panel.outline is not None:
        return edged_free_outline(built)
    corners = tuple(
        _built(built, corner)
        for corner in built.panel.corners
        if corner.construction != "rounded" and corner.size_mm > 0 and corner.shape != "square"
    )
    corners = (*corners, *_notched_corners(built))
    made = {corner.at: corner for corner in corners if not corner.fault}
    ended = replace(
        built,
        corners=corners,
        edgings=tuple(_ended(built, edging, made) for edging in built.edgings),
        carrier_outline=_carrier_outline(built, made),
    )
    return replace(ended, edge_pieces=tuple(returned_pieces(ended)))


def _notched_corners(built: BuiltPanel) -> Iterator[BuiltCorner]:
    """Corner notches round which the edging returns: the strips stop at them and the carrier follows."""
    for notch in notches_of(built):
        if notch.corner is None or not notch.returned or fault_of(built, notch):
            continue
        x, y = notch.box.length_mm, notch.box.width_mm
        wide_x, wide_y = wall_widths(built, notch)
        yield BuiltCorner(
            notch.corner,
            "notch",
            0.0,
            0.0,
            edging=built.edging(notch.sides[0]),
            widths_mm=(wide_y, wide_x),
            carrier=CarrierCorner("notch", x, y),
            along_x=(x, x),
            along_y=(y, y),
            origin=notch.origin,
        )


def _built(panel: BuiltPanel, corner: Corner) -> BuiltCorner:
    long, cross = panel.edging(corner.at.along_length), panel.edging(corner.at.along_width)
    wood = wood_wanted_mm(panel, corner)
    plain = BuiltCorner(corner.at, corner.construction, corner.size_mm, wood, origin=corner.origin)
    try:
        need(corner.shape == "radius", "corner", "only a rounded corner is built of pieces")
        if long is None or cross is None:
            raise ShapeError("corner", "it needs an edging on both sides")
        plain = replace(plain, edging=long, widths_mm=(long.width_mm, cross.width_mm))
        need(
            abs(long.z0_mm - cross.z0_mm) < 1e-9 and abs(long.z1_mm - cross.z1_mm) < 1e-9,
            "corner",
            "the two edgings meet the facings differently and differ in height",
        )
        return _BUILDERS[corner.construction](plain, corner)
    except ShapeError as fault:
        return replace(plain, fault=fault.sentence)


def _clipped(made: BuiltCorner, corner: Corner) -> BuiltCorner:
    width_y, width_x = made.widths_mm
    leg = max(clip_legs(made.radius_mm, width_x, width_y, made.wood_mm))
    need(leg > 0, "leg", "the square carrier corner leaves wood enough, no clip is needed")
    leg = ceil(10 * leg - 1e-6) / 10  # as a saw is set
    cut = clipped_corner(made.radius_mm, width_x, made.wood_mm, leg, width_y)
    outside = width_x + width_y + leg
    return replace(
        made,
        carrier=CarrierCorner("chamfer", leg, leg),
        along_x=(outside, outside - width_y),
        along_y=(outside, outside - width_x),
        end_deg=45.0,
        blank=cut.block,
    )


def _block(made: BuiltCorner, corner: Corner) -> BuiltCorner:
    width_y, width_x = made.widths_mm
    radius = made.radius_mm
    along_x, along_y = max(radius, width_x), max(radius, width_y)
    block = corner_block(radius, max(width_x, width_y))
    return replace(
        made,
        carrier=CarrierCorner("notch", max(radius - width_x, 0.0), max(radius - width_y, 0.0)),
        along_x=(along_x, along_x),
        along_y=(along_y, along_y),
        blank=replace(block, length_mm=along_x, depth_mm=along_y, across_grain_mm=along_y),
    )


def _curved(made: BuiltCorner) -> BuiltCorner:
    """What a ring and bent strips have in common: the carrier is rounded and the strips stop where it begins."""
    width_y, width_x = made.widths_mm
    need(
        abs(width_x - width_y) < 1e-6,
        "widths",
        said("both edgings must be equally wide, got {one:mm} and {other:mm}", one=width_y, other=width_x),
    )
    radius, inner = made.radius_mm, made.radius_mm - width_x
    need(
        inner > 0,
        "radius",
        said("the radius must be above the edging's width of {width:mm}", width=width_x),
    )
    return replace(
        made,
        carrier=CarrierCorner("radius", inner, inner),
        along_x=(radius, radius),
        along_y=(radius, radius),
    )


def _ring(made: BuiltCorner, corner: Corner) -> BuiltCorner:
    return replace(
        _curved(made), blank=ring_segments(made.radius_mm, made.widths_mm[0], corner.pieces or SEGMENTS)
    )


def _strips(made: BuiltCorner, corner: Corner) -> BuiltCorner:
    width = made.widths_mm[0]
    count = corner.pieces or (ceil(width / corner.strip_mm - 1e-9) if corner.strip_mm else None)
    return replace(_curved(made), strips=bent_strips(made.radius_mm, width, count))


_BUILDERS = {"clipped": _clipped, "block": _block, "ring": _ring, "strips": _strips}


def _ended(panel: BuiltPanel, edging: Edging, made: Mapping[CornerAt, BuiltCorner]) -> Edging:
    along_x = edging.side.runs_along_length
    size = panel.length_mm if along_x else panel.width_mm

    def end(old: End, at_start: bool) -> End:
        corner = made.get(old.at)
        if corner is None:
            return old
        outer, inner = corner.along_x if along_x else corner.along_y
        if not at_start:
            outer, inner = size - outer, size - inner
        return End(EndKind.SHORT, old.at, outer, inner, corner.end_deg)

    return replace(edging, start=end(edging.start, True), end=end(edging.end, False))


def _carrier_outline(panel: BuiltPanel, made: Mapping[CornerAt, BuiltCorner]) -> Outline | None:
    """The carrier seen from above before anything is glued to it; None where none is left."""
    asked = {corner.at: corner for corner in panel.panel.corners}
    cuts = {at: made[at].carrier if at in made else _bare(panel, at, asked.get(at)) for at in TRAVEL}
    try:
        bites = [
            (notch.sides[0], bite_in_carrier(panel, notch))
            for notch in notches_of(panel)
            if notch.corner is None and notch.returned and not fault_of(panel, notch)
        ]
        return cut_rectangle(panel.carrier.rectangle, [cuts[at] for at in TRAVEL], bites)
    except ShapeError:
        return None


def _bare(panel: BuiltPanel, at: CornerAt, corner: Corner | None) -> CarrierCorner:
    """A carrier without edging at a corner carries the corner's own shape."""
    if corner is None or corner.shape == "square" or corner.size_mm <= 0:
        return SQUARE
    if panel.edging(at.along_length) or panel.edging(at.along_width):
        return SQUARE
    return CarrierCorner(corner.shape, corner.size_mm, corner.size_mm)


def cut_rectangle(
    rectangle: Rectangle, corners: Sequence[CarrierCorner], bites: Sequence[tuple[Side, Rectangle]] = ()
) -> Outline:
    """A rectangle with its corners cut, in order of travel from the front left, and bites out of its sides.

    Raises ShapeError when nothing is left or the corners run into each other.
    """
    box = rectangle
    need(box.length_mm > 0 and box.width_mm > 0, "size", "nothing is left of the carrier")
    if not bites and all(cut == SQUARE for cut in corners) and min(box.length_mm, box.width_mm) > TINY_MM:
        return plain_rectangle(box.x0, box.y0, box.x1, box.y1)  # most carriers
    places = ((box.x0, box.y0), (box.x1, box.y0), (box.x1, box.y1), (box.x0, box.y1))
    ways = ((1, 0), (0, 1), (-1, 0), (0, -1))
    vertices: list[tuple[float, float, float]] = []
    for number, ((x, y), cut) in enumerate(zip(places, corners, strict=True)):
        into, out = ways[number - 1], ways[number]
        before, after = (cut.y_mm, cut.x_mm) if number % 2 == 0 else (cut.x_mm, cut.y_mm)
        arrive = (x - into[0] * before, y - into[1] * before)
        leave = (x + out[0] * after, y + out[1] * after)
        vertices.append((*arrive, QUARTER_BULGE if cut.kind == "radius" else 0.0))
        if cut.kind == "notch":
            vertices.append((arrive[0] + out[0] * after, arrive[1] + out[1] * after, 0.0))
        vertices.append((*leave, 0.0))
        vertices += _bitten(box, ROUND[number], [bite for side, bite in bites if side is ROUND[number]])
    return checked(Outline((_without_repeats(vertices),)))


def _bitten(box: Rectangle, side: Side, bites: Sequence[Rectangle]) -> list[tuple[float, float, float]]:
    """The vertices of square bites out of one side, in order of travel."""
    backwards = side in (Side.REAR, Side.LEFT)
    vertices: list[tuple[float, float, float]] = []
    for bite in sorted(bites, key=lambda one: (one.x0, one.y0), reverse=backwards):
        if side.runs_along_length:
            first, last = (bite.x1, bite.x0) if backwards else (bite.x0, bite.x1)
            border, floor = (box.y1, bite.y0) if backwards else (box.y0, bite.y1)
            ring = [(first, border), (first, floor), (last, floor), (last, border)]
        else:
            first, last = (bite.y1, bite.y0) if backwards else (bite.y0, bite.y1)
            border, floor = (box.x0, bite.x1) if backwards else (box.x1, bite.x0)
            ring = [(border, first), (floor, first), (floor, last), (border, last)]
        vertices += [(x, y, 0.0) for x, y in ring]
    return vertices


def _without_repeats(ring: Ring | list[tuple[float, float, float]]) -> Ring:
    following = (*ring[1:], ring[0])
    return tuple(
        here
        for here, after in zip(ring, following, strict=True)
        if abs(here[0] - after[0]) + abs(here[1] - after[1]) > 1e-9
    )
