"""Who is asked when: with very many pieces the engine before our own plan is made, else after it; proofs beside it."""

import threading
import time
from collections.abc import Iterator

import pytest

from evenface.layouts import Blank, Demand, Saw, StockSize, searching, solve_all, work
from evenface.layouts.asking import DETERMINISTIC_BELOW

SHEET = StockSize("s", "board", "sheet", 244_000, 122_000, trim=1_000)


def many(count: int) -> Demand:
    """Pieces for several sheets."""
    sizes = [(61_000 + 1_700 * (n % 9), 33_000 + 1_300 * (n % 7)) for n in range(count // 2)]
    return Demand(
        "board", tuple(Blank(f"b{n}", "1", "face", *size, 2) for n, size in enumerate(sizes)), (SHEET,), Saw()
    )


@pytest.mark.parametrize(
    ("pieces", "early", "behind"),
    [
        (20, False, False),
        (DETERMINISTIC_BELOW + 20, False, True),
        (DETERMINISTIC_BELOW + 60, True, True),
    ],
)
def test_who_is_asked_when(monkeypatch: pytest.MonkeyPatch, pieces: int, early: bool, behind: bool) -> None:
    told: list[str] = []
    lock, proving = threading.Lock(), threading.Event()
    heard: list[bool] = []

    def note(word: str) -> None:
        with lock:
            told.append(word)

    def engine(*_: object) -> Iterator[int]:
        note("engine begins")
        proving.wait(8.0)
        note("engine ends")
        yield from ()

    def proofs(*_: object, plans: bool, behind: bool) -> Iterator[int]:
        heard.append(behind)
        note("proofs begin")
        proving.set()
        yield from ()

    own = work.plan_kept_together

    def standing(*given: object) -> object:
        time.sleep(0.05)
        note("own plan")
        return own(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(searching, "EARLY_FROM", DETERMINISTIC_BELOW + 60)
    monkeypatch.setattr(work, "lower_bound", lambda *_: 1)  # so that nothing is proved by it
    monkeypatch.setattr(work, "plan_kept_together", standing)
    monkeypatch.setattr(searching, "better_plans", engine)
    monkeypatch.setattr(searching, "proofs_and_patterns", proofs)
    (layout,) = solve_all((many(pieces),), budget_s=8.0)
    assert layout.checked
    assert not layout.proved
    assert heard == [behind]
    assert sorted(told) == ["engine begins", "engine ends", "own plan", "proofs begin"]
    assert (told.index("engine begins") < told.index("own plan")) is early
    assert told.index("proofs begin") < told.index("engine ends")
