"""The rack as a table of texts: the columns, how each is read, and how it is written so that it reads the same."""

import re
from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal, InvalidOperation
from typing import Any, Final

from evenface.errors import Sentence, in_words, nearest_words, one_of, parts_of
from evenface.store.rack_codes import code_text, read_code
from evenface.store.rack_records import FACES, FORMS, GRAINS, STATES, Defect, Left, RackItem
from evenface.units import read_length
from evenface.words import said

_RISKY: Final = tuple("=+-@\t\r\n＝＋－＠")
MOST_COPIES: Final = 500
_SIZE: Final = re.compile(r"^(.+?)\s*[x×]\s*(.+)$", re.IGNORECASE)
_DEFECT: Final = re.compile(
    r"^(?P<kind>[^\d;]*?)\s*(?P<size>[\d.,]+\s*[x×]\s*[\d.,]+)\s+at\s+(?P<at>[\d.,]+\s*[x×]\s*[\d.,]+)$"
)


class BadCell(Exception):
    """A cell that cannot be read: what was expected, and what to try."""

    def __init__(self, expected: Sentence, hint: Sentence = "") -> None:
        super().__init__(in_words(expected))
        self.expected, self.hint = expected, hint


def shielded(text: str) -> str:
    """A cell that no spreadsheet takes for a formula; `unshielded` gives the text back."""
    return "'" + text if text.lstrip("' ").startswith(_RISKY) else text


def unshielded(cell: str) -> str:
    """The text of a cell written by `shielded`."""
    return cell[1:] if cell.startswith("'") and cell[1:].lstrip("' ").startswith(_RISKY) else cell


def _text(cell: str) -> str:
    return cell.strip()


def _word(known: tuple[str, ...]) -> Callable[[str], str]:
    def read(cell: str) -> str:
        word = cell.strip().lower().replace(" ", "_")
        if word not in known:
            raise BadCell(one_of(known), nearest_words(word, known))
        return word

    return read


def _size(cell: str) -> int:
    try:
        mm = read_length(cell)
    except ValueError as problem:
        raise BadCell('a length in mm or with its unit, such as 2440, "18.4 mm" or "3/4 in"') from problem
    if not 0 < mm <= 200_000:
        raise BadCell("a length above 0, at most 200 m")
    return round(mm * 100)


def _two(cell: str) -> tuple[int, int]:
    found = _SIZE.match(cell.strip())
    if found is None:
        raise BadCell('two sizes, such as "600 x 400"')
    return _size(found[1]), _size(found[2])


def _least(cell: str) -> tuple[int, int]:
    one, other = _two(cell)
    return min(one, other), max(one, other)


def _money(cell: str) -> Decimal:
    text = cell.replace(" ", "").replace("\u00a0", "")
    if text.count(",") == 1 and "." not in text:
        text = text.replace(",", ".")
    try:
        money = Decimal(text)
    except InvalidOperation as problem:
        raise BadCell("an amount such as 720 or 720.50, without a currency sign") from problem
    if not money.is_finite() or not 0 <= money <= 10_000_000:
        raise BadCell("an amount from 0 to 10 000 000")
    return money


def _moisture(cell: str) -> float:
    text = cell.strip().removesuffix("%").strip().replace(",", ".")
    try:
        percent = Decimal(text)
    except InvalidOperation as problem:
        raise BadCell("moisture in percent, such as 8.5") from problem
    if not percent.is_finite() or not 0 <= percent <= 200:
        raise BadCell("moisture from 0 to 200 percent of the dry mass")
    return float(percent / 100)


def _day(cell: str) -> date:
    try:
        return date.fromisoformat(cell.strip()[:10])
    except ValueError as problem:
        raise BadCell("a day such as 2027-01-11") from problem


def _code(cell: str) -> str:
    try:
        return read_code(cell)
    except ValueError as problem:
        raise BadCell(parts_of(problem)[0]) from problem


def _count(cell: str) -> int:
    text = cell.strip()
    if not text.isascii() or not text.isdigit() or not 1 <= int(text[:6]) <= MOST_COPIES:
        raise BadCell(said("a whole number from 1 to {most}", most=MOST_COPIES))
    return int(text)


def _many[T](one: Callable[[str], T]) -> Callable[[str], tuple[T, ...]]:
    return lambda cell: tuple(one(entry) for entry in cell.split(";") if entry.strip())


def _left(cell: str) -> Left:
    return Left(*_two(cell))


def _defect(cell: str) -> Defect:
    found = _DEFECT.match(cell.strip())
    if found is None:
        raise BadCell('defects such as "knot 60 x 40 at 900 x 50; split 300 x 5 at 1 x 90"')
    x_y = _SIZE.match(found["at"])
    assert x_y is not None  # it is part of the expression
    at = (_corner(x_y[1]), _corner(x_y[2]))
    return Defect(*at, *_two(found["size"]), found["kind"].strip() or "knot")


def _corner(cell: str) -> int:
    return 0 if cell.strip() == "0" else _size(cell)


READ: Final[Mapping[str, Callable[[str], Any]]] = {
    "code": _code,
    "form": _word(FORMS),
    "material": _text,
    "length": _size,
    "width": _size,
    "thickness": _size,
    "batch": _text,
    "grain": _word(GRAINS),
    "faces": _word(FACES),
    "moisture": _moisture,
    "moisture_on": _day,
    "place": _text,
    "price": _money,
    "currency": _text,
    "value": _money,
    "least": _least,
    "received": _day,
    "defects": _many(_defect),
    "notes": _text,
    "state": _word(STATES),
    "reserved_for": _text,
    "parent": _code,
    "planned": _many(_left),
}
"""Every column by its name, in the order they are written; sizes in mm, moisture in percent. The photo is not one:
a file brought in from elsewhere does not name files here."""
COPIES: Final = "copies"
READ_ONLY: Final[Mapping[str, Callable[[str], Any]]] = {COPIES: _count}
"""Columns that may be brought in and are never written: so many like it, each with a code of its own."""
NEEDED: Final = ("form", "material", "length", "width")
"""Columns without which nothing can be booked in."""


def cells_of(item: RackItem) -> dict[str, str]:
    """The texts of one item, by column; not shielded."""
    plain = {name: getattr(item, name) for name in READ}
    plain["code"] = code_text(item.code) if item.code else ""
    plain["parent"] = code_text(item.parent) if item.parent else ""
    for name in ("length", "width", "thickness"):
        plain[name] = "" if plain[name] is None else _mm(plain[name])
    for name in ("price", "value", "moisture_on", "received"):
        plain[name] = "" if plain[name] is None else str(plain[name])
    plain["moisture"] = "" if item.moisture is None else _percent(item.moisture)
    plain["least"] = "" if item.least is None else _by(*item.least)
    plain["planned"] = "; ".join(_by(rest.length, rest.width) for rest in item.planned)
    plain["defects"] = "; ".join(
        f"{d.kind} {_by(d.length, d.width)} at {_by(d.x, d.y)}" for d in item.defects
    )
    return plain


def _mm(hundredths: int) -> str:
    whole, rest = divmod(hundredths, 100)
    return f"{whole}.{rest:02d}".rstrip("0").rstrip(".") if rest else str(whole)


def _by(one: int, other: int) -> str:
    return f"{_mm(one)} x {_mm(other)}"


def _percent(share: float) -> str:
    return format((Decimal(repr(share)) * 100).normalize(), "f")
