"""Check of one panel's shape, warm, beside a bare shapely buffer check of the same panel in one run.

The panel has 4 different corners, 3 grips (one scooped), 2 cut-outs and a profile all round. Ours: every
reserve in closed form, the profile in one search, walls, webs and floors of the grips. Beside it: the same
carrier, inserts and cut-outs as polygons whose arcs keep 0.001 mm, moved in by the profile's depth at twelve
levels and asked whether they contain what they must.

    python benchmarks/bench_shape_panel.py
"""

from __future__ import annotations

from collections.abc import Callable
from statistics import median
from time import perf_counter

import shapely

from evenface.shape.arcs import sampled_ring
from evenface.shape.build import CornerCut, circle, rectangle, rounded_rectangle, slot
from evenface.shape.cutter import Cutter
from evenface.shape.edge_shape import EdgeShape, wood_left
from evenface.shape.hollow import Hollow
from evenface.shape.hollow_wood import Slab, floor_left, wall_left, web_left
from evenface.shape.outline import Outline
from evenface.shape.profile_shapes import bevel_under, round_over
from evenface.shape.reserve import reserve_inside, reserve_outside
from evenface.shape.ring import segments_of
from evenface.shape.segment import Segment
from evenface.shape.validity import problems

BAR_MS = 50.0
BALL = Cutter(20, 30, "ball")
EDGE = EdgeShape(19.8, round_over(4), bevel_under(8, 5))

type Grip = tuple[Outline, Hollow]


def panel(shift: float) -> tuple[Outline, Outline, list[Grip], list[Outline]]:
    """Panel, carrier, grips with their inserts, cut-outs; ``shift`` makes every round a new one."""
    corners = [
        CornerCut("radius", 60 + shift),
        CornerCut("radius", 40),
        CornerCut("chamfer", 30),
        CornerCut("radius", 25),
    ]
    whole = rectangle(1800, 650, corners)
    carrier = rectangle(1760 - shift, 610).moved(20, 20)
    grips = []
    for k, x in enumerate((300.0, 850.0, 1400.0)):
        insert = slot(120, 44).moved(x, 70 + shift)
        path = (Segment(x + 30, 92 + shift, x + 90, 92 + shift),)
        grips.append((insert, Hollow(BALL, 8, path, scoop_radius_mm=90 if k == 2 else 0)))
    cutouts = [rounded_rectangle(480, 380, 20).moved(900, 190), circle(60, (200, 480 + shift))]
    return whole, carrier, grips, cutouts


def ours(shift: float) -> float:
    """Every reserve of the panel; the least of them."""
    whole, carrier, grips, cutouts = panel(shift)
    found = [float(len(problems(whole)))]
    found.append(wood_left(reserve_inside(carrier.outer, whole.outer).reserve_mm, EDGE, 0.9, 18.9).wood_mm)
    for k, (insert, hollow) in enumerate(grips):
        found.append(
            wood_left(reserve_inside(insert.outer, carrier.outer).reserve_mm, EDGE, 0.9, 18.9).wood_mm
        )
        found.append(wall_left(hollow, [Slab(0, 16, insert.outer)]).wood_mm)
        found.append(floor_left(hollow, 16))
        found += [web_left(hollow, c.outer).wood_mm for c in cutouts]
        found += [reserve_outside(insert.outer, c.outer).reserve_mm for c in cutouts]
        found += [reserve_outside(insert.outer, other.outer).reserve_mm for other, _ in grips[k + 1 :]]
    for k, cutout in enumerate(cutouts):
        found += [float(len(problems(cutout)))]
        found.append(wood_left(reserve_inside(cutout.outer, whole.outer).reserve_mm, EDGE, 0.0, 19.8).wood_mm)
        found += [reserve_outside(cutout.outer, other.outer).reserve_mm for other in cutouts[k + 1 :]]
    return min(found)


def beside(shift: float) -> float:
    """The bare polygon way: buffers at twelve levels, containment, distances; nothing about the hollows."""
    whole, carrier, grips, cutouts = panel(shift)
    outer, inner = _polygon(whole), [_polygon(o) for o in (carrier, *cutouts)]
    inserts = [_polygon(insert) for insert, _ in grips]
    least = float("inf")
    for level in range(12):
        moved = outer.buffer(-EDGE.depth_at(0.9 + level * 18 / 11), quad_segs=136)
        least = min(least, *(moved.boundary.distance(p) if moved.contains(p) else -1.0 for p in inner))
    return min(least, *(p.distance(c) for p in inserts for c in inner[1:]))


def _polygon(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon(sampled_ring(outline.outer, 0.001))


def milliseconds(check: Callable[[float], float], rounds: int) -> float:
    """Median time of one check; every round on a panel not seen before, so no memory of rings helps."""
    check(0.0)
    times = []
    for k in range(1, rounds + 1):
        segments_of.cache_clear()
        start = perf_counter()
        check(k / 1000)
        times.append((perf_counter() - start) * 1000)
    return median(times)


def main() -> None:
    mine, theirs = milliseconds(ours, 40), milliseconds(beside, 10)
    print(f"all reserves of the panel in closed form   {mine:8.2f} ms  (bar {BAR_MS:g} ms)")
    print(f"buffers at twelve levels, arcs to 0.001 mm {theirs:8.2f} ms")
    print(f"ratio ours / buffers                       {mine / theirs:8.2f}")


if __name__ == "__main__":
    main()
