"""Shapes the tests share: strategies of random outlines, and a polygon for the second opinion."""

from __future__ import annotations

import shapely
from hypothesis import strategies as st

from evenface.shape.arcs import sampled_ring
from evenface.shape.build import SQUARE, CornerCut, Notch, d_shape, rectangle, slot
from evenface.shape.outline import Outline


@st.composite
def panels(draw: st.DrawFn, corners: tuple[str, ...] = ("square", "radius", "chamfer")) -> Outline:
    """Rectangles of unequal sides with a different treatment at every corner."""
    length, width = draw(st.floats(120, 900)), draw(st.floats(80, 600))
    most = min(length, width) * 0.45
    cuts = []
    for _ in range(4):
        kind = draw(st.sampled_from(corners))
        cuts.append(SQUARE if kind == "square" else CornerCut(kind, draw(st.floats(1.0, most))))
    return rectangle(length, width, cuts)


@st.composite
def notched(draw: st.DrawFn) -> Outline:
    """Panels with a notch in the back edge, its inner corners round."""
    length, width = draw(st.floats(200, 900)), draw(st.floats(150, 600))
    run = draw(st.floats(30, length - 80))
    depth = draw(st.floats(20, width / 2))
    start = draw(st.floats(20, length - run - 20))
    radius = draw(st.one_of(st.just(0.0), st.floats(1, min(run / 2, depth) - 1)))
    return rectangle(length, width, notches=[Notch("back", start, run, depth, radius)])


def any_outline() -> st.SearchStrategy[Outline]:
    slots = st.builds(slot, st.floats(60, 200), st.floats(10, 55))
    ds = st.builds(d_shape, st.floats(80, 200), st.floats(15, 40), st.one_of(st.just(0.0), st.floats(1, 7)))
    placed = st.one_of(panels(), notched(), slots, ds)
    return st.builds(lambda o, a, x, y: o.rotated(a).moved(x, y), placed, st.floats(0, 6.28),
                     st.floats(-300, 300), st.floats(-300, 300))  # fmt: skip


def polygon(outline: Outline, tolerance_mm: float = 1e-4) -> shapely.Polygon:
    """The outline as shapely sees it: arcs as chords within the tolerance, on the inner side."""
    outer, *holes = [sampled_ring(ring, tolerance_mm) for ring in outline.rings]
    return shapely.Polygon(outer, holes)
