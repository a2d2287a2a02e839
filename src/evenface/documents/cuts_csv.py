"""`cuts.csv`: one row a cut in the order it is made, for a spreadsheet or whoever saws.

UTF-8 with a byte order mark; commas between cells, a point before decimals, exact lengths in mm. Columns: material,
title, sheet (number of it in its layout, of how many), stock, form, sheet_length_mm, sheet_width_mm, cut, kind (trim,
cut, or apart: what is cut from a run or bundle last), way, fence_mm, from_mm, to_mm, at_mm (near side of the saw cut),
kerf_mm, and the parts that come off. A text that a spreadsheet would take for a formula has an apostrophe before it.
"""

import csv
import io
from collections.abc import Iterator
from typing import Final

from evenface.documents.display import titles_of
from evenface.documents.parts_csv import safe_cell
from evenface.layouts import Cut, Layout, Sheet, cut_apart, labels_of
from evenface.result import Result
from evenface.units import from_grid, number_text

COLUMNS: Final = (
    *("material", "title", "sheet", "of", "stock", "form", "sheet_length_mm", "sheet_width_mm"),
    *("cut", "kind", "way", "fence_mm", "from_mm", "to_mm", "at_mm", "kerf_mm", "comes_off"),
)

type Cell = str | int | float


def cuts_text(result: Result) -> str:
    """The whole file as text, byte order mark first."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for row in cut_rows(result):
        writer.writerow([_exact(cell) for cell in row])
    return "\ufeff" + out.getvalue()


def cut_rows(result: Result) -> Iterator[tuple[Cell, ...]]:
    """Every cut of every layout as a row: texts, whole numbers and lengths in mm."""
    titles = titles_of(result)
    for layout in result.layouts:
        for number, sheet in enumerate(layout.sheets, start=1):
            head = _head(layout, titles.get(layout.material, layout.material), number, sheet)
            for row in _cuts(sheet):
                yield (*head, *row)


def _head(layout: Layout, title: str, number: int, sheet: Sheet) -> tuple[Cell, ...]:
    wide: Cell = from_grid(sheet.width)
    if sheet.form == "stick":
        wide = from_grid(layout.section.width) if layout.section is not None else ""
    of = len(layout.sheets)
    return layout.material, title, number, of, sheet.stock, sheet.form, from_grid(sheet.length), wide


def _cuts(sheet: Sheet) -> Iterator[tuple[Cell, ...]]:
    free: dict[int, list[str]] = {}
    for label in labels_of(sheet):
        free.setdefault(label.after_cut, []).append(label.part)
    for cut in sheet.cuts:
        kind = "trim" if cut.stage == 0 else "cut"
        yield cut.number, kind, cut.axis, *_lengths(cut), ", ".join(free.get(cut.number, ()))
    for one in cut_apart(sheet):
        yield one.cut.number, "apart", one.cut.axis, *_lengths(one.cut), ", ".join(one.off)


def _lengths(cut: Cut) -> tuple[float, ...]:
    return tuple(from_grid(one) for one in (cut.fence, cut.from_, cut.to_, cut.position, cut.kerf))


def _exact(cell: Cell) -> str:
    return number_text(cell, 2) if isinstance(cell, float) else safe_cell(cell)
