"""The entries of `[[stock]]`: what the layouts of a job may be cut from, line by line, with damage."""

from collections.abc import Iterator
from typing import Any, Final, get_args, get_type_hints

from evenface.errors import Unreadable
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import CHOICE, FIGURE, LENGTH, LIST, TEXT, WHOLE, Entry, Held, found
from evenface.interfaces.web.piece_entries import Group
from evenface.interfaces.web.plain_entries import PAIR, entry_at, pair_such_as
from evenface.interfaces.web.starting import titles_of
from evenface.piece.forms import DefectForm, StockForm
from evenface.words import Manner

AT: Final = "stock"
FORMS: Final = tuple(get_args(get_args(get_type_hints(StockForm)["form"])[0]))
DAMAGE: Final = tuple(get_args(get_type_hints(DefectForm)["kind"]))
_PLACES: Final = (
    ("at[0]", "Begins, from the left"), ("at[1]", "Begins, from the front"), ("size[0]", "Length"),
    ("size[1]", "Width"),
)  # fmt: skip


def _two_edges(words: list[str]) -> None:
    if len(words) != 2:
        raise Unreadable("the lower and the upper edge, such as 0; 15", repr("; ".join(words)[:40]))


def _one_or_two(words: list[str]) -> None:
    if len(words) != 1:
        _two_edges(words)


def stock_groups(view: View, manner: Manner) -> tuple[Group, ...]:
    """A group for every line of stock, in the order of the file."""
    lines = _Lines(view, manner)
    return tuple(lines.group(number) for number in range(len(lines_of(view))))


def stock_entries(view: View, manner: Manner) -> tuple[Entry, ...]:
    """All of them in one row."""
    return tuple(entry for group in stock_groups(view, manner) for entry in group.entries)


def new_line(view: View, manner: Manner) -> tuple[Entry, ...]:
    """The entries of a line that is still to be written, after the last."""
    lines, at = _Lines(view, manner), f"{AT}[{len(lines_of(view))}]"
    return (lines.material(at, ""), *lines.sizes(at, ""), *lines.price(at, ""))


def new_damage(number: int, many: int) -> tuple[Entry, ...]:
    """The entries of damage more on the line of that number, which has so many."""
    at = f"{AT}[{number}].defect[{many}]"
    return (
        Entry(f"{at}.at", "Begins, from the left x from the front", "", LIST, needed=True, holds=PAIR),
        Entry(f"{at}.size", "Length x width of it", "", LIST, needed=True, holds=PAIR),
        Entry(f"{at}.kind", "What it is", "", CHOICE, "", DAMAGE),
    )


def lines_of(view: View) -> list[dict[str, Any]]:
    """The lines as the file has them."""
    written: Any = view.source.data.get(AT)
    return list(written) if isinstance(written, list) else []


def damage_of(line: dict[str, Any], at: str) -> list[tuple[str, dict[str, Any]]]:
    """Key path and table of each damage; the only one may be written without a list."""
    written = line.get("defect", [])
    if isinstance(written, dict):
        return [(f"{at}.defect", written)]
    return [(f"{at}.defect[{number}]", one) for number, one in enumerate(written)]


class _Lines:
    def __init__(self, view: View, manner: Manner) -> None:
        self.data, self.lines, self.manner, self.word = (
            view.source.data,
            lines_of(view),
            manner,
            manner.translate,
        )
        catalogue = view.opened.catalogue
        self.titles = titles_of(catalogue)
        kinds = ("carrier", "facing", "wood")
        self.materials = tuple(name for kind in kinds for name in catalogue.names(kind))

    def group(self, number: int) -> Group:
        at, line = f"{AT}[{number}]", self.lines[number]
        who = str(number + 1)
        sizes, rest = tuple(self.sizes(at, who)), tuple(self.more(at, who))
        written = [self.material(at, who), *(one for one in sizes if one.value), *self.price(at, who)]
        written += [one for one in rest if one.value]
        damage = damage_of(line, at)
        for place, (path, _) in enumerate(damage, start=1):
            written += self.damage(path, f"{who}, {self.word('Damage')} {place}")
        deeds = [(self.word("Take this line out"), f"out {number}")]
        deeds += [
            (f"{self.word('Take out damage')} {place}", f"mend {number} {place - 1}")
            for place in range(1, len(damage) + 1)
        ]
        open_ = tuple(one for one in (*sizes, *rest) if not one.value)
        title = f"{self.word('Line')} {number + 1}"
        return Group(title, tuple(written), open_, tuple(deeds), self.called(line, sizes))

    def called(self, line: dict[str, Any], sizes: tuple[Entry, ...]) -> str:
        """A line in a few words: material and size."""
        name = str(line.get("material", ""))
        return ", ".join(
            one for one in (self.word(self.titles.get(name, name)), *(e.value for e in sizes)) if one
        )

    def material(self, at: str, who: str) -> Entry:
        return self.entry(at, "material", who, "Material", CHOICE, "", self.materials, True)

    def price(self, at: str, who: str) -> Iterator[Entry]:
        yield self.entry(at, "price", who, "Price of one, of a roll by the metre", FIGURE)
        copies = self.word("as many as it takes")
        yield self.entry(at, "copies", who, "How many there are", WHOLE, copies)
        yield self.entry(at, "form", who, "Form", CHOICE, "", FORMS)

    def sizes(self, at: str, who: str) -> Iterator[Entry]:
        yield self.entry(
            at, "size", who, "Length x width", LIST, pair_such_as(2500, 1250, self.manner), holds=PAIR
        )
        yield self.entry(at, "width", who, "Width, sold by the metre", LENGTH)

    def more(self, at: str, who: str) -> Iterator[Entry]:
        yield self.entry(at, "batch", who, "Batch", TEXT)
        yield self.entry(at, "thickness", who, "Thickness of a rough board", LENGTH)
        yield self.entry(at, "far_width", who, "Width at the far end, of a tapered board", LENGTH)
        listed = isinstance(found(self.data, f"{at}.wane"), list)
        wane = Held(LENGTH, "; ", _two_edges if listed else _one_or_two, bare=True)
        label = "Bark along the lower and the upper edge"
        yield self.entry(at, "wane", who, label, LIST, f"{self.word('such as')} 0; 15", holds=wane)

    def damage(self, at: str, who: str) -> Iterator[Entry]:
        for key, label in _PLACES:
            yield self.entry(at, key, who, label, LENGTH)
        yield self.entry(at, "kind", who, "What it is", CHOICE, "knot", DAMAGE)

    def entry(
        self, at: str, key: str, who: str, label: str, kind: str, usual: str = "", choices: tuple[str, ...] = (),
        needed: bool = False, holds: Held | None = None,
    ) -> Entry:  # fmt: skip
        path = f"{at}.{key}"
        return entry_at(self.data, path, label, kind, self.manner, usual, choices, needed, holds, who)
