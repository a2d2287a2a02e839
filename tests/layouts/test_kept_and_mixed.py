"""Plans that are kept, and several sizes bought together."""

from dataclasses import replace
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Layout, Saw, StockSize, solve_all, verify
from evenface.layouts.mixing import mixed_sizes
from evenface.layouts.plans import bought_by, first_plan, rank
from evenface.layouts.records import measure_of
from evenface.layouts.strips import expand

SHEET = StockSize("2440 × 1220", "board", "sheet", 244_000, 122_000, trim=1_000)
NARROW = StockSize("narrow", "linoleum", "roll", None, 120_000)
WIDE = StockSize("wide", "linoleum", "roll", None, 183_000)


def solved(one: Demand, kept: Layout | None = None) -> Layout:
    (layout,) = solve_all((one,), budget_s=0.0, kept={} if kept is None else {one.material: kept})
    return layout


def test_each_piece_goes_on_the_roll_that_suits_it() -> None:
    blanks = (
        Blank("long", "1", "face", 180_000, 10_000, may_turn=True),
        Blank("square", "2", "face", 115_000, 115_000),
    )
    layout = solved(Demand("linoleum", blanks, (NARROW, WIDE), Saw(kerf=0)))
    # the long one across the wide roll: 100 of 1830; the square from the narrow one: 1150 of 1200
    assert layout.bought.area == 10_000 * 183_000 + 115_000 * 120_000
    assert layout.checked


def test_a_small_sheet_is_bought_beside_a_large_one() -> None:
    large, small = (
        replace(SHEET, price=Decimal(90)),
        StockSize("half", "board", "sheet", 122_000, 122_000, trim=1_000, price=Decimal(50)),
    )
    blanks = (
        Blank("tall", "1", "carrier", 230_000, 100_000, 2),
        Blank("square", "2", "carrier", 118_000, 110_000),
    )
    layout = solved(Demand("board", blanks, (large, small), Saw()))
    assert layout.bought.by_stock == {"2440 × 1220": 2, "half": 1}
    assert layout.bought.price == Decimal(230)


SIZES = st.tuples(st.integers(5_000, 110_000), st.integers(5_000, 90_000), st.integers(1, 4), st.booleans())


@settings(max_examples=25)
@given(st.lists(SIZES, min_size=1, max_size=6), st.sampled_from([0, 320]), st.booleans())
def test_mixing_is_never_worse_sound_and_blind_to_the_order(
    sizes: list[tuple[int, int, int, bool]], kerf: int, rolls: bool
) -> None:
    stock = (NARROW, WIDE) if rolls else (SHEET, replace(SHEET, id="square", length=122_000))
    blanks = tuple(Blank(f"b{n}", "p", "face", *size) for n, size in enumerate(sizes))
    one = Demand("m", blanks, stock, Saw(kerf=kerf))
    layout = solved(one)
    pieces = expand(sorted(blanks, key=lambda blank: (-blank.length, -blank.width, blank.id)))
    plain = first_plan(one, pieces, 0, 0)
    assert verify(one, layout) == ()
    assert layout.measure <= measure_of(one.aim, bought_by(plain))
    assert layout.measure == solved(replace(one, blanks=blanks[::-1])).measure
    mixed = [rank(plan, one.aim)[1] for plan in mixed_sizes(one, pieces, 0)]
    assert mixed == sorted(mixed, reverse=True)


def kept_example() -> tuple[Demand, Layout]:
    blanks = (Blank("a", "1", "carrier", 80_000, 24_000, 3), Blank("b", "2", "carrier", 60_000, 41_500, 4))
    one = Demand("board", blanks, (SHEET,), Saw())
    layout = solved(one)
    # told apart from any plan made anew by its seed alone
    return one, replace(layout, seed=77)


def test_a_plan_that_still_serves_is_kept() -> None:
    one, made = kept_example()
    again = solved(one, made)
    assert (again.seed, again.sheets, again.checked) == (77, made.sheets, True)
    assert again.proved == made.proved


def test_a_plan_that_serves_no_more_is_made_anew() -> None:
    one, made = kept_example()
    larger = replace(one, blanks=(replace(one.blanks[0], length=80_100), *one.blanks[1:]))
    assert solved(larger, made).seed == 0
    more = replace(one, blanks=(replace(one.blanks[0], count=4), *one.blanks[1:]))
    assert solved(more, made).seed == 0
    gone = replace(one, stock=(replace(SHEET, id="other"),))
    assert solved(gone, made).seed == 0
    for spoiled in (
        replace(made, sheets=(replace(made.sheets[0], trim=0),)),
        replace(made, sheets=(replace(made.sheets[0], placed=made.sheets[0].placed[1:]),)),
        replace(made, sheets=(replace(made.sheets[0], cuts=made.sheets[0].cuts[:-1]),)),
    ):
        assert not solved(one, spoiled).kept


def test_a_kept_plan_is_told_at_the_prices_of_today() -> None:
    one, made = kept_example()
    again = solved(replace(one, stock=(replace(one.stock[0], price=Decimal("41.50")),)), made)
    assert again.kept
    assert again.bought.price == Decimal("41.50") * again.bought.count
    assert solved(one, replace(made, bought=replace(made.bought, count=9))).bought == made.bought


def test_a_kept_plan_claims_only_what_holds_today() -> None:
    one, made = kept_example()
    boasting = replace(made, bound=made.bought.count, proved=True, sheets=made.sheets)
    two = replace(one, blanks=one.blanks, saw=one.saw)
    assert solved(two, boasting).bound <= made.bought.count
    priced = replace(
        one,
        stock=(
            replace(SHEET, price=Decimal(9)),
            replace(SHEET, id="small", length=200_000, price=Decimal(1)),
        ),
    )
    paid = solved(replace(one, stock=(replace(SHEET, price=Decimal(9)),)))
    dear = replace(paid, aim="money", bound=Decimal(9), proved=True)
    again = solved(priced, dear)
    assert again.sheets == dear.sheets
    assert not again.proved, "a cheaper sheet can be bought now"
