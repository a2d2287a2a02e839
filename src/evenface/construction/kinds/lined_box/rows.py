"""Rows of sizes of a lined box that close in all three directions, and the air left in it."""

from collections.abc import Iterator

from evenface.construction.ground import Ground
from evenface.construction.kinds.lined_box.records import FRONT, TO_REAR, DividersAsked, LinedBox
from evenface.construction.kinds.lined_box.sizes import BoxSizes, divided, divider_thickness
from evenface.construction.placed import Axis, Chain, Gap
from evenface.words import said

type Members = tuple[tuple[str, float], ...]


def rows_of(box: LinedBox, sizes: BoxSizes, ground: Ground) -> Iterator[Chain]:
    """Width, depth and height through the inside, through bottom and joint, and along the linings."""
    ways = {one.way: one for one in box.dividers}
    for way, axis, name in ((0, Axis.RIGHT, "width"), (1, Axis.REAR, "depth")):
        wood = sizes.side_mm if way == 0 else sizes.front_mm
        total = sizes.outside[way]
        wall: Members = (("wood", wood), ("lining", sizes.lining_mm))
        one = ways.get(TO_REAR) if way == 0 else next((d for d in box.dividers if d.way != TO_REAR), None)
        yield Chain(f"{name}, inside", axis, (*wall, *_room(one, sizes, ground, way), *reversed(wall)), total)
        enters = sizes.enters_mm[way]
        yield Chain(
            f"{name}, through the bottom",
            axis,
            (("wood", wood - enters), ("bottom", sizes.bottom_size[way]), ("wood", wood - enters)),
            total,
        )
    yield from _upright(box, sizes)
    for pair, axis, name in ((FRONT, Axis.RIGHT, "front and rear"), ("sides", Axis.REAR, "left and right")):
        cleared, length = sizes.cleared[pair].face_mm, sizes.length_mm(pair)
        yield Chain(
            f"lining of {name}, on its face",
            axis,
            (("cleared", cleared), ("lining", length - 2 * cleared), ("cleared", cleared)),
            length,
        )


def _room(one: DividersAsked | None, sizes: BoxSizes, ground: Ground, way: int) -> Members:
    if one is None:
        return (("clear", sizes.inside[way]),)
    thick = divider_thickness(one, ground)
    clear = divided(one, sizes, thick)
    if min(clear) <= 0.0:
        return (("clear", sizes.inside[way]),)
    row: list[tuple[str, float]] = []
    for number, width in enumerate(clear):
        row += [("divider", thick)] * (number > 0) + [("clear", width)]
    return tuple(row)


def _upright(box: LinedBox, sizes: BoxSizes) -> Iterator[Chain]:
    height = sizes.outside[2]
    below: Members = (("below the bottom", sizes.up_mm), ("bottom", sizes.bottom_mm))
    yield Chain("height, inside", Axis.UP, (*below, ("clear", sizes.inside[2])), height)
    for one in box.dividers:
        if 0.0 < one.below < sizes.inside[2]:
            row = (*below, ("divider", sizes.inside[2] - one.below), ("air", one.below))
            yield Chain(f"height, divider {one.way}", Axis.UP, row, height)
    fingers = tuple((f"finger {finger.owner}", finger.width_mm) for finger in sizes.joint.fingers)
    yield Chain("height, corner joint", Axis.UP, fingers, height)


def gaps_of(box: LinedBox, sizes: BoxSizes) -> Iterator[Gap]:
    """Air round the bottom in its groove, as drawn and through the year."""
    why = said("So that the bottom can grow and does not press the corners open.")
    for way, names, axis in ((0, ("left", "right"), Axis.RIGHT), (1, ("front", "rear"), Axis.REAR)):
        air, moves = box.bottom.groove - sizes.enters_mm[way], sizes.bottom_moves[way]
        for name in names:
            yield Gap(
                f"bottom, {name}", axis, air, (name, "bottom"), air - moves.most_mm / 2, air - moves.least_mm / 2,
                why, f"{box.origin}.bottom.play",
            )  # fmt: skip
