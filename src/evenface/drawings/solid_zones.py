"""What a part is made of in plan and height: carrier, sheets, edging, wood let in, and what is taken out of them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Final

from shapely import MultiPolygon, Polygon, box, union_all
from shapely.geometry.base import BaseGeometry

from evenface.construction import BuiltBoard, BuiltPanel, Edging, FaceLayer
from evenface.construction.free_outlines import edging_of_free_outline, sides_of
from evenface.construction.placed import Point
from evenface.drawings.placed_parts import Solid
from evenface.drawings.solid_edge import FINE_MM, EdgeOfPanel
from evenface.drawings.solid_mesh import DRAWN, LEAST_MM2, Rim, polygons_in
from evenface.piece.records import Meeting, Role, Side
from evenface.shape.arcs import sampled, sampled_ring
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline

_OUT: Final = 1.0
"""What is taken out at a face reaches so far beyond it. [mm]"""
_LIFT: Final = {
    Side.FRONT: (0.0, -0.35, 0.0),
    Side.REAR: (0.0, 0.35, 0.0),
    Side.LEFT: (-0.35, 0.0, 0.0),
    Side.RIGHT: (0.35, 0.0, 0.0),
}
_NOWHERE: Final = (0.0, 0.0, 0.0)
_HAIR: Final = 1e-6


@dataclass(frozen=True, slots=True)
class Zone:
    """One body of a part: a plan between two levels.

    colour : what it is of ("wood:oak", "facing:hpl-0.8", "carrier:mdf-19"). role : as of a layer.
    leaves : the way it goes when the layers of a part are taken apart, 1 for as far as any goes. rims : how the
    lower and the upper border show.
    """

    plan: BaseGeometry
    z0: float
    z1: float
    colour: str
    role: Role
    leaves: Point = _NOWHERE
    rims: tuple[Rim, Rim] = DRAWN


@dataclass(frozen=True, slots=True)
class Taken:
    """A plan taken out of every zone between two levels, but for the one that fills it.

    quiet : one of the steps of a rounded hollow, between which no line is drawn.
    """

    plan: BaseGeometry
    z0: float
    z1: float
    filled_by: Zone | None = None
    quiet: bool = False


@dataclass(slots=True)
class Zones:
    """Everything a part is made of, and what is taken out of it."""

    filled: list[Zone] = field(default_factory=list)
    taken: list[Taken] = field(default_factory=list)

    def let_in(self, zone: Zone, hole: BaseGeometry | None = None) -> None:
        """Something that takes the place of what lies there."""
        self.filled.append(zone)
        self.taken.append(Taken(zone.plan if hole is None else hole, zone.z0, zone.z1, zone))


def polygon_of(outline: Outline) -> Polygon:
    """An outline with its arcs split fine."""
    return Polygon(
        sampled_ring(outline.outer, FINE_MM), [sampled_ring(hole, FINE_MM) for hole in outline.holes]
    )


def zones_of_board(board: BuiltBoard, hollows: Sequence[Solid]) -> Zones:
    """A board of solid wood, its lining, and what is worked into it."""
    sizes = board.board
    plan = box(0.0, 0.0, sizes.length_mm, sizes.width_mm)
    zones = Zones([Zone(plan, 0.0, sizes.thickness_mm, f"wood:{board.wood.name}", Role.BOARD)])
    if sizes.lining is not None:
        up = (0.0, 0.0, 1.0)
        colour = f"facing:{sizes.lining.facing}"
        zones.filled.append(Zone(plan, sizes.thickness_mm, sizes.over_mm, colour, Role.LINING, up))
    zones.taken += _boxes(hollows)
    return zones


def zones_of_panel(panel: BuiltPanel, edge: EdgeOfPanel, hollows: Sequence[Solid]) -> Zones:
    """A panel: its carrier, sheets and edging; glue lines count as sheet. Wood let in, openings, hollows."""
    whole = Polygon(edge.ring, edge.holes)
    core = _core(panel, whole)
    strips = list(_strips(panel, whole, core))
    low, high = _carrier_levels(panel)
    bare = _rims(low == 0.0, high == panel.thickness_mm)
    zones = Zones(
        [Zone(core, low, high, f"carrier:{panel.carrier.material.name}", Role.CARRIER, _NOWHERE, bare)]
    )
    for edging, plan in strips:
        wood, z0, z1 = f"wood:{edging.wood.name}", edging.z0_mm, edging.z1_mm
        shows = _rims(z0 < _HAIR, z1 > panel.thickness_mm - _HAIR)
        zones.filled.append(Zone(plan, z0, z1, wood, Role.EDGING, _LIFT[edging.side], shows))
    for face in panel.faces:
        beside = [plan for edging, plan in strips if edging.meets(face.role) is Meeting.FLUSH]
        rest = whole.difference(union_all(beside)) if beside else whole
        zones.filled.append(_sheet(panel, face, MultiPolygon([*polygons_in(rest)])))
    _let_in(zones, panel)
    zones.taken += _boxes(hollows)
    return zones


def _rims(*bare: bool) -> tuple[Rim, Rim]:
    low, high = (Rim.DRAWN if one else Rim.COVERED for one in bare)
    return low, high


def _carrier_levels(panel: BuiltPanel) -> tuple[float, float]:
    low = panel.carrier.z0_mm if panel.face(Role.BACK) else 0.0
    return low, panel.carrier.z1_mm if panel.face(Role.FACE) else panel.thickness_mm


def _sheet(panel: BuiltPanel, face: FaceLayer, plan: BaseGeometry) -> Zone:
    low, high = _carrier_levels(panel)
    colour = f"facing:{face.material.name}"
    if face.role is Role.FACE:
        return Zone(plan, high, panel.thickness_mm, colour, Role.FACE, (0.0, 0.0, 1.0))
    return Zone(plan, 0.0, low, colour, Role.BACK, (0.0, 0.0, -1.0))


def _core(panel: BuiltPanel, whole: Polygon) -> BaseGeometry:
    """The carrier in plan; where its outline is not known its rectangle."""
    if panel.carrier_outline is not None:
        return polygon_of(panel.carrier_outline).intersection(whole)
    r = panel.carrier.rectangle
    return box(r.x0, r.y0, r.x1, r.y1).intersection(whole)


def _strips(panel: BuiltPanel, whole: Polygon, core: BaseGeometry) -> Iterator[tuple[Edging, BaseGeometry]]:
    """Each edging with its plan: between its joints; what is left belongs to the nearest one."""
    left = whole.difference(core)
    found: list[tuple[Edging, BaseGeometry]] = []
    for edging, piece in _pieces(panel):
        plan = piece.buffer(0).intersection(left)
        if plan.area > LEAST_MM2:
            found.append((edging, plan))
            left = left.difference(plan)
    yield from found
    for rest in polygons_in(left):
        if panel.edgings and rest.area > 1.0:
            near = min(found, key=lambda one: one[1].distance(rest))[0] if found else panel.edgings[0]
            yield near, rest


def _pieces(panel: BuiltPanel) -> Iterator[tuple[Edging, Polygon]]:
    if panel.panel.outline is None:
        for edging in panel.edgings:
            yield edging, Polygon(_ends(panel, edging))
        return
    try:
        made = edging_of_free_outline(panel)
    except ShapeError:
        return  # told by the checks
    sides = sides_of(panel)
    for stretch in made.stretches:
        along = panel.edging(sides[stretch.number])
        if along is not None and stretch.inner is not None:
            inner = sampled([stretch.inner], FINE_MM)
            yield along, Polygon([*sampled([stretch.outer], FINE_MM), *reversed(inner)])


def _ends(panel: BuiltPanel, edging: Edging) -> list[tuple[float, float]]:
    """The four corners of a strip along a side of the rectangle."""
    wide, (one, other) = edging.width_mm, (edging.start, edging.end)
    corners = [(one.outer_mm, 0.0), (other.outer_mm, 0.0), (other.inner_mm, wide), (one.inner_mm, wide)]
    match edging.side:
        case Side.FRONT:
            return corners
        case Side.REAR:
            return [(x, panel.width_mm - y) for x, y in corners]
        case Side.LEFT:
            return [(y, x) for x, y in corners]
        case _:
            return [(panel.length_mm - y, x) for x, y in corners]


def _let_in(zones: Zones, panel: BuiltPanel) -> None:
    for insert in panel.inserts:
        colour, plan = f"wood:{insert.wood.name}", polygon_of(insert.piece)
        up = (0.0, 0.0, 1.0 if insert.asked.face == "top" else -1.0)
        zones.let_in(
            Zone(plan, insert.z0_mm, insert.z1_mm, colour, Role.INSERT, up), polygon_of(insert.asked.outline)
        )
    top = panel.thickness_mm + _OUT
    for cutout in panel.panel.cutouts:
        opening = polygon_of(cutout.outline)
        wood = panel.lining_woods.get(cutout.name)
        if wood is not None and cutout.lining_width_mm > 0:
            ring = opening.buffer(cutout.lining_width_mm, join_style="mitre").difference(opening)
            low, high = _carrier_levels(panel)
            zones.let_in(Zone(ring, low, high, f"wood:{wood.name}", Role.LINING))
        low = -_OUT if cutout.depth_mm is None else panel.thickness_mm - cutout.depth_mm
        zones.taken.append(Taken(opening, low, top))


def _boxes(hollows: Sequence[Solid]) -> Iterator[Taken]:
    for (x0, y0, z0), (x1, y1, z1) in hollows:
        yield Taken(box(x0, y0, x1, y1), z0, z1)


def bands_of(zone: Zone, taken: Sequence[Taken]) -> list[tuple[float, float, BaseGeometry]]:
    """The zone from level to level, less what is taken out of it there."""
    mine = [
        one
        for one in taken
        if one.filled_by is not zone
        and one.z0 < zone.z1 - 1e-6
        and one.z1 > zone.z0 + 1e-6
        and one.plan.intersects(zone.plan)
    ]
    inner = {round(z, 6) for one in mine for z in (one.z0, one.z1) if zone.z0 + 1e-4 < z < zone.z1 - 1e-4}
    heights = [zone.z0, *sorted(inner), zone.z1]
    found: list[tuple[float, float, BaseGeometry]] = []
    for low, high in pairwise(heights):
        here = [one.plan for one in mine if one.z0 < (low + high) / 2 < one.z1]
        left = zone.plan.difference(union_all(here)) if here else zone.plan
        if found and left.equals(found[-1][2]):
            begins, _, left = found.pop()
            found.append((begins, high, left))
        else:
            found.append((low, high, left))
    return found
