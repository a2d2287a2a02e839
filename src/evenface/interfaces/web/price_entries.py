"""The entries of `[price]`: rate, margin and tax, materials, risk, work of others, who makes it, terms of the offer."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Final, get_args

from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import CHOICE, LENGTH, LIST, TEXT, WHOLE, Entry, Held, found
from evenface.interfaces.web.money import UNITS
from evenface.interfaces.web.piece_entries import Group
from evenface.interfaces.web.plain_entries import PAIR, entry_at
from evenface.interfaces.web.starting import titles_of
from evenface.piece.price_forms import Per
from evenface.toml_places import key_path
from evenface.words import Manner

AT: Final = "price"
PER: Final = tuple(get_args(Per))
EXTRAS: Final = {"subcontract": "Work of others", "fitting": "Fittings", "other": "Other costs"}
"""Lists of what is paid besides, and what they are called."""
_LINES, _PROSE = Held(between="; "), Held(between=" | ")
type _Rows = tuple[tuple[str, str, str, str], ...]
_ALWAYS: Final[_Rows] = (
    ("margin", "Margin", TEXT, "20 %"), ("tax", "Tax on top", TEXT, "25 %"), ("delivery", "Delivery", TEXT, ""),
    ("contingency", "For what nobody thought of", TEXT, "5 %"), ("round_to", "Rounded to a multiple of", TEXT, "50"),
    ("currency", "Currency", TEXT, "DKK"), ("locale", "Money written as in", TEXT, "da_DK"),
)  # fmt: skip
_RATE: Final[_Rows] = (
    ("rate.hourly", "One hour of work", TEXT, ""), ("rate.own_pay", "Own pay of a year", TEXT, ""),
    ("rate.weeks", "Weeks worked in a year", TEXT, "42"),
    ("rate.billable_hours", "Hours a week that somebody pays", TEXT, "24"),
)  # fmt: skip
_MATERIAL: Final[_Rows] = (
    ("wood_waste", "Waste, of the wood that is bought", TEXT, "30 %"),
    ("offcut_credit", "A useful rest is worth, of its cost", TEXT, "30 %"),
    ("handling", "Ordering, fetching, storing, of material", TEXT, "10 %"),
    ("fittings_markup", "On top of fittings", TEXT, "20 %"),
    ("consumables", "Abrasives, cutters, tape, of the hours", TEXT, "4.5 %"),
)  # fmt: skip
_MAKER: Final[_Rows] = (
    ("maker.name", "Name of the workshop", TEXT, ""), ("maker.address", "Its address, lines between ;", LIST, ""),
    ("maker.contact", "How it is reached", TEXT, ""), ("maker.tax_number", "Tax number", TEXT, ""),
    ("maker.pay_to", "Pay to", TEXT, ""),
)  # fmt: skip
_OFFER: Final[_Rows] = (
    ("offer.valid_days", "Offer holds for days", WHOLE, "30"),
    ("offer.client_address", "Address of the client, lines between ;", LIST, ""),
    ("offer.not_included", "Not included, sentences between |", LIST, ""),
    ("offer.notes", "Notes, between |", LIST, ""),
    ("offer.withdrawal", "What is said of withdrawing", TEXT, ""),
    ("offer.size_tolerance", "Sizes are held to", LENGTH, "1"),
)  # fmt: skip


def price_groups(view: View, manner: Manner) -> tuple[Group, ...]:
    """What the price of this job rests on."""
    return tuple(_Money(view, manner).groups())


def price_entries(view: View, manner: Manner) -> tuple[Entry, ...]:
    """All of them in one row."""
    return tuple(entry for group in price_groups(view, manner) for entry in group.entries)


def written_list(view: View, key: str) -> list[Any]:
    """A list of tables under `[price]` as the file has it."""
    written: Any = found(view.source.data, f"{AT}.{key}")
    return list(written) if isinstance(written, list) else []


class _Money:
    def __init__(self, view: View, manner: Manner) -> None:
        self.view, self.data, self.manner, self.word = view, view.source.data, manner, manner.translate
        self.titles = titles_of(view.opened.catalogue)

    def groups(self) -> Iterator[Group]:
        yield self.group("", self.rows(_ALWAYS))
        yield self.group(
            "The hour", (*self.rows(_RATE), *self.named("rate.fixed_costs", "Fixed cost of a year"))
        )
        yield self.group("Material", self.rows(_MATERIAL))
        materials = found(self.data, f"{AT}.material")
        if isinstance(materials, dict) and materials:
            yield self.group(
                "Prices of materials", (one for name in materials for one in self.material(name))
            )
        risk = tuple(self.named("risk", "Part that goes wrong"))
        if risk:
            yield self.group("What goes wrong", risk)
        for key, title in EXTRAS.items():
            for number in range(len(written_list(self.view, key))):
                yield self.extra(key, number, f"{self.word(title)} {number + 1}")
        yield self.group("Who makes it", self.rows(_MAKER))
        yield self.group("What the offer says", self.rows(_OFFER))
        for number in range(len(written_list(self.view, "offer.payment"))):
            yield self.payment(number)

    def group(self, title: str, entries: Any) -> Group:
        return Group(self.word(title) if title else "", tuple(entries), ())

    def rows(self, rows: _Rows) -> Iterator[Entry]:
        for key, label, kind, usual in rows:
            holds = None if kind != LIST else _LINES if "address" in key else _PROSE
            example = f"{self.word('such as')} {usual}" if usual else ""
            yield self.entry(key, label, kind, example, holds=holds)

    def named(self, key: str, label: str) -> Iterator[Entry]:
        """What is written by names of the maker's own; empty takes it out."""
        written = found(self.data, f"{AT}.{key}")
        for name in written if isinstance(written, dict) else ():
            yield self.entry(f"{key}.{key_path((name,))}", label, TEXT, whose=name)

    def material(self, name: str) -> Iterator[Entry]:
        at, whose = f"material.{key_path((name,))}", self.word(self.titles.get(name, name))
        yield self.entry(f"{at}.price", "Price", TEXT, whose=whose, needed=True)
        per = self.entry(f"{at}.per", "The price is of", CHOICE, choices=PER, whose=whose, needed=True)
        yield replace(per, words=tuple(self.word(UNITS[one]) for one in PER))
        yield self.entry(f"{at}.size", "Length x width", LIST, holds=PAIR, whose=whose)
        yield self.entry(f"{at}.covers", "Covers m², a kg or litre", TEXT, whose=whose)

    def extra(self, key: str, number: int, title: str) -> Group:
        at = f"{key}[{number}]"
        entries = (
            self.entry(f"{at}.name", "Name", TEXT, needed=True, whose=title),
            self.entry(f"{at}.price", "Price of one", TEXT, whose=title),
            self.entry(f"{at}.count", "How many", WHOLE, "1", whose=title),
        )
        return Group(title, entries, (), ((self.word("Take out"), f"out {key} {number}"),), entries[0].value)

    def payment(self, number: int) -> Group:
        at, title = f"offer.payment[{number}]", f"{self.word('Payment')} {number + 1}"
        entries = (
            self.entry(f"{at}.share", "Share", TEXT, needed=True, whose=title),
            self.entry(f"{at}.when", "When", TEXT, needed=True, whose=title),
        )
        deeds = ((self.word("Take out"), f"out offer.payment {number}"),)
        return Group(title, entries, (), deeds, entries[0].value)

    def entry(
        self, key: str, label: str, kind: str, usual: str = "", choices: tuple[str, ...] = (), needed: bool = False,
        holds: Held | None = None, whose: str = "",
    ) -> Entry:  # fmt: skip
        path = f"{AT}.{key}"
        return entry_at(self.data, path, label, kind, self.manner, usual, choices, needed, holds, whose)
