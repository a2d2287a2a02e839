"""What stands under a carcase and beside it: plinth of panels or of solid wood, places of legs, scribe strips."""

from collections.abc import Iterator
from math import ceil
from typing import Final

from evenface.construction.fastenings import Joining, join
from evenface.construction.gathering import Heap, Standing, spread_over
from evenface.construction.kinds.carcase.records import Plinth
from evenface.construction.kinds.carcase.shell import APART_MM, Laying
from evenface.construction.placed import Axis, Board, Fitting, Given, Joint, Placement, Worked
from evenface.construction.standing_panels import board_standing
from evenface.piece.records import Hold, Side
from evenface.words import said

LEG_EVERY_MM: Final = 900.0
LEG_IN_MM: Final = 60.0
LEG_MM: Final = 40.0
WALL_EVERY_MM: Final = 400.0
"""COMMON PRACTICE: legs in pairs, and wall screws, at most so far apart; legs so far from the edges, and drawn so
thick."""
ENDS: Final = ("plinth end left", "plinth end right")
CARCASE_SCREW_MM: Final = 300.0


def around(laying: Laying) -> Iterator[Standing]:
    """Plinth and scribe strips."""
    if laying.carcase.plinth is not None:
        yield from _plinth(laying, laying.carcase.plinth)
    yield from scribe_of(laying)


def fix_around(laying: Laying, heap: Heap) -> None:
    """Joints of plinth, hanging rail and scribe strips, and what it stands or hangs on."""
    if laying.carcase.plinth is not None:
        _join_plinth(laying, heap)
    _join_rail(laying, heap)
    _join_scribe(laying, heap)
    if laying.carcase.legs_mm:
        _legs(laying, heap)


def plinth_mm(laying: Laying, plinth: Plinth) -> float:
    """Thickness of its parts."""
    if plinth.wood:
        return plinth.thickness
    return laying.ground.thickness_mm(laying.carcase.patterns["plinth"].buildup)


def _plinth(laying: Laying, plinth: Plinth) -> Iterator[Standing]:
    """A ring under the carcase: front and rear right across, ends between them."""
    room = laying.room
    thick = plinth_mm(laying, plinth)
    (x0, x1), front, rear = room.x, room.y[0] + plinth.setback, room.y[1]
    down = (0.0, 0.0, -2 * APART_MM)
    ends = max(rear - front - 2 * thick, 1.0)  # where that is nothing it is told among the slips
    for key, size, at, axis in (
        ("plinth front", x1 - x0, (x0, front + thick, 0.0), Axis.RIGHT),
        ("plinth rear", x1 - x0, (x1, rear - thick, 0.0), Axis.LEFT),
        (ENDS[0], ends, (x0 + thick, rear - thick, 0.0), Axis.FRONT),
        (ENDS[1], ends, (x1 - thick, front + thick, 0.0), Axis.REAR),
    ):
        base = "plinth end" if key in ENDS else key
        label = key.rpartition(" ")[2] if key in ENDS else ""
        placement = Placement(key, at, axis, Axis.UP, down, label)
        yield _plinth_part(laying, plinth, key, base, size, placement)


def _plinth_part(
    laying: Laying, plinth: Plinth, key: str, base: str, long: float, placement: Placement
) -> Standing:
    origin = f"{laying.carcase.origin}.plinth"
    if not plinth.wood:
        # front and rear run right across: their ends are seen from the sides
        edges = () if key in ENDS else (Side.LEFT, Side.RIGHT)
        return laying.stand(
            key, base, "plinth", (long, plinth.height), placement, edges, origin=origin,
            hold=Hold("screwed", 4, origin),
        )  # fmt: skip
    reason = said("Between front and rear of the plinth.") if key in ENDS else said("As wide as the carcase.")
    board = Board(
        base, 1, plinth.wood, long, plinth.height, plinth.thickness, plinth.cut, "plinth", reasons=(reason,),
        origin=origin
    )  # fmt: skip
    return board_standing(key, base, board, placement)


def _join_plinth(laying: Laying, heap: Heap) -> None:
    """Its corners dowelled, the carcase screwed to it from inside."""
    plinth = laying.carcase.plinth
    assert plinth is not None
    origin = f"{laying.carcase.origin}.plinth"
    dowels = Joining("dowel", every=max(plinth.height / 2, 1.0))
    for part, first in ((ENDS[0], "plinth rear"), (ENDS[1], "plinth front")):
        other = "plinth front" if first == "plinth rear" else "plinth rear"
        join(heap, dowels, first, part, Side.LEFT, origin)
        join(heap, dowels, other, part, Side.RIGHT, origin)
    heap.fittings.append(
        Fitting(
            "angle for the plinth", 2 * (1 + ceil((laying.room.x[1] - laying.room.x[0]) / CARCASE_SCREW_MM)),
            said("30 mm × 30 mm, with screws"), ("bottom", "plinth front", "plinth rear"),
            why=said("The carcase on its plinth, from inside, at most {every:mm} apart.", every=CARCASE_SCREW_MM),
            origin=origin,
        )
    )  # fmt: skip


