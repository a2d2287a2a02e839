"""Several sizes bought together: which pieces are cut from which size.

Starts with all pieces on the size that is best alone and moves pieces, a size of them at a time, to another
stock size as long as the whole becomes cheaper. Every group is planned by our own strips.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Final

from evenface.layouts.plans import Plan, bought_by
from evenface.layouts.records import Demand, measure_of
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece, fits, strip_plans
from evenface.layouts.tree import Tree

MOST_PIECES: Final = 250
MOST_WORK: Final = 200_000
"""Squares of the pieces planned before the search ends, for that is how the time grows (about a second on a slow
core); counted, not timed, so that the same input gives the same plan. A group planned once is remembered."""
SINGLE_BELOW: Final = 24
"""Of so few pieces each may go its own way, also those of one size."""

type Group = tuple[int, ...]
"""Indices of the classes cut from one stock size, rising."""


def mixed_sizes(demand: Demand, pieces: Sequence[Piece], seed: int) -> Iterator[Plan]:
    """Plans that buy several sizes, each cheaper than the last; none where there is only one to buy."""
    if len(demand.stock) < 2 or not pieces or len(pieces) > MOST_PIECES or demand.stock[0].form == "stick":
        return
    yield from _Mixing(demand, pieces, seed).plans()


class _Mixing:
    def __init__(self, demand: Demand, pieces: Sequence[Piece], seed: int) -> None:
        self.demand, self.seed = demand, seed
        self.classes = _classes(pieces)
        self.work = 0
        self.planned: dict[tuple[int, Group], tuple[Decimal, tuple[Tree, ...]] | None] = {}

    def plans(self) -> Iterator[Plan]:
        """From each start that can be cut, moved until no move helps."""
        cheapest: Decimal | None = None
        for start in self._starts():
            for assigned in self._moved(start):
                cost = self._cost(assigned)
                if cost is not None and (cheapest is None or cost < cheapest):
                    cheapest = cost
                    yield self._plan(assigned)

    def _starts(self) -> Iterator[list[int]]:
        """All on one size where they fit it, and each on the size that suits it best by itself."""
        stock = self.demand.stock
        for number, size in enumerate(stock):
            if all(fits(members[0], size) for members in self.classes):
                yield [number] * len(self.classes)
        alone = []
        for index, members in enumerate(self.classes):
            able = [number for number, size in enumerate(stock) if fits(members[0], size)]
            costs = {number: self._group_cost(number, (index,)) for number in able}
            best = (
                min((cost, number) for number, cost in costs.items() if cost is not None)
                if any(cost is not None for cost in costs.values())
                else None
            )
            if best is None:
                return
            alone.append(best[1])
        yield alone

    def _moved(self, assigned: list[int]) -> Iterator[list[int]]:
        """The start, then after each move that makes the whole cheaper."""
        best = self._cost(assigned)
        yield assigned
        moved = True
        while moved and self.work < MOST_WORK:
            moved = False
            for index, members in enumerate(self.classes):
                for number, size in enumerate(self.demand.stock):
                    if number == assigned[index] or not fits(members[0], size):
                        continue
                    trial = [*assigned[:index], number, *assigned[index + 1 :]]
                    cost = self._cost(trial)
                    if cost is not None and (best is None or cost < best):
                        assigned, best, moved = trial, cost, True
                        yield assigned

    def _cost(self, assigned: Sequence[int]) -> Decimal | None:
        total = Decimal(0)
        for number, group in _groups(assigned).items():
            cost = self._group_cost(number, group)
            if cost is None:
                return None
            total += cost
        return total

    def _group_cost(self, number: int, group: Group) -> Decimal | None:
        key = (number, group)
        if key not in self.planned:
            self.planned[key] = self._cheapest(self.demand.stock[number], group)
        found = self.planned[key]
        return None if found is None else found[0]

    def _cheapest(self, stock: StockSize, group: Group) -> tuple[Decimal, tuple[Tree, ...]] | None:
        """Cost and trees of the best strip plan; None when there is not enough of that stock."""
        if self.work >= MOST_WORK:
            return None
        mine = [piece for index in group for piece in self.classes[index]]
        self.work += len(mine) ** 2
        best: tuple[Decimal, tuple[Tree, ...]] | None = None
        for trees in strip_plans(mine, stock, self.demand.saw, self.seed):
            if stock.copies is not None and len(trees) > stock.copies:
                continue
            plan = Plan(tuple((stock, tree) for tree in trees))
            cost = Decimal(measure_of(self.demand.aim, bought_by(plan)))
            if best is None or cost < best[0]:
                best = cost, tuple(trees)
        return best

    def _plan(self, assigned: Sequence[int]) -> Plan:
        trees: list[tuple[StockSize, Tree]] = []
        for number, group in _groups(assigned).items():
            found = self.planned[number, group]
            assert found is not None
            trees += [(self.demand.stock[number], tree) for tree in found[1]]
        return Plan(tuple(trees))


def _groups(assigned: Sequence[int]) -> Mapping[int, Group]:
    groups: dict[int, list[int]] = defaultdict(list)
    for index, number in enumerate(assigned):
        groups[number].append(index)
    return {number: tuple(group) for number, group in groups.items()}


def _classes(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """Pieces that are moved together: those of one size, or each alone where they are few; large ones first."""
    if len(pieces) <= SINGLE_BELOW:
        return [[piece] for piece in sorted(pieces, key=_largest_first)]
    sizes: dict[tuple[int, int, bool], list[Piece]] = defaultdict(list)
    for piece in pieces:
        sizes[piece.length, piece.width, piece.may_turn].append(piece)
    return sorted(sizes.values(), key=lambda members: _largest_first(members[0]))


def _largest_first(piece: Piece) -> tuple[int, int, int]:
    return -piece.length * piece.width, -piece.length, piece.blank
