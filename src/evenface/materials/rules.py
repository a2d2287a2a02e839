"""The trade's limits and allowances, by their id.

Lengths in mm, shares and moisture as fractions, times in minutes. A statement without a number has the value
1 and the unit "1" and is there for its status and source.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

from evenface.errors import FileError, MissingWord, Place
from evenface.evidence import Value
from evenface.materials.figures import FigureReader
from evenface.materials.figures import Path as KeyPath
from evenface.materials.quantities import CONVERSIONS

_FILE: Final = Path(__file__).parent / "data" / "rules.toml"


@dataclass(frozen=True, slots=True)
class HingeRow:
    """So many hinges suffice up to this height (mm) and this mass of the door (kg)."""

    count: int
    height_mm: float
    mass_kg: float


def rule(rule_id: str) -> Value:
    """One limit or allowance. Raises MissingWord, naming the nearest id."""
    known = rules()
    if rule_id not in known:
        raise MissingWord("rule", rule_id, tuple(known))
    return known[rule_id]


@cache
def rules() -> Mapping[str, Value]:
    """All limits and allowances by their id, in the order of the file."""
    document = _document()

    def place(path: KeyPath) -> Place:
        return Place(_FILE.name, key=".".join(map(str, path)))

    reader = FigureReader(document["sources"], place)
    read = {
        rule_id: reader.value(("rule", rule_id), item, _unit(item))
        for rule_id, item in document["rule"].items()
    }
    if reader.complaints:
        raise FileError(reader.complaints)
    return MappingProxyType(read)


@cache
def hinge_rows() -> tuple[HingeRow, ...]:
    """A hinge maker's chart, read: rows from light and low to heavy and tall."""
    return tuple(HingeRow(**row) for row in _document()["hinges"])


def hinge_count(height_mm: float, mass_kg: float) -> int | None:
    """How many hinges a door of that height and mass needs; None when it is beyond the chart."""
    for row in hinge_rows():
        if height_mm <= row.height_mm and mass_kg <= row.mass_kg:
            return row.count
    return None


def _unit(item: Mapping[str, Any]) -> str:
    """A rule keeps the unit it is written in, as long as the catalogue keeps figures in it."""
    written = str(item.get("unit", ""))
    return written if written in CONVERSIONS else "one of " + ", ".join(CONVERSIONS)


@cache
def _document() -> dict[str, Any]:
    return tomllib.loads(_FILE.read_text(encoding="utf-8"))
