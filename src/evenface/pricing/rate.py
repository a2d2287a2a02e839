"""The hourly rate, asked for or worked back: (own pay + fixed costs) / hours somebody pays for."""

from decimal import Decimal
from typing import Final

from evenface.piece.price_records import PriceTable
from evenface.pricing.money import Money, money
from evenface.pricing.records import Missing, Rate, RateLine
from evenface.words import said

LEAST_BILLABLE, MOST_BILLABLE = Decimal(20), Decimal(25)
LEAST_WEEKS, MOST_WEEKS = Decimal(36), Decimal(42)
"""Trade reference: 20 to 25 hours a week and 36 to 42 weeks a year are what one person is paid for."""
_PARTS: Final = ("own_pay", "weeks", "billable_hours")


def rate_of(table: PriceTable) -> Rate:
    """The rate with every line of its reckoning. A rate that is asked for goes before the one worked back.

    What is missing is named; nothing is taken for granted.
    """
    given = table.rate
    worked, lines = _worked(table)
    asked = money(given.hourly, table.currency) if given.hourly is not None else None
    hourly = asked if asked is not None else worked
    missing = () if hourly is not None else tuple(_missing(table))
    return Rate(hourly, lines, worked, missing)


def _worked(table: PriceTable) -> tuple[Money | None, tuple[RateLine, ...]]:
    given, unit = table.rate, table.currency
    if given.own_pay is None or given.weeks is None or given.billable_hours is None:
        return None, ()
    fixed = sum(given.fixed_costs.values(), start=Decimal(0))
    hours = given.weeks * given.billable_hours
    worked = money(given.own_pay + fixed, unit).over(hours)
    lines = (
        RateLine(said("Own pay, a year"), given.own_pay, unit),
        *(
            RateLine(said("{cost}, a year", cost=name), cost, unit)
            for name, cost in given.fixed_costs.items()
        ),
        RateLine(said("To be earned in a year"), given.own_pay + fixed, unit),
        RateLine(said("Weeks worked in a year"), given.weeks, ""),
        RateLine(said("Hours a week that are paid for"), given.billable_hours, "h"),
        RateLine(said("Hours a year that are paid for"), hours, "h"),
        RateLine(said("What an hour has to earn"), worked.amount, unit),
    )
    return worked, lines


def _missing(table: PriceTable) -> list[Missing]:
    where = table.file or "prices.toml"
    given = [key for key in _PARTS if getattr(table.rate, key) is not None]
    if not given:
        return [Missing(said("hourly rate"), "rate.hourly, or rate.own_pay, weeks and billable_hours", where)]
    words = {
        "own_pay": said("own pay a year"),
        "weeks": said("weeks worked in a year"),
        "billable_hours": said("hours a week that are paid for"),
    }
    return [Missing(words[key], f"rate.{key}", where) for key in _PARTS if key not in given]
