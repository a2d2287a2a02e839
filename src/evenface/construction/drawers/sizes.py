"""Where a drawer box lies behind its front, how large it is, and how it moves through the year."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor
from typing import Final

from evenface.construction.drawers.records import DrawerPlace
from evenface.construction.wood_through_year import ThroughYear, width_through_year
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.words import Said, said

RUNNERS_MM: Final = tuple(float(length) for length in range(250, 651, 50))
"""COMMON PRACTICE: lengths runners are sold in."""
BEHIND_MM: Final = 5.0
"""COMMON PRACTICE: air behind a box."""
LEAST_BOX_MM: Final = 40.0
LEAST_BACK_MM: Final = 20.0
"""Own limit: the back of a box stands at least so high on its bottom."""
SCREW_FLOOR_MM: Final = 2.0
SCREW_IN_MM: Final = 8.0
"""COMMON PRACTICE: what stays of a front before the points of its screws, and what they enter it by, at least."""
DEEP: Final = 2 / 3
"""COMMON PRACTICE: a groove or housing takes at most so much of a drawer side, which is thin."""
RUB_MM: Final = 1.0
"""COMMON PRACTICE: air over a box that must be left in the dampest weeks."""
STILL: Final = ThroughYear(0.0, 0.0, Status.DERIVED)


@dataclass(frozen=True, slots=True)
class Box:
    """One drawer box. x, y, z : its outside in the piece; side_mm, bottom_mm : of its
    boards. moves : its height through the year; bottom_moves : the depth of a solid bottom. [mm]"""

    place: DrawerPlace
    x: tuple[float, float]
    y: tuple[float, float]
    z: tuple[float, float]
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
        return self.place.z[1] - self.z[1]


def box_of(place: DrawerPlace) -> tuple[Box | None, tuple[Finding, ...]]:
    """The box of a drawer, None where there is no room for one, and what stands against it."""
    drawer, job = place.asked, place.ground.job
    told: list[Finding] = []
    x = (place.x[0] + drawer.clearance, place.x[1] - drawer.clearance)
    side, bottom = _thicknesses(place)
    height = _height(place, told)
    length = _length(place, told)
    least = min(height, x[1] - x[0] - 2 * side, length)
    if least < LEAST_BOX_MM:
        told.append(_no_box(place, least))
        return None, tuple(told)
    told += _slips(place, side, bottom, height)
    if _back_mm(place, bottom, height) < LEAST_BACK_MM:
        return None, tuple(told)
    low = place.z[0] + drawer.below
    wood = place.ground.materials.wood
    box = Box(
        place,
        x,
        (place.begins_y, place.begins_y + length),
        (low, low + height),
        side,
        bottom,
        width_through_year(job, wood(drawer.wood), height, drawer.cut, place.inside)
        if drawer.wood
        else STILL,
        width_through_year(job, wood(drawer.bottom_wood), length, "flat", place.inside)
        if drawer.bottom_wood
        else STILL,
    )
    if box.above_mm - box.moves.most_mm < RUB_MM:
        told.append(_rubs(box))
    return box, tuple(told)


def _back_mm(place: DrawerPlace, bottom: float, height: float) -> float:
    """Height of the back of the box, which stands on the bottom."""
    return height - place.asked.up - bottom


def _slips(place: DrawerPlace, side: float, bottom: float, height: float) -> Iterator[Finding]:
    """A bottom too high in its box, and what is cut too deep into its sides."""
    drawer = place.asked
    left = _back_mm(place, bottom, height)
    if left < LEAST_BACK_MM:
        most = max(height - bottom - LEAST_BACK_MM, 0.0)
        yield _slip(
            place, "drawer.bottom_high", "up", (left, LEAST_BACK_MM), said(
                "With the bottom {up:mm} above the lower edge, {left:mm} of the box of {height:mm} is left above it.",
                up=drawer.up, left=left, height=height,
            ),
            Remedy("drawer.lower_bottom", said("Set it at most {most:mm} up, or make the drawer higher.", most=most)),
        )  # fmt: skip
    front = place.ahead[-1][1] if place.front_key else 0.0
    enters = front_screw_mm(side, front) - side
    if place.front_key and enters < SCREW_IN_MM:
        yield _slip(
            place, "drawer.front_thin", "wood" if drawer.wood else "buildup", (enters, SCREW_IN_MM), said(
                "Through a box of {side:mm} a screw enters a front {front:mm} thick by {enters:mm} before it would "
                "come through.",
                side=side, front=front, enters=max(enters, 0.0),
            ), Remedy("drawer.glued_front", said("Take a thicker front, or glue it to its box.")),
            severity=Severity.WEIGH,
        )  # fmt: skip
    deep = {"groove": drawer.groove}
    if drawer.joint.kind == "housing":
        deep["joint.depth"] = drawer.joint.depth
    for key, given in deep.items():
        if given <= side * DEEP:
            continue
        least = round(side / 2, 1)
        path = f"{place.origin}.{key}"
        yield _slip(
            place, "drawer.side_deep", key, (given, side * DEEP), said(
                "{deep:mm} is taken out of a drawer side {thick:mm} thick.", deep=given, thick=side
            ),
            Remedy("drawer.shallower", said("Make it {least:mm} deep.", least=least),
                   (Change(path, f"{given:g}", f"{least:g}"),)),
            severity=Severity.STOP if given >= side - 1.0 else Severity.WEIGH,
        )  # fmt: skip


def front_screw_mm(side: float, front: float) -> float:
    """Length of the screws that hold a front: some 14 mm in it, and never so far that they come through. [mm]"""
    return min(5.0 * round((side + 14) / 5), 5.0 * int((side + front - SCREW_FLOOR_MM) / 5))


def _slip(
    place: DrawerPlace, code: str, key: str, value_limit: tuple[float, float], message: Said, remedy: Remedy,
    severity: Severity = Severity.STOP,
) -> Finding:  # fmt: skip
    return Finding(
        code=code, severity=severity, origin=f"{place.origin}.{key}", at=f"drawer {place.number}",
        value=certain(value_limit[0]), limit=value_limit[1], unit="mm", message=message,
        source="common practice", weakest=Status.PRACTICE, remedies=(remedy,),
    )  # fmt: skip


def _thicknesses(place: DrawerPlace) -> tuple[float, float]:
    drawer, patterns, thickness = place.asked, place.patterns, place.ground.thickness_mm
    side = thickness(patterns["drawer side"].buildup) if "drawer side" in patterns else drawer.thickness
    if "drawer bottom" in patterns:
        return side, thickness(patterns["drawer bottom"].buildup)
    return side, drawer.bottom_thickness


def _height(place: DrawerPlace, told: list[Finding]) -> float:
    """As given where it fits, else what the opening allows, in whole millimetres."""
    drawer = place.asked
    most = place.z[1] - place.z[0] - drawer.above - drawer.below
    if drawer.height is None:
        return float(floor(most + 1e-9))
    if drawer.height > most + 1e-9:
        path = f"{place.origin}.height"
        told.append(
            Finding(
                code="drawer.too_high", severity=Severity.STOP, origin=path, at=f"drawer {place.number}",
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


def _length(place: DrawerPlace, told: list[Finding]) -> float:
    """Of the runner: the given one, or the longest that goes in before the back."""
    drawer = place.asked
    free = place.ends_y - BEHIND_MM - place.begins_y
    if drawer.length is not None and drawer.length <= free + 1e-9:
        return drawer.length
    if drawer.runner == "wooden runner":
        return float(floor(free))
    fitting = [length for length in RUNNERS_MM if length <= free + 1e-9]
    wanted = drawer.length if drawer.length is not None else RUNNERS_MM[0]
    if drawer.length is not None or not fitting:
        told.append(
            Finding(
                code="drawer.runner", severity=Severity.STOP, origin=f"{place.origin}.length",
                at=f"drawer {place.number}", value=certain(wanted), limit=free, unit="mm",
                message=said(
                    "A runner {length:mm} long does not go in: {free:mm} is clear behind the front.",
                    length=wanted, free=free,
                ), source="sum of the sizes",
                remedies=(
                    Remedy("drawer.shorter", said("Take a shorter runner, or make what it goes into deeper.")),
                    Remedy("drawer.wooden", said("Use wooden runners: they may have any length."),
                           (Change(f"{place.origin}.runner", drawer.runner, "wooden runner"),)),
                ),
            )
        )  # fmt: skip
    return fitting[-1] if fitting else free


def _no_box(place: DrawerPlace, size: float) -> Finding:
    return Finding(
        code="drawer.no_room", severity=Severity.STOP, origin=place.row_origin, at=f"drawer {place.number}",
        value=certain(size), limit=LEAST_BOX_MM, unit="mm",
        message=said(
            "Behind the front {size:mm} is left for the box; {least:mm} is the least there can be.",
            size=size, least=LEAST_BOX_MM,
        ), source="sum of the sizes",
        remedies=(Remedy("drawer.fewer", said("Put fewer drawers in the row, or make it higher or wider.")),),
    )  # fmt: skip


def _rubs(box: Box) -> Finding:
    place = box.place
    drawer = place.asked
    path = f"{place.origin}.above"
    wanted = round(drawer.above + RUB_MM - (box.above_mm - box.moves.most_mm) + 0.5)
    return Finding(
        code="drawer.swells", severity=Severity.STOP if box.above_mm < box.moves.most_mm else Severity.WEIGH,
        origin=path, at=f"drawer {place.number}",
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
                   (Change(f"{place.origin}.cut", drawer.cut, "quarter"),)),
        ),
    )  # fmt: skip
