"""What is placed in a piece is bought as often as the piece is made, and every one of it is priced."""

from collections import Counter
from decimal import Decimal

import pytest
from construction.test_carcase_held_out import RUN
from construction.test_carcase_sizes import HEAD
from pricing.pricing_hands import table

from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.pricing import Prices, to_price
from evenface.piece.price_records import Extra, MaterialPrice
from evenface.pricing import Fitting, Group, ToPrice, price_of

BY_HAND = {
    # corners: 433 deep, 40 from each edge, at most 128 apart: (433 − 80)/128 = 2.8, so 4; two ends of the top and two
    # sides on the bottom: 16. Drawers, at most 64 apart: boxes of 81, 135 and 126, their backs 16.5 lower, 2 dowels in
    # each end but 3 where they would be 67.5 apart in the box of 135: 2 × (4 + 5 + 4) = 26. Plinth: 83 high, 2 in each
    # of 4 ends: 8
    "dowel": 16 + 26 + 8,
    "shelf pin": 4 * 4,
    "pair of side runners": 3,
    "round-head screw with washer": 3 * 4,
    # 1963 wide, at most 300 apart: 8 in front and 8 behind
    "angle for the plinth": 16,
    # four doors of less than 1000: two each, three where they are heavier than 6.8 kg
    "hinge with plate": 8,
}


@pytest.fixture(scope="module")
def planned(tmp_path_factory):
    file = tmp_path_factory.mktemp("run") / "job.toml"
    file.write_text(HEAD + RUN, encoding="utf-8")
    opened = open_with_all(file)
    return opened, plan(opened, budget_s=0.0)


def test_as_many_are_bought_as_are_placed_in_both_pieces(planned) -> None:
    _, result = planned
    placed, bought = Counter(), Counter()
    for one in result.sketch.constructions[0].arranged.fittings:
        placed[one.name] += one.count
    for row in result.buying:
        if row.form == "fitting":
            bought[row.title] += row.amount
    assert placed == BY_HAND
    assert bought == {name: 2 * count for name, count in BY_HAND.items()}


def test_every_one_of_them_is_priced(planned) -> None:
    opened, result = planned
    asked = to_price(opened, result, Prices(table()))
    counts = Counter()
    for one in asked.fittings:
        counts[one.name] += one.count
    assert counts == {name: 2 * count for name, count in BY_HAND.items()}
    prices = table(
        fittings=tuple(Extra(name, Decimal("0.10")) for name in BY_HAND if name != "shelf pin"),
        materials={"shelf pin": MaterialPrice(Decimal("0.10"), "piece")},
        fittings_markup=Decimal(0),
    )
    price = price_of(ToPrice(fittings=asked.fittings), prices)
    lines = [line for line in price.lines if line.group is Group.FITTINGS]
    assert len(lines) == len(BY_HAND)
    assert all(line.amount is not None for line in lines)
    # 50 + 16 + 3 + 12 + 16 + 8 = 105 of one piece at 0.10
    assert sum(line.amount.amount for line in lines if line.amount) == Decimal("21.00")


def test_one_name_in_two_sizes_takes_its_price_twice() -> None:
    price = price_of(
        ToPrice(
            fittings=(
                Fitting("dowel", 44),
                Fitting("hinge", 4),
                Fitting("dowel", 26),
                Fitting("dowel", 2, Decimal(1)),
            )
        ),
        table(
            fittings=(
                Extra("dowel", Decimal("0.20")),
                Extra("hinge", Decimal(3)),
                Extra("leg", Decimal(5), 4),
            )
        ),
    )
    found = {
        (str(line.what.values["name"]), line.quantity): line.amount.amount
        for line in price.lines
        if line.group is Group.FITTINGS and line.amount
    }
    # a fifth on top: 70 × 0.24, 2 × 1.20, 4 × 3.60, 4 × 6
    assert found == {
        ("dowel", Decimal(70)): Decimal("16.80"),
        ("dowel", Decimal(2)): Decimal("2.40"),
        ("hinge", Decimal(4)): Decimal("14.40"),
        ("leg", Decimal(4)): Decimal("24.00"),
    }
