"""The second look finds every fault put in by hand or by chance, and each of its rules is needed."""

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenface.layouts.records import Blank, Bought, Cut, Demand, Inside, Layout, Offcut, Placed, Saw, Sheet
from evenface.layouts.solve import solve_all
from evenface.layouts.stock_records import Flaw, StockSize, Timber
from evenface.layouts.verify import RULES, verify

SHEET = StockSize("sheet", "board", "sheet", 244_000, 122_000, trim=1_000)
DEMAND = Demand(
    "board",
    (
        Blank("a", "1.1", "carrier", 80_000, 24_000, 3),
        Blank("b", "1.2", "carrier", 60_000, 41_500, 4),
        Blank("c", "1.3", "carrier", 33_300, 21_000, 5, may_turn=True),
    ),
    (SHEET,),
    Saw(kerf=320),
)


@pytest.fixture(scope="module")
def sound() -> Layout:
    (layout,) = solve_all((DEMAND,), budget_s=0.0)
    assert layout.checked
    assert not verify(DEMAND, layout)
    return layout


def with_piece(layout: Layout, change: Callable[[Placed], Placed], which: int = 0) -> Layout:
    sheet = layout.sheets[0]
    placed = tuple(change(piece) if number == which else piece for number, piece in enumerate(sheet.placed))
    return with_sheet(layout, replace(sheet, placed=placed))


def with_sheet(layout: Layout, sheet: Sheet) -> Layout:
    return replace(layout, sheets=(sheet, *layout.sheets[1:]))


def without_piece(layout: Layout) -> Layout:
    sheet = layout.sheets[0]
    return with_sheet(layout, replace(sheet, placed=sheet.placed[1:]))


def rules_broken(layout: Layout, demand: Demand = DEMAND) -> set[str]:
    return {fault.rule for fault in verify(demand, layout)}


def test_a_piece_moved_by_a_tenth_of_a_millimetre_onto_its_neighbour(sound: Layout) -> None:
    sheet = sound.sheets[0]
    right = max(range(len(sheet.placed)), key=lambda number: sheet.placed[number].x)
    moved = with_piece(sound, lambda piece: replace(piece, x=piece.x - 320 - 10), right)
    assert "kerf" in rules_broken(moved)


def test_a_missing_kerf(sound: Layout) -> None:
    thicker = replace(DEMAND, saw=Saw(kerf=321))
    assert "kerf" in rules_broken(sound, thicker)


def test_a_turned_piece(sound: Layout) -> None:
    turned = with_piece(
        sound, lambda piece: replace(piece, length=piece.width, width=piece.length, turned=True)
    )
    assert "direction" in rules_broken(turned)
    quietly = with_piece(sound, lambda piece: replace(piece, length=piece.width, width=piece.length))
    assert "direction" in rules_broken(quietly)


def test_a_missing_piece(sound: Layout) -> None:
    assert "counts" in rules_broken(without_piece(sound))


def test_a_piece_in_the_trim(sound: Layout) -> None:
    sheet = sound.sheets[0]
    first = min(range(len(sheet.placed)), key=lambda number: sheet.placed[number].x)
    assert "trims" in rules_broken(with_piece(sound, lambda piece: replace(piece, x=piece.x - 10), first))


# Each fault breaks one rule alone, as far as one alone can be broken.
def wrong_size(layout: Layout) -> tuple[Demand, Layout]:
    blanks = tuple(
        replace(blank, length=blank.length + 10) if blank.id == "a" else blank for blank in DEMAND.blanks
    )
    return replace(DEMAND, blanks=blanks), layout


