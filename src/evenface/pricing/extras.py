"""What is bought or done besides, and the lines that are a share of the others."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Final

from evenface.piece.price_records import Extra, PriceTable
from evenface.pricing.money import Money, money, summed
from evenface.pricing.records import MATERIAL, Fitting, Group, Line, Missing
from evenface.words import said

MARKUP: Final = Decimal("0.20")
"""Trade reference, read: + 20 % on bought-in items (many use 15 to 35)."""
CONSUMABLES: Final = Decimal("0.045")
"""Trade reference, from memory: 3 to 6 % of the cost of hours."""
HANDLING: Final = Decimal("0.10")
"""Trade reference, from memory: 10 to 20 % of material."""

type Priced = tuple[Line, Missing | None]


def fitting_lines(fittings: Sequence[Fitting], table: PriceTable) -> Iterator[Priced]:
    """Fittings of the pieces and of the table, each with the mark-up on bought-in things.

    Fittings of one name and price are one line, whatever their sizes. One of a piece without a price takes that of
    the table's `[[fitting]]` of the same name, which then stands for it and not beside it, else the price a piece the
    table's materials list under its name.
    """
    listed = {one.name: one for one in table.fittings}
    counts: dict[tuple[str, Decimal | None], int] = defaultdict(int)
    for one in fittings:
        counts[one.name, one.price] += one.count
    for one in (Fitting(name, count, price) for (name, price), count in counts.items()):
        named = listed.get(one.name)
        known = table.materials.get(one.name)
        prices = (
            one.price,
            named.price if named is not None else None,
            known.price if known is not None and known.per == "piece" else None,
        )
        price = next((each for each in prices if each is not None), None)
        line, missing = _bought_in(Extra(one.name, price, one.count), Group.FITTINGS, table, _markup(table))
        if missing is not None:
            missing = replace(missing, key=f'material."{one.name}" = {{ price = …, per = "piece" }}')
        yield line, missing
    there = {name for name, _ in counts}
    for extra in (extra for name, extra in listed.items() if name not in there):
        yield _bought_in(extra, Group.FITTINGS, table, _markup(table))


def besides(table: PriceTable) -> Iterator[Priced]:
    """Work given out, other things, delivery where it is priced."""
    for extra in table.subcontract:
        yield _bought_in(extra, Group.SUBCONTRACT, table, Decimal(0))
    for extra in table.other:
        yield _bought_in(extra, Group.OTHER, table, Decimal(0))
    if table.delivery is not None:
        yield Line(Group.DELIVERY, said("Delivery"), money(table.delivery, table.currency)), None


def shares_of_sums(lines: Sequence[Line], table: PriceTable) -> list[Line]:
    """Handling of material, consumables of the hours, contingency of everything."""
    handling = table.handling if table.handling is not None else HANDLING
    consumables = table.consumables if table.consumables is not None else CONSUMABLES
    made = [
        _share(_of(lines, table, *MATERIAL), handling, Group.HANDLING, "{share:percent} of material"),
        _share(
            _of(lines, table, Group.LABOUR), consumables, Group.CONSUMABLES, "{share:percent} of the hours"
        ),
    ]
    out = [line for line in made if line is not None]
    base = _of([*lines, *out], table, *Group)
    everything = _share(
        base, table.contingency or Decimal(0), Group.CONTINGENCY, "{share:percent} of all this"
    )
    return [*out, everything] if everything is not None else out


def _markup(table: PriceTable) -> Decimal:
    return table.fittings_markup if table.fittings_markup is not None else MARKUP


def _bought_in(extra: Extra, group: Group, table: PriceTable, markup: Decimal) -> Priced:
    what, count = said("{name}", name=extra.name), Decimal(extra.count)
    if extra.price is None:
        key = f"price of {extra.name!r} under [[{_KEYS[group]}]]"
        return Line(group, what, None, count), Missing(what, key, table.file or "prices.toml")
    each = money(extra.price * (1 + markup), table.currency)
    basis = said("{share:percent} on what it costs", share=float(markup)) if markup else said("as it costs")
    return Line(group, what, each.times(count), count, "", each, basis), None


_KEYS: Final = {Group.FITTINGS: "fitting", Group.SUBCONTRACT: "subcontract", Group.OTHER: "other"}
_TITLES: Final = {
    Group.HANDLING: said("Ordering, fetching, storing"),
    Group.CONSUMABLES: said("Abrasives, cutters, tape, template board"),
    Group.CONTINGENCY: said("For what nobody thought of"),
}


def _of(lines: Sequence[Line], table: PriceTable, *groups: Group) -> Money:
    found = (line.amount for line in lines if line.group in groups and line.amount is not None)
    return summed(found, table.currency)


def _share(base: Money, share: Decimal, group: Group, basis: str) -> Line | None:
    if not share or not base.amount:
        return None
    told = said(basis, share=float(share))
    return Line(group, _TITLES[group], base.times(share), share, "share", base, told)
