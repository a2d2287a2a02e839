"""Weight turned at the saw, labels, lists for rail, shears and merchant, and parts made again."""

from collections import Counter
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Inside, Layout, Placed, Saw, Sheet, StockSize, solve_all, verify
from evenface.layouts.by_hand import rail_order, shears_order
from evenface.layouts.handling import (
    cut_apart,
    handled,
    heavy_turns,
    labels_of,
    largest_turned,
)
from evenface.layouts.merchant import merchant_list
from evenface.layouts.remaking import remake
from evenface.piece.cutting_records import MerchantSaw

SHEET = StockSize("s", "board", "sheet", 244_000, 122_000, trim=1_000, price=Decimal(310))
DEMAND = Demand(
    "board",
    (
        Blank("a", "1.1", "carrier", 80_000, 24_000, 3),
        Blank("b", "1.2", "carrier", 60_000, 41_500, 4),
        Blank("c", "1.3", "carrier", 33_300, 21_000, 5, may_turn=True),
    ),
    (SHEET,),
    Saw(),
)


def plan(demand: Demand = DEMAND) -> Layout:
    (layout,) = solve_all((demand,), budget_s=0.0)
    return layout


def test_the_first_cut_has_the_whole_sheet_on_the_saw() -> None:
    (sheet, *_) = plan().sheets
    first = handled(sheet, 12.5, 25.0)[0]
    assert (first.length, first.width, first.turned) == (244_000, 122_000, False)
    assert first.mass_kg == pytest.approx(2.44 * 1.22 * 12.5)
    assert len(handled(sheet, 12.5, 25.0)) == len(sheet.cuts)


def test_turning_the_sheet_is_heavy_and_strips_are_not() -> None:
    layout = plan()
    worst = largest_turned(layout.sheets[0], 12.5, 25.0)
    assert worst is not None
    # after two trims along, the sheet is turned for its ends: 2440 × 1200
    assert (worst.length, worst.width) == (244_000, 120_000)
    (finding,) = heavy_turns(layout, 12.5, 25.0)
    assert finding.value is not None
    assert finding.value.nominal == pytest.approx(2.44 * 1.20 * 12.5)
    assert heavy_turns(layout, 8.0, 25.0) == ()
    assert heavy_turns(layout, 0.0, 25.0) == ()


def test_a_sheet_too_heavy_to_be_turned_has_its_ends_trimmed_in_strips() -> None:
    """Nothing larger than the first strips is turned; what comes off is what came off before."""
    light, heavy = plan(), plan(replace(DEMAND, saw=Saw(most_turned=20_000 * 100_000)))
    assert verify(replace(DEMAND, saw=Saw(most_turned=20_000 * 100_000)), heavy) == ()
    before, after = (largest_turned(layout.sheets[0], 12.5, 25.0) for layout in (light, heavy))
    assert before is not None
    assert after is not None
    assert before.heavy
    assert not after.heavy
    assert heavy_turns(heavy, 12.5, 25.0) == ()
    for one, other in zip(light.sheets, heavy.sheets, strict=True):
        assert (one.placed, one.offcuts) == (other.placed, other.offcuts)
        assert Counter(replace(cut, number=0, from_=0, to_=0) for cut in one.cuts if cut.stage) == Counter(
            replace(cut, number=0, from_=0, to_=0) for cut in other.cuts if cut.stage
        )
        stages = [cut.stage for cut in other.cuts]
        begun = stages[2]
        assert begun > 0, "two trims the way of the first cuts"
        later = [cut for n, cut in enumerate(other.cuts) if n > 2 and cut.stage == 0]
        assert len(later) == 2
        assert {cut.axis for cut in later}.isdisjoint({cut.axis for cut in other.cuts[:3]})
        assert stages[: stages.index(0, 2)] == [0, 0] + [begun] * (stages.index(0, 2) - 2)
    strips = [one for one in handled(heavy.sheets[0], 12.5, 25.0) if one.cut.stage == 0 and one.turned]
    assert len(strips) > 1
    assert all(min(one.length, one.width) < 122_000 for one in strips)


