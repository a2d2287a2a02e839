"""Wood out of boards of the stock list costs what the boards cost; fittings take the price of one from the list."""

from decimal import Decimal
from pathlib import Path

import pytest

from evenface.errors import FileError
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.pricing import price_job, prices_for
from evenface.piece.price_records import Extra, MaterialPrice, PriceTable
from evenface.piece.prices import read_prices
from evenface.pricing import Fitting, Group, ToPrice, price_of

D = Decimal
JOB = Path("examples/one-shelf.toml").read_text(encoding="utf-8")
BOARD = """
[[stock]]
material  = "ash"
form      = "board"
size      = [2600, 180]
thickness = 40
{price}
copies    = 3
"""
PRICES = """format = 1
currency = "EUR"
offcut_credit = {credit}
rate.hourly = 50
margin = "20 %"
material."ash" = {{ price = 1000, per = "m3" }}
"""


@pytest.fixture
def priced(tmp_path):
    def price(board, credit="0.0"):
        (tmp_path / "job.toml").write_text(JOB + board, encoding="utf-8")
        (tmp_path / "prices.toml").write_text(PRICES.format(credit=credit), encoding="utf-8")
        opened = open_with_all(tmp_path / "job.toml")
        result = plan(opened, budget_s=0.2)
        return price_job(opened, result, prices_for(opened)), result

    return price


def test_wood_from_boards_with_a_price_costs_the_boards_and_is_bought_once(priced):
    by_volume, _ = priced("")
    of_board, result = priced(BOARD.format(price="price = 64.30"))
    assert [line.unit for line in by_volume.lines if line.group is Group.WOOD] == ["m3"]
    (line,) = (line for line in of_board.lines if line.group is Group.WOOD)
    assert (line.amount.amount, line.quantity, line.material) == (D("64.30"), D(1), "ash")
    rows = [(row.form, row.unit) for row in result.buying if row.material == "ash"]
    assert rows == [("board", "boards")]


def test_a_board_without_a_price_leaves_the_wood_to_its_volume(priced):
    price, _ = priced(BOARD.format(price=""))
    (line,) = (line for line in price.lines if line.group is Group.WOOD)
    assert line.unit == "m3"
    assert line.amount.amount > 0


def test_what_is_left_of_a_board_is_credited_like_that_of_a_sheet(priced):
    board = BOARD.format(price="price = 100")
    whole, _ = priced(board)
    credited, _ = priced(board, "0.5")
    less = whole.of(Group.WOOD, Group.OFFCUTS).amount - credited.of(Group.WOOD, Group.OFFCUTS).amount
    assert D(0) < less < D(50)


def test_a_fitting_takes_the_price_of_one_from_the_list_and_only_when_a_piece_needs_it():
    list_of_prices = PriceTable(
        currency="EUR", margin=D("0.2"), fittings_markup=D("0.2"),
        materials={"hinge": MaterialPrice(D(5), "piece"), "runner": MaterialPrice(D(9), "piece")},
    )  # fmt: skip
    price = price_of(ToPrice(fittings=(Fitting("hinge", 4),)), list_of_prices)
    assert price.of(Group.FITTINGS).amount == D("24.00")
    nothing = price_of(ToPrice(), list_of_prices)
    assert nothing.of(Group.FITTINGS).amount == 0
    unknown = price_of(ToPrice(fittings=(Fitting("strap", 1),)), list_of_prices)
    assert [one.key for one in unknown.missing if "strap" in one.key] == [
        'material."strap" = { price = …, per = "piece" }'
    ]
    own = price_of(
        ToPrice(fittings=(Fitting("hinge", 1),)),
        PriceTable(currency="EUR", margin=D(0), fittings_markup=D(0), fittings=(Extra("hinge", D(7)),),
                   materials=list_of_prices.materials),
    )  # fmt: skip
    assert own.of(Group.FITTINGS).amount == D("7.00")


def test_any_name_may_have_a_price_for_one_but_a_sheet_must_be_known():
    from evenface.materials import load_catalogue

    catalogue = load_catalogue()
    read = read_prices(
        'format = 1\nmaterial."strap" = { price = 3, per = "piece" }\n', "prices.toml", catalogue
    )
    assert read.materials["strap"].price == D(3)
    with pytest.raises(FileError, match="a material of the catalogue"):
        read_prices('format = 1\nmaterial."strap" = { price = 3, per = "sheet" }\n', "prices.toml", catalogue)
