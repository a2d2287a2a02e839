"""Kinds of entry of a job file, checked as they are read: lengths, humidities, words, counts."""

import math
from datetime import date
from typing import Annotated, Final

from pydantic import AfterValidator, BeforeValidator, Field

from evenface.errors import Unreadable
from evenface.piece.showing import shown
from evenface.units import LONGEST_MM, read_length
from evenface.words import Own, said

LONGEST_TEXT: Final = 200
COLDEST_C, HOTTEST_C = -60.0, 60.0
MONTHS: Final = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip


def _size(given: object) -> float:
    length = read_length(given)
    if length <= 0:
        raise Unreadable("a length above 0", said("{length:g}", length=length))
    return _within(length)


def _size_or_none(given: object) -> float:
    length = read_length(given)
    if length < 0:
        raise Unreadable("a length of 0 or more", said("{length:g}", length=length))
    return _within(length)


def _within(length: float) -> float:
    if abs(length) > LONGEST_MM:
        raise Unreadable("a length of at most 20 m", said("{length:g} m", length=length / 1000))
    return length


def _humidity(given: object) -> float:
    """A fraction of 0 to 1, or a text in percent."""
    if isinstance(given, str):
        number = given.strip().removesuffix("%").strip().replace(",", ".")
        try:
            share = float(number) / 100.0
        except ValueError:
            raise Unreadable('a humidity such as "45 %"', shown(given)) from None
    elif isinstance(given, int | float) and not isinstance(given, bool) and abs(given) < 1e9:
        share = float(given)
        if share > 1.0:
            raise Unreadable('a fraction such as 0.45, or a text such as "45 %"', str(given))
    else:
        raise Unreadable('a humidity such as "45 %"', shown(given))
    if not (math.isfinite(share) and 0.0 < share < 1.0):
        raise Unreadable("a humidity between 0 and 100 %", shown(given))
    return share


def _number(given: object) -> float:
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise Unreadable("a number", shown(given))
    if abs(given) > 1e12 or not math.isfinite(given):
        raise Unreadable("a plain number", "one that is not finite or far too large")
    return float(given)


def _positive(number: float) -> float:
    if number <= 0:
        raise Unreadable("a number above 0", said("{number:g}", number=number))
    return number


def _count(given: object) -> int:
    if isinstance(given, bool) or not isinstance(given, int) or not 1 <= given <= 10_000:
        shown = "a far larger number" if isinstance(given, int) and abs(given) > 10**9 else repr(given)
        raise Unreadable("a whole number from 1 to 10000", shown)
    return given


def _line(given: object) -> str:
    """A text of one line, empty or not."""
    if not isinstance(given, str):
        raise Unreadable("a text", shown(given))
    text = given.strip()
    if len(text) > LONGEST_TEXT or (text and not text.isprintable()):
        raise Unreadable(said("at most {most} printable characters", most=LONGEST_TEXT), shown(text[:40]))
    return text


def _day(given: object) -> str:
    """A date, as TOML writes it or as a text."""
    text = given.isoformat() if isinstance(given, date) else given
    try:
        return date.fromisoformat(str(text)[:10] if isinstance(text, str) else "").isoformat()
    except ValueError:
        raise Unreadable("a date such as 2027-03-12", shown(given)) from None


def _currency(given: object) -> str:
    if isinstance(given, str) and len(given) == 3 and given.isascii() and given.isalpha():
        return given.upper()
    raise Unreadable('the three letters of a currency such as "EUR"', shown(given))


def _temperature(given: object) -> float:
    number = _number(given)
    if not COLDEST_C <= number <= HOTTEST_C:
        raise Unreadable("a temperature in °C from -60 to 60", said("{number:g}", number=number))
    return number


def _word(given: object) -> str:
    if not isinstance(given, str):
        raise Unreadable("a text", shown(given))
    text = given.strip()
    if not text:
        raise Unreadable("a text", "an empty one")
    if len(text) > LONGEST_TEXT or not text.isprintable():
        raise Unreadable(
            said("at most {most} printable characters", most=LONGEST_TEXT),
            said("{text}...", text=repr(text[:40])),
        )
    return text


def _month(given: object) -> int:
    if isinstance(given, str):
        near = [
            number
            for number, name in enumerate(MONTHS, start=1)
            if len(given) >= 3 and name.startswith(given.lower())
        ]
        if len(near) == 1:
            return near[0]
    elif isinstance(given, int) and not isinstance(given, bool) and 1 <= given <= 12:
        return given
    raise Unreadable('a month such as "september" or 9', shown(given))


def _file_name(given: object) -> str:
    """A file in the job's own folder: no folders, no way out."""
    name = _word(given)
    if (
        name != name.replace("\\", "/").split("/")[-1]
        or name in (".", "..")
        or ":" in name
        or name.startswith("~")
    ):
        raise Unreadable("the name of a file in the job's own folder", shown(given))
    return name


Size = Annotated[float, BeforeValidator(_size)]
"""A length above 0."""
SizeOrNone = Annotated[float, BeforeValidator(_size_or_none)]
"""A length of 0 or more."""
Spot = Annotated[float, BeforeValidator(read_length), AfterValidator(_within)]
"""A position: a length of either sign."""
Humidity = Annotated[float, BeforeValidator(_humidity)]
Number = Annotated[float, BeforeValidator(_number)]
Positive = Annotated[float, BeforeValidator(_number), AfterValidator(_positive)]
Count = Annotated[int, BeforeValidator(_count)]
Word = Annotated[str, BeforeValidator(_word), AfterValidator(Own)]
Month = Annotated[int, BeforeValidator(_month)]
Line = Annotated[str, BeforeValidator(_line)]
Day = Annotated[str, BeforeValidator(_day)]
Currency = Annotated[str, BeforeValidator(_currency)]
Temperature = Annotated[float, BeforeValidator(_temperature)]
FileName = Annotated[str, BeforeValidator(_file_name)]
Flag = Annotated[bool, Field(strict=True)]
