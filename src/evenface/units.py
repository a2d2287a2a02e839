"""Lengths at the border: reading what a maker writes, and writing what a maker reads.

Takes: numbers and texts with units.
Gives: millimetres as float inside; whole hundredths of a millimetre for layouts.
May import: nothing.
Start reading at: `read_length`.
"""

import math
import re
from fractions import Fraction
from itertools import pairwise
from typing import Final

MM_PER_INCH: Final = 25.4
GRID_PER_MM: Final = 100
"""Layouts count in hundredths of a millimetre: 3/4 in = 19.05 mm must stand on the grid."""
LONGEST_MM: Final = 20_000.0
"""No part is longer; a larger figure is a slip of the unit."""

NEAR_A_64TH: Final = 0.05
"""A thin thing is called by its 64th where that is no further off than this share of it."""

_NUMBER = r"(?:\d+/\d+|\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?|[.,]\d+)"
_TERM = re.compile(
    rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>mm|cm|m|inches|inch|in|tum|feet|foot|ft|\"|''|')?\s*",
    re.IGNORECASE,
)
_UNIT_MM: Final = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    "tum": MM_PER_INCH,
    '"': MM_PER_INCH,
    "''": MM_PER_INCH,
    "ft": 12 * MM_PER_INCH,
    "foot": 12 * MM_PER_INCH,
    "feet": 12 * MM_PER_INCH,
    "'": 12 * MM_PER_INCH,
}


def read_length(given: object) -> float:
    """Millimetres of a number (mm) or of a text such as "18 mm", "3/4 in" or "2 ft 6 1/2 in".

    Raises ValueError with a sentence saying what was expected when the text is not a length,
    when units of both systems are mixed, or when the number is not finite.
    """
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise ValueError(f'expected a length such as 18, "18 mm" or "3/4 in", was given {_shown(given)}')
    if isinstance(given, int):
        if abs(given) > 10**9:
            raise ValueError("expected a length of at most 20 m, was given a far larger number")
        return float(given)
    if isinstance(given, float):
        if not math.isfinite(given):
            raise ValueError(f"expected a length, was given {given}")
        return given
    return _read_text(given)


def _read_text(text: str) -> float:
    sign = 1.0
    rest = text.strip()
    if rest[:1] in "+-−" and rest:
        sign = -1.0 if rest[0] != "+" else 1.0
        rest = rest[1:]
    terms: list[tuple[float, str]] = []
    while rest and len(rest) < 60:
        match = _TERM.match(rest)
        if match is None or match.end() == 0:
            break
        terms.append((_number(match["number"]), (match["unit"] or "").lower()))
        rest = rest[match.end() :]
    if rest or not terms:
        raise ValueError(f'expected a length such as 18, "18 mm" or "3/4 in", was given {_shown(text)}')
    return sign * _sum_of_terms(terms, text)


def _sum_of_terms(terms: list[tuple[float, str]], text: str) -> float:
    if len(terms) == 1:
        number, unit = terms[0]
        return round(number * _UNIT_MM.get(unit, 1.0), 9)
    factors = [_UNIT_MM.get(unit) for _, unit in terms]
    imperial = all(factor in (MM_PER_INCH, 12 * MM_PER_INCH) for factor in factors)
    falling = all(a is not None and b is not None and a > b for a, b in pairwise(factors))
    if not (imperial and falling):
        raise ValueError(f'expected one length, for example "2 ft 6 1/2 in", was given {_shown(text)}')
    return round(
        sum(number * factor for (number, _), factor in zip(terms, factors, strict=True) if factor), 9
    )


def _number(text: str) -> float:
    total = Fraction(0)
    for word in text.replace(",", ".").split():
        if word.endswith("/0") or re.search(r"/0+$", word):
            raise ValueError(f"expected a length, was given a fraction over zero: {text!r}")
        total += Fraction(word)
    return float(total)


def _shown(given: object) -> str:
    shown = repr(given)
    return shown if len(shown) <= 60 else shown[:57] + "..."


def grid_up(length_mm: float) -> int:
    """Whole hundredths of a millimetre, rounded up: for blanks and kerfs."""
    return math.ceil(round(length_mm * GRID_PER_MM, 6))


def grid_down(length_mm: float) -> int:
    """Whole hundredths of a millimetre, rounded down: for stock."""
    return math.floor(round(length_mm * GRID_PER_MM, 6))


def from_grid(count: int) -> float:
    """Millimetres of a count of hundredths."""
    return count / GRID_PER_MM


def length_text(length_mm: float, system: str = "mm", decimals: int = 1) -> str:
    """A length as a maker reads it, with its unit: "621.4 mm" or "24 15/32 in".

    system : "mm" or "inch" (to the nearest 1/64, in lowest terms; below 1/16 in thousandths where no 64th is near:
    a glue line is 0.004 in, not 0).
    decimals : most decimals shown in mm; trailing zeros are dropped. Halves are rounded away from zero, so that a
    size reads the same in sentences, tables and drawings.
    """
    return f"{length_figure(length_mm, system, decimals)} {'in' if system == 'inch' else 'mm'}"


def length_figure(length_mm: float, system: str = "mm", decimals: int = 1) -> str:
    """The same without its unit, for tables and drawings."""
    if system == "inch":
        return _inch_text(length_mm)
    return number_text(_halves_up(length_mm, decimals), decimals)


def _halves_up(number: float, decimals: int) -> float:
    if not math.isfinite(number):
        return number
    steps = math.floor(abs(number) * 10**decimals + 0.5 + 1e-9)
    return math.copysign(steps / 10**decimals, number)


def number_text(number: float, decimals: int = 1) -> str:
    """A plain number with at most `decimals` decimals and no trailing zeros."""
    text = f"{number:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _inch_text(length_mm: float) -> str:
    inches = abs(length_mm) / MM_PER_INCH
    sixty_fourths = round(inches * 64)
    if 0.0005 <= inches < 1 / 16 and abs(sixty_fourths / 64 - inches) > NEAR_A_64TH * inches:
        return number_text(math.copysign(inches, length_mm), 3)
    whole, rest = divmod(sixty_fourths, 64)
    sign = "-" if length_mm < 0 and sixty_fourths else ""
    if not rest:
        return f"{sign}{whole}"
    part = Fraction(rest, 64)
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"
