"""`[calendar]` of a job file and `[[done]]` of a made file, as they are written."""

import re
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from itertools import pairwise
from typing import Annotated, Final

from pydantic import AfterValidator, BeforeValidator

from evenface.errors import Complaint, Unreadable
from evenface.piece.calendar_records import (
    DAY_MIN,
    USUAL_WEEK,
    Done,
    Locked,
    Person,
    ShopCalendar,
    Stretch,
    Week,
    week_of,
)
from evenface.piece.fields import Count, Day, Positive, Size, Word
from evenface.piece.form import Form
from evenface.piece.showing import shown
from evenface.piece.source_text import Source
from evenface.toml_places import key_path
from evenface.words import said

WEEKDAYS: Final = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_STRETCH: Final = re.compile(r"\s*(\d{1,2}):(\d{2})\s*-\s*(\d{1,2}):(\d{2})\s*")
_LONGEST_ABSENCE: Final = 1000


def _stretch(given: object) -> Stretch:
    found = _STRETCH.fullmatch(given) if isinstance(given, str) else None
    if found is not None:
        from_h, from_min, to_h, to_min = map(int, found.groups())
        start, end = 60 * from_h + from_min, 60 * to_h + to_min
        if from_min < 60 and to_min < 60 and start < end <= DAY_MIN:
            return start, end
    raise Unreadable('hours such as "08:00-12:00"', shown(given))


def read_stretches(given: object) -> tuple[Stretch, ...]:
    """Hours of a day, from "08:00-12:00" or a list of such. Raises ValueError."""
    listed = given if isinstance(given, list) else [given]
    found = tuple(sorted(_stretch(one) for one in listed))
    if any(later[0] <= earlier[1] for earlier, later in pairwise(found)):
        raise Unreadable("hours with a break between them", shown(given))
    return found


def _weekday(given: object) -> int:
    if isinstance(given, str) and len(given) >= 2:
        near = [number for number, name in enumerate(WEEKDAYS) if name.startswith(given.strip().lower())]
        if len(near) == 1:
            return near[0]
    raise Unreadable('a weekday such as "monday"', shown(given))


def read_week(given: object) -> Week:
    """Hours of every working day, or a table by weekday. Raises ValueError."""
    if not isinstance(given, dict):
        return week_of(read_stretches(given))
    days = {_weekday(name): read_stretches(hours) for name, hours in given.items()}
    if not any(days.values()):
        raise ValueError("expected at least one weekday that is worked")
    return tuple(days.get(number, ()) for number in range(7))


def _one_day(given: object) -> date:
    try:
        if isinstance(given, date) and not isinstance(given, datetime):
            return given
        return date.fromisoformat(given.strip() if isinstance(given, str) else "")
    except ValueError:
        raise Unreadable("a date such as 2027-04-01", shown(given)) from None


def read_days(given: object) -> frozenset[date]:
    """Dates, and stretches of dates as "2027-07-12..2027-07-30". Raises ValueError."""
    found: set[date] = set()
    for one in given if isinstance(given, list) else [given]:
        ends = one.split("..") if isinstance(one, str) else [one]
        first, last = _one_day(ends[0]), _one_day(ends[-1])
        count = (last - first).days + 1
        if len(ends) > 2 or not 0 < count <= _LONGEST_ABSENCE:
            raise Unreadable('days such as "2027-07-12..2027-07-30"', shown(one))
        found |= {first + timedelta(days=number) for number in range(count)}
    return frozenset(found)


def _moment(given: object) -> tuple[datetime, bool]:
    """A day, or a day with the time of the clock on the wall."""
    try:
        if isinstance(given, datetime):
            if given.tzinfo is not None:
                raise ValueError
            return given, True
        if isinstance(given, date):
            return datetime.combine(given, time()), False
        text = given.strip() if isinstance(given, str) else ""
        return datetime.fromisoformat(text).replace(tzinfo=None, second=0, microsecond=0), len(text) > 10
    except ValueError:
        raise Unreadable('a day such as "2027-02-03 09:30"', shown(given)) from None


def _not_empty(given: tuple["PersonForm", ...]) -> tuple["PersonForm", ...]:
    if len({one.name for one in given}) < len(given):
        raise ValueError("expected each person once")
    return given


Moment = Annotated[tuple[datetime, bool], BeforeValidator(_moment)]
Days = Annotated[frozenset[date], BeforeValidator(read_days)]
Hours = Annotated[Week, BeforeValidator(read_week)]


@dataclass(frozen=True, kw_only=True)
class PersonForm(Form):
    name: Word
    hours: Hours | None = None
    absent: Days = frozenset()


@dataclass(frozen=True, kw_only=True)
class CalendarForm(Form):
    start: Day = ""
    hours: Hours = USUAL_WEEK
    holidays: Days = frozenset()
    clamps: Count | None = None
    press: tuple[Size, Size] | None = None
    presses: Count = 1
    press_hours: Positive | None = None
    benches: Count | None = None
    person: Annotated[tuple[PersonForm, ...], AfterValidator(_not_empty)] = ()
    locked: dict[str, Moment] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class DoneForm(Form):
    """Of a made file: a step ticked off, with the minutes it took by the clock and when it was ready."""

    step: Word
    minutes: Positive | None = None
    day: Moment | None = None


def calendar_of(form: CalendarForm) -> ShopCalendar:
    """The table as a record; without a person one works the shop's hours."""
    people = tuple(Person(one.name, one.hours or form.hours, one.absent) for one in form.person)
    return ShopCalendar(
        start=date.fromisoformat(form.start) if form.start else None,
        people=people or (Person("", form.hours),),
        closed=form.holidays,
        clamps=form.clamps,
        press_mm=form.press,
        presses=form.presses,
        press_hours=form.press_hours,
        benches=form.benches,
        locked=tuple(
            Locked(step, *moment, origin=key_path(("calendar", "locked", step)))
            for step, moment in form.locked.items()
        ),
    )


def done_of(forms: tuple[DoneForm, ...], source: Source, complaints: list[Complaint]) -> tuple[Done, ...]:
    """Ticks as records; a step ticked twice is a complaint."""
    found: dict[str, Done] = {}
    for number, one in enumerate(forms):
        origin = f"done[{number}]"
        if one.step in found:
            place = source.place(f"{origin}.step")
            complaints.append(
                Complaint(
                    place,
                    "each step ticked once",
                    said("the same as {origin}", origin=found[one.step].origin),
                )
            )
            continue
        moment, timed = one.day if one.day is not None else (None, False)
        at = 60 * moment.hour + moment.minute if moment is not None and timed else None
        day = moment.date() if moment is not None else None
        found[one.step] = Done(one.step, one.minutes, day, at, origin)
    return tuple(found.values())
