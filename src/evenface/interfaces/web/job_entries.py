"""The entries of a whole job: for whom and where, the saw, the router, what is left on, and its build-ups."""

from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any, Final, get_args

from evenface.climate import place_names, room_kind_names
from evenface.interfaces.web.air_words import month_words, place_words, room_words
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import (
    CHOICE,
    FIGURE,
    FLAG,
    LENGTH,
    LIST,
    TEXT,
    WHOLE,
    YES_NO,
    Entry,
    Held,
    found,
    shown_value,
)
from evenface.interfaces.web.piece_entries import Group
from evenface.interfaces.web.plain_entries import PAIR, YEAR, entry_at
from evenface.piece.cutting_forms import CuttingForm, MerchantForm
from evenface.piece.form import CutWord, OrderWord, Section
from evenface.piece.forms import SawForm, ShopForm
from evenface.piece.like import resolve_likes
from evenface.toml_places import key_path
from evenface.words import Manner

MONTHS: Final = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
    "november", "december",
)  # fmt: skip
_SAW: Final = (
    ("kerf", "Kerf", LENGTH, ()), ("trim", "Trimmed off each edge of a sheet", LENGTH, ()),
    ("stages", "How often the cut may turn", WHOLE, ()), ("first_cut", "First cut", CHOICE, ("along", "across", "any")),
)  # fmt: skip
_CUTTING: Final = (
    ("least_offcut[0]", "Worth keeping from, width", LENGTH, ()), ("least_offcut[1]", "and length", LENGTH, ()),
    ("least_offcut", "Worth keeping from, width x length", LIST, ()),
    ("lift", "One person turns, kg", FIGURE, ()), ("rail", "Guide rail, length", LENGTH, ()),
    ("shears", "Longest cut of the shears", LENGTH, ()),
    ("boards", "Rough boards are cut", CHOICE, ("rip first", "crosscut first", "better")),
    ("planed_width", "Planed off the width of a board", LENGTH, ()),
    ("planed_thickness", "Planed off its thickness", LENGTH, ()),
    ("offcut_value", "A rest is worth, a m²", FIGURE, ()),
)  # fmt: skip
_MERCHANT: Final = (
    ("kerf", "Kerf of the merchant's saw", LENGTH, ()),
    ("sheet_trim", "Taken off each edge of a sheet there", LENGTH, ()),
    ("piece_trim", "Left on each piece, to be cut at home", LENGTH, ()),
    ("least_strip", "Narrowest strip cut there", LENGTH, ()),
)  # fmt: skip
_SHOP: Final = (
    ("bush", "Guide bush", LENGTH, ()), ("cutter", "Cutter", LENGTH, ()), ("bearing", "Bearing", LENGTH, ()),
    ("small_bush", "Small guide bush", LENGTH, ()), ("reach", "Cutter reaches", LENGTH, ()),
    ("template", "Template, thickness", LENGTH, ()), ("base", "Base of the router", LENGTH, ()),
    ("cutters", "Other straight cutters there are", LIST, ()),
)  # fmt: skip
_LEFT_ON: Final = (
    ("overhang", "Laminate over the edge", LENGTH, ()),
    ("overhang.front", "Laminate over the front edge", LENGTH, ()),
    ("overhang.rear", "Laminate over the rear edge", LENGTH, ()),
    ("overhang.left", "Laminate over the left edge", LENGTH, ()),
    ("overhang.right", "Laminate over the right edge", LENGTH, ()),
    ("proud_under", "Edging proud, under the facing", LENGTH, ()),
    ("proud_flush", "Edging proud, flush with it", LENGTH, ()), ("end", "Each end of an edging", LENGTH, ()),
    ("carrier", "Round the carrier", LENGTH, ()),
)  # fmt: skip


def job_groups(view: View, manner: Manner) -> tuple[Group, ...]:
    """What holds for the whole job, by what it is about."""
    return tuple(_Whole(view, manner).groups())


def job_entries(view: View, manner: Manner) -> tuple[Entry, ...]:
    """All of them in one row."""
    return tuple(entry for group in job_groups(view, manner) for entry in group.entries)


