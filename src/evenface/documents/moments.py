"""Days and hours on papers and screens, the weekday in the reader's language."""

from datetime import date, datetime
from typing import Final

from evenface.words import ENGLISH, Manner

WEEKDAYS: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def weekday_text(day: date, manner: Manner = ENGLISH) -> str:
    """The weekday in short: Mon."""
    return manner.translate(WEEKDAYS[day.weekday()])


def day_text(day: date, manner: Manner = ENGLISH) -> str:
    """Mon 2027-01-11."""
    return f"{weekday_text(day, manner)} {day:%Y-%m-%d}"


def moment_text(moment: datetime, manner: Manner = ENGLISH) -> str:
    """Mon 2027-01-11 08:00."""
    return f"{day_text(moment, manner)} {moment:%H:%M}"
