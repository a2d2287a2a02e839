"""How the parts of the carcase are joined: corners, dividers, fixed shelves, the back in its seat, shelf pins."""

from dataclasses import replace
from math import atan2, degrees
from typing import Final

from evenface.construction.fastenings import BESIDE_MM, FIRST_MM, STOP_MM, join
from evenface.construction.gathering import Heap, spread_over
from evenface.construction.kinds.carcase.room import Cell, Room
from evenface.construction.kinds.carcase.shell import PINS, Laying, back_box
from evenface.construction.placed import HAIR_MM, Fitting, Joint, Point, Worked
from evenface.piece.records import Side
from evenface.words import NOTHING, Said, said

TONGUE_MM: Final = (6.0, 20.0)
PIN_MM: Final = (5.0, 10.0)
"""COMMON PRACTICE: diameter and depth of the holes for shelf pins."""
PIN_IN_MM: Final = 37.0
GROOVE_LOOSE_MM: Final = 0.2
"""COMMON PRACTICE: a groove is so much wider than what was measured of the back."""


def join_shell(laying: Laying, heap: Heap) -> None:
    """Everything that holds the carcase together."""
    carcase = laying.carcase
    for role, at in (("top", carcase.top_at), ("bottom", carcase.bottom_at)):
        for side in ("left side", "right side"):
            _corner(laying, heap, role, at, side)
    for number in range(1, len(laying.room.bays)):
        key = f"divider {number}"
        join(heap, carcase.shelf_joint, "bottom", key, Side.LEFT, f"{carcase.origin}.dividers")
        join(heap, carcase.shelf_joint, "top", key, Side.RIGHT, f"{carcase.origin}.dividers")
    for cell in laying.room.cells:
        if cell.below.kind == "partition":
            for limit, end, beside in ((cell.left, Side.LEFT, -1), (cell.right, Side.RIGHT, 1)):
                joint = replace(carcase.shelf_joint, shared=meets_across(laying.room, cell, beside))
                join(heap, joint, limit.part, cell.below.part, end, cell.row.origin)
    _back(laying, heap)
    _pins(laying, heap)


def meets_across(room: Room, cell: Cell, beside: int) -> bool:
    """Whether the next bay has a fixed shelf against the other face of the same divider, at least in part."""
    return any(
        other.bay == cell.bay + beside
        and other.below.kind == "partition"
        and abs(other.z[0] - cell.z[0]) < room.thick.shelf
        for other in room.cells
    )


def _seat_mm(laying: Laying) -> float:
    """How far the seat of the back reaches in from the rear edge. [mm]"""
    back, room = laying.carcase.back, laying.room
    if back is None or back.how == "rear":
        return 0.0
    return room.y[1] - room.back_y + (GROOVE_LOOSE_MM if back.how == "groove" else 0.0)


def _corner(laying: Laying, heap: Heap, role: str, at: str, side: str) -> None:
    carcase = laying.carcase
    joint = replace(carcase.joint, high=_seat_mm(laying))
    left = side == "left side"
    origin = f"{carcase.origin}.joint"
    if at == "between":
        # the top lies with its length to the right, the bottom with its length to the left
        end = Side.LEFT if left is (role == "top") else Side.RIGHT
        join(heap, joint, side, role, end, origin)
    elif at == "over":
        # the left side stands with its length upwards, the right one hangs with it downwards
        end = Side.RIGHT if left is (role == "top") else Side.LEFT
        join(heap, joint, role, side, end, origin)
    else:
        _mitre(laying, heap, role, side)


