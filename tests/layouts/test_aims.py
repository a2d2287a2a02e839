"""The order of aims: nothing bought more for a later aim, and each of them moves what it is about."""

import itertools
from dataclasses import replace
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all, verify
from evenface.layouts.finishing import figures_of, finished, score, settings_of
from evenface.layouts.plans import Plan, rank
from evenface.layouts.tree import Leaf, join

SHEET = StockSize("s", "board", "sheet", 244_000, 122_000, trim=1_000)
OFFCUT = StockSize("o", "board", "sheet", 90_000, 60_000, 1, Decimal(0), 1_000, offcut=True)


def of(*sizes: tuple[int, int, int], turn: bool = True) -> tuple[Blank, ...]:
    return tuple(Blank(f"b{n}", f"{n}", "face", *one, turn) for n, one in enumerate(sizes))


def test_one_row_is_better_than_two_for_the_rest_and_the_settings() -> None:
    blanks = of((60_000, 30_000, 3))
    demand = Demand("board", blanks, (SHEET,), Saw())
    leaf = Leaf(0, 60_000, 30_000)
    scattered = join("along", [join("across", [leaf, leaf], 320), join("across", [leaf], 320)], 320)
    plan = finished(demand, blanks, Plan(((SHEET, scattered),)))
    before, after = (
        score(demand, [figures_of(demand, SHEET, sheet) for sheet in solve_sheets(demand, blanks, one)])
        for one in (Plan(((SHEET, scattered),)), plan)
    )
    assert after < before
    assert rank(plan, demand.aim)[:2] == rank(Plan(((SHEET, scattered),)), demand.aim)[:2]


def solve_sheets(demand: Demand, blanks: tuple[Blank, ...], plan: Plan):  # type: ignore[no-untyped-def]
    from evenface.layouts.cuts import lay_out
    from evenface.layouts.finishing import preference

    return [lay_out(tree, stock, demand.saw, blanks, preference(demand)) for stock, tree in plan.trees]


def test_an_offcut_of_the_rack_goes_first_but_not_at_any_price() -> None:
    blanks = of((80_000, 50_000, 1))
    priced = replace(SHEET, price=Decimal(300))
    one = Demand("board", blanks, (priced, OFFCUT), Saw())
    (layout,) = solve_all((one,), budget_s=0.0)
    assert dict(layout.bought.by_stock) == {"o": 1}
    dear = replace(one, stock=(priced, replace(OFFCUT, price=Decimal(301))))
    (layout,) = solve_all((dear,), budget_s=0.0)
    assert dict(layout.bought.by_stock) == {"s": 1}
    # where the count alone is asked for both cost one: the rest is taken because it comes next
    counted = replace(dear, aims=("fewest sheets", "offcuts first"))
    (layout,) = solve_all((counted,), budget_s=0.0)
    assert dict(layout.bought.by_stock) == {"o": 1}


def test_the_order_of_aims_decides_between_cuts_and_rest() -> None:
    blanks = of((37_000, 51_000, 1), (52_000, 22_000, 2), (77_000, 45_000, 3))
    rest = Demand("board", blanks, (SHEET,), Saw(), aims=("fewest sheets", "largest offcut", "fewest cuts"))
    cuts = replace(rest, aims=("fewest sheets", "fewest cuts", "largest offcut"))
    (for_rest,), (for_cuts,) = solve_all((rest,), budget_s=0.0), solve_all((cuts,), budget_s=0.0)
    assert for_rest.bought.count == for_cuts.bought.count
    least = rest.saw.least_offcut
    largest = [
        max(one.area for sheet in layout.sheets for one in sheet.offcuts if one.useful(least))
        for layout in (for_rest, for_cuts)
    ]
    count = [sum(len(sheet.cuts) for sheet in layout.sheets) for layout in (for_rest, for_cuts)]
    assert largest[0] > largest[1]
    assert count[0] > count[1]


def test_settings_count_changes_of_the_fence_alone() -> None:
    (layout,) = solve_all((Demand("board", of((40_000, 30_000, 9)), (SHEET,), Saw()),), budget_s=0.0)
    (sheet,) = layout.sheets
    fences = [(cut.fence, cut.axis) for cut in sheet.cuts]
    assert settings_of(sheet) == 1 + sum(a != b for a, b in itertools.pairwise(fences))
    assert settings_of(sheet) < len(sheet.cuts)


@settings(max_examples=15, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(5_000, 110_000), st.integers(5_000, 90_000), st.integers(1, 5)),
        min_size=1,
        max_size=8,
    ),
    st.permutations(["largest offcut", "fewest cuts", "fewest settings", "offcuts first"]),
)
def test_later_aims_never_buy_more_and_every_sheet_stays_sound(
    sizes: list[tuple[int, int, int]], later: list[str]
) -> None:
    demand = Demand("board", of(*sizes), (SHEET,), Saw(), aims=("fewest sheets", *later))  # type: ignore[arg-type]
    none = replace(demand, aims=("fewest sheets",))
    (layout,), (plain,) = solve_all((demand,), budget_s=0.0), solve_all((none,), budget_s=0.0)
    assert layout.bought.count == plain.bought.count
    assert verify(demand, layout) == ()
    assert layout.checked
