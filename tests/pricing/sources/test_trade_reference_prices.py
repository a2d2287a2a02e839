"""Worked method of the trade reference for prices, its section 3.15 and its rules R92 to R105.

Source: collected trade notes (forum threads on hardwood estimates and shop rates, makers' terms), READ unless
said otherwise. The reference gives the formulas and single figures; full sums below are DERIVED by hand.
"""

from decimal import Decimal

from pricing.pricing_hands import D, job, table

from evenface.piece.price_records import PriceTable, RateTable
from evenface.pricing import Money, price_of, rate_of
from evenface.pricing.material import bought
from evenface.words import say


def test_r93_thirty_percent_waste_is_143_not_130():
    """READ: "100 net at 30 % waste needs 143, not 130". Rounded to whole units there, so within 0.5."""
    assert abs(bought(D(100), D("0.30")) - 143) < D("0.5")
    assert round(1 / (1 - D("0.30")), 2) == D("1.43")


def test_r105_twenty_percent_margin_is_twenty_five_percent_mark_up():
    """CALC in the reference; exact."""
    assert price_of(job(), table(margin=D("0.20"))).markup_share == D("0.25")


def test_3_15_1_the_rate_is_pay_and_costs_over_billable_hours():
    """Formula READ, figures DERIVED: (36,000 + 9,600 + 2,400) / (40 × 24) = 50; exact."""
    terms = PriceTable(
        currency="EUR",
        rate=RateTable(
            own_pay=D(36000),
            fixed_costs={"rent": D(9600), "insurance": D(2400)},
            weeks=D(40),
            billable_hours=D(24),
        ),
    )
    rate = rate_of(terms)
    assert rate.hourly == Money(D("50.00"), "EUR")
    shown = {say(line.what): line.number for line in rate.lines}
    assert shown["To be earned in a year"] == 48000
    assert shown["Hours a year that are paid for"] == 960
    assert shown["rent, a year"] == 9600


def test_r97_counting_every_hour_as_paid_makes_the_rate_too_low_by_40_to_50_percent():
    """READ: "rate too low by 40-50 %" when non-billable time is forgotten. DERIVED with 40 hours for 52 weeks
    against 24 hours for 44: 1056 / 2080 leaves 51 %, so the rate is 49 % too low."""

    def hourly(weeks, hours):
        rate = RateTable(own_pay=D(40000), weeks=D(weeks), billable_hours=D(hours))
        return rate_of(PriceTable(currency="EUR", rate=rate)).hourly.amount

    assert D("0.40") <= 1 - hourly(52, 40) / hourly(44, 24) <= D("0.50")


def test_3_15_6_sum_with_contingency_over_one_less_margin_then_tax():
    """Sum × (1 + contingency) ÷ (1 − margin), + tax. DERIVED: 351 × 1.1 / 0.75 = 514.80; × 1.25 = 643.50."""
    price = price_of(job(), table(contingency=D("0.1"), margin=D("0.25"), tax=D("0.25")))
    assert price.cost == Money(D("386.10"), "EUR")
    assert price.net == Money(D("514.80"), "EUR")
    assert price.gross == Money(D("643.50"), "EUR")


def test_r100_bought_in_items_carry_twenty_percent():
    """READ: + 20 % (many use 15 to 35); exact."""
    from evenface.piece.price_records import Extra

    assert price_of(job(), table(fittings=(Extra("leg", D(10)),))).lines[-1].amount == Money(
        D("12.00"), "EUR"
    )


def test_r92_waney_board_add_on_is_the_other_base():
    """READ (handbook): waney edge + 60 % of net, which is a waste of 37.5 % of what is bought; exact."""
    assert bought(Decimal(1), D("0.375")) == D("1.6")
