"""Where a drawer box lies behind its front, how large it is, and how it moves through the year."""

from dataclasses import dataclass
from math import floor
from typing import Final

from evenface.construction.kinds.carcase.fronts import Front
from evenface.construction.kinds.carcase.records import DrawerBox
from evenface.construction.kinds.carcase.shell import Laying
from evenface.construction.wood_through_year import ThroughYear, width_through_year
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.words import said

RUNNERS_MM: Final = tuple(float(length) for length in range(250, 651, 50))
"""COMMON PRACTICE: lengths runners are sold in."""
BEHIND_MM: Final = 5.0
"""COMMON PRACTICE: air behind a box."""
LEAST_BOX_MM: Final = 40.0
RUB_MM: Final = 1.0
"""COMMON PRACTICE: air over a box that must be left in the dampest weeks."""
STILL: Final = ThroughYear(0.0, 0.0, Status.DERIVED)


@dataclass(frozen=True, slots=True)
class Box:
    """One drawer box. x, y, z : its outside in the piece; room_z : what it runs in; side_mm, bottom_mm : of its
    boards. moves : its height through the year; bottom_moves : the depth of a solid bottom. [mm]"""

    front: Front
    x: tuple[float, float]
    y: tuple[float, float]
    z: tuple[float, float]
    room_z: tuple[float, float]
    side_mm: float
    bottom_mm: float
    moves: ThroughYear = STILL
    bottom_moves: ThroughYear = STILL

    @property
    def length_mm(self) -> float:
        return self.y[1] - self.y[0]

    @property
    def height_mm(self) -> float:
        return self.z[1] - self.z[0]

    @property
    def inner_mm(self) -> float:
        """Between the sides."""
        return self.x[1] - self.x[0] - 2 * self.side_mm

    @property
    def above_mm(self) -> float:
        """Air over it as drawn."""
        return self.room_z[1] - self.z[1]


def box_of(laying: Laying, front: Front) -> tuple[Box | None, tuple[Finding, ...]]:
    """The box behind a front, None where there is no room for one, and what stands against it."""
    drawer = laying.carcase.drawer
    assert drawer is not None
    told: list[Finding] = []
    cell = front.cell
    x = (cell.x[0] + drawer.clearance, cell.x[1] - drawer.clearance)
    side, bottom = _thicknesses(laying, drawer)
    room_z = (max(cell.z[0], front.z[0]), min(cell.z[1], front.z[1]))
    height = _height(laying, drawer, front, room_z, told)
    length = _length(laying, drawer, front, told)
    if min(height, x[1] - x[0] - 2 * side, length) < LEAST_BOX_MM:
        told.append(_no_box(front, min(height, x[1] - x[0] - 2 * side, length)))
        return None, tuple(told)
    low = room_z[0] + drawer.below
    inside = laying.inside
    wood = laying.ground.materials.wood
    box = Box(
        front,
        x,
        (front.y[1], front.y[1] + length),
        (low, low + height),
        room_z,
        side,
        bottom,
        width_through_year(laying.ground.job, wood(drawer.wood), height, drawer.cut, inside)
        if drawer.wood
        else STILL,
        width_through_year(laying.ground.job, wood(drawer.bottom_wood), length, "flat", inside)
        if drawer.bottom_wood
        else STILL,
    )
    if box.above_mm - box.moves.most_mm < RUB_MM:
        told.append(_rubs(laying, box))
    return box, tuple(told)


def _thicknesses(laying: Laying, drawer: DrawerBox) -> tuple[float, float]:
    patterns, thickness = laying.carcase.patterns, laying.ground.thickness_mm
    side = thickness(patterns["drawer side"].buildup) if "drawer side" in patterns else drawer.thickness
    if "drawer bottom" in patterns:
        return side, thickness(patterns["drawer bottom"].buildup)
    return side, drawer.bottom_thickness


