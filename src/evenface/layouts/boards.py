"""Rough boards: strips ripped and lengths crosscut round wane, taper, knots and splits.

Two ways are tried on each board: ripped over its whole length first, the strips then crosscut at the faults; or
crosscut at the faults first and the clear lengths ripped. Boards are taken in several orders, the best one kept.
Places are bound to the faults, so a board's tree holds waste as leaves of its own and is never rearranged.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from typing import Final, NamedTuple

from evenface.layouts.lengths import fullest
from evenface.layouts.plans import Plan, rank
from evenface.layouts.records import Blank, Demand
from evenface.layouts.stock_records import LONGEST, StockSize, Timber
from evenface.layouts.strips import Piece
from evenface.layouts.tree import WASTE, Leaf, Tree, join

MOST_BOARDS: Final = 400
MOST_KEPT_BACK: Final = 12
"""With more boards than these none is kept for the last."""
PLAIN: Final = Timber()

type Span = tuple[int, int]


class _Wood(NamedTuple):
    """A board or a clear length of it, inside its end trims: x from x0, and what the faults leave."""

    stock: StockSize
    x0: int
    x1: int

    def free(self, y: int, width: int, kerf: int) -> list[Span]:
        """Clear lengths of a strip from y to y + width, in x counted from x0."""
        low, high = self.x0, self.x1
        timber = self.stock.timber or PLAIN
        near, far = timber.near_width or self.stock.width, timber.far_width
        room = y + width + timber.wane[1]
        if far is None or far == near:
            if room > near:
                return []
        elif far < near:
            if room > near:
                return []
            if room > far:  # the upper edge falls: as far as it is still above the strip
                high = min(high, (near - room) * (self.stock.length or 0) // (near - far))
        elif room > far:
            return []
        elif room > near:
            low = max(low, -(-(room - near) * (self.stock.length or 0) // (far - near)))
        spans, at = [], low
        for flaw in sorted(timber.flaws, key=lambda one: one.x):
            if not flaw.meets(low, y, high, y + width):
                continue
            if flaw.x > at:
                spans.append((at, flaw.x))
            at = max(at, flaw.x + flaw.length)
        if at < high:
            spans.append((at, high))
        return [(a - self.x0, b - self.x0) for a, b in spans if b > a]

    def starts(self, y: int) -> list[int]:
        """Heights at which a strip may begin: here, or just past a fault."""
        timber = self.stock.timber or PLAIN
        past = {flaw.y + flaw.width for flaw in timber.flaws if flaw.y + flaw.width > y}
        return [y, *sorted(past)]


class _Strip(NamedTuple):
    y: int
    width: int
    held: tuple[tuple[int, Piece], ...]
    """(x, piece), in order."""


def board_plan(demand: Demand, blanks: Sequence[Blank], pieces: Sequence[Piece]) -> Plan:
    """The best plan over several orders of the boards; pieces for which no wood is left are counted.

    Where some are left, each board is kept for the last in turn: so a board bought for what was left serves.
    blanks : what the pieces' indices mean.
    """
    orders = (_share, _for_money, _most)
    plans = [_taken(demand, blanks, list(pieces), worth) for worth in orders]
    if all(plan.left for plan in plans) and 1 < len(demand.stock) <= MOST_KEPT_BACK:
        for last in demand.stock:
            plans += [_taken(demand, blanks, list(pieces), worth, last) for worth in orders]
    return min(plans, key=lambda plan: rank(plan, demand.aim))


def _share(stock: StockSize, area: int) -> float:
    return area / ((stock.length or 1) * stock.width)


def _for_money(stock: StockSize, area: int) -> float:
    return area / (float(stock.price) + 0.01) if stock.price is not None else _share(stock, area) ** 2 * area


def _most(stock: StockSize, area: int) -> float:
    return float(area)


def _taken(
    demand: Demand,
    blanks: Sequence[Blank],
    left: list[Piece],
    worth: Callable[[StockSize, int], float],
    last: StockSize | None = None,
) -> Plan:
    """One board after another, each time the one worth most. last : is not touched before all others are used."""
    used: dict[str, int] = {}
    trees: list[tuple[StockSize, Tree]] = []
    offered = [stock for stock in demand.stock if stock is not last]
    while left and len(trees) < MOST_BOARDS:
        best: tuple[float, StockSize, Tree, list[Piece]] | None = None
        for stock in offered:
            if stock.copies is not None and used.get(stock.id, 0) >= stock.copies:
                continue
            able = [p for p in left if blanks[p.blank].thickness <= _thick(stock)]
            tree, held = _whole_sets(stock, blanks, able, left, demand.saw.kerf)
            if tree is None:
                continue
            area = sum(piece.length * piece.width for piece in held)
            value = worth(stock, area)
            if best is None or value > best[0]:
                best = value, stock, tree, held
        if best is None:
            if last is None or last in offered:
                break
            offered = [last]
            continue
        used[best[1].id] = used.get(best[1].id, 0) + 1
        trees.append((best[1], best[2]))
        for piece in best[3]:
            left.remove(piece)
    return Plan(tuple(trees), len(left), "boards")


def _whole_sets(
    stock: StockSize, blanks: Sequence[Blank], pieces: list[Piece], left: Sequence[Piece], kerf: int
) -> tuple[Tree | None, list[Piece]]:
    """One board cut up so that no set is begun on it that it does not hold whole.

    pieces : those it is thick enough for. left : all that are still to be cut.
    """
    wanted = Counter(blanks[piece.blank].same for piece in left if blanks[piece.blank].same)
    while True:
        tree, held = cut_board(stock, pieces, kerf)
        got = Counter(blanks[piece.blank].same for piece in held if blanks[piece.blank].same)
        begun = sorted((count / wanted[same], same) for same, count in got.items() if count < wanted[same])
        if not begun:
            return tree, held
        pieces = [piece for piece in pieces if blanks[piece.blank].same != begun[0][1]]


def _thick(stock: StockSize) -> int:
    return stock.thickness or LONGEST


def cut_board(stock: StockSize, pieces: Sequence[Piece], kerf: int) -> tuple[Tree | None, list[Piece]]:
    """The better of the two ways on one board: its tree and the pieces it gives; None when it gives none."""
    timber = stock.timber or PLAIN
    ways = []
    whole = _Wood(stock, stock.trim, stock.trim + stock.usable_length)
    if timber.rip_first is not False:
        ways.append(_ripped(whole, pieces, kerf, timber.wane[0]))
    if timber.rip_first is not True:
        ways.append(_crosscut(stock, pieces, kerf))
    return max(ways, key=lambda way: sum(piece.length * piece.width for piece in way[1]))


def _crosscut(stock: StockSize, pieces: Sequence[Piece], kerf: int) -> tuple[Tree | None, list[Piece]]:
    """Clear lengths between the faults, each ripped by itself."""
    timber = stock.timber or PLAIN
    low, high = stock.trim, stock.trim + stock.usable_length
    spans, at = [], low
    for flaw in sorted(timber.flaws, key=lambda one: one.x):
        if flaw.x > at:
            spans.append((at, min(flaw.x, high)))
        at = max(at, flaw.x + flaw.length)
    if at < high:
        spans.append((at, high))
    left, held = list(pieces), []
    parts: list[tuple[int, Tree]] = []
    reached = 0
    for clear, end in spans:
        begin = low + _begin(clear - low, reached if parts else None, kerf)
        if end <= begin:
            continue
        tree, got = _ripped(_Wood(stock, begin, end), left, kerf, timber.wane[0])
        if tree is None:
            continue
        parts.append((begin - low, tree))
        reached = begin - low + tree.length
        held += got
        for piece in got:
            left.remove(piece)
    return (_row("across", parts, stock.usable_width, kerf), held) if parts else (None, [])


def _ripped(wood: _Wood, pieces: Sequence[Piece], kerf: int, wane: int) -> tuple[Tree | None, list[Piece]]:
    """Strips one above the other, each time the one that fills best what it takes."""
    left = list(pieces)
    strips: list[_Strip] = []
    y = wane
    while left:
        best: tuple[float, _Strip] | None = None
        for start in wood.starts(y):
            begin = _begin(start, strips[-1].y + strips[-1].width if strips else None, kerf)
            for width in sorted({piece.width for piece in left}):
                held = _filled(wood.free(begin, width, kerf), [p for p in left if p.width == width], kerf)
                if not held:
                    continue
                area = width * sum(piece.length for _, piece in held)
                density = area / (begin + width + kerf - y)
                if best is None or density > best[0]:
                    best = density, _Strip(begin, width, held)
        if best is None:
            break
        strips.append(best[1])
        for _, piece in best[1].held:
            left.remove(piece)
        y = best[1].y + best[1].width + kerf
    if not strips:
        return None, []
    rows = [
        (strip.y, _row("across", [(x, _leaf(p)) for x, p in strip.held], strip.width, kerf))
        for strip in strips
    ]
    return _row("along", rows, 0, kerf), [piece for strip in strips for _, piece in strip.held]


def _leaf(piece: Piece) -> Leaf:
    return Leaf(piece.blank, piece.length, piece.width)


def _filled(spans: Sequence[Span], pieces: Sequence[Piece], kerf: int) -> tuple[tuple[int, Piece], ...]:
    """Each clear length filled as full as it can be; between two of them at least a cut, or two and some waste."""
    left, held = list(pieces), []
    reached: int | None = None
    for low, high in spans:
        begin = _begin(low, reached, kerf)
        chosen = fullest([piece.length + kerf for piece in left], high - begin + kerf) if high > begin else []
        at = begin
        for index in chosen:
            held.append((at, left[index]))
            at += left[index].length + kerf
        if chosen:
            reached = at - kerf
            left = [piece for index, piece in enumerate(left) if index not in set(chosen)]
    return tuple(held)


def _begin(clear: int, reached: int | None, kerf: int) -> int:
    """Where the next part may begin: at the edge, one cut on, or two cuts and some waste on."""
    if reached is None:
        return clear if clear == 0 else max(clear, kerf + 1)
    begin = max(clear, reached + kerf)
    return begin if begin == reached + kerf else max(begin, reached + 2 * kerf + 1)


def _row(axis: str, parts: Sequence[tuple[int, Tree]], across: int, kerf: int) -> Tree:
    """Parts at their places with waste between them; every gap is one cut, or waste between two cuts."""
    children: list[Tree] = []
    at = 0
    for place, part in parts:
        gap = place - at - (kerf if children else 0)
        if gap > 0:
            size = gap - kerf
            wide = max(1, part.width if axis == "across" else part.length)
            children.append(Leaf(WASTE, size, wide) if axis == "across" else Leaf(WASTE, wide, size))
        children.append(part)
        at = place + (part.length if axis == "across" else part.width)
    return (
        children[0] if len(children) == 1 else join("across" if axis == "across" else "along", children, kerf)
    )
