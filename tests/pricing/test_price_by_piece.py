"""The price of each piece: the parts close, what a piece alone takes is its own."""

from decimal import Decimal
from pathlib import Path

import pytest

from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.price_by_piece import price_by_piece
from evenface.job.pricing import Prices, price_job, prices_for
from evenface.piece.price_records import MaterialPrice, PriceTable, RateTable


@pytest.fixture(scope="module")
def room():
    opened = open_with_all(Path("examples/glaze-room.toml"))
    return opened, plan(opened, budget_s=0.2)


def of(room, table=None):
    opened, result = room
    prices = prices_for(opened) if table is None else Prices(table)
    price = price_job(opened, result, prices)
    return price, {one.piece: one for one in price_by_piece(result, price, prices)}


def test_the_pieces_close_with_the_price_and_with_the_hours_that_are_theirs(room):
    price, pieces = of(room)
    assert list(pieces) == ["Glazing bench", "Drawing desk", "Glaze cupboard"]
    assert sum(one.net.amount for one in pieces.values()) == price.net.amount
    assert sum(one.share for one in pieces.values()) == 1
    theirs = sum(one.hours for one in pieces.values())
    assert 0.8 * float(price.hours) < theirs < float(price.hours)
    assert pieces["Glaze cupboard"].net.amount > pieces["Glazing bench"].net.amount  # fourteen panels to four


def test_what_only_one_piece_takes_is_only_in_its_price(room):
    """Linoleum, oak and cherry are of the desk alone; the stock list prices two other boards and the linoleum."""
    only = PriceTable(
        currency="DKK", margin=Decimal(0), handling=Decimal(0),
        materials={"cherry": MaterialPrice(Decimal(21000), "m3"), "oak": MaterialPrice(Decimal(19500), "m3")},
    )  # fmt: skip
    price, pieces = of(room, only)
    amounts = {line.material: line.amount.amount for line in price.lines if line.amount is not None}
    boards = amounts["birch-ply-21"], amounts["mdf-19"]
    own = sum(amounts[name] for name in ("linoleum-2", "cherry", "oak"))
    assert own <= pieces["Drawing desk"].net.amount <= own + boards[1] + Decimal("310")
    assert pieces["Glazing bench"].net.amount == pytest.approx(boards[0], abs=Decimal("0.01"))


def test_a_higher_rate_moves_the_price_to_the_piece_with_more_hours(room):
    _, cheap = of(room, PriceTable(currency="DKK", margin=Decimal(0), rate=RateTable(hourly=Decimal(1))))
    _, dear = of(room, PriceTable(currency="DKK", margin=Decimal(0), rate=RateTable(hourly=Decimal(100000))))
    hours = {name: one.hours for name, one in dear.items()}
    whole = sum(hours.values())
    for name, one in dear.items():
        assert float(one.share) == pytest.approx(hours[name] / whole, abs=2e-3)
    assert any(cheap[name].share != dear[name].share for name in hours)


def test_while_nothing_is_priced_there_is_nothing_to_share(room):
    price, pieces = of(room, PriceTable(currency="EUR"))  # the stock list is priced in another currency
    assert price.missing
    assert price.net.amount == 0
    assert pieces == {}
