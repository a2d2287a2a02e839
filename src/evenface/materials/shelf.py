"""Building the entries of one kind, each from what it says and from the entry it is like."""

from collections.abc import Mapping

from evenface.errors import nearest_words
from evenface.materials.entries import EntryReader
from evenface.materials.records import Record
from evenface.words import said


class Shelf:
    """The entries of one kind in one file; `known` are those that stand before it (the shipped ones).

    An entry begins from the one it names with `like`, else from a known one of its own name, which it then
    changes, else from nothing. A change to a known entry does not reach other known entries like it.
    """

    def __init__(
        self, reader: EntryReader, kind: str, tables: Mapping[str, object], known: Mapping[str, Record]
    ) -> None:
        self.reader, self.kind, self.tables, self.known = reader, kind, tables, known
        self.done: dict[str, Record | None] = {}

    def records(self) -> dict[str, Record]:
        """All entries that could be read, by name; what was wrong with the others is with the reader."""
        built = {name: self.record(name) for name in self.tables}
        return {name: record for name, record in built.items() if record is not None}

    def record(self, name: str) -> Record | None:
        """One entry; None when it was refused."""
        return self._build(name, ())

    def _build(self, name: str, chain: tuple[str, ...]) -> Record | None:
        if name in self.done:
            return self.done[name]
        table = self.tables[name]
        self.done[name] = None
        like = table.get("like") if isinstance(table, Mapping) else None
        if like is None:
            base = self.known.get(name)
        else:
            base = self._base(name, like, (*chain, name))
            if base is None:
                return None
        self.done[name] = self.reader.record(self.kind, (self.kind, name), table, base)
        return self.done[name]

    def _base(self, name: str, like: object, chain: tuple[str, ...]) -> Record | None:
        path = (self.kind, name, "like")
        if not isinstance(like, str):
            self.reader.complain(path, said("the name of a {kind}", kind=self.kind), like)
            return None
        if like in chain:
            circle = " → ".join((*chain, like))
            hint = "An entry that changes a shipped material of its own name needs no `like`."
            self.reader.complain(path, "a chain of `like` that ends", circle, hint)
            return None
        if like in self.tables:
            return self._build(like, chain)
        if like in self.known:
            return self.known[like]
        near = nearest_words(like, (*self.tables, *self.known))
        self.reader.complain(path, said("the name of a {kind}", kind=self.kind), repr(like), near)
        return None
