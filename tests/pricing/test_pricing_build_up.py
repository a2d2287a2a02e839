"""The build-up of a price: by hand, under random jobs, and with things nobody priced."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pricing.pricing_hands import D, job, sheet, table

from evenface.piece.price_records import Extra, MaterialPrice, RateTable
from evenface.pricing import Fitting, Group, Hours, Money, Needed, ToPrice, money, price_of
from evenface.pricing.material import bought
from evenface.words import say
from evenface.workplan import Work


def amounts(price, group):
    return [line.amount.amount for line in price.lines if line.group is group]


def test_a_small_job_by_hand():
    """1.5 h and 0.75 h at 60; two sheets at 90; ash 0.010 / 0.7 × 1400; half a kilo of glue; 3 m² of oil."""
    price = price_of(job(), table(margin=D("0.2"), tax=D("0.25")))
    assert amounts(price, Group.LABOUR) == [D("90.00"), D("45.00")]
    assert amounts(price, Group.STOCK) == [D("180.00")]
    assert amounts(price, Group.WOOD) == [D("20.00")]
    assert amounts(price, Group.GLUE) == [D("4.00")]
    assert amounts(price, Group.FINISH) == [D("12.00")]
    assert price.cost == Money(D("351.00"), "EUR")
    assert price.net == Money(D("438.75"), "EUR")
    assert price.margin == Money(D("87.75"), "EUR")
    assert price.tax == Money(D("109.69"), "EUR")  # 109.6875, halves away from zero
    assert price.gross == Money(D("548.44"), "EUR")
    assert price.hours == D("2.25")
    assert not price.at_least


def test_the_margin_is_a_share_of_the_price_and_the_mark_up_the_same_money_on_the_cost():
    price = price_of(job(), table(margin=D("0.2")))
    assert price.markup_share == D("0.25")
    assert price.cost.times(D("0.25")) == price.margin == price.net.times(D("0.2"))


def test_waste_is_of_what_is_bought():
    assert round(bought(D(100), D("0.3")), 2) == D("142.86")
    with pytest.raises(ValueError, match="below 1"):
        bought(D(1), D(1))


def test_own_waste_of_wood_goes_before_the_usual_one():
    price = price_of(job(), table(wood_waste=D("0.5")))
    assert amounts(price, Group.WOOD) == [D("28.00")]


def test_offcuts_are_credited_at_the_makers_share_and_only_where_one_is_named():
    kept = ((1220.0, 1220.0),)  # half a sheet of the two: a quarter of 180
    with_rest = job(sheets=(sheet(offcuts=kept),))
    assert amounts(price_of(with_rest, table()), Group.OFFCUTS) == []
    assert amounts(price_of(with_rest, table(offcut_credit=D("0.4"))), Group.OFFCUTS) == [D("-18.00")]


def test_a_price_in_the_stock_list_goes_before_the_makers_own():
    assert amounts(price_of(job(sheets=(sheet(price=D(70)),)), table()), Group.STOCK) == [D("140.00")]


def test_a_roll_is_paid_by_the_metre_and_a_price_a_square_metre_fits_every_size():
    roll = sheet(D("1.5"), form="roll", size_mm=(None, 2000.0), material="linoleum-2", title="Linoleum")
    by_metre = table(materials={"linoleum-2": MaterialPrice(D(50), "m")})
    by_area = table(materials={"linoleum-2": MaterialPrice(D(30), "m2")})
    assert amounts(price_of(ToPrice(sheets=(roll,)), by_metre), Group.STOCK) == [D("75.00")]
    assert amounts(price_of(ToPrice(sheets=(roll,)), by_area), Group.STOCK) == [D("90.00")]


def test_a_price_for_another_size_of_sheet_is_no_price():
    other = table(materials={"birch-ply-18": MaterialPrice(D(90), "sheet", (3000.0, 1500.0))})
    assert price_of(ToPrice(sheets=(sheet(),)), other).at_least
    turned = table(materials={"birch-ply-18": MaterialPrice(D(90), "sheet", (1220.0, 2440.0))})
    assert not price_of(ToPrice(sheets=(sheet(),)), turned).at_least


def test_fittings_carry_a_mark_up_and_take_their_price_from_the_table_by_name():
    fittings = (Fitting("hinge", 4, D("3.50")), Fitting("runner", 2))
    price = price_of(
        ToPrice(fittings=fittings), table(fittings=(Extra("runner", D(20)), Extra("leg", D(10), 3)))
    )
    assert amounts(price, Group.FITTINGS) == [D("16.80"), D("48.00"), D("36.00")]
    dearer = price_of(ToPrice(fittings=fittings[:1]), table(fittings_markup=D("0.35")))
    assert amounts(dearer, Group.FITTINGS) == [D("18.92")]  # 4.725 each, 4.73 to the cent, four of them


def test_risk_of_each_operation_and_contingency_of_everything():
    risky = table(risk={"bond the facings": D("0.2"), "every": D("0.1")}, contingency=D("0.05"))
    price = price_of(job(sheets=(), wood=(), glue=(), finish=()), risky)
    assert amounts(price, Group.RISK) == [D("18.00"), D("4.50")]
    assert amounts(price, Group.CONTINGENCY) == [D("7.88")]  # 157.50 × 5 %


def test_consumables_are_a_share_of_the_hours_and_handling_one_of_material():
    price = price_of(job(), table(consumables=D("0.04"), handling=D("0.1")))
    assert amounts(price, Group.CONSUMABLES) == [D("5.40")]
    assert amounts(price, Group.HANDLING) == [D("21.60")]


def test_usual_shares_stand_in_where_none_is_named():
    price = price_of(job(), table(consumables=None, handling=None))
    assert amounts(price, Group.CONSUMABLES) == [D("6.08")]  # 4.5 % of 135
    assert amounts(price, Group.HANDLING) == [D("21.60")]  # 10 % of 216


def test_the_net_price_is_rounded_to_a_round_sum_and_the_difference_shown():
    price = price_of(job(), table(margin=D("0.2"), round_to=D(50)))
    assert price.net == Money(D("450.00"), "EUR")
    assert price.rounding == Money(D("11.25"), "EUR")


# --- what is not priced -------------------------------------------------------------------------------


def test_an_unpriced_material_is_named_with_its_key_and_the_total_is_at_least():
    price = price_of(job(sheets=(sheet(origin="job.toml, line 7"),)), table(materials={}))
    assert price.at_least
    sheet_missing = price.missing[0]
    assert say(sheet_missing.what) == "Birch plywood 18 mm, 2440 mm × 1220 mm"
    assert 'material."birch-ply-18"' in sheet_missing.key
    assert sheet_missing.where == "job.toml, line 7"
    assert len(price.missing) == 4
    assert [line.amount for line in price.lines if line.group is Group.STOCK] == [None]


def test_a_price_of_zero_is_a_price():
    free = table(materials=table().materials | {"birch-ply-18": MaterialPrice(D(0), "sheet")})
    assert not price_of(job(), free).at_least


@pytest.mark.parametrize(
    ("rate", "missing"),
    [
        (RateTable(), ["hourly rate"]),
        (RateTable(own_pay=D(30000)), ["weeks worked in a year", "hours a week that are paid for"]),
        (RateTable(weeks=D(40), billable_hours=D(20)), ["own pay a year"]),
    ],
)
def test_hours_without_a_rate_are_not_free(rate, missing):
    price = price_of(job(), table(rate=rate))
    assert [say(one.what) for one in price.missing] == missing
    assert price.of(Group.LABOUR) == Money(D("0.00"), "EUR")
    assert price.hours == D("2.25")


def test_no_margin_is_missing_and_no_tax_leaves_the_gross_price_open():
    price = price_of(job(), table(margin=None, tax=None))
    assert [say(one.what) for one in price.missing] == ["margin"]
    assert price.gross is None
    assert price.total == price.net == price.cost
    assert price.markup_share is None


def test_work_given_out_without_a_price_is_missing():
    price = price_of(ToPrice(), table(subcontract=(Extra("bent glass"), Extra("steel frame", D(300)))))
    assert [say(one.what) for one in price.missing] == ["bent glass"]
    assert price.cost == Money(D("300.00"), "EUR")


@pytest.mark.parametrize(
    "wrong",
    [
        {"margin": D(1)},
        {"margin": D("1.2")},
        {"margin": D("-0.1")},
        {"wood_waste": D(1)},
        {"tax": D("-0.25")},
        {"risk": {"every": D("-1")}},
        {"rate": RateTable(hourly=D(-60))},
        {"materials": {"ash": MaterialPrice(D(-1), "m3")}},
        {"delivery": D("-5")},
    ],
)
def test_what_no_maker_can_mean_is_refused(wrong):
    with pytest.raises(ValueError, match="was given"):
        price_of(job(), table(**wrong))


# --- laws under random jobs ---------------------------------------------------------------------------

cents = st.decimals(0, 5000, places=2)
shares = st.decimals(0, D("0.9"), places=3)
maybe = lambda strategy: st.none() | strategy  # noqa: E731

hours = st.lists(
    st.tuples(st.sampled_from(list(Work)), st.floats(0.01, 3000.0)).map(lambda t: Hours(t[0], t[1], t[1])),
    max_size=6,
    unique_by=lambda one: one.work,
).map(tuple)
sheets = st.lists(
    st.builds(
        sheet,
        amount=st.integers(1, 30),
        price=maybe(cents),
        offcuts=st.lists(st.tuples(st.floats(300, 2400), st.floats(100, 1200)), max_size=4).map(tuple),
        material=st.sampled_from(["birch-ply-18", "hpl-0.8", "mdf-19"]),
    ),
    max_size=5,
).map(tuple)
amounts_of = st.decimals(D("0.001"), 50, places=3)
jobs = st.builds(
    ToPrice,
    hours=hours,
    sheets=sheets,
    wood=st.lists(
        st.builds(Needed, st.sampled_from(["ash", "oak"]), st.just("Wood"), amounts_of), max_size=2
    ).map(tuple),
    glue=st.lists(st.builds(Needed, st.just("pva-d3"), st.just("Glue"), amounts_of), max_size=1).map(tuple),
    fittings=st.lists(st.builds(Fitting, st.just("hinge"), st.integers(1, 40), maybe(cents)), max_size=3).map(
        tuple
    ),
)
tables = st.builds(
    table,
    currency=st.sampled_from(["EUR", "JPY", "KWD", ""]),
    margin=maybe(shares),
    tax=maybe(shares),
    round_to=maybe(st.sampled_from([D(1), D(5), D("12.5"), D(100)])),
    offcut_credit=maybe(shares),
    handling=maybe(shares),
    consumables=maybe(shares),
    contingency=maybe(shares),
    risk=st.dictionaries(st.sampled_from(["every", "bond the facings"]), shares, max_size=2),
    delivery=maybe(cents),
)


@settings(max_examples=120, deadline=None)
@given(jobs, tables)
def test_sums_close_to_the_smallest_coin(asked, terms):
    price = price_of(asked, terms)
    coin = money(D(0), terms.currency).amount
    known = [line.amount.amount for line in price.lines if line.amount is not None]
    assert price.cost.amount == sum(known, start=D(0))
    assert price.cost + price.margin + price.rounding == price.net
    if price.gross is not None:
        assert price.net + price.tax == price.gross
    assert sum((price.of(group).amount for group in Group), start=D(0)) == price.cost.amount
    for amount in (*known, price.net.amount, price.margin.amount, price.rounding.amount, price.total.amount):
        assert amount == amount.quantize(coin)
    if terms.margin is not None:
        step = D(1).scaleb(coin.as_tuple().exponent)
        assert (
            abs(price.net.amount - price.rounding.amount - price.cost.amount / (1 - terms.margin)) <= step / 2
        )


@settings(max_examples=120, deadline=None)
@given(jobs, tables)
def test_what_is_not_priced_never_counts_as_nothing(asked, terms):
    price = price_of(asked, terms)
    unpriced = [line for line in price.lines if line.amount is None]
    assert not unpriced or price.at_least
    named = {say(one.what) for one in price.missing}
    assert {say(line.what) for line in unpriced if line.group is not Group.LABOUR} <= named
    if terms.margin is None:
        assert "margin" in named


@settings(max_examples=60, deadline=None)
@given(jobs, tables, cents)
def test_pricing_one_more_thing_never_makes_it_cheaper(asked, terms, price):
    """Round sums aside: those may hide a small thing, never more than half a step."""
    terms = replace(terms, round_to=None)
    without = price_of(asked, terms)
    named = price_of(asked, replace(terms, other=(Extra("a crate", price),)))
    assert not named.net < without.net
    assert len(named.missing) == len(without.missing)


@settings(max_examples=60, deadline=None)
@given(st.decimals(0, 10**7, places=2), st.decimals(D("0.01"), D("0.99"), places=2))
def test_margin_and_mark_up_are_the_same_money(cost, margin):
    price = price_of(ToPrice(), table(margin=margin, other=(Extra("all of it", cost),)))
    assert price.markup_share == margin / (1 - margin)
    assert abs(price.cost.amount * price.markup_share - price.margin.amount) <= D("0.005001")


def test_money_of_two_currencies_is_not_added():
    with pytest.raises(ValueError, match="EUR"):
        money(D(1), "EUR") + money(D(1), "SEK")
    with pytest.raises(ValueError, match="finite"):
        Money(Decimal("NaN"), "EUR")


def test_the_smallest_coin_of_a_currency():
    assert [money(D("2.3455"), code).amount for code in ("EUR", "JPY", "KWD")] == [
        D("2.35"),
        D(2),
        D("2.346"),
    ]
    assert money(D("-0.125"), "EUR").amount == D("-0.13")
