"""Every material laid out: our strip plan first, then the engine for the time left, then a second look."""

import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from types import MappingProxyType
from typing import Final

from evenface.finding import Finding
from evenface.layouts.asking import DETERMINISTIC_BELOW, better_plans, reached
from evenface.layouts.beside import Beside
from evenface.layouts.board_findings import buy_board
from evenface.layouts.boards import board_plan
from evenface.layouts.bounds import lower_bound
from evenface.layouts.cuts import lay_out
from evenface.layouts.engine import Engine, EngineFailed
from evenface.layouts.finishing import finished, preference
from evenface.layouts.mixing import mixed_sizes
from evenface.layouts.plans import Plan, bought_as, bought_by, rank
from evenface.layouts.proving import proofs_and_patterns
from evenface.layouts.records import Blank, Demand, Layout, measure_of
from evenface.layouts.shuffling import shuffled_plans
from evenface.layouts.solve_findings import (
    FAILED,
    engine_failed,
    fault,
    interrupted,
    no_bound,
    not_enough,
    too_large,
)
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece, expand, fits
from evenface.layouts.together import holds_together, of_batch, plan_kept_together
from evenface.layouts.tree import leaves
from evenface.layouts.verify import verify


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
NONE_KEPT: Final[Mapping[str, Layout]] = MappingProxyType({})

SHORT_S: Final = 2.0
"""Below it the engine goes first, alone."""
MANY: Final = 1000
"""From so many pieces on too: it is never done there, and every second counts for it."""

type Tell = Callable[[Progress], None]
type Search = tuple[Engine, Iterator[int | Decimal | Plan]]


@dataclass(slots=True)
class _Work:
    """One demand on its way: what can be cut, the bound, the best plan, what went wrong."""

    demand: Demand
    blanks: tuple[Blank, ...]
    pieces: list[Piece]
    bound: int | Decimal
    plan: Plan
    findings: list[Finding]
    seconds: float = 0.0
    kept: Layout | None = None

    @property
    def measure(self) -> int | Decimal:
        """Of the kept layout, else of the best plan so far."""
        return self.kept.measure if self.kept else measure_of(self.demand.aim, bought_by(self.plan))

    @property
    def settled(self) -> bool:
        """Whether nothing is left to search: proved, or there is not enough stock."""
        return self.plan.left > 0 or self.measure <= self.bound


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
    works = [_begin(demand, seed, kept.get(demand.material)) for demand in demands]
    until = time.monotonic() + budget_s
    open_works = [work for work in works if not work.settled]
    mine = engine if engine is not None else Engine()
    prover = mine.twin()
    try:
        for number, work in enumerate(open_works):
            share = (until - time.monotonic()) / (len(open_works) - number)
            _improve(work, (mine, prover), share, seed, _teller(progress, work, number, len(open_works)))
    except KeyboardInterrupt:
        for work in open_works:
            work.findings.append(interrupted(work.demand))
    finally:
        prover.close()
        if engine is None:
            mine.close()
    return tuple(_finish(work, seed) for work in works)


def _begin(demand: Demand, seed: int, kept: Layout | None) -> _Work:
    started = time.perf_counter()
    able = tuple(blank for blank in demand.blanks if any(fits(blank, stock) for stock in demand.stock))
    oversize = [blank for blank in demand.blanks if blank not in able]
    # the same pieces in another order of the file must give the same plan
    able = tuple(sorted(able, key=lambda blank: (-blank.length, -blank.width, blank.id)))
    pieces = expand(able, demand.stock[0].form == "stick")
    bound = lower_bound(pieces, tuple(map(_undamaged, demand.stock)), demand.saw.kerf, demand.aim)
    findings = [*demand.findings, *(too_large(demand, blank) for blank in oversize)]
    if kept is not None and (kept := _still_good(demand, kept)) is not None:
        return _Work(demand, able, pieces, bound, Plan(()), findings, 0.0, kept)
    plan = _standing(demand, able, pieces, bound, seed) if pieces else Plan(())
    if pieces and demand.stock[0].form != "board" and not (plan.left == 0 and reached(demand, plan, bound)):
        others = [one for one in mixed_sizes(demand, pieces, seed) if holds_together(one, able)]
        plan = min((plan, *others), key=lambda one: rank(one, demand.aim))
    return _Work(demand, able, pieces, bound, plan, findings, time.perf_counter() - started)


