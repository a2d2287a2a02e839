"""How far two openings keep clear of each other."""

from evenface.shape.outline import Outline
from evenface.shape.reserve import reserve_outside
from evenface.shape.ring import is_inside


def clear_mm(one: Outline, other: Outline) -> float:
    """Least board between two outlines; negative by how deep they overlap. [mm]

    Two that lie exactly over one another meet only along their borders; they overlap by half their width.
    """
    web = reserve_outside(one.outer, other.outer).reserve_mm
    if abs(web) < 1e-6 and is_inside(other.outer, one.moments.centroid):
        return -min(one.size) / 2
    return web
