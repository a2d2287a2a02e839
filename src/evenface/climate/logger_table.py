"""The table inside a logger's file: its coding, separator, heading and rows, each with its line."""

import csv
import re
from dataclasses import dataclass
from typing import Final

from evenface.errors import Complaint, FileError, Place, Sentence
from evenface.words import said

MOST_COMPLAINTS: Final = 20
_LONGEST_LINE: Final = 10_000

_TIME: Final = re.compile(r"date|time|datum|zeit|\btid\b|klocka", re.IGNORECASE)
_TEMPERATURE: Final = re.compile(r"temp|°\s*[cf]|℃|℉|^\s*[cf]\s*$", re.IGNORECASE)
_HUMIDITY: Final = re.compile(r"hum|feuch|fukt|\brf\b|\brh\b|%", re.IGNORECASE)
_DEW: Final = re.compile(r"dew|tau|dagg", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Columns:
    """Where in a row time (one or two cells), temperature and humidity stand; and its length."""

    times: tuple[int, ...]
    temperature: int
    humidity: int
    count: int


@dataclass(frozen=True, slots=True)
class Row:
    """One row as written, with its line in the file."""

    line: int
    stamp: str
    temperature: str
    humidity: str


def decoded(raw: bytes, spot: Place) -> str:
    """Text of a file in UTF-8, UTF-16 or the Windows code page. Raises FileError for binary data."""
    code = "utf-16" if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else "utf-8-sig"
    try:
        text = raw.decode(code)
    except UnicodeDecodeError:
        # older loggers write the ° of °C in the Windows code page
        text = raw.decode("cp1252", errors="replace")
    if "\x00" in text:
        raise FileError([Complaint(spot, "a text file", "binary data", "Export the readings as CSV.")])
    return text


def table(text: str, file: str) -> tuple[list[Row], Columns, list[str]]:
    """Rows, columns and heading; lines before the heading are passed over.

    Raises FileError naming the line when there is no heading, no row, or a row of the wrong length.
    """
    lines = text.splitlines()
    for number, line in enumerate(lines, 1):
        if len(line) > _LONGEST_LINE:
            raise FileError(
                [at(file, number, "lines of readings", said("a line of {count} characters", count=len(line)))]
            )
    for start, line in enumerate(lines[:50]):
        separator = max(";\t,", key=line.count)
        heading = _split(line, separator)
        if len(heading) > 1 and (columns := _columns(heading)):
            return _rows(lines, start, separator, columns, file), columns, heading
    raise FileError(
        [
            Complaint(
                Place(file, line=1),
                "a heading that names time, temperature and humidity",
                repr(lines[0][:60]) if lines else "an empty file",
                "Such as: time;temperature °C;humidity %",
            )
        ]
    )


def _split(line: str, separator: str) -> list[str]:
    return [cell.strip() for cell in next(csv.reader([line], delimiter=separator), [])]


def _columns(heading: list[str]) -> Columns | None:
    usable = [i for i, cell in enumerate(heading) if not _DEW.search(cell)]
    warm = [i for i in usable if _TEMPERATURE.search(heading[i]) and not _HUMIDITY.search(heading[i])]
    damp = [i for i in usable if _HUMIDITY.search(heading[i])]
    times = [i for i in usable if _TIME.search(heading[i]) and i not in warm and i not in damp]
    if not (warm and damp and times):
        return None
    return Columns(tuple(times[:2]), warm[0], damp[0], len(heading))


def _rows(lines: list[str], start: int, separator: str, columns: Columns, file: str) -> list[Row]:
    rows, complaints = [], []
    for number, line in enumerate(lines[start + 1 :], start + 2):
        if not line.strip():
            continue
        cells = _split(line, separator)
        if len(cells) > columns.count and separator == "," and any(cells[columns.count :]):
            hint = "Decimal commas need another separator: export with semicolons."
            complaints.append(
                at(file, number, said("{count} cells", count=columns.count), str(len(cells)), hint)
            )
        elif len(cells) <= max(*columns.times, columns.temperature, columns.humidity):
            complaints.append(at(file, number, said("{count} cells", count=columns.count), str(len(cells))))
        else:
            stamp = " ".join(cells[i] for i in columns.times).strip()
            rows.append(Row(number, stamp, cells[columns.temperature], cells[columns.humidity]))
        if len(complaints) == MOST_COMPLAINTS:
            break
    if complaints:
        raise FileError(complaints)
    if not rows:
        raise FileError([Complaint(Place(file, line=start + 2), "readings below the heading", "none")])
    return rows


def at(file: str, line: int, expected: Sentence, given: Sentence, hint: Sentence = "") -> Complaint:
    """A complaint about one line."""
    return Complaint(Place(file, line=line), expected, given, hint)
