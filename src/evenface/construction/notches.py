"""Notches of a built panel, at its corners and in its edges: what they take, and the edging that returns round them."""

from collections.abc import Iterator
from dataclasses import dataclass

from evenface.construction.records import BuiltPanel, EdgePiece, Edging, Rectangle
from evenface.piece.records import Corner, CornerAt, Notch, Side
from evenface.shape.build import CornerCut, rectangle
from evenface.shape.outline import Outline
from evenface.words import Said, said

OVER_MM = 30.0
"""How far a notch's template is open past the edge, so that the cutter starts and ends outside the panel."""


@dataclass(frozen=True, slots=True)
class BuiltNotch:
    """One notch as it will be cut.

    box : what it takes from the panel. sides : the edge it is in, or the two edges of its corner, the one along
    the length first. widths_mm : of the edging that returns along its walls across y and across x.
    """

    name: str
    at: str
    box: Rectangle
    sides: tuple[Side, ...]
    corner: CornerAt | None
    inner_radius_mm: float
    returned: bool
    wet: bool
    service: str
    origin: str

    @property
    def outline(self) -> Outline:
        """What is taken, its inner corners rounded."""
        return _with_inner_corners(self, 0.0)

    @property
    def routed(self) -> Outline:
        """The same run out past the edge, its outer corners rounded: the opening a template guides."""
        return _with_inner_corners(self, OVER_MM)

    @property
    def depths_mm(self) -> tuple[float, ...]:
        """How deep it goes into the panel from each of its sides."""
        return tuple(
            self.box.width_mm if side.runs_along_length else self.box.length_mm for side in self.sides
        )


def notches_of(panel: BuiltPanel) -> tuple[BuiltNotch, ...]:
    """Corners first, then edges in the order of the file; none where the panel has a free outline."""
    if panel.panel.outline is not None:
        return ()
    corners = (_at_corner(panel, corner) for corner in panel.panel.corners if corner.shape == "notch")
    return (*corners, *(_in_edge(panel, notch) for notch in panel.panel.notches))


def _at_corner(panel: BuiltPanel, corner: Corner) -> BuiltNotch:
    x, y = corner.notch_mm
    left = corner.at.along_width is Side.LEFT
    front = corner.at.along_length is Side.FRONT
    x0, x1 = (0.0, x) if left else (panel.length_mm - x, panel.length_mm)
    y0, y1 = (0.0, y) if front else (panel.width_mm - y, panel.width_mm)
    return BuiltNotch(
        name=corner.at.value,
        at=corner.at.value,
        box=Rectangle(x0, y0, x1, y1),
        sides=(corner.at.along_length, corner.at.along_width),
        corner=corner.at,
        inner_radius_mm=corner.inner_radius_mm,
        returned=corner.returned,
        wet=False,
        service="none",
        origin=corner.origin,
    )


def _in_edge(panel: BuiltPanel, notch: Notch) -> BuiltNotch:
    a, b = notch.along_mm - notch.length_mm / 2, notch.along_mm + notch.length_mm / 2
    d, length, width = notch.depth_mm, panel.length_mm, panel.width_mm
    box = {
        Side.FRONT: Rectangle(a, 0.0, b, d),
        Side.REAR: Rectangle(a, width - d, b, width),
        Side.LEFT: Rectangle(0.0, a, d, b),
        Side.RIGHT: Rectangle(length - d, a, length, b),
    }[notch.side]
    return BuiltNotch(
        name=notch.name,
        at=notch.name,
        box=box,
        sides=(notch.side,),
        corner=None,
        inner_radius_mm=notch.inner_radius_mm,
        returned=notch.returned,
        wet=notch.wet,
        service=notch.service,
        origin=notch.origin,
    )


def _with_inner_corners(notch: BuiltNotch, over: float) -> Outline:
    """The box grown past the panel's edges by `over`; corners inside the panel rounded as asked."""
    box, sides = notch.box, notch.sides
    x0 = box.x0 - (over if Side.LEFT in sides else 0.0)
    x1 = box.x1 + (over if Side.RIGHT in sides else 0.0)
    y0 = box.y0 - (over if Side.FRONT in sides else 0.0)
    y1 = box.y1 + (over if Side.REAR in sides else 0.0)
    outer = min(over, (x1 - x0) / 2, (y1 - y0) / 2)
    around = (
        (Side.FRONT, Side.LEFT),
        (Side.FRONT, Side.RIGHT),
        (Side.REAR, Side.RIGHT),
        (Side.REAR, Side.LEFT),
    )
    radii = [outer if set(two) & set(sides) else notch.inner_radius_mm for two in around]
    cuts = [CornerCut("radius", radius) if radius > 0 else CornerCut() for radius in radii]
    return rectangle(x1 - x0, y1 - y0, cuts).moved(x0, y0)


def bite_in_carrier(panel: BuiltPanel, notch: BuiltNotch) -> Rectangle:
    """What a notch with returned edging takes from the carrier: its box grown by the width of its edging."""
    wide_x, wide_y = wall_widths(panel, notch)
    box = notch.box
    return Rectangle(box.x0 - wide_x, box.y0 - wide_y, box.x1 + wide_x, box.y1 + wide_y)


