"""A job planned from the rack: what is offered, at what it counts for, what is taken, who is too late."""

from dataclasses import replace
from decimal import Decimal

import pytest
from interfaces.rack_job import JOB

from evenface.interfaces import from_rack
from evenface.interfaces.from_rack import plan_from_rack, taken_table
from evenface.job.from_rack import sound_stretch, sound_stretches, taken_by, with_rack, worth_of
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.store import RackItem, Taken
from evenface.store.rack import Rack
from evenface.store.rack_records import Defect, Left

MONEY = {"currency": "DKK"}


@pytest.fixture
def rack(tmp_path):
    with Rack(tmp_path, f"sqlite:///{tmp_path / 'rack.sqlite3'}", "Ida") as made:
        yield made


@pytest.fixture(scope="module")
def opened(tmp_path_factory):
    place = tmp_path_factory.mktemp("job") / "job.toml"
    place.write_text(JOB, encoding="utf-8")
    return open_with_all(place)


def test_who_comes_too_late_writes_nothing(rack, opened, monkeypatch):
    (item,) = rack.receive([RackItem("sheet", "mdf-19", 244_000, 122_000, price=Decimal(310), **MONEY)])

    def slowly(*given, **named):
        with Rack(rack.folder, str(rack.engine.url), "Bo") as bo:
            bo.reserve("Kiln shed", [(bo.find(item.code), ())])
        return plan(*given, **named)

    with monkeypatch.context() as patch:
        patch.setattr(from_rack, "plan", slowly)
        with pytest.raises(Taken, match="reserved for Kiln shed by Bo meanwhile"):
            plan_from_rack(opened, 0.3, rack=rack)
    result, taken, _ = plan_from_rack(opened, 0.3, rack=rack)
    assert taken == ()
    assert [row.material for row in result.buying][:1]


def test_a_second_plan_gives_back_what_it_does_not_take(rack, opened):
    small, large = rack.receive(
        [
            RackItem("offcut", "mdf-19", 122_000, 122_000, value=Decimal(20), **MONEY),
            RackItem("sheet", "mdf-19", 244_000, 122_000, value=Decimal(200), **MONEY),
        ]
    )
    _, taken, _ = plan_from_rack(opened, 0.5, rack=rack)
    assert [one.item.code for one in taken] == [small.code]
    rack.correct(rack.find(small.code), value=Decimal(305))  # dearer than the sheet now
    _, taken, _ = plan_from_rack(opened, 0.5, rack=rack)
    assert [one.item.code for one in taken] == [large.code]
    assert rack.find(small.code).state == "free"
    _, taken, _ = plan_from_rack(opened, 0.5, rack=rack, reserve=False)
    assert rack.find(large.code).state == "reserved"


def layouts_of(offered):
    return {
        one.section.wood if one.section else one.material: one for one in plan(offered.opened, 0.5).layouts
    }


def test_a_rest_is_not_taken_at_any_price(opened):
    def taken(worth):
        rest = RackItem("offcut", "mdf-19", 122_000, 122_000, code="K7F32MQT", value=Decimal(worth), **MONEY)
        offered = with_rack(opened, [rest])
        return taken_by(offered, plan(offered.opened, 0.5).layouts)

    assert taken(309)
    assert not taken(311)


def test_worth_is_value_then_price_then_area_and_no_other_money():
    item = RackItem("offcut", "mdf-19", 100_000, 50_000, price=Decimal(40), **MONEY)
    assert worth_of(replace(item, value=Decimal(7)), "DKK", Decimal(100)) == 7
    assert worth_of(item, "DKK", Decimal(100)) == 40
    assert worth_of(item, "EUR", Decimal(100)) == 50  # half a square metre
    assert worth_of(item, "EUR", None) is None
    assert worth_of(replace(item, price=None), "DKK", Decimal(100)) == 50


def test_what_the_trade_sells_stays_within_reach(opened):
    """A small rest of a material that the job does not list must not become all there is of it."""
    rest = RackItem("offcut", "hpl-0.8", 40_000, 40_000, code="K7F32MQT")
    offered = with_rack(opened, [rest])
    hpl = layouts_of(offered)["hpl-0.8"]
    assert hpl.unplaced == ()
    assert [one for one in offered.opened.job.stock if one.material == "hpl-0.8" and not one.codes]


