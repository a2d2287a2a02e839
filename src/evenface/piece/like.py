"""`like = "other"`: an entry takes over what another says and changes only what it writes itself."""

import copy
from collections.abc import Mapping
from typing import Any

from evenface.errors import Complaint, nearest_words
from evenface.piece.showing import shown
from evenface.piece.source_text import Source
from evenface.toml_places import key_path
from evenface.words import said

type Table = dict[str, Any]

LONGEST_CHAIN = 40
SHORT_FORMS = ("face", "back", "carrier")
"""Entries of a build-up that may be written as the name of a material alone."""


def resolve_likes(source: Source, complaints: list[Complaint]) -> Table:
    """The file's data with every `like` of build-ups and panels filled in and taken away.

    A panel may be like another of its own piece, or of any piece when the name stands only once in the file.
    A circle or an unknown name is a complaint; the entry is then left as it is written.
    """
    data: Table = copy.deepcopy(dict(source.data))
    buildups = data.get("buildup")
    if isinstance(buildups, dict):
        tables = {name: table for name, table in buildups.items() if isinstance(table, dict)}
        chain = _Likes(tables, {name: key_path(("buildup", name)) for name in tables}, source, complaints)
        buildups.update(chain.resolved("the name of a build-up"))
    _resolve_panels(data, source, complaints)
    return data


def _resolve_panels(data: Table, source: Source, complaints: list[Complaint]) -> None:
    """Panels are known by piece and name; by the name alone where no other panel has it."""
    tables: dict[str, Table] = {}
    paths: dict[str, str] = {}
    places: list[tuple[list[Any], int, str]] = []
    by_name: dict[str, list[str]] = {}
    pieces = data.get("piece")
    for piece_number, piece in enumerate(pieces if isinstance(pieces, list) else []):
        written = piece.get("panel") if isinstance(piece, dict) else None
        panels: list[Any] = written if isinstance(written, list) else []
        for number, panel in enumerate(panels):
            name = panel.get("name") if isinstance(panel, dict) else None
            key = f"{piece_number}\n{name}"
            if not isinstance(name, str) or key in tables:
                continue
            tables[key], paths[key] = panel, f"piece[{piece_number}].panel[{number}]"
            places.append((panels, number, key))
            by_name.setdefault(name, []).append(key)
    likes = _Likes(tables, paths, source, complaints, by_name)
    done = likes.resolved("the name of another panel")
    for panels, number, key in places:
        panels[number] = done[key]


class _Likes:
    """Entries by a key of their own, and how the name after `like` is looked up among them."""

    def __init__(
        self,
        tables: Mapping[str, Table],
        paths: Mapping[str, str],
        source: Source,
        complaints: list[Complaint],
        by_name: Mapping[str, list[str]] | None = None,
    ) -> None:
        self.tables, self.paths, self.source, self.complaints = tables, paths, source, complaints
        self.by_name = by_name if by_name is not None else {name: [name] for name in tables}
        self.done: dict[str, Table] = {}

    def resolved(self, expected: str) -> dict[str, Table]:
        """Every entry with what it takes over from others."""
        for key in self.tables:
            self._resolve(key, (), expected)
        return self.done

    def _resolve(self, key: str, chain: tuple[str, ...], expected: str) -> Table:
        if key in self.done:
            return self.done[key]
        table = dict(self.tables[key])
        other = table.pop("like", None)
        if other is not None:
            found = self._found(key, other, expected)
            if found is not None and self._straight((*chain, key), found):
                table = _over(self._resolve(found, (*chain, key), expected), table)
        self.done[key] = table
        return table

    def _found(self, key: str, other: object, expected: str) -> str | None:
        keys = self.by_name.get(other, []) if isinstance(other, str) else []
        same_piece = [found for found in keys if found.split("\n")[0] == key.split("\n", maxsplit=1)[0]]
        if "\n" in key and same_piece:
            return same_piece[0]
        if len(keys) == 1:
            return keys[0]
        place = self.source.place(f"{self.paths[key]}.like")
        if keys:
            self.complaints.append(Complaint(place, "a name that stands once in the file", shown(other)))
        else:
            hint = nearest_words(other, tuple(self.by_name)) if isinstance(other, str) else ""
            self.complaints.append(Complaint(place, expected, shown(other), hint))
        return None

    def _straight(self, chain: tuple[str, ...], found: str) -> bool:
        place = self.source.place(f"{self.paths[chain[-1]]}.like")
        names = [key.split("\n")[-1] for key in (*chain, found)]
        if found in chain:
            circle = " → ".join(names)
            self.complaints.append(Complaint(place, "no circle of likes", circle, "Write one of them out."))
            return False
        if len(chain) > LONGEST_CHAIN:
            told = said("a chain of more than {most}", most=LONGEST_CHAIN)
            self.complaints.append(
                Complaint(place, said("at most {most} likes in a row", most=LONGEST_CHAIN), told)
            )
            return False
        return True


def _over(base: Table, own: Table) -> Table:
    """`own` laid over `base`, table within table; a material's name counts as a table that says only that."""
    merged = copy.deepcopy(base)
    for key, value in own.items():
        below = merged.get(key)
        if key in SHORT_FORMS and isinstance(value, dict) and isinstance(below, str):
            below = {"material": below}
        merged[key] = _over(below, value) if isinstance(below, dict) and isinstance(value, dict) else value
    return merged
