"""`[[moisture]]` and `[[flat]]` of a made file, as they are written."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Final, Literal, Protocol

from pydantic import BeforeValidator

from evenface.errors import Complaint, Unreadable, nearest_words
from evenface.piece.bench_records import MeasuredFlat, Reading
from evenface.piece.fields import Count, Day, Humidity, Temperature, Word
from evenface.piece.form import Form
from evenface.piece.showing import shown
from evenface.piece.source_text import Source
from evenface.units import read_length
from evenface.words import said

WETTEST: Final = 0.4
"""Wood that is glued lies far below; above this a humidity of air was meant, or green wood."""


def _rise(given: object) -> float:
    """A small length of either sign."""
    found = read_length(given)
    if abs(found) > 100.0:
        raise Unreadable("a rise of at most 100 mm", shown(given))
    return found


Rise = Annotated[float, BeforeValidator(_rise)]


class _Known(Protocol):
    def names(self, kind: str) -> tuple[str, ...]: ...


@dataclass(frozen=True, kw_only=True)
class MoistureForm(Form):
    """Of a made file: one reading of the moisture log."""

    what: Literal["wood", "board", "room"]
    value: Humidity
    day: Day
    of: Word | None = None
    where: Word | None = None
    instrument: Word | None = None
    since: Day | None = None
    temperature: Temperature | None = None


@dataclass(frozen=True, kw_only=True)
class FlatForm(Form):
    """Of a made file: the flatness of a finished part as measured."""

    piece: Word
    panel: Word
    number: Count = 1
    bow: Rise | None = None
    cup: Rise | None = None
    twist: Rise | None = None
    day: Day | None = None
    humidity: Humidity | None = None


def readings_of(
    forms: tuple[MoistureForm, ...], source: Source, complaints: list[Complaint], known: _Known | None
) -> tuple[Reading, ...]:
    """The readings as records, in the order of the file."""
    return tuple(_readings(forms, source, complaints, known))


def _readings(
    forms: tuple[MoistureForm, ...], source: Source, complaints: list[Complaint], known: _Known | None
) -> Iterator[Reading]:
    for number, form in enumerate(forms):
        origin = f"moisture[{number}]"
        complaints += _faults(form, origin, source, known)
        yield Reading(
            form.what,
            form.value,
            date.fromisoformat(form.day),
            form.of or "",
            form.where or "",
            form.instrument or "",
            date.fromisoformat(form.since) if form.since else None,
            form.temperature,
            origin,
        )


_KINDS: Final[Mapping[str, tuple[str, ...]]] = {"wood": ("wood",), "board": ("carrier", "facing")}


def _faults(form: MoistureForm, origin: str, source: Source, known: _Known | None) -> Iterator[Complaint]:
    if (form.what == "room") != (form.of is None):
        wanted = "no material for the room" if form.what == "room" else "the material that was read"
        yield Complaint(source.place(f"{origin}.of"), wanted, shown(form.of))
    if form.what != "room" and form.value > WETTEST:
        yield Complaint(
            source.place(f"{origin}.value"),
            said("a moisture content below {wettest:.0%}", wettest=WETTEST),
            shown(form.value),
            'For the air write what = "room".',
        )
    if form.since is not None and form.since > form.day:
        yield Complaint(
            source.place(f"{origin}.since"), said("a day not after {day}", day=form.day), form.since
        )
    if known is None or form.of is None or form.what == "room":
        return
    words = tuple(name for kind in _KINDS[form.what] for name in known.names(kind))
    if form.of not in words:
        hint = nearest_words(form.of, words)
        yield Complaint(
            source.place(f"{origin}.of"),
            said("a {what:word} of the catalogue", what=form.what),
            repr(form.of),
            hint,
        )


def measured_of(forms: tuple[FlatForm, ...]) -> tuple[MeasuredFlat, ...]:
    """Flatness as measured, as records; names are held against the job by the caller."""
    return tuple(
        MeasuredFlat(
            form.piece,
            form.panel,
            form.number,
            form.bow,
            form.cup,
            form.twist,
            date.fromisoformat(form.day) if form.day else None,
            form.humidity,
            f"flat[{number}]",
        )
        for number, form in enumerate(forms)
    )