def test_strips_come_first_where_a_sheet_cut_across_first_would_be_too_heavy_to_turn() -> None:
    """Sides and shelves of a cupboard: the largest rest is had by a cut across first, 2368 × 2070 turned."""
    sheet = StockSize("s", "board", "sheet", 280_000, 207_000, trim=1_000)
    blanks = (
        Blank("top", "1", "carrier", 236_800, 39_400, 2),
        Blank("side", "2", "carrier", 72_000, 39_400, 4),
        Blank("back", "3", "carrier", 68_000, 59_400, 2),
    )
    limit = 2 * 10**10
    rest, light = (
        plan(Demand("board", blanks, (sheet,), Saw(most_turned=most))).sheets for most in (None, limit)
    )
    assert len(rest) == len(light) == 1

    def turned(sheets: tuple[Sheet, ...]) -> int:
        most = largest_turned(sheets[0], 12.5, 25.0)
        return most.length * most.width if most else 0

    assert turned(rest) > limit >= turned(light)
    assert max(one.area for one in rest[0].offcuts) > max(one.area for one in light[0].offcuts)
    strips = [cut for cut in light[0].cuts if cut.stage == 1]
    assert {cut.axis for cut in strips} == {"along"}
    # where every order turns too much, the aims decide as ever
    large = Demand("board", (Blank("x", "1", "carrier", 200_000, 150_000),), (sheet,), Saw(most_turned=10**9))
    assert plan(large).sheets[0].placed == plan(replace(large, saw=Saw())).sheets[0].placed


def test_a_trim_left_out_or_told_too_short_is_a_fault() -> None:
    demand = replace(DEMAND, saw=Saw(most_turned=20_000 * 100_000))
    layout = plan(demand)
    sheet = layout.sheets[0]
    at = next(n for n, cut in enumerate(sheet.cuts) if n > 2 and cut.stage == 0)
    trim = sheet.cuts[at]
    for wrong in (
        replace(trim, to_=trim.to_ - 1),
        replace(trim, from_=trim.from_ + 1),
        replace(trim, position=trim.position + 1),
        replace(trim, fence=trim.fence - 1),
        replace(trim, stage=1),
    ):
        cuts = (*sheet.cuts[:at], wrong, *sheet.cuts[at + 1 :])
        assert verify(demand, replace(layout, sheets=(replace(sheet, cuts=cuts), *layout.sheets[1:])))
    without = tuple(
        replace(cut, number=n) for n, cut in enumerate((*sheet.cuts[:at], *sheet.cuts[at + 1 :]), start=1)
    )
    assert verify(demand, replace(layout, sheets=(replace(sheet, cuts=without), *layout.sheets[1:])))


def test_every_blank_gets_one_label_once_its_last_cut_is_made() -> None:
    for sheet in plan().sheets:
        labels = labels_of(sheet)
        assert sorted(label.blank for label in labels) == sorted(piece.blank for piece in sheet.placed)
        assert [label.number for label in labels] == list(range(1, len(labels) + 1))
        afters = [label.after_cut for label in labels]
        assert afters == sorted(afters)
        assert afters[-1] <= len(sheet.cuts)


