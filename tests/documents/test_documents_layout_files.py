"""Cut list and workbook read back: every cut, exact lengths, texts that stay texts, the same bytes twice."""

import csv
import io
from dataclasses import replace
from datetime import date

import pytest
from documents.glaze_room import SHELF, piece, result_of

from evenface.documents.cuts_csv import COLUMNS, cuts_text
from evenface.documents.layout_files import missing_writers
from evenface.documents.workbook import workbook_of
from evenface.layouts import Inside

openpyxl = pytest.importorskip("openpyxl")
DAY = date(2026, 3, 4)


def rows(result):
    text = cuts_text(result)
    assert text.startswith("\ufeff")
    return list(csv.DictReader(io.StringIO(text.removeprefix("\ufeff"))))


def with_run(result):
    """The first piece of the first sheet becomes two of a run."""
    layout = result.layouts[0]
    sheet = layout.sheets[0]
    first = sheet.placed[0]
    half = (first.width - 320) // 2
    parts = (Inside("7.1", "face", 0, half), Inside("7.2", "face", half + 320, first.width - half - 320))
    placed = (replace(first, inside=parts, parted="along"), *sheet.placed[1:])
    changed = replace(layout, sheets=(replace(sheet, placed=placed), *layout.sheets[1:]))
    return replace(result, layouts=(changed, *result.layouts[1:]))


def test_every_cut_of_every_sheet_is_a_row_with_its_exact_lengths(glaze_room):
    found = rows(glaze_room)
    assert set(found[0]) == set(COLUMNS)
    cuts = [
        (layout.material, number, cut)
        for layout in glaze_room.layouts
        for number, sheet in enumerate(layout.sheets, 1)
        for cut in sheet.cuts
    ]
    assert len(found) == len(cuts) >= 5
    for row, (material, number, cut) in zip(found, cuts, strict=True):
        assert (row["material"], int(row["sheet"]), int(row["cut"])) == (material, number, cut.number)
        assert round(float(row["fence_mm"]) * 100) == cut.fence
        assert round(float(row["at_mm"]) * 100) == cut.position
        assert round(float(row["kerf_mm"]) * 100) == cut.kerf


def test_what_is_cut_apart_last_is_told_after_the_numbered_cuts(glaze_room):
    result = with_run(glaze_room)
    sheet = result.layouts[0].sheets[0]
    (row,) = [one for one in rows(result) if one["kind"] == "apart"]
    first = sheet.placed[0]
    assert int(row["cut"]) == len(sheet.cuts) + 1
    assert round(float(row["fence_mm"]) * 100) == first.inside[0].size
    assert round(float(row["at_mm"]) * 100) == first.y + first.inside[0].size
    assert float(row["kerf_mm"]) == pytest.approx(3.2)
    assert row["comes_off"] == "7.1, 7.2"


def test_the_workbook_has_what_the_lists_have(glaze_room):
    book = openpyxl.load_workbook(io.BytesIO(workbook_of(glaze_room, DAY)))
    assert book.sheetnames == ["parts", "layouts", "cuts", "buying"]
    assert book["cuts"].max_row - 1 == len(rows(glaze_room))
    assert book["layouts"].max_row - 1 == sum(len(layout.sheets) for layout in glaze_room.layouts)
    assert book["buying"].max_row - 1 == len(glaze_room.buying)
    heads = [cell.value for cell in book["layouts"][1]]
    for row in book["layouts"].iter_rows(min_row=2, values_only=True):
        told = dict(zip(heads, row, strict=True))
        if told["form"] != "stick":
            parts = told["pieces_m2"] + told["rests_m2"] + told["trims_m2"] + told["saw_cuts_m2"]
            assert parts == pytest.approx(told["length_mm"] * told["width_mm"] / 1e6, abs=3e-6)


@pytest.mark.parametrize("name", ["=1+1", "+5", "-5", "@SUM(A1)", "\tx", "a\x00b\x07", "=cmd|' /C calc'!A0"])
def test_no_text_is_taken_for_a_formula(name):
    result = result_of(piece("Rack", replace(SHELF, name=name)))
    book = openpyxl.load_workbook(io.BytesIO(workbook_of(result, DAY)))
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.data_type != "f"
                assert not isinstance(cell.value, str) or cell.quotePrefix
    named = {row[2] for row in book["parts"].iter_rows(min_row=2, values_only=True)}
    assert name.replace("\x00", " ").replace("\x07", " ").replace("\t", "_x0009_") in {
        text.replace("\t", "_x0009_") for text in named
    }


def test_the_same_result_gives_the_same_bytes(glaze_room):
    assert workbook_of(glaze_room, DAY) == workbook_of(glaze_room, DAY)


def test_what_could_not_be_written_is_told():
    assert missing_writers(("drawings/a.dxf", "layouts.xlsx"), True) == ()
    assert [line.split()[1] for line in missing_writers(("cuts.csv",), True)] == ["DXF", "workbook"]
