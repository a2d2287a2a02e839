"""The entries of `[calendar]`: when work begins, hours, free days, clamps, press, benches, people, steps held."""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import FIGURE, LIST, TEXT, WHOLE, Entry, Held, found, shown_value
from evenface.interfaces.web.piece_entries import Group
from evenface.interfaces.web.plain_entries import PAIR, entry_at, pair_such_as
from evenface.piece.calendar_forms import WEEKDAYS, read_days, read_stretches
from evenface.piece.calendar_records import Stretch, Week
from evenface.toml_places import key_path
from evenface.words import Manner

AT: Final = "calendar"
USUAL_HOURS: Final = "08:00-15:00"
DAYS: Final = "2027-03-25..2027-03-29, 2027-05-06"
_HOURS: Final = Held(check=read_stretches, bare=True)
_FREE: Final = Held(check=read_days, bare=True)


def hours_groups(view: View, manner: Manner, titles: Mapping[str, str] | None = None) -> tuple[Group, ...]:
    """What is said of the shop's days. titles : of steps, by their number."""
    return tuple(_Calendar(view, manner, titles or {}).groups())


def hours_entries(view: View, manner: Manner) -> tuple[Entry, ...]:
    """All of them in one row."""
    return tuple(entry for group in hours_groups(view, manner) for entry in group.entries)


def people_of(view: View) -> list[dict[str, Any]]:
    """The people as the file has them."""
    written: Any = found(view.source.data, f"{AT}.person")
    return list(written) if isinstance(written, list) else []


def hours_text(stretches: tuple[Stretch, ...]) -> list[str]:
    """Hours of a day as they are written."""
    return [f"{a // 60:02d}:{a % 60:02d}-{b // 60:02d}:{b % 60:02d}" for a, b in stretches]


def written_week(week: Week) -> dict[str, Any]:
    """A week by its days, as it is written; one stretch stands by itself."""
    days = {name: hours_text(day) for name, day in zip(WEEKDAYS, week, strict=True) if day}
    return {name: hours[0] if len(hours) == 1 else hours for name, hours in days.items()}


class _Calendar:
    def __init__(self, view: View, manner: Manner, titles: Mapping[str, str]) -> None:
        self.data, self.manner, self.titles = view.source.data, manner, titles
        self.word = manner.translate
        self.people = people_of(view)

    def groups(self) -> Iterator[Group]:
        yield Group("", tuple(self.shop()), (), self.deeds(AT, "shop"))
        yield Group(self.word("Clamps, presses, benches"), tuple(self.means()), ())
        for number, person in enumerate(self.people):
            name, at = str(person.get("name", number + 1)), f"{AT}.person[{number}]"
            out = (f"{self.word('Take out')}: {name}", f"out {number}")
            entries = tuple(self.person(at, name))
            title = f"{self.word('Person')} {number + 1}"
            yield Group(title, entries, (), (*self.deeds(at, str(number)), out), name)
        held: Any = found(self.data, f"{AT}.locked")
        if isinstance(held, dict) and held:
            yield Group(self.word("Steps that must begin on a day"), tuple(self.held(held)), ())

    def shop(self) -> Iterator[Entry]:
        yield self.entry("start", "Work begins on", TEXT, self.word("today"))
        yield from self.hours(AT, "", USUAL_HOURS)
        yield self.entry("holidays", "Closed on", LIST, self.such_as(DAYS), _FREE)

    def means(self) -> Iterator[Entry]:
        word, enough = self.word, self.word("enough of them")
        yield self.entry("clamps", "Clamps", WHOLE, enough)
        yield self.entry("benches", "Places to work at, on benches", WHOLE, enough)
        yield self.entry(
            "press", "Press or vacuum bag, length x width", LIST, pair_such_as(2600, 1300, self.manner), PAIR
        )
        yield self.entry("presses", "How many of them", WHOLE, "1")
        yield self.entry("press_hours", "Closed for hours", FIGURE, word("as long as the glue asks"))

    def person(self, at: str, name: str) -> Iterator[Entry]:
        yield self.entry("name", "Name", TEXT, at=at, needed=True, whose=name)
        yield from self.hours(at, name, self.word("as the workshop"))
        yield self.entry("absent", "Away on", LIST, self.such_as(DAYS), _FREE, at, whose=name)

    def hours(self, at: str, whose: str, usual: str) -> Iterator[Entry]:
        """One field for every working day, or one for each weekday where the file has them so."""
        written: Any = found(self.data, f"{at}.hours")
        if not isinstance(written, dict):
            yield self.entry("hours", "Hours, Monday to Friday", LIST, usual, _HOURS, at, whose=whose)
            return
        keys = {key.strip().lower(): key for key in written}
        for name in WEEKDAYS:
            key = next((key for short, key in keys.items() if name.startswith(short)), name)
            usual = self.word("not worked")
            yield self.entry(key, name.capitalize(), LIST, usual, _HOURS, f"{at}.hours", whose=whose)

    def held(self, held: Mapping[str, Any]) -> Iterator[Entry]:
        for step, moment in held.items():
            path, title = key_path((AT, "locked", step)), self.titles.get(step, "")
            yield Entry(path, step, shown_value(moment, TEXT, self.manner), TEXT, whose=title)

    def deeds(self, at: str, whose: str) -> tuple[tuple[str, str], ...]:
        if isinstance(found(self.data, f"{at}.hours"), dict):
            return ((self.word("The same hours Monday to Friday"), f"alike {whose}"),)
        return ((self.word("Other hours on some weekdays"), f"by-day {whose}"),)

    def entry(
        self, key: str, label: str, kind: str, usual: str = "", holds: Held | None = None, at: str = AT,
        needed: bool = False, whose: str = "",
    ) -> Entry:  # fmt: skip
        path = f"{at}.{key_path((key,))}"
        return entry_at(self.data, path, label, kind, self.manner, usual, (), needed, holds, whose)

    def such_as(self, example: str) -> str:
        return f"{self.word('such as')} {example}"
