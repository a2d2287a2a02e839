"""Lower bounds: what no plan can do without, whatever the order of cuts.

Every piece and every stock is enlarged by one kerf in each direction, after which pieces need no space
between them. Area gives the first bound; dual feasible functions (those of Fekete and Schepers,
"A general framework for bounds for higher-dimensional orthogonal packing problems", Math. Methods Oper.
Res. 60, 2004, and the stepped one of Carlier, Clautiaux and Moukrim, "New reduction procedures and lower
bounds for the two-dimensional bin packing problem with fixed orientation", Comput. Oper. Res. 34, 2007)
the stronger one. All in whole numbers: a bound is never rounded up by mistake.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_FLOOR, Decimal
from typing import Final, NamedTuple

from evenface.layouts.records import Aim
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece

MOST_FUNCTIONS: Final = 60
"""Dual feasible functions tried in each direction."""
MOST_COVERS: Final = 200_000


class Function(NamedTuple):
    """A dual feasible function on lengths 0..whole: sizes that fit together sum to at most `unit`.

    kind : "plain", "big" (sizes beyond whole − edge count fully, below edge not at all),
        "round" (sizes in shares of edge + 1), "half" (sizes beyond one half against steps of edge).
    """

    kind: str
    edge: int
    whole: int

    @property
    def unit(self) -> int:
        """What a full stock is worth."""
        if self.kind == "round":
            return self.whole * self.edge
        if self.kind == "half":
            return 2 * (self.whole // self.edge)
        return self.whole

    def worth(self, size: int) -> int:
        """What a piece of this size is worth."""
        whole, edge = self.whole, self.edge
        if self.kind == "big":
            return whole if size > whole - edge else (0 if size < edge else size)
        if self.kind == "round":
            share = (edge + 1) * size
            return size * edge if share % whole == 0 else share // whole * whole
        if self.kind == "half":
            if 2 * size > whole:
                return 2 * (whole // edge) - 2 * ((whole - size) // edge)
            return whole // edge if 2 * size == whole else 2 * (size // edge)
        return size


@dataclass(frozen=True, slots=True)
class Grown:
    """Pieces of one size, enlarged by a kerf: sizes, count, and whether they may turn."""

    length: int
    width: int
    count: int
    may_turn: bool


def lower_bound(pieces: Sequence[Piece], stock: Sequence[StockSize], kerf: int, aim: Aim) -> int | Decimal:
    """The least `measure` any plan can have, in the unit of the aim; 0 for no pieces.

    Valid for every way of cutting with this kerf, so for guillotine cuts of any number of stages.
    """
    if not pieces:
        return Decimal(0) if aim == "money" else 0
    if stock[0].form == "roll":
        return _roll_bound(pieces, stock, kerf, aim)
    grown = grown_by(pieces, 0 if stock[0].form == "stick" else kerf, kerf)
    if aim == "fewest":
        sizes = [_whole(size, kerf) for size in stock]
        return sheets_bound(grown, max(long for long, _ in sizes), max(wide for _, wide in sizes))
    return _cover_bound(grown, stock, kerf, aim)


def sheets_bound(grown: Sequence[Grown], length: int, width: int) -> int:
    """Fewest stocks of one (enlarged) size that hold all (enlarged) pieces."""
    grown = [_settled(g, length, width) for g in grown]
    most = max(4, min(MOST_FUNCTIONS, 20_000 // (len(grown) + 1)))
    along = _functions(length, [g.length for g in grown] + [g.width for g in grown if g.may_turn], most)
    across = _functions(width, [g.width for g in grown] + [g.length for g in grown if g.may_turn], most)
    values_along = [_table(f, grown) for f in along]
    values_across = [_table(g, grown) for g in across]
    best = 1
    for f, (f_length, f_width) in zip(along, values_along, strict=True):
        for g, (g_length, g_width) in zip(across, values_across, strict=True):
            total = 0
            for piece, fl, fw, gl, gw in zip(grown, f_length, f_width, g_length, g_width, strict=True):
                total += piece.count * (min(fl * gw, fw * gl) if piece.may_turn else fl * gw)
            best = max(best, -(-total // (f.unit * g.unit)))
    return best


def _settled(piece: Grown, length: int, width: int) -> Grown:
    """The piece with its turning decided where only one way goes into the stock."""
    if not piece.may_turn:
        return piece
    if piece.width > length or piece.length > width:
        return replace(piece, may_turn=False)
    if piece.length > length or piece.width > width:
        return Grown(piece.width, piece.length, piece.count, False)
    return piece


def _table(function: Function, grown: Sequence[Grown]) -> tuple[list[int], list[int]]:
    return [function.worth(g.length) for g in grown], [function.worth(g.width) for g in grown]


def _functions(whole: int, sizes: Sequence[int], most: int = MOST_FUNCTIONS) -> list[Function]:
    """Plain, then those whose edges lie where a size changes its worth, spread evenly when many."""
    if whole == 1:
        return [Function("plain", 0, 1)]
    inside = sorted({size for size in sizes if size <= whole})
    edges = {size for size in inside if 2 * size <= whole}
    edges |= {whole - size + 1 for size in inside if 2 * size > whole + 1}
    steps = sorted(edge for edge in edges if edge >= 1 and 2 * edge <= whole)
    room = max(1, most * 2 // 5)
    few = steps if len(steps) <= room else [steps[i * len(steps) // room] for i in range(room)]
    rounds = range(1, 2 + most // 6)
    functions = [Function("plain", 0, whole), *(Function("round", k, whole) for k in rounds)]
    functions += [Function("big", edge, whole) for edge in few]
    return functions + [Function("half", edge, whole) for edge in few]


def grown_by(pieces: Sequence[Piece], kerf_y: int, kerf_x: int) -> list[Grown]:
    """Pieces of one size together, enlarged by the kerfs; in an order that depends on the sizes alone."""
    counts: dict[tuple[int, int, bool], int] = {}
    for piece in pieces:
        turns = piece.may_turn and piece.length != piece.width
        key = (piece.length + kerf_x, piece.width + kerf_y, turns)
        counts[key] = counts.get(key, 0) + 1
    return [Grown(length, width, count, turns) for (length, width, turns), count in sorted(counts.items())]


def _whole(stock: StockSize, kerf: int) -> tuple[int, int]:
    return stock.usable_length + kerf, 1 if stock.form == "stick" else stock.usable_width + kerf


def _cost(stock: StockSize, aim: Aim) -> int | Decimal:
    if aim == "money":
        return stock.price if stock.price is not None else Decimal(0)
    return (stock.length or 0) * (1 if stock.form == "stick" else stock.width)


def _cover_bound(grown: Sequence[Grown], stock: Sequence[StockSize], kerf: int, aim: Aim) -> int | Decimal:
    """Cheapest set of stock sizes that covers the area, and has enough of them to hold the pieces.

    The fewest-sheets bound for a size as long and wide as any bounds the count of all sizes together.
    """
    area = sum(g.length * g.width * g.count for g in grown)
    sizes = sorted(((_cost(s, aim), *_whole(s, kerf), s.copies) for s in stock), key=lambda t: (t[0], -t[1]))
    count = sheets_bound(grown, max(t[1] for t in sizes), max(t[2] for t in sizes))
    options = [(cost, length * width, copies) for cost, length, width, copies in sizes]
    exact = _cheapest_cover(options, area, count)
    if exact is not None:
        return exact
    cheapest = min(options, key=lambda o: Decimal(o[0]) / o[1])
    share = Decimal(cheapest[0]) * area / cheapest[1]
    if aim == "money":
        return share.quantize(Decimal("0.01"), rounding=ROUND_FLOOR)
    return int(share)


def _cheapest_cover(
    options: list[tuple[int | Decimal, int, int | None]], area: int, count: int
) -> int | Decimal | None:
    """Least cost of at least `count` stocks with at least `area`, by trying all counts; None if too many."""
    need = [max(-(-area // size), count) for _, size, _ in options]
    tries = 1
    for most in need[:-1]:
        tries *= most + 1
    if tries > MOST_COVERS:
        return None
    best: int | Decimal | None = None

    def walk(at: int, cost: int | Decimal, held: int, number: int) -> None:
        nonlocal best
        if best is not None and cost >= best:
            return
        if held >= area and number >= count:
            best = cost
            return
        if at == len(options):
            return
        price, size, copies = options[at]
        most = max(-(-(area - held) // size), count - number, 0)
        most = most if copies is None else min(most, copies)
        lows = [most] if at == len(options) - 1 else range(most, -1, -1)
        for n in lows:
            walk(at + 1, cost + price * n, held + size * n, number + n)

    walk(0, Decimal(0) if isinstance(options[0][0], Decimal) else 0, 0, 0)
    return best


def _roll_bound(pieces: Sequence[Piece], stock: Sequence[StockSize], kerf: int, aim: Aim) -> int | Decimal:
    """One width: the longest piece, and the area as dual feasible functions see it across the roll.

    Several widths: the plain area at the cheapest width, and the longest piece on the best of them.
    """
    if len(stock) == 1:
        run = max(_run_by_area(pieces, stock[0], kerf), _longest(pieces, stock[0])) + 2 * stock[0].trim
        return _run_cost(run, stock[0], aim)
    longest = max(_least_alone(piece, stock, aim) for piece in pieces)
    area = sum(piece.length * piece.width for piece in pieces)
    return max(longest, min(_run_cost(-(-area // roll.width), roll, aim) for roll in stock))


def _run_by_area(pieces: Sequence[Piece], roll: StockSize, kerf: int) -> int:
    """Least length inside the trims; where several runs may be needed no kerf is counted along them."""
    kerf_x = kerf if roll.length is None else 0
    grown = grown_by(pieces, kerf, kerf_x)
    width = roll.usable_width + kerf
    best = 1
    for function in _functions(width, [g.width for g in grown] + [g.length for g in grown if g.may_turn]):
        total = sum(g.count * _least_worth(g, function, width, kerf, kerf_x) for g in grown)
        best = max(best, -(-total // function.unit) - kerf_x)
    return best


def _least_worth(piece: Grown, function: Function, width: int, kerf: int, kerf_x: int) -> int:
    straight = piece.length * function.worth(piece.width)
    turned_x, turned_y = piece.width - kerf + kerf_x, piece.length - kerf_x + kerf
    if not piece.may_turn or turned_y > width:
        return straight
    turned = turned_x * function.worth(turned_y)
    return turned if piece.width > width else min(straight, turned)


def _longest(pieces: Sequence[Piece], roll: StockSize) -> int:
    """The run that the piece needing the longest cannot do without."""
    return max(_least_run(piece, roll.usable_width) for piece in pieces)


def _least_alone(piece: Piece, stock: Sequence[StockSize], aim: Aim) -> int | Decimal:
    """What a piece costs at least, cut by itself from the roll that suits it best."""
    costs = [
        _run_cost(run + 2 * roll.trim, roll, aim)
        for roll in stock
        if (run := _least_run(piece, roll.usable_width))
    ]
    return min(costs, default=0)


def _least_run(piece: Piece, width: int) -> int:
    """Least running length of one piece on a roll of this width; 0 where it does not go on it."""
    runs = [piece.length] if piece.width <= width else []
    if piece.may_turn and piece.length <= width:
        runs.append(piece.width)
    return min(runs, default=0)


def _run_cost(run: int, roll: StockSize, aim: Aim) -> int | Decimal:
    if aim == "length":
        return run
    if aim == "area":
        return run * roll.width
    return (roll.price or Decimal(0)) * run / 100_000
