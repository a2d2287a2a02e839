"""A carcase built: shell, doors and drawers, joints, rows that close, fittings."""

from evenface.construction.gathering import Heap, gathered
from evenface.construction.ground import Ground
from evenface.construction.holes_meet import holes_meet
from evenface.construction.kinds.carcase.around import around, fix_around
from evenface.construction.kinds.carcase.drawers import build_drawer
from evenface.construction.kinds.carcase.fronts import fronts_of, ordered_for_runs
from evenface.construction.kinds.carcase.hanging import hang_door
from evenface.construction.kinds.carcase.joints import join_shell
from evenface.construction.kinds.carcase.records import Carcase
from evenface.construction.kinds.carcase.room import room_of
from evenface.construction.kinds.carcase.rows import front_gaps, rows_of
from evenface.construction.kinds.carcase.shell import Laying, shell
from evenface.construction.kinds.carcase.slips import slips
from evenface.construction.placed import Assembly


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
    heap.standing += around(laying)
    join_shell(laying, heap)
    heap.findings += slips(laying)
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
    fix_around(laying, heap)
    heap.findings += holes_meet(heap)
    return gathered(heap, outside)
