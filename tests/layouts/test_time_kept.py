"""The time given is kept, the plan does not hang on it where pieces are few, and nothing found late is lost."""

import os
import sys
import time
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.layouts import Blank, Demand, Layout, Saw, StockSize, engine_child, searching, solve_all
from evenface.layouts.asking import BY_THE_CLOCK, COUNTED, question_of
from evenface.layouts.columns import Bin, Model, Row, count_points, points
from evenface.layouts.engine import Engine
from evenface.layouts.lengths import filled
from evenface.layouts.patterns import rounded_plans
from evenface.layouts.plans import Plan, bought_by, first_plan
from evenface.layouts.strips import expand, strip_plans

SHEET = StockSize("s", "board", "sheet", 244_000, 122_000, trim=1_000)


def furniture(kinds: int, each: int = 2) -> Demand:
    """Pieces of many sizes, every second one with grain: the area bound is not reached."""
    blanks = [
        Blank(f"b{n}", "p", "face", 61_300 + 4_100 * (n % 7), 38_900 + 2_300 * (n % 5), each, n % 2 == 0)
        for n in range(kinds)
    ]
    blanks.sort(key=lambda blank: (-blank.length, -blank.width, blank.id))  # as the search orders them
    return Demand("board", tuple(blanks), (SHEET,), Saw())


def solved(demand: Demand, budget_s: float, **other: Any) -> Layout:
    (layout,) = solve_all((demand,), budget_s=budget_s, **other)
    return layout


@pytest.mark.parametrize("kinds", [20, 50])
def test_no_question_asks_for_more_than_what_is_left_of_the_time(
    monkeypatch: pytest.MonkeyPatch, kinds: int
) -> None:
    asked: list[float] = []
    began = time.monotonic()
    ask = Engine.ask

    def noted(self: Engine, question: dict[str, Any], limit_s: float) -> Iterator[dict[str, Any]]:
        asked.append(time.monotonic() - began + limit_s)
        return ask(self, question, limit_s)

    monkeypatch.setattr(Engine, "ask", noted)
    demand = furniture(kinds)
    began = time.monotonic()
    first_plan(demand, expand(demand.blanks), 0, 0)
    own_s = time.monotonic() - began
    began = time.monotonic()
    solved(demand, 0.6)
    assert asked
    assert max(asked) <= 0.6 + 3 * own_s + 0.2


DEAF = """
import sys, time
print('{"ready": true}', flush=True)
for line in sys.stdin:
    if HEARS: print('{"asked": true}', flush=True)
    time.sleep(60)
"""


@pytest.mark.parametrize(("hears", "codes"), [("True", []), ("False", ["layout.engine_failed"])])
def test_an_engine_that_overruns_is_left_behind_and_noted_only_where_it_never_said_a_word(
    hears: str, codes: list[str]
) -> None:
    demand = furniture(24)
    began = time.monotonic()
    with Engine([sys.executable, "-c", DEAF.replace("HEARS", hears)]) as engine:
        layout = solved(demand, 0.4, engine=engine)
    assert time.monotonic() - began < 30.0, "it would sleep for a minute"
    assert [finding.code for finding in layout.findings] == codes
    assert layout.checked


def test_the_child_of_an_overrun_ends_with_it(tmp_path: Path) -> None:
    # an engine that heeds no time limit, in place of the one that is installed
    (tmp_path / "packingsolver.py").write_text("import time\n\ntime.sleep(60)\n", encoding="utf-8")
    child = Path(engine_child.__file__)
    command = [
        sys.executable,
        "-P",
        "-c",
        f"import sys; sys.path.insert(0, {str(tmp_path)!r}); " + RUN,
        str(child),
    ]
    with Engine(command) as engine:
        answers = list(engine.ask({"form": "sheet"}, 0.2))
        assert answers == [{"late": True}]
        assert engine.pid is None


RUN = "import runpy; runpy.run_path(sys.argv[1], run_name='__main__')"


@pytest.mark.parametrize("kinds", [5, 8, 12])
def test_few_pieces_have_the_same_plan_whatever_the_time(kinds: int) -> None:
    demand = furniture(kinds)
    short, long = solved(demand, 2.5), solved(demand, 6.0)
    assert short.sheets == long.sheets


def test_runs_that_are_counted_answer_alike_as_far_as_the_time_lets_them() -> None:
    demand = furniture(24)
    question = question_of(demand, demand.blanks, demand.stock) | {"target": None, "rungs": list(COUNTED)}
    with Engine() as engine:
        short, long = (
            [answer["plan"] for answer in engine.ask(question, limit_s) if answer.get("plan")]
            for limit_s in (1.5, 4.0)
        )
    assert len(long) > 1
    assert short[:-1] == long[: len(short) - 1]  # the last may have been cut off


