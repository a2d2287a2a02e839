"""Plans as trees on stock sizes: comparing them, and the strip plans that stand before the engine starts."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from evenface.layouts.records import Aim, Bought, Demand, Sheet, measure_of
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece, fits, strip_plans
from evenface.layouts.tree import Tree, leaves

SHUFFLED_ROUNDS = 24
"""How many shuffled orders are tried for a plan that is not proved by the first ones."""
SHUFFLED_PIECES = 2400
"""How many pieces are placed in all of them: fewer orders for more than a hundred pieces."""
MOST_SHUFFLED = 400


@dataclass(frozen=True, slots=True)
class Plan:
    """Trees with the stock each is cut from; `left` counts the pieces for which there was no stock left."""

    trees: tuple[tuple[StockSize, Tree], ...]
    left: int = 0
    method: str = "strips"


def run_length(stock: StockSize, tree: Tree) -> int:
    """Length of stock a tree takes: of a roll what it needs, of all else the whole."""
    return tree.length + 2 * stock.trim if stock.form == "roll" else stock.length or 0


def bought_by(plan: Plan) -> Bought:
    """What a plan makes the maker buy."""
    area = running = 0
    price: Decimal | None = Decimal(0)
    for stock, tree in plan.trees:
        length = run_length(stock, tree)
        area += length * (1 if stock.form == "stick" else stock.width)
        running += length if stock.form == "roll" else 0
        share = Decimal(length) / 100_000 if stock.form == "roll" else Decimal(1)
        price = None if price is None or stock.price is None else price + stock.price * share
    by_stock = Counter(stock.id for stock, _ in plan.trees)
    return Bought(len(plan.trees), dict(by_stock), running, area, price)


def bought_as(sheets: Sequence[Sheet], demand: Demand) -> Bought:
    """What the sheets of a layout make the maker buy."""
    prices = {stock.id: stock.price for stock in demand.stock}
    price: Decimal | None = Decimal(0)
    for sheet in sheets:
        each = prices[sheet.stock]
        share = Decimal(sheet.length) / 100_000 if sheet.form == "roll" else Decimal(1)
        price = None if price is None or each is None else price + each * share
    running = sum(sheet.length for sheet in sheets if sheet.form == "roll")
    by_stock = Counter(sheet.stock for sheet in sheets)
    return Bought(len(sheets), dict(by_stock), running, sum(sheet.area for sheet in sheets), price)


def rank(plan: Plan, aim: Aim) -> tuple[int, Decimal, int]:
    """The smaller the better: pieces left out, the measure, then how little is left in one piece."""
    rest = max(
        (
            stock.usable_length * stock.usable_width - tree.length * tree.width
            for stock, tree in plan.trees
            if stock.form != "roll"
        ),
        default=0,
    )
    return plan.left, Decimal(measure_of(aim, bought_by(plan))), -rest


def first_plan(demand: Demand, pieces: Sequence[Piece], bound: int | Decimal, seed: int) -> Plan:
    """The best strip plan: always complete as far as there is stock."""
    aim = demand.aim
    best: Plan | None = None
    more = min(SHUFFLED_ROUNDS, SHUFFLED_PIECES // max(1, len(pieces))) if len(pieces) <= MOST_SHUFFLED else 0
    for rounds in (0, more) if more else (0,):
        for plan in _candidates(demand, pieces, seed, rounds):
            if best is None or rank(plan, aim) < rank(best, aim):
                best = plan
        if best is not None and best.left == 0 and measure_of(aim, bought_by(best)) <= bound:
            break
    return best if best is not None else Plan((), len(pieces))


def _candidates(demand: Demand, pieces: Sequence[Piece], seed: int, rounds: int) -> Iterator[Plan]:
    """Each stock size alone, then all together: the scarce ones first, the last sheets on smaller ones.

    rounds : 0 for the plans in good order, else how many in shuffled order.
    """
    for stock in demand.stock:
        if all(fits(piece, stock) for piece in pieces):
            for trees in strip_plans(pieces, stock, demand.saw, seed, rounds, ordered=not rounds):
                if stock.copies is None or len(trees) <= stock.copies:
                    yield _on_smaller(Plan(tuple((stock, tree) for tree in trees)), demand)
    if not rounds and (len(demand.stock) > 1 or demand.stock[0].copies is not None):
        yield _mixed(demand, pieces, seed)


def _on_smaller(plan: Plan, demand: Demand) -> Plan:
    """Each tree on the least stock that holds it and of which there is enough."""
    used: Counter[str] = Counter()
    chosen = []
    for stock, tree in sorted(plan.trees, key=lambda pair: -pair[1].length * pair[1].width):
        able = [
            other
            for other in demand.stock
            if tree.length <= other.usable_length
            and tree.width <= other.usable_width
            and (other.copies is None or used[other.id] < other.copies)
        ]
        best = min(able, key=lambda other: cost(other, tree, demand.aim), default=stock)
        used[best.id] += 1
        chosen.append((best, tree))
    return Plan(tuple(chosen), plan.left, plan.method)


def cost(stock: StockSize, tree: Tree, aim: Aim) -> Decimal:
    """What cutting that tree from that stock costs, in the unit of the aim."""
    return Decimal(measure_of(aim, bought_by(Plan(((stock, tree),)))))


def _mixed(demand: Demand, pieces: Sequence[Piece], seed: int) -> Plan:
    """Stock of which there are only so many is filled first, its fullest sheets kept; the rest goes on."""
    left = list(pieces)
    chosen: list[tuple[StockSize, Tree]] = []
    order = sorted(demand.stock, key=lambda s: (s.copies is None, s.usable_length * s.usable_width))
    for stock in order:
        mine = [piece for piece in left if fits(piece, stock)]
        if not mine:
            continue
        trees = min(strip_plans(mine, stock, demand.saw, seed), key=len, default=[])
        trees = sorted(trees, key=_filled, reverse=True)[: stock.copies]
        chosen += [(stock, tree) for tree in trees]
        for tree in trees:
            left = _without(left, tree)
    return _on_smaller(Plan(tuple(chosen), len(left)), demand)


def _filled(tree: Tree) -> int:

    return sum(leaf.length * leaf.width for leaf in leaves(tree))


def _without(pieces: list[Piece], tree: Tree) -> list[Piece]:

    gone = Counter(leaf.blank for leaf in leaves(tree))
    kept = []
    for piece in pieces:
        if gone[piece.blank] > 0:
            gone[piece.blank] -= 1
        else:
            kept.append(piece)
    return kept
