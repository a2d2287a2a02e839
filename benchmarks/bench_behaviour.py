"""How long flatness takes: one build-up new and remembered, a job's sketch with it and without, remedies.

Each row is set against the sketch without flatness, measured in the same run. Run with one BLAS thread:
OMP_NUM_THREADS=1 python benchmarks/bench_behaviour.py
"""

import time
from collections.abc import Callable
from pathlib import Path

from evenface.behaviour import behaviour_of, behaviours_of
from evenface.behaviour.curving import forget
from evenface.behaviour.twist import _twist_once
from evenface.job.backers import backers
from evenface.job.opening import open_with_all
from evenface.job.sketch import sketch

EXAMPLE = Path(__file__).parents[1] / "examples" / "glaze-room.toml"


def median_s(work: Callable[[], object], times: int = 9) -> float:
    """Median of several runs, the first left out."""
    taken = []
    for _ in range(times + 1):
        started = time.perf_counter()
        work()
        taken.append(time.perf_counter() - started)
    return sorted(taken[1:])[times // 2]


def anew(work: Callable[[], object]) -> Callable[[], object]:
    """The same work with nothing remembered."""

    def forgetful() -> object:
        forget()
        _twist_once.cache_clear()
        return work()

    return forgetful


def main() -> None:
    """Print the table."""
    opened = open_with_all(EXAMPLE)
    drafted = sketch(opened)
    panel = drafted.constructions[0].panels[0]
    part = f"{panel.piece}, {panel.name}"
    plain = median_s(lambda: sketch(opened, with_band=False))
    rows = [
        ("sketch without flatness", plain),
        ("sketch with it, remembered", median_s(lambda: sketch(opened))),
        ("sketch with it, all anew", median_s(anew(lambda: sketch(opened)))),
        ("one part, remembered", median_s(lambda: behaviour_of(opened.job, panel))),
        ("one part, anew", median_s(anew(lambda: behaviour_of(opened.job, panel)))),
        (
            "all parts, anew",
            median_s(
                anew(lambda: behaviours_of(opened.job, drafted.constructions, opened.catalogue, opened.made))
            ),
        ),
        ("backers of one part, anew", median_s(anew(lambda: backers(opened, part)), 3)),
    ]
    for what, seconds in rows:
        print(f"{what:30s} {1000 * seconds:9.1f} ms   × {seconds / plain:7.2f}")
    print(f"{'bar: remembered sketch':30s} {100.0:9.1f} ms")


if __name__ == "__main__":
    main()
