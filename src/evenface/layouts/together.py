"""Blanks that must come from one sheet: sets are laid on a sheet first, what else goes on it is filled in.

A plan that happens to keep its sets together is taken as it is. A set that no sheet holds is a finding of the
demand and no longer asked for (see `demand`).
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from evenface.layouts.plans import Plan, first_plan
from evenface.layouts.records import Blank, Demand, Saw
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece, fits, strip_plans
from evenface.layouts.tree import Tree, leaves

MOST_TRIED = 60
"""So many other pieces are tried beside a set, the largest first."""


def holds_together(plan: Plan, blanks: Sequence[Blank]) -> bool:
    """Whether every set lies on one sheet of the plan."""
    seen: dict[str, int] = {}
    for number, (_, tree) in enumerate(plan.trees):
        for leaf in leaves(tree):
            same = blanks[leaf.blank].same
            if same and seen.setdefault(same, number) != number:
                return False
    return True


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
