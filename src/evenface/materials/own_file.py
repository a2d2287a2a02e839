"""Reading a maker's own file of materials, which changes single figures or adds entries."""

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path as FilePath

import tomlrt

from evenface.errors import Complaint, FileError, Place, Sentence, nearest_words
from evenface.materials.entries import KINDS, EntryReader
from evenface.materials.figures import Path
from evenface.materials.records import Record
from evenface.materials.shelf import Shelf
from evenface.toml_places import key_path, place_of, places
from evenface.words import said

LARGEST_BYTES = 2_000_000
DEEPEST = 12
"""Tables within tables; the deepest the catalogue knows is three."""


def read_own(file: FilePath, shipped: Callable[[str], Mapping[str, Record]]) -> dict[str, dict[str, Record]]:
    """The maker's entries by kind and name, built on the shipped ones.

    Raises FileError holding every complaint, each with file, line, column and key: a file that cannot be
    read or is over 2 MB, a syntax error, an unknown key, a figure without unit, status or source, a wrong
    unit, numbers that are not finite, a chain of `like` that runs in a circle.
    """
    text = _text(file)
    try:
        document: Mapping[str, object] = tomlrt.loads(text)
    except tomlrt.TOMLParseError as fault:
        place = Place(str(file), fault.line, fault.col)
        raise FileError([Complaint(place, "TOML", str(fault))]) from None
    except (ValueError, RecursionError) as fault:
        raise FileError([Complaint(Place(str(file)), "TOML", str(fault))]) from None
    reader = EntryReader(_sources(document), _places(file, text))
    if _depth(document) > DEEPEST:
        reader.complain((), said("tables at most {most} deep", most=DEEPEST), "deeper ones")
        raise FileError(reader.complaints)
    read = {kind: _shelf(reader, kind, document, shipped) for kind in KINDS if kind in document}
    for key in document:
        if key not in KINDS and key != "sources":
            known = (*KINDS, "sources")
            hint = nearest_words(key, known)
            reader.complain(
                (key,), said("one of the tables {words}", words=", ".join(known)), repr(key), hint
            )
    if reader.complaints:
        raise FileError(sorted(reader.complaints, key=lambda found: (found.place.line, found.place.column)))
    return read


def _shelf(
    reader: EntryReader,
    kind: str,
    document: Mapping[str, object],
    shipped: Callable[[str], Mapping[str, Record]],
) -> dict[str, Record]:
    tables = document[kind]
    if not isinstance(tables, Mapping):
        reader.complain((kind,), said('tables such as [{kind}."my-own"]', kind=kind), tables)
        return {}
    return Shelf(reader, kind, tables, shipped(kind)).records()


def _sources(document: Mapping[str, object]) -> dict[str, str]:
    sources = document.get("sources", {})
    if not isinstance(sources, Mapping):
        return {}
    return {key: text for key, text in sources.items() if isinstance(text, str) and text.strip()}


def _text(file: FilePath) -> str:
    def refused(given: Sentence) -> FileError:
        return FileError([Complaint(Place(str(file)), "a file of materials in TOML, UTF-8", given)])

    try:
        size = file.stat().st_size
        if size > LARGEST_BYTES:
            raise refused(said("{value} MB; at most 2 MB are read", value=f"{size / 1e6:.1f}"))
        return file.read_text(encoding="utf-8")
    except UnicodeDecodeError as fault:
        raise refused(said("a byte that is not UTF-8 at offset {start}", start=fault.start)) from None
    except OSError as fault:
        raise refused(fault.strerror or "a file that cannot be opened") from None


def _places(file: FilePath, text: str) -> Callable[[Path], Place]:
    @cache
    def found() -> dict[str, tuple[int, int]]:
        return places(text)

    def place(path: Path) -> Place:
        key = key_path(path)
        return Place(str(file), *place_of(key, found()), key)

    return place


def _depth(item: object, limit: int = 100) -> int:
    if limit == 0:
        return 1
    if isinstance(item, Mapping):
        return 1 + max((_depth(each, limit - 1) for each in item.values()), default=0)
    if isinstance(item, list):
        return 1 + max((_depth(each, limit - 1) for each in item), default=0)
    return 0
