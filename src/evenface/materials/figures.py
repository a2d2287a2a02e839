"""Reading one figure of a data file, with every complaint at its key.

A figure is written `{ value = 690, spread = "±10 %", unit = "kg/m³", status = "read", source = "…" }`, its
range either as `low` and `high`, or as `spread`: "±10 %", "±0.3" or "×/÷ 2".
"""

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Final, NoReturn

from evenface.errors import Complaint, Place, Sentence, known_words, nearest_words
from evenface.evidence import Status, Value
from evenface.materials.quantities import CONVERSIONS, factor_into
from evenface.words import Said, said

type Path = tuple[str | int, ...]

VALUE_KEYS: Final = ("value", "low", "high", "spread", "unit", "status", "source")
STATUSES: Final = tuple(status.value for status in Status)
_NUMBER: Final = r"(\d+(?:\.\d+)?)"
_SPREAD: Final = re.compile(rf"±\s*{_NUMBER}\s*(%?)")
_FACTOR: Final = re.compile(rf"×/÷\s*{_NUMBER}")
_EXAMPLE: Final = '{ value = 690, spread = "±5 %", unit = "kg/m³", status = "measured", source = "own" }'


class Refused(Exception):
    """Left off reading a figure; the complaint is already noted."""


@dataclass(slots=True)
class FigureReader:
    """Reads figures and gathers what is wrong with them.

    sources : short names of sources and what they stand for.
    place : from a key path to the place in the file.
    """

    sources: Mapping[str, str]
    place: Callable[[Path], Place]
    complaints: list[Complaint] = field(default_factory=list)

    def complain(self, path: Path, expected: Sentence, given: object, hint: Sentence = "") -> None:
        """Note one complaint at a key path."""
        words = given if isinstance(given, str | Said) else shown(given)
        self.complaints.append(Complaint(self.place(path), expected, words, hint))

    def unknown(self, path: Path, key: str, known: tuple[str, ...]) -> None:
        """Complain of a key that is not known, naming the nearest."""
        hint = nearest_words(key, known) or known_words(known)
        self.complain(path, "a known key", repr(key), hint)

    def refuse(self, path: Path, expected: Sentence, given: object, hint: Sentence = "") -> NoReturn:
        """Note one complaint and leave off reading this figure."""
        self.complain(path, expected, given, hint)
        raise Refused

    def value(self, path: Path, item: object, unit: str, replaced: Value | None = None) -> Value:
        """A figure in the catalogue's unit; raises `Refused` after noting what is wrong with it."""
        if not isinstance(item, Mapping):
            self.refuse(path, said("a figure such as {example}", example=_EXAMPLE), item)
        for key in item:
            if key not in VALUE_KEYS:
                self.unknown((*path, key), key, VALUE_KEYS)
        for key in ("value", "unit", "status", "source"):
            if item.get(key, "") == "":
                self.refuse(
                    path,
                    said(
                        "a figure with value, unit, status and source, for example {example}",
                        example=_EXAMPLE,
                    ),
                    said("one without {key}", key=key),
                )
        factor = self._factor(path, item["unit"], unit)
        nominal = self.number((*path, "value"), item["value"]) * factor
        low, high = self._range(path, item, nominal, factor, replaced)
        try:
            return Value(nominal, low, high, unit, self.status(path, item), self.source(path, item))
        except ValueError as refusal:
            self.refuse(path, *split(str(refusal)))

    def _factor(self, path: Path, written: object, kept: str) -> float:
        factor = factor_into(kept, written) if isinstance(written, str) else None
        if factor is None:
            units = " or ".join(dict.fromkeys((kept, *CONVERSIONS.get(kept, ()))))
            self.refuse((*path, "unit"), said("the unit {unit}", unit=units), written)
        return factor

    def _range(
        self, path: Path, item: Mapping[str, object], nominal: float, factor: float, replaced: Value | None
    ) -> tuple[float, float]:
        if "spread" in item:
            if "low" in item or "high" in item:
                self.refuse((*path, "spread"), "either `spread` or `low` and `high`", "both")
            return self._spread((*path, "spread"), item["spread"], nominal, factor)
        if "low" in item and "high" in item:
            ends = [self.number((*path, key), item[key]) * factor for key in ("low", "high")]
            return ends[0], ends[1]
        if "low" in item or "high" in item:
            self.refuse(path, "both `low` and `high`", "only one of them")
        if item["status"] == Status.MEASURED:
            return nominal, nominal
        if replaced is None or replaced.nominal == 0.0:
            self.refuse(path, 'a range: `low` and `high`, or spread = "±10 %"', "a figure without one")
        return nominal * replaced.low / replaced.nominal, nominal * replaced.high / replaced.nominal

    def _spread(self, path: Path, given: object, nominal: float, factor: float) -> tuple[float, float]:
        text = given.strip() if isinstance(given, str) else ""
        if match := _FACTOR.fullmatch(text):
            times = float(match[1])
            if times < 1.0:
                self.refuse(path, "a factor of at least 1", given)
            return nominal / times, nominal * times
        if match := _SPREAD.fullmatch(text):
            number = float(match[1])
            half = abs(nominal) * number / 100.0 if match[2] else number * factor
            return nominal - half, nominal + half
        return self.refuse(path, 'a spread such as "±10 %", "±0.3" or "×/÷ 2"', given)

    def number(self, path: Path, given: object) -> float:
        """A finite number."""
        if isinstance(given, bool) or not isinstance(given, int | float):
            self.refuse(path, "a number", given)
        if abs(given) > 1e12 or not math.isfinite(given):
            self.refuse(path, "a finite number of a sensible size", given)
        return float(given)

    def status(self, path: Path, item: Mapping[str, object]) -> Status:
        """The status of a figure or of a form of supply."""
        given = item.get("status")
        if given not in STATUSES:
            hint = nearest_words(given, STATUSES) if isinstance(given, str) else ""
            self.refuse((*path, "status"), said("a status: {words}", words=", ".join(STATUSES)), given, hint)
        return Status(given)

    def source(self, path: Path, item: Mapping[str, object]) -> str:
        """The source written out; short names stand in the table `sources`."""
        given = item.get("source")
        if not isinstance(given, str) or not given.strip():
            self.refuse(path, "a source, even 'own measurement'", "none" if given in (None, "") else given)
        return self.sources.get(given, given)

    def text(self, path: Path, given: object) -> str | None:
        """A text, or None."""
        if given is not None and not isinstance(given, str):
            self.refuse(path, "a text", given)
        return given


def split(sentence: str) -> tuple[str, str]:
    """Expected and given of a sentence "… expected X, was given Y"."""
    expected, _, given = sentence.partition(", was given ")
    return expected.removeprefix("expected "), given or "none"


def shown(given: object) -> str:
    """What was given, cut short where it is long."""
    shown = repr(given)
    return shown if len(shown) <= 60 else shown[:57] + "..."
