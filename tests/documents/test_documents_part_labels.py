"""Stickers for the parts: one for each, in the order in which they come off, and nothing cut off on the paper."""

import io
from dataclasses import replace
from datetime import date

import pypdf
import pytest

from evenface.documents.part_labels import part_label_pdf, part_labels_data
from evenface.documents.stickers import PER_PAGE
from evenface.errors import EvenfaceError
from evenface.layouts import Blank, Demand, Inside, Saw, Section, StockSize, part_labels, solve_all
from evenface.words import ENGLISH

DAY = date(2027, 1, 11)


@pytest.fixture
def cut(glaze_room):
    """The job with its parts laid out anew on one sheet and one stick, three of the first."""
    parts = glaze_room.sketch.all_parts
    faces = tuple(
        Blank(f"{part.id} face", part.id, "face", 80_000 - 9_000 * n, 40_000 + 1_000 * n, 3 - n)
        for n, part in enumerate(parts[:2])
    )
    stock = StockSize("s", "hpl-0.8", "sheet", 305_000, 130_000, trim=1_000)
    edging = (Blank(f"{parts[0].id} edging front 2", parts[0].id, "edging", 90_000, 1_400, 2),)
    stick = StockSize("t", "ash 14 × 22", "stick", 250_000, trim=5_000)
    layouts = solve_all(
        (
            Demand("hpl-0.8", faces, (stock,)),
            Demand("ash 14 × 22", edging, (stick,), Saw(), Section("ash", 1_400, 2_200)),
        ),
        budget_s=0.0,
    )
    return replace(glaze_room, layouts=layouts)


def labels(result, skip=0):
    return part_labels_data(result, DAY, skip, ENGLISH)["labels"]


def test_every_part_of_every_sheet_has_one_in_the_order_of_the_cuts(cut):
    told = labels(cut)
    placed = [
        one.part
        for layout in cut.layouts
        for sheet in layout.sheets
        for piece in sheet.placed
        for one in piece.apart
    ]
    assert sorted(one["part"] for one in told) == sorted(placed)
    assert [one["number"] for one in told] == [f"{n} / {len(told)}" for n in range(1, len(told) + 1)]
    at = 0
    for layout in cut.layouts:
        for sheet in layout.sheets:
            own = part_labels(sheet)
            assert [one.number for one in own] == list(range(1, len(own) + 1))
            afters = [one.after_cut for one in own]
            assert afters == sorted(afters)
            for one, shown in zip(own, told[at:], strict=False):
                assert shown["where"].endswith(f"after cut {one.after_cut}")
                assert shown["part"] == one.part
            at += len(own)


def test_the_size_is_that_of_the_part_and_the_arrow_that_of_the_sheet(cut):
    layout = cut.layouts[0]
    sheet = layout.sheets[0]
    first = sheet.placed[0]
    turned = replace(first, turned=True)
    changed = replace(layout, sheets=(replace(sheet, placed=(turned, *sheet.placed[1:])), *layout.sheets[1:]))
    lies, stands = labels(cut)[0], labels(replace(cut, layouts=(changed,)))[0]
    long, wide = first.length / 100, first.width / 100
    assert lies["across"] is False
    assert stands["across"] is True
    assert lies["size"] == f"{long:g} × {wide:g} mm"
    assert stands["size"] == f"{wide:g} × {long:g} mm"
    assert lies["outline"][0] / lies["outline"][1] == pytest.approx(long / wide)


def test_parts_of_a_run_come_after_the_cuts_that_part_them(cut):
    layout = cut.layouts[0]
    sheet = layout.sheets[0]
    first = sheet.placed[0]
    half = (first.width - 320) // 2
    parts = (Inside("7.1", "face", 0, half), Inside("7.2", "face", half + 320, first.width - half - 320))
    run = replace(sheet, placed=(replace(first, inside=parts, parted="along"), *sheet.placed[1:]))
    told = part_labels(run)
    assert [(one.part, one.after_cut, one.width) for one in told[-2:]] == [
        ("7.1", len(sheet.cuts) + 1, half),
        ("7.2", len(sheet.cuts) + 1, first.width - half - 320),
    ]
    # one part held by more than itself is cut to its length last; one that is all of its blank needs no cut
    short = replace(sheet, placed=(replace(first, inside=(parts[0],), parted="along"), *sheet.placed[1:]))
    assert (part_labels(short)[-1].part, part_labels(short)[-1].after_cut) == ("7.1", len(sheet.cuts) + 1)
    whole = Inside("7.1", "face", 0, first.width)
    alone = replace(sheet, placed=(replace(first, inside=(whole,), parted="along"), *sheet.placed[1:]))
    assert [(one.part, one.after_cut) for one in part_labels(alone)[:1]] == [
        ("7.1", part_labels(sheet)[0].after_cut)
    ]


def test_the_paper_holds_the_whole_of_long_names(cut):
    first, *others = cut.sketch.parts
    long = replace(
        first, name="shelf behind the bench, second row", piece="Rack for tiles of the wood firing"
    )
    result = replace(cut, sketch=replace(cut.sketch, parts=(long, *others)))
    told = labels(result)
    assert told[0]["name"] == long.name
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(part_label_pdf(result, DAY))).pages]
    text = "".join("".join(pages).split())
    for one in told:
        for word in ("part", "name", "piece", "size", "material", "layer", "where", "marks", "number"):
            assert "".join(one[word].split()) in text, one[word]
    assert {one["layer"] for one in told} == {"face", "edging front"}


def test_used_stickers_are_left_out_and_a_wrong_number_is_told(cut):
    count = len(labels(cut))
    pages = len(pypdf.PdfReader(io.BytesIO(part_label_pdf(cut, DAY, skip=PER_PAGE - 1))).pages)
    assert pages == -(-(count + PER_PAGE - 1) // PER_PAGE)
    for wrong in (-1, PER_PAGE):
        with pytest.raises(EvenfaceError, match="expected from 0 to 23"):
            labels(cut, wrong)
    with pytest.raises(EvenfaceError, match="nothing to print"):
        labels(replace(cut, layouts=()))
