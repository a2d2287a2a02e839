"""The bound of the linear program: true, checked from its certificate alone, and better where it should be."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all
from evenface.layouts.bounds import lower_bound
from evenface.layouts.columns import FULL_WORTH, bound_of, points
from evenface.layouts.engine import Engine
from evenface.layouts.proving import MOST_STICK_SIZES, in_aim, models_of, proofs_and_patterns
from evenface.layouts.strips import expand

STICK = StockSize("s", "ash", "stick", 1_000)
SHEET = StockSize("s", "board", "sheet", 3_000, 2_000)


def sticks(*blanks: tuple[int, int], kerf: int = 0) -> Demand:
    made = tuple(Blank(f"b{n}", "p", "edging", length, 10, count) for n, (length, count) in enumerate(blanks))
    return Demand("ash", made, (STICK,), Saw(kerf=kerf))


def proved(one: Demand) -> int:
    pieces = expand(one.blanks, one.stock[0].form == "stick")
    with Engine() as engine:
        found = proofs_and_patterns(one, one.blanks, pieces, (10**9, 0), engine, 5.0, plans=False)
        return max((news for news in found if isinstance(news, int)), default=0)


def test_a_bound_that_area_and_functions_miss() -> None:
    # by area 16.01, by the functions 17; but 490 + 490, 450 + 450, 380 + 380 and 3 × 300 leave 20 to 240 each time
    one = sticks((300, 12), (490, 5), (380, 12), (450, 12))
    quick = int(lower_bound(expand(one.blanks, True), one.stock, 0, "fewest"))
    (layout,) = solve_all((one,), budget_s=1.0)
    assert (quick, proved(one), layout.bound, layout.bought.count) == (17, 18, 18, 18)
    assert layout.proved


def test_the_certificate_is_checked_whatever_worths_are_sent() -> None:
    one = sticks((400, 6), (300, 5), (250, 3))
    (model,) = models_of(one, expand(one.blanks, True))
    (layout,) = solve_all((one,), budget_s=1.0)
    assert bound_of(model, [row.size for row in model.rows]) == Fraction(6 * 400 + 5 * 300 + 3 * 250, 1_000)
    assert bound_of(model, [0, 0, 0]) == 0
    assert bound_of(model, [1, -1, 1]) == 0
    assert bound_of(model, [1, 1]) == 0
    assert bound_of(model, [FULL_WORTH + 1, 1, 1]) == 0
    assert layout.proved


@settings(max_examples=40)
@given(
    st.lists(
        st.tuples(st.integers(200, 2_900), st.integers(200, 1_900), st.integers(1, 4), st.booleans()),
        min_size=1,
        max_size=6,
    ),
    st.sampled_from([0, 30]),
    st.sampled_from([2, 3, None]),
    st.sampled_from(["along", "across", "any"]),
    st.sampled_from(["sheet", "roll", "two"]),
    st.randoms(use_true_random=False),
)
def test_no_worths_prove_more_than_a_plan_needs(sizes, kerf, stages, first, form, chance) -> None:  # type: ignore[no-untyped-def]
    blanks = tuple(Blank(f"b{n}", "p", "face", *size) for n, size in enumerate(sizes))
    stock = {
        "sheet": (SHEET,),
        "roll": (StockSize("r", "board", "roll", None, 2_000),),
        "two": (SHEET, replace(SHEET, id="t", length=2_950, width=2_400)),
    }[form]
    one = Demand("board", blanks, stock, Saw(kerf=kerf, stages=stages, first_cut=first, least_offcut=(1, 1)))
    (layout,) = solve_all((one,), budget_s=0.0)
    for model in models_of(one, expand(one.blanks)) if not layout.unplaced else ():
        guesses = [[chance.randint(0, FULL_WORTH) for _ in model.rows] for _ in range(3)]
        for worths in ([row.size * 100 for row in model.rows], *guesses):
            assert in_aim(one, bound_of(model, worths)) <= layout.measure


def test_points_are_all_sums() -> None:
    assert points([3, 5], 11).tolist() == [0, 3, 5, 6, 8, 9, 10, 11]


def test_too_many_sizes_are_left_to_the_other_bounds() -> None:
    many = sticks(*((200 + n, 1) for n in range(MOST_STICK_SIZES + 1)))
    assert models_of(many, expand(many.blanks, True)) == ()


@pytest.mark.parametrize("kerf", [0, 7])
def test_sheets_cut_in_stages_have_a_bound_of_their_own(kerf: int) -> None:
    # 1600 × 1100: one in each sheet, though by area 1.7 would go
    one = Demand(
        "board",
        (Blank("p", "1", "face", 1_600, 1_100, 7), Blank("q", "2", "face", 900, 800, 3)),
        (SHEET,),
        Saw(kerf=kerf, first_cut="any"),
    )
    (layout,) = solve_all((one,), budget_s=1.0)
    assert layout.bound == layout.bought.count == 7


def test_sizes_whose_sums_are_too_many_are_not_counted_out() -> None:
    fine = tuple(Blank(f"b{n}", "p", "face", 101 + 7 * n, 97 + 5 * n, 3) for n in range(9))
    large = StockSize("s", "board", "sheet", 300_000, 200_000)
    one = Demand("board", fine, (large,), Saw(kerf=0))
    assert [model.stages for model in models_of(one, expand(fine))] == ["", ""]


def test_a_child_that_dies_over_the_bound_leaves_the_plan_and_a_note() -> None:
    one = sticks((300, 12), (490, 5), (380, 12), (450, 12))
    with Engine(["/bin/false"]) as broken:
        (layout,) = solve_all((one,), budget_s=1.0, engine=broken)
    assert layout.checked
    assert [finding.code for finding in layout.findings] == ["layout.engine_failed"]
