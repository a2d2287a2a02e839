"""Time stamps as humidity loggers write them: ISO, and the forms with the day or the month first.

Dots mean day first (24.12.2026). Slashes may mean either; one date of the file whose first or second number
is above 12 settles it for all, and where none does the reader must be told.
"""

import re
from datetime import UTC, datetime
from typing import Final, Literal

type DateOrder = Literal["day-first", "month-first"]

_NUMBERED: Final = re.compile(
    r"(?P<first>\d{1,2})(?P<mark>[./-])(?P<second>\d{1,2})(?P=mark)(?P<year>\d{4}|\d{2})"
    r"(?:[ T,]+(?P<hour>\d{1,2})[:.](?P<minute>\d{2})(?:[:.](?P<second_of>\d{2}))?(?:[.,]\d+)?"
    r"\s*(?P<half>[AaPp]\.?[Mm]\.?)?)?"
)


class NotAStamp(ValueError):
    """A text that is no time stamp; its message says what was expected."""


class AmbiguousOrder(ValueError):
    """Day-first and month-first would both fit, or neither does."""


def order_of(stamps: list[str]) -> DateOrder | None:
    """Which number of the dates is the day; None where no date is of a numbered form.

    Raises AmbiguousOrder when nothing settles it, or when two dates contradict each other.
    """
    found = [match for stamp in stamps if (match := _NUMBERED.fullmatch(stamp.strip()))]
    if not found:
        return None
    day_first = any(int(match["first"]) > 12 or match["mark"] == "." for match in found)
    month_first = any(int(match["second"]) > 12 for match in found)
    if day_first and month_first:
        raise AmbiguousOrder("some dates have the day first, others the month")
    if not (day_first or month_first):
        raise AmbiguousOrder("no date of the file shows whether the day or the month comes first")
    return "day-first" if day_first else "month-first"


def read_stamp(text: str, order: DateOrder | None) -> datetime:
    """A time without zone; a stamp with a zone is brought to UTC first.

    Raises NotAStamp when the text is no time stamp or no day of the calendar.
    """
    stripped = text.strip()
    try:
        if match := _NUMBERED.fullmatch(stripped):
            return _numbered(match, order or "day-first")
        stamp = datetime.fromisoformat(stripped.replace("/", "-"))
    except ValueError as fault:
        raise NotAStamp("a time such as 2026-12-24 18:30 or 24.12.2026 18:30") from fault
    return stamp.astimezone(UTC).replace(tzinfo=None) if stamp.tzinfo else stamp


def _numbered(match: re.Match[str], order: DateOrder) -> datetime:
    first, second, year = int(match["first"]), int(match["second"]), int(match["year"])
    day, month = (first, second) if order == "day-first" else (second, first)
    hour = int(match["hour"] or 0)
    if half := match["half"]:
        if not 1 <= hour <= 12:
            raise ValueError(f"hour {hour} with {half}")
        hour = hour % 12 + (12 if half[0] in "Pp" else 0)
    return datetime(
        year if year > 99 else 2000 + year,
        month,
        day,
        hour,
        int(match["minute"] or 0),
        int(match["second_of"] or 0),
    )
