"""From the tables of a data file to whole records, with every complaint at its key."""

from collections.abc import Mapping
from dataclasses import MISSING, dataclass, fields, replace
from decimal import Decimal, InvalidOperation
from functools import cache
from typing import Any, Final

from evenface.evidence import Value
from evenface.materials.figures import FigureReader, Path, Refused, split
from evenface.materials.records import Carrier, Facing, Finish, Glue, Record, Wood
from evenface.materials.supply import Supply
from evenface.units import read_length
from evenface.words import said

KINDS: Final[Mapping[str, type[Record]]] = {
    "carrier": Carrier,
    "facing": Facing,
    "wood": Wood,
    "glue": Glue,
    "finish": Finish,
}
_SUPPLY_KEYS: Final = (
    "form",
    "length",
    "width",
    "thickness",
    "sold_by",
    "price",
    "currency",
    "status",
    "source",
)


@dataclass(slots=True)
class EntryReader(FigureReader):
    """Reads entries of the catalogue and gathers what is wrong with them."""

    def record(self, kind: str, path: Path, table: object, base: Record | None) -> Record | None:
        """The record of one entry; what it does not say is taken from `base`. None when it was refused."""
        if not isinstance(table, Mapping):
            self.complain(path, said("a table describing a {kind}", kind=kind), table)
            return None
        before = len(self.complaints)
        given = {key: item for key, item in table.items() if key != "like"}
        name = str(path[-1])
        found = self._fields(kind, path, given, base)
        if base is None:
            self._missing(kind, path, given)
        if len(self.complaints) > before:
            return None
        found = {"name": name} | ({} if base is None else {"title": _title(base, name)}) | found
        try:
            return replace(base, **found) if base is not None else KINDS[kind](**found)
        except ValueError as refusal:
            self.complain(path, *split(str(refusal)))
            return None

    def _fields(
        self, kind: str, path: Path, given: Mapping[str, object], base: Record | None
    ) -> dict[str, Any]:
        record = KINDS[kind]
        known = _plain_fields(kind) | {"supplies": tuple, **dict.fromkeys(record.UNITS, Value)}
        found: dict[str, Any] = {}
        for key, item in given.items():
            here = (*path, key)
            if key not in known:
                self.unknown(here, key, (*known, "like"))
                continue
            try:
                if key == "supplies":
                    found[key] = self._supplies(here, item)
                elif key in record.UNITS:
                    found[key] = self.value(here, item, record.UNITS[key], getattr(base, key, None))
                else:
                    found[key] = self._plain(here, item, known[key])
            except Refused:
                continue
        return found

    def _missing(self, kind: str, path: Path, given: Mapping[str, object]) -> None:
        needed = [f.name for f in fields(KINDS[kind]) if f.default is MISSING and f.name != "name"]
        lacking = [key for key in needed if key not in given]
        if lacking:
            hint = said(
                'Add them, or begin with `like = "…"` and change only what differs from another {kind}.',
                kind=kind,
            )
            self.complain(
                path, "a complete entry", said("one without {words}", words=", ".join(lacking)), hint
            )

    def _supplies(self, path: Path, items: object) -> tuple[Supply, ...]:
        if not isinstance(items, list):
            self.refuse(path, "a list of forms of supply", items)
        return tuple(self._supply((*path, index), item) for index, item in enumerate(items))

    def _supply(self, path: Path, item: object) -> Supply:
        if not isinstance(item, Mapping):
            self.refuse(path, 'a form of supply such as { form = "sheet", length = 3050, … }', item)
        for key in item:
            if key not in _SUPPLY_KEYS:
                self.unknown((*path, key), key, _SUPPLY_KEYS)
        sizes = {f"{key}_mm": self._length((*path, key), item.get(key)) for key in _SUPPLY_KEYS[1:4]}
        try:
            return Supply(
                form=item.get("form", "none"),
                sold_by=item.get("sold_by", "piece"),
                status=self.status(path, item),
                source=self.source(path, item),
                price=self._price((*path, "price"), item.get("price")),
                currency=self.text((*path, "currency"), item.get("currency")),
                **sizes,
            )
        except ValueError as refusal:
            self.refuse(path, *split(str(refusal)))

    def _length(self, path: Path, given: object) -> float | None:
        if given is None:
            return None
        try:
            return read_length(given)
        except ValueError as refusal:
            self.refuse(path, *split(str(refusal)))

    def _price(self, path: Path, given: object) -> Decimal | None:
        if given is None:
            return None
        if isinstance(given, bool) or not isinstance(given, int | float | str):
            self.refuse(path, 'a price such as "86.50"', given)
        try:
            return Decimal(str(given))
        except InvalidOperation:
            self.refuse(path, 'a price such as "86.50"', given)

    def _plain(self, path: Path, given: object, wanted: type) -> object:
        if wanted is float:
            return self.number(path, given)
        if wanted is tuple:
            return self._list(path, given)
        if not isinstance(given, wanted) or (wanted is int and isinstance(given, bool)):
            self.refuse(path, _PLAIN_WORDS[wanted], given)
        return self.sources.get(given, given) if path[-1] == "source" and isinstance(given, str) else given

    def _list(self, path: Path, given: object) -> tuple[object, ...]:
        if not isinstance(given, list):
            self.refuse(path, "a list", given)
        if path[-1] == "sold_thicknesses_mm":
            return tuple(self.number((*path, index), item) for index, item in enumerate(given))
        return tuple(self._plain((*path, index), item, str) for index, item in enumerate(given))


_PLAIN_WORDS: Final = {str: "a text", int: "a whole number", bool: "true or false"}
_TYPES: Final = {"str": str, "float": float, "int": int, "bool": bool}


@cache
def _plain_fields(kind: str) -> dict[str, type]:
    """The fields of a kind of record that are neither figures nor its name, and what a file gives."""
    record = KINDS[kind]
    found: dict[str, type] = {}
    for each in fields(record):
        if each.name in record.UNITS or each.name in ("name", "supplies"):
            continue
        shown = each.type if isinstance(each.type, str) else getattr(each.type, "__name__", "str")
        found[each.name] = tuple if str(each.type).startswith("tuple") else _TYPES.get(shown, str)
    return found


def _title(base: Record, name: str) -> str:
    return base.title if base.name == name else name
