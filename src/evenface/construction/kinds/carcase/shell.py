"""The panels of the carcase itself: sides, top, bottom, dividers, fixed and loose shelves, back, hanging rail."""

from collections.abc import Iterator
from dataclasses import dataclass

from evenface.construction.gathering import Standing
from evenface.construction.ground import Ground
from evenface.construction.kinds.carcase.records import Carcase
from evenface.construction.kinds.carcase.room import LEAST_MM, Cell, Room
from evenface.construction.placed import Axis, Board, Placement, Point
from evenface.construction.standing_panels import board_standing, panel_standing
from evenface.piece.records import Hold, Side
from evenface.words import said

APART_MM = 150.0
LOOSE_PLAY_MM = 1.0
"""COMMON PRACTICE: air at each end of a loose shelf, and behind it."""
PINS = 4


@dataclass(frozen=True, slots=True)
class Laying:
    """What panels of a carcase are laid out with."""

    carcase: Carcase
    room: Room
    ground: Ground

    def stand(
        self,
        key: str,
        base: str,
        role: str,
        size: tuple[float, float],
        placement: Placement,
        edges: tuple[Side, ...] = (),
        **other: object,
    ) -> Standing:
        """A panel of the role's pattern, edged where it is seen, in its place."""
        pattern = self.carcase.patterns[role]
        return panel_standing(self.ground, pattern, key, base, size, placement, edges, **other)

    @property
    def inside(self) -> str:
        """The air in it; the room's own where nothing shuts it."""
        return self.carcase.inside if self.carcase.closed else ""


def shell(laying: Laying) -> Iterator[Standing]:
    """Every panel and board of the carcase, in the order it is built."""
    yield from _round(laying)
    yield from _dividers(laying)
    yield from _fixed_shelves(laying)
    if laying.carcase.back is not None:
        yield _back(laying)
    yield from _rail(laying)
    yield from _loose_shelves(laying)


def _round(laying: Laying) -> Iterator[Standing]:
    """Left side, top, right side, bottom: round the carcase, so that a pattern can run on from one to the next."""
    carcase, room = laying.carcase, laying.room
    (x0, x1), (y0, y1), (z0, z1) = room.x, room.y, room.z
    thick, deep = room.thick, carcase.joint.enters_mm
    low = z0 + (thick.bottom - deep if carcase.bottom_at == "over" else 0.0)
    high = z1 - (thick.top - deep if carcase.top_at == "over" else 0.0)
    seen: list[Side] = [Side.FRONT]
    if carcase.top_at == "between":
        seen.append(Side.LEFT)
    if carcase.bottom_at == "between" and carcase.hanging_rail is not None:
        seen.append(Side.RIGHT)
    turned = [{Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}.get(side, side) for side in seen]
    air = {"climate_bottom": laying.inside, "run": carcase.run, "origin": carcase.origin}
    sunk = {"left": carcase.joint.enters_mm > 0 and "over" in (carcase.top_at, carcase.bottom_at)}
    yield laying.stand(
        "left side", "left side", "left side", (high - low, y1 - y0),
        Placement("left side", (x0 + thick.left, y0, low), Axis.UP, Axis.REAR, (-APART_MM, 0, 0), "", sunk["left"]),
        tuple(turned), **air, hold=_screwed(carcase),
    )  # fmt: skip
    yield _level(laying, "top", carcase.top_at, (z1 - thick.top, Axis.RIGHT), air)
    yield laying.stand(
        "right side", "right side", "right side", (high - low, y1 - y0),
        Placement("right side", (x1 - thick.right, y0, high), Axis.DOWN, Axis.REAR, (APART_MM, 0, 0), "", sunk["left"]),
        tuple(seen), **air, hold=_screwed(carcase),
    )  # fmt: skip
    yield _level(laying, "bottom", carcase.bottom_at, (z0 + thick.bottom, Axis.LEFT), air)


def _level(laying: Laying, role: str, at: str, place: tuple[float, Axis], air: dict[str, str]) -> Standing:
    """Top or bottom: its show face outwards. place : height of its inner z = 0, direction of its length."""
    carcase, room = laying.carcase, laying.room
    deep = carcase.joint.enters_mm
    x0, x1 = room.x if at != "between" else (room.inner_x[0] - deep, room.inner_x[1] + deep)
    z, axis = place
    edges = (Side.FRONT, Side.LEFT, Side.RIGHT) if at == "over" else (Side.FRONT,)
    start = x0 if axis is Axis.RIGHT else x1
    apart = (0.0, 0.0, APART_MM if role == "top" else -APART_MM)
    sunk = at == "mitred" or (at == "between" and deep > 0)
    return laying.stand(
        role, role, role, (x1 - x0, room.y[1] - room.y[0]),
        Placement(role, (start, room.y[0], z), axis, Axis.REAR, apart, "", sunk), edges, **air,
        hold=_screwed(carcase),
    )  # fmt: skip


def _screwed(carcase: Carcase) -> Hold:
    """Held by its neighbours along both ends."""
    return Hold("screwed", 8, f"{carcase.origin}.joint")


def _dividers(laying: Laying) -> Iterator[Standing]:
    carcase, room = laying.carcase, laying.room
    deep = carcase.shelf_joint.enters_mm
    low, high = room.inner_z[0] - deep, room.inner_z[1] + deep
    for number, (_, x1) in enumerate(room.bays[:-1], start=1):
        key = f"divider {number}"
        yield laying.stand(
            key, "divider", "divider", (high - low, room.back_y - room.y[0]),
            Placement(
                key, (x1 + room.thick.divider, room.y[0], low), Axis.UP, Axis.REAR,
                label=f"after bay {number}", sunk=deep > 0,
            ), (Side.FRONT,), climate_top=laying.inside, climate_bottom=laying.inside,
            origin=f"{carcase.origin}.dividers", hold=_screwed(carcase),
        )  # fmt: skip