def test_rolls_and_rests_of_them_go_with_the_metre(opened):
    roll = RackItem("roll", "linoleum-2", 300_000, 183_000, code="K7F32MQT", value=Decimal(100), **MONEY)
    offered = with_rack(opened, [roll])
    layout = layouts_of(offered)["linoleum-2"]
    (taken,) = taken_by(offered, [layout])
    run_of_it = layout.sheets[0].length
    assert taken.rests[-1] == Left(300_000 - run_of_it, 183_000)
    assert layout.checked


def test_grain_across_turns_the_item_and_its_rests_back(opened):
    item = RackItem("offcut", "hpl-0.8", 70_000, 200_000, code="K7F32MQT", grain="across")
    offered = with_rack(opened, [item])
    (stock,) = [one for one in offered.opened.job.stock if one.codes]
    assert (stock.length_mm, stock.width_mm) == (2000.0, 700.0)
    layout = layouts_of(offered)["hpl-0.8"]
    (taken,) = taken_by(offered, [layout])
    (sheet,) = [one for one in layout.sheets if one.stock.endswith("K7F32MQT")]
    assert (sheet.length, sheet.width) == (200_000, 70_000)
    useful = [one for one in sheet.offcuts if one.useful((10_000, 30_000))]
    assert useful
    assert taken.rests == tuple(Left(one.width, one.length) for one in useful)


def test_sticks_of_the_rack_stand_beside_what_is_sawn(opened):
    stick = RackItem("stick", "ash", 100_000, 6_000, 3_000, code="K7F32MQT")
    offered = with_rack(opened, [stick])
    ash = layouts_of(offered)["ash"]
    assert ash.unplaced == ()
    assert [one.item.code for one in taken_by(offered, [ash])] == ["K7F32MQT"]


def test_alike_pieces_are_one_entry_and_each_is_taken_once(opened):
    items = [
        RackItem("offcut", "mdf-19", 95_000, 65_000, code=code, value=Decimal(10), **MONEY)
        for code in ("K7F32MQT", "AAAAAAAV", "BBBBBBB8")
    ]
    offered = with_rack(opened, items)
    (entry,) = [one for one in offered.opened.job.stock if one.codes]
    assert (entry.copies, entry.codes) == (3, ("AAAAAAAV", "BBBBBBB8", "K7F32MQT"))
    taken = [one.item.code for one in taken_by(offered, [layouts_of(offered)["mdf-19"]])]
    assert taken == ["AAAAAAAV", "BBBBBBB8"]  # two carriers, each from a rest


def test_what_cannot_be_planned_from_is_told_with_the_reason(opened):
    odd = [
        RackItem("roll", "mdf-19", 244_000, 122_000, code="K7F32MQT", defects=(Defect(0, 0, 244_000, 9),)),
        RackItem("offcut", "mdf-19", 20_000, 20_000, code="AAAAAAAV", least=(30_000, 30_000)),
        RackItem("sheet", "moon-rock", 20_000, 20_000, code="BBBBBBB8"),
        RackItem("sheet", "ash", 20_000, 20_000, code="CCCCCCCM"),
    ]
    offered = with_rack(opened, odd)
    assert not offered.items
    assert [code for code, _ in offered.left_out] == ["AAAAAAAV", "BBBBBBB8", "CCCCCCCM", "K7F32MQT"]
    assert offered.opened.job.stock == opened.job.stock


def test_a_damaged_sheet_is_planned_round_its_damage_and_its_rest_is_booked_in_without_it(opened):
    spot = Defect(180_000, 0, 20_000, 20_000, "damage")
    item = RackItem(
        "offcut", "mdf-19", 200_000, 122_000, code="K7F32MQT", value=Decimal(1), defects=(spot,), **MONEY
    )
    offered = with_rack(opened, [item])
    layout = layouts_of(offered)["mdf-19"]
    (sheet,) = [one for one in layout.sheets if one.timber is not None]
    (flaw,) = sheet.timber.flaws
    assert (flaw.x, flaw.y, flaw.kind) == (180_000, 0, "damage")
    assert all(not flaw.meets(p.x, p.y, p.x + p.length, p.y + p.width) for p in sheet.placed)
    (taken,) = taken_by(offered, [layout])
    assert all(rest.length <= 180_000 or rest.width <= 102_000 for rest in taken.rests)


def damaged_roll(*spots, **told):
    return RackItem(
        *("roll", "linoleum-2", 300_000, 183_000),
        code="K7F32MQT", value=Decimal(1), defects=spots, **MONEY, **told,
    )  # fmt: skip


