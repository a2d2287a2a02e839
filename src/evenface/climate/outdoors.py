"""Weather of a place by monthly means: the places that come with the house, and the maker's own.

Own places stand in a TOML file of the same form as `data/places.toml`: a table per place with twelve values
of `temperature_c` and of `humidity` (fraction) or `vapour_pressure_pa`; all else may be left out.
"""

import math
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Final

from evenface.climate.vapour import relative_humidity, vapour_pressure
from evenface.errors import Complaint, FileError, MissingWord, Place, Sentence, nearest_words
from evenface.evidence import Status
from evenface.toml_places import key_path, place_of, places, too_deep
from evenface.words import said

type Months = tuple[float, ...]

MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
LARGEST_FILE_BYTES: Final = 2_000_000

_RANGE: Final = {
    "temperature_c": (-60.0, 55.0, "degrees Celsius"),
    "humidity": (0.01, 1.0, "a fraction"),
    "vapour_pressure_pa": (1.0, 8000.0, "Pa"),
}
_MAY_HAVE: Final = {
    *_RANGE,
    "name",
    "source",
    "status",
    "spread_temperature_c",
    "spread_humidity",
    "altitude_m",
}


@dataclass(frozen=True, slots=True)
class Outdoors:
    """Monthly means of a place, January to December, each a tuple of 12.

    temperature_c [°C], humidity [-], vapour_pressure_pa (mean of the hours, or derived where
    `pressure_status` says so) [Pa]; spreads are the 90 % range of a month of an ordinary year.

    Raises ValueError when a row has not 12 finite values within reason.
    """

    name: str
    temperature_c: Months
    humidity: Months
    vapour_pressure_pa: Months
    spread_temperature_c: float
    spread_humidity: float
    status: Status
    pressure_status: Status
    source: str

    def __post_init__(self) -> None:
        for row in _RANGE:
            if complaint := _amiss(row, getattr(self, row)):
                raise ValueError(f"{self.name}, {row}: expected {complaint[0]}, was given {complaint[1]}")


def own_outdoors(
    name: str,
    temperature_c: Sequence[float],
    humidity: Sequence[float] | None = None,
    vapour_pressure_pa: Sequence[float] | None = None,
    source: str = "measured by the maker",
    status: Status = Status.MEASURED,
    spread_temperature_c: float = 1.0,
    spread_humidity: float = 0.05,
) -> Outdoors:
    """A place from own monthly values; humidity or vapour pressure is derived when only one is given.

    Raises ValueError when neither is given or a row is not 12 values within reason.
    """
    if humidity is None and vapour_pressure_pa is None:
        raise ValueError(
            f"{name}: expected twelve values of humidity or of vapour_pressure_pa, was given neither"
        )
    temperature = tuple(float(value) for value in temperature_c)
    derived = Status.MEMORY if status is Status.MEMORY else Status.DERIVED
    if humidity is None:
        pressure = tuple(float(value) for value in vapour_pressure_pa or ())
        _same_length(name, temperature, pressure)
        moist = tuple(min(1.0, float(value)) for value in relative_humidity(temperature, pressure))
    else:
        moist = tuple(float(value) for value in humidity)
        _same_length(name, temperature, moist)
        pressure = (
            tuple(float(value) for value in vapour_pressure(temperature, moist))
            if vapour_pressure_pa is None
            else tuple(float(value) for value in vapour_pressure_pa)
        )
    return Outdoors(
        name,
        temperature,
        moist,
        pressure,
        spread_temperature_c,
        spread_humidity,
        status,
        derived if vapour_pressure_pa is None else status,
        source,
    )


def _same_length(name: str, first: Months, second: Months) -> None:
    if len(first) != len(second):
        raise ValueError(f"{name}: expected 12 values in each row, was given {len(first)} and {len(second)}")


# --- places that come with the house ----------------------------------------------------------------


@cache
def _places() -> Mapping[str, Outdoors]:
    text = files("evenface.climate").joinpath("data/places.toml").read_text(encoding="utf-8")
    return {key: _read_entry(key, entry) for key, entry in tomllib.loads(text).items()}


def outdoors(place: str) -> Outdoors:
    """The weather of a place by its key, such as "copenhagen". Raises MissingWord naming the nearest ones."""
    if place not in _places():
        raise MissingWord("place", place, place_names())
    return _places()[place]


def place_names() -> tuple[str, ...]:
    """Keys of all places that come with the house."""
    return tuple(_places())


