"""A humidity logger's file: read, checked, brought to days, and to a year.

CSV with a heading that names time, temperature and humidity in any order (date and time may be two columns).
Separators are semicolon, tab or comma; decimals may have a comma unless the comma separates. °F is known by
its heading, humidity in percent by its heading or its size. Everything doubtful is an error that names file
and line; what was mended is a note.
"""

import re
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from evenface.climate.logger_table import MOST_COMPLAINTS, Row, at, decoded, table
from evenface.climate.stamps import AmbiguousOrder, DateOrder, NotAStamp, order_of, read_stamp
from evenface.climate.vapour import Floats
from evenface.errors import Complaint, FileError, Place
from evenface.words import Said, said

LARGEST_FILE_BYTES: Final = 20_000_000
USUAL_GAP_HOURS: Final = 72.0

_FAHRENHEIT: Final = re.compile(r"°\s*f|℉|fahrenheit|[\[(]\s*f\s*[\])]|^\s*f\s*$", re.IGNORECASE)
_CELSIUS: Final = re.compile(r"°\s*c|℃|celsius|[\[(]\s*c\s*[\])]|^\s*c\s*$", re.IGNORECASE)
_MISSING: Final = {"", "-", "--", "---", "nan", "na", "n/a", "null", "error", "err"}
_NUMBER: Final = re.compile(r"[+-]?(\d{1,6}([.,]\d{1,12})?|[.,]\d{1,12})")


@dataclass(frozen=True, slots=True)
class Gap:
    """Time without readings: from the last one before to the first one after."""

    start: datetime
    end: datetime

    @property
    def hours(self) -> float:
        """How long it lasts."""
        return (self.end - self.start).total_seconds() / 3600.0


@dataclass(frozen=True, slots=True, eq=False)
class LoggerSeries:
    """Readings in order of time: times datetime64[s], temperature_c [°C], humidity [-]; gaps; notes."""

    file: str
    times: NDArray[np.datetime64]
    temperature_c: Floats
    humidity: Floats
    gaps: tuple[Gap, ...]
    notes: tuple[Said, ...]


def read_logger(path: Path, **hints: "str | float | None") -> LoggerSeries:
    """Read a logger's CSV file; hints as in `read_logger_text`.

    Raises FileError when the file is missing, larger than 20 MB, not text, or for any reason given there.
    """
    spot = Place(str(path))
    try:
        if path.stat().st_size > LARGEST_FILE_BYTES:
            raise FileError(
                [
                    Complaint(
                        spot,
                        "at most 20 MB",
                        said("{size:.1f} MB", size=path.stat().st_size / 1e6),
                    )
                ]
            )
        raw = path.read_bytes()
    except OSError as fault:
        raise FileError([Complaint(spot, "a file that can be read", fault.strerror or "none")]) from fault
    return read_logger_text(decoded(raw, spot), str(path), **hints)  # type: ignore[arg-type]


def read_logger_text(
    text: str,
    file: str = "",
    *,
    date_order: DateOrder | None = None,
    temperature_unit: Literal["C", "F"] | None = None,
    gap_limit_hours: float = USUAL_GAP_HOURS,
) -> LoggerSeries:
    """Read the text of a logger's CSV.

    date_order : "day-first" or "month-first", for dates that do not show it. temperature_unit : for a heading
    that does not name it (°C is assumed and noted). gap_limit_hours : longer gaps are an error.

    Raises FileError naming file and line of up to 20 complaints.
    """
    rows, columns, heading = table(text, file)
    times = _times(rows, file, date_order)
    fahrenheit, unit_note = _unit(heading[columns.temperature], temperature_unit)
    temperature = _numbers([row.temperature for row in rows], rows, file, "a temperature")
    humidity = _numbers([row.humidity for row in rows], rows, file, "a humidity")
    if fahrenheit:
        temperature = (temperature - 32.0) / 1.8
    humidity = _as_fraction(humidity, heading[columns.humidity], file)
    _plausible(temperature, humidity, rows, file, fahrenheit)
    order, order_notes = _in_order(times, rows, file)
    times, temperature, humidity = times[order], temperature[order], humidity[order]
    known = np.isfinite(temperature) & np.isfinite(humidity)
    notes = [*unit_note, *order_notes]
    if lost := int(np.sum(~known)):
        notes.append(said("{rows:count} rows without a reading were left out.", rows=lost))
    times, temperature, humidity, twice = _merged(times[known], temperature[known], humidity[known])
    if twice:
        notes.append(said("{rows:count} readings of the same moment were averaged.", rows=twice))
    if times.size < 2:
        raise FileError([Complaint(Place(file), "at least two readings", str(times.size))])
    gaps = _gaps(times, gap_limit_hours, file)
    bridged = "No readings from {start} to {end}: bridged by a straight line."
    notes += [said(bridged, start=str(gap.start), end=str(gap.end)) for gap in gaps]
    return LoggerSeries(file, times, temperature, humidity, gaps, tuple(notes))


# --- cells to numbers ---------------------------------------------------------------------------------


