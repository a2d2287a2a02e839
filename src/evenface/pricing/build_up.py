"""The price of a planned job, line by line: hours, material, what is bought besides, margin, tax.

The order is that of the trade reference: rate; material net, blank, bought; hours of each operation;
consumables; delivery; (sum × (1 + contingency)) / (1 − margin); tax.
"""

from collections.abc import Iterator
from decimal import Decimal

from evenface.piece.price_records import PriceTable
from evenface.pricing.extras import besides, fitting_lines, shares_of_sums
from evenface.pricing.labour import labour_lines
from evenface.pricing.material import material_lines
from evenface.pricing.money import Money, decimal_of, summed
from evenface.pricing.rate import rate_of
from evenface.pricing.records import Group, Line, Missing, Price, Rate, ToPrice
from evenface.words import said

_ORDER = {group: number for number, group in enumerate(Group)}

type Priced = tuple[Line, Missing | None]


def price_of(asked: ToPrice, table: PriceTable) -> Price:
    """The build-up of a price. An unpriced item has a line without amount and stands under `missing`.

    asked : what the job takes. table : rate, prices and shares of the maker.
    Raises ValueError for a margin of 100 % or more, or a share or price below zero.
    """
    _refuse(table)
    rate = rate_of(table)
    found = list(_priced(asked, table, rate))
    lines = [line for line, _ in found]
    lines += shares_of_sums(lines, table)
    cost = summed((line.amount for line in lines if line.amount is not None), table.currency)
    margin, rounding, net = _asked_for(cost, table)
    tax = net.times(table.tax) if table.tax is not None else None
    return Price(
        currency=table.currency,
        rate=rate,
        lines=tuple(sorted(lines, key=lambda line: _ORDER[line.group])),
        cost=cost,
        margin_share=table.margin,
        margin=margin,
        rounding=rounding,
        net=net,
        tax_share=table.tax,
        tax=tax,
        gross=net + tax if tax is not None else None,
        hours=sum((decimal_of(one.minutes) for one in asked.hours), start=Decimal(0)) / 60,
        missing=_once(
            (*rate.missing, *(m for _, m in found if m is not None), *_shares_missing(asked, table))
        ),
    )


def _priced(asked: ToPrice, table: PriceTable, rate: Rate) -> Iterator[Priced]:
    yield from labour_lines(asked.hours, table, rate)
    yield from material_lines(asked, table)
    yield from fitting_lines(asked.fittings, table)
    yield from besides(table)


def _asked_for(cost: Money, table: PriceTable) -> tuple[Money, Money, Money]:
    """Margin, rounding and net price. The margin is a share of the price, not of the cost."""
    price = cost.over(1 - (table.margin or Decimal(0)))
    net = price.to_nearest(table.round_to) if table.round_to is not None else price
    return price - cost, net - price, net


def _shares_missing(asked: ToPrice, table: PriceTable) -> Iterator[Missing]:
    where = table.file or "prices.toml"
    if table.margin is None:
        yield Missing(said("margin"), "margin", where)
    for what in asked.not_laid_out:
        yield Missing(what, "", "")


def _once(missing: tuple[Missing, ...]) -> tuple[Missing, ...]:
    return tuple(dict.fromkeys(missing))


def _refuse(table: PriceTable) -> None:
    """What the reader of the file refuses with its line, for tables that were made otherwise."""
    if table.margin is not None and not 0 <= table.margin < 1:
        raise ValueError(f"expected a margin of at least 0 and below 1, was given {table.margin}")
    shares = ("offcut_credit", "handling", "fittings_markup", "consumables", "contingency", "tax", "delivery")
    numbers = {name: getattr(table, name) for name in shares}
    numbers |= {f"material.{name}": one.price for name, one in table.materials.items()}
    numbers |= {f"risk.{name}": share for name, share in table.risk.items()}
    numbers |= {"rate.hourly": table.rate.hourly, "rate.own_pay": table.rate.own_pay}
    for name, number in numbers.items():
        if number is not None and not (number.is_finite() and number >= 0):
            raise ValueError(f"expected {name} of 0 or more, was given {number}")
    if table.wood_waste is not None and not 0 <= table.wood_waste < 1:
        raise ValueError(f"expected a wood_waste of at least 0 and below 1, was given {table.wood_waste}")
