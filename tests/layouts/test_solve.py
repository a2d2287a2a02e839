"""Layouts: sound for every demand, never worse than our own plan, the same for the same demand."""

import os
import signal
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import (
    Blank,
    Demand,
    Layout,
    Progress,
    Saw,
    StockSize,
    break_points,
    solve_all,
    verify,
)
from evenface.layouts.engine import Engine
from evenface.layouts.stock_records import LayoutError

SHEET = StockSize("2440 × 1220", "board", "sheet", 244_000, 122_000, trim=1_000)
ROLL = StockSize("roll", "linoleum", "roll", None, 183_000)


def demand(
    *blanks: Blank, stock: tuple[StockSize, ...] = (SHEET,), kerf: int = 320, stages: int | None = 3
) -> Demand:
    return Demand("board", blanks, stock, Saw(kerf=kerf, stages=stages))


def solved(one: Demand, budget_s: float = 0.0, **other: object) -> Layout:
    (layout,) = solve_all((one,), budget_s=budget_s, **other)  # type: ignore[arg-type]
    return layout


SIZES = st.tuples(st.integers(2_000, 110_000), st.integers(2_000, 90_000), st.integers(1, 6), st.booleans())
DEMANDS = st.builds(
    lambda sizes, kerf, stages: demand(
        *(Blank(f"b{n}", f"{n}", "carrier", *size) for n, size in enumerate(sizes)),
        kerf=kerf,
        stages=stages,
    ),
    st.lists(SIZES, min_size=1, max_size=8),
    st.sampled_from([0, 100, 320]),
    st.sampled_from([2, 3, 4, None]),
)


@given(DEMANDS)
def test_every_layout_is_sound_and_closes_to_the_last_square_hundredth(one: Demand) -> None:
    layout = solved(one)
    assert layout.checked
    assert verify(one, layout) == ()
    assert all(sheet.unaccounted == 0 for sheet in layout.sheets)
    assert layout.measure >= layout.bound


@given(DEMANDS, st.randoms())
def test_the_order_of_the_blanks_does_not_matter(one: Demand, chance: object) -> None:
    blanks = list(one.blanks)
    chance.shuffle(blanks)  # type: ignore[attr-defined]
    assert solved(replace(one, blanks=tuple(blanks))).measure == solved(one).measure


@settings(max_examples=8)
@given(DEMANDS)
def test_the_engine_never_makes_it_worse_and_is_looked_at_too(one: Demand) -> None:
    with Engine() as engine:
        better = solved(one, 0.3, engine=engine)
    assert better.checked
    assert better.measure <= solved(one).measure


def test_same_demand_same_plan_below_sixty_pieces() -> None:
    one = demand(*(Blank(f"b{n}", "p", "face", 30_000 + 1_700 * n, 20_000 + 900 * n, 2) for n in range(9)))
    first, second = solved(one, 0.5), solved(one, 0.5)
    assert first.sheets == second.sheets


def test_a_bench_two_millimetres_too_deep_needs_a_second_sheet_and_is_told_so() -> None:
    # two blanks of 660 want 1320 of a sheet 1300 wide; made 10 less deep each, 650 + 650 = 1300 go, snapped
    laminate = StockSize("3050 × 1300", "laminate", "sheet", 305_000, 130_000)
    one = Demand("laminate", (Blank("face", "1.1", "face", 181_000, 66_000, 2),), (laminate,), Saw(kerf=0))
    layout = solved(one)
    assert layout.bought.count == 2
    assert layout.proved
    (point,) = [point for point in break_points(one, 2) if point.axis == "width"]
    assert point.smaller_by == 1_000
    assert point.saved == 1


def test_what_fits_no_stock_is_a_finding_and_the_rest_is_laid_out() -> None:
    layout = solved(
        demand(Blank("long", "1", "face", 300_000, 20_000), Blank("short", "2", "face", 90_000, 20_000))
    )
    (finding,) = layout.findings
    assert finding.code == "layout.too_large"
    assert layout.unplaced == (("long", 1),)
    assert layout.bought.count == 1
    assert layout.checked


def test_a_piece_that_may_turn_goes_where_only_turned_it_fits() -> None:
    layout = solved(demand(Blank("tall", "1", "carrier", 100_000, 200_000, may_turn=True)))
    assert not layout.findings
    assert layout.sheets[0].placed[0].turned


def test_stock_at_hand_is_used_first_and_running_out_is_a_finding() -> None:
    rest = replace(SHEET, id="rest", length=130_000, width=70_000, copies=1)
    small = Blank("small", "1", "carrier", 60_000, 40_000, 2)
    assert solved(demand(small, stock=(SHEET, rest))).bought.by_stock == {"rest": 1}
    short = solved(demand(replace(small, count=9), stock=(rest,)))
    assert [finding.code for finding in short.findings] == ["layout.not_enough_stock"]
    assert sum(count for _, count in short.unplaced) == 9 - len(short.sheets[0].placed)


