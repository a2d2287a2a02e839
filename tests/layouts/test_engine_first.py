"""Where time is short or pieces very many the engine is asked alone first; else the searches run side by side."""

import threading
import time

import pytest

from evenface.layouts import Blank, Demand, Saw, StockSize, solve, solve_all
from evenface.layouts.asking import DETERMINISTIC_BELOW

SHEET = StockSize("s", "board", "sheet", 244_000, 122_000, trim=1_000)


def many(count: int) -> Demand:
    """Pieces for several sheets."""
    sizes = [(61_000 + 1_700 * (n % 9), 33_000 + 1_300 * (n % 7)) for n in range(count // 2)]
    return Demand(
        "board", tuple(Blank(f"b{n}", "1", "face", *size, 2) for n, size in enumerate(sizes)), (SHEET,), Saw()
    )


@pytest.mark.parametrize(
    ("budget", "pieces", "alone"),
    [
        (1.0, DETERMINISTIC_BELOW + 20, True),
        (1.0, 20, False),
        (2.5, DETERMINISTIC_BELOW + 20, False),
        (2.5, DETERMINISTIC_BELOW + 60, True),
    ],
)
def test_who_is_asked_when(monkeypatch, budget, pieces, alone):
    told: list[str] = []
    lock = threading.Lock()

    def note(word: str) -> None:
        with lock:
            told.append(word)

    def engine(*_):
        note("engine begins")
        time.sleep(0.15)
        note("engine ends")
        yield from ()

    def proofs(*_):
        note("proofs begin")
        yield from ()

    monkeypatch.setattr(solve, "MANY", DETERMINISTIC_BELOW + 60)
    monkeypatch.setattr(solve, "lower_bound", lambda *_: 1)  # so that nothing is proved by it
    monkeypatch.setattr(solve, "better_plans", engine)
    monkeypatch.setattr(solve, "proofs_and_patterns", proofs)
    (layout,) = solve_all((many(pieces),), budget_s=budget)
    assert layout.checked
    assert not layout.proved
    assert sorted(told) == ["engine begins", "engine ends", "proofs begin"]
    assert (told.index("proofs begin") > told.index("engine ends")) is alone