def _join_rail(laying: Laying, heap: Heap) -> None:
    carcase = laying.carcase
    if carcase.hanging_rail is None:
        return
    origin = f"{carcase.origin}.hanging_rail"
    dowels = Joining("dowel", every=max(carcase.hanging_rail.height / 2, 1.0))
    join(heap, dowels, "left side", "hanging rail", Side.LEFT, origin)
    join(heap, dowels, "right side", "hanging rail", Side.RIGHT, origin)
    rail = heap.of("hanging rail")
    ends = [rail.point(x, rail.part.width_mm, rail.thickness_mm) for x in (0.0, rail.part.length_mm)]
    heap.joints.append(
        Joint(
            "butt", ("top", "hanging rail"), ends[0], ends[1], area_mm2=rail.part.length_mm * rail.thickness_mm,
            deduction=said("It lies under the top."), name="hanging rail under the top", origin=origin,
        )
    )  # fmt: skip
    heap.fittings.append(
        Fitting(
            "wall screw", max(2, ceil(carcase.size_mm[0] / WALL_EVERY_MM)), said("to suit the wall"), ("hanging rail",),
            why=said(
                "Through the hanging rail, at most {every:mm} apart; the wall decides the plug.", every=WALL_EVERY_MM
            ), origin=origin,
        )
    )  # fmt: skip


def _legs(laying: Laying, heap: Heap) -> None:
    """In pairs under the bottom, their middles marked on it."""
    carcase, (x0, x1), (y0, y1) = laying.carcase, laying.room.x, laying.room.y
    bottom = heap.of("bottom")
    inset = min(LEG_IN_MM, (y1 - y0) / 4)
    middles = [
        (x0 + x, y) for x in spread_over(x1 - x0, LEG_IN_MM, LEG_EVERY_MM) for y in (y0 + inset, y1 - inset)
    ]
    places = [bottom.local((x, y, laying.room.z[0])) for x, y in middles]
    half = LEG_MM / 2
    heap.given += [
        Given("leg", (x - half, y - half, 0.0), (x + half, y + half, carcase.legs_mm)) for x, y in middles
    ]
    origin = f"{carcase.origin}.legs"
    heap.worked.append(
        Worked(
            "bottom", "places of legs", "top", 0.0, centres=tuple((round(x, 6), round(y, 6)) for x, y, _ in places),
            number=len(places), joint="legs",
            said=said("Middles of {count:count} legs, on the underside of the carcase.", count=len(places)),
            origin=origin,
        )
    )  # fmt: skip
    heap.fittings.append(
        Fitting(
            "leg", len(places), said("{height:mm}, adjustable", height=carcase.legs_mm), ("bottom",),
            why=said("In pairs, at most {every:mm} apart.", every=LEG_EVERY_MM), origin=origin,
        )
    )  # fmt: skip


def scribe_of(laying: Laying) -> Iterator[Standing]:
    """Strips beside and above the carcase, their face with its front edges."""
    carcase, room = laying.carcase, laying.room
    scribe = carcase.scribe
    y = room.y[0] + scribe.thickness
    width, height = carcase.size_mm[0], room.z[1] - room.z[0]
    strips = (
        ("scribe left", scribe.left, height, (scribe.left, y, room.z[0]), Axis.UP, Axis.LEFT),
        ("scribe right", scribe.right, height, (width, y, room.z[0]), Axis.UP, Axis.LEFT),
        ("scribe above", scribe.top, width, (0.0, y, room.z[1]), Axis.RIGHT, Axis.UP),
    )
    for name, wide, long, at, x_axis, y_axis in strips:
        if wide <= 0.0:
            continue
        board = Board(
            name, 1, scribe.wood, long, wide, scribe.thickness, use="scribe strip",
            reasons=(
                said(
                    "Left {over:mm} wider than {wide:mm} until it is planed to the wall.",
                    over=scribe.over, wide=wide,
                ),
            ), origin=f"{carcase.origin}.scribe", wider_mm=scribe.over,
        )  # fmt: skip
        yield board_standing(name, name, board, Placement(name, at, x_axis, y_axis, (0.0, -APART_MM, 0.0)))


def _join_scribe(laying: Laying, heap: Heap) -> None:
    """Glued to the carcase at their rear edge, before they are planed to the wall."""
    origin = f"{laying.carcase.origin}.scribe"
    keys = {one.key for one in heap.standing}
    for key, part in (("scribe left", "left side"), ("scribe right", "right side"), ("scribe above", "top")):
        if key not in keys:
            continue
        strip = heap.of(key)
        ends = [strip.point(x, 0.0, strip.thickness_mm / 2) for x in (0.0, strip.part.length_mm)]
        heap.joints.append(
            Joint(
                "butt", (part, key), ends[0], ends[1], area_mm2=strip.part.length_mm * strip.thickness_mm,
                deduction=said("Beside the carcase: taken off its size."), name=key, origin=origin,
            )
        )  # fmt: skip