def read_places(path: Path) -> dict[str, Outdoors]:
    """Own places from a TOML file, by key.

    Raises FileError naming file, key, what was expected and what was given, all complaints at once; also
    when the file is missing, larger than 2 MB, not UTF-8 or not TOML.
    """
    text = _text(path)
    if deep := too_deep(text):
        raise FileError(
            [Complaint(Place(str(path), *deep), "short key paths", "more steps than anyone writes")]
        )
    try:
        entries = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError) as fault:
        raise FileError([Complaint(Place(str(path)), "TOML", str(fault))]) from fault
    sheet = _Sheet(str(path), places(text))
    complaints = [complaint for key, entry in entries.items() for complaint in _complaints(sheet, key, entry)]
    if complaints:
        raise FileError(complaints)
    return {key: _read_entry(key, entry) for key, entry in entries.items()}


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A file and where in it each key stands."""

    file: str
    found: Mapping[str, tuple[int, int]]

    def spot(self, *steps: str) -> Place:
        path = key_path(steps)
        return Place(self.file, *place_of(path, self.found), path)


def _text(path: Path) -> str:
    spot = Place(str(path))
    try:
        if path.stat().st_size > LARGEST_FILE_BYTES:
            raise FileError(
                [
                    Complaint(
                        spot,
                        "at most 2 MB",
                        said("{size:.1f} MB", size=path.stat().st_size / 1e6),
                    )
                ]
            )
        return path.read_text(encoding="utf-8")
    except OSError as fault:
        raise FileError([Complaint(spot, "a file that can be read", fault.strerror or "none")]) from fault
    except UnicodeDecodeError as fault:
        raise FileError([Complaint(spot, "text in UTF-8", "other bytes")]) from fault


def _complaints(sheet: _Sheet, key: str, entry: object) -> list[Complaint]:
    if not isinstance(entry, dict):
        return [Complaint(sheet.spot(key), "a table [place] with monthly rows", repr(entry)[:60])]
    found = []
    for word in sorted(entry.keys() - _MAY_HAVE):
        hint = nearest_words(word, tuple(_MAY_HAVE))
        found.append(Complaint(sheet.spot(key, word), "a known key", repr(word), hint))
    if "temperature_c" not in entry:
        found.append(Complaint(sheet.spot(key), "twelve values of temperature_c", "none"))
    if "humidity" not in entry and "vapour_pressure_pa" not in entry:
        found.append(Complaint(sheet.spot(key), "twelve values of humidity or vapour_pressure_pa", "neither"))
    for row in (row for row in _RANGE if row in entry):
        if complaint := _amiss(row, entry[row]):
            hint = "Humidity is a fraction: 0.55 for 55 %." if row == "humidity" else ""
            found.append(Complaint(sheet.spot(key, row), *complaint, hint))
    for word in ("spread_temperature_c", "spread_humidity"):
        value = entry.get(word, 0.0)
        if isinstance(value, bool) or not isinstance(value, int | float) or not 0.0 <= value < 30.0:
            found.append(Complaint(sheet.spot(key, word), "a number of 0 or more", repr(value)[:60]))
    if str(entry.get("status", "measured")) not in set(Status):
        found.append(Complaint(sheet.spot(key, "status"), ", ".join(Status), repr(entry["status"])[:60]))
    return found


def _amiss(row: str, values: object) -> tuple[Sentence, str] | None:
    """What was expected and what was given instead, or None when the row is in order."""
    low, high, unit = _RANGE[row]
    expected = said("twelve monthly values from {low:g} to {high:g} ({unit})", low=low, high=high, unit=unit)
    if not isinstance(values, list | tuple) or len(values) != 12:
        given = f"{len(values)} values" if isinstance(values, list | tuple) else repr(values)[:60]
        return expected, given
    for month, value in zip(MONTHS, values, strict=True):
        number = isinstance(value, int | float) and not isinstance(value, bool)
        if not (number and math.isfinite(value) and low <= value <= high):
            return expected, f"{value!r:.40} for {month}"
    return None


def _read_entry(key: str, entry: Mapping[str, object]) -> Outdoors:
    def row(name: str) -> Sequence[float] | None:
        values = entry.get(name)
        return [float(value) for value in values] if isinstance(values, list) else None

    return own_outdoors(
        str(entry.get("name", key)),
        row("temperature_c") or (),
        row("humidity"),
        row("vapour_pressure_pa"),
        str(entry.get("source", "given by the maker")),
        Status(str(entry.get("status", "measured"))),
        float(str(entry.get("spread_temperature_c", 1.0))),
        float(str(entry.get("spread_humidity", 0.05))),
    )