def _undamaged(size: StockSize) -> StockSize:
    """For a bound that no plan can beat, not even one that uses the sound rest beside the damage."""
    return replace(size, timber=None) if size.damaged else size


def _standing(
    demand: Demand, blanks: Sequence[Blank], pieces: list[Piece], bound: int | Decimal, seed: int
) -> Plan:
    """Our own plan: it stands before the engine is asked."""
    if demand.stock[0].form == "board":
        return board_plan(demand, blanks, pieces)
    return plan_kept_together(demand, blanks, pieces, bound, seed)


def _of_one_batch(work: _Work) -> Demand | None:
    """The demand on the stock of the one batch all its blanks come from; None where that narrows nothing."""
    batches = {blank.batch for blank in work.blanks}
    if len(batches) != 1 or None in batches:
        return None
    stock = of_batch(work.demand.stock, batches.pop() or "")
    return replace(work.demand, stock=stock) if stock and stock != work.demand.stock else None


def _still_good(demand: Demand, kept: Layout) -> Layout | None:
    """A layout made before, at today's prices, if it serves today's demand whole; None if it does not.

    What it claims of bounds, prices and faults of the stock is not looked at: all of it is told anew.
    """
    stock = {size.id: size for size in demand.stock}
    if kept.aim != demand.aim or kept.unplaced or any(sheet.stock not in stock for sheet in kept.sheets):
        return None
    sheets = tuple(replace(sheet, timber=stock[sheet.stock].timber) for sheet in kept.sheets)
    bought = bought_as(sheets, demand)
    told = replace(kept, sheets=sheets, bought=bought, bound=0, proved=False, findings=(), kept=True)
    return None if verify(demand, told) else told


def _improve(
    work: _Work, engines: tuple[Engine, Engine], limit_s: float, seed: int, tell: Callable[[Plan], None]
) -> None:
    """The engine and the search for proofs side by side, until the plan is proved or the time is up.

    Where time is short and pieces are many, the engine has the machine for itself first: none of ours may cost it a
    sheet. The search for proofs then has as long again.
    Few pieces are planned the same way every time: of plans as good as each other the one that stood first is
    kept, and plans made of patterns have to wait until the engine has ended.
    """
    started = time.perf_counter()
    demand = work.demand
    searches: dict[str, Search] = {}
    if work.kept is None:
        narrow = _of_one_batch(work)
        # a bound on one batch is none on all of the stock: neither told to the engine nor taken from it
        asked, bound = (demand, work.bound) if narrow is None else (narrow, 0)
        plans = better_plans(asked, work.blanks, work.plan, bound, engines[0], limit_s)
        searches["engine"] = engines[0], plans
        if demand.stock[0].form == "roll":
            shuffled = shuffled_plans(demand, work.pieces, work.plan, seed, engines[1], limit_s)
            searches["shuffled"] = engines[1], shuffled
    try:
        hurried = limit_s < SHORT_S and len(work.pieces) >= DETERMINISTIC_BELOW
        if searches and (hurried or len(work.pieces) >= MANY):
            _listen(work, searches, limit_s, tell)
            searches = {}
        if not work.settled:
            proofs = proofs_and_patterns(
                demand,
                work.blanks,
                work.pieces,
                (work.measure, work.bound),
                engines[1],
                limit_s,
                work.kept is None,
            )
            _listen(work, {"proofs": (engines[1], proofs), **searches}, limit_s, tell)
    finally:
        work.seconds += time.perf_counter() - started


