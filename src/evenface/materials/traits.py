"""What materials bear in use, for choosing them: grades and figures by class, pairs that do not go, named uses."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

from evenface.errors import FileError, MissingWord, Place
from evenface.evidence import Status, Value
from evenface.materials.figures import FigureReader, Refused
from evenface.materials.figures import Path as KeyPath

KINDS: Final = ("facing", "surface", "carrier", "back", "glue", "wood", "finish")
"""What is chosen, in the order a maker decides."""
_FILE: Final = Path(__file__).parent / "data" / "choice.toml"


@dataclass(frozen=True, slots=True)
class Need:
    """One thing a piece may have to bear.

    unit : of its figures: "grade" (0 to 4), °C, kg/m² or "price level" (1 to 5). poor, best : the ends of the
    scale; best below poor where less is better. levels : words for how much is asked, usual : the one meant
    when none is named. elsewhere : what the words ask of a kind of material that is not the face.
    """

    name: str
    title: str
    unit: str
    poor: float
    best: float
    usual: str
    levels: Mapping[str, float]
    elsewhere: Mapping[str, Mapping[str, float]] = field(default_factory=dict)

    def level(self, word: str = "") -> float:
        """The figure a level asks for. MissingWord, naming the nearest."""
        if (word or self.usual) not in self.levels:
            raise MissingWord(f"level of {self.name}", word, tuple(self.levels))
        return self.levels[word or self.usual]

    def level_for(self, kind: str, word: str, level: float) -> float:
        """What `word`, of which the face is asked `level`, asks of a kind of material."""
        return self.elsewhere.get(kind, {}).get(word, level)

    @property
    def less_is_better(self) -> bool:
        return self.best < self.poor

    def share(self, figure: float) -> float:
        """Where a figure lies between poor (0) and best (1)."""
        return min(1.0, max(0.0, (figure - self.poor) / (self.best - self.poor)))


@dataclass(frozen=True, slots=True)
class Trait:
    """How well a class of material bears a need: the figure, and why in a few words."""

    value: Value
    why: str = ""


@dataclass(frozen=True, slots=True)
class MaterialClass:
    """Materials that are chosen as one. traits : by need; what is not there is not known or does not matter.

    family, grade : of facings; boards : beginnings of carriers' names; names : materials by name.
    """

    kind: str
    name: str
    title: str
    traits: Mapping[str, Trait]
    family: str = ""
    grade: str = ""
    boards: tuple[str, ...] = ()
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pair:
    """Classes that do not go together ("out") or only at your risk ("doubt"). among : kind to class names."""

    among: Mapping[str, tuple[str, ...]]
    verdict: str
    why: str
    status: Status
    source: str


@dataclass(frozen=True, slots=True)
class Traits:
    """The whole file. uses : briefs with a name, as they would be written under [brief]."""

    needs: Mapping[str, Need]
    classes: tuple[MaterialClass, ...]
    pairs: tuple[Pair, ...]
    uses: Mapping[str, Mapping[str, Any]]

    def of_kind(self, kind: str) -> tuple[MaterialClass, ...]:
        return tuple(one for one in self.classes if one.kind == kind)


@cache
def traits() -> Traits:
    """What is known, read once. Raises FileError when the file has slips."""
    document = tomllib.loads(_FILE.read_text(encoding="utf-8"))
    reader = FigureReader(document["sources"], _place)
    needs = {name: Need(name, **table) for name, table in document["need"].items()}
    classes = [
        _class(reader, needs, kind, name, table)
        for kind in KINDS
        for name, table in document.get(kind, {}).items()
    ]
    if reader.complaints:
        raise FileError(reader.complaints)
    pairs = tuple(_pair(dict(table)) for table in document["pair"])
    return Traits(MappingProxyType(needs), tuple(classes), pairs, MappingProxyType(document["use"]))


def _place(path: KeyPath) -> Place:
    return Place(_FILE.name, key=".".join(map(str, path)))


@dataclass(slots=True)
class _Found:
    traits: dict[str, Trait] = field(default_factory=dict)
    words: dict[str, Any] = field(default_factory=dict)


def _class(
    reader: FigureReader, needs: Mapping[str, Need], kind: str, name: str, table: Mapping[str, Any]
) -> MaterialClass:
    found = _Found()
    for key, entry in table.items():
        if key not in needs:
            found.words[key] = tuple(entry) if isinstance(entry, list) else entry
            continue
        figure = {word: given for word, given in entry.items() if word != "why"}
        figure.setdefault("unit", needs[key].unit)
        try:
            value = reader.value((kind, name, key), figure, needs[key].unit)
        except Refused:
            continue
        found.traits[key] = Trait(value, entry.get("why", ""))
    return MaterialClass(kind, name, traits=MappingProxyType(found.traits), **found.words)


def _pair(table: dict[str, Any]) -> Pair:
    plain = {key: table.pop(key) for key in ("verdict", "why", "status", "source")}
    among = {kind: tuple(names) for kind, names in table.items()}
    return Pair(among, plain["verdict"], plain["why"], Status(plain["status"]), plain["source"])
