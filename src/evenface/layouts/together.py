"""Blanks that must come from one sheet or one batch: sets are laid on a sheet first, what else goes on it is filled in.

A plan that happens to keep its sets together is taken as it is. A set that no sheet holds is a finding of the
demand and no longer asked for (see `demand`).
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from evenface.layouts.plans import Plan, first_plan, rank
from evenface.layouts.records import Blank, Demand, Saw
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece, fits, strip_plans
from evenface.layouts.tree import Tree, leaves

MOST_TRIED = 60
"""So many other pieces are tried beside a set, the largest first."""


def holds_together(plan: Plan, blanks: Sequence[Blank]) -> bool:
    """Whether every set lies on one sheet of the plan, and every blank on stock of its batch."""
    seen: dict[str, int] = {}
    for number, (stock, tree) in enumerate(plan.trees):
        for leaf in leaves(tree):
            if blanks[leaf.blank].batch not in (None, stock.batch):
                return False
            same = blanks[leaf.blank].same
            if same and seen.setdefault(same, number) != number:
                return False
    return True


def of_batch(stock: Sequence[StockSize], batch: str) -> tuple[StockSize, ...]:
    """What there is of one batch."""
    return tuple(size for size in stock if size.batch == batch)


def standing_plan(
    demand: Demand, blanks: Sequence[Blank], pieces: Sequence[Piece], bound: int | Decimal, seed: int
) -> Plan:
    """The best strip plan that keeps sets on one sheet; batches are not looked at."""
    plan = first_plan(demand, pieces, bound, seed)
    free = [replace(blank, batch=None) for blank in blanks]
    return plan if holds_together(plan, free) else together(demand, blanks, pieces, bound, seed)


def plan_kept_together(
    demand: Demand, blanks: Sequence[Blank], pieces: Sequence[Piece], bound: int | Decimal, seed: int
) -> Plan:
    """The best strip plan that keeps sets on one sheet and every blank to its batch."""
    if any(blank.batch is not None for blank in blanks):
        return by_batch(demand, blanks, pieces, seed)
    return standing_plan(demand, blanks, pieces, bound, seed)


def by_batch(demand: Demand, blanks: Sequence[Blank], pieces: Sequence[Piece], seed: int) -> Plan:
    """A plan in which each piece comes from its batch; those that may come from any fill up what is open.

    Tried as well: all of those beside the pieces of one batch, on its stock alone. Stock of a batch goes to its own
    pieces first.
    """
    groups: dict[str | None, list[Piece]] = defaultdict(list)
    for piece in pieces:
        groups[blanks[piece.blank].batch].append(piece)
    free = groups.pop(None, [])
    fixed = {
        name: _of_its_own(demand, blanks, held, name, seed)
        for name, held in groups.items()
        if name is not None
    }
    plans = [_filled_up(demand, blanks, fixed, free, seed)]
    if free:
        for name in fixed:
            beside = _of_its_own(demand, blanks, [*groups[name], *free], name, seed)
            plans.append(_joined([beside, *(plan for other, plan in fixed.items() if other != name)]))
    return min(plans, key=lambda plan: rank(plan, demand.aim))


def _of_its_own(
    demand: Demand, blanks: Sequence[Blank], pieces: Sequence[Piece], batch: str, seed: int
) -> Plan:
    stock = of_batch(demand.stock, batch)
    able = [piece for piece in pieces if any(fits(piece, size) for size in stock)]
    if not able:
        return Plan((), len(pieces))
    plan = standing_plan(replace(demand, stock=stock), blanks, able, 0, seed)
    return replace(plan, left=plan.left + len(pieces) - len(able))


def _filled_up(
    demand: Demand, blanks: Sequence[Blank], fixed: Mapping[str, Plan], free: Sequence[Piece], seed: int
) -> Plan:
    """The plans of the batches with free pieces laid beside, then what is left of the stock for the rest of them.

    Sets among the free pieces are not parted: they are left to the stock.
    """
    known = _joined(fixed.values())
    sheets = [(stock, _as_pieces(tree, blanks), tree) for stock, tree in known.trees]
    left = list(free)
    if demand.stock[0].form != "roll":
        for piece in sorted(free, key=lambda one: -one.length * one.width)[:MOST_TRIED]:
            if not blanks[piece.blank].same and _beside(sheets, [piece], demand.saw):
                left.remove(piece)
    used = Counter(stock.id for stock, _, _ in sheets)
    stock = tuple(
        size if size.copies is None else replace(size, copies=size.copies - used[size.id])
        for size in demand.stock
    )
    rest = standing_plan(replace(demand, stock=stock), blanks, left, 0, seed) if left else Plan(())
    own = {size.id: size for size in demand.stock}
    trees = [(size, tree) for size, _, tree in sheets] + [(own[size.id], tree) for size, tree in rest.trees]
    return Plan(tuple(trees), known.left + rest.left)


def _as_pieces(tree: Tree, blanks: Sequence[Blank]) -> list[Piece]:
    own = [(leaf.blank, blanks[leaf.blank]) for leaf in leaves(tree)]
    return [Piece(number, blank.length, blank.width, blank.may_turn) for number, blank in own]


def _joined(plans: Iterable[Plan]) -> Plan:
    each = list(plans)
    return Plan(tuple(pair for plan in each for pair in plan.trees), sum(plan.left for plan in each))


def on_one(pieces: Sequence[Piece], stock: StockSize, saw: Saw) -> Tree | None:
    """One sheet that holds all pieces by our own strips; None when none was found."""
    if not all(fits(piece, stock) for piece in pieces):
        return None
    room = stock.usable_length * stock.usable_width
    if sum(piece.length * piece.width for piece in pieces) > room:
        return None
    return next((trees[0] for trees in strip_plans(pieces, stock, saw) if len(trees) == 1), None)


def together(
    demand: Demand, blanks: Sequence[Blank], pieces: Sequence[Piece], bound: int | Decimal, seed: int
) -> Plan:
    """A plan in which every set lies on one sheet; sets that go on none are left out and counted."""
    sets: dict[str, list[Piece]] = defaultdict(list)
    free: list[Piece] = []
    for piece in pieces:
        (sets[blanks[piece.blank].same] if blanks[piece.blank].same else free).append(piece)
    used: dict[str, int] = defaultdict(int)
    open_sheets: list[tuple[StockSize, list[Piece], Tree]] = []
    left_out = 0
    for held in sorted(sets.values(), key=lambda ps: -sum(p.length * p.width for p in ps)):
        if not _beside(open_sheets, held, demand.saw):
            left_out += len(held) if not _opened(open_sheets, held, demand, used) else 0
    for piece in sorted(free, key=lambda p: -p.length * p.width)[:MOST_TRIED]:
        if _beside(open_sheets, [piece], demand.saw):
            free.remove(piece)
    stock = tuple(
        size if size.copies is None else replace(size, copies=size.copies - used[size.id])
        for size in demand.stock
    )
    rest = first_plan(replace(demand, stock=stock), free, 0, seed) if free else Plan(())
    own = {size.id: size for size in demand.stock}
    trees = [(size, tree) for size, _, tree in open_sheets]
    trees += [(own[size.id], tree) for size, tree in rest.trees]
    return Plan(tuple(trees), rest.left + left_out)


def _beside(sheets: list[tuple[StockSize, list[Piece], Tree]], held: Sequence[Piece], saw: Saw) -> bool:
    """Put the pieces on a sheet that is open already, where they fit."""
    for number, (stock, there, _) in enumerate(sheets):
        tree = on_one([*there, *held], stock, saw)
        if tree is not None:
            sheets[number] = stock, [*there, *held], tree
            return True
    return False


def _opened(
    sheets: list[tuple[StockSize, list[Piece], Tree]],
    held: Sequence[Piece],
    demand: Demand,
    used: dict[str, int],
) -> bool:
    """Open the smallest sheet that holds them all."""
    for stock in sorted(demand.stock, key=lambda s: s.usable_length * s.usable_width):
        if stock.copies is not None and used[stock.id] >= stock.copies:
            continue
        tree = on_one(held, stock, demand.saw)
        if tree is not None:
            sheets.append((stock, list(held), tree))
            used[stock.id] += 1
            return True
    return False
