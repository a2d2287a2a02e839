"""The later aims: of plans that buy the same, the one with the better rest, the fewer cuts, the fewer settings.

Rests of the rack are taken in place of bought sheets where the first aim loses nothing. Then each sheet is cut up
anew in every way our strips know, and pieces move from the sheet with the largest rest to others, as long as the
order of aims says it is better. What is bought never grows: each step is held against the first aim.
"""

import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final, NamedTuple

from evenface.layouts.cuts import lay_out, turns_too_much
from evenface.layouts.plans import Plan, rank
from evenface.layouts.records import Blank, Demand, Sheet
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece, fits, strip_plans
from evenface.layouts.together import holds_together
from evenface.layouts.tree import Tree, leaves

MOST_WORK: Final = 60_000
"""Squares of the pieces laid again before it ends: counted, so that the same input gives the same plan."""
MOST_PIECES: Final = 120

type Score = tuple[int, ...]
type Laid = Mapping[tuple[str, Tree], Sheet]
NOTHING_LAID: Final[Laid] = MappingProxyType({})


def settings_of(sheet: Sheet) -> int:
    """How often the fence is set: cuts after one another with the same setting and way share it."""
    settings = [(cut.fence, cut.axis) for cut in sheet.cuts]
    return sum(number == 0 or one != settings[number - 1] for number, one in enumerate(settings))


class Figures(NamedTuple):
    """What one sheet brings to the later aims: bought area, largest useful rest, cuts, settings of the fence.

    heavy : whether a piece above the limit is turned on the saw.
    """

    bought: int
    rest: int
    cuts: int
    settings: int
    heavy: bool = False


def figures_of(demand: Demand, stock: StockSize, sheet: Sheet) -> Figures:
    """The figures of one sheet."""
    least = demand.saw.least_offcut
    rest = max((rest.area for rest in sheet.offcuts if rest.useful(least)), default=0)
    heavy = turns_too_much(sheet, demand.saw)
    return Figures(0 if stock.offcut else sheet.area, rest, len(sheet.cuts), settings_of(sheet), heavy)


def score(demand: Demand, sheets: Sequence[Figures]) -> Score:
    """Sheets too heavy to be turned, then the later aims in their order, each the smaller the better."""
    bought, rests, cuts, settings, heavy = zip(*sheets, strict=True)
    figures = {
        "offcuts first": sum(bought),
        "largest offcut": -max(rests),
        "fewest cuts": sum(cuts),
        "fewest settings": sum(settings),
    }
    return sum(heavy), *(figures[aim] for aim in demand.aims if aim in figures)


def finished(
    demand: Demand,
    blanks: Sequence[Blank],
    plan: Plan,
    until_s: float | None = None,
    laid: Laid = NOTHING_LAID,
) -> Plan:
    """The plan made better by the later aims. until_s : monotonic time at which it stops, None for none.

    laid : sheets cut up already, by stock and tree.
    Boards and sticks keep their places; a plan of very many pieces on one sheet is left as it is there.
    """
    if demand.stock[0].form in ("board", "roll") or not plan.trees:
        return plan
    return _Finishing(demand, blanks, until_s, laid).better(plan)