class _Whole:
    def __init__(self, view: View, manner: Manner) -> None:
        self.resolved: Any = resolve_likes(view.source, [])
        self.catalogue, self.manner = view.opened.catalogue, manner
        self.buildups = tuple(view.sketch.job.buildups)

    def groups(self) -> Iterator[Group]:
        yield Group("", tuple(self.job()), tuple(self.air()))
        for name in self.buildups:
            title = f"{self.manner.translate('Build-up')} {name}"
            yield Group(title, tuple(self.buildup(name)), tuple(self.seldom(name)))
        yield self.tabled("The saw", "saw", _SAW, SawForm())
        yield self.tabled("What is worth keeping, and handling", "cutting", _CUTTING, CuttingForm())
        yield self.tabled("Sawn to size by the merchant", "cutting.merchant", _MERCHANT, MerchantForm())
        yield self.tabled("The router", "shop", _SHOP, ShopForm())
        yield self.tabled("Left on to be taken off again", "allowances", _LEFT_ON, None)

    def tabled(self, title: str, at: str, rows: Any, usual: Any) -> Group:
        """One table of the file. rows : key, label, kind and choices. usual : its form with nothing written."""
        known = {one.name: getattr(usual, one.name) for one in fields(usual)} if usual else {}
        written = found(self.resolved, f"{at}.least_offcut") is not None
        entries = (
            self.listed(f"{at}.{key}", label, known.get(key, ()))
            if kind == LIST
            else self.entry(f"{at}.{key}", label, kind, known.get(key, ""), choices)
            for key, label, kind, choices in rows
            if (key != "least_offcut" if written else not key.endswith("]"))
        )
        return Group(self.manner.translate(title), tuple(entries), ())

    def job(self) -> Iterator[Entry]:
        yield self.entry("job.name", "Name of the job", TEXT, needed=True)
        yield self.entry("job.client", "Client", TEXT)
        yield self.entry("job.due", "Due on", TEXT, "2027-03-12")
        place = self.entry("job.place", "Where it will stand", CHOICE, "", place_names())
        yield replace(place, words=place_words())
        room = self.entry("job.room", "Kind of room", CHOICE, "", room_kind_names())
        yield replace(room, words=room_words(self.manner))
        yield self.entry("job.shop_humidity", "Air in the workshop", TEXT, "50 %")
        month = self.entry("job.bonding_month", "Glued in", CHOICE, "september", MONTHS)
        yield replace(month, words=month_words(MONTHS, self.manner))
        yield self.entry("job.currency", "Currency", TEXT)
        when = ("before facing", "after facing")
        yield self.entry("order.corners", "Corners under a facing are shaped", CHOICE, "before facing", when)

    def air(self) -> Iterator[Entry]:
        """The air of the room as the maker measured it, in the place of place and kind of room."""
        one_or_year = f"{self.manner.translate('such as')} 45 %"
        for key, label, usual in (
            ("humidity", "Air in the room, for the year or January to December", one_or_year),
            ("temperature", "Temperature there, °C, likewise", f"{self.manner.translate('such as')} 20"),
        ):
            yield entry_at(self.resolved, f"job.{key}", label, LIST, self.manner, usual, holds=YEAR)

    def buildup(self, name: str) -> Iterator[Entry]:
        at = key_path(("buildup", name))
        facings, woods = self.catalogue.names("facing"), self.catalogue.names("wood")
        glues, sections = self.catalogue.names("glue"), get_args(Section)
        rows: list[tuple[str, str, str, str, tuple[str, ...]]] = [
            ("face", "Facing", CHOICE, "nothing", facings),
            ("back", "Facing below or behind", CHOICE, "nothing", facings),
            ("carrier", "Carrier", CHOICE, "", self.catalogue.names("carrier")),
            ("carrier.thickness", "Carrier, thickness as measured", LENGTH, "", ()),
            ("glue", "Glue", CHOICE, "", glues),
            ("edging.wood", "Edging wood", CHOICE, "nothing", woods),
            ("edging.width", "Edging width", LENGTH, "", ()),
            ("edging.cut", "Cut", CHOICE, "", get_args(CutWord)),
            ("edging.section", "Section", CHOICE, "", sections),
            ("edging.top", "Section above", CHOICE, "", sections),
            ("edging.bottom", "Section below", CHOICE, "", sections),
            ("edging.order", "Order", CHOICE, "", get_args(OrderWord)),
            ("edging_glue", "Glue of the edging", CHOICE, "", glues),
            ("finish", "Finish of the wood", CHOICE, "", self.catalogue.names("finish")),
        ]
        for key, label, kind, usual, choices in rows:
            one = self.entry(f"{at}.{key}", label, kind, usual, choices, key in ("carrier", "glue"))
            yield replace(one, whose=name)

    def seldom(self, name: str) -> Iterator[Entry]:
        """What is rarely said of a build-up."""
        at, flag = key_path(("buildup", name)), tuple(YES_NO)
        rows: list[tuple[str, str, str, tuple[str, ...]]] = []
        for key, words in (("face", "Facing"), ("back", "Facing below"), ("carrier", "Carrier")):
            if key != "carrier":
                rows.append((f"{key}.thickness", f"{words}, thickness as measured", LENGTH, ()))
            rows += [
                (f"{key}.batch", f"{words}, batch", TEXT, ()),
                (f"{key}.turned", f"{words}, turned by 90 degrees", FLAG, flag),
                (f"{key}.humidity", f"{words}, air it lay in", TEXT, ()),
                (f"{key}.days_conditioned", f"{words}, days it lay there", FIGURE, ()),
            ]
        rows += [
            ("edging.proud", "Edging proud", LENGTH, ()),
            ("edging.broken_edge", "Edge broken by", LENGTH, ()),
            ("edging.sealed", "Edging sealed", FLAG, flag),
            ("bonding_humidity", "Air on the day of gluing", TEXT, ()),
            ("same_sheet", "From one sheet with", TEXT, ()),
            ("same_batch", "Of one batch with", TEXT, ()),
        ]
        for key, label, kind, choices in rows:
            yield replace(self.entry(f"{at}.{key}", label, kind, "", choices), whose=name)

    def listed(self, path: str, label: str, usual: tuple[float, ...]) -> Entry:
        """Lengths in one field; two where there are two, else as many as one likes."""
        holds = PAIR if len(usual) == 2 else Held(LENGTH, "; ")
        shown = holds.between.join(shown_value(one, LENGTH, self.manner) for one in usual)
        return entry_at(self.resolved, path, label, LIST, self.manner, shown, holds=holds)

    def entry(
        self, path: str, label: str, kind: str = LENGTH, usual: object = "", choices: tuple[str, ...] = (),
        needed: bool = False,
    ) -> Entry:  # fmt: skip
        value = found(self.resolved, path)
        if isinstance(value, dict):  # written in full
            value = value.get("material", value.get("every"))
        shown = shown_value(value, kind, self.manner)
        return Entry(path, label, shown, kind, shown_value(usual, kind, self.manner), choices, needed=needed)