def _height(
    laying: Laying, drawer: DrawerBox, front: Front, room_z: tuple[float, float], told: list[Finding]
) -> float:
    """As given where it fits, else what the opening allows, in whole millimetres."""
    most = room_z[1] - room_z[0] - drawer.above - drawer.below
    if drawer.height is None:
        return float(floor(most + 1e-9))
    if drawer.height > most + 1e-9:
        path = f"{laying.carcase.origin}.drawer.height"
        told.append(
            Finding(
                code="drawer.too_high", severity=Severity.STOP, origin=path, at=f"drawer {front.number}",
                value=certain(drawer.height), limit=most, unit="mm",
                message=said(
                    "A box {height:mm} high does not go into its opening: {most:mm} is what air above and below leave.",
                    height=drawer.height, most=most,
                ), source="sum of the sizes",
                remedies=(
                    Remedy("drawer.lower", said("Leave the height open: each box is as high as it can be."),
                           (Change(path, f"{drawer.height:g}", ""),)),
                ),
            )
        )  # fmt: skip
        return float(floor(most))
    return drawer.height


def _length(laying: Laying, drawer: DrawerBox, front: Front, told: list[Finding]) -> float:
    """Of the runner: the given one, or the longest that goes in before the back."""
    free = laying.room.back_y - BEHIND_MM - front.y[1]
    if drawer.length is not None and drawer.length <= free + 1e-9:
        return drawer.length
    if drawer.runner == "wooden runner":
        return float(floor(free))
    fitting = [length for length in RUNNERS_MM if length <= free + 1e-9]
    wanted = drawer.length if drawer.length is not None else RUNNERS_MM[0]
    if drawer.length is not None or not fitting:
        told.append(
            Finding(
                code="drawer.runner", severity=Severity.STOP, origin=f"{laying.carcase.origin}.drawer.length",
                at=f"drawer {front.number}", value=certain(wanted), limit=free, unit="mm",
                message=said(
                    "A runner {length:mm} long does not go in: {free:mm} is clear behind the front.",
                    length=wanted, free=free,
                ), source="sum of the sizes",
                remedies=(
                    Remedy("drawer.shorter", said("Take a shorter runner, or make the carcase deeper.")),
                    Remedy("drawer.wooden", said("Use wooden runners: they may have any length."),
                           (Change(f"{laying.carcase.origin}.drawer.runner", drawer.runner, "wooden runner"),)),
                ),
            )
        )  # fmt: skip
    return fitting[-1] if fitting else free


def _no_box(front: Front, size: float) -> Finding:
    return Finding(
        code="drawer.no_room", severity=Severity.STOP, origin=front.cell.row.origin, at=f"drawer {front.number}",
        value=certain(size), limit=LEAST_BOX_MM, unit="mm",
        message=said(
            "Behind the front {size:mm} is left for the box; {least:mm} is the least there can be.",
            size=size, least=LEAST_BOX_MM,
        ), source="sum of the sizes",
        remedies=(Remedy("drawer.fewer", said("Put fewer drawers in the row, or make it higher or wider.")),),
    )  # fmt: skip


def _rubs(laying: Laying, box: Box) -> Finding:
    drawer = laying.carcase.drawer
    assert drawer is not None
    path = f"{laying.carcase.origin}.drawer.above"
    wanted = round(drawer.above + RUB_MM - (box.above_mm - box.moves.most_mm) + 0.5)
    return Finding(
        code="drawer.swells", severity=Severity.STOP if box.above_mm < box.moves.most_mm else Severity.WEIGH,
        origin=path, at=f"drawer {box.front.number}",
        value=certain(box.above_mm - box.moves.most_mm), limit=RUB_MM, unit="mm",
        message=said(
            "In the damp weeks the box grows by {grown:mm} and {left:mm} of the {above:mm} over it are left.",
            grown=box.moves.most_mm, left=box.above_mm - box.moves.most_mm, above=box.above_mm,
        ), why=said("Solid sides swell across the grain, in height, and the drawer sticks."),
        source="own reckoning from the year of the room and the movement of the wood", weakest=box.moves.status,
        remedies=(
            Remedy("drawer.more_air", said("Leave {wanted:mm} above.", wanted=wanted),
                   (Change(path, f"{drawer.above:g}", f"{wanted:g}"),)),
            Remedy("drawer.quarter", said("Use boards sawn on the quarter: they move about half as much."),
                   (Change(f"{laying.carcase.origin}.drawer.cut", drawer.cut, "quarter"),)),
        ),
    )  # fmt: skip
