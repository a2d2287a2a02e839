"""Hours of each operation at the rate, and what of them goes wrong."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from evenface.piece.price_records import PriceTable
from evenface.pricing.money import decimal_of
from evenface.pricing.records import Group, Hours, Line, Missing, Rate
from evenface.words import Said, said

EVERY = "every"
"""Under `risk`: the share of all operations that are not named."""


def labour_lines(
    hours: Sequence[Hours], table: PriceTable, rate: Rate
) -> Iterator[tuple[Line, Missing | None]]:
    """One line an operation, then one for the risk of each that has any."""
    made = [(one, _line(one, rate)) for one in hours if one.minutes > 0.0]
    yield from ((line, None) for _, line in made)  # a missing rate is named once, with the rate itself
    for one, line in made:
        share = table.risk.get(one.work.value, table.risk.get(EVERY, Decimal(0)))
        if share:
            yield _risk(one, line, share), None


def _line(one: Hours, rate: Rate) -> Line:
    hours = decimal_of(one.minutes) / 60
    amount = rate.hourly.times(hours) if rate.hourly is not None else None
    return Line(
        Group.LABOUR,
        said("{work:word}", work=one.work.value),
        amount,
        hours,
        "h",
        rate.hourly,
        _basis(one),
        one.work,
    )


def _basis(one: Hours) -> Said:
    if one.jobs == 0:
        return said("own estimate")
    return (
        said("own times, from {jobs:count} jobs", jobs=one.jobs)
        if one.jobs > 1
        else said("own time, from 1 job")
    )


def _risk(one: Hours, line: Line, share: Decimal) -> Line:
    return Line(
        Group.RISK,
        said("{work:word}: what goes wrong", work=one.work.value),
        line.amount.times(share) if line.amount is not None else None,
        share,
        "share",
        line.amount,
        said("{share:percent} of its hours", share=float(share)),
        one.work,
    )
