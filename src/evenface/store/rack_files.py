"""Tables in files: CSV as spreadsheets write it, and XLSX, each looked at for size before anything is read."""

import csv
import io
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from evenface.errors import Complaint, FileError, Place, Sentence
from evenface.store.rack_columns import READ, cells_of, shielded
from evenface.store.rack_import import Row
from evenface.store.rack_records import RackError, RackItem
from evenface.words import said

if TYPE_CHECKING:
    from openpyxl.cell.cell import Cell

LARGEST_FILE: Final = 5_000_000
LARGEST_UNPACKED: Final = 60_000_000
MOST_ROWS: Final = 20_000
MOST_COLUMNS: Final = 60
MOST_IN_CELL: Final = 4_000
_CHUNK: Final = 65_536


def read_rows(path: Path) -> tuple[Row, ...]:
    """The rows of a .csv or .xlsx file as texts, with their numbers. Raises FileError."""
    ending = path.suffix.lower()
    if ending not in (".csv", ".xlsx"):
        raise _wrong(path, "a file that ends in .csv or .xlsx", repr(path.name))
    try:
        size = path.stat().st_size
        if size > LARGEST_FILE:
            raise _wrong(
                path,
                said("at most {most} MB", most=LARGEST_FILE // 1000000),
                said("{size:.1f} MB", size=size / 1e6),
            )
        content = path.read_bytes()
    except OSError as problem:
        raise _wrong(path, "a file that can be read", str(problem.strerror or problem)) from problem
    rows = _csv_rows(path, content) if ending == ".csv" else _xlsx_rows(path, content)
    return tuple(_within_bounds(path, rows))


def _within_bounds(path: Path, rows: Iterable[Row]) -> Iterator[Row]:
    for count, (number, cells) in enumerate(rows, start=1):
        if count > MOST_ROWS:
            raise _wrong(path, said("at most {most} rows", most=MOST_ROWS), "more", number)
        while cells and not cells[-1].strip():
            cells.pop()
        if len(cells) > MOST_COLUMNS:
            raise _wrong(
                path,
                said("at most {most} columns", most=MOST_COLUMNS),
                str(len(cells)),
                number,
            )
        if any(len(cell) > MOST_IN_CELL for cell in cells):
            raise _wrong(
                path,
                said("at most {most} signs in a cell", most=MOST_IN_CELL),
                "more",
                number,
            )
        yield number, cells


def _csv_rows(path: Path, content: bytes) -> Iterator[Row]:
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        raise _wrong(
            path,
            "text in UTF-8; save it as 'CSV UTF-8'",
            said("byte {start} that is none", start=problem.start),
        ) from problem
    if "\0" in text:
        raise _wrong(path, "a table of text", "a file with zero bytes")
    head = text.lstrip("\r\n").split("\n", 1)[0]
    delimiter = max(",;\t", key=head.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        for cells in reader:
            yield reader.line_num, cells
    except csv.Error as problem:
        raise _wrong(path, "a CSV table", str(problem), reader.line_num) from problem


def _xlsx_rows(path: Path, content: bytes) -> Iterator[Row]:
    openpyxl = _openpyxl()
    _look_inside(path, content)
    try:
        book = openpyxl.load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
        sheet = book.worksheets[0]
        sheet.reset_dimensions()  # what the file says of its size is not believed
        for number, row in enumerate(
            sheet.iter_rows(max_row=MOST_ROWS + 2, max_col=MOST_COLUMNS + 1), start=1
        ):
            yield number, [_cell_text(cell.value) for cell in row]
        book.close()
    except (
        ValueError,
        KeyError,
        IndexError,
        TypeError,
        AttributeError,
        OSError,
        zipfile.BadZipFile,
    ) as problem:
        raise _wrong(
            path, "a workbook (.xlsx)", said("one that cannot be read ({problem})", problem=str(problem))
        ) from problem


def _look_inside(path: Path, content: bytes) -> None:
    """Refuses what unpacks to too much or brings definitions of its own, before the workbook is opened.

    Sizes are counted while unpacking: what the archive says of them is not believed.
    """
    from defusedxml import DefusedXmlException
    from defusedxml.ElementTree import ParseError, iterparse

    left = LARGEST_UNPACKED
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            for entry in archive.infolist():
                unpacked = io.BytesIO()
                with archive.open(entry) as member:
                    while part := member.read(_CHUNK):
                        left -= len(part)
                        if left < 0:
                            limit = f"a workbook that unpacks to at most {LARGEST_UNPACKED // 1_000_000} MB"
                            raise _wrong(path, limit, "one that unpacks to more")
                        unpacked.write(part)
                if entry.filename.lower().endswith((".xml", ".rels", ".vml")):
                    unpacked.seek(0)
                    for _, element in iterparse(unpacked, forbid_dtd=True):
                        element.clear()
    except DefusedXmlException as problem:
        raise _wrong(
            path, "a workbook without definitions of its own", "one with an entity or a DTD"
        ) from problem
    except (zipfile.BadZipFile, ParseError, NotImplementedError, RuntimeError, EOFError, OSError) as problem:
        raise _wrong(
            path, "a workbook (.xlsx)", said("one that cannot be unpacked ({problem})", problem=str(problem))
        ) from problem


def _cell_text(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.date().isoformat()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    return str(value)


def csv_text(items: Sequence[RackItem]) -> str:
    """The rack as CSV, byte order mark first, as spreadsheets know it."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(READ)
    for item in items:
        writer.writerow([shielded(cell) for cell in cells_of(item).values()])
    return "\ufeff" + out.getvalue()


def xlsx_bytes(items: Sequence[RackItem]) -> bytes:
    """The rack as a workbook: every cell a text, so that nothing is taken for a formula, date or number."""
    openpyxl = _openpyxl()
    book = openpyxl.Workbook(write_only=True)
    sheet = book.create_sheet("rack")
    sheet.freeze_panes = "A2"
    sheet.append(list(READ))
    for item in items:
        sheet.append([_as_text(sheet, shielded(cell)) for cell in cells_of(item).values()])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _as_text(sheet: Any, text: str) -> "Cell":
    from openpyxl.cell import WriteOnlyCell

    cell: Cell = WriteOnlyCell(sheet, "")
    cell.value = text
    cell.data_type = "s"
    return cell


def _openpyxl() -> Any:
    try:
        import defusedxml  # noqa: F401
        import openpyxl
    except ModuleNotFoundError as problem:
        raise RackError(
            said(
                "Workbooks (.xlsx) need {name}: install evenface with the extra 'sheets', or use .csv.",
                name=problem.name or "",
            )
        ) from problem
    return openpyxl


def _wrong(path: Path, expected: Sentence, given: Sentence, line: int = 0) -> FileError:
    return FileError([Complaint(Place(str(path), line), expected, given)])
