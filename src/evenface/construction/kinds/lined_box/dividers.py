"""Dividers: housed in the walls or loose, halved over each other where they cross."""

from dataclasses import dataclass, replace
from typing import Final

from evenface.construction.gathering import Heap, Standing
from evenface.construction.ground import Ground
from evenface.construction.kinds.lined_box.records import TO_REAR, DividersAsked, LinedBox
from evenface.construction.kinds.lined_box.sizes import (
    GROOVE_LOOSE_MM,
    BoxSizes,
    divided,
    divider_thickness,
)
from evenface.construction.placed import Axis, Board, Gap, Joint, Placement, Worked
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.piece.records import Hold, Side
from evenface.words import said

APART_MM: Final = 120.0
LEAST_CLEAR_MM: Final = 5.0


@dataclass(frozen=True, slots=True)
class Row:
    """Dividers of one way with their places: lower sides across the way, thickness, height."""

    asked: DividersAsked
    thick_mm: float
    high_mm: float
    places: tuple[float, ...]

    @property
    def to_rear(self) -> bool:
        return self.asked.way == TO_REAR

    def key(self, number: int) -> str:
        return f"divider {self.asked.way} {number + 1}"


def lay_dividers(box: LinedBox, sizes: BoxSizes, ground: Ground, heap: Heap) -> tuple[Finding, ...]:
    """Dividers on the heap with their housings and halvings; what leaves no room is told instead."""
    rows, told = [], []
    for asked in box.dividers:
        thick = divider_thickness(asked, ground)
        clear = divided(asked, sizes, thick)
        high = sizes.inside[2] - asked.below
        if min(*clear, high) < LEAST_CLEAR_MM:
            told.append(_no_room(asked, min(*clear, high)))
        if min(*clear, high) <= 0.0:
            continue
        at, places = sizes.start[0 if asked.way == TO_REAR else 1], []
        for width in clear[:-1]:
            at += width
            places.append(at)
            at += thick
        rows.append(Row(asked, thick, high, tuple(places)))
    for row in rows:
        for number, place in enumerate(row.places):
            heap.standing.append(_divider(row, sizes, number, place))
            _ends(row, sizes, heap, number, place)
    if len(rows) == 2:
        _halve(rows[0], rows[1], sizes, heap)
    return tuple(told)


def _no_room(asked: DividersAsked, least: float) -> Finding:
    return Finding(
        code="box.compartment", severity=Severity.STOP, origin=f"{asked.origin}.count", at=f"dividers {asked.way}",
        value=certain(least), limit=LEAST_CLEAR_MM, unit="mm",
        message=said("The dividers leave {least:mm} clear, or are only so high.", least=least),
        source="sum of the sizes",
        remedies=(
            Remedy("box.fewer_dividers", said("Take fewer or thinner dividers, or leave clear widths open.")),
        ),
    )  # fmt: skip


def _reach(row: Row, sizes: BoxSizes) -> tuple[float, float]:
    """Where a divider begins and ends along its own length."""
    way = 1 if row.to_rear else 0
    more = row.asked.depth - row.asked.play
    start = sizes.start[way]
    return start - more, start + sizes.inside[way] + more


def _divider(row: Row, sizes: BoxSizes, number: int, place: float) -> Standing:
    asked, (start, end), z = row.asked, _reach(row, sizes), sizes.start[2]
    at = (place, start, z) if row.to_rear else (start, place + row.thick_mm, z)
    axis = Axis.REAR if row.to_rear else Axis.RIGHT
    key = row.key(number)
    lift = APART_MM if row.to_rear else 2 * APART_MM
    placement = Placement(key, at, axis, Axis.UP, (0.0, 0.0, lift), f"divider {asked.way}", sunk=True)
    base, size = f"divider {asked.way}", (end - start, row.high_mm)
    if asked.panel is not None:
        panel = replace(
            asked.panel, length_mm=size[0], width_mm=size[1],
            edges=tuple(edge for edge in asked.panel.edges if edge.side is Side.REAR),
            hold=Hold("groove" if asked.held == "housed" else "free", 0, asked.origin), origin=asked.origin,
        )  # fmt: skip
        return Standing(key, base, panel, placement, row.thick_mm, row.thick_mm / 2, which=str(number + 1))
    reason = (
        said(
            "Length: {inside:mm2} inside and twice {deep:mm2} in the housing, less twice {play:mm2} of air.",
            inside=sizes.inside[1 if row.to_rear else 0], deep=asked.depth, play=asked.play,
        ) if asked.held == "housed" else
        said(
            "Length: {inside:mm2} inside less twice {play:mm2} of air.",
            inside=sizes.inside[1 if row.to_rear else 0], play=asked.play,
        )
    )  # fmt: skip
    board = Board(
        "",
        1,
        asked.wood,
        size[0],
        size[1],
        row.thick_mm,
        asked.cut,
        "divider",
        reasons=(reason,),
        origin=asked.origin,
    )
    return Standing(key, base, board, placement, row.thick_mm, row.thick_mm / 2, which=str(number + 1))


