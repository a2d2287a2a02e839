"""Layouts as DXF, read back with the library that audits it and measured: sheet, roll, run, stick, board, damage."""

import io

import pytest

from evenface.drawings import cut_plan_of, sheet_of, to_dxf
from evenface.drawings.cut_plan import LAYERS
from evenface.layouts import (
    Blank,
    Demand,
    Flaw,
    Inside,
    Layout,
    Saw,
    Section,
    StockSize,
    Timber,
    solve_all,
)

ezdxf = pytest.importorskip("ezdxf")


def solved(demand: Demand) -> Layout:
    (layout,) = solve_all((demand,), budget_s=0.0)
    assert layout.checked
    return layout


def sheets() -> Layout:
    blanks = (
        Blank("a", "1.1", "face", 80_055, 24_000, 3),
        Blank("b", "1.2", "face", 33_300, 21_000, 5, True),
    )
    return solved(Demand("birch", blanks, (StockSize("s", "birch", "sheet", 244_000, 122_000, trim=1_000),)))


def roll() -> Layout:
    blanks = (Blank("a", "1.1", "face", 120_000, 70_000, 3), Blank("b", "1.2", "face", 60_000, 50_000, 4))
    return solved(Demand("lino", blanks, (StockSize("r", "lino", "roll", None, 183_000),), Saw(kerf=0)))


def run() -> Layout:
    inside = (Inside("1.1", "face", 0, 30_000), Inside("1.2", "face", 30_320, 41_000))
    blanks = (Blank("r", "1.1, 1.2", "face", 70_000, 71_320, inside=inside, parted="along", run="doors"),)
    return solved(Demand("hpl", blanks, (StockSize("s", "hpl", "sheet", 305_000, 130_000, trim=1_000),)))


def sticks() -> Layout:
    blanks = (Blank("a", "1.1", "edging", 70_000, 2_000, 5), Blank("b", "1.2", "edging", 41_000, 2_000, 7))
    stock = (StockSize("s", "ash", "stick", 250_000, trim=5_000),)
    return solved(Demand("ash", blanks, stock, Saw(first_cut="across"), Section("ash", 2_200, 1_850)))


def board() -> Layout:
    timber = Timber(
        21_000,
        16_000,
        (700, 1_500),
        (Flaw(90_000, 6_000, 6_000, 4_000), Flaw(170_000, 0, 2_000, 30_000, "split")),
    )
    blanks = (Blank("a", "1.1", "edging", 70_000, 2_500, 5), Blank("b", "1.2", "edging", 41_000, 4_100, 3))
    stock = (StockSize("w", "ash", "board", 260_000, 21_000, 1, None, 5_000, 3_400, timber=timber),)
    return solved(Demand("ash", blanks, stock, Saw(stages=None, least_offcut=(2_000, 30_000))))


FORMS = {"sheet": sheets, "roll": roll, "run": run, "stick": sticks, "board": board}


def read(layout: Layout, index: int):
    document = ezdxf.read(io.StringIO(to_dxf(cut_plan_of(layout, index))))
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    assert document.dxfversion >= "AC1024"  # R2010
    assert document.header["$INSUNITS"] == 4  # mm
    return document


def boxes(document, layer):
    found = []
    for one in document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]'):
        assert one.closed
        xs, ys = zip(*one.get_points("xy"), strict=True)
        found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


@pytest.mark.parametrize("form", FORMS)
def test_every_piece_rest_and_cut_measured(form):
    """Parts and rests to a thousandth of a mm, in number, place and size; cuts along the middle of the kerf."""
    layout = FORMS[form]()
    stick = form == "stick"
    for index, sheet in enumerate(layout.sheets):
        document = read(layout, index)
        assert {one.dxf.layer for one in document.modelspace()} <= set(LAYERS)
        high = 22.0 if stick else sheet.width / 100
        for layer, things in (
            ("part", [one for piece in sheet.placed for one in piece.apart]),
            ("rest", sheet.offcuts),
        ):
            wanted = sorted(
                (
                    t.x / 100,
                    0.0 if stick else t.y / 100,
                    (t.x + t.length) / 100,
                    high if stick else (t.y + t.width) / 100,
                )
                for t in things
            )
            assert sorted(boxes(document, layer)) == [pytest.approx(box, abs=1e-3) for box in wanted]
        cuts = document.modelspace().query('LINE[layer=="cut"]')
        assert len(cuts) == len(sheet.cuts)
        for line, cut in zip(cuts, sheet.cuts, strict=True):
            middle = (cut.position + cut.kerf / 2) / 100
            start, end = line.dxf.start, line.dxf.end
            if cut.axis == "along":
                told = (cut.from_ / 100, middle, cut.to_ / 100, middle)
            else:
                low, top = (0.0, high) if stick else (cut.from_ / 100, cut.to_ / 100)
                told = (middle, low, middle, top)
            assert (start.x, start.y, end.x, end.y) == pytest.approx(told, abs=1e-3)
        texts = {one.dxf.text for one in document.modelspace().query('TEXT[layer=="text"]')}
        assert {str(cut.number) for cut in sheet.cuts} <= texts
        assert {one.part for piece in sheet.placed for one in piece.apart} <= texts


def test_outline_and_trim_of_a_sheet_and_the_run_that_is_cut_apart_last():
    document = read(run(), 0)
    assert boxes(document, "sheet") == [pytest.approx((0, 0, 3050, 1300))]
    assert boxes(document, "trim") == [pytest.approx((10, 10, 3040, 1290))]
    ((x0, y0, x1, y1),) = boxes(document, "run")
    assert (x1 - x0, y1 - y0) == pytest.approx((700.0, 713.2))


def test_a_board_shows_its_taper_wane_knot_and_split():
    document = read(board(), 0)
    (outline,) = document.modelspace().query('LWPOLYLINE[layer=="sheet"]')
    assert outline.get_points("xy") == [
        pytest.approx(at) for at in ((0, 0), (2600, 0), (2600, 160), (0, 210))
    ]
    low, high, knot, split = boxes(document, "defect")
    assert low == pytest.approx((0, 0, 2600, 7))
    assert high == pytest.approx((0, 145, 2600, 210))
    assert knot == pytest.approx((900, 60, 960, 100))
    # the split ends where the tapered edge is: 210 - 50 * 1720 / 2600
    assert split == pytest.approx((1700, 0, 1720, 210 - 50 * 1720 / 2600))


@pytest.mark.parametrize("form", FORMS)
def test_the_sheet_on_paper_has_the_same_parts(form):
    layout = FORMS[form]()
    for index, sheet in enumerate(layout.sheets):
        shown = [one for one in sheet_of(layout, index).primitives if getattr(one, "layer", "") == "faults"]
        assert bool(shown) is (sheet.timber is not None)


def test_fault_names_stay_on_the_drawing_and_are_read():
    scene = sheet_of(board(), 0)
    words = [
        one.text for one in scene.primitives if getattr(one, "layer", "") == "faults" and hasattr(one, "text")
    ]
    assert sorted(words) == ["knot", "split"]