def _fixed_shelves(laying: Laying) -> Iterator[Standing]:
    """Shelves between two rows; their front edge lies with the edges of the sides."""
    carcase, room = laying.carcase, laying.room
    deep = carcase.shelf_joint.enters_mm
    for cell in room.cells:
        if cell.below.kind != "partition":
            continue
        x0, x1 = cell.x[0] - deep, cell.x[1] + deep
        yield laying.stand(
            cell.below.part, "fixed shelf", "shelf", (x1 - x0, room.back_y - room.y[0]),
            Placement(
                cell.below.part, (x0, room.y[0], cell.z[0] - room.thick.shelf),
                label=f"bay {cell.bay + 1}, under row {cell.number + 1}", sunk=deep > 0,
            ), (Side.FRONT,), climate_top=laying.inside, climate_bottom=laying.inside,
            span_mm=cell.width_mm, load_n_per_m=cell.row.load, origin=cell.row.origin, hold=_screwed(carcase),
        )  # fmt: skip


def shelf_front_mm(laying: Laying, cell: Cell) -> float:
    """Where a loose shelf begins: behind an inset front, else a little behind the edges."""
    fronts, room = laying.carcase.fronts, laying.room
    front = room.y[0]
    if cell.row.closed and fronts is not None and fronts.inset:
        front += fronts.shy + room.thick.door
    return front + laying.carcase.shelf_setback


def _loose_shelves(laying: Laying) -> Iterator[Standing]:
    room = laying.room
    for cell in room.cells:
        if cell.row.what == "drawers":
            continue
        front = shelf_front_mm(laying, cell)
        if room.back_y - LOOSE_PLAY_MM - front < LEAST_MM:
            continue  # told among the slips
        free = (cell.height_mm - cell.row.shelves * room.thick.shelf) / (cell.row.shelves + 1)
        for number in range(cell.row.shelves):
            key = f"shelf {cell.bay + 1}.{cell.number + 1}.{number + 1}"
            z = cell.z[1] - (number + 1) * (free + room.thick.shelf)
            air = laying.inside if cell.row.closed else ""
            yield laying.stand(
                key, "loose shelf", "shelf",
                (cell.width_mm - 2 * LOOSE_PLAY_MM, room.back_y - LOOSE_PLAY_MM - front),
                Placement(
                    key, (cell.x[0] + LOOSE_PLAY_MM, front, z), apart=(0.0, -2 * APART_MM, 0.0),
                    label=f"bay {cell.bay + 1}, {number + 1} from above",
                ), (Side.FRONT,), climate_top=air, climate_bottom=air, span_mm=cell.width_mm,
                load_n_per_m=cell.row.load, origin=cell.row.origin, hold=Hold("free", 0, cell.row.origin),
            )  # fmt: skip


def back_box(carcase: Carcase, room: Room) -> tuple[Point, Point]:
    """Lower and upper corner of the back. [mm]"""
    back = carcase.back
    assert back is not None
    if back.how == "rear":
        x, z = room.x, room.z
        # never smaller than the inside: what is asked beyond that is told among the slips
        thick = room.thick
        more, y0 = -min(back.shy, thick.left, thick.right, thick.top, thick.bottom), room.y[1]
    else:
        x, z = room.inner_x, room.inner_z
        more, y0 = back.depth - back.play, room.back_y
    return (x[0] - more, y0, z[0] - more), (x[1] + more, y0 + room.thick.back, z[1] + more)


def _back(laying: Laying) -> Standing:
    carcase, room = laying.carcase, laying.room
    low, high = back_box(carcase, room)
    assert carcase.back is not None
    let_in = carcase.back.how != "rear"
    fixings = 4 + 2 * int((high[0] - low[0] + high[2] - low[2]) / 300.0)
    hold = Hold("groove" if carcase.back.how == "groove" else "screwed", fixings, f"{carcase.origin}.back")
    return laying.stand(
        "back", "back", "back", (high[0] - low[0], high[2] - low[2]),
        Placement("back", (low[0], high[1], low[2]), Axis.RIGHT, Axis.UP, (0.0, APART_MM, 0.0), "", let_in),
        climate_top=laying.inside, origin=f"{carcase.origin}.back", hold=hold,
    )  # fmt: skip


def _rail(laying: Laying) -> Iterator[Standing]:
    """The hanging rail lies under the top, between the sides, behind the back."""
    carcase, room = laying.carcase, laying.room
    rail = carcase.hanging_rail
    if rail is None:
        return
    (x0, x1), top = room.inner_x, room.inner_z[1]
    board = Board(
        "hanging rail", 1, rail.wood, x1 - x0, rail.height, rail.thickness, use="rail",
        reasons=(said("Between the sides, under the top, behind the back; glued to the top too."),),
        origin=f"{carcase.origin}.hanging_rail",
    )  # fmt: skip
    y = room.back_y + room.thick.back
    yield board_standing(
        "hanging rail", "hanging rail", board,
        Placement("hanging rail", (x0, y + rail.thickness, top - rail.height), Axis.RIGHT, Axis.UP, (0, APART_MM, 0)),
    )  # fmt: skip