def wall_widths(panel: BuiltPanel, notch: BuiltNotch) -> tuple[float, float]:
    """Widths of the returned edging along the walls across x and across y; that of the edge they return to."""
    if len(notch.sides) == 1:
        width = panel.edging_width_mm(notch.sides[0])
        return width, width
    along_length, along_width = notch.sides
    return panel.edging_width_mm(along_width), panel.edging_width_mm(along_length)


def fault_of(panel: BuiltPanel, notch: BuiltNotch) -> Said | str:
    """Why edging cannot return round the notch, in words; empty where it can."""
    edgings = [panel.edging(side) for side in notch.sides]
    if any(edging is None for edging in edgings):
        return said("there is no edging on that edge to return")
    made = [edging for edging in edgings if edging is not None]
    if len({(edging.z0_mm, edging.z1_mm) for edging in made}) > 1:
        return said("the two edgings differ in height")
    least = max(edging.width_mm for edging in made) + notch.inner_radius_mm
    if min(notch.depths_mm) <= least:
        return said("it must be deeper than width and inner radius together, {least:mm}", least=least)
    if notch.corner is None and _length(notch) <= 2 * notch.inner_radius_mm:
        return said("its two inner corners leave nothing between them")
    return ""


def _length(notch: BuiltNotch) -> float:
    along_x = notch.sides[0].runs_along_length
    return notch.box.length_mm if along_x else notch.box.width_mm


def returned_pieces(panel: BuiltPanel) -> Iterator[EdgePiece]:
    """The strips and corner blocks that return edging round notches, and the strips a notch cuts in two.

    Walls butt: the strip along the bottom lies between the walls, which run on behind it. With an inner radius
    there is a block in each inner corner, from which the rounding is worked, and every strip stops at it.
    """
    for notch in notches_of(panel):
        if notch.returned and not fault_of(panel, notch):
            yield from _corner_walls(panel, notch) if notch.corner else _edge_walls(panel, notch)
    for edging in panel.edgings:
        yield from _cut_strips(panel, edging)


def _edge_walls(panel: BuiltPanel, notch: BuiltNotch) -> Iterator[EdgePiece]:
    edging = panel.edging(notch.sides[0])
    if edging is None:
        return
    width, radius, depth = edging.width_mm, notch.inner_radius_mm, notch.depths_mm[0]
    along_x = edging.side.runs_along_length
    behind = -radius if radius else width
    wall = depth - width + behind
    yield _strip(notch, edging, "walls", wall, 90.0 if along_x else 0.0, 2)
    yield _strip(notch, edging, "bottom", _length(notch) - 2 * radius, 0.0 if along_x else 90.0, 1)
    if radius:
        yield _block(notch, edging, (width + radius, width + radius), 2)


def _corner_walls(panel: BuiltPanel, notch: BuiltNotch) -> Iterator[EdgePiece]:
    along, across = (panel.edging(side) for side in notch.sides)
    if along is None or across is None:
        return
    radius = notch.inner_radius_mm
    long = notch.box.length_mm - across.width_mm + (-radius if radius else across.width_mm)
    short = notch.box.width_mm - along.width_mm - radius
    yield _strip(notch, along, "wall along the length", long, 0.0, 1)
    yield _strip(notch, across, "wall along the width", short, 90.0, 1)
    if radius:
        yield _block(notch, along, (across.width_mm + radius, along.width_mm + radius), 1)


def _strip(
    notch: BuiltNotch, edging: Edging, what: str, length: float, direction: float, count: int
) -> EdgePiece:
    return EdgePiece(
        name=notch.name,
        what=what,
        kind="strip",
        edging=edging,
        width_mm=edging.width_mm,
        outer_mm=length,
        inner_mm=length,
        direction_deg=direction,
        count=count,
        origin=notch.origin,
    )


def _block(notch: BuiltNotch, edging: Edging, size: tuple[float, float], count: int) -> EdgePiece:
    return EdgePiece(
        name=notch.name,
        what="inner corner",
        kind="block",
        edging=edging,
        width_mm=size[1],
        outer_mm=size[0],
        inner_mm=size[0],
        count=count,
        radius_mm=notch.inner_radius_mm,
        origin=notch.origin,
    )


def _cut_strips(panel: BuiltPanel, edging: Edging) -> Iterator[EdgePiece]:
    """The strips between notches round which the edging returns; none where there is no such notch."""
    gaps = sorted(
        (notch.box.x0, notch.box.x1) if edging.side.runs_along_length else (notch.box.y0, notch.box.y1)
        for notch in notches_of(panel)
        if notch.corner is None and notch.returned and notch.sides == (edging.side,)
        if not fault_of(panel, notch)
    )
    if not gaps:
        return
    starts = [(edging.start.outer_mm, edging.start.inner_mm, edging.start.angle_deg)]
    starts += [(end, end, 90.0) for _, end in gaps]
    ends = [(start, start, 90.0) for start, _ in gaps]
    ends += [(edging.end.outer_mm, edging.end.inner_mm, edging.end.angle_deg)]
    for number, (first, last) in enumerate(zip(starts, ends, strict=True), start=1):
        yield EdgePiece(
            name=edging.side.value,
            what="strip",
            kind="strip",
            edging=edging,
            width_mm=edging.width_mm,
            outer_mm=last[0] - first[0],
            inner_mm=last[1] - first[1],
            ends_deg=(first[2], last[2]),
            direction_deg=0.0 if edging.side.runs_along_length else 90.0,
            side=edging.side,
            number=number,
            origin=edging.origin,
        )
