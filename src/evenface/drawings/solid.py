"""A piece as closed skins of triangles, one for each layer and strip of every part, to be looked at from all sides.

Arcs are chords within 0.05 mm, profiles within 0.03 mm; hollows of grips are steps of their true section. What is
worked into a part for joints is taken out of it; holes for dowels, screws and pins are not. Glue lines count as
sheet. Bows by month are those of a part that lies free.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from evenface.behaviour import Behaviour, Direction
from evenface.construction import BuiltBoard, BuiltPanel, Construction
from evenface.construction.placed import Axis, Placement, Point
from evenface.drawings.placed_parts import Solid as Box
from evenface.drawings.placed_parts import hollows_of
from evenface.drawings.solid_colours import Colour, colours_of_board, colours_of_panel
from evenface.drawings.solid_edge import EdgeOfPanel, Level, edge_of_panel
from evenface.drawings.solid_grips import grips_of
from evenface.drawings.solid_holes import holes_of
from evenface.drawings.solid_mesh import (
    Mesh,
    Plan,
    Rim,
    as_polygon,
    loft,
    parting_lines,
    plan_of_polygon,
    polygons_in,
)
from evenface.drawings.solid_zones import (
    Taken,
    Zone,
    Zones,
    bands_of,
    zones_of_board,
    zones_of_panel,
)
from evenface.piece.records import Role

APART_MM: Final = 90.0
"""How far the layers of a loose panel part."""
BESIDE_MM: Final = 80.0
"""Air between loose panels that lie side by side."""
_STEPS: Final = 3


@dataclass(frozen=True, slots=True)
class Body:
    """One layer, strip or insert of a part. leaves : how far it goes when a loose panel is taken apart. [mm]"""

    role: Role
    colour: str
    meshes: tuple[Mesh, ...]
    leaves: Point = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class SolidPart:
    """A part in its own coordinates: x along its length, y along its width, z towards its show face. [mm]

    number : as on labels. along_mm, across_mm : rise of the middle over length and width for each of twelve
    months, positive domes the show face; empty where it is not known.
    """

    number: str
    name: str
    size_mm: Point
    bodies: tuple[Body, ...]
    along_mm: tuple[float, ...] = ()
    across_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class SolidPiece:
    """A whole piece, or loose panels side by side.

    placed : which part (its number in `parts`) stands where. loose : they stand in no piece; their layers are
    taken apart then, else the parts by `Placement.apart`. low, high : corners of the box round all of it.
    """

    name: str
    parts: tuple[SolidPart, ...]
    placed: tuple[tuple[int, Placement], ...]
    colours: Mapping[str, Colour]
    loose: bool
    low: Point
    high: Point


def solid_of(
    construction: Construction,
    numbers: Mapping[str, str] | None = None,
    behaviours: Mapping[str, Behaviour] | None = None,
) -> SolidPiece:
    """The piece in triangles. numbers, behaviours : of the parts by their names."""
    made: list[BuiltPanel | BuiltBoard] = [*construction.panels, *construction.boards]
    given = numbers or {one.name: str(n) for n, one in enumerate(made, start=1)}
    parts: list[SolidPart] = []
    colours: dict[str, Colour] = {}
    for one in made:
        hollows = tuple(hollows_of(construction, one))
        holes = tuple(holes_of(construction, one))
        if isinstance(one, BuiltPanel):
            bodies = _bodies_of_panel(one, hollows, holes)
            colours |= colours_of_panel(one)
            size = (one.length_mm, one.width_mm, one.thickness_mm)
        else:
            bodies = _bodies_of_board(one, hollows, holes)
            colours |= colours_of_board(one)
            size = (one.board.length_mm, one.board.width_mm, one.board.over_mm)
        bows = _bows(size, (behaviours or {}).get(one.name))
        parts.append(SolidPart(given[one.name], one.name, size, bodies, *bows))
    loose = not construction.arranged.placements
    placements = _side_by_side(parts) if loose else construction.arranged.placements
    number = {part.name: n for n, part in enumerate(parts)}
    placed = tuple((number[one.part], one) for one in placements)
    used = {body.colour for part in parts for body in part.bodies}
    shown = {key: colour for key, colour in colours.items() if key in used}
    low, high = _round([one.box(*parts[n].size_mm) for n, one in placed])
    return SolidPiece(construction.piece.name, tuple(parts), placed, shown, loose, low, high)


def _side_by_side(parts: Sequence[SolidPart]) -> tuple[Placement, ...]:
    """Loose panels in rows that together are about as wide as they are deep."""
    whole = sum((part.size_mm[0] + BESIDE_MM) * (part.size_mm[1] + BESIDE_MM) for part in parts)
    wide = max(whole**0.5 * 1.2, *(part.size_mm[0] for part in parts), 1.0)
    x = y = deep = 0.0
    found = []
    for part in parts:
        if x > 0.0 and x + part.size_mm[0] > wide:
            x, y, deep = 0.0, y - deep - BESIDE_MM, 0.0
        found.append(Placement(part.name, (x, y - part.size_mm[1], 0.0), Axis.RIGHT, Axis.REAR))
        x, deep = x + part.size_mm[0] + BESIDE_MM, max(deep, part.size_mm[1])
    return tuple(found)


def _round(boxes: Sequence[Box]) -> Box:
    lows, highs = [one[0] for one in boxes], [one[1] for one in boxes]
    (a, b, c), (d, e, f) = (
        tuple(best(point[n] for point in points) for n in range(3))
        for best, points in ((min, lows), (max, highs))
    )
    return (a, b, c), (d, e, f)


def _bows(size: Point, known: Behaviour | None) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Rises over length and width by month. Bow follows the longer edge, and a gauge may be shorter than it."""
    if known is None:
        return (), ()
    length, width, _ = size
    longer, shorter = Direction.BOW, Direction.CUP
    ways = (longer, shorter) if length >= width else (shorter, longer)
    along, across = (
        tuple((band.nominal or 0.0) * (over / bend.gauge_mm) ** 2 for band in bend.year)
        for bend, over in zip((known.bend(way) for way in ways), (length, width), strict=True)
    )
    return along, across


