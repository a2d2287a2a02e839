"""The searches for one material: the engine, our own for proofs and patterns, and who gives way to whom."""

import os
import sys
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from decimal import Decimal
from typing import Final

from evenface.layouts.asking import DETERMINISTIC_BELOW, better_plans
from evenface.layouts.beside import Beside
from evenface.layouts.engine import Engine, EngineFailed
from evenface.layouts.plans import Plan, rank
from evenface.layouts.proving import proofs_and_patterns
from evenface.layouts.records import Demand
from evenface.layouts.shuffling import shuffled_plans
from evenface.layouts.solve_findings import FAILED, engine_failed, no_bound
from evenface.layouts.together import of_batch
from evenface.layouts.work import Work

EARLY_FROM: Final = 200
"""Pieces from which the engine begins before our own plan stands: that plan takes tenths of a second there."""
NICENESS: Final = 5
"""Of our own plan while it is made beside the engine: as much as the engine has, for it must end in time as well."""
LEAST_S: Final = 0.05
"""With less time no search is begun."""

type Tell = Callable[[Plan], None]
type News = int | Decimal | Plan


def goes_early(work: Work) -> bool:
    """Whether the engine is asked at once and our own plan made beside it."""
    form = work.demand.stock[0].form
    return not work.stood and len(work.pieces) >= EARLY_FROM and form not in ("roll", "board")


def improve(work: Work, engines: tuple[Engine, Engine], limit_s: float, tell: Tell) -> None:
    """Everything that may better the plan or its bound, until the plan is proved or the time is up.

    All searches run side by side. With many pieces the engine goes by the clock and wants every core: our own
    search then soon takes only what nobody else does, until the engine has ended.
    Few pieces are planned the same way every time: of plans as good as each other the one that stood first is
    kept, and plans made of patterns have to wait until the engine has ended.
    """
    if limit_s < LEAST_S:
        work.stand()
        tell(work.plan)
        return
    started = time.perf_counter()
    made_s = work.seconds
    until = time.monotonic() + limit_s
    try:
        with Beside[News]() as beside:
            if work.kept is None:
                beside.begin("engine", engines[0], _asked(work, engines[0], limit_s))
            _stand_beside(work)
            tell(work.plan)
            if work.settled:
                return
            if until - time.monotonic() > LEAST_S:
                beside.begin("proofs", engines[1], _proofs(work, engines[1], until))
            _listen(work, beside, engines[1], until, tell)
    finally:
        work.seconds = made_s + time.perf_counter() - started


def _stand_beside(work: Work) -> None:
    """Make our own plan where it is not made yet, in a thread that is no more urgent than the engine."""
    if work.stood:
        return
    with ThreadPoolExecutor(1, initializer=_step_back) as pool:
        pool.submit(work.stand).result()
        pool.submit(work.layout, work.plan).result()  # cut up now, while there is time, and remembered


def _step_back() -> None:
    """Threads have a niceness of their own on Linux alone."""
    if sys.platform == "linux":
        os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), NICENESS)


def _asked(work: Work, engine: Engine, limit_s: float) -> Iterator[News]:
    narrow = _of_one_batch(work)
    # a bound on one batch is none on all of the stock: neither told to the engine nor taken from it
    demand, bound = (work.demand, work.bound) if narrow is None else (narrow, 0)
    until = time.monotonic() + limit_s
    plan = work.plan
    if demand.stock[0].form == "roll":
        for plan in shuffled_plans(work.demand, work.pieces, work.plan, work.seed, engine, limit_s):
            yield plan
    yield from better_plans(demand, work.blanks, plan, bound, engine, until - time.monotonic())


def _proofs(work: Work, engine: Engine, until: float) -> Iterator[News]:
    return proofs_and_patterns(
        work.demand,
        work.blanks,
        work.pieces,
        (work.measure, work.bound),
        engine,
        until - time.monotonic(),
        plans=work.kept is None,
        behind=work.kept is None and _wants_every_core(work),
    )


def _wants_every_core(work: Work) -> bool:
    """Whether the engine goes by the clock and gains by it; on sticks the patterns are as good as the engine."""
    return len(work.pieces) >= DETERMINISTIC_BELOW and work.demand.stock[0].form != "stick"


def _of_one_batch(work: Work) -> Demand | None:
    """The demand on the stock of the one batch all its blanks come from; None where that narrows nothing."""
    batches = {blank.batch for blank in work.blanks}
    if len(batches) != 1 or None in batches:
        return None
    stock = of_batch(work.demand.stock, batches.pop() or "")
    return replace(work.demand, stock=stock) if stock and stock != work.demand.stock else None


def _listen(work: Work, beside: Beside[News], prover: Engine, until: float, tell: Tell) -> None:
    """Take what the searches tell until the plan is proved, all have ended, or the time is up."""
    wait = work.kept is None and len(work.pieces) < DETERMINISTIC_BELOW
    waiting: list[Plan] = []
    # of damaged sheets and of batches the searches see a part only: their bound may be too high
    partly = any(size.damaged for size in work.demand.stock)
    partly = partly or (work.kept is None and _of_one_batch(work) is not None)
    for name, news in beside.heard(until - time.monotonic()):
        if isinstance(news, EngineFailed):
            _note_failure(work, name, news)
        elif isinstance(news, Plan):
            if name != "engine" and wait:
                waiting.append(news)
            else:
                _take(work, news, tell)
        elif news is None and name == "engine":
            prover.hurry()
            wait = False
            for plan in waiting:
                _take(work, plan, tell)
            waiting = []
        elif news is not None and not partly and news > work.bound:
            work.bound = news
            tell(work.plan)
        if work.settled:
            return
    for plan in waiting:
        _take(work, plan, tell)


def _take(work: Work, plan: Plan, tell: Tell) -> None:
    """Let a plan stand if less is left out or bought, and nothing is wrong with it."""
    aim = work.demand.aim
    if work.kept is None and rank(plan, aim)[:2] < rank(work.plan, aim)[:2] and work.sound(plan):
        work.plan = plan
        tell(plan)


def _note_failure(work: Work, name: str, problem: EngineFailed) -> None:
    if any(finding.code == FAILED for finding in work.findings):
        return
    note = no_bound if name == "proofs" else engine_failed
    work.findings.append(note(work.demand, str(problem)))
