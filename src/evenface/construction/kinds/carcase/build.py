"""A carcase built: shell, doors and drawers, joints, rows that close, fittings."""

from math import ceil
from typing import Final

from evenface.construction.gathering import Heap, gathered
from evenface.construction.ground import Ground
from evenface.construction.kinds.carcase.drawers import build_drawer
from evenface.construction.kinds.carcase.fronts import fronts_of, ordered_for_runs
from evenface.construction.kinds.carcase.hanging import hang_door
from evenface.construction.kinds.carcase.joints import join_shell
from evenface.construction.kinds.carcase.records import Carcase
from evenface.construction.kinds.carcase.room import room_of
from evenface.construction.kinds.carcase.rows import front_gaps, rows_of
from evenface.construction.kinds.carcase.shell import Laying, shell
from evenface.construction.placed import Assembly, Fitting
from evenface.words import said

LEG_EVERY_MM: Final = 900.0
WALL_EVERY_MM: Final = 400.0
"""COMMON PRACTICE: legs in pairs, and wall screws, at most so far apart."""


def build(carcase: Carcase, ground: Ground) -> Assembly:
    """The whole piece. Where its sizes leave no room, only the findings that say so."""
    room = room_of(carcase, ground)
    width, height, depth = carcase.size_mm
    outside = (width, depth, height)
    if any(one.code == "carcase.no_room" for one in room.troubles):
        return Assembly(panels=(), findings=room.troubles, size_mm=outside)
    laying = Laying(carcase, room, ground)
    heap = Heap(findings=list(room.troubles))
    heap.standing += shell(laying)
    join_shell(laying, heap)
    fronts, small = fronts_of(laying)
    heap.findings += small
    for front in fronts:
        if front.hinge:
            hang_door(laying, heap, front)
        else:
            build_drawer(laying, heap, front)
    ordered_for_runs(heap)
    front_gaps(laying, fronts, heap)
    heap.chains[:0] = rows_of(laying, fronts, heap)
    heap.fittings += _standing(carcase)
    return gathered(heap, outside)


def _standing(carcase: Carcase) -> list[Fitting]:
    """What it stands or hangs on."""
    width = carcase.size_mm[0]
    found = []
    if carcase.legs_mm:
        count = 2 * (1 + max(1, ceil(width / LEG_EVERY_MM)))
        found.append(
            Fitting(
                "leg", count, said("{height:mm}, adjustable", height=carcase.legs_mm), ("bottom",),
                why=said("In pairs, at most {every:mm} apart.", every=LEG_EVERY_MM), origin=f"{carcase.origin}.legs",
            )
        )  # fmt: skip
    if carcase.hanging_rail is not None:
        found.append(
            Fitting(
                "wall screw", max(2, ceil(width / WALL_EVERY_MM)), said("to suit the wall"), ("hanging rail",),
                why=said("Through the hanging rail, at most {every:mm} apart; the wall decides the plug.",
                         every=WALL_EVERY_MM), origin=f"{carcase.origin}.hanging_rail",
            )
        )  # fmt: skip
    return found
