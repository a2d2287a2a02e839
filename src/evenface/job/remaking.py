"""Parts struck as spoiled in the made file: from which rest, rack or bought sheet each layer is made again."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from evenface.job.opening import Opened
from evenface.layouts import Blank, Demand, Layout
from evenface.layouts.remaking import Remaking, remake
from evenface.parts import LayerSizes, Part
from evenface.piece.records import Spoiled
from evenface.result import Sketch
from evenface.units import grid_up


def remakings(
    drafted: Sketch, opened: Opened, demands: Sequence[Demand], layouts: Sequence[Layout]
) -> tuple[Remaking, ...]:
    """One answer a material, for everything spoiled; none of what is cut already is moved.

    A layer that is cut and locked is no longer in the demand: it is asked for by the size it was cut to.
    A piece of a run or bundle is made again with its whole blank.
    """
    wanted: dict[str, dict[str, int]] = defaultdict(dict)
    by_material = {demand.material: demand for demand in demands}
    for one in opened.made.spoiled:
        for part in drafted.all_parts:
            layer = part.layer(one.role, one.side)
            if (part.piece, part.name) != (one.piece, one.panel) or layer is None:
                continue
            material = _demand_of(by_material, part, layer, one)
            if material is None:
                continue
            for blank in _blanks(by_material[material], part, layer, one):
                wanted[material][blank.id] = min(one.count, blank.count)
    plans = {layout.material: layout for layout in layouts}
    return tuple(
        remake(by_material[material], plans[material], spoiled)
        for material, spoiled in wanted.items()
        if spoiled and material in plans
    )


def _demand_of(demands: dict[str, Demand], part: Part, layer: LayerSizes, one: Spoiled) -> str | None:
    """The material whose demand holds this layer, the blank of a locked one put in; None where nobody sells it."""
    for name, demand in demands.items():
        if _blanks(demand, part, layer, one):
            return name
    if layer.material not in demands or not layer.locked:
        return None
    length, width = grid_up(layer.cut_mm[0]), grid_up(layer.cut_mm[1])
    if layer.direction_deg % 180 == 90:
        length, width = width, length
    again = Blank(f"{part.id} {layer.role.value}", part.id, layer.role.value, length, width, part.count)
    own = demands[layer.material]
    demands[layer.material] = replace(own, blanks=(*own.blanks, again))
    return layer.material


def _blanks(demand: Demand, part: Part, layer: LayerSizes, one: Spoiled) -> list[Blank]:
    side = f" {one.side.value} " if one.side is not None else ""
    of_wood = demand.section.wood if demand.section is not None else demand.material
    if of_wood != layer.material:
        return []
    own = [
        blank
        for blank in demand.blanks
        if blank.part == part.id and blank.layer == layer.role.value and side in blank.id
    ]
    return own or [
        blank
        for blank in demand.blanks
        if any((inside.part, inside.layer) == (part.id, layer.role.value) for inside in blank.inside)
    ]
