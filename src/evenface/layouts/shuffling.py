"""Running metres by many of our own strip plans: pieces in orders shuffled from a seed, the shortest kept.

For a roll every hundredth counts, and a strip plan takes a millisecond: hundreds of them find what few would not.
The number of rounds is counted below sixty pieces, so that the same demand gives the same plan.
"""

import time
from collections.abc import Iterator, Sequence
from typing import Final

from evenface.layouts.engine import Engine
from evenface.layouts.plans import Plan, rank
from evenface.layouts.records import Demand
from evenface.layouts.strips import Piece, fits, strip_plans

MOST_WORK: Final = 150_000
"""Squares of the pieces planned: some hundred rounds of thirty pieces. The engine comes after it and does more."""
AT_ONCE: Final = 20


def shuffled_plans(
    demand: Demand, pieces: Sequence[Piece], standing: Plan, seed: int, engine: Engine, limit_s: float
) -> Iterator[Plan]:
    """Plans of endless rolls shorter or cheaper than the one that stands, each better than the last.

    engine : only asked whether it was halted: then this ends as well.
    """
    rolls = [size for size in demand.stock if size.form == "roll" and size.length is None]
    rolls = [size for size in rolls if all(fits(piece, size) for piece in pieces)]
    until = time.monotonic() + limit_s
    best, work, chapter = rank(standing, demand.aim)[:2], 0, 0
    while rolls and work < MOST_WORK and time.monotonic() < until and not engine.halted:
        chapter += 1
        for roll in rolls:
            for trees in strip_plans(pieces, roll, demand.saw, seed * 7919 + chapter, AT_ONCE, ordered=False):
                if time.monotonic() > until or engine.halted:
                    return
                plan = Plan(tuple((roll, tree) for tree in trees))
                work += len(pieces) ** 2
                if rank(plan, demand.aim)[:2] < best:
                    best = rank(plan, demand.aim)[:2]
                    yield plan
