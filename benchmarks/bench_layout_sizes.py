"""Large jobs: 1,000 furniture parts and 10,000 small ones, time and memory of ours and of the child.

Run: python benchmarks/bench_layout_sizes.py [SECONDS]   (budget of the search, 10 s when not given)

The child is ended when its time is up, whatever it does; what is printed is wall time and the peak of both processes.
"""

import resource
import sys
import time
from random import Random

from evenface.layouts import Blank, Demand, Saw, StockSize, solve_all

SHEET = StockSize("s", "board", "sheet", 244_000, 122_000, trim=1_000)


def furniture(count: int, seed: int = 4) -> Demand:
    """Parts of cupboards: half of them with grain, most of a size that stands a few times."""
    chance = Random(seed)
    blanks: list[Blank] = []
    while sum(blank.count for blank in blanks) < count:
        left = count - sum(blank.count for blank in blanks)
        times = min(left, chance.choice([1, 1, 2, 2, 4, 6]))
        length, width = chance.randrange(20_000, 110_000), chance.randrange(9_000, 60_000)
        blanks.append(Blank(f"b{len(blanks)}", "p", "carrier", length, width, times, chance.random() < 0.5))
    return Demand("board", tuple(blanks), (SHEET,), Saw())


def small(count: int, seed: int = 5) -> Demand:
    """Small parts of many sizes."""
    chance = Random(seed)
    blanks = tuple(
        Blank(
            f"b{n}", "p", "carrier", chance.randrange(3_000, 15_000), chance.randrange(2_000, 9_000), 10, True
        )
        for n in range(count // 10)
    )
    return Demand("board", blanks, (SHEET,), Saw())


def main() -> None:
    """One line a job."""
    budget = float(sys.argv[1]) if sys.argv[1:] else 10.0
    for name, demand in (("1,000 parts", furniture(1_000)), ("10,000 small parts", small(10_000))):
        started = time.perf_counter()
        (layout,) = solve_all((demand,), budget_s=budget)
        used = time.perf_counter() - started
        ours = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        child = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        print(
            f"{name:20} {layout.bought.count:5} sheets, bound {layout.bound}, {used:5.1f} s, "
            f"{ours:.0f} MB and {child:.0f} MB in the child, checked: {layout.checked}"
        )


if __name__ == "__main__":
    main()
