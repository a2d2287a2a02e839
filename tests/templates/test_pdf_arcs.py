"""Arcs of a printed template, read from the drawing operators of its PDF: within 0.01 mm of the record."""

import io
from datetime import date
from itertools import pairwise
from math import hypot

import pytest
from documents.pdf_lines import MM_PER_POINT, lines_of, times
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from pypdf.generic import ContentStream

from evenface.documents.templates_pages import template_pages
from evenface.drawings.scene import Path, scene_of
from evenface.shape.build import CornerCut, circle, d_shape, rectangle
from evenface.shape.outline import Outline
from evenface.shape.tiling import tile

DAY = date(2026, 3, 4)


def curves_of(page):
    """The four control points of every curve, in mm from the lower left corner, pictures within the page too."""
    return list(_curves(page, page.get_contents(), (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), page.pdf))


def _curves(holder, contents, matrix, pdf):
    stack, at = [], None
    for operands, operator in ContentStream(contents, pdf).operations:
        match operator:
            case b"q":
                stack.append(matrix)
            case b"Q":
                matrix = stack.pop()
            case b"cm":
                matrix = times(tuple(map(float, operands)), matrix)
            case b"m" | b"l":
                at = _point(operands, matrix)
            case b"c":
                points = [_point(operands[k : k + 2], matrix) for k in (0, 2, 4)]
                yield at, *points
                at = points[-1]
            case b"Do":
                form = holder["/Resources"]["/XObject"][operands[0]].get_object()
                if form["/Subtype"] == "/Form":
                    own = tuple(map(float, form.get("/Matrix", (1, 0, 0, 1, 0, 0))))
                    yield from _curves(form, form, times(own, matrix), pdf)


def _point(operands, matrix):
    x, y = map(float, operands)
    a, b, c, d, e, f = matrix
    return ((a * x + c * y + e) * MM_PER_POINT, (b * x + d * y + f) * MM_PER_POINT)


def along(curve, share):
    """A point of a cubic curve."""
    weights = ((1 - share) ** 3, 3 * share * (1 - share) ** 2, 3 * share**2 * (1 - share), share**3)
    return tuple(sum(w * p[axis] for w, p in zip(weights, curve, strict=True)) for axis in (0, 1))


def worst_off(outline: Outline, paper: str) -> tuple[float, float]:
    """How far the printed curves lie from the record at most, and the share of its arcs' length they cover. [mm]"""
    scene = scene_of("arcs", 1.0, (Path(outline.outer),))
    tiling = tile(scene.bounds, paper)
    pages = PdfReader(io.BytesIO(template_pages(scene, DAY, paper))).pages[-len(tiling.pages) :]
    page, reader = tiling.pages[0], pages[0]  # every page draws the whole picture and shows its window of it
    marks = [m for one in tiling.pages for m in one.marks]
    arcs = [s for s in outline.outer_segments() if s.is_arc]
    worst, covered = 0.0, 0.0
    for curve in curves_of(reader):
        points = [along(curve, k / 24) for k in range(25)]
        moved = [(x + page.shift[0], y + page.shift[1]) for x, y in points]
        if any(hypot(x - m[0], y - m[1]) < 2 for m in marks for x, y in moved):
            continue  # the ring of a mark
        worst = max(worst, *(min(s.distance_to(point) for s in arcs) for point in moved))
        covered += sum(hypot(q[0] - p[0], q[1] - p[1]) for p, q in pairwise(moved))
    return worst, covered / sum(s.length for s in arcs)


@pytest.mark.parametrize(
    "outline",
    [
        circle(150, (80, 80)),
        rectangle(180, 150, [CornerCut("radius", r) for r in (60, 12, 5, 30)]),
        d_shape(180, 70, 9),
    ],
)
def test_arcs_on_one_page(outline):
    worst, covered = worst_off(outline, "A4")
    assert worst <= 0.01
    assert covered == pytest.approx(1, abs=1e-3)


def test_an_arc_of_600_over_many_pages():
    """Half of a round table of 1200: curves that follow eighths of a circle stay 0.003 mm near."""
    half = Outline.of([(0, 0, 0.0), (1200, 0, 1.0)])
    worst, covered = worst_off(half, "A3")
    assert worst <= 0.01
    assert covered == pytest.approx(1, abs=1e-3)


@given(st.floats(100, 180), st.floats(60, 150), st.tuples(*[st.floats(2, 29)] * 4))
@settings(max_examples=8, deadline=None)
def test_straight_sides_of_random_panels_are_printed_true(length, width, radii):
    outline = rectangle(length, width, [CornerCut("radius", r) for r in radii])
    scene = scene_of("sides", 1.0, (Path(outline.outer),))
    (page,) = tile(scene.bounds, "A4").pages
    (reader,) = PdfReader(io.BytesIO(template_pages(scene, DAY, "A4"))).pages
    printed = [tuple((x + page.shift[0], y + page.shift[1]) for x, y in line) for line in lines_of(reader)]
    for s in outline.outer_segments():
        if s.is_arc or s.length < 1:
            continue
        off = min(
            max(hypot(a[0] - u[0], a[1] - u[1]), hypot(b[0] - v[0], b[1] - v[1]))
            for one in printed
            for a, b in ((one[0], one[1]), (one[1], one[0]))
            for u, v in ((s.first, s.last),)
        )
        assert off < 0.01
