"""Cutting sheets: every piece, offcut and cut of the record is on the drawing, at its place and to scale."""

import re

import pytest
from drawings.measured import letterings, ways_of
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.drawings import sheet_of, to_svg
from evenface.drawings.scene import Area, Fill, text_box, texts_of
from evenface.layouts.records import Bought, Cut, Layout, Offcut, Placed, Sheet
from evenface.shape.ring import ring_area, ring_bounds

KERF = 320


def mm(value):
    """Hundredths of a mm, the grid of layouts."""
    return round(value * 100)


def layout_of(*sheets):
    return Layout("birch-ply-18", sheets, Bought(len(sheets)), "fewest", len(sheets), True)


def strips(length, width, trim, heights, form="sheet"):
    """A sheet cut along into strips from below, each strip one piece, the rest an offcut."""
    y, inner = mm(trim), mm(length) - 2 * mm(trim)
    placed, cuts = [], []
    for number, height in enumerate(heights, 1):
        placed.append(Placed(f"b{number}", f"1.{number}", mm(trim), y, inner, mm(height), number % 2 == 0))
        y += mm(height)
        cuts.append(Cut(number, 1, mm(height), mm(trim), mm(trim) + inner, "along", y, KERF))
        y += KERF
    rest = mm(width) - mm(trim) - y
    offcuts = (Offcut(mm(trim), y, inner, rest),) if rest > 0 else ()
    return Sheet("s", form, mm(length), mm(width), mm(trim), tuple(placed), tuple(cuts), offcuts)


PLAIN = strips(2440, 1220, 10, (550, 372.5, 100))


def test_pieces_measured_in_the_svg():
    scene = sheet_of(layout_of(PLAIN), 0)
    boxes = [way.box for way in ways_of(to_svg(scene), scene, "pieces")]
    assert boxes[0] == pytest.approx((10, 10, 2430, 560), abs=0.001)
    assert boxes[1] == pytest.approx((10, 563.2, 2430, 935.7), abs=0.001)
    assert boxes[2] == pytest.approx((10, 938.9, 2430, 1038.9), abs=0.001)
    (sheet,) = ways_of(to_svg(scene), scene, "outline")
    assert sheet.box == pytest.approx((0, 0, 2440, 1220), abs=0.001)


def test_offcut_and_trim_areas_close():
    """Sheet less trims, pieces, kerfs and offcuts is nothing: from the drawn rings."""
    scene = sheet_of(layout_of(PLAIN), 0)
    by_fill = {
        fill: [
            one for one in scene.primitives if isinstance(one, Area) and one.fill is fill and one.layer != "x"
        ]
        for fill in (Fill.WASTE, Fill.OFFCUT)
    }
    (waste,), (offcut,) = by_fill[Fill.WASTE], by_fill[Fill.OFFCUT]
    trims = ring_area(waste.rings[0]) - ring_area(waste.rings[1])
    assert trims == pytest.approx(2440 * 1220 - 2420 * 1200, abs=1e-6)
    assert ring_bounds(offcut.rings[0])[3] == pytest.approx(1210, abs=1e-9)
    kerfs = 3 * 3.2 * 2420
    pieces = 2420 * (550 + 372.5 + 100)
    assert trims + ring_area(offcut.rings[0]) + kerfs + pieces == pytest.approx(2440 * 1220, abs=1e-6)


def test_part_size_and_way_of_each_piece():
    svg = to_svg(sheet_of(layout_of(PLAIN), 0))
    words = letterings(svg)
    assert {"1.1", "1.2", "1.3", "2420 × 550", "372.5 × 2420", "2420 × 100"} <= set(words)
    scene = sheet_of(layout_of(PLAIN), 0)
    arrows = [way for way in ways_of(svg, scene, "directions") if len(way.points) == 2]
    assert len(arrows) == 3
    turned = [abs(a.box[2] - a.box[0]) < 0.01 for a in arrows]
    assert turned == [False, True, False]


def numbers_on(scene):
    shown = {one.text for one in texts_of(scene.primitives) if one.layer == "cuts"}
    for one in texts_of(scene.primitives):
        if one.text.startswith("no room here"):
            shown |= set(re.findall(r"\d+", one.text))
    return shown


@settings(max_examples=25)
@given(
    st.integers(400, 4100),
    st.integers(300, 2070),
    st.lists(st.integers(12, 400), min_size=1, max_size=14),
    st.sampled_from([0.0, 5.0, 10.0]),
)
def test_every_cut_has_its_number_and_every_piece_its_name(length, width, heights, trim):
    fitting = []
    for height in heights:
        if sum(fitting) + height + (len(fitting) + 1) * 3.2 + 2 * trim < width:
            fitting.append(height)
    scene = sheet_of(layout_of(strips(length, width, trim, fitting)), 0)
    assert numbers_on(scene) == {str(number) for number in range(1, len(fitting) + 1)}
    words = " ".join(one.text for one in texts_of(scene.primitives))
    for number in range(1, len(fitting) + 1):
        assert f"1.{number}" in words
    boxes = [text_box(one, scene.scale) for one in texts_of(scene.primitives)]
    slack = 0.05 / scene.scale
    for n, a in enumerate(boxes):
        for b in boxes[n + 1 :]:
            assert (
                a[2] <= b[0] + slack or b[2] <= a[0] + slack or a[3] <= b[1] + slack or b[3] <= a[1] + slack
            )


def test_it_lies_on_its_paper():
    for size in ((2440, 1220), (3050, 1300), (1506, 1830), (600, 400)):
        scene = sheet_of(layout_of(strips(*size, 5, (120, 80))), 0, paper_mm=(170.0, 118.0))
        assert scene.width_mm <= 170.0
        assert scene.height_mm <= 118.0


def test_a_sheet_that_is_not_there():
    with pytest.raises(IndexError):
        sheet_of(layout_of(PLAIN), 3)
