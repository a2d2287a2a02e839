"""A table brought into the rack: first the preview with every row that cannot be read, then one action."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from evenface.errors import Complaint, FileError, Place, Sentence, known_words, nearest_words
from evenface.store.rack_codes import code_text
from evenface.store.rack_columns import COPIES, NEEDED, READ, READ_ONLY, BadCell, unshielded
from evenface.store.rack_records import CORRECTABLE, RackItem, WrongItem
from evenface.words import said

type Row = tuple[int, list[str]]
"""Number of the row in its file, from 1, and its cells."""

MOST_COMPLAINTS = 200
_IMPORTED = tuple(name for name in CORRECTABLE if name != "photo")


@dataclass(frozen=True, slots=True)
class Preview:
    """What an import would do.

    new : booked in. changed : known codes, as seen and as they would be. same : nothing to do.
    """

    new: tuple[RackItem, ...]
    changed: tuple[tuple[RackItem, RackItem], ...]
    same: tuple[RackItem, ...]

    def fields_changed(self, number: int) -> tuple[str, ...]:
        """Names of what would be corrected of one of `changed`."""
        seen, wanted = self.changed[number]
        return tuple(name for name in _IMPORTED if getattr(seen, name) != getattr(wanted, name))


def preview(
    rows: Iterable[Row], file: str, known: Mapping[str, RackItem], materials: Collection[str]
) -> Preview:
    """Read a table whose first row names the columns. known : what lies in the rack, by code.

    materials : names that may stand in the column material. Raises FileError with every cell that cannot be read,
    each with its row, column, what was expected, what was given and the nearest word.
    """
    lines = iter(rows)
    head = next(((number, cells) for number, cells in lines if any(cell.strip() for cell in cells)), None)
    if head is None:
        raise FileError(
            [
                Complaint(
                    Place(file),
                    said("a first row that names the columns: {words}", words=", ".join(READ)),
                    "no rows",
                )
            ]
        )
    columns = _columns(head, file)
    reading = _Reading(file, known, sorted(materials), columns)
    for number, cells in lines:
        if any(cell.strip() for cell in cells):
            reading.row(number, cells)
    return reading.done()


def _columns(head: Row, file: str) -> list[str]:
    number, cells = head
    complaints, columns = [], []
    for place, cell in enumerate(cells, start=1):
        name = cell.strip().lower().removesuffix("_mm").removesuffix("_percent").replace(" ", "_")
        if name and name not in READ and name not in READ_ONLY:
            hint = nearest_words(name, list(READ)) or known_words(READ)
            complaints.append(
                Complaint(Place(file, number, place), "the name of a column", repr(cell[:60]), hint)
            )
        elif name and name in columns:
            complaints.append(Complaint(Place(file, number, place, name), "each column once", "a second one"))
        columns.append(name)
    missing = [name for name in NEEDED if name not in columns]
    if missing and not complaints:
        complaints.append(
            Complaint(
                Place(file, number),
                said("the columns {words}", words=", ".join(NEEDED)),
                said("no {words}", words=", ".join(missing)),
            )
        )
    if complaints:
        raise FileError(complaints)
    return columns


class _Reading:
    def __init__(
        self, file: str, known: Mapping[str, RackItem], materials: Sequence[str], columns: Sequence[str]
    ) -> None:
        self.file, self.known, self.materials, self.columns = file, known, list(materials), columns
        self.complaints: list[Complaint] = []
        self.rows: list[tuple[int, RackItem]] = []
        self.seen: dict[str, int] = {}

    def row(self, number: int, cells: Sequence[str]) -> None:
        before = len(self.complaints)
        given = dict(self._values(number, cells))
        self._missing(number, given)
        self._material(number, given)
        code, copies = str(given.get("code", "")), given.pop(COPIES, 1)
        if code and code in self.seen:
            self._refuse_cell(
                number, "code", "each code once", said("that of row {row} again", row=self.seen[code])
            )
        self.seen.setdefault(code, number)
        if code and copies != 1:
            self._refuse_cell(number, COPIES, "one, for a code is that of one item", str(copies))
        if len(self.complaints) == before:
            try:
                self.rows += [(number, self._item(given))] * int(str(copies))
            except WrongItem as problem:
                self._refuse_cell(number, problem.name, problem.expected, problem.given or "this row")

    def _values(self, number: int, cells: Sequence[str]) -> Iterator[tuple[str, object]]:
        for place, cell in enumerate(cells):
            text = unshielded(cell.strip())
            if not text.strip():
                continue
            name = self.columns[place] if place < len(self.columns) else ""
            if not name:
                where = Place(self.file, number, place + 1)
                self._add(Complaint(where, "nothing, for this column has no name", repr(text[:60])))
                continue
            try:
                yield name, (READ_ONLY.get(name) or READ[name])(text)
            except BadCell as bad:
                self._add(Complaint(self._place(number, name), bad.expected, repr(text[:60]), bad.hint))

    def _missing(self, number: int, given: Mapping[str, object]) -> None:
        told = {complaint.place.key for complaint in self.complaints if complaint.place.line == number}
        for name in NEEDED:
            if name not in given and name not in told:
                self._refuse_cell(number, name, said("a {name:word}", name=name), "an empty cell")

    def _material(self, number: int, given: Mapping[str, object]) -> None:
        name = str(given.get("material", ""))
        if name and name not in self.materials:
            hint = nearest_words(name, self.materials)
            self._add(
                Complaint(self._place(number, "material"), "a material that is known", repr(name[:60]), hint)
            )

    def _item(self, given: Mapping[str, object]) -> RackItem:
        """What is not told of a known item stays as it is."""
        known = self.known.get(str(given.get("code", "")))
        if known is None:
            return RackItem(**{"state": "free", **given})  # type: ignore[arg-type]
        wanted = {name: given.get(name, None) for name in self.columns if name in _IMPORTED}
        usual = {name: RackItem.__dataclass_fields__[name].default for name in wanted}
        told = {name: usual[name] if new is None else new for name, new in wanted.items()}
        for name in ("state", "reserved_for", "parent"):
            if name in given and given[name] != getattr(known, name):
                raise WrongItem(
                    name,
                    said(
                        "{known:word} as in the rack (book it with reserve, cut or spoil)",
                        known=getattr(known, name) or "nothing",
                    ),
                    str(given[name]),
                )
        return replace(known, **told)  # type: ignore[arg-type]

    def done(self) -> Preview:
        new = [(number, item) for number, item in self.rows if item.code not in self.known]
        codes = {item.code: item for _, item in new if item.code}
        for number, item in new:
            parent = codes.get(item.parent) or self.known.get(item.parent)
            if item.parent and (parent is None or parent.state != "cut"):
                what: Sentence = "one that is neither here nor there"
                if parent is not None:
                    what = said("one that is {state:word}", state=parent.state)
                self._refuse_cell(
                    number, "parent", "the code of an item that is cut, in this file or the rack", what
                )
        if self.complaints:
            raise FileError(self.complaints)
        old = [(self.known[item.code], item) for _, item in self.rows if item.code in self.known]
        return Preview(
            tuple(item for _, item in new),
            tuple((seen, wanted) for seen, wanted in old if seen != wanted),
            tuple(seen for seen, wanted in old if seen == wanted),
        )

    def _place(self, number: int, name: str) -> Place:
        column = self.columns.index(name) + 1 if name in self.columns else 0
        return Place(self.file, number, column, name)

    def _refuse_cell(self, number: int, name: str, expected: Sentence, given: Sentence) -> None:
        self._add(Complaint(self._place(number, name), expected, given))

    def _add(self, complaint: Complaint) -> None:
        self.complaints.append(complaint)
        if len(self.complaints) >= MOST_COMPLAINTS:
            raise FileError(self.complaints)


def summary(found: Preview) -> tuple[str, ...]:
    """One line for every item that would change, for those who look before they write."""
    lines = [f"new      {_line(item)}" for item in found.new]
    for number, (seen, _) in enumerate(found.changed):
        lines.append(f"corrected {code_text(seen.code)}: {', '.join(found.fields_changed(number))}")
    return tuple(lines)


def _line(item: RackItem) -> str:
    return f"{item.material} {item.form} {item.length / 100:g} × {item.width / 100:g}"
