"""Rows of sizes of a lined box that close in all three directions, and the air left in it."""

from collections.abc import Iterator

from evenface.construction.ground import Ground
from evenface.construction.kinds.lined_box.records import FRONT, SIDES, TO_REAR, DividersAsked, LinedBox
from evenface.construction.kinds.lined_box.sizes import BoxSizes, divided, divider_thickness
from evenface.construction.placed import Axis, Chain, Gap
from evenface.words import said

type Members = tuple[tuple[str, float], ...]


def rows_of(box: LinedBox, sizes: BoxSizes, ground: Ground) -> Iterator[Chain]:
    """Width, depth and height through the inside, through walls, bottom and joint, and along the linings."""
    for way, axis, name in ((0, Axis.RIGHT, "width"), (1, Axis.REAR, "depth")):
        wood = sizes.side_mm if way == 0 else sizes.front_mm
        total, enters = sizes.outside[way], sizes.enters_mm[way]
        wall: Members = (("wall", wood + sizes.lining_mm),)
        one = next((one for one in box.dividers if (one.way == TO_REAR) is (way == 0)), None)
        yield Chain(f"{name}, inside", axis, (*wall, *_room(one, sizes, ground, way), *wall), total)
        yield Chain(
            f"{name}, through the bottom",
            axis,
            (("wood", wood - enters), ("bottom", sizes.bottom_size[way]), ("wood", wood - enters)),
            total,
        )
        layers: Members = (("wood", wood), ("lining", sizes.lining_mm))
        yield Chain(
            f"{name}, through the walls",
            axis,
            (*layers, ("inside", sizes.inside[way]), *reversed(layers)),
            total,
        )
    yield from _upright(box, sizes)
    yield from _linings(sizes)


def _linings(sizes: BoxSizes) -> Iterator[Chain]:
    """What of each lining is left on its face: the inside, and what runs past it into the corner."""
    for pair, axis, way in ((FRONT, Axis.RIGHT, 0), (SIDES, Axis.REAR, 1)):
        long = sizes.length_mm(pair) - 2 * sizes.cleared[pair].face_mm
        past = (long - sizes.inside[way]) / 2
        members: Members = (("inside", sizes.inside[way]),)
        if past > 1e-9:
            members = (("behind the other lining", past), *members, ("behind the other lining", past))
        elif past < -1e-9:
            members = (("inside", sizes.inside[way]), ("air", past), ("air", past))
        yield Chain(
            f"lining of {'front and rear' if pair == FRONT else 'left and right'}", axis, members, long
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
