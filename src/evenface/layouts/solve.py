"""Every material laid out: our strip plan, the engine for the time given, the later aims, then a second look."""

import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from types import MappingProxyType
from typing import Final

from evenface.layouts.asking import DETERMINISTIC_BELOW, reached
from evenface.layouts.engine import Engine
from evenface.layouts.finishing import finished
from evenface.layouts.plans import Plan, bought_by
from evenface.layouts.records import Demand, Layout, measure_of
from evenface.layouts.searching import LEAST_S, goes_early, improve
from evenface.layouts.solve_findings import fault, interrupted
from evenface.layouts.verify import verify
from evenface.layouts.work import Work, begun


@dataclass(frozen=True, slots=True)
class Progress:
    """How far it is: the material in work, which of how many, its best number and bound, seconds used.

    measure, bound : of the best plan so far, in the unit of the aim (see `Layout`).
    """

    material: str
    number: int
    total: int
    sheets: int
    proved: bool
    seconds: float
    measure: int | Decimal = 0
    bound: int | Decimal = 0

    @property
    def gap(self) -> float:
        """Share by which the plan may stand above the least there is; 0 when proved."""
        return max(0.0, float((self.measure - self.bound) / self.measure)) if self.measure else 0.0


FINISH_S: Final = 2.0
"""For the later aims of one material; the work is counted as well, and usually ends it far sooner."""
FINISH_SHARE: Final = 0.05
"""Of the time given: how far beyond it the later aims may go where there are many pieces."""
NONE_KEPT: Final[Mapping[str, Layout]] = MappingProxyType({})

type Tell = Callable[[Progress], None]


def solve_all(
    demands: Sequence[Demand],
    budget_s: float = 3.0,
    seed: int = 0,
    progress: Tell | None = None,
    engine: Engine | None = None,
    kept: Mapping[str, Layout] = NONE_KEPT,
) -> tuple[Layout, ...]:
    """One layout a demand, in their order, in about `budget_s` together beyond our own strip plans.

    Ctrl-C ends the search: every layout then is the best found so far. A crash of the engine is a note
    among the findings and the plan found before it stands.
    kept : layouts made before, by material. One in which `verify` finds no fault against today's demand is
    not planned anew; its bound is looked for again, for the demand may have changed.
    """
    works = [begun(demand, seed, kept.get(demand.material)) for demand in demands]
    for work in works:
        if not goes_early(work):
            work.stand()
    until = time.monotonic() + budget_s
    _search(works, until, progress, engine)
    left = [work for work in works if len(work.pieces) >= DETERMINISTIC_BELOW]
    late = max(time.monotonic(), until) + FINISH_SHARE * budget_s if budget_s else None
    return tuple(_finish(work, _share(late, left, work)) for work in works)


def _search(works: Sequence[Work], until: float, progress: Tell | None, engine: Engine | None) -> None:
    """The open ones one after another, each for its share of the time that is left."""
    open_works = [work for work in works if not work.settled]
    mine = engine if engine is not None else Engine()
    prover = mine.twin()
    if open_works and until - time.monotonic() > LEAST_S:
        mine.wake()
        prover.wake()
    try:
        for number, work in enumerate(open_works):
            share = (until - time.monotonic()) / (len(open_works) - number)
            improve(work, (mine, prover), share, _teller(progress, work, number, len(open_works)))
    except KeyboardInterrupt:
        for work in open_works:
            work.stand()
            work.findings.append(interrupted(work.demand))
    finally:
        prover.close()
        if engine is None:
            mine.close()


def _share(late: float | None, left: list[Work], work: Work) -> float | None:
    """Monotonic time at which the later aims of this work have to end; None where they are counted alone."""
    if work not in left:
        return None
    now = time.monotonic()
    share = FINISH_S if late is None else min(FINISH_S, max(0.0, late - now) / len(left))
    left.remove(work)
    return now + share


def _finish(work: Work, until: float | None) -> Layout:
    """The layout made better by the later aims, and looked at a second time by code that did not make it."""
    if work.kept is None:
        better = finished(work.demand, work.blanks, work.plan, until, work.laid)
        if better is not work.plan and work.sound(better):
            work.plan = better
    layout = work.layout(work.plan)
    faults = verify(work.demand, layout)
    if faults:
        return replace(
            layout, findings=(*layout.findings, *(fault(work.demand, f.rule, f.what) for f in faults))
        )
    return replace(layout, checked=True)


def _teller(progress: Tell | None, work: Work, number: int, total: int) -> Callable[[Plan], None]:
    def tell(plan: Plan) -> None:
        if progress is not None:
            progress(
                Progress(
                    work.demand.material,
                    number + 1,
                    total,
                    work.kept.bought.count if work.kept else len(plan.trees),
                    work.settled if work.kept else reached(work.demand, plan, work.bound),
                    work.seconds,
                    work.measure if work.kept else measure_of(work.demand.aim, bought_by(plan)),
                    work.bound,
                )
            )

    return tell
