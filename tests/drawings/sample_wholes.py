"""Whole pieces to draw: the examples of the house, and boxes of wood placed at will."""

from dataclasses import replace
from functools import cache
from pathlib import Path

from drawings.sample_panels import SHELF

from evenface.construction import Arranged, Axis, Board, BuiltBoard, Construction, Placement, construct
from evenface.construction.kinds import KINDS
from evenface.materials import load_catalogue
from evenface.piece import open_job
from evenface.piece.records import Piece

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("wall-cupboard", "drawer-pedestal", "notice-panel", "lined-tray", "glazing-desk", "desk-drawer")


@cache
def example(name: str) -> Construction:
    """The piece of an example of the house."""
    catalogue = load_catalogue(None)
    (construction,) = construct(open_job(EXAMPLES / f"{name}.toml", catalogue, KINDS), catalogue, KINDS)
    return construction


def of_boxes(boxes, size=None, apart=None, **arranged) -> Construction:
    """Boards called 1, 2, 3 …, each filling the box (low, high) given for it; grain from left to right."""
    boards, placements = [], []
    for number, (low, high) in enumerate(boxes, start=1):
        sizes = [b - a for a, b in zip(low, high, strict=True)]
        board = Board(str(number), 1, "ash", *sizes)
        boards.append(BuiltBoard("trial", board, SHELF.wood("ash"), 1))
        moved = apart[number - 1] if apart else (0.0, 0.0, 0.0)
        placements.append(Placement(str(number), tuple(low), apart=moved))
    if size is None:
        size = tuple(max(high[n] for _, high in boxes) for n in range(3))
    piece = Piece("trial", "carcase", 1, ())
    return Construction(
        piece, (), boards=tuple(boards), arranged=Arranged(tuple(placements), size_mm=size, **arranged)
    )


_MIRRORED = {Axis.LEFT: Axis.RIGHT, Axis.RIGHT: Axis.LEFT}


def mirrored(construction: Construction) -> Construction:
    """The same boxes with left and right changed; nothing is worked into them.

    A part keeps to a right hand: its width runs the other way, from the other corner.
    """
    made = {one.name: one for one in construction.panels} | {
        one.name: one.board for one in construction.boards
    }
    width = construction.arranged.size_mm[0]
    placements = []
    for one in construction.arranged.placements:
        x, y, z = one.point(0.0, made[one.part].width_mm, 0.0)
        back = next(axis for axis in Axis if all(a == -b for a, b in zip(axis.vector, one.y_axis.vector)))  # noqa: B905
        placements.append(
            replace(
                one,
                at=(width - x, y, z),
                x_axis=_MIRRORED.get(one.x_axis, one.x_axis),
                y_axis=_MIRRORED.get(back, back),
            )
        )
    arranged = replace(construction.arranged, placements=tuple(placements), worked=(), joints=(), chains=())
    return replace(construction, arranged=arranged)


def plain(construction: Construction) -> Construction:
    """The same piece with nothing worked into its parts and no rows of sizes."""
    return replace(construction, arranged=replace(construction.arranged, worked=(), joints=(), chains=()))