class _Finishing:
    def __init__(self, demand: Demand, blanks: Sequence[Blank], until_s: float | None, laid: Laid) -> None:
        self.demand, self.blanks, self.until, self.laid = demand, blanks, until_s, laid
        self.work = 0
        self.figures: dict[tuple[str, int], tuple[Tree, Figures]] = {}

    def better(self, plan: Plan) -> Plan:
        best, told = plan, self._score(plan)
        improved = True
        while improved and not self._spent():
            improved = False
            for trial in self._changed(best):
                figure = self._score(trial)
                if figure < told and self._allowed(trial, plan):
                    best, told, improved = trial, figure, True
                    break
                if self._spent():
                    break
        return best

    def _changed(self, plan: Plan) -> Iterator[Plan]:
        if any(stock.offcut for stock in self.demand.stock):
            yield from self._on_rests(plan)
        for number, (stock, tree) in enumerate(plan.trees):
            for other in self._ways(self._pieces(tree), stock):
                yield self._with(plan, {number: other})
        yield from self._moved(plan)

    def _on_rests(self, plan: Plan) -> Iterator[Plan]:
        used = [stock.id for stock, _ in plan.trees]
        for number, (stock, tree) in enumerate(plan.trees):
            for rest in self.demand.stock:
                free = rest.copies is None or used.count(rest.id) < rest.copies
                fits = tree.length <= rest.usable_length and tree.width <= rest.usable_width
                if rest.offcut and not stock.offcut and free and fits:
                    trees = list(plan.trees)
                    trees[number] = rest, tree
                    yield Plan(tuple(trees), plan.left, plan.method)

    def _moved(self, plan: Plan) -> Iterator[Plan]:
        """A piece from the emptiest sheet onto another."""
        if len(plan.trees) < 2:
            return
        filled = [sum(leaf.length * leaf.width for leaf in leaves(tree)) for _, tree in plan.trees]
        source = min(range(len(filled)), key=lambda at: (filled[at], at))
        stock, tree = plan.trees[source]
        held = self._pieces(tree)
        for piece in sorted(set(held), key=lambda one: (-one.length * one.width, one.blank)):
            left = list(held)
            left.remove(piece)
            if not left:
                continue
            for number, (other, there) in enumerate(plan.trees):
                room = other.usable_length * other.usable_width - filled[number]
                if number == source or room < piece.length * piece.width:
                    continue
                more = next(self._ways([*self._pieces(there), piece], other), None)
                if more is None:
                    continue
                for less in self._ways(left, stock):
                    yield self._with(plan, {number: more, source: less})

    def _ways(self, pieces: list[Piece], stock: StockSize) -> Iterator[Tree]:
        """Every way our strips put these pieces on one such sheet."""
        if len(pieces) > MOST_PIECES or self._spent() or not all(fits(piece, stock) for piece in pieces):
            return
        self.work += len(pieces) ** 2 + 10
        seen = set()
        for trees in strip_plans(pieces, stock, self.demand.saw):
            if len(trees) == 1 and trees[0] not in seen:
                seen.add(trees[0])
                yield trees[0]

    def _pieces(self, tree: Tree) -> list[Piece]:
        stick = self.demand.stock[0].form == "stick"
        own = [(leaf.blank, self.blanks[leaf.blank]) for leaf in leaves(tree)]
        return [
            Piece(at, blank.length, 1 if stick else blank.width, blank.may_turn and not stick)
            for at, blank in own
        ]

    def _with(self, plan: Plan, trees: dict[int, Tree]) -> Plan:
        changed = tuple((stock, trees.get(number, tree)) for number, (stock, tree) in enumerate(plan.trees))
        return Plan(changed, plan.left, plan.method)

    def _allowed(self, trial: Plan, plan: Plan) -> bool:
        aim = self.demand.aim
        return rank(trial, aim)[:2] <= rank(plan, aim)[:2] and holds_together(trial, self.blanks)

    def _score(self, plan: Plan) -> Score:
        return score(self.demand, [self._figures(stock, tree) for stock, tree in plan.trees])

    def _figures(self, stock: StockSize, tree: Tree) -> Figures:
        key = stock.id, id(tree)  # the tree is kept beside its figures, so that its id stays its own
        if key not in self.figures:
            sheet = self.laid.get((stock.id, tree)) or lay_out(
                tree, stock, self.demand.saw, self.blanks, preference(self.demand)
            )
            self.figures[key] = tree, figures_of(self.demand, stock, sheet)
        return self.figures[key][1]

    def _spent(self) -> bool:
        late = self.until is not None and time.monotonic() > self.until
        return late or self.work > MOST_WORK


def preference(demand: Demand) -> Callable[[Sheet], Score]:
    """Of two orders of cutting one sheet: what the later aims say, the smaller the better."""

    def told(sheet: Sheet) -> Score:
        least = demand.saw.least_offcut
        figures = {
            "largest offcut": -max((rest.area for rest in sheet.offcuts if rest.useful(least)), default=0),
            "fewest cuts": len(sheet.cuts),
            "fewest settings": settings_of(sheet),
        }
        return tuple(figures[aim] for aim in demand.aims if aim in figures)

    return told
