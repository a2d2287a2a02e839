"""An entry by its key path, as the file has it: one word or figure, or a list in one field."""

from dataclasses import replace
from typing import Any, Final

from evenface.errors import Unreadable
from evenface.interfaces.web.entries import LENGTH, LIST, Entry, Held, found, shown_value
from evenface.words import Manner


def two_lengths(words: list[str]) -> None:
    """Whether those are a length and a width. Raises ValueError."""
    if len(words) != 2:
        raise Unreadable("length x width, such as 2500 x 1250", repr(" x ".join(words)[:40]))


PAIR: Final = Held(LENGTH, " x ", two_lengths)
"""Length and width in one field."""


def _year(words: list[str]) -> None:
    if len(words) not in (1, 12):
        raise Unreadable("one value, or twelve from January to December", repr("; ".join(words)[:60]))


YEAR: Final = Held(between="; ", check=_year, bare=True)
"""One value for the whole year, or twelve."""


def pair_such_as(length_mm: float, width_mm: float, manner: Manner) -> str:
    """An example of a length and a width, in the reader's units."""
    one = 25.4 if manner.system == "inch" else 1.0
    return f"{manner.translate('such as')} {length_mm / one:.0f} x {width_mm / one:.0f}"


def entry_at(
    data: Any, path: str, label: str, kind: str, manner: Manner, usual: str = "", choices: tuple[str, ...] = (),
    needed: bool = False, holds: Held | None = None, whose: str = "",
) -> Entry:  # fmt: skip
    """The entry at that path of the job's tables. holds : of a list, what it holds."""
    value = found(data, path)
    if kind != LIST or holds is None:
        return Entry(
            path, label, shown_value(value, kind, manner), kind, usual, choices, needed=needed, whose=whose
        )
    many = value if isinstance(value, list) else [] if value is None else [value]
    shown = holds.between.join(shown_value(one, holds.kind, manner) for one in many)
    here = replace(holds, bare=holds.bare and not isinstance(value, list))
    return Entry(path, label, shown, kind, usual, needed=needed, holds=here, whose=whose)
