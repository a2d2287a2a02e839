"""Drawers of a carcase: the front in its opening, then the box behind it."""

from evenface.construction.drawers.build import build_box
from evenface.construction.drawers.records import DrawerPlace
from evenface.construction.gathering import Heap
from evenface.construction.kinds.carcase.fronts import Front, stand_front
from evenface.construction.kinds.carcase.shell import APART_MM, Laying
from evenface.construction.placed import HAIR_MM


def build_drawer(laying: Laying, heap: Heap, front: Front) -> None:
    """One drawer: its front, then its box."""
    heap.standing.append(stand_front(laying, front, 0))
    if laying.carcase.drawer is not None:
        build_box(_place_of(laying, front), heap)


def _place_of(laying: Laying, front: Front) -> DrawerPlace:
    carcase, room, cell = laying.carcase, laying.room, front.cell
    fronts, drawer = carcase.fronts, carcase.drawer
    assert fronts is not None
    assert drawer is not None
    thick = room.thick.drawer_front
    air = fronts.shy if fronts.inset else room.y[0] - fronts.stand_off - thick
    return DrawerPlace(
        number=front.number,
        asked=drawer,
        patterns=carcase.patterns,
        ground=laying.ground,
        inside=laying.inside,
        origin=f"{carcase.origin}.drawer",
        row_origin=cell.row.origin,
        x=cell.x,
        z=(max(cell.z[0], front.z[0]), min(cell.z[1], front.z[1])),
        begins_y=front.y[1],
        ends_y=room.back_y,
        ahead=(("air", air), ("drawer front", thick)),
        front_key=front.key,
        left=cell.left.part,
        right=cell.right.part,
        # what a side has over it: the line of its own front, where that ends before the opening does
        above=front.key if front.z[1] < cell.z[1] - HAIR_MM else cell.above.part or "outside",
        aside_mm=room.x[1] - room.x[0] + 2 * APART_MM,
    )
