"""Cut faces of the parts of a whole piece: where it is cut, which material lies where, and how it is hatched."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from typing import Final

from evenface.construction import BuiltPanel, Edging
from evenface.construction.placed import Axis, Point
from evenface.drawings.boards import SHEETS
from evenface.drawings.placed_parts import PlacedPart, Solid
from evenface.drawings.scene import Area, Fill
from evenface.drawings.sight import Look, Sight, ring_of_box
from evenface.piece.records import Side
from evenface.shape.segment import Box

type Hatch = tuple[Fill, float]
"""How an area is filled and the angle of its grain on the paper."""

_EVEN: Final = {"mdf": Fill.MDF, "particleboard": Fill.PARTICLEBOARD, "compact": Fill.COMPACT}
_OFF_EDGES_MM: Final = 30.0
_OFF_MIDDLE: Final = (0.5, 0.42, 0.58, 0.34, 0.66)
_EDGING_TURN_DEG: Final = 90.0
"""End grain of edging is hatched the other way than that of boards beside it."""


def place_of_cut(parts: Sequence[PlacedPart], width_mm: float) -> float:
    """Where an upright section shows most near the middle: not along a side, divider or drawer side. [mm]"""
    upright = sorted((part.whole[0][0], part.whole[1][0]) for part in parts if part.thin_along == 0)
    free, start = [], 0.0
    for low, high in [*upright, (width_mm, width_mm)]:
        if low > start + 1.0:
            free.append((start, low))
        start = max(start, high)
    middle = width_mm / 2
    if not free:
        return middle
    low, high = min(free, key=lambda gap: max(gap[0] - middle, middle - gap[1], 0.0))
    tried = [middle] * (low + 1.0 < middle < high - 1.0)
    tried += [low + share * (high - low) for share in _OFF_MIDDLE]
    return max(tried, key=lambda at: _worth(parts, at))


def _worth(parts: Sequence[PlacedPart], at: float) -> tuple[int, float]:
    """How many parts a cut there meets, and how well it keeps off their edges and what is glued to them."""
    reaches = [(part.whole[0][0], part.whole[1][0]) for part in parts]
    met = sum(low < at < high for low, high in reaches)
    return met, min(_OFF_EDGES_MM, *(abs(at - end) for reach in reaches for end in reach))


def material_boxes(part: PlacedPart, look: Look) -> Iterator[Box]:
    """The rectangles its layers take up on the paper."""
    for low, high, _ in _layers(part, look):
        yield look.on_paper(part.box_of(low, high))


def cut_areas(sight: Sight, cut_at: float) -> Iterator[Area]:
    """Every cut face by its material, in rectangles as large as they go."""
    layers = [[*_layers(part, sight.look)] for part in sight.parts]
    groups: dict[tuple[int, Hatch], set[tuple[int, int]]] = defaultdict(set)
    for row, cells in enumerate(sight.cells):
        for column, seen in enumerate(cells):
            if seen is not None and seen.cut:
                point = _middle(sight, column, row, cut_at)
                place = sight.parts[seen.part].within(point)
                groups[seen.part, _hatch_at(layers[seen.part], place)].add((row, column))
    for (_, (fill, angle)), places in groups.items():
        for box in _rectangles(sight, places):
            yield Area((ring_of_box(box),), fill, "hatch", angle)


def _middle(sight: Sight, column: int, row: int, cut_at: float) -> Point:
    point = [cut_at] * 3
    point[sight.look.right] = (sight.xs[column] + sight.xs[column + 1]) / 2
    point[sight.look.up] = (sight.ys[row] + sight.ys[row + 1]) / 2
    return point[0], point[1], point[2]


def _rectangles(sight: Sight, places: set[tuple[int, int]]) -> Iterator[Box]:
    while places:
        row, first = min(places)
        last, top = first, row
        while (row, last + 1) in places:
            last += 1
        while all((top + 1, column) in places for column in range(first, last + 1)):
            top += 1
        places -= {(r, c) for r in range(row, top + 1) for c in range(first, last + 1)}
        yield sight.xs[first], sight.ys[row], sight.xs[last + 1], sight.ys[top + 1]


def _hatch_at(layers: list[tuple[Point, Point, Hatch]], place: Point) -> Hatch:
    for low, high, hatch in layers:
        if all(low[n] <= place[n] <= high[n] for n in range(3)):
            return hatch
    return layers[-1][2]


def _layers(part: PlacedPart, look: Look) -> Iterator[tuple[Point, Point, Hatch]]:
    """The layers in coordinates of the part, edging first, what lies behind everything last."""
    made, far = part.made, (part.length_mm, part.width_mm, part.thickness_mm)
    if not isinstance(made, BuiltPanel):
        wood = made.board.thickness_mm
        if made.facing is not None and made.board.lining is not None:
            grain = _wood(_way(part, made.board.lining.direction_deg), look)
            tone = SHEETS.get(made.facing.family)
            yield (0.0, 0.0, wood), far, (tone, 0.0) if tone else grain
        yield (0.0, 0.0, 0.0), (far[0], far[1], wood), _wood(part.placement.x_axis, look)
        return
    for edging in made.edgings:
        along = part.placement.x_axis if edging.side.runs_along_length else part.placement.y_axis
        fill, angle = _wood(along, look)
        turned = angle if fill is Fill.LONG_GRAIN else _EDGING_TURN_DEG
        yield *_strip(made, edging), (fill, turned)
    for face in made.faces:
        grain = _wood(_way(part, face.direction_deg), look)
        tone = SHEETS.get(face.material.family)
        hatch = (tone, 0.0) if tone else grain
        yield (0.0, 0.0, face.z0_mm), (far[0], far[1], face.z1_mm), hatch
    yield (0.0, 0.0, made.carrier.z0_mm), (far[0], far[1], made.carrier.z1_mm), _board(part, made, look)


def _strip(made: BuiltPanel, edging: Edging) -> Solid:
    low, high = [0.0, 0.0, edging.z0_mm], [made.length_mm, made.width_mm, edging.z1_mm]
    match edging.side:
        case Side.FRONT:
            high[1] = edging.width_mm
        case Side.REAR:
            low[1] = made.width_mm - edging.width_mm
        case Side.LEFT:
            high[0] = edging.width_mm
        case Side.RIGHT:
            low[0] = made.length_mm - edging.width_mm
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _board(part: PlacedPart, made: BuiltPanel, look: Look) -> Hatch:
    """Boards of many plies by lines along them, solid ones by their grain, others by their make."""
    board = made.carrier.material.board
    if board in _EVEN:
        return _EVEN[board], 0.0
    if board == "solid":
        return _wood(_way(part, made.carrier.direction_deg), look)
    return Fill.LONG_GRAIN, 90.0 if _number(part.placement.z_axis) == look.right else 0.0


def _way(part: PlacedPart, direction_deg: float) -> Axis:
    """The direction of the piece along which a grain of that direction runs."""
    return part.placement.x_axis if round(direction_deg / 90.0) % 2 == 0 else part.placement.y_axis


def _wood(along: Axis, look: Look) -> Hatch:
    number = _number(along)
    if number == look.away:
        return Fill.END_GRAIN, 0.0
    return Fill.LONG_GRAIN, 0.0 if number == look.right else 90.0


def _number(axis: Axis) -> int:
    return next(n for n, part in enumerate(axis.vector) if part)