def test_rail_cuts_in_one_line_are_one_and_long_ones_need_the_rail_twice() -> None:
    (sheet, *_) = plan().sheets
    cuts = rail_order(sheet, 1_400.0)
    assert sorted(number for cut in cuts for number in cut.of) == [cut.number for cut in sheet.cuts]
    assert len(cuts) <= len(sheet.cuts)
    by_length = {cut.length > 140_000 for cut in cuts if cut.tool == "joined rails"}
    assert by_length == {True}
    assert all(cut.settings == -(-cut.length // 140_000) for cut in cuts)
    stages = [sheet.cuts[cut.of[0] - 1].stage for cut in cuts]
    assert stages == sorted(stages)


def test_by_hand_each_line_is_measured_to_the_side_of_the_cut_on_which_the_piece_lies() -> None:
    for sheet in plan().sheets:
        lines = rail_order(sheet, 1_400.0)
        trims = [line for line in lines if sheet.cuts[line.of[0] - 1].stage == 0]
        # the first edge and the first end: waste before the line, which is where the sheet begins
        assert sorted((line.axis, line.measure, line.beyond) for line in trims) == [
            ("across", 1_000, True),
            ("across", 243_000, False),
            ("along", 1_000, True),
            ("along", 121_000, False),
        ]
        sides = {"along": set(), "across": set()}
        for piece in sheet.placed:
            sides["along"] |= {piece.y, piece.y + piece.width}
            sides["across"] |= {piece.x, piece.x + piece.length}
        assert all(line.measure in sides[line.axis] for line in lines if line not in trims)


def test_by_hand_every_part_comes_off_once_when_all_its_sides_are_cut() -> None:
    for sheet in plan().sheets:
        for lines in (rail_order(sheet, 1_400.0), shears_order(sheet, 1_300.0)):
            assert sorted(part for line in lines for part in line.off) == sorted(p.part for p in sheet.placed)
            done: set[int] = set()
            free: Counter[str] = Counter()
            for line in lines:
                done |= set(line.of)
                free.update(line.off)
                loose = Counter(p.part for p in sheet.placed if sides_cut(p, sheet, done))
                assert loose == free


def sides_cut(piece: Placed, sheet: Sheet, done: set[int]) -> bool:
    """Whether each side of the piece that is not an edge of the sheet has a cut made along all of it."""
    x0, y0, x1, y1 = piece.x, piece.y, piece.x + piece.length, piece.y + piece.width
    for axis, at, low, high in (
        ("along", y0, x0, x1),
        ("along", y1, x0, x1),
        ("across", x0, y0, y1),
        ("across", x1, y0, y1),
    ):
        sides = [
            cut
            for cut in sheet.cuts
            if cut.axis == axis
            and at in (cut.position, cut.position + cut.kerf)
            and cut.from_ <= low
            and high <= cut.to_
            and (cut.stage or done & {cut.number for cut in sheet.cuts if not cut.stage})
        ]
        if sides and not any(cut.number in done for cut in sides):
            return False
    return True


def test_shears_leave_the_factory_edge_and_long_cuts_to_the_knife() -> None:
    (sheet, *_) = plan().sheets
    cuts = shears_order(sheet, 1_300.0)
    assert {cut.tool for cut in cuts if cut.length > 130_000} <= {"knife"}
    assert {cut.tool for cut in cuts if cut.length <= 130_000} <= {"shears"}
    assert all(sheet.cuts[number - 1].stage > 0 for cut in cuts for number in cut.of)


def test_the_merchant_s_list_has_trim_his_kerf_and_no_strip_too_narrow() -> None:
    narrow = replace(DEMAND, blanks=(*DEMAND.blanks, Blank("n", "1.4", "carrier", 70_000, 1_800, 7)))
    own = plan(narrow)
    told = merchant_list(narrow, own, MerchantSaw(4.0, 10.0, 5.0, 60.0))
    assert verify(told.demand, told.layout) == ()
    assert told.sheets >= told.own_sheets
    assert told.demand.saw.kerf == 400
    a = next(size for size in told.sizes if size.blanks == ("a",))
    assert (a.length_mm, a.width_mm, a.count) == (810.0, 250.0, 3)
    strips = [size for size in told.sizes if size.blanks == ("n",)]
    # three of 18 with two cuts of 3.2 and 10 all round make 70.4; the one left over is as wide as he cuts
    assert [(size.width_mm, size.count, size.strips) for size in strips] == [(70.4, 2, 3), (60.0, 1, 1)]
    with pytest.raises(ValueError, match="sheets or rolls"):
        merchant_list(sticks(), plan(sticks()), MerchantSaw())


def test_runs_and_bundles_are_cut_apart_last_and_short_ones_to_length() -> None:
    row = tuple(Inside(f"d{n}", "face", n * 38_320, 38_000) for n in range(3))
    run = Blank("run", "d0, d1, d2", "face", 72_000, 114_640, 1, inside=row, parted="along", run="doors")
    (layout,) = solve_all((Demand("hpl", (run,), (SHEET,), Saw()),), budget_s=0.0)
    (sheet,) = layout.sheets
    first, second = cut_apart(sheet)
    (piece,) = sheet.placed
    assert [one.cut.number for one in (first, second)] == [len(sheet.cuts) + 1, len(sheet.cuts) + 2]
    assert (first.cut.fence, first.cut.kerf, first.cut.axis, first.off) == (38_000, 320, "along", ("d0",))
    assert (second.cut.position, second.off) == (piece.y + 38_320 + 38_000, ("d1", "d2"))
    # a part too short to be held is cut with what it is held by, and to its length last
    held = Blank("b", "4.20", "board", 40_000, 9_500, 1, inside=(Inside("4.20", "board", 0, 37_300),))
    two = replace(
        held, id="c", length=62_000, inside=(Inside("x", "b", 0, 30_000), Inside("y", "b", 30_320, 31_000))
    )
    stock = StockSize("s", "ash", "stick", 250_000, trim=5_000)
    (layout,) = solve_all((Demand("ash", (held, two), (stock,), Saw()),), budget_s=0.0)
    told = {one.off: (one.cut.fence, one.cut.kerf) for one in cut_apart(layout.sheets[0])}
    assert told == {("4.20",): (37_300, 320), ("x",): (30_000, 320), ("y",): (31_000, 320)}


def sticks() -> Demand:
    stock = StockSize("s", "ash", "stick", 250_000, trim=5_000)
    return Demand("ash", (Blank("e", "1", "edging", 60_000, 2_200, 5),), (stock,), Saw())


def test_a_spoiled_part_comes_from_a_rest_first() -> None:
    layout = plan()
    again = remake(DEMAND, layout, {"c": 1})
    (one,) = again.remade
    assert (one.from_, one.sheets, again.sheets_bought, again.cost) == ("offcut", 0, 0, Decimal(0))
    assert one.rest is not None
    assert one.rest in layout.sheets[one.sheet - 1].offcuts
    assert all(verify(demand, found) == () for demand, found in again.plans)


def test_then_from_the_rack_then_a_sheet_is_bought_and_told() -> None:
    rack = StockSize("r", "board", "sheet", 90_000, 50_000, 1, trim=0, offcut=True, price=Decimal(0))
    full = Demand("board", (Blank("w", "1", "carrier", 240_000, 118_000, 2),), (SHEET,), Saw())
    layout = plan(full)
    again = remake(full, layout, {"w": 1})
    assert [(one.from_, one.sheets, one.cost) for one in again.remade] == [("bought", 1, Decimal(310))]
    assert (again.sheets_bought, again.cost) == (1, Decimal(310))
    small = replace(full, blanks=(*full.blanks, Blank("q", "2", "carrier", 80_000, 45_000, 1)))
    with_rack = replace(small, stock=(SHEET, rack))
    without = replace(
        layout, sheets=(*layout.sheets, plan(replace(small, blanks=small.blanks[1:])).sheets[0])
    )
    bare = replace(without, sheets=tuple(replace(sheet, offcuts=()) for sheet in without.sheets))
    assert [one.from_ for one in remake(with_rack, bare, {"q": 1}).remade] == ["rack"]
    gone = replace(with_rack, stock=(replace(rack, copies=0), replace(SHEET, copies=3)))
    nowhere = remake(gone, bare, {"q": 1})
    assert [one.from_ for one in nowhere.remade] == ["nowhere"]
    assert nowhere.findings[0].severity.value == "stop"


def test_a_part_of_a_named_batch_is_made_again_of_that_batch_or_it_is_told() -> None:
    old = replace(SHEET, id="old", copies=1, batch="B7")
    new = replace(SHEET, id="new")
    door = Blank("d", "3.1", "face", 80_000, 40_000, 2, batch="B7")
    other = Blank("o", "4", "face", 90_000, 40_000, 1, batch="")
    demand = Demand("board", (door, other), (old, new), Saw())
    layout = plan(demand)
    assert {sheet.stock for sheet in layout.sheets} == {"old", "new"}
    again = remake(demand, layout, {"d": 1, "o": 1})
    assert sorted((one.blank, one.from_, one.stock.split()[0]) for one in again.remade) == [
        ("d", "offcut", "old"),
        ("o", "offcut", "new"),
    ]
    assert [finding.code for finding in again.findings] == ["layout.remade"]
    # with no rest of the batch, and none in the rack, it comes from another and that is said
    bare = replace(layout, sheets=tuple(replace(sheet, offcuts=()) for sheet in layout.sheets))
    again = remake(demand, bare, {"d": 2})
    assert [(one.from_, one.stock) for one in again.remade] == [("bought", "new")] * 2
    assert [(f.code, f.severity.value, f.value and f.value.nominal) for f in again.findings] == [
        ("layout.remade", "note", 1.0),
        ("layout.remade_other_batch", "weigh", 2.0),
    ]
    assert all(verify(asked, found) == () for asked, found in again.plans)
    # one more of the batch in the rack serves first
    racked = replace(demand, stock=(replace(old, copies=2), new))
    assert [one.from_ for one in remake(racked, bare, {"d": 2}).remade] == ["rack", "rack"]
    # and where nothing is left at all, no batch is blamed
    gone = replace(demand, stock=(old, replace(new, copies=1)))
    again = remake(gone, bare, {"d": 1})
    assert [one.from_ for one in again.remade] == ["nowhere"]
    assert [finding.code for finding in again.findings] == ["layout.remade"]


def test_what_was_not_made_cannot_be_spoiled() -> None:
    for wrong in ({"c": 6}, {"x": 1}, {"c": 0}):
        with pytest.raises(ValueError, match="expected 1 to"):
            remake(DEMAND, plan(), wrong)


def test_a_spoiled_facing_of_a_roll_is_cut_off_the_roll_or_a_rest() -> None:
    roll = StockSize("r", "linoleum", "roll", None, 183_000, price=Decimal(40))
    one = Demand("linoleum", (Blank("f", "1", "face", 90_000, 61_000, 5),), (roll,), Saw(kerf=0))
    layout = plan(one)
    assert [r.from_ for r in remake(one, layout, {"f": 1}).remade] == ["offcut"]
    whole = replace(one, blanks=(replace(one.blanks[0], width=183_000),))
    again = remake(whole, plan(whole), {"f": 1})
    assert [(r.from_, r.cost) for r in again.remade] == [("bought", Decimal(36))]


@settings(max_examples=20, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(3_000, 200_000), st.integers(3_000, 110_000), st.integers(1, 4)),
        min_size=1,
        max_size=6,
    )
)
def test_any_plan_has_its_labels_its_rail_list_and_its_parts_again(sizes: list[tuple[int, int, int]]) -> None:
    blanks = tuple(Blank(f"b{n}", f"{n}", "face", *one) for n, one in enumerate(sizes))
    demand = Demand("board", blanks, (SHEET,), Saw())
    layout = plan(demand)
    for sheet in layout.sheets:
        assert len(labels_of(sheet)) == len(sheet.placed)
        lines = rail_order(sheet, 1_400.0)
        assert sorted(number for line in lines for number in line.of) == [cut.number for cut in sheet.cuts]
    again = remake(demand, layout, {"b0": 1})
    assert len(again.remade) == 1
    assert all(verify(asked, found) == () for asked, found in again.plans)
