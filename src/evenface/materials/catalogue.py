"""The catalogue: the shipped materials, and those of the maker's own file before them."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Final

from evenface.errors import MissingWord
from evenface.materials.entries import KINDS
from evenface.materials.records import Carrier, Facing, Finish, Glue, Record, Wood
from evenface.materials.shipped import shipped

_NOTHING: Final[Mapping[str, Record]] = MappingProxyType({})


class Catalogue:
    """Materials by kind ("carrier", "facing", "wood", "glue", "finish") and name.

    own : entries of the maker's file by kind and name; they come before the shipped ones.
    Shipped entries are read when first asked for.
    """

    __slots__ = ("own",)

    def __init__(self, own: Mapping[str, Mapping[str, Record]] = MappingProxyType({})) -> None:
        self.own: Final = own

    def carrier(self, name: str) -> Carrier:
        """A board by name. Raises MissingWord, naming the nearest."""
        return self._find("carrier", Carrier, name)

    def facing(self, name: str) -> Facing:
        """A facing or balancing sheet by name. Raises MissingWord, naming the nearest."""
        return self._find("facing", Facing, name)

    def wood(self, name: str) -> Wood:
        """A solid wood by name. Raises MissingWord, naming the nearest."""
        return self._find("wood", Wood, name)

    def glue(self, name: str) -> Glue:
        """A glue by name. Raises MissingWord, naming the nearest."""
        return self._find("glue", Glue, name)

    def finish(self, name: str) -> Finish:
        """A finish by name. Raises MissingWord, naming the nearest."""
        return self._find("finish", Finish, name)

    def names(self, kind: str) -> tuple[str, ...]:
        """All names of a kind, the shipped first. Raises MissingWord for an unknown kind."""
        if kind not in KINDS:
            raise MissingWord("kind of material", kind, tuple(KINDS))
        return tuple(dict.fromkeys((*shipped(kind), *self.own.get(kind, _NOTHING))))

    def everything(self) -> dict[str, tuple[Record, ...]]:
        """All records by kind, in the order of `names`."""
        return {kind: tuple({**shipped(kind), **self.own.get(kind, _NOTHING)}.values()) for kind in KINDS}

    def is_own(self, kind: str, name: str) -> bool:
        """Whether an entry comes from the maker's own file, wholly or in part."""
        return name in self.own.get(kind, _NOTHING)

    def _find[R](self, kind: str, made: type[R], name: str) -> R:
        record = self.own.get(kind, _NOTHING).get(name) or shipped(kind).get(name)
        if not isinstance(record, made):
            raise MissingWord(kind, name, self.names(kind))
        return record


def load_catalogue(own: Path | None = None) -> Catalogue:
    """The shipped catalogue, with the maker's own file before it where one is given.

    Without `own` it is the same object every time. Raises FileError with every complaint about `own`.
    """
    if own is None:
        return _shipped_only()
    # the editing parser is imported only when there is something to edit
    from evenface.materials.own_file import read_own

    return Catalogue(read_own(Path(own), shipped))


@cache
def _shipped_only() -> Catalogue:
    return Catalogue()