def locked_turn(layout: Layout) -> tuple[Demand, Layout]:
    """The same plan, but what lies turned may not turn: only the direction is wrong."""
    demand = Demand(
        "board", (Blank("t", "1", "carrier", 30_000, 130_000, 2, may_turn=True),), (SHEET,), Saw(kerf=320)
    )
    (plan,) = solve_all((demand,), budget_s=0.0)
    turned = replace(
        plan,
        sheets=tuple(
            replace(
                sheet,
                placed=tuple(
                    replace(piece, turned=(piece.length, piece.width) == (130_000, 30_000))
                    for piece in sheet.placed
                ),
            )
            for sheet in plan.sheets
        ),
    )
    assert any(piece.turned for sheet in turned.sheets for piece in sheet.placed)
    return replace(demand, blanks=(replace(demand.blanks[0], may_turn=False),)), turned


def one_too_few(layout: Layout) -> tuple[Demand, Layout]:
    blanks = tuple(
        replace(blank, count=blank.count + 1) if blank.id == "a" else blank for blank in DEMAND.blanks
    )
    return replace(DEMAND, blanks=blanks), layout


def thicker_blade(layout: Layout) -> tuple[Demand, Layout]:
    return replace(DEMAND, saw=Saw(kerf=321)), layout


def not_that_many(layout: Layout) -> tuple[Demand, Layout]:
    return replace(DEMAND, stock=(replace(SHEET, copies=len(layout.sheets) - 1),)), layout


def bought_too_few(layout: Layout) -> tuple[Demand, Layout]:
    return DEMAND, replace(layout, bought=replace(layout.bought, count=layout.bought.count - 1))


def proof_made_up(layout: Layout) -> tuple[Demand, Layout]:
    return DEMAND, replace(layout, bound=0, proved=True)


def cut_left_out(layout: Layout) -> tuple[Demand, Layout]:
    """Two cuts swapped: nothing else changes, but the second now comes before its strip is free."""
    sheet = layout.sheets[0]
    cuts = list(sheet.cuts)
    cuts[4], cuts[-1] = replace(cuts[-1], number=5), replace(cuts[4], number=len(cuts))
    return DEMAND, with_sheet(layout, replace(sheet, cuts=tuple(cuts)))


def stack_sheet() -> tuple[Demand, Sheet]:
    """One piece on a sheet without kerf or trim, cut by one cut; the rest is an offcut."""
    stock = StockSize("s", "m", "sheet", 1_000, 500)
    demand = Demand("m", (Blank("p", "1", "carrier", 600, 500),), (stock,), Saw(kerf=0, least_offcut=(1, 1)))
    cut = Cut(1, 1, 600, 0, 500, "across", 600, 0)
    return demand, Sheet(
        "s", "sheet", 1_000, 500, 0, (Placed("p", "1", 0, 0, 600, 500),), (cut,), (Offcut(600, 0, 400, 500),)
    )


def area_lost(layout: Layout) -> tuple[Demand, Layout]:
    """A cut recorded with a kerf it has not: the pieces come free all the same, the areas do not close."""
    demand, sheet = stack_sheet()
    sheet = replace(sheet, cuts=(replace(sheet.cuts[0], stage=0, kerf=0),), offcuts=())
    return demand, _layout_of(demand, sheet)


def over_the_edge(layout: Layout) -> tuple[Demand, Layout]:
    """The trim of the stock and of the sheet grow together by a tenth: pieces now lie in it."""
    bigger = replace(SHEET, trim=SHEET.trim + 10)
    sheets = tuple(replace(sheet, trim=sheet.trim + 10) for sheet in layout.sheets)
    return replace(DEMAND, stock=(bigger,)), replace(layout, sheets=sheets)


def _layout_of(demand: Demand, sheet: Sheet) -> Layout:
    (plan,) = solve_all((demand,), budget_s=0.0)
    return replace(plan, sheets=(sheet,))


def not_cut_apart(layout: Layout) -> tuple[Demand, Layout]:
    """The plan is for a whole piece; asked is a blank that is to be cut apart into two."""
    halves = (Inside("1.1", "carrier", 0, 39_000), Inside("1.2", "carrier", 40_000, 40_000))
    blanks = tuple(replace(b, inside=halves) if b.id == "a" else b for b in DEMAND.blanks)
    return replace(DEMAND, blanks=blanks), layout


