"""Hollows for the fingers as steps of their true section: what a cutter leaves at each depth."""

from collections.abc import Iterator
from itertools import pairwise
from math import cos, pi
from typing import Final

from shapely import LineString, Polygon, box, union_all

from evenface.construction import BuiltPanel
from evenface.construction.hollows import BuiltGrip, built_grip
from evenface.drawings.solid_zones import Taken, polygon_of
from evenface.piece.records import Side
from evenface.shape.faults import ShapeError
from evenface.shape.hollow import Hollow

STEPS: Final = 10
_OUT: Final = 1.0


def grips_of(panel: BuiltPanel) -> Iterator[Taken]:
    """What every grip takes out of a panel; one that cannot be cut is a finding of the checks."""
    for asked in panel.panel.grips:
        try:
            grip = built_grip(panel, asked)
            if grip.side is not None:
                yield from _from_edge(panel, grip, grip.side)
            else:
                yield from _from_face(panel, grip)
        except ShapeError:
            continue


def _steps(hollow: Hollow) -> Iterator[tuple[float, float, Polygon]]:
    """From depth to depth, finer towards the floor of a ball: the section in the middle of the step."""
    deep = hollow.depth_mm
    depths = [deep * (1 - cos(pi / 2 * (1 - k / STEPS))) for k in range(STEPS, -1, -1)]
    depths = [deep - one for one in reversed(depths)]
    for upper, lower in pairwise(sorted(depths)):
        yield upper, lower, polygon_of(hollow.section_at((upper + lower) / 2))


def _from_face(panel: BuiltPanel, grip: BuiltGrip) -> Iterator[Taken]:
    top = panel.thickness_mm
    for begins, lower, plan in _steps(grip.hollow):
        upper = begins if begins > 0 else -_OUT
        if grip.asked.from_ == "face":
            yield Taken(plan, top - lower, top - upper, quiet=True)
        else:
            yield Taken(plan, upper, lower, quiet=True)


def _from_edge(panel: BuiltPanel, grip: BuiltGrip, side: Side) -> Iterator[Taken]:
    """Seen from the edge the section lies in (along the edge, height): cut into layers of the panel."""
    steps = list(_steps(grip.hollow))
    low, high = steps[0][2].bounds[1], steps[0][2].bounds[3]
    heights = [low + (high - low) * n / STEPS for n in range(STEPS + 1)]
    for z0, z1 in pairwise(heights):
        across = LineString([(-1e5, (z0 + z1) / 2), (1e5, (z0 + z1) / 2)])
        cells = []
        for upper, lower, plan in steps:
            met = plan.intersection(across)
            if met.length > 1e-3:
                cells.append(
                    _cell(panel, side, met.bounds[0], met.bounds[2], upper if upper > 0 else -_OUT, lower)
                )
        if cells:
            yield Taken(union_all(cells), z0, z1, quiet=True)


def _cell(panel: BuiltPanel, side: Side, a: float, b: float, near: float, far: float) -> Polygon:
    match side:
        case Side.FRONT:
            return box(a, near, b, far)
        case Side.REAR:
            return box(a, panel.width_mm - far, b, panel.width_mm - near)
        case Side.LEFT:
            return box(near, a, far, b)
        case _:
            return box(panel.length_mm - far, a, panel.length_mm - near, b)
