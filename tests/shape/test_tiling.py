"""Pages: the drawing is covered, neighbours overlap as asked, marks agree, check lines are 100 mm."""

from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.shape.faults import ShapeError
from evenface.shape.tiling import PAPERS, tile


def test_pages_by_hand():
    """600 × 400 on A4 with margins and overlap of 10: portrait prints 190 × 277, steps 180 × 267: 4 × 2."""
    t = tile((0, 0, 600, 400))
    assert (t.columns, t.rows, t.landscape) == (4, 2, False)
    assert [p.name for p in t.pages] == ["A1", "A2", "A3", "A4", "B1", "B2", "B3", "B4"]
    assert t.page(0, 0).window[3] > t.page(1, 0).window[3]  # row A is the upper one
    assert len(tile((0, 0, 600, 400), "A3").pages) == 3  # upright 3 × 1, lying 2 × 2


def test_one_page_holds_the_drawing_in_its_middle():
    t = tile((10, 20, 110, 80), "Letter")
    assert len(t.pages) == 1
    left, low, right, high = t.pages[0].window
    assert ((left + right) / 2, (low + high) / 2) == pytest.approx((60, 50))
    assert t.pages[0].marks == ()


@settings(max_examples=60, deadline=None)
@given(
    st.floats(-500, 500), st.floats(-500, 500), st.floats(1, 2500), st.floats(1, 1500),
    st.sampled_from(sorted(PAPERS)), st.sampled_from(["portrait", "landscape", "fewest"]),
    st.floats(8, 20), st.floats(0, 30),
)  # fmt: skip
def test_every_drawing_is_covered_once_cut(x, y, wide, tall, paper, way, margin, overlap):
    t = tile((x, y, x + wide, y + tall), paper, way, margin, overlap)
    cut_area = sum((p.cut[2] - p.cut[0]) * (p.cut[3] - p.cut[1]) for p in t.pages)
    first, last = t.page(t.rows - 1, 0).window, t.page(0, t.columns - 1).window
    assert first[0] <= x + 1e-6
    assert first[1] <= y + 1e-6
    assert last[2] >= x + wide - 1e-6
    assert last[3] >= y + tall - 1e-6
    assert cut_area == pytest.approx((last[2] - first[0]) * (last[3] - first[1]))
    for p in t.pages:
        for neighbour in (q for q in t.pages if abs(q.row - p.row) + abs(q.column - p.column) == 1):
            shared = [
                m for m in p.marks if any(hypot(m[0] - n[0], m[1] - n[1]) < 1e-6 for n in neighbour.marks)
            ]
            assert len(shared) == 2
        assert p.window[0] - p.shift[0] == pytest.approx(
            margin
        )  # the window starts at the margin of the paper


def test_check_lines_are_100_mm_and_on_the_paper():
    t = tile((0, 0, 600, 400), margin_mm=12)
    (a, b), (c, d) = t.check_lines
    assert (b[0] - a[0], b[1] - a[1]) == (100, 0)
    assert (d[0] - c[0], d[1] - c[1]) == (0, 100)
    assert 0 < a[1] < 12


@pytest.mark.parametrize(
    ("arguments", "problem"),
    [
        (((0, 0, 10, 10), "A5"), "paper"),
        (((0, 0, 0, 10),), "size"),
        (((0, 0, 10, 10), "A4", "fewest", 3), "margin"),
        (((0, 0, 10, 10), "A4", "portrait", 60), "margin"),
        (((0, 0, 10, 10), "A4", "portrait", 10, 120), "overlap"),
        (((0, 0, 10, 10), "A4", "upright"), "way"),
    ],
)
def test_impossible_pages_are_refused(arguments, problem):
    with pytest.raises(ShapeError) as error:
        tile(*arguments)
    assert error.value.problem == problem
