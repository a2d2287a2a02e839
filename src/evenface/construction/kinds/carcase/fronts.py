"""Doors and drawer fronts: their sizes from openings, laps and gaps, how they stand, their grips and gaps."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from evenface.construction.drawers.build import FRONT_SCREWS
from evenface.construction.gathering import Heap, Standing
from evenface.construction.kinds.carcase.records import Fronts
from evenface.construction.kinds.carcase.room import Cell, Limit
from evenface.construction.kinds.carcase.shell import APART_MM, Laying
from evenface.construction.placed import Axis, Placement
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.piece.records import Grip, Hold, Insert, Panel, Side
from evenface.shape.build import rounded_rectangle
from evenface.words import said

LEAST_FRONT_MM = 40.0


@dataclass(frozen=True, slots=True)
class Front:
    """One front in its place. hinge : "left" or "right" for a door, "" for a drawer. [mm]"""

    key: str
    base: str
    cell: Cell
    x: tuple[float, float]
    z: tuple[float, float]
    y: tuple[float, float]
    upright: bool
    hinge: str
    number: int

    @property
    def width_mm(self) -> float:
        return self.x[1] - self.x[0]

    @property
    def height_mm(self) -> float:
        return self.z[1] - self.z[0]

    @property
    def hinge_side(self) -> Side:
        """The edge of the panel the hinges are on."""
        if self.upright:
            return Side.FRONT if self.hinge == "left" else Side.REAR
        return Side.LEFT if self.hinge == "left" else Side.RIGHT


def lap_mm(fronts: Fronts, limit: Limit, side: str) -> float:
    """How far a front reaches over the edge of its opening; below 0 is the gap of an inset front. [mm]

    Overlay: the whole of an outer panel less the air outside; of what two fronts share, half less half the gap. Half
    overlay: outer panels as if they were shared, but at sides whose air outside is given.
    """
    if limit.kind == "line":
        return -fronts.between / 2
    if fronts.inset:
        return -float(getattr(fronts, side)) if limit.kind == "outer" else -fronts.between
    if limit.kind == "partition" or (fronts.lie == "half overlay" and side not in fronts.told):
        return (limit.thickness_mm - fronts.between) / 2
    return limit.thickness_mm - float(getattr(fronts, side))


def field_of(fronts: Fronts, cell: Cell) -> tuple[tuple[float, float], tuple[float, float]]:
    """What the fronts of a row cover together, x and z. [mm]"""
    return (
        (cell.x[0] - lap_mm(fronts, cell.left, "left"), cell.x[1] + lap_mm(fronts, cell.right, "right")),
        (cell.z[0] - lap_mm(fronts, cell.below, "bottom"), cell.z[1] + lap_mm(fronts, cell.above, "top")),
    )


def bank_heights(cell: Cell, whole: float, gap: float) -> tuple[float, ...]:
    """Heights of the fronts of a bank from above: given, growing, or equal. [mm]"""
    row = cell.row
    free = whole - (row.count - 1) * gap
    if row.heights:
        return (*row.heights, free - sum(row.heights))
    weights = [row.growth**number for number in range(row.count)]
    return tuple(free * weight / sum(weights) for weight in weights)


def fronts_of(laying: Laying) -> tuple[tuple[Front, ...], tuple[Finding, ...]]:
    """Every front, bay by bay and from above, and those there is no room for."""
    fronts = laying.carcase.fronts
    if fronts is None:
        return (), ()
    found = [
        front for cell in laying.room.cells if cell.row.closed for front in _of_cell(laying, fronts, cell)
    ]
    numbered = _numbered(found)
    small = [front for front in numbered if min(front.width_mm, front.height_mm) < LEAST_FRONT_MM]
    kept = tuple(front for front in numbered if front not in small)
    return kept, tuple(_too_small(front) for front in small)


def _numbered(found: list[Front]) -> tuple[Front, ...]:
    drawers = [front for front in found if not front.hinge]
    doors = [front for front in found if front.hinge]
    keys = {id(front): f"drawer front {number}" for number, front in enumerate(drawers, start=1)}
    keys |= {id(front): f"door {number}" for number, front in enumerate(doors, start=1)}
    places = {id(front): number for group in (drawers, doors) for number, front in enumerate(group, start=1)}
    return tuple(replace(front, key=keys[id(front)], number=places[id(front)]) for front in found)


def _of_cell(laying: Laying, fronts: Fronts, cell: Cell) -> Iterator[Front]:
    (x0, x1), (z0, z1) = field_of(fronts, cell)
    drawers = cell.row.what == "drawers"
    thick = laying.room.thick.drawer_front if drawers else laying.room.thick.door
    front = fronts.shy if fronts.inset else laying.room.y[0] - fronts.stand_off - thick
    y = (front, front + thick)
    upright = (cell.row.grain or ("across" if drawers else "upright")) == "upright"
    if drawers:
        top = z1
        for high in bank_heights(cell, z1 - z0, fronts.between):
            yield Front("", "drawer front", cell, (x0, x1), (top - high, top), y, upright, "", 0)
            top -= high + fronts.between
    elif cell.row.what == "doors":
        wide = (x1 - x0 - fronts.between) / 2
        yield Front("", "left door", cell, (x0, x0 + wide), (z0, z1), y, upright, "left", 0)
        yield Front("", "right door", cell, (x1 - wide, x1), (z0, z1), y, upright, "right", 0)
    else:
        hinge = cell.row.hinge
        yield Front("", f"{hinge} door", cell, (x0, x1), (z0, z1), y, upright, hinge, 0)


def stand_front(laying: Laying, front: Front, hinges: int) -> Standing:
    """The panel of a front, edged all round, in its place."""
    row, closed = front.cell.row, laying.inside
    placement, size = _placed(front)
    hold = Hold("hinged", hinges, row.origin) if front.hinge else Hold("screwed", FRONT_SCREWS, row.origin)
    pair = front.hinge != "" and row.what == "doors" and laying.carcase.one_sheet and not row.run
    stood = laying.stand(
        front.key, front.base, "door" if front.hinge else "drawer front", size, placement, tuple(Side),
        climate_bottom=closed, run=row.run, hold=hold,
        # fronts of a run are told apart by their place in the file
        origin=f"{row.origin}.{front.key.replace(' ', '_')}" if row.run else row.origin,
    )  # fmt: skip
    panel = stood.part
    assert isinstance(panel, Panel)
    if pair and not panel.same_sheet:
        panel = replace(panel, same_sheet=f"doors {laying.carcase.origin}")
    which = "" if front.hinge else str(front.number)
    return replace(stood, part=_with_grip(laying, front, stood, panel), which=which)


def _placed(front: Front) -> tuple[Placement, tuple[float, float]]:
    """Grain upright: length from above downwards, width to the right. Grain across: length to the right, width up."""
    (x0, x1), (z0, z1), (_, y1) = front.x, front.z, front.y
    wide, high = round(x1 - x0, 9), round(z1 - z0, 9)  # doors alike are of the same size to the last figure
    label = f"bay {front.cell.bay + 1}, row {front.cell.number + 1}"
    apart = (0.0, -3 * APART_MM, 0.0)
    if front.upright:
        return Placement(front.key, (x0, y1, z1), Axis.DOWN, Axis.RIGHT, apart, label), (high, wide)
    return Placement(front.key, (x0, y1, z0), Axis.RIGHT, Axis.UP, apart, label), (wide, high)


def _with_grip(laying: Laying, front: Front, stood: Standing, panel: Panel) -> Panel:
    """The same panel with its grip: on the closing side of a door, in the middle of a drawer front."""
    asked = laying.carcase.grip
    if asked is None:
        return panel
    x = (front.x[0] + front.x[1]) / 2
    z = (front.z[0] + front.z[1]) / 2
    if front.hinge:
        x = front.x[1] - asked.from_edge if front.hinge == "left" else front.x[0] + asked.from_edge
        z = front.z[0] + asked.up if asked.up is not None else z
    at_x, at_y = (round(at, 9) for at in stood.local((x, front.y[0], z))[:2])
    length, width = asked.size
    outline = rounded_rectangle(length, width, min(asked.radius, length / 2, width / 2))
    insert = Insert(
        name="grip wood", outline=outline.moved(at_x - length / 2, at_y - width / 2), wood=asked.wood,
        depth_mm=asked.depth, when=asked.when, origin=asked.origin,
    )  # fmt: skip
    reach = max(length / 2 - asked.diameter / 2 - 20.0, 0.0)
    way = ((at_x - reach, at_y), (at_x + reach, at_y)) if reach > 0 else ((at_x, at_y),)
    grip = Grip(
        name="grip", insert="grip wood", cutter=asked.cutter, cutter_diameter_mm=asked.diameter,
        depth_mm=asked.hollow, path=way, hand=front.hinge or "both", origin=asked.origin,
    )  # fmt: skip
    return replace(panel, inserts=(insert,), grips=(grip,))


def _too_small(front: Front) -> Finding:
    size = min(front.width_mm, front.height_mm)
    return Finding(
        code="front.no_room",
        severity=Severity.STOP,
        origin=front.cell.row.origin,
        at=front.key,
        value=certain(size),
        limit=LEAST_FRONT_MM,
        unit="mm",
        message=said(
            "The opening leaves {size:mm} for {front}; {least:mm} is the least there can be.",
            size=size,
            front=front.key,
            least=LEAST_FRONT_MM,
        ),
        source="sum of the sizes",
        remedies=(Remedy("front.fewer", said("Make the row higher, or put fewer fronts in it.")),),
    )


def ordered_for_runs(heap: Heap) -> None:
    """Fronts of a run from below upwards, for so their faces lie in the sheet; everything else as it stands."""
    fronts = [one for one in heap.standing if one.alone and one.base == "drawer front"]
    if not fronts or any(one.placement.y_axis is not Axis.UP for one in fronts):
        return
    turned = iter(sorted(fronts, key=lambda one: (one.part.run, one.placement.at[0], one.placement.at[2])))  # type: ignore[union-attr]
    heap.standing[:] = [next(turned) if one in fronts else one for one in heap.standing]
