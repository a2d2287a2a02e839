"""A lined box built: four walls, bottom, dividers, what is worked into them, rows of sizes that close."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from evenface.construction.gathering import Heap, Standing, gathered
from evenface.construction.ground import Ground
from evenface.construction.kinds.lined_box.dividers import lay_dividers
from evenface.construction.kinds.lined_box.records import FRONT, SIDES, LinedBox
from evenface.construction.kinds.lined_box.rows import gaps_of, rows_of
from evenface.construction.kinds.lined_box.sizes import LEAST_INSIDE_MM, BoxSizes, box_sizes
from evenface.construction.kinds.lined_box.walls_worked import worked_into
from evenface.construction.placed import Assembly, Axis, Board, Joint, Lining, Placement
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.piece.records import Hold
from evenface.words import NOTHING, Said, said

APART_MM: Final = 90.0
ORDER: Final = said(
    "In this order: plane, glue the lining on, trim it, cut to length, clear the lining from both ends, cut the slots, "
    "then groove and housings; put it together dry; glue the corners with the bottom and housed dividers in; plane "
    "the fingers level."
)


@dataclass(frozen=True, slots=True)
class Wall:
    """One wall by name, its pair, and where it stands; its lined face looks inwards, its length is level."""

    name: str
    pair: str
    x_axis: Axis
    apart: tuple[float, float, float]


WALLS: Final = (
    Wall("front", FRONT, Axis.LEFT, (0.0, -APART_MM, 0.0)),
    Wall("rear", FRONT, Axis.RIGHT, (0.0, APART_MM, 0.0)),
    Wall("left", SIDES, Axis.REAR, (-APART_MM, 0.0, 0.0)),
    Wall("right", SIDES, Axis.FRONT, (APART_MM, 0.0, 0.0)),
)


def build(box: LinedBox, ground: Ground) -> Assembly:
    """The whole piece. Where its sizes leave no room inside, only the finding that says so."""
    sizes = box_sizes(box, ground)
    if min(sizes.inside) < LEAST_INSIDE_MM:
        return Assembly(panels=(), findings=(_no_room(box, sizes),), size_mm=sizes.outside)
    heap = Heap()
    heap.standing += [_wall(box, sizes, wall) for wall in WALLS]
    heap.standing.append(_bottom(box, sizes, ground))
    for wall in WALLS:
        heap.worked += worked_into(box, sizes, wall.name, wall.pair)
    heap.joints += _corners(box, sizes)
    heap.joints += _seats(box, sizes)
    heap.findings += lay_dividers(box, sizes, ground, heap)
    heap.gaps += gaps_of(box, sizes)
    heap.chains += rows_of(box, sizes, ground)
    return gathered(heap, sizes.outside)


def _no_room(box: LinedBox, sizes: BoxSizes) -> Finding:
    least = min(sizes.inside)
    return Finding(
        code="box.no_room", severity=Severity.STOP, origin=f"{box.origin}.size", at="inside",
        value=certain(least), limit=LEAST_INSIDE_MM, unit="mm",
        message=said("Wood, lining and bottom leave {least:mm} inside one way; that is no box.", least=least),
        source="sum of the sizes",
        remedies=(Remedy("box.larger", said("Make the box larger, or its walls, lining or bottom thinner.")),),
    )  # fmt: skip


def _wall(box: LinedBox, sizes: BoxSizes, wall: Wall) -> Standing:
    width, depth, height = sizes.outside
    at = {
        "front": (width, 0.0, 0.0),
        "rear": (0.0, depth, 0.0),
        "left": (0.0, 0.0, 0.0),
        "right": (width, depth, 0.0),
    }[wall.name]
    thick, other = sizes.wood_mm(wall.pair), sizes.wood_mm(sizes.other(wall.pair))
    inside = sizes.inside[0 if wall.pair == FRONT else 1]
    board = Board(
        "", 1, box.walls.wood, sizes.length_mm(wall.pair), height, thick, box.walls.cut, "box side",
        reasons=(
            said(
                "Length over the whole outside: {inside:mm} inside, twice the lining's {lining:mm} and twice {wood:mm} "
                "of wood; the fingers reach through the other wall.",
                inside=inside, lining=sizes.lining_mm, wood=other,
            ),
            said(
                "Height {height:mm}: {inside:mm} inside, {bottom:mm} of bottom and {up:mm} below it.",
                height=height, inside=sizes.inside[2], bottom=sizes.bottom_mm, up=sizes.up_mm,
            ),
            ORDER,
        ), origin=f"{box.origin}.walls",
        lining=Lining(
            box.lining.facing, sizes.sheet_mm, box.lining.glue, sizes.line_mm, box.lining.direction,
            f"{box.origin}.lining",
        ),
    )  # fmt: skip
    placement = Placement(wall.name, at, wall.x_axis, Axis.UP, wall.apart, wall.name, sunk=True)
    return Standing(wall.name, "side", board, placement, board.over_mm, thick / 2, which=wall.name)


def _bottom(box: LinedBox, sizes: BoxSizes, ground: Ground) -> Standing:
    asked, (length, width) = box.bottom, sizes.bottom_size
    origin = f"{box.origin}.bottom"
    at = (sizes.side_mm - sizes.enters_mm[0], sizes.front_mm - sizes.enters_mm[1], sizes.up_mm)
    placement = Placement("bottom", at, apart=(0.0, 0.0, -APART_MM), sunk=True)
    if asked.panel is not None:
        panel = replace(
            asked.panel, length_mm=length, width_mm=width, edges=(), hold=Hold("groove", 0, origin), origin=origin
        )  # fmt: skip
        return Standing("bottom", "bottom", panel, placement, sizes.bottom_mm, sizes.bottom_mm / 2)
    board = Board(
        "", 1, asked.wood, length, width, sizes.bottom_mm, asked.cut, "bottom",
        reasons=(said("Grain from left to right; loose in its groove, so that it can grow in depth."),),
        origin=origin,
    )  # fmt: skip
    return Standing("bottom", "bottom", board, placement, sizes.bottom_mm, sizes.bottom_mm / 2)


def _corners(box: LinedBox, sizes: BoxSizes) -> Iterator[Joint]:
    """Four fingered corners; the wall with the lowest finger is named first."""
    width, depth, height = sizes.outside
    joint, starts = sizes.joint, box.fingers.starts
    area = (joint.number - 1) * sizes.front_mm * sizes.side_mm
    for front, y in (("front", 0.0), ("rear", depth)):
        for side, x in (("left", 0.0), ("right", width)):
            pair = (front, side) if starts == FRONT else (side, front)
            yield Joint(
                "fingers", pair, (x, y, 0.0), (x, y, height), enters_mm=max(sizes.front_mm, sizes.side_mm),
                number=joint.number, area_mm2=area, name=f"corner {front} {side}",
                deduction=said(
                    "Both run over the whole outside; fingers {front:mm} and {side:mm} long. {inside}",
                    front=sizes.side_mm, side=sizes.front_mm, inside=_in_the_corner(box),
                ), origin=f"{box.origin}.fingers",
            )  # fmt: skip


def _in_the_corner(box: LinedBox) -> Said:
    """How the two linings meet."""
    air = said(", {gap:mm2} short of it", gap=box.lining.gap) if box.lining.gap > 0.0 else NOTHING
    match box.lining.corner:
        case "front runs through":
            return said(
                "Inside, the lining of front and rear runs to the wood of the sides{air}; theirs stops against it.",
                air=air,
            )
        case "sides run through":
            return said(
                "Inside, the lining of the sides runs to the wood of front and rear{air}; theirs stops against it.",
                air=air,
            )
        case "mitred":
            return said("Inside, the two linings meet in a mitre at the wood{air}.", air=air)
    return said(
        "Inside, each lining stops before the face of the other{air}: wood shows between them.", air=air
    )


def _seats(box: LinedBox, sizes: BoxSizes) -> Iterator[Joint]:
    """The bottom in the groove of every wall."""
    (x0, y0, _), z = sizes.start, sizes.up_mm
    x1, y1 = sizes.outside[0] - x0, sizes.outside[1] - y0
    loose = box.bottom.panel is None
    for name, start, end, enters in (
        ("front", (x0, y0, z), (x1, y0, z), sizes.enters_mm[1]),
        ("rear", (x0, y1, z), (x1, y1, z), sizes.enters_mm[1]),
        ("left", (x0, y0, z), (x0, y1, z), sizes.enters_mm[0]),
        ("right", (x1, y0, z), (x1, y1, z), sizes.enters_mm[0]),
    ):
        yield Joint(
            "groove", (name, "bottom"), start, end, enters_mm=max(enters, 0.0) + sizes.lining_mm, glued=not loose,
            moves=loose, name=f"bottom, {name}",
            deduction=said(
                "{enters:mm2} in the wood at this edge, {lining:mm2} in the lining.",
                enters=enters, lining=sizes.lining_mm,
            ), origin=f"{box.origin}.bottom",
        )  # fmt: skip