def set_apart(layout: Layout) -> tuple[Demand, Layout]:
    """Two blanks that lie on two sheets were to come from one."""
    whole = Blank("w", "1.9", "carrier", 200_000, 100_000, 2)
    demand = replace(DEMAND, blanks=(whole,))
    (plan,) = solve_all((demand,), budget_s=0.0)
    return replace(demand, blanks=(replace(whole, same="pair"),)), plan


def other_batch(layout: Layout) -> tuple[Demand, Layout]:
    """Two blanks that lie on sheets of two batches were to come from one."""
    whole = Blank("w", "1.9", "carrier", 200_000, 100_000, 2)
    stock = (replace(SHEET, copies=1, batch="A"), replace(SHEET, id="other", copies=1, batch="B"))
    demand = replace(DEMAND, blanks=(whole,), stock=stock)
    (plan,) = solve_all((demand,), budget_s=0.0)
    return replace(demand, blanks=(replace(whole, same_batch="fronts"),)), plan


def _of_a_board() -> tuple[Demand, Layout]:
    stock = StockSize("b", "ash", "board", 100_000, 15_000, 1, trim=2_000, thickness=3_000, timber=Timber())
    demand = Demand("ash", (Blank("s", "1", "edging", 40_000, 3_000, 4),), (stock,), Saw(stages=None))
    (plan,) = solve_all((demand,), budget_s=0.0)
    return demand, plan


def knot_not_seen(layout: Layout) -> tuple[Demand, Layout]:
    demand, plan = _of_a_board()
    piece = plan.sheets[0].placed[-1]
    knot = Flaw(piece.x + piece.length - 1, piece.y + piece.width - 1, 500, 500)
    return replace(demand, stock=(replace(demand.stock[0], timber=Timber(flaws=(knot,))),)), plan


def planed_too_thin(layout: Layout) -> tuple[Demand, Layout]:
    demand, plan = _of_a_board()
    return replace(demand, blanks=(replace(demand.blanks[0], thickness=3_001),)), plan


SEEDED = {
    "right_counts": one_too_few,
    "right_sizes": wrong_size,
    "right_direction": locked_turn,
    "inside_the_trims": over_the_edge,
    "kerf_between": thicker_blade,
    "stock_that_exists": not_that_many,
    "cuts_give_the_pieces": cut_left_out,
    "areas_close": area_lost,
    "bought_is_what_is_used": bought_too_few,
    "claims_hold": proof_made_up,
    "cut_apart_in_order": not_cut_apart,
    "sets_on_one_sheet": set_apart,
    "batches_kept": other_batch,
    "clear_wood": knot_not_seen,
    "thick_enough": planed_too_thin,
}


@pytest.mark.parametrize("name", SEEDED)
def test_each_rule_switched_off_lets_its_fault_through(name: str, sound: Layout) -> None:
    demand, faulty = SEEDED[name](sound)
    (rule,) = [rule for rule in RULES if rule.__name__ == name]
    own = verify(demand, faulty, [rule])
    assert own, "the rule does not see its own fault"
    others = [fault for fault in verify(demand, faulty) if fault.rule not in {found.rule for found in own}]
    without = [other for other in RULES if other is not rule]
    assert verify(demand, faulty, without) == tuple(others)
    assert len(verify(demand, faulty, without)) < len(verify(demand, faulty))


