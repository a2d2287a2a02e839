"""Hatching stays in its area and tells one material from another; what is cut off keeps its arcs."""

import math

import pytest

from evenface.drawings.clip import between
from evenface.drawings.hatch import SOLID, hatch
from evenface.drawings.scene import Area, Fill
from evenface.shape.outline import Outline
from evenface.shape.ring import is_inside, ring_area, ring_bounds


@pytest.mark.parametrize("fill", [fill for fill in Fill if fill not in SOLID])
@pytest.mark.parametrize("scale", [0.1, 1.0, 3.0])
def test_hatching_stays_inside_its_area(fill: Fill, scale: float) -> None:
    outline = Outline.of([(0, 0), (90, 0, 0.4142135623730951), (90, 40), (30, 20), (0, 40)])
    dashes = list(hatch(Area((outline.outer,), fill), scale))
    assert dashes
    for x0, y0, x1, y1 in dashes[:: 1 + len(dashes) // 400]:
        for share in (0.02, 0.5, 0.98):
            point = (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
            near = min(s.distance_to(point) for s in outline.segments)
            assert is_inside(outline.outer, point) or near < 0.1  # chords of 3° lie 0.02 inside the arc


def test_hatching_leaves_inner_rings_out() -> None:
    rings = (
        ((0.0, 0.0, 0.0), (30.0, 0.0, 0.0), (30.0, 30.0, 0.0), (0.0, 30.0, 0.0)),
        ((10.0, 10.0, 0.0), (20.0, 10.0, 0.0), (20.0, 20.0, 0.0), (10.0, 20.0, 0.0)),
    )
    for x0, y0, x1, y1 in hatch(Area(rings, Fill.WASTE), 1.0):
        middle = ((x0 + x1) / 2, (y0 + y1) / 2)
        assert not (10 < middle[0] < 20 and 10 < middle[1] < 20)


def test_end_grain_is_oblique_and_long_grain_runs_along() -> None:
    ring = ((0.0, 0.0, 0.0), (30.0, 0.0, 0.0), (30.0, 10.0, 0.0), (0.0, 10.0, 0.0))
    for x0, y0, x1, y1 in hatch(Area((ring,), Fill.END_GRAIN), 1.0):
        assert abs(y1 - y0) == pytest.approx(abs(x1 - x0), abs=1e-9)
    for _, y0, _, y1 in hatch(Area((ring,), Fill.LONG_GRAIN), 1.0):
        assert y0 == pytest.approx(y1)


def test_clipping_keeps_arcs_and_areas() -> None:
    disc = ((0.0, 0.0, 1.0), (20.0, 0.0, 1.0))
    left, right = between(disc, -1, 7), between(disc, 7, 30)
    assert ring_area(left) + ring_area(right) == pytest.approx(math.pi * 100, abs=1e-9)
    assert ring_bounds(left)[2] == pytest.approx(7.0)
    assert between(disc, 25, 30) == ()
    assert ring_area(between(disc, -5, 25)) == pytest.approx(math.pi * 100)