def _listen(
    work: _Work, searches: Mapping[str, Search], limit_s: float, tell: Callable[[Plan], None]
) -> None:
    """Take what the searches tell until the plan is proved, all have ended, or the time is up."""
    wait = "engine" in searches and len(work.pieces) < DETERMINISTIC_BELOW
    waiting: list[Plan] = []
    partly = any(size.damaged for size in work.demand.stock)
    partly = partly or ("engine" in searches and _of_one_batch(work) is not None)
    with Beside(searches) as beside:
        for name, news in beside.heard(limit_s):
            if isinstance(news, EngineFailed):
                _note_failure(work, name, news)
            elif isinstance(news, Plan):
                if name != "engine" and wait:
                    waiting.append(news)
                else:
                    _take(work, news, tell)
            elif news is not None and not partly:
                # of damaged sheets and of batches the searches see a part only: their bound may be too high
                if news > work.bound:
                    work.bound = news
                    tell(work.plan)
            elif news is None and name == "engine":
                wait = False
                for plan in waiting:
                    _take(work, plan, tell)
            if work.settled:
                return


def _take(work: _Work, plan: Plan, tell: Callable[[Plan], None]) -> None:
    """Let a plan stand if less is left out or bought, and nothing is wrong with it."""
    aim = work.demand.aim
    if work.kept is None and rank(plan, aim)[:2] < rank(work.plan, aim)[:2] and _sound(work, plan):
        work.plan = plan
        tell(plan)


def _note_failure(work: _Work, name: str, problem: EngineFailed) -> None:
    if any(finding.code == FAILED for finding in work.findings):
        return
    note = no_bound if name == "proofs" else engine_failed
    work.findings.append(note(work.demand, str(problem)))


def _sound(work: _Work, plan: Plan) -> bool:
    return not verify(work.demand, _layout(work, plan, 0))


def _finish(work: _Work, seed: int) -> Layout:
    """The layout made better by the later aims, and looked at a second time by code that did not make it."""
    if work.kept is None:
        better = finished(work.demand, work.blanks, work.plan, time.monotonic() + FINISH_S)
        if better is not work.plan and _sound(work, better):
            work.plan = better
    layout = _layout(work, work.plan, seed)
    faults = verify(work.demand, layout)
    if faults:
        return replace(
            layout, findings=(*layout.findings, *(fault(work.demand, f.rule, f.what) for f in faults))
        )
    return replace(layout, checked=True)


def _layout(work: _Work, plan: Plan, seed: int) -> Layout:
    if work.kept is not None:
        return replace(
            work.kept,
            bound=min(work.bound, work.measure),
            proved=work.settled,
            findings=tuple(work.findings),
            section=work.demand.section,
        )
    prefer = preference(work.demand)
    sheets = tuple(lay_out(tree, stock, work.demand.saw, work.blanks, prefer) for stock, tree in plan.trees)
    bought = bought_as(sheets, work.demand)
    unplaced = _unplaced(work, plan)
    measure = measure_of(work.demand.aim, bought)
    bound = work.bound if unplaced else min(work.bound, measure)
    findings = list(work.findings)
    if plan.left:
        findings.append(
            buy_board(work.demand, unplaced)
            if work.demand.stock[0].form == "board"
            else not_enough(work.demand, plan.left)
        )
    return Layout(
        material=work.demand.material,
        sheets=sheets,
        bought=bought,
        aim=work.demand.aim,
        bound=bound,
        proved=not unplaced and measure <= work.bound,
        seed=seed,
        seconds=work.seconds,
        method=plan.method,
        findings=tuple(findings),
        unplaced=unplaced,
        section=work.demand.section,
    )


def _unplaced(work: _Work, plan: Plan) -> tuple[tuple[str, int], ...]:

    placed = [0] * len(work.blanks)
    for _, tree in plan.trees:
        for leaf in leaves(tree):
            placed[leaf.blank] += 1
    left = [(blank.id, blank.count - placed[index]) for index, blank in enumerate(work.blanks)]
    left += [(blank.id, blank.count) for blank in work.demand.blanks if blank not in work.blanks]
    return tuple((blank_id, count) for blank_id, count in left if count)


def _teller(progress: Tell | None, work: _Work, number: int, total: int) -> Callable[[Plan], None]:
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

    tell(work.plan)
    return tell