def test_a_thinner_kerf_told_for_one_cut_is_seen_through() -> None:
    """The cut beside an offcut takes less, the offcut grows to match: areas close, pieces come free."""
    stock = StockSize("s", "m", "sheet", 1_000, 500)
    demand = Demand("m", (Blank("p", "1", "carrier", 600, 500),), (stock,), Saw(kerf=32, least_offcut=(1, 1)))
    (plan,) = solve_all((demand,), budget_s=0.0)
    (sheet,) = plan.sheets
    (cut,) = sheet.cuts
    thin = replace(sheet, cuts=(replace(cut, kerf=1),), offcuts=(Offcut(601, 0, 399, 500),))
    assert {fault.rule for fault in verify(demand, replace(plan, sheets=(thin,)))} == {"cuts"}


def test_made_up_prices_and_silent_losses_are_seen_through(sound: Layout) -> None:
    priced = replace(sound, bought=replace(sound.bought, price=Decimal(1)))
    assert rules_broken(priced) == {"bought"}
    nothing = replace(
        sound,
        sheets=(),
        bought=Bought(0),
        unplaced=tuple((b.id, b.count) for b in DEMAND.blanks),
        proved=False,
    )
    assert "claims" in rules_broken(nothing)


def test_every_rule_has_a_fault_seeded_against_it() -> None:
    assert {rule.__name__ for rule in RULES} == SEEDED.keys()


def simulate(layout: Layout, demand: Demand) -> bool:
    """A slow judge, written apart: are the pieces asked for, inside, apart, turned only where they may?"""
    asked = {blank.id: blank for blank in demand.blanks}
    count: dict[str, int] = {}
    for sheet in layout.sheets:
        taken: list[tuple[int, int, int, int]] = []
        for piece in sheet.placed:
            blank = asked[piece.blank]
            sizes = {(blank.length, blank.width)} | (
                {(blank.width, blank.length)} if blank.may_turn else set()
            )
            if (piece.length, piece.width) not in sizes:
                return False
            box = (piece.x, piece.y, piece.x + piece.length, piece.y + piece.width)
            if box[0] < sheet.trim or box[1] < sheet.trim or box[2] > sheet.length - sheet.trim:
                return False
            if box[3] > sheet.width - sheet.trim:
                return False
            k = demand.saw.kerf
            grown = (box[0] - k, box[1] - k, box[2] + k, box[3] + k)
            for other in taken:
                apart_x = grown[2] <= other[0] or grown[0] >= other[2]
                apart_y = grown[3] <= other[1] or grown[1] >= other[3]
                if not (apart_x or apart_y):
                    return False
            taken.append(box)
            count[piece.blank] = count.get(piece.blank, 0) + 1
    return count == {blank.id: blank.count for blank in demand.blanks}


@given(st.integers(0, 10_000))
def test_random_edits_are_judged_as_a_slow_judge_judges_them(sound: Layout, seed: int) -> None:
    """Whatever the slow judge refuses, the second look refuses too."""
    chance = Random(seed)
    sheet_at = chance.randrange(len(sound.sheets))
    sheet = sound.sheets[sheet_at]
    which = chance.randrange(len(sheet.placed))
    piece = sheet.placed[which]
    edits: list[Callable[[], tuple[Placed, ...]]] = [
        lambda: (replace(piece, x=piece.x + chance.choice([-400, -10, -1, 1, 10, 400])),),
        lambda: (replace(piece, y=piece.y + chance.choice([-400, -10, -1, 1, 10, 400])),),
        lambda: (replace(piece, length=piece.length + chance.choice([-10, -1, 1, 10])),),
        lambda: (replace(piece, length=piece.width, width=piece.length),),
        lambda: (),
        lambda: (piece, piece),
    ]
    changed = chance.choice(edits)()
    placed = (*sheet.placed[:which], *changed, *sheet.placed[which + 1 :])
    sheets = (*sound.sheets[:sheet_at], replace(sheet, placed=placed), *sound.sheets[sheet_at + 1 :])
    edited = replace(sound, sheets=sheets)
    faults = verify(DEMAND, edited)
    if not simulate(edited, DEMAND):
        assert faults
    elif placed != sheet.placed:
        assert faults, "the cuts no longer free the pieces where they are said to lie"