def test_a_damaged_roll_is_planned_from_its_sound_lengths_and_loses_none_of_them(opened):
    roll = damaged_roll(
        Defect(60_000, 50_000, 2_000, 3_000),
        Defect(250_000, 0, 5_000, 9_000),
        Defect(61_000, 0, 4_000, 9),
    )
    assert sound_stretches(roll) == ((65_000, 185_000), (0, 60_000), (255_000, 45_000))
    assert sound_stretch(roll) == (65_000, 185_000)
    offered = with_rack(opened, [roll])
    stock = [one for one in offered.opened.job.stock if one.codes]
    assert [(one.length_mm, one.width_mm, one.codes) for one in stock] == [
        (1850.0, 1830.0, ("K7F32MQT",)),
        (600.0, 1830.0, ("K7F32MQT/2",)),
        (450.0, 1830.0, ("K7F32MQT/3",)),
    ]
    layout = layouts_of(offered)["linoleum-2"]
    assert layout.checked
    (taken,) = taken_by(offered, [layout])
    # what stays of what is cut from, and the other lengths: with the runs and the damages the whole roll again
    whole = sum(one.length for one in taken.rests if one.width == 183_000)
    runs = sum(sheet.length for sheet in layout.sheets)
    assert runs + whole + 5_000 + 5_000 == 300_000
    begin, length = taken.stretches[0]
    told = f"K7F3-2MQT: planned from its sound length, {length // 100} mm from {begin // 100} mm on"
    assert told in taken_table((taken,), ()).note


def test_what_goes_on_no_one_sound_length_comes_from_two_of_one_roll(opened, tmp_path):
    """Two facings that do not lie side by side: a sound length holds one of them."""
    job = tmp_path / "two.toml"
    job.write_text(JOB.replace("size = [800, 500]", "size = [1200, 915]\n  count = 2"), encoding="utf-8")
    two = open_with_all(job)
    roll = damaged_roll(Defect(130_000, 0, 10_000, 183_000), Defect(265_000, 0, 35_000, 9_000))
    assert sound_stretches(roll) == ((0, 130_000), (140_000, 125_000))
    offered = with_rack(two, [roll])
    (layout,) = [one for one in plan(offered.opened, 0.5).layouts if one.material == "linoleum-2"]
    assert (layout.checked, layout.unplaced) == (True, ())
    assert sorted(sheet.stock.rpartition(" ")[2] for sheet in layout.sheets) == ["K7F32MQT", "K7F32MQT/2"]
    (taken,) = taken_by(offered, [layout])
    assert taken.stretches == ((0, 130_000), (140_000, 125_000))
    lengths = {"K7F32MQT": 130_000, "K7F32MQT/2": 125_000}
    left = [lengths[sheet.stock.rpartition(" ")[2]] - sheet.length for sheet in layout.sheets]
    rolled = [one.length for one in taken.rests if one.width == 183_000]
    assert sorted(rolled) == sorted(one for one in left if one >= 10_000)
    assert taken_table((taken,), ()).note.count("planned from its sound length") == 2


def test_a_roll_counts_for_as_much_in_parts_as_whole(opened):
    roll = damaged_roll(Defect(120_000, 0, 60_000, 183_000))
    stock = [
        one for one in with_rack(opened, [replace(roll, value=Decimal(240))]).opened.job.stock if one.codes
    ]
    assert [one.codes for one in stock] == [("K7F32MQT", "K7F32MQT/2")], "two lengths of 1200 are alike"
    assert stock[0].price == Decimal(100), "240 over 2.4 m that are sound"
    assert stock[0].copies == 2


def test_the_table_tells_what_to_fetch_and_what_was_left_out(opened):
    held = RackItem(
        "offcut", "mdf-19", 122_000, 122_000, code="K7F32MQT", place="bay 1", value=Decimal(1), **MONEY
    )
    odd = replace(held, form="roll", code="AAAAAAAV", defects=(Defect(0, 0, 122_000, 100),))
    offered = with_rack(opened, [held, odd])
    told = taken_table(taken_by(offered, plan(offered.opened, 0.3).layouts), offered.left_out)
    assert told.rows[0][:4] == ("K7F3-2MQT", "mdf-19", "1220 × 1220", "bay 1")
    assert told.note == "AAAA-AAAV: Nothing of this roll is sound over its whole width."
    assert "Nothing of the rack" in taken_table((), ()).note