def _mitre(laying: Laying, heap: Heap, role: str, side: str) -> None:
    """A mitre over the whole corner; unequal thicknesses give unequal angles."""
    room, origin = laying.room, f"{laying.carcase.origin}.{role}_at"
    left, up = side == "left side", role == "top"
    across, level = (
        (room.thick.left if left else room.thick.right),
        (room.thick.top if up else room.thick.bottom),
    )
    x, z = room.x[0] if left else room.x[1], room.z[1] if up else room.z[0]
    heap.joints.append(
        Joint(
            "mitre with tongue", (side, role), (x, room.y[0], z), (x, room.y[1], z), enters_mm=across,
            area_mm2=(across**2 + level**2) ** 0.5 * (room.y[1] - room.y[0]),
            deduction=said("Both parts are as long as the outside: the mitre takes nothing from them."),
            name=f"{role} {side}", origin=origin,
        )
    )  # fmt: skip
    # the tongue ends before the front edge, and before the seat of the back behind
    rear = max(STOP_MM, _seat_mm(laying) + BESIDE_MM)
    thick, wide = TONGUE_MM
    for part, end, own, other in (
        (side, Side.RIGHT if left is up else Side.LEFT, across, level),
        (
            role,
            (Side.LEFT if left else Side.RIGHT) if up else (Side.RIGHT if left else Side.LEFT),
            level,
            across,
        ),
    ):
        angle = degrees(atan2(own, other))
        heap.worked.append(
            Worked(
                part, "mitre", end.value, other, joint=f"{role} {side}", said=said(
                    "End mitred at {angle:deg} to the face, both facings with it, inside shorter by {short:mm}: the "
                    "inner facing is {inner:mm2} long at last. A groove {thick:mm} wide and {deep:mm} deep square to "
                    "the mitre, near its inner edge, for a loose tongue, stopped {front:mm} before the front edge and "
                    "{rear:mm} before the rear one.",
                    angle=angle, short=other, inner=_inner_mm(laying, heap, part), thick=thick, deep=wide / 2,
                    front=STOP_MM, rear=rear,
                ), origin=origin,
            )
        )  # fmt: skip
    heap.fittings.append(
        Fitting(
            "loose tongue", 1, said(
                "plywood {thick:mm} × {wide:mm}, {long:mm} long",
                thick=thick, wide=wide - 1.0, long=room.y[1] - room.y[0] - STOP_MM - rear,
            ), (side, role), why=said("For the joints."), origin=origin,
        )
    )  # fmt: skip


def _inner_mm(laying: Laying, heap: Heap, part: str) -> float:
    """Length of a mitred part on its inner side, once all its mitres are cut."""
    carcase, thick = laying.carcase, laying.room.thick
    length = heap.of(part).part.length_mm
    if part in ("top", "bottom"):
        return length - thick.left - thick.right
    return length - thick.top * (carcase.top_at == "mitred") - thick.bottom * (carcase.bottom_at == "mitred")


def _back(laying: Laying, heap: Heap) -> None:
    """The back in its groove or rebate all round, or screwed on."""
    carcase, room, back = laying.carcase, laying.room, laying.carcase.back
    if back is None:
        return
    low, high = back_box(carcase, room)
    corners = {
        "left side": ((low[0], high[1], low[2]), (low[0], high[1], high[2])),
        "right side": ((high[0], high[1], low[2]), (high[0], high[1], high[2])),
        "top": ((low[0], high[1], high[2]), (high[0], high[1], high[2])),
        "bottom": ((low[0], high[1], low[2]), (high[0], high[1], low[2])),
    }
    kind = {"groove": "groove", "rebate": "rebate", "rear": "butt"}[back.how]
    for name, (start, end) in corners.items():
        heap.joints.append(
            Joint(
                kind, (name, "back"), start, end,
                enters_mm=0.0 if back.how == "rear" else back.depth - back.play, glued=False,
                moves=back.how == "groove", name=f"back {name}", origin=f"{carcase.origin}.back",
                deduction=said("Smaller than its seat by {play:mm} on each side.", play=back.play)
                if back.how != "rear"
                else said("{shy:mm} smaller than the outside all round.", shy=back.shy),
            )
        )  # fmt: skip
        if back.how != "rear":
            _seat(laying, heap, name, (_beyond(start, low, back.play), _beyond(end, low, back.play)))
    if back.how != "groove":
        around = 2 * (high[0] - low[0] + high[2] - low[2])
        heap.fittings.append(
            Fitting(
                "countersunk screw", len(spread_over(around, FIRST_MM, 150.0)), said("3.5 × {long:mm}", long=30.0),
                ("back",), why=said("The back, about every {every:mm}.", every=150.0), origin=f"{carcase.origin}.back",
            )
        )  # fmt: skip


