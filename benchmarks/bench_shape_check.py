"""Every check of one panel as the program asks them, warm, beside a bare shapely buffer check.

The panel has 4 corners (rounded, block, ring, bent strips), 3 grips in their inserts (one scooped), 2 cut-outs, a
notch and a profile all round; a second one has a free outline of lines and arcs with curved edging and the same grips
and cut-outs. Ours: building the panel and every check there is with findings in words, and (told apart) its
templates. Beside it: outline, inserts and cut-outs as polygons whose arcs keep 0.001 mm, moved in by the profile's
depth at twelve levels and asked whether they contain what they must.

    python benchmarks/bench_shape_check.py
"""

from collections.abc import Callable
from dataclasses import replace
from statistics import median
from time import perf_counter

import shapely

from evenface.checks.ask import CHECKS
from evenface.checks.question import Asked
from evenface.construction import BuiltPanel, Construction
from evenface.construction.build import build_panel
from evenface.construction.shapes import edge_shape, finished_outline
from evenface.materials import load_catalogue
from evenface.parts import part_of
from evenface.piece.records import (
    BuildUp,
    Corner,
    CornerAt,
    Cutout,
    Edge,
    Grip,
    Insert,
    Job,
    Layer,
    Notch,
    Panel,
    Piece,
    Profile,
    Role,
    Side,
)
from evenface.shape.arcs import sampled_ring
from evenface.shape.build import QUARTER_BULGE, circle, rounded_rectangle, slot
from evenface.shape.outline import Outline
from evenface.shape.ring import segments_of
from evenface.templates import templates_of

BAR_MS = 50.0
KINDS = ("rounded", "block", "ring", "strips")
LAYERS = (Layer(Role.BACK, "hpl-0.8"), Layer(Role.CARRIER, "mdf-19"), Layer(Role.FACE, "hpl-0.8"))
CATALOGUE = load_catalogue()


def bench_panel(shift: float) -> Panel:
    """The panel; ``shift`` makes every round a new one, so that no memory of rings helps."""
    corners = tuple(
        Corner(at, "radius", 60.0 + shift, kind) for at, kind in zip(CornerAt, KINDS, strict=True)
    )
    places = ((300.0, False), (850.0, False), (1400.0, True))
    inserts = tuple(
        Insert(f"wood {x}", slot(120, 44).moved(x, 70 + shift), "beech", depth_mm=14.0, when="after facing")
        for x, _ in places
    )
    grips = tuple(
        Grip(
            f"grip {x}",
            f"wood {x}",
            "ball",
            20.0,
            8.0,
            ((x + 30, 92 + shift), (x + 90, 92 + shift)),
            scooped=s,
        )
        for x, s in places
    )
    cutouts = (
        Cutout("basin", rounded_rectangle(480, 380, 20).moved(900, 190 + shift), wet=True),
        Cutout("pipe", circle(60, (200, 480 + shift))),
    )
    return Panel(
        name="top",
        count=1,
        length_mm=1800.0,
        width_mm=650.0,
        buildup="usual",
        edges=tuple(Edge(side, "ash", 20.0) for side in Side),
        corners=corners,
        profiles=(
            Profile(tuple(Side), "round-over", radius_mm=4.0),
            Profile(tuple(Side), "bevel under", "bottom", height_mm=8.0, depth_mm=5.0),
        ),
        inserts=inserts,
        grips=grips,
        cutouts=cutouts,
        notches=(Notch("cable", Side.REAR, 1500.0, 90.0, 45.0, 10.0 + shift, returned=True),),
    )


def free_panel(shift: float) -> Panel:
    """The same with bulging ends, a hollow front and rounded corners drawn as one outline."""
    ring = [(60, 0, 0.0), (500, 0, 0.05), (1300, 0, 0.0), (1740, 0, QUARTER_BULGE), (1800, 60, 0.1),
            (1800, 590 + shift, QUARTER_BULGE), (1740, 650 + shift, 0.0), (60, 650 + shift, QUARTER_BULGE),
            (0, 590 + shift, 0.1), (0, 60, QUARTER_BULGE)]  # fmt: skip
    return replace(bench_panel(shift), corners=(), notches=(), outline=Outline.of(ring))


def job_of(one: Panel) -> Job:
    usual = BuildUp("usual", LAYERS, "pva-d3")
    return Job(1, "Bench", {"usual": usual}, (Piece("Bench", "panels", 1, (one,)),))


def built(shift: float, made: Callable[[float], Panel] = bench_panel) -> tuple[Job, BuiltPanel]:
    job = job_of(made(shift))
    (one,) = job.pieces[0].description  # type: ignore[misc]
    return job, build_panel(job, job.pieces[0], one, CATALOGUE)[0]


def ours(shift: float, made: Callable[[float], Panel] = bench_panel) -> int:
    """Built and asked everything; the number of findings."""
    job, panel = built(shift, made)
    asked = Asked(job, panel, part_of(panel, "1.1"))
    return sum(1 for check in CHECKS for _ in check(asked))


def with_templates(shift: float) -> int:
    """The templates of a panel built anew."""
    job, panel = built(shift)
    return len(templates_of(job, [Construction(job.pieces[0], (panel,))])[0])


def beside(shift: float) -> float:
    """The bare polygon way: buffers at twelve levels, containment, distances; nothing about the hollows."""
    _, panel = built(shift)
    outer, edge = _polygon(finished_outline(panel)), edge_shape(panel, Side.FRONT)
    assert panel.carrier_outline is not None
    inner = [_polygon(panel.carrier_outline), *(_polygon(one.outline) for one in panel.panel.cutouts)]
    inserts = [_polygon(one.outline) for one in panel.panel.inserts]
    least, low, high = float("inf"), panel.carrier.z0_mm, panel.carrier.z1_mm
    for level in range(12):
        moved = outer.buffer(-edge.depth_at(low + level * (high - low) / 11), quad_segs=136)
        least = min(least, *(moved.boundary.distance(p) if moved.contains(p) else -1.0 for p in inner))
    return min(least, *(p.distance(c) for p in inserts for c in inner[1:]))


def _polygon(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon(sampled_ring(outline.outer, 0.001))


def milliseconds(work: Callable[[float], float], rounds: int) -> float:
    """Median time; every round on a panel not seen before."""
    work(0.0)
    times = []
    for k in range(1, rounds + 1):
        segments_of.cache_clear()
        start = perf_counter()
        work(k / 1000)
        times.append((perf_counter() - start) * 1000)
    return median(times)


def main() -> None:
    """Print the table."""
    mine, theirs = milliseconds(ours, 30), milliseconds(beside, 10)
    routed = milliseconds(with_templates, 10)
    print(f"built and checked, findings in words       {mine:8.2f} ms  (bar {BAR_MS:g} ms)")
    print(f"buffers at twelve levels, arcs to 0.001 mm {theirs:8.2f} ms")
    print(f"ratio ours / buffers                       {mine / theirs:8.2f}")
    free = milliseconds(lambda shift: ours(shift, free_panel), 30)
    print(f"free outline, curved edging                {free:8.2f} ms  (bar {BAR_MS:g} ms)")
    print(f"built, with all its templates              {routed:8.2f} ms")


if __name__ == "__main__":
    main()