def _bodies_of_board(
    board: BuiltBoard, hollows: tuple[Box, ...], holes: tuple[Taken, ...]
) -> tuple[Body, ...]:
    zones = zones_of_board(board, hollows)
    zones.taken += holes
    return _bodies(zones, None)


def _bodies_of_panel(
    panel: BuiltPanel, hollows: tuple[Box, ...], holes: tuple[Taken, ...]
) -> tuple[Body, ...]:
    edge = edge_of_panel(panel)
    zones = zones_of_panel(panel, edge, hollows)
    zones.taken += grips_of(panel)
    zones.taken += holes
    return _bodies(zones, edge if edge.shapes else None)


def _bodies(zones: Zones, edge: EdgeOfPanel | None) -> tuple[Body, ...]:
    found = []
    for zone in zones.filled:
        meshes = tuple(_meshes(zone, zones.taken, edge))
        if meshes:
            x, y, z = (way * APART_MM for way in zone.leaves)
            found.append(Body(zone.role, zone.colour, meshes, (x, y, z)))
    return tuple(found)


def _meshes(zone: Zone, taken: Sequence[Taken], edge: EdgeOfPanel | None) -> Iterator[Mesh]:
    """The zone in skins, one for each stretch of height over which its plan is the same."""
    bands = bands_of(zone, taken)
    quiet = [one for one in taken if one.quiet and one.plan.intersects(zone.plan)]
    for number, (low, high, shape) in enumerate(bands):
        rims = _outer(zone.rims, number, len(bands))
        for polygon in polygons_in(shape):
            yield from _lofted(plan_of_polygon(polygon), low, high, edge, rims)
    for (_, z, below), (_, _, above) in pairwise(bands):
        lines = [] if any(_meets(one, z) for one in quiet) else parting_lines(below, above, z)
        if lines:
            yield Mesh((), (), tuple(lines))


def _outer(rims: tuple[Rim, Rim], number: int, count: int) -> tuple[Rim, Rim]:
    """The rims of one of several bodies on top of each other: only the outermost two show."""
    return rims[0] if number == 0 else Rim.NONE, rims[1] if number == count - 1 else Rim.NONE


def _meets(one: Taken, z: float) -> bool:
    return min(abs(one.z0 - z), abs(one.z1 - z)) < 1e-6


def _lofted(
    plan: Plan, low: float, high: float, edge: EdgeOfPanel | None, rims: tuple[Rim, Rim]
) -> Iterator[Mesh]:
    if edge is None:
        yield loft([plan, plan], [low, high], rims)
        return
    levels = edge.levels(low, high)
    plans = [edge.moved(plan, level) for level in levels]
    if not all(_fits(one, edge, level) for one, level in zip(plans, levels, strict=True)):
        yield from _stepped(plan, levels, edge, rims)
    elif all(a == b for a, b in pairwise(plans)):
        yield loft([plan, plan], [low, high], rims)
    else:
        yield loft(plans, [level.z for level in levels], rims)


def _fits(plan: Plan, edge: EdgeOfPanel, level: Level) -> bool:
    polygon = as_polygon(plan)
    return (
        polygon.exterior.is_ccw
        and polygon.is_valid
        and polygon.area > 0
        and bool(edge.outline_at(level).buffer(1e-3).covers(polygon))
    )


def _stepped(plan: Plan, levels: Sequence[Level], edge: EdgeOfPanel, rims: tuple[Rim, Rim]) -> Iterator[Mesh]:
    """Where a profile goes right through a strip: as steps of what is left in the middle of each."""
    whole = as_polygon(plan)
    heights = [
        one.z + (other.z - one.z) * share / _STEPS
        for one, other in pairwise(levels)
        for share in range(_STEPS if other.z - one.z > 1e-6 else 0)
    ]
    for number, (low, high) in enumerate(pairwise([*heights, levels[-1].z])):
        rest = whole.intersection(edge.outline_at(Level((low + high) / 2)))
        for polygon in polygons_in(rest):
            yield loft([plan_of_polygon(polygon)] * 2, [low, high], _outer(rims, number, len(heights)))
