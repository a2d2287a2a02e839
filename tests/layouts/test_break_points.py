"""Break points: several blanks of one size together, proved to be the nearest where they are, and 1 mm more."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Saw, StockSize, break_points, one_more, solve_all

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
