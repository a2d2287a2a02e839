"""What the maker says of money: the rate, prices, shares and terms, as written in `[price]` and `prices.toml`.

Amounts are decimals in the one currency of the table; shares are fractions. None means: not said.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from decimal import Decimal
from typing import Final

PER: Final = ("sheet", "m2", "m", "m3", "kg", "l", "piece")
"""What a price may be for."""


@dataclass(frozen=True, slots=True)
class RateTable:
    """What an hour has to earn. hourly : the rate asked for; the rest works it back.

    own_pay : a year. fixed_costs : a year, by name. weeks : worked in a year. billable_hours : a week that
    somebody pays for.
    """

    hourly: Decimal | None = None
    own_pay: Decimal | None = None
    fixed_costs: Mapping[str, Decimal] = field(default_factory=dict)
    weeks: Decimal | None = None
    billable_hours: Decimal | None = None


@dataclass(frozen=True, slots=True)
class MaterialPrice:
    """Price of a material for one of `PER`. size_mm : of the sheet it is for, None for any.

    covers : square metres that one kg or litre of a finish covers, all coats together.
    """

    price: Decimal
    per: str
    size_mm: tuple[float, float] | None = None
    covers: Decimal | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Extra:
    """Something bought or done besides: a fitting, work given out, a template kept. price : None, not known."""

    name: str
    price: Decimal | None = None
    count: int = 1
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Maker:
    """Who writes the papers."""

    name: str = ""
    address: tuple[str, ...] = ()
    contact: str = ""
    tax_number: str = ""
    pay_to: str = ""


@dataclass(frozen=True, slots=True)
class Payment:
    """A part of the price and when it falls due."""

    share: Decimal
    when: str


@dataclass(frozen=True, slots=True)
class Terms:
    """What an offer says beside the price. not_included : in the maker's own words.

    valid_days : from the day of the offer. client_address : lines under the client's name. withdrawal : in place
    of the usual sentence. size_tolerance_mm : what outside sizes are kept to.
    """

    valid_days: int | None = None
    payments: tuple[Payment, ...] = ()
    not_included: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    client_address: tuple[str, ...] = ()
    withdrawal: str = ""
    size_tolerance_mm: float | None = None


@dataclass(frozen=True, slots=True)
class PriceTable:
    """Everything that is said of money in one file, or in both together (`over`).

    risk : share of the cost of an operation's hours that goes wrong, by its name; "every" for the others.
    places : where each key stands, as "file, line n", by key path.
    """

    currency: str = ""
    locale: str = ""
    rate: RateTable = field(default_factory=RateTable)
    materials: Mapping[str, MaterialPrice] = field(default_factory=dict)
    wood_waste: Decimal | None = None
    offcut_credit: Decimal | None = None
    handling: Decimal | None = None
    fittings_markup: Decimal | None = None
    consumables: Decimal | None = None
    risk: Mapping[str, Decimal] = field(default_factory=dict)
    contingency: Decimal | None = None
    margin: Decimal | None = None
    tax: Decimal | None = None
    round_to: Decimal | None = None
    delivery: Decimal | None = None
    fittings: tuple[Extra, ...] = ()
    subcontract: tuple[Extra, ...] = ()
    other: tuple[Extra, ...] = ()
    maker: Maker = field(default_factory=Maker)
    terms: Terms = field(default_factory=Terms)
    places: Mapping[str, str] = field(default_factory=dict)
    file: str = ""

    def over(self, usual: "PriceTable") -> "PriceTable":
        """This table, with what it leaves open taken from the usual one; prices by name are put together."""
        return _over(self, usual)


NO_PRICES: Final = PriceTable()


def _over[T](own: T, usual: T) -> T:
    """Field by field: tables into each other, mappings together, an own value before a usual one."""
    made = {}
    for one in fields(own):  # type: ignore[arg-type]
        mine, theirs = getattr(own, one.name), getattr(usual, one.name)
        if isinstance(mine, RateTable | Maker | Terms):
            made[one.name] = _over(mine, theirs)
        elif isinstance(mine, Mapping):
            made[one.name] = {**theirs, **mine}
        else:
            made[one.name] = theirs if mine in (None, "", ()) else mine
    return type(own)(**made)