def test_each_counted_run_is_longer_than_the_one_before() -> None:
    sizes = [tuple(value for value in rung["set"].values() if value is not True) for rung in COUNTED]
    assert sizes == sorted(sizes)
    assert all(rung["mode"] != BY_THE_CLOCK["mode"] for rung in COUNTED)


@pytest.mark.parametrize("kinds", [24, 45])
def test_a_better_plan_that_comes_late_stands(monkeypatch: pytest.MonkeyPatch, kinds: int) -> None:
    demand = furniture(kinds)
    pieces = expand(demand.blanks)
    good = first_plan(demand, pieces, 0, 0)
    poor = Plan(tuple((SHEET, tree) for tree in max(strip_plans(pieces, SHEET, demand.saw), key=len)))
    spread = Plan(
        tuple((SHEET, tree) for piece in pieces for tree in next(strip_plans([piece], SHEET, demand.saw)))
    )
    assert bought_by(good).count < bought_by(spread).count
    told: list[int] = []

    def late(*_: object) -> Iterator[Plan]:
        yield poor
        time.sleep(0.4)
        yield good

    monkeypatch.setattr(searching, "better_plans", late)
    monkeypatch.setattr("evenface.layouts.work.plan_kept_together", lambda *_: spread)
    layout = solved(demand, 0.5, progress=lambda now: told.append(now.sheets))
    assert layout.bought.count == bought_by(good).count
    assert told == sorted(told, reverse=True)


def test_ctrl_c_while_our_own_plan_is_made_beside_the_engine(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(work: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(searching, "_stand_beside", interrupted)
    layout = solved(furniture(45), 1.0)
    assert [finding.code for finding in layout.findings] == ["layout.interrupted"]
    assert layout.unplaced == ()
    assert layout.checked


@pytest.mark.skipif(not hasattr(os, "getsid"), reason="sessions are of POSIX")
def test_the_child_shares_our_session_and_not_our_process_group() -> None:
    # between sessions the kernel heeds no niceness; in our group Ctrl-C would hit the child as well
    with Engine() as engine:
        engine._start()
        assert engine.pid is not None
        assert os.getsid(engine.pid) == os.getsid(0)
        assert os.getpgid(engine.pid) != os.getpgid(0)


def test_the_search_for_bounds_takes_its_share_and_then_idle_time_alone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    told: list[bool] = []
    monkeypatch.setattr(engine_child, "_idle", told.append)
    fair, behind = engine_child._Patience(60.0, False), engine_child._Patience(1.005, True)
    spent = time.process_time() + 0.01
    while time.process_time() < spent:
        pass
    assert not fair.up()
    assert told == [False, False]
    assert not behind.up()
    assert behind.up(before_s=60.0)
    assert told == [False, False, True]


def test_counted_patterns_come_to_an_end_by_themselves(capfd: pytest.CaptureFixture[str]) -> None:
    # three of 4 do not fit 11, so that no plan costs as little as is asked for
    model = Model((Row(0, 4, 1), Row(1, 3, 1)), (7, 5), (Bin(11, 1, Fraction(1)),))
    runs = [list(rounded_plans(model, [], Fraction(0), lambda: False, 5.0, True)) for _ in range(2)]
    capfd.readouterr()  # the solver prints
    assert runs[0] == runs[1]
    assert sum(times for _, times, _ in runs[0][-1]) == 4


@settings(max_examples=40)
@given(st.lists(st.integers(1, 40), min_size=1, max_size=6), st.integers(0, 120), st.integers(1, 30))
def test_points_are_all_sums(sizes: list[int], capacity: int, step: int) -> None:
    sizes = [size * step for size in sizes]
    sums = {0}
    for at in range(capacity + 1):
        if any(at - size in sums for size in sizes if at >= size):
            sums.add(at)
    assert points(sizes, capacity).tolist() == sorted(sums)
    assert count_points(sizes, capacity) == len(sums)


@settings(max_examples=40)
@given(
    st.lists(st.integers(1, 60), min_size=1, max_size=12), st.integers(60, 200), st.sampled_from([2, 20, 320])
)
def test_filling_does_not_depend_on_the_unit(sizes: list[int], capacity: int, unit: int) -> None:
    assert filled([size * unit for size in sizes], capacity * unit, 0) == filled(sizes, capacity, 0)
