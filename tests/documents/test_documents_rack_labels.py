"""Labels: what is printed is read from the page again, and the rack finds it."""

import io
from datetime import date
from decimal import Decimal

import pypdf
import pytest
from documents.read_qr import SIZE, text_of
from PIL import Image

from evenface.documents.rack_labels import code_svg, label_pdf, label_pngs, labels_data
from evenface.documents.rack_tables import area_text, item_lines, items_table
from evenface.documents.stickers import PER_PAGE
from evenface.errors import EvenfaceError
from evenface.store import RackItem
from evenface.store.rack_codes import code_text, new_code, read_code
from evenface.store.rack_records import Defect, Left
from evenface.words import ENGLISH, Manner

DAY = date(2027, 1, 11)
DPI = 300.0
MODULE_MM = 23.0 / (SIZE + 4)


def item(**changed):
    usual = {
        "form": "sheet",
        "material": "birch-ply-21",
        "length": 250_000,
        "width": 125_000,
        "code": new_code(),
    }
    return RackItem(**(usual | changed))


def symbol(page, place):
    """What is dark of the symbol on the sticker of that number, read at the middle of each module."""
    picture = Image.open(io.BytesIO(page)).convert("L")
    left, top = 4 + 70 * (place % 3), 0.5 + 3 + 37 * (place // 3)

    def dark(i, j):
        x, y = ((left, j), (top, i))
        spot = tuple(round((start + (2 + at + 0.5) * MODULE_MM) / 25.4 * DPI) for start, at in (x, y))
        return picture.getpixel(spot) < 128

    return [[dark(i, j) for j in range(SIZE)] for i in range(SIZE)]


def test_every_code_is_read_from_the_printed_page():
    items = [
        item(grain=grain, faces=faces)
        for grain in ("along", "across", "none")
        for faces in ("label", "other", "both")
    ]
    items *= 3
    pages = label_pngs(items, DAY, skip=2, dots_per_inch=DPI)
    assert len(pages) == 2  # 27 labels and 2 stickers used
    for number, one in enumerate(items):
        page, place = divmod(number + 2, PER_PAGE)
        assert read_code(text_of(symbol(pages[page], place))) == one.code


def test_the_reader_of_these_tests_sees_a_wrong_module():
    (page,) = label_pngs([item()], DAY, dots_per_inch=DPI)
    dark = symbol(page, 0)
    before = text_of(dark)
    dark[16][20] = not dark[16][20]
    assert text_of(dark) != before


def test_the_sheet_says_what_the_item_is():
    one = item(batch="B-7", place="bay 2", thickness=2_040, grain="across", faces="other")
    (page,) = pypdf.PdfReader(io.BytesIO(label_pdf([one], DAY))).pages
    text = page.extract_text().replace("\u200b", "")
    for told in (
        code_text(one.code),
        "birch-ply-21",
        "2500 × 1250 × 20.4 mm",
        "batch B-7",
        "bay 2",
        "good face: other",
    ):
        assert told in text
    assert [round(float(side) / 72 * 25.4) for side in page.mediabox[2:]] == [210, 297]


def test_the_same_items_make_the_same_sheet():
    items = [item()]
    assert label_pdf(items, DAY) == label_pdf(items, DAY)


def test_the_outline_has_the_shape_of_the_item_and_keeps_to_its_room():
    for size in ((250_000, 125_000), (30_000, 29_900), (1_000_000, 1_000), (1_000, 1_000_000)):
        (label,) = labels_data([item(length=size[0], width=size[1])], DAY, 0, ENGLISH)["labels"]
        wide, high = label["outline"]
        assert 3.0 <= wide <= 17.0
        assert 3.0 <= high <= 8.0
    (label,) = labels_data([item()], DAY, 0, ENGLISH)["labels"]
    assert label["outline"][0] / label["outline"][1] == pytest.approx(2.0)


def test_long_words_are_cut_and_markup_stays_text():
    nasty = item(batch="#panic() $x$ *b*" + "W" * 200, place="[" * 100, material="m" * 200)
    pages = pypdf.PdfReader(io.BytesIO(label_pdf([nasty], DAY))).pages
    assert len(pages) == 1
    assert "#panic()" in pages[0].extract_text().replace("\u200b", "")


@pytest.mark.parametrize(("count", "skip"), [(0, 0), (1, -1), (1, 24)])
def test_nothing_to_print_and_no_such_sticker_are_told(count, skip):
    with pytest.raises(EvenfaceError, match="expected"):
        label_pdf([item()] * count, DAY, skip)


def test_the_code_has_room_round_it():
    assert "viewBox" in code_svg(new_code())
    assert 'viewBox="0 0 25 25"' in code_svg(new_code())


def test_lines_tell_everything_known_and_nothing_else():
    rest = item(form="offcut", length=60_000, width=40_000)
    one = item(
        **{"thickness": 2_040, "moisture": 0.083, "moisture_on": date(2026, 10, 1), "place": "bay 2"},
        **{"price": Decimal("720.50"), "currency": "DKK", "defects": (Defect(1_000, 2_000, 300, 300),)},
        **{"state": "reserved", "reserved_for": "Glaze room", "planned": (Left(100_000, 50_000),)},
    )
    told = "\n".join(item_lines(one, [rest]))
    for line in (
        *("size: 2500 × 1250 mm", "thickness as measured: 20.4 mm", "moisture: 8.3 % (2026-10-01)"),
        *("price: DKK\xa0720.50", "defect: knot at 10, 20 mm", "state: reserved for Glaze room"),
        *("its plan leaves: 1000 × 500 mm", f"rest: {code_text(rest.code)}, 600 × 400 mm, free"),
    ):
        assert line in told
    assert "batch" not in told
    inches = "\n".join(item_lines(one, [], Manner(system="inch")))
    assert "98 27/64 × 49 7/32 in" in inches


def test_a_table_leaves_out_columns_in_which_nothing_stands():
    assert [one.title for one in items_table([item()]).columns] == [
        "code",
        "material",
        "form",
        "size [mm]",
        "state",
    ]
    wide = items_table([item(place="bay 2"), item(batch="x")])
    assert [one.title for one in wide.columns][4:6] == ["place", "batch"]
    assert wide.rows[0][4:6] == ("bay 2", "–")


def test_areas_are_told_in_the_system_of_the_reader():
    assert area_text(250_000 * 125_000) == "3.12 m²"
    assert area_text(30_480 * 30_480 * 3, Manner(system="inch")) == "3 ft²"
    assert area_text(250_000 * 125_000, Manner(decimal_mark=",")) == "3,12 m²"
