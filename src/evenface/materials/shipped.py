"""The shipped data files, of which only the entries asked for are parsed.

Each entry of these files is one table under a header `[kind."name"]`; what stands before the first is the
table of sources. A job names a handful of materials, so cutting the text at the headers saves nearly all of
the parser's work.
"""

import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Final

from evenface.errors import FileError, Place
from evenface.materials.entries import KINDS, EntryReader
from evenface.materials.figures import Path as KeyPath
from evenface.materials.records import Record
from evenface.materials.shelf import Shelf

DATA: Final = Path(__file__).parent / "data"
FILES: Final = {kind: "finishes.toml" if kind == "finish" else f"{kind}s.toml" for kind in KINDS}


@cache
def shipped(kind: str) -> Mapping[str, Record]:
    """The shipped records of a kind by name, in the order of their file, each built when first asked for."""
    return _ShippedRecords(kind)


class _Tables(Mapping[str, object]):
    """The table of each entry, parsed when asked for."""

    def __init__(self, kind: str, text: str) -> None:
        self.kind = kind
        starts = list(re.finditer(rf'^\[{kind}\."(?P<name>[^"\n]+)"\]$', text, re.M))
        ends = [*(found.start() for found in starts[1:]), len(text)]
        self.head = text[: starts[0].start()]
        self.texts = {
            found["name"]: text[found.start() : end] for found, end in zip(starts, ends, strict=True)
        }

    def __getitem__(self, name: str) -> object:
        return tomllib.loads(self.texts[name])[self.kind][name]

    def __contains__(self, name: object) -> bool:
        return name in self.texts

    def __iter__(self) -> Iterator[str]:
        return iter(self.texts)

    def __len__(self) -> int:
        return len(self.texts)


class _ShippedRecords(Mapping[str, Record]):
    def __init__(self, kind: str) -> None:
        file = FILES[kind]
        self.tables = _Tables(kind, (DATA / file).read_text(encoding="utf-8"))

        def place(path: KeyPath) -> Place:
            return Place(file, key=".".join(map(str, path)))

        self.reader = EntryReader(tomllib.loads(self.tables.head)["sources"], place)
        self.shelf = Shelf(self.reader, kind, self.tables, {})

    def __getitem__(self, name: str) -> Record:
        if name not in self.tables:
            raise KeyError(name)
        record = self.shelf.record(name)
        if record is None:
            raise FileError(self.reader.complaints)
        return record

    def __contains__(self, name: object) -> bool:
        return name in self.tables

    def __iter__(self) -> Iterator[str]:
        return iter(self.tables)

    def __len__(self) -> int:
        return len(self.tables)
