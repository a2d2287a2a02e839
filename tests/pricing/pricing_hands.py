"""A maker's table and a small job, as they are used by the tests of this folder."""

from dataclasses import replace
from decimal import Decimal

from evenface.evidence import Status
from evenface.piece.price_records import MaterialPrice, PriceTable, RateTable
from evenface.pricing import Hours, Needed, SheetUse, ToPrice
from evenface.words import said
from evenface.workplan import Minutes, Step, Work

D = Decimal
NOTHING_BESIDES = {"handling": D(0), "consumables": D(0)}


def table(**more):
    """Rate 60, prices of two materials, no shares unless they are named."""
    base = PriceTable(
        currency="EUR",
        rate=RateTable(hourly=D(60)),
        materials={
            "birch-ply-18": MaterialPrice(D(90), "sheet"),
            "ash": MaterialPrice(D(1400), "m3"),
            "pva-d3": MaterialPrice(D(8), "kg"),
            "hard-wax-oil": MaterialPrice(D(40), "l", covers=D(10)),
        },
        margin=D(0),
        tax=D(0),
        **NOTHING_BESIDES,
    )
    return replace(base, **more)


def sheet(amount=2, price=None, offcuts=(), **more):
    known = {
        "form": "sheet",
        "size_mm": (2440.0, 1220.0),
        "material": "birch-ply-18",
        "title": "Birch plywood 18 mm",
    }
    return SheetUse(amount=D(amount), price=price, offcuts_mm=offcuts, **(known | more))


def job(**more):
    base = ToPrice(
        hours=(Hours(Work.BOND, 90.0, 90.0), Hours(Work.FINISH, 45.0, 45.0)),
        sheets=(sheet(),),
        wood=(Needed("ash", "Ash", D("0.010")),),
        glue=(Needed("pva-d3", "White glue", D("0.5")),),
        finish=(Needed("hard-wax-oil", "Hard-wax oil", D(3)),),
    )
    return replace(base, **more)


def step(id_, work, minutes, people=1):
    return Step(
        id=id_,
        work=work,
        part="1.1",
        parts=("1.1",),
        piece="Bench",
        title=said("x"),
        why=said("y"),
        after=(),
        hand_minutes=Minutes(0.0, minutes, 1, Status.PRACTICE, "own estimate"),
        people=people,
    )
