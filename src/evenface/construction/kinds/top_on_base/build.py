"""A top on a base built: the top, legs, aprons and bearers in their places, rows that close."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from evenface.construction.gathering import Heap, Standing, gathered
from evenface.construction.ground import Ground
from evenface.construction.kinds.top_on_base.fixings import fix_top, fixing_points
from evenface.construction.kinds.top_on_base.joints import join_base
from evenface.construction.kinds.top_on_base.records import Apron, Legs, TopOnBase
from evenface.construction.kinds.top_on_base.sizes import (
    BaseSizes,
    base_sizes,
    bearer_height_mm,
    bearer_places,
    stub_mm,
    support_places,
    tenon_of,
    troubles_of,
)
from evenface.construction.placed import Assembly, Axis, Board, Chain, Given, Placement
from evenface.piece.records import Hold, Side
from evenface.words import Said, said

APART_MM: Final = 160.0


def build(piece: TopOnBase, ground: Ground) -> Assembly:
    """The whole piece. Where its sizes leave no room, only the findings that say so."""
    width, height, depth = piece.size_mm
    outside = (width, depth, height)
    sizes = base_sizes(piece, ground)
    troubles = troubles_of(piece, sizes)
    if troubles:
        return Assembly(panels=(), findings=troubles, size_mm=outside)
    heap = Heap()
    heap.standing.append(_top(piece, ground, sizes))
    if piece.legs is not None and piece.apron is not None:
        heap.standing += _legs(piece, piece.legs, sizes)
        heap.standing += _aprons(piece, piece.legs, piece.apron, sizes)
        heap.standing += _bearers(piece, piece.apron, sizes)
        join_base(piece, sizes, heap)
    else:
        heap.given += _supports(piece, sizes)
    fix_top(piece, ground, sizes, heap)
    heap.chains += _rows(piece, sizes, heap)
    return gathered(heap, outside)


def _top(piece: TopOnBase, ground: Ground, sizes: BaseSizes) -> Standing:
    thick = ground.sizes_of(piece.top.buildup)
    base = piece.apron
    inside = base.back + base.thickness / 2 if base else 0.0
    loose = piece.supports is not None and not piece.supports.screwed
    hold = Hold(
        "free" if loose else "screwed", 0 if loose else len(fixing_points(piece, sizes)), f"{piece.origin}.fixing",
        {side: over + inside for side, over in piece.overhang.items()},
    )  # fmt: skip
    placement = Placement("top", (0.0, 0.0, sizes.legs_mm), apart=(0.0, 0.0, 1.5 * APART_MM))
    return Standing(
        "top", "top", replace(piece.top, hold=hold), placement, thick.thickness_mm,
        thick.carrier_z0_mm + thick.carrier_mm / 2,
    )  # fmt: skip


def _legs(piece: TopOnBase, legs: Legs, sizes: BaseSizes) -> Iterator[Standing]:
    """Each is the one before it turned by a quarter, so that legs alike in all their mortises are one line."""
    (x0, x1), (y0, y1), (wide, deep) = sizes.x, sizes.y, legs.size
    reason = said(
        "Length {length:mm}: height {height:mm} less the top of {top:mm2}.",
        length=sizes.legs_mm, height=piece.size_mm[1], top=sizes.top_mm,
    )  # fmt: skip
    for key, at, y_axis, size in (
        ("front left", (x0, y0, 0.0), Axis.RIGHT, (wide, deep)),
        ("front right", (x1, y0, 0.0), Axis.REAR, (deep, wide)),
        ("rear right", (x1, y1, 0.0), Axis.LEFT, (wide, deep)),
        ("rear left", (x0, y1, 0.0), Axis.FRONT, (deep, wide)),
    ):
        apart = (
            APART_MM if "right" in key else -APART_MM,
            APART_MM if "rear" in key else -APART_MM,
            0.0,
        )
        board = Board(
            "leg", 1, legs.wood, sizes.legs_mm, *size, legs.cut, "leg", reasons=(reason,),
            origin=f"{piece.origin}.legs",
        )  # fmt: skip
        placement = Placement(f"leg {key}", at, Axis.UP, y_axis, apart, key)
        yield Standing(f"leg {key}", "leg", board, placement, size[1], size[1] / 2, which=key)


def apron_length_mm(legs: Legs, apron: Apron, sizes: BaseSizes, side: Side) -> float:
    """Between its shoulders and with its tenons. [mm]"""
    return sizes.clear[0 if side.runs_along_length else 1] + 2 * _enters(legs, apron, side)


def _enters(legs: Legs, apron: Apron, side: Side) -> float:
    return tenon_of(legs, apron, side).length if apron.joint.kind == "mortise and tenon" else 0.0


def _aprons(piece: TopOnBase, legs: Legs, apron: Apron, sizes: BaseSizes) -> Iterator[Standing]:
    for side in Side:
        height = apron.height_at(side)
        enters = _enters(legs, apron, side)
        length = apron_length_mm(legs, apron, sizes, side)
        board = Board(
            f"{side.value} apron", 1, apron.wood, length, height, apron.thickness, apron.cut, "apron",
            reasons=(_apron_reason(sizes, side, length, enters),), origin=f"{piece.origin}.apron",
        )  # fmt: skip
        base = "long apron" if side.runs_along_length else "end apron"
        key = f"{side.value} apron"
        yield Standing(
            key, base, board, _apron_place(legs, apron, sizes, side, enters), apron.thickness,
            apron.thickness / 2, which=side.value,
        )  # fmt: skip


def _apron_reason(sizes: BaseSizes, side: Side, length: float, enters: float) -> Said:
    clear = sizes.clear[0 if side.runs_along_length else 1]
    if not enters:
        return said("Length {length:mm} between the legs.", length=length)
    return said(
        "Length {length:mm}: {clear:mm} between the legs and {enters:mm} of tenon at each end.",
        length=length, clear=clear, enters=enters,
    )  # fmt: skip


def _apron_place(legs: Legs, apron: Apron, sizes: BaseSizes, side: Side, enters: float) -> Placement:
    """Show face outwards, lower edge at y = 0."""
    _, inner = sizes.apron_line(side, apron)
    low = sizes.legs_mm - apron.height_at(side)
    x0, x1 = sizes.x[0] + legs.size[0] - enters, sizes.x[1] - legs.size[0] + enters
    y0, y1 = sizes.y[0] + legs.size[1] - enters, sizes.y[1] - legs.size[1] + enters
    at, axis, apart = {
        Side.FRONT: ((x0, inner, low), Axis.RIGHT, (0.0, -APART_MM, 0.0)),
        Side.REAR: ((x1, inner, low), Axis.LEFT, (0.0, APART_MM, 0.0)),
        Side.LEFT: ((inner, y1, low), Axis.FRONT, (-APART_MM, 0.0, 0.0)),
        Side.RIGHT: ((inner, y0, low), Axis.REAR, (APART_MM, 0.0, 0.0)),
    }[side]
    return Placement(f"{side.value} apron", at, axis, Axis.UP, apart, side.value, enters > 0)


def _bearers(piece: TopOnBase, apron: Apron, sizes: BaseSizes) -> Iterator[Standing]:
    if piece.legs is None:
        return
    stub = stub_mm(apron)
    front, rear = sizes.apron_line(Side.FRONT, apron)[1], sizes.apron_line(Side.REAR, apron)[1]
    length, height = rear - front + 2 * stub, bearer_height_mm(apron)
    for number, x in enumerate(bearer_places(apron, piece.legs, sizes), start=1):
        key = f"bearer {number}"
        board = Board(
            "bearer", 1, apron.wood, length, height, apron.thickness, apron.cut, "bearer",
            reasons=(
                said(
                    "Length {length:mm}: {clear:mm} between the aprons and {stub:mm} of stub tenon at each end.",
                    length=length, clear=rear - front, stub=stub,
                ),
            ), origin=f"{piece.origin}.apron.bearers",
        )  # fmt: skip
        placement = Placement(
            key, (x, front - stub, sizes.legs_mm - height), Axis.REAR, Axis.UP, (0.0, 0.0, -APART_MM),
            f"{number} from the left", True,
        )  # fmt: skip
        yield Standing(
            key, "bearer", board, placement, apron.thickness, apron.thickness / 2, which=str(number)
        )


def _rows(piece: TopOnBase, sizes: BaseSizes, heap: Heap) -> Iterator[Chain]:
    """Rows from the parts as they were built, against the outside."""
    width, height, depth = piece.size_mm
    over = piece.overhang
    yield Chain("width of the top", Axis.RIGHT, (("top", heap.of("top").part.length_mm),), width)
    yield Chain("depth of the top", Axis.REAR, (("top", heap.of("top").part.width_mm),), depth)
    if piece.legs is None or piece.apron is None:
        yield from _rows_of_supports(piece, sizes)
        return
    legs, apron = piece.legs, piece.apron
    for side, axis, ends, leg, total in (
        (Side.FRONT, Axis.RIGHT, (Side.LEFT, Side.RIGHT), legs.size[0], width),
        (Side.REAR, Axis.RIGHT, (Side.LEFT, Side.RIGHT), legs.size[0], width),
        (Side.LEFT, Axis.REAR, (Side.FRONT, Side.REAR), legs.size[1], depth),
        (Side.RIGHT, Axis.REAR, (Side.FRONT, Side.REAR), legs.size[1], depth),
    ):
        key = f"{side.value} apron"
        seen = heap.of(key).part.length_mm - 2 * _enters(legs, apron, side)
        yield Chain(
            f"{'width' if axis is Axis.RIGHT else 'depth'} at the {key}", axis, (
                ("overhang", over[ends[0]]), ("leg", leg), (f"{key} between shoulders", seen), ("leg", leg),
                ("overhang", over[ends[1]]),
            ), total,
        )  # fmt: skip
        board = heap.of(key).part.width_mm
        yield Chain(
            f"height at the {key}", Axis.UP,
            (("clear below", sizes.legs_mm - board), (key, board), ("top", sizes.top_mm)), height,
        )  # fmt: skip
    yield Chain("height at a leg", Axis.UP, (("leg", sizes.legs_mm), ("top", sizes.top_mm)), height)
    yield from _rows_of_bearers(piece, legs, apron, sizes, heap)


def _rows_of_bearers(
    piece: TopOnBase, legs: Legs, apron: Apron, sizes: BaseSizes, heap: Heap
) -> Iterator[Chain]:
    over, (width, _, depth) = piece.overhang, piece.size_mm
    behind = apron.back + apron.thickness
    free = heap.of("bearer 1").part.length_mm - 2 * stub_mm(apron) if apron.bearers else None
    if free is None:
        return
    yield Chain(
        "depth at a bearer", Axis.REAR, (
            ("overhang", over[Side.FRONT]), ("back of the apron", apron.back), ("front apron", apron.thickness),
            ("bearer between shoulders", free), ("rear apron", apron.thickness),
            ("back of the apron", behind - apron.thickness), ("overhang", over[Side.REAR]),
        ), depth,
    )  # fmt: skip
    members = [("overhang", over[Side.LEFT]), ("leg", legs.size[0])]
    at = sizes.x[0] + legs.size[0]
    for number, x in enumerate(bearer_places(apron, legs, sizes), start=1):
        members += [("clear", x - at), (f"bearer {number}", apron.thickness)]
        at = x + apron.thickness
    members += [
        ("clear", sizes.x[1] - legs.size[0] - at),
        ("leg", legs.size[0]),
        ("overhang", over[Side.RIGHT]),
    ]
    yield Chain("width over the bearers", Axis.RIGHT, tuple(members), width)


def _supports(piece: TopOnBase, sizes: BaseSizes) -> Iterator[Given]:
    """What others make, so that drawings can show what the top lies on."""
    supports = piece.supports
    assert supports is not None
    for number, x in enumerate(support_places(piece, sizes), start=1):
        yield Given(
            f"{supports.what} {number}", (x, sizes.y[0], 0.0), (x + supports.width, sizes.y[1], sizes.legs_mm)
        )


def _rows_of_supports(piece: TopOnBase, sizes: BaseSizes) -> Iterator[Chain]:
    supports, over = piece.supports, piece.overhang
    assert supports is not None
    members: list[tuple[str, float]] = [("overhang", over[Side.LEFT])]
    at = sizes.x[0]
    for number, x in enumerate(support_places(piece, sizes), start=1):
        members += ([("clear", x - at)] if number > 1 else []) + [
            (f"{supports.what} {number}", supports.width)
        ]
        at = x + supports.width
    members.append(("overhang", over[Side.RIGHT]))
    yield Chain("width over the supports", Axis.RIGHT, tuple(members), piece.size_mm[0])
    yield Chain(
        "depth over the supports", Axis.REAR, (
            ("overhang", over[Side.FRONT]), (supports.what, sizes.y[1] - sizes.y[0]), ("overhang", over[Side.REAR]),
        ), piece.size_mm[2],
    )  # fmt: skip
    yield Chain(
        "height at a support", Axis.UP, ((supports.what, sizes.legs_mm), ("top", sizes.top_mm)), piece.size_mm[1]
    )  # fmt: skip
