"""Break points: several blanks of one size together, proved to be the nearest where they are, and 1 mm more."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import (
    Blank,
    Demand,
    Flaw,
    Inside,
    Saw,
    StockSize,
    Timber,
    break_points,
    breakpoints,
    one_more,
    sizes_tried,
    solve_all,
)

LAMINATE = StockSize("3050 × 1300", "laminate", "sheet", 305_000, 130_000)


def two(width: int, length: int = 181_000) -> Demand:
    blanks = tuple(Blank(name, name, "face", length, width) for name in ("1.1", "1.2"))
    return Demand("laminate", blanks, (LAMINATE,), Saw(kerf=0))


def resized(blank: Blank, axis: str, size: int) -> Blank:
    return replace(blank, length=size) if axis == "length" else replace(blank, width=size)


def test_blanks_of_one_size_are_made_smaller_together_and_the_nearest_is_proved() -> None:
    (point,) = [point for point in break_points(two(66_000), 2) if point.axis == "width"]
    assert (point.together, point.smaller_by, point.size) == (("1.1", "1.2"), 1_000, 65_000)
    assert point.nearest, "two wider than half the sheet, longer than half of it, never go on one"


def test_a_nearer_size_that_only_a_better_plan_finds_is_not_denied() -> None:
    one = two(66_000)
    lone = replace(one, blanks=(*one.blanks, Blank("2", "2", "face", 90_000, 66_000)))
    for point in break_points(lone, 2):
        shrunk = replace(
            lone,
            blanks=tuple(
                resized(b, point.axis, point.size + 1) if b.id in point.together else b for b in lone.blanks
            ),
        )
        (layout,) = solve_all((shrunk,), budget_s=0.0)
        assert not point.nearest or layout.bought.count >= 2


def test_one_millimetre_more_costs_a_sheet() -> None:
    # 650 + 650 fill the width of 1300 to the hundredth; 305 to spare in length cost nothing
    assert [(m.axis, m.more, m.sure, m.together) for m in one_more(two(65_000), 1)] == [
        ("width", 1, True, ("1.1", "1.2"))
    ]
    assert one_more(two(64_900), 1) == ()


def test_one_millimetre_more_that_fits_no_sheet() -> None:
    assert [(m.axis, m.more) for m in one_more(two(60_000, 305_000), 1)] == [("length", None)]


def test_a_roll_saves_a_row_and_nothing_less_is_told() -> None:
    """Two 1010 wide lie one after the other on a roll of 2000; at 1000 they lie side by side."""
    roll = StockSize("roll", "lino", "roll", None, 200_000)
    one = Demand("lino", (Blank("a", "1.1", "face", 80_000, 101_000, 2),), (roll,), Saw(kerf=0))
    (now,) = solve_all((one,), budget_s=0.0)
    assert now.bought.running_length == 160_000
    (point,) = break_points(one, now.bought.running_length)
    assert (point.axis, point.size, point.saved, point.nearest) == ("width", 100_000, 80_000, True)
    # 12 % shorter would save 20 cm, and that is no row
    assert break_points(replace(one, blanks=(Blank("a", "1.1", "face", 80_000, 150_000, 2),)), 160_000) == ()


def test_sticks_have_a_length_at_which_one_fewer_is_bought_and_one_at_which_one_more_is() -> None:
    stick = StockSize("2.4 m", "ash", "stick", 240_000)
    one = Demand("ash", (Blank("edge", "1", "edging", 80_100, 1_400, 6),), (stick,), Saw(kerf=0))
    assert [(p.axis, p.size, p.saved, p.nearest) for p in break_points(one, 3)] == [
        ("length", 80_000, 1, True)
    ]
    full = replace(one, blanks=(replace(one.blanks[0], length=80_000),))
    assert [(m.axis, m.more, m.sure) for m in one_more(full, 2)] == [("length", 1, True)]


def test_of_several_sizes_it_is_told_what_is_saved_in_money() -> None:
    large = StockSize("large", "ply", "sheet", 200_000, 100_000, price=Decimal(100))
    small = StockSize("small", "ply", "sheet", 101_000, 100_000, price=Decimal(45))
    one = Demand("ply", (Blank("a", "1", "carrier", 101_500, 100_000, 2),), (large, small), Saw(kerf=0))
    (now,) = solve_all((one,), budget_s=0.0)
    assert now.measure == 200
    # on two small ones, though they are as many; one large one at 1000 would cost 10 more
    (point,) = [point for point in break_points(one, now.measure) if point.axis == "length"]
    assert (point.size, point.saved) == (101_000, 110)


def test_a_set_or_a_batch_takes_part_in_it() -> None:
    """Together they would go on one sheet at 650, but of each batch there is one sheet, and they may not share it."""
    ones = two(66_000)
    apart = tuple(replace(blank, batch=name) for blank, name in zip(ones.blanks, "AB", strict=True))
    stock = tuple(replace(LAMINATE, id=name, copies=1, batch=name) for name in "AB")
    assert break_points(replace(ones, stock=stock), 2 * 305_000 * 130_000)
    assert break_points(replace(ones, blanks=apart, stock=stock), 2 * 305_000 * 130_000) == ()


def test_fronts_of_a_matched_run_are_made_smaller_together() -> None:
    """Four fronts of 330 and three kerfs: each 5.7 narrower lets a strip of 20 along the whole sheet go beside them."""
    fronts = tuple(Inside(f"door {n}", "face", n * 33_320, 33_000) for n in range(4))
    lone = Blank("top", "top", "face", 152_000, 130_000)
    run = Blank("run", "doors", "face", 152_000, 132_960, inside=fronts, parted="along", run="doors")
    stock = StockSize("laminate", "laminate", "sheet", 305_000, 133_000)
    one = Demand("laminate", (run, lone, replace(lone, id="b")), (stock,), Saw(kerf=320))
    (now,) = solve_all((one,), budget_s=0.0)
    assert now.bought.count == 2
    # two of the three blanks go on one sheet: nothing is saved by narrower fronts, and 1 mm more fits none
    assert break_points(one, 2) == ()
    (fitting,) = [more for more in one_more(one, 2) if more.together == ("run",)]
    assert (fitting.axis, fitting.more, fitting.sure) == ("width", None, True)
    narrow = replace(one, blanks=(run, Blank("strip", "strip", "face", 305_000, 2_000)))
    (point,) = [point for point in break_points(narrow, 2) if point.together == ("run",)]
    assert (point.axis, point.smaller_by, point.size) == ("width", 570, 132_960 - 4 * 570)
    assert point.size + 320 + 2_000 <= 133_000 < point.size + 4 + 320 + 2_000


def test_bundles_are_left_as_they_are() -> None:
    stick = StockSize("2.4 m", "ash", "stick", 240_000)
    held = Blank("bundle", "lid", "edging", 80_100, 1_400, 6, inside=(Inside("lid", "edging", 0, 40_000),))
    one = Demand("ash", (held,), (stick,), Saw(kerf=0))
    assert break_points(one, 3) == ()
    assert one_more(one, 3) == ()


def test_of_boards_the_size_is_told_at_which_a_smaller_one_does() -> None:
    """A knot leaves 1100 clear at one end and 1150 at the other: legs of 1102 need the long board, of 1100 do not."""
    knot = Timber(120_000, None, (0, 0), (Flaw(115_000, 0, 5_000, 120_000),))
    short = StockSize("short", "ash", "board", 240_000, 120_000, 1, trim=5_000, timber=knot)
    long = replace(short, id="long", length=300_000, timber=Timber(120_000))
    legs = Blank("leg", "leg", "edging", 110_200, 110_000, 2)
    one = Demand("ash", (legs,), (short, long), Saw(kerf=320))
    (now,) = solve_all((one,), budget_s=0.0)
    assert now.bought.by_stock == {"long": 1}
    (point,) = break_points(one, now.measure)
    assert (point.axis, point.size, point.saved, point.nearest) == (
        "length",
        110_000,
        60_000 * 120_000,
        False,
    )
    smaller = replace(one, blanks=(replace(legs, length=110_000),))
    (then,) = solve_all((smaller,), budget_s=0.0)
    assert then.bought.by_stock == {"short": 1}
    assert [(m.axis, m.more, m.sure) for m in one_more(smaller, then.measure)] == [
        ("length", 60_000 * 120_000, False)
    ]


def test_of_rolls_of_several_widths_a_row_less_counts_in_money() -> None:
    wide = StockSize("wide", "lino", "roll", None, 200_000, price=Decimal(40))
    narrow = StockSize("narrow", "lino", "roll", None, 120_000, price=Decimal(30))
    one = Demand("lino", (Blank("a", "1.1", "face", 80_000, 101_000, 2),), (wide, narrow), Saw(kerf=0))
    (now,) = solve_all((one,), budget_s=0.0)
    assert now.measure == 48, "two rows of 0.8 m on the narrow roll"
    (point,) = break_points(one, now.measure)
    # side by side on the wide one: one row of 0.8 m at 40, 32 instead of 48; 15 % off both rows saves 7 and is not told
    assert (point.axis, point.size, point.saved) == ("width", 100_000, 16)


def test_one_millimetre_more_is_told_in_money_where_there_are_several_sizes() -> None:
    large = StockSize("large", "ply", "sheet", 200_000, 100_000, price=Decimal(100))
    small = StockSize("small", "ply", "sheet", 101_000, 100_000, price=Decimal(45))
    one = Demand("ply", (Blank("a", "1", "carrier", 101_000, 100_000),), (large, small), Saw(kerf=0))
    assert [(m.axis, m.more, m.sure) for m in one_more(one, Decimal(45))] == [
        ("length", 55, False),
        ("width", None, True),
    ]
    scarce = replace(one, stock=(replace(small, copies=1), replace(small, id="b", copies=1, length=101_050)))
    both = replace(scarce, blanks=(replace(one.blanks[0], count=2),))
    assert [(m.axis, m.more, m.sure) for m in one_more(both, Decimal(90))][:1] == [("length", None, True)]


def test_of_many_sizes_the_largest_are_tried_and_the_count_is_told(monkeypatch) -> None:
    blanks = tuple(Blank(f"b{n}", f"{n}", "face", 60_000 + 100 * n, 65_000) for n in range(10))
    one = Demand("laminate", blanks, (LAMINATE,), Saw(kerf=0))
    assert sizes_tried(one) == (10, 10)
    every = one_more(one, 1)
    assert len(every) == 10
    tried = ("b9", "b8", "b7")
    monkeypatch.setattr(breakpoints, "MOST_PLANNED", 30)
    assert sizes_tried(one) == (3, 10)
    assert one_more(one, 1) == tuple(more for more in every if more.together[0] in tried)
    assert len(one_more(one, 1)) == 3
    monkeypatch.setattr(breakpoints, "MOST_PLANNED", 1)
    assert sizes_tried(one) == (1, 10)


SIZES = st.lists(
    st.tuples(st.integers(60_000, 150_000), st.integers(40_000, 70_000), st.integers(1, 3)),
    min_size=1,
    max_size=3,
    unique_by=lambda s: s[:2],
)


@settings(max_examples=15, deadline=None)
@given(SIZES)
def test_what_is_told_is_true_of_plans_really_made(sizes: list[tuple[int, int, int]]) -> None:
    blanks = tuple(Blank(f"b{n}", f"{n}", "face", *size) for n, size in enumerate(sizes))
    one = Demand("laminate", blanks, (LAMINATE,), Saw(kerf=320))
    (now,) = solve_all((one,), budget_s=0.0)
    for point in break_points(one, now.bought.count):
        smaller = tuple(resized(b, point.axis, point.size) if b.id in point.together else b for b in blanks)
        (then,) = solve_all((replace(one, blanks=smaller),), budget_s=0.0)
        assert then.bought.count <= now.bought.count - point.saved
    for more in one_more(one, now.bought.count):
        grown = tuple(
            resized(b, more.axis, getattr(b, more.axis) + 100) if b.id in more.together else b for b in blanks
        )
        (then,) = solve_all((replace(one, blanks=grown),), budget_s=0.0)
        assert more.more is not None
        if more.sure:
            assert then.bound >= now.bought.count + more.more
