"""`layouts.xlsx`: parts, layouts, cuts and buying list as sheets of one workbook, in mm.

openpyxl is an extra and is looked for only here. Texts are stored as texts and marked so: none is ever taken for a
formula, not even when its cell is opened and closed again. The same result gives the same bytes.
"""

import io
import re
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, time
from typing import TYPE_CHECKING, Any, Final

from evenface.documents import cuts_csv, parts_csv
from evenface.documents.cuts_csv import Cell, cut_rows
from evenface.documents.display import sentence, titles_of
from evenface.documents.layout_tables import sureness, used
from evenface.documents.parts_csv import part_rows
from evenface.errors import EvenfaceError
from evenface.result import Result
from evenface.units import from_grid
from evenface.words import ENGLISH, Manner

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell as BookCell

LAYOUT_COLUMNS: Final = (
    *("material", "title", "sheet", "of", "stock", "form", "length_mm", "width_mm", "pieces", "cuts"),
    *("pieces_m2", "rests_m2", "trims_m2", "saw_cuts_m2", "used_percent", "could_it_be_less", "second_check"),
)
BUYING_COLUMNS: Final = ("material", "title", "form", "length_mm", "width_mm", "amount", "unit", "note")
_LONGEST_TEXT: Final = 32_000
_CONTROL: Final = re.compile("[\\x00-\\x08\\x0b\\x0c\\x0e-\\x1f\\ufffe\\uffff\\ud800-\\udfff]")
_SAVED: Final = re.compile(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*(</dcterms:)")


class NoWorkbookWriter(EvenfaceError):
    """A workbook was asked for, but the library that writes it is not installed."""


def workbook_of(result: Result, day: date, manner: Manner = ENGLISH) -> bytes:
    """The workbook as bytes; `day` is when it says it was made. Raises NoWorkbookWriter without openpyxl."""
    try:
        import openpyxl  # an extra: only who asks for a workbook needs it
    except ImportError as error:
        raise NoWorkbookWriter(
            "writing a workbook needs openpyxl, which is not installed; try: pip install 'evenface[sheets]'"
        ) from error
    book = openpyxl.Workbook(write_only=True)
    for name, columns, rows in (
        ("parts", parts_csv.COLUMNS, part_rows(result)),
        ("layouts", LAYOUT_COLUMNS, _layout_rows(result, manner)),
        ("cuts", cuts_csv.COLUMNS, cut_rows(result)),
        ("buying", BUYING_COLUMNS, _buying_rows(result)),
    ):
        _fill(book.create_sheet(name), columns, rows)
    out = io.BytesIO()
    book.save(out)
    return _without_clock(out.getvalue(), day)


def _fill(sheet: Any, columns: Sequence[str], rows: Iterable[Sequence[Cell]]) -> None:
    sheet.freeze_panes = "A2"
    for number, column in enumerate(columns):
        sheet.column_dimensions[_letters(number)].width = max(10, len(column) + 2)
    sheet.append([_as_text(sheet, column) for column in columns])
    for row in rows:
        sheet.append([_as_text(sheet, cell) if isinstance(cell, str) else cell for cell in row])


def _letters(number: int) -> str:
    """Name of a column counted from 0: A to Z, AA to ZZ."""
    first, last = divmod(number, 26)
    return (chr(64 + first) if first else "") + chr(65 + last)


def _as_text(sheet: Any, text: str) -> "BookCell":
    from openpyxl.cell import WriteOnlyCell

    cell: BookCell = WriteOnlyCell(sheet, "")
    cell.value = _CONTROL.sub(" ", text)[:_LONGEST_TEXT]
    cell.data_type = "s"  # whatever it begins with
    cell.quotePrefix = True
    return cell


def _layout_rows(result: Result, manner: Manner) -> Iterator[tuple[Cell, ...]]:
    """One row a sheet; areas in m², of sticks lengths in m."""
    titles = titles_of(result)
    for layout in result.layouts:
        for number, sheet in enumerate(layout.sheets, start=1):
            stick = sheet.form == "stick"
            share = 100_000 if stick else 10_000_000_000
            areas = (sheet.pieces_area, sheet.offcuts_area, sheet.trims_area, sheet.kerf_area)
            yield (
                layout.material,
                titles.get(layout.material, layout.material),
                number,
                len(layout.sheets),
                sheet.stock,
                sheet.form,
                from_grid(sheet.length),
                "" if stick else from_grid(sheet.width),
                sum(len(piece.apart) for piece in sheet.placed),
                len(sheet.cuts),
                *(round(area / share, 6) for area in areas),
                round(100 * used(layout), 1),
                sureness(layout, manner),
                "checked" if layout.checked else "not checked",
            )


def _buying_rows(result: Result) -> Iterator[tuple[Cell, ...]]:
    for row in result.buying:
        sizes = row.size_mm or (None, None)
        long, wide = ("" if one is None else one for one in sizes)
        yield row.material, row.title, row.form, long, wide, row.amount, row.unit, sentence(row.note)


def _without_clock(content: bytes, day: date) -> bytes:
    """The same workbook with the day given in place of the moment it was saved."""
    moment = datetime.combine(day, time()).isoformat().encode() + b"Z"
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as old,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            body = old.read(name)
            if name == "docProps/core.xml":
                body = _SAVED.sub(rb"\g<1>" + moment + rb"\g<2>", body)
            entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
            entry.compress_type = zipfile.ZIP_DEFLATED
            new.writestr(entry, body)
    return out.getvalue()
