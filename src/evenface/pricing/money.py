"""Money in decimals, rounded in one way and in few places.

Rounding: every line of a build-up is rounded to the smallest coin of its currency where it is made, halves
away from zero; sums are sums of rounded lines, so that they close; tax is rounded once, on the net price.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Context, Decimal
from functools import cache
from typing import Final

PLACES_WITHOUT_CURRENCY: Final = 2
_PLENTY: Final = Context(prec=40, rounding=ROUND_HALF_UP)


@cache
def places_of(currency: str) -> int:
    """Decimals of the smallest coin: 2 for EUR, 0 for JPY; 2 where no currency is named."""
    if not currency:
        return PLACES_WITHOUT_CURRENCY
    from babel.numbers import get_currency_precision

    return get_currency_precision(currency)


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in one currency. Adding another currency raises ValueError, as does an amount not finite."""

    amount: Decimal
    currency: str = ""

    def __post_init__(self) -> None:
        if not isinstance(self.amount, Decimal) or not self.amount.is_finite():
            raise ValueError(f"expected an amount as a finite decimal, was given {self.amount!r}")

    def __add__(self, other: "Money") -> "Money":
        self._same(other)
        return Money(_PLENTY.add(self.amount, other.amount), self.currency)

    def __sub__(self, other: "Money") -> "Money":
        self._same(other)
        return Money(_PLENTY.subtract(self.amount, other.amount), self.currency)

    def __lt__(self, other: "Money") -> bool:
        self._same(other)
        return self.amount < other.amount

    def times(self, factor: Decimal) -> "Money":
        """So many times as much, to the smallest coin."""
        return money(_PLENTY.multiply(self.amount, factor), self.currency)

    def over(self, divisor: Decimal) -> "Money":
        """Divided, to the smallest coin. Raises ValueError for a divisor that is not above zero."""
        if divisor <= 0:
            raise ValueError(f"expected a divisor above 0, was given {divisor}")
        return money(_PLENTY.divide(self.amount, divisor), self.currency)

    def to_nearest(self, step: Decimal) -> "Money":
        """The nearest multiple of a step above zero, halves away from zero."""
        count = _PLENTY.divide(self.amount, step).quantize(Decimal(1), context=_PLENTY)
        return money(_PLENTY.multiply(count, step), self.currency)

    def _same(self, other: "Money") -> None:
        if self.currency != other.currency:
            raise ValueError(f"expected an amount in {self.currency}, was given one in {other.currency}")


def money(amount: Decimal, currency: str) -> Money:
    """The amount rounded to the smallest coin of its currency, halves away from zero."""
    return Money(amount.quantize(Decimal(1).scaleb(-places_of(currency)), context=_PLENTY), currency)


def summed(amounts: Iterable[Money], currency: str) -> Money:
    """The sum; nothing in that currency when there are none."""
    return sum(amounts, start=money(Decimal(0), currency))


def split(whole: Money, shares: Iterable[Decimal]) -> tuple[Money, ...]:
    """The whole in parts by their shares, each to the smallest coin; the last takes what is left, so they close.

    Raises ValueError when the shares do not make 1.
    """
    given = tuple(shares)
    if sum(given) != 1 or any(share < 0 for share in given):
        raise ValueError(f"expected shares of 0 or more that make 1, was given {', '.join(map(str, given))}")
    parts = [whole.times(share) for share in given[:-1]]
    return (*parts, whole - summed(parts, whole.currency))


def decimal_of(number: float, places: int = 9) -> Decimal:
    """A decimal of a float, without the tail of its binary fraction. Raises ValueError when not finite."""
    made = Decimal(repr(round(number, places)))
    if not made.is_finite():
        raise ValueError(f"expected a finite number, was given {number}")
    return made