def test_the_cheaper_size_is_bought_when_prices_are_known() -> None:
    dear = replace(SHEET, price=Decimal(90))
    cheap = StockSize("half", "board", "sheet", 122_000, 122_000, price=Decimal(40), trim=1_000)
    layout = solved(demand(Blank("p", "1", "carrier", 100_000, 50_000, 2), stock=(dear, cheap)))
    assert (layout.aim, layout.bought.price) == ("money", Decimal(40))
    assert layout.proved


def test_running_metres_are_short_and_proved_where_rows_fill_the_roll() -> None:
    one = Demand("linoleum", (Blank("top", "1", "face", 90_000, 61_000, 6),), (ROLL,), Saw(kerf=0))
    layout = solved(one)
    assert layout.bought.running_length == 180_000  # three across, two rows
    assert layout.proved


def test_the_bound_over_several_roll_widths_lets_each_piece_choose_its_own() -> None:
    # the long one turned on the narrow roll needs 100 of 1200, the square 1150 of 1200: 1.5e10 in hundredths
    narrow, wide = replace(ROLL, id="narrow", width=120_000), ROLL
    blanks = (
        Blank("long", "1", "face", 180_000, 10_000, may_turn=True),
        Blank("square", "2", "face", 115_000, 115_000),
    )
    layout = solved(Demand("linoleum", blanks, (narrow, wide), Saw(kerf=0)))
    assert layout.bound <= 10_000 * 183_000 + 115_000 * 120_000


def test_sticks_are_one_dimensional() -> None:
    stick = StockSize("2.4 m", "ash", "stick", 240_000)
    layout = solved(Demand("ash", (Blank("edge", "1", "edging", 80_000, 1_400, 6),), (stick,), Saw(kerf=0)))
    assert layout.bought.count == 2
    assert layout.checked


HARD = demand(
    *(
        Blank(
            f"b{n}", "p", "face", 61_300 + 4_100 * (n % 7), 38_900 + 2_300 * (n % 5), 2, may_turn=n % 2 == 0
        )
        for n in range(24)
    )
)


def test_an_engine_that_dies_leaves_our_own_plan_and_a_note() -> None:
    with Engine([os.path.join(os.sep, "bin", "false")]) as broken:
        layout = solved(HARD, 1.0, engine=broken)
    assert layout.checked
    assert layout.measure == solved(HARD).measure
    assert layout.proved or [finding.code for finding in layout.findings] == ["layout.engine_failed"]
    assert not layout.proved, "the example must leave something to search"


def test_ctrl_c_ends_the_search_with_the_best_so_far() -> None:
    heard = []

    def interrupt(progress: Progress) -> None:
        heard.append(progress)
        raise KeyboardInterrupt

    layout = solved(HARD, 2.0, progress=interrupt)
    assert layout.checked
    assert (heard[0].measure, heard[0].sheets) == (layout.measure, layout.bought.count)
    assert 0 < heard[0].bound <= layout.bound < heard[0].measure
    assert heard[0].gap == pytest.approx(1 - heard[0].bound / heard[0].measure)
    assert [finding.code for finding in layout.findings] == ["layout.interrupted"]


@pytest.mark.skipif(not hasattr(signal, "SIGSTOP"), reason="needs signals that stop a process")
def test_an_engine_that_keeps_silent_is_stopped_after_its_time() -> None:
    engine = Engine()
    with engine:
        engine._start()
        assert engine.pid is not None
        os.kill(engine.pid, signal.SIGSTOP)
        layout = solved(HARD, 1.5, engine=engine)  # long enough for a busy machine to get as far as asking it
    assert [finding.code for finding in layout.findings] == ["layout.engine_failed"]
    assert layout.checked


@pytest.mark.parametrize(
    "make",
    [
        lambda: Blank("b", "p", "face", 0, 10),
        lambda: Blank("b", "p", "face", 10, 10, 2**33),
        lambda: Saw(kerf=-1),
        lambda: Saw(stages=1),
        lambda: replace(SHEET, trim=61_000),
        lambda: demand(Blank("b", "p", "face", 10, 10), Blank("b", "p", "face", 10, 10)),
        lambda: demand(Blank("b", "p", "face", 10, 10), stock=()),
        lambda: demand(Blank("b", "p", "face", 10, 10), stock=(SHEET, ROLL)),
    ],
)
def test_what_the_engine_must_never_see_is_refused_at_birth(make: object) -> None:
    with pytest.raises(LayoutError):
        make()  # type: ignore[operator]


def test_a_thousand_pieces_have_a_plan_of_our_own() -> None:
    blanks = [Blank(f"b{n}", "p", "face", 20_000 + 137 * n, 15_000 + 71 * n, 4) for n in range(250)]
    layout = solved(demand(*blanks))
    assert layout.checked
    assert float(layout.bound) >= 0.8 * float(layout.measure)
