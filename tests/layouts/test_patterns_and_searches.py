"""Plans of patterns are whole, searches run side by side and end together, shuffled strips only get shorter."""

import time
from collections.abc import Iterator
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all, verify
from evenface.layouts.asking import better_plans
from evenface.layouts.beside import Beside
from evenface.layouts.columns import Bin, Column, Model, Row
from evenface.layouts.engine import Engine, EngineFailed
from evenface.layouts.patterns import rounded_plans
from evenface.layouts.plans import Plan, bought_by, first_plan, rank
from evenface.layouts.proving import proofs_and_patterns
from evenface.layouts.shuffling import shuffled_plans
from evenface.layouts.strips import expand


def test_patterns_cover_every_piece_exactly(capfd: pytest.CaptureFixture[str]) -> None:
    # 3 + 3 + 4 and 5 + 5 fill a stick of 10: five of each give the best there is
    sizes, counts = (3, 4, 5), (10, 5, 10)
    model = Model(tuple(Row(n, size, 1) for n, size in enumerate(sizes)), counts, (Bin(10, 1, Fraction(1)),))
    plans = list(rounded_plans(model, [], Fraction(10), lambda: False, 1.0))
    capfd.readouterr()  # the solver prints
    held = [0, 0, 0]
    for _, times, spots in plans[-1]:
        assert max(x + sizes[row] for row, x, _ in spots) <= 10
        for row, _, _ in spots:
            held[row] += times
    assert held == list(counts)
    assert sum(times for _, times, _ in plans[-1]) == 10


def test_a_pattern_that_holds_a_hair_too_much_loses_its_last_piece(capfd: pytest.CaptureFixture[str]) -> None:
    model = Model((Row(0, 51, 1),), (2,), (Bin(100, 1, Fraction(1)),))
    too_much = Column(0, ((0, 0, 0), (0, 51, 0)))
    (plan,) = list(rounded_plans(model, [too_much], Fraction(2), lambda: False, 0.1))
    capfd.readouterr()
    assert [len(spots) for _, _, spots in plan] == [1, 1]


def test_patterns_of_sheets_become_plans_that_stand_up() -> None:
    # 5 × 4 of 24 and 4 × 3 of 40: strips of one height each, so many that few orders find the best
    sheet = StockSize("s", "m", "sheet", 100_000, 60_000)
    blanks = tuple(
        Blank(f"b{n}", f"{n}", "face", *one)
        for n, one in enumerate(((31_000, 19_000, 14), (22_000, 27_000, 17), (47_000, 13_000, 11)))
    )
    demand = Demand("m", blanks, (sheet,), Saw(kerf=300))
    pieces = expand(blanks)
    with Engine() as engine:
        found = list(proofs_and_patterns(demand, blanks, pieces, (10**6, 0), engine, 1.5))
    bounds = [news for news in found if isinstance(news, int)]
    plans = [news for news in found if not isinstance(news, int)]
    assert plans
    assert min(bought_by(plan).count for plan in plans) >= max(bounds)  # type: ignore[arg-type]
    (layout,) = solve_all((demand,), budget_s=1.0)
    assert verify(demand, layout) == ()
    assert layout.bought.count <= min(bought_by(plan).count for plan in plans)  # type: ignore[arg-type]


def _slowly(count: int) -> Iterator[int]:
    for number in range(count):
        time.sleep(0.01)
        yield number


def _failing() -> Iterator[int]:
    yield 7
    raise EngineFailed("crashed")


def test_searches_are_heard_as_they_come_and_a_failure_once() -> None:
    with Engine() as one, Engine() as other, Beside[int]() as beside:
        beside.begin("a", one, _slowly(3))
        beside.begin("b", other, _failing())
        heard = list(beside.heard(5.0))
    assert [news for name, news in heard if name == "a"] == [0, 1, 2, None]
    assert [str(news) for name, news in heard if name == "b"] == ["7", "crashed", "None"]


def test_leaving_ends_every_search_and_its_child() -> None:
    with Engine() as engine:
        question = {"form": "bound"}  # refused: no model in it

        def asking() -> Iterator[int]:
            while True:
                list(engine.ask(question, 0.2))
                yield 1

        with Beside[int]() as beside:
            beside.begin("a", engine, _slowly(10_000))
            beside.begin("b", engine, asking())
            next(beside.heard(5.0))
        assert engine.pid is None
        assert not engine.halted


def test_shuffled_strips_only_get_shorter_and_are_the_same_each_time() -> None:
    roll = StockSize("r", "lino", "roll", None, 183_000)
    blanks = tuple(
        Blank(f"b{n}", f"{n}", "face", 40_000 + 13_000 * n, 31_000 + 4_700 * n, 2) for n in range(7)
    )
    demand = Demand("lino", blanks, (roll,), Saw(kerf=0))
    pieces = expand(blanks)
    standing = first_plan(demand, pieces, 0, 0)
    with Engine() as engine:
        runs = [list(shuffled_plans(demand, pieces, standing, 0, engine, 60.0)) for _ in range(2)]
        engine.halt()
        assert list(shuffled_plans(demand, pieces, standing, 0, engine, 60.0)) == []
    assert runs[0] == runs[1]
    ranks = [rank(plan, demand.aim)[:2] for plan in (standing, *runs[0])]
    assert ranks == sorted(ranks, reverse=True)
    assert len(set(ranks)) == len(ranks)


@settings(max_examples=6, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(8_000, 110_000), st.integers(6_000, 60_000), st.integers(1, 4)),
        min_size=2,
        max_size=7,
    )
)
def test_never_more_than_the_engine_by_itself(sizes: list[tuple[int, int, int]]) -> None:
    sheet = StockSize("s", "m", "sheet", 244_000, 122_000, trim=1_000)
    blanks = tuple(Blank(f"b{n}", f"{n}", "face", *one, n % 2 == 0) for n, one in enumerate(sizes))
    demand = Demand("m", blanks, (sheet,), Saw())
    with Engine() as engine:
        news = list(better_plans(demand, blanks, Plan((), demand.pieces), 0, engine, 5.0))
        alone = [bought_by(plan).count for plan in news if isinstance(plan, Plan)]
        (layout,) = solve_all((demand,), budget_s=5.0, engine=engine)
    assert layout.bought.count <= min(alone)
