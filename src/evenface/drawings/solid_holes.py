"""Holes drilled into the faces of a part: hinge cups, rows for shelves, holes for screws."""

from collections.abc import Iterator
from typing import Final

from shapely import Point, union_all

from evenface.construction import BuiltBoard, BuiltPanel, Construction
from evenface.drawings.solid_zones import Taken

LEAST_MM: Final = 4.0
"""Finer holes are not seen from where one looks at a piece."""
_ROUND: Final = 4
"""Straight strokes in a quarter of a hole."""
_OUT: Final = 0.5


def holes_of(construction: Construction, made: BuiltPanel | BuiltBoard) -> Iterator[Taken]:
    """What is drilled out of the faces of a part, holes of one depth together."""
    thickness = made.thickness_mm if isinstance(made, BuiltPanel) else made.board.over_mm
    for one in construction.arranged.worked:
        if one.part != made.name or not one.centres or one.face not in ("top", "bottom"):
            continue
        if one.diameter_mm < LEAST_MM or one.depth_mm <= 0.0:
            continue
        plan = union_all([Point(at).buffer(one.diameter_mm / 2, quad_segs=_ROUND) for at in one.centres])
        depth = min(one.depth_mm, thickness + _OUT)
        if one.face == "top":
            yield Taken(plan, thickness - depth, thickness + _OUT, quiet=True)
        else:
            yield Taken(plan, -_OUT, depth, quiet=True)
