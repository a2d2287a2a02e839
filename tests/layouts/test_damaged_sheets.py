"""Damaged sheets: a straight cut takes the damage off, what is sound is planned on, nothing is claimed too much."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Flaw, Layout, Saw, StockSize, Timber, solve_all, verify
from evenface.layouts.stock_records import sound_part

CORNER = Flaw(214_000, 90_000, 30_000, 32_000, "damage")


def sheet(*flaws: Flaw, copies: int | None = 1, trim: int = 1_000) -> StockSize:
    return StockSize(
        "s",
        "birch",
        "sheet",
        244_000,
        122_000,
        copies,
        trim=trim,
        timber=Timber(flaws=flaws) if flaws else None,
    )


def solved(demand: Demand) -> Layout:
    (layout,) = solve_all((demand,), budget_s=0.0)
    assert layout.checked
    assert not verify(demand, layout)
    return layout


@pytest.mark.parametrize(
    ("flaw", "part"),
    [
        (CORNER, (1_000, 1_000, 213_000, 120_000)),  # the damaged end goes
        (Flaw(0, 0, 244_000, 8_000), (1_000, 8_000, 242_000, 113_000)),  # a strip along the lower edge
        (Flaw(0, 0, 20_000, 20_000), (20_000, 1_000, 223_000, 120_000)),  # the reference corner itself
        (Flaw(100_000, 115_000, 60_000, 7_000), (1_000, 1_000, 242_000, 114_000)),
        (Flaw(0, 0, 900, 122_000), (1_000, 1_000, 242_000, 120_000)),  # lies in the trim
    ],
)
def test_the_sound_part_is_the_largest_that_one_cut_leaves(flaw: Flaw, part: tuple[int, ...]) -> None:
    assert sheet(flaw).sound == part


def test_a_corner_is_cut_off_first_and_no_piece_lies_beside_it() -> None:
    demand = Demand(
        "birch", (Blank("a", "1.1", "face", 100_000, 50_000, 4),), (sheet(CORNER),), Saw(stages=2)
    )
    layout = solved(demand)
    first = next(cut for cut in layout.sheets[0].cuts if cut.stage > 0)
    assert (first.axis, first.position, first.fence) == ("across", 214_000, 213_000)
    assert len(layout.sheets) == 1
    assert not layout.unplaced
    assert layout.sheets[0].unaccounted == 0
    assert all(
        rest.x + rest.length <= 214_000 or rest.y + rest.width <= 90_000
        for rest in layout.sheets[0].sound_rests
    )


def test_what_goes_on_a_whole_sheet_only_is_bought() -> None:
    blank = Blank("a", "1.1", "face", 230_000, 110_000)
    whole = replace(sheet(copies=None), id="whole")
    layout = solved(Demand("birch", (blank,), (sheet(CORNER), whole)))
    assert layout.bought.by_stock == {"whole": 1}


def test_no_bound_is_claimed_that_a_plan_round_the_damage_could_beat() -> None:
    """Four pieces go round the hole of one sheet by more cuts than one: that is not looked for, nor ruled out."""
    hole = Flaw(110_000, 58_500, 10_000, 4_000)
    blank = Blank("a", "1.1", "face", 105_000, 56_000, 4)
    two = replace(sheet(hole), copies=2)
    layout = solved(Demand("birch", (blank,), (two,)))
    assert (layout.bought.count, layout.bound, layout.proved) == (2, 1, False)


def test_faults_are_seen_a_piece_on_the_damage_and_a_turn_not_needed() -> None:
    demand = Demand(
        "birch", (Blank("a", "1.1", "face", 100_000, 50_000, 4),), (sheet(CORNER),), Saw(stages=2)
    )
    layout = solved(demand)
    piece = layout.sheets[0].placed[0]
    spot = Flaw(piece.x + 10, piece.y + 10, 100, 100)
    worse = replace(demand, stock=(sheet(CORNER, spot),))
    assert {"clear", "stock"} <= {fault.rule for fault in verify(worse, layout)}
    # without damage the same first cut is one turn more than the saw may make
    plain = replace(layout, sheets=tuple(replace(one, timber=None) for one in layout.sheets))
    clean = replace(demand, stock=(sheet(),))
    turned = {fault.rule for fault in verify(clean, plain)}
    assert turned <= {"stages"}


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(2_000, 120_000), st.integers(2_000, 100_000), st.integers(1, 4), st.booleans()),
        min_size=1,
        max_size=5,
    ),
    st.lists(
        st.tuples(
            st.integers(0, 243_000), st.integers(0, 121_000), st.integers(1, 90_000), st.integers(1, 60_000)
        ),
        min_size=1,
        max_size=2,
    ),
    st.sampled_from([0, 320]),
    st.sampled_from(["any", "along", "across"]),
    st.sampled_from([0, 1_000]),
)
def test_random_damage_is_planned_round_and_everything_adds_up(sizes, boxes, kerf, first, trim) -> None:
    flaws = tuple(Flaw(*box) for box in boxes)
    inner = trim, trim, 244_000 - 2 * trim, 122_000 - 2 * trim
    stock = [replace(sheet(copies=None, trim=trim), id="whole")]
    if sound_part(*inner, flaws) is not None:
        stock.append(sheet(*flaws, trim=trim))
    blanks = tuple(Blank(f"b{n}", f"{n}", "face", *one) for n, one in enumerate(sizes))
    demand = Demand("birch", blanks, tuple(stock), Saw(kerf=kerf, first_cut=first))
    for one in solved(demand).sheets:
        assert one.unaccounted == 0
        for rest in one.sound_rests:
            assert one.timber is None or not any(
                flaw.meets(rest.x, rest.y, rest.x + rest.length, rest.y + rest.width)
                for flaw in one.timber.flaws
            )
