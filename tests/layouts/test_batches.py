"""Parts that come from one batch: the batch chosen, kept by every plan, told where none suffices."""

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_by_hand import job, layers, panel

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all, verify
from evenface.layouts.batches import batches_that_suffice
from evenface.layouts.demand import demands_of
from evenface.layouts.stock_records import UNTOLD
from evenface.materials import load_catalogue
from evenface.parts import parts_of
from evenface.piece.records import StockItem

OLD = StockSize("old", "hpl", "sheet", 200_000, 100_000, 1, Decimal(20), 1_000, batch="A")
NEW = replace(OLD, id="new", copies=3, price=Decimal(60), batch="B")
SHOP = replace(OLD, id="shop", copies=None, price=Decimal(100), batch="")
REST = replace(OLD, id="rest", price=Decimal(5), offcut=True, batch=UNTOLD)
# two go on a sheet
FRONT = Blank("f", "1.1", "face", 90_000, 90_000, 4, same_batch="fronts")
SIDE = Blank("s", "1.2", "face", 90_000, 90_000, 2)


def solved(*blanks, stock=(OLD, NEW, SHOP, REST), seconds=0.0):
    demand = batches_that_suffice(Demand("hpl", tuple(blanks), stock, Saw()))
    (layout,) = solve_all((demand,), budget_s=seconds)
    assert not verify(demand, layout)
    return demand, layout


def from_of(layout, blank):
    return {sheet.stock for sheet in layout.sheets for piece in sheet.placed if piece.blank == blank}


@pytest.mark.parametrize("seconds", [0.0, 0.5])
def test_batches_a_set_comes_from_the_cheapest_batch_that_holds_it(seconds):
    demand, layout = solved(FRONT, SIDE, seconds=seconds)
    assert from_of(layout, "f") == {"new"}  # A holds two of four, the rest has no batch
    assert from_of(layout, "s") == {"rest"}  # what is in no set takes the cheapest
    assert layout.unplaced == ()
    assert {blank.id: blank.batch for blank in demand.blanks} == {"f": "B", "s": None}
    assert [one.code for one in demand.findings] == ["layout.of_one_batch"]


def test_batches_without_the_set_the_plan_mixes_them():
    _, layout = solved(replace(FRONT, same_batch=""))
    assert len(from_of(layout, "f")) == 2


def test_batches_where_none_suffices_it_is_told_and_laid_out_freely():
    demand, layout = solved(replace(FRONT, count=8), stock=(OLD, NEW))
    assert [(one.code, one.value.nominal, one.limit) for one in demand.findings] == [
        ("layout.not_one_batch", 6, 8.0)
    ]
    assert demand.findings[0].remedies
    assert from_of(layout, "f") == {"old", "new"}
    assert layout.unplaced == ()


def test_batches_two_sets_share_what_a_batch_has():
    other = replace(SIDE, id="o", count=4, same_batch="doors")
    demand, layout = solved(FRONT, other, stock=(OLD, NEW, SHOP))
    # three sheets of B hold one set and half of the other: the second is bought together
    assert sorted((blank.id, blank.batch) for blank in demand.blanks) in (
        [("f", "B"), ("o", "")],
        [("f", ""), ("o", "B")],
    )
    assert len(from_of(layout, "f")) == len(from_of(layout, "o")) == 1


def test_batches_one_that_is_named_is_taken_though_another_is_cheaper():
    demand, layout = solved(replace(FRONT, count=2, same_batch="", batch="B"))
    assert from_of(layout, "f") == {"new"}
    demand, layout = solved(replace(FRONT, count=2, same_batch="", batch="C"))
    assert [one.code for one in demand.findings] == ["layout.not_one_batch"]


def test_batches_where_the_stock_tells_none_it_is_a_word_for_the_order():
    demand, _ = solved(FRONT, stock=(SHOP,))
    assert [one.code for one in demand.findings] == ["layout.of_one_batch"]
    assert demand.blanks[0].same_batch == "fronts"


def test_batches_a_set_on_one_sheet_takes_its_batch_with_it():
    pair = replace(SIDE, same="pair")
    demand, layout = solved(replace(FRONT, count=1, same="pair"), replace(pair, count=1))
    assert len({blank.batch for blank in demand.blanks}) == 1
    assert len(from_of(layout, "f") | from_of(layout, "s")) == 1


def test_batches_verify_sees_a_sheet_of_the_wrong_batch():
    demand, layout = solved(FRONT)
    sheets = list(layout.sheets)
    sheets[0] = replace(sheets[0], stock="old")
    assert {fault.rule for fault in verify(demand, replace(layout, sheets=tuple(sheets)))} >= {"batch"}
    # found by the set alone as well, without the name the demand wrote down
    bare = replace(demand, blanks=tuple(replace(blank, batch=None) for blank in demand.blanks))
    assert [f.what for f in verify(bare, replace(layout, sheets=tuple(sheets))) if f.rule == "batch"] == [
        "fronts"
    ]


def test_batches_panels_and_stock_list_name_them():
    stock = (
        StockItem("hpl-0.8", 3050.0, 1300.0, 1, batch="A", origin="stock[0]"),
        StockItem("hpl-0.8", 3050.0, 1300.0, 5, batch="B", origin="stock[1]"),
    )
    front = panel(length_mm=1400.0, width_mm=1200.0, count=2, same_batch="fronts")
    asked = job(front, buildup=layers("hpl-0.8", "hpl-0.8"), stock=stock)
    made = construct(asked, load_catalogue(), KINDS)
    (built,) = made[0].panels
    materials = {face.material.name: face.material for face in built.faces}
    materials[built.carrier.material.name] = built.carrier.material
    found = {one.material: one for one in demands_of(asked, parts_of(made), materials, (built,))}["hpl-0.8"]
    assert {(blank.layer, blank.batch) for blank in found.blanks} == {("face", "B"), ("back", "B")}
    (layout,) = solve_all((found,), budget_s=0.0)
    assert not verify(found, layout)
    assert set(layout.bought.by_stock) == {"hpl-0.8 #2"}


@given(
    st.lists(
        st.tuples(st.integers(10_000, 99_000), st.integers(10_000, 90_000), st.sampled_from(["", "x", "y"])),
        min_size=1,
        max_size=8,
    ),
    st.integers(0, 3),
)
@settings(max_examples=25, deadline=None)
def test_batches_no_plan_breaks_them_and_what_is_left_out_is_told(sizes, copies):
    blanks = [
        Blank(f"b{n}", f"1.{n}", "face", long, wide, 1, same_batch=name)
        for n, (long, wide, name) in enumerate(sizes)
    ]
    _, layout = solved(*blanks, stock=(OLD, replace(NEW, copies=copies), SHOP, REST))
    assert layout.unplaced == ()