def _beyond(corner: Point, low: Point, play: float) -> Point:
    """A corner of the back's seat: beyond that of the back by its play."""
    x, z = (corner[n] - play if abs(corner[n] - low[n]) < HAIR_MM else corner[n] + play for n in (0, 2))
    return x, corner[1], z


def _seat(laying: Laying, heap: Heap, name: str, line: tuple[Point, Point]) -> None:
    """Groove or rebate for the back in one panel, on the panel's own face."""
    room, back = laying.room, laying.carcase.back
    assert back is not None
    part = heap.of(name)
    wide = room.thick.back + (GROOVE_LOOSE_MM if back.how == "groove" else 0.0)
    front = room.back_y - (GROOVE_LOOSE_MM if back.how == "groove" else 0.0)
    ends = [part.local((point[0], y, point[2])) for point, y in ((line[0], front), (line[1], front + wide))]
    length, width = part.part.length_mm, part.part.width_mm
    x0 = max(0.0, round(min(ends[0][0], ends[1][0]), 6))
    x1 = min(length, round(max(ends[0][0], ends[1][0]), 6))
    heap.worked.append(
        Worked(
            name, back.how, "bottom", back.depth,
            x0_mm=x0, y0_mm=round(min(ends[0][1], ends[1][1]), 6), x1_mm=x1,
            y1_mm=min(width, round(max(ends[0][1], ends[1][1]), 6)), joint=f"back {name}",
            said=said(
                "{kind:word} for the back {wide:mm} wide and {deep:mm} deep, {inset:mm} from the rear edge{stops}."
                if room.back_inset_mm
                else "{kind:word} for the back {wide:mm} wide and {deep:mm} deep, along the rear edge{stops}.",
                kind="Groove" if back.how == "groove" else "Rebate", wide=wide, deep=back.depth,
                inset=room.back_inset_mm, stops=_stops(x0, length - x1),
            ), origin=f"{laying.carcase.origin}.back",
        )
    )  # fmt: skip


def _stops(left: float, right: float) -> Said:
    """Where a groove ends before the ends of its part."""
    if max(left, right) < HAIR_MM:
        return NOTHING
    if min(left, right) < HAIR_MM:
        end = "left" if left > right else "right"
        return said(", stopped {far:mm} before the {end:word} end", far=max(left, right), end=end)
    return said(
        ", stopped {left:mm} before the left end and {right:mm} before the right one", left=left, right=right
    )  # fmt: skip


def _pins(laying: Laying, heap: Heap) -> None:
    """Four pins under every loose shelf."""
    for one in heap.standing:
        if one.base != "loose shelf":
            continue
        heap.fittings.append(
            Fitting(
                "shelf pin", PINS, said("Ø {pin:mm}", pin=PIN_MM[0]), (one.key,),
                why=said("Four under each loose shelf."), origin=one.part.origin,
            )
        )  # fmt: skip
    for cell in laying.room.cells:
        shelves = [
            one for one in heap.standing if one.key.startswith(f"shelf {cell.bay + 1}.{cell.number + 1}.")
        ]
        if not shelves:
            continue
        for limit, x in ((cell.left, cell.x[0]), (cell.right, cell.x[1])):
            part = heap.of(limit.part)
            # from both faces of a divider holes at one height must not meet
            deep = (
                PIN_MM[1] if limit.kind == "outer" else min(PIN_MM[1], (part.thickness_mm - 1.0) // 1.0 / 2)
            )
            points = []
            for shelf in shelves:
                (_, y0, z), (_, y1, _) = shelf.box
                points += [part.local((x, y, z - PIN_MM[0] / 2)) for y in (y0 + PIN_IN_MM, y1 - PIN_IN_MM)]
            heap.worked.append(
                Worked(
                    limit.part, "pin holes", "bottom" if points[0][2] < part.thickness_mm / 2 else "top", deep,
                    diameter_mm=PIN_MM[0], centres=tuple((round(p[0], 6), round(p[1], 6)) for p in points),
                    joint=f"shelf {cell.bay + 1}.{cell.number + 1}", said=said(
                        "{count:count} holes Ø {pin:mm} for shelf pins, {deep:mm} deep; more rows as wanted.",
                        count=len(points), pin=PIN_MM[0], deep=deep,
                    ), origin=cell.row.origin,
                )
            )  # fmt: skip
