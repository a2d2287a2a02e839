"""One material on its way: what can be cut, its bound, the best plan so far, and that plan as a layout."""

import time
from dataclasses import dataclass, field, replace
from decimal import Decimal

from evenface.finding import Finding
from evenface.layouts.asking import reached
from evenface.layouts.board_findings import buy_board
from evenface.layouts.boards import board_plan
from evenface.layouts.bounds import lower_bound
from evenface.layouts.cuts import lay_out
from evenface.layouts.finishing import preference
from evenface.layouts.mixing import mixed_sizes
from evenface.layouts.plans import Plan, bought_as, bought_by, rank
from evenface.layouts.records import Blank, Demand, Layout, Sheet, measure_of
from evenface.layouts.solve_findings import not_enough, too_large
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece, expand, fits
from evenface.layouts.together import holds_together, plan_kept_together
from evenface.layouts.tree import Tree, leaves
from evenface.layouts.verify import verify


@dataclass(slots=True)
class Work:
    """One demand on its way: what can be cut, the bound, the best plan, what went wrong.

    stood : whether our own plan was made. laid : sheets cut up already, so that none is cut up twice.
    """

    demand: Demand
    blanks: tuple[Blank, ...]
    pieces: list[Piece]
    bound: int | Decimal
    findings: list[Finding]
    seed: int
    plan: Plan
    stood: bool = False
    seconds: float = 0.0
    kept: Layout | None = None
    laid: dict[tuple[str, Tree], Sheet] = field(default_factory=dict)

    @property
    def measure(self) -> int | Decimal:
        """Of the kept layout, else of the best plan so far."""
        return self.kept.measure if self.kept else measure_of(self.demand.aim, bought_by(self.plan))

    @property
    def settled(self) -> bool:
        """Whether nothing is left to search: proved, or there is not enough stock."""
        return self.stood and (self.plan.left > 0 or self.measure <= self.bound)

    def stand(self) -> None:
        """Make our own plan, if that was not done yet; a better one that stands already stays."""
        if self.stood:
            return
        started = time.perf_counter()
        own = _standing(self) if self.pieces else Plan(())
        self.plan = min((own, self.plan), key=lambda one: rank(one, self.demand.aim)[:2])
        self.stood = True
        self.seconds += time.perf_counter() - started

    def sound(self, plan: Plan) -> bool:
        """Whether the second look finds nothing wrong with this plan."""
        return not verify(self.demand, self.layout(plan))

    def layout(self, plan: Plan) -> Layout:
        """The plan as a layout, not yet looked at."""
        if self.kept is not None:
            return replace(
                self.kept,
                bound=min(self.bound, self.measure),
                proved=self.settled,
                findings=tuple(self.findings),
                section=self.demand.section,
            )
        sheets = self._sheets(plan)
        bought = bought_as(sheets, self.demand)
        unplaced = _unplaced(self, plan)
        measure = measure_of(self.demand.aim, bought)
        bound = self.bound if unplaced else min(self.bound, measure)
        findings = list(self.findings)
        if plan.left:
            findings.append(
                buy_board(self.demand, unplaced)
                if self.demand.stock[0].form == "board"
                else not_enough(self.demand, plan.left)
            )
        return Layout(
            material=self.demand.material,
            sheets=sheets,
            bought=bought,
            aim=self.demand.aim,
            bound=bound,
            proved=not unplaced and measure <= self.bound,
            seed=self.seed,
            seconds=self.seconds,
            method=plan.method,
            findings=tuple(findings),
            unplaced=unplaced,
            section=self.demand.section,
        )

    def _sheets(self, plan: Plan) -> tuple[Sheet, ...]:
        prefer = preference(self.demand)
        sheets: list[Sheet] = []
        for stock, tree in plan.trees:
            key = stock.id, tree
            sheet = self.laid.get(key)
            if sheet is None:
                sheet = self.laid[key] = lay_out(tree, stock, self.demand.saw, self.blanks, prefer)
            sheets.append(sheet)
        return tuple(sheets)


def begun(demand: Demand, seed: int, kept: Layout | None) -> Work:
    """What is known before any plan is made: pieces, bound, and whether a layout made before still serves."""
    started = time.perf_counter()
    able = tuple(blank for blank in demand.blanks if any(fits(blank, stock) for stock in demand.stock))
    oversize = [blank for blank in demand.blanks if blank not in able]
    # the same pieces in another order of the file must give the same plan
    able = tuple(sorted(able, key=lambda blank: (-blank.length, -blank.width, blank.id)))
    pieces = expand(able, demand.stock[0].form == "stick")
    bound = lower_bound(pieces, tuple(map(_undamaged, demand.stock)), demand.saw.kerf, demand.aim)
    findings = [*demand.findings, *(too_large(demand, blank) for blank in oversize)]
    work = Work(demand, able, pieces, bound, findings, seed, Plan((), len(pieces)))
    if kept is not None and (good := _still_good(demand, kept)) is not None:
        work.kept, work.plan, work.stood = good, Plan(()), True
    work.seconds = time.perf_counter() - started
    return work


def _standing(work: Work) -> Plan:
    """Our own plan: nothing is ever bought beyond it."""
    demand = work.demand
    if demand.stock[0].form == "board":
        return board_plan(demand, work.blanks, work.pieces)
    plan = plan_kept_together(demand, work.blanks, work.pieces, work.bound, work.seed)
    if plan.left == 0 and reached(demand, plan, work.bound):
        return plan
    others = [one for one in mixed_sizes(demand, work.pieces, work.seed) if holds_together(one, work.blanks)]
    return min((plan, *others), key=lambda one: rank(one, demand.aim))


def _undamaged(size: StockSize) -> StockSize:
    """For a bound that no plan can beat, not even one that uses the sound rest beside the damage."""
    return replace(size, timber=None) if size.damaged else size


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


def _unplaced(work: Work, plan: Plan) -> tuple[tuple[str, int], ...]:
    placed = [0] * len(work.blanks)
    for _, tree in plan.trees:
        for leaf in leaves(tree):
            placed[leaf.blank] += 1
    left = [(blank.id, blank.count - placed[index]) for index, blank in enumerate(work.blanks)]
    left += [(blank.id, blank.count) for blank in work.demand.blanks if blank not in work.blanks]
    return tuple((blank_id, count) for blank_id, count in left if count)