def _ends(row: Row, sizes: BoxSizes, heap: Heap, number: int, place: float) -> None:
    """The housing in both walls, or the air at both ends of a loose divider."""
    asked, key, way = row.asked, row.key(number), 1 if row.to_rear else 0
    walls = ("front", "rear") if row.to_rear else ("left", "right")
    (_, _, z), top = sizes.start, sizes.start[2] + row.high_mm
    for wall, face in zip(
        walls, (sizes.start[way], sizes.start[way] + sizes.inside[way]), strict=True
    ):  # the plane of the lining
        axis = (
            (Axis.FRONT, Axis.REAR)[wall == "rear"]
            if row.to_rear
            else (Axis.LEFT, Axis.RIGHT)[wall == "right"]
        )
        heap.gaps.append(
            Gap(
                f"{key}, {wall}", axis, asked.play, (key, wall),
                why=said("So that a divider goes in without force."), origin=f"{asked.origin}.play",
            )
        )  # fmt: skip
        if asked.held != "housed":
            continue
        middle = place + row.thick_mm / 2
        foot = (middle, face, z) if row.to_rear else (face, middle, z)
        heap.joints.append(
            Joint(
                "housing", (wall, key), foot, (foot[0], foot[1], top), enters_mm=asked.depth - asked.play,
                glued=False, name=f"{key}, {wall}", origin=asked.origin,
                deduction=said(
                    "Housed: {deep:mm2} longer at this end than the clear size.", deep=asked.depth - asked.play
                ),
            )
        )  # fmt: skip
        heap.worked.append(_housing(row, sizes, heap.of(wall), wall, place))


def _housing(row: Row, sizes: BoxSizes, wall: Standing, name: str, place: float) -> Worked:
    asked, half = row.asked, GROOVE_LOOSE_MM / 2
    ends = []
    for at in (place - half, place + row.thick_mm + half):
        point = (at, 0.0, 0.0) if row.to_rear else (0.0, at, 0.0)
        ends.append(round(wall.local(point)[0], 6))
    x0, x1 = sorted(ends)
    z0, z1 = sizes.start[2], sizes.start[2] + row.high_mm
    stopped = asked.below > 0.0
    return Worked(
        name, "housing", "top", asked.depth, x0, z0, x1, z1, joint="divider",
        said=said(
            "Housing {wide:mm2} wide and {deep:mm2} deep from the lining, {x0:mm2} to {x1:mm2} from the left end seen "
            "on the lined face, from the bottom's groove {up}.",
            wide=x1 - x0, deep=asked.depth, x0=x0, x1=x1,
            up=said(
                "to {top:mm2} above the lower edge, its end squared: the divider goes in as the box is put together",
                top=z1,
            ) if stopped else said("out at the upper edge"),
        ), origin=asked.origin,
    )  # fmt: skip


def _halve(one: Row, other: Row, sizes: BoxSizes, heap: Heap) -> None:
    """Dividers from front to rear are slotted from above, those from left to right from below."""
    rear, right = (one, other) if one.to_rear else (other, one)
    split = min(rear.high_mm, right.high_mm) / 2
    for below, above, edge, deep in (
        (rear, right, "rear", rear.high_mm - split + GROOVE_LOOSE_MM),
        (right, rear, "front", split + GROOVE_LOOSE_MM),
    ):
        start, _ = _reach(below, sizes)
        for number in range(len(below.places)):
            for at in above.places:
                x0 = at - start - GROOVE_LOOSE_MM / 2
                x1 = x0 + above.thick_mm + GROOVE_LOOSE_MM
                heap.worked.append(_halving(below, above, number, edge, deep, (x0, x1)))
    for a in range(len(rear.places)):
        for b in range(len(right.places)):
            x, y, z = rear.places[a] + rear.thick_mm / 2, right.places[b] + right.thick_mm / 2, sizes.start[2]
            heap.joints.append(
                Joint(
                    "halving", (rear.key(a), right.key(b)), (x, y, z), (x, y, z + min(rear.high_mm, right.high_mm)),
                    enters_mm=split, glued=False, moves=right.asked.held == "loose",
                    name=f"crossing {a + 1}.{b + 1}", origin=right.asked.origin,
                )
            )  # fmt: skip


def _halving(row: Row, crossing: Row, number: int, edge: str, deep: float, x: tuple[float, float]) -> Worked:
    return Worked(
        row.key(number), "halving", edge, deep, x[0], 0.0, x[1], row.thick_mm, joint="crossing",
        said=said(
            "Slot {wide:mm2} wide and {deep:mm2} deep from the {edge:word} edge for the divider {way:word}, "
            "{x0:mm2} to {x1:mm2} from the {end:word} end.",
            wide=x[1] - x[0], deep=deep, edge="upper" if edge == "rear" else "lower", way=crossing.asked.way,
            x0=x[0], x1=x[1], end="front" if row.to_rear else "left",
        ), origin=row.asked.origin,
    )  # fmt: skip
