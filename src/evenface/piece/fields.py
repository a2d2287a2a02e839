"""Kinds of entry of a job file, checked as they are read: lengths, humidities, words, counts."""

import math
from typing import Annotated, Final

from pydantic import AfterValidator, BeforeValidator, Field

from evenface.units import LONGEST_MM, read_length

LONGEST_TEXT: Final = 200
MONTHS: Final = (
    "january", "february", "march", "april", "may", "june",
    "july", "august", "september", "october", "november", "december",
)  # fmt: skip


def _size(given: object) -> float:
    length = read_length(given)
    if length <= 0:
        raise ValueError(f"expected a length above 0, was given {length:g}")
    return _within(length)


def _size_or_none(given: object) -> float:
    length = read_length(given)
    if length < 0:
        raise ValueError(f"expected a length of 0 or more, was given {length:g}")
    return _within(length)


def _within(length: float) -> float:
    if abs(length) > LONGEST_MM:
        raise ValueError(f"expected a length of at most 20 m, was given {length / 1000:g} m")
    return length


def _humidity(given: object) -> float:
    """A fraction of 0 to 1, or a text in percent."""
    if isinstance(given, str):
        number = given.strip().removesuffix("%").strip().replace(",", ".")
        try:
            share = float(number) / 100.0
        except ValueError:
            raise ValueError(f'expected a humidity such as "45 %", was given {given!r}') from None
    elif isinstance(given, int | float) and not isinstance(given, bool):
        share = float(given)
        if share > 1.0:
            raise ValueError(f'expected a fraction such as 0.45, or a text such as "45 %", was given {given}')
    else:
        raise ValueError(f'expected a humidity such as "45 %", was given {given!r}')
    if not (math.isfinite(share) and 0.0 < share < 1.0):
        raise ValueError(f"expected a humidity between 0 and 100 %, was given {given!r}")
    return share


def _number(given: object) -> float:
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise ValueError(f"expected a number, was given {given!r}")
    if abs(given) > 1e12 or not math.isfinite(given):
        raise ValueError("expected a plain number, was given one that is not finite or far too large")
    return float(given)


def _positive(number: float) -> float:
    if number <= 0:
        raise ValueError(f"expected a number above 0, was given {number:g}")
    return number


def _count(given: object) -> int:
    if isinstance(given, bool) or not isinstance(given, int) or not 1 <= given <= 10_000:
        shown = "a far larger number" if isinstance(given, int) and abs(given) > 10**9 else repr(given)
        raise ValueError(f"expected a whole number from 1 to 10000, was given {shown}")
    return given


def _word(given: object) -> str:
    if not isinstance(given, str):
        raise ValueError(f"expected a text, was given {given!r}")
    text = given.strip()
    if not text:
        raise ValueError("expected a text, was given an empty one")
    if len(text) > LONGEST_TEXT or not text.isprintable():
        raise ValueError(f"expected at most {LONGEST_TEXT} printable characters, was given {text[:40]!r}...")
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
    raise ValueError(f'expected a month such as "september" or 9, was given {given!r}')


def _file_name(given: object) -> str:
    """A file in the job's own folder: no folders, no way out."""
    name = _word(given)
    if (
        name != name.replace("\\", "/").split("/")[-1]
        or name in (".", "..")
        or ":" in name
        or name.startswith("~")
    ):
        raise ValueError(f"expected the name of a file in the job's own folder, was given {given!r}")
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
Word = Annotated[str, BeforeValidator(_word)]
Month = Annotated[int, BeforeValidator(_month)]
FileName = Annotated[str, BeforeValidator(_file_name)]
Flag = Annotated[bool, Field(strict=True)]