def _times(rows: list[Row], file: str, order: DateOrder | None) -> NDArray[np.datetime64]:
    try:
        order = order or order_of([row.stamp for row in rows])
    except AmbiguousOrder as fault:
        hint = "Say date_order: day-first or month-first."
        given = f"{rows[0].stamp!r:.40}, and {fault}"
        raise FileError([at(file, rows[0].line, "dates of one certain order", given, hint)]) from fault
    stamps, complaints = [], []
    for row in rows:
        try:
            stamps.append(read_stamp(row.stamp, order))
        except NotAStamp as fault:
            complaints.append(at(file, row.line, str(fault), repr(row.stamp[:40])))
            if len(complaints) == MOST_COMPLAINTS:
                break
    if complaints:
        raise FileError(complaints)
    return np.array(stamps, dtype="datetime64[s]")


def _numbers(cells: list[str], rows: list[Row], file: str, what: str) -> Floats:
    values, complaints = np.full(len(cells), np.nan), []
    for i, cell in enumerate(cells):
        bare = cell.rstrip("%°CFcf ").replace("−", "-")
        if bare.lower() in _MISSING or cell.lower() in _MISSING:
            continue
        if not _NUMBER.fullmatch(bare):
            complaints.append(at(file, rows[i].line, what, repr(cell[:40])))
            if len(complaints) == MOST_COMPLAINTS:
                break
            continue
        values[i] = float(bare.replace(",", "."))
    if complaints:
        raise FileError(complaints)
    return values


def _unit(heading: str, given: str | None) -> tuple[bool, list[Said]]:
    if given is not None:
        return given == "F", []
    if _FAHRENHEIT.search(heading):
        return True, []
    if _CELSIUS.search(heading):
        return False, []
    return False, [said("The heading names no unit of temperature: taken as °C.")]


def _as_fraction(humidity: Floats, heading: str, file: str) -> Floats:
    known = humidity[np.isfinite(humidity)]
    top = float(np.max(known, initial=0.0))
    percent = "%" in heading or top > 1.5
    if percent and top <= 1.0 and known.size:
        complaint = Complaint(
            Place(file),
            "humidity in percent, as its heading says",
            said("nothing above {top:g}", top=top),
            "Mend the heading.",
        )
        raise FileError([complaint])
    return humidity / 100.0 if percent else humidity


def _plausible(temperature: Floats, humidity: Floats, rows: list[Row], file: str, fahrenheit: bool) -> None:
    complaints = []
    middle = np.nanmedian(temperature) if np.isfinite(temperature).any() else 0.0
    if not fahrenheit and middle > 45.0:
        hint = "Is it °F? Name the unit in the heading."
        complaints.append(
            Complaint(
                Place(file),
                "room temperatures in °C",
                said("half above {middle:.0f}", middle=middle),
                hint,
            )
        )
    complaints += [
        at(file, rows[i].line, "a humidity of 0 to 100 %", rows[i].humidity)
        for i in np.flatnonzero((humidity < 0.0) | (humidity > 1.0))[:MOST_COMPLAINTS]
    ]
    complaints += [
        at(file, rows[i].line, "a temperature of −60 to 90 °C", rows[i].temperature)
        for i in np.flatnonzero((temperature < -60.0) | (temperature > 90.0))[:MOST_COMPLAINTS]
    ]
    if complaints:
        raise FileError(complaints[:MOST_COMPLAINTS])


# --- order and gaps -----------------------------------------------------------------------------------

_HOUR: Final = np.timedelta64(3600, "s")


def _in_order(
    times: NDArray[np.datetime64], rows: list[Row], file: str
) -> tuple[NDArray[np.intp], list[Said]]:
    """The order of time; newest-first files are turned, a clock set back by an hour is accepted."""
    steps = np.diff(times)
    none = np.timedelta64(0, "s")
    if steps.size and np.all(steps <= none) and np.any(steps < none):
        return np.arange(times.size - 1, -1, -1), [said("Readings stood newest first: turned.")]
    back = np.flatnonzero(steps < none)
    if np.any(steps[back] < -_HOUR):
        worst = int(back[np.argmin(steps[back])]) + 1
        given = f"{times[worst]} after {times[worst - 1]}"
        raise FileError([at(file, rows[worst].line, "times that go forwards", given)])
    notes = (
        [said("The clock was set back {times:count} times by up to an hour.", times=len(back))]
        if len(back)
        else []
    )
    return np.argsort(times, kind="stable"), notes


def _merged(
    times: NDArray[np.datetime64], temperature: Floats, humidity: Floats
) -> tuple[NDArray[np.datetime64], Floats, Floats, int]:
    unique, index, counts = np.unique(times, return_inverse=True, return_counts=True)
    warm = np.bincount(index, weights=temperature) / counts if counts.size else temperature
    damp = np.bincount(index, weights=humidity) / counts if counts.size else humidity
    return unique, warm, damp, int(times.size - unique.size)


def _gaps(times: NDArray[np.datetime64], limit_hours: float, file: str) -> tuple[Gap, ...]:
    seconds = np.diff(times).astype(np.float64)
    usual = max(3.0 * float(np.median(seconds)), 3.0 * 3600.0)
    found = [Gap(times[i].item(), times[i + 1].item()) for i in np.flatnonzero(seconds > usual)]
    if long := [gap for gap in found if gap.hours > limit_hours]:
        complaints = [
            Complaint(
                Place(file),
                said("no gap longer than {most:g} hours", most=limit_hours),
                said(
                    "none from {start} to {end} ({hours:.0f} hours)",
                    start=str(gap.start),
                    end=str(gap.end),
                    hours=gap.hours,
                ),
                "Allow longer gaps, or fill the time with a reckoned year.",
            )
            for gap in long[:MOST_COMPLAINTS]
        ]
        raise FileError(complaints)
    return tuple(found)
