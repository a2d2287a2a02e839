"""Better bounds where a plan is not proved, and plans of their patterns.

Linear programs are solved in the child; certificates are checked and plans are put together here.
"""

import time
from collections.abc import Iterator, Sequence
from decimal import ROUND_FLOOR, Decimal
from fractions import Fraction
from math import ceil, gcd
from typing import Final

from evenface.layouts.asking import DETERMINISTIC_BELOW
from evenface.layouts.bounds import Grown, grown_by
from evenface.layouts.columns import Bin, Model, Row, bound_of, count_points
from evenface.layouts.engine import Answer, Engine
from evenface.layouts.plans import Plan
from evenface.layouts.records import Blank, Demand
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import Piece
from evenface.layouts.tree import Leaf, Spot, Tree, recover

MOST_SIZES: Final = 80
MOST_STICK_SIZES: Final = 400
MOST_STEPS: Final = 12_000_000
"""Work of pricing one sheet in stages: beyond, the bound comes too late to be of use."""
MOST_POINTS: Final = 2_000
"""Sums of sizes in one direction: tables of their square have to go into memory."""
BOUND_SHARE: Final = 0.5
"""Of the time: what the bound may take of it before its patterns are made into plans."""
CENT: Final = Decimal("0.01")


def proofs_and_patterns(
    demand: Demand,
    blanks: Sequence[Blank],
    pieces: Sequence[Piece],
    standing: tuple[int | Decimal, int | Decimal],
    engine: Engine,
    limit_s: float,
    plans: bool = True,
    behind: bool = False,
) -> Iterator[int | Decimal | Plan]:
    """Bounds in the unit of the aim, each true by itself, and plans made of the patterns met on the way.

    standing : measure of the best plan so far, beyond which no bound is needed, and the best bound so far.
    plans : False for bounds alone. behind : the child soon takes no more time that another process wants.
    Where pieces are few the search for plans is counted, so that the same demand gives the same ones.
    Raises EngineFailed when the child crashes.
    """
    until = time.monotonic() + limit_s
    measure, known = standing
    grain = _grain(demand)
    models = models_of(demand, pieces)
    for number, model in enumerate(models):
        last = number == len(models) - 1
        left = until - time.monotonic()
        if left <= 0.02:
            return
        enough = (_spent(demand, measure) - grain) + grain / 1000
        share = BOUND_SHARE if last else 1 / (len(models) - number)
        question = _question(model, enough) | {"share": share, "behind": behind, "grain": str(grain)}
        question |= {"patterns": plans and _cuttable(demand, model), "least": str(_spent(demand, known))}
        question["counted"] = len(pieces) < DETERMINISTIC_BELOW
        for answer in engine.ask(question, left):
            if "worths" in answer:
                bound = in_aim(demand, bound_of(model, answer["worths"]))
                known = max(known, bound)
                yield bound
            if "patterns" in answer:
                plan = _plan(demand, blanks, pieces, model, answer["patterns"])
                if plan is not None:
                    yield plan


def _cuttable(demand: Demand, model: Model) -> bool:
    """Whether a pattern of this model is a stock that can be cut."""
    return bool(model.stages) or demand.stock[0].form == "stick"


def _plan(
    demand: Demand,
    blanks: Sequence[Blank],
    pieces: Sequence[Piece],
    model: Model,
    sheets: Sequence[tuple[int, int, Sequence[tuple[int, int, int]]]],
) -> Plan | None:
    """The patterns as trees: each place gets one of the pieces of its size; None where something is amiss."""
    stick, kerf = demand.stock[0].form == "stick", demand.saw.kerf
    waiting: dict[tuple[int, int, bool], list[int]] = {}
    for piece in pieces:
        turns = piece.may_turn and piece.length != piece.width
        waiting.setdefault((piece.length, piece.width, turns), []).append(piece.blank)
    groups = [waiting[key] for key in sorted(waiting)]
    first = "across" if stick else None if demand.saw.first_cut == "any" else demand.saw.first_cut
    trees: list[tuple[StockSize, Tree]] = []
    try:
        for bin, copies, spots in sheets:
            for _ in range(copies):
                leaves: list[Spot] = []
                for index, x, y in spots:
                    row = model.rows[index]
                    blank = groups[row.piece].pop()
                    long, wide = (row.size - kerf, 1) if stick else (row.other - kerf, row.size - kerf)
                    turned = not stick and (long, wide) != (blanks[blank].length, blanks[blank].width)
                    leaves.append((x, y, Leaf(blank, long, wide, turned)))
                trees.append((demand.stock[bin], recover(leaves, kerf, first)))
    except (ValueError, IndexError):
        return None
    return None if any(groups) else Plan(tuple(trees), 0, "patterns")


def models_of(demand: Demand, pieces: Sequence[Piece]) -> tuple[Model, ...]:
    """The linear programs that bound this demand, the quick ones first; none for too many sizes."""
    form, kerf = demand.stock[0].form, demand.saw.kerf
    along = 0 if form == "roll" and not _endless(demand) else kerf
    grown = grown_by(pieces, 0 if form == "stick" else kerf, along)
    if not grown or len(grown) > (MOST_STICK_SIZES if form == "stick" else MOST_SIZES):
        return ()
    if form == "stick":
        rows = tuple(Row(n, g.length, 1) for n, g in enumerate(grown))
        bins = tuple(Bin(s.usable_length + kerf, 1, _cost(demand, s)) for s in demand.stock)
        return (Model(rows, tuple(g.count for g in grown), bins),)
    if form == "roll":
        return _kept([_bars(demand, grown, kerf, along, across=True)])
    bars = [_bars(demand, grown, kerf, kerf, across) for across in (True, False)]
    return _kept(bars if form == "board" else [*bars, _stages(demand, grown, kerf)])


def in_aim(demand: Demand, cost: Fraction) -> int | Decimal:
    """A cost no plan can be below, as the measure of the aim: rounded up to what stock can cost."""
    if demand.aim == "length":
        roll = demand.stock[0]
        return ceil(cost) - (demand.saw.kerf if _endless(demand) else 0) + 2 * roll.trim
    grain = _grain(demand)
    if demand.aim == "money":
        if demand.stock[0].form == "roll":
            return (Decimal(cost.numerator) / cost.denominator).quantize(CENT, rounding=ROUND_FLOOR)
        whole = ceil(cost / grain) * grain
        return Decimal(whole.numerator) / whole.denominator
    return int(ceil(cost / grain) * grain)


def _spent(demand: Demand, measure: int | Decimal) -> Fraction:
    """The measure as the linear program counts it."""
    if demand.aim != "length":
        return Fraction(measure)
    return Fraction(measure) - 2 * demand.stock[0].trim + (demand.saw.kerf if _endless(demand) else 0)


def _grain(demand: Demand) -> Fraction:
    """What every measure is a multiple of."""
    if demand.stock[0].form == "roll":
        return Fraction(1) if demand.aim != "money" else Fraction(CENT)
    costs = [_cost(demand, size) for size in demand.stock if _cost(demand, size) > 0]
    whole = 1
    for cost in costs:
        whole = whole * cost.denominator // gcd(whole, cost.denominator)
    return Fraction(gcd(*(int(cost * whole) for cost in costs)), whole) if costs else Fraction(1)


def _cost(demand: Demand, stock: StockSize) -> Fraction:
    """Of one sheet or stick; of a roll, of a hundredth of a millimetre of it."""
    roll = stock.form == "roll"
    if demand.aim == "money":
        price = Fraction(stock.price or 0)
        return price / 100_000 if roll else price
    if demand.aim == "area":
        wide = 1 if stock.form == "stick" else stock.width
        return Fraction(wide if roll else wide * (stock.length or 0))
    return Fraction(1)


def _endless(demand: Demand) -> bool:
    return len(demand.stock) == 1 and demand.stock[0].form == "roll" and demand.stock[0].length is None


def _lies(demand: Demand, piece: Grown, kerf: int, along: int) -> list[tuple[int, int]]:
    """(x, y) of the ways the piece lies on one stock at least."""
    ways = [(piece.length, piece.width)]
    if piece.may_turn:
        ways.append((piece.width - kerf + along, piece.length - along + kerf))
    return [
        (x, y)
        for x, y in ways
        if any(x <= s.usable_length + along and y <= s.usable_width + kerf for s in demand.stock)
    ]


def _bars(demand: Demand, grown: Sequence[Grown], kerf: int, along: int, across: bool) -> Model | None:
    """Lines across the stock (in y) and how much of its length they hold for; or the other way round."""
    rows = []
    for number, piece in enumerate(grown):
        lies = _lies(demand, piece, kerf, along)
        rows += [Row(number, y, x) if across else Row(number, x, y) for x, y in lies]
    bins = []
    for stock in demand.stock:
        long = 1 if stock.form == "roll" else stock.usable_length + kerf
        wide = stock.usable_width + kerf
        bins.append(Bin(wide if across else long, long if across else wide, _cost(demand, stock)))
    return _model(rows, grown, bins, "")


def _stages(demand: Demand, grown: Sequence[Grown], kerf: int) -> Model | None:
    """Sheets cut in three stages; None where the saw may turn oftener or the points are too many."""
    if demand.saw.stages is None or demand.saw.stages > 3:
        return None
    rows = [
        Row(number, y, 1, x)
        for number, piece in enumerate(grown)
        for x, y in _lies(demand, piece, kerf, kerf)
    ]
    bins = [Bin(s.usable_width + kerf, 1, _cost(demand, s), s.usable_length + kerf) for s in demand.stock]
    for one in bins:
        xs = count_points([row.other for row in rows], one.along)
        ys = count_points([row.size for row in rows], one.capacity)
        most = max(len({row.other for row in rows}), len({row.size for row in rows}))
        if max(xs, ys) > MOST_POINTS or xs * ys * most > MOST_STEPS:
            return None
    return _model(rows, grown, bins, demand.saw.first_cut)


def _model(rows: list[Row], grown: Sequence[Grown], bins: list[Bin], stages: str) -> Model | None:
    if {row.piece for row in rows} != set(range(len(grown))) or any(one.cost <= 0 for one in bins):
        return None
    return Model(tuple(rows), tuple(g.count for g in grown), tuple(bins), stages)


def _kept(models: Sequence[Model | None]) -> tuple[Model, ...]:
    return tuple(model for model in models if model is not None)


def _question(model: Model, enough: Fraction) -> Answer:
    return {
        "form": "bound",
        "model": {
            "rows": [[r.piece, r.size, r.amount, r.other] for r in model.rows],
            "counts": list(model.counts),
            "bins": [[b.capacity, b.cover, str(b.cost), b.along] for b in model.bins],
            "stages": model.stages,
        },
        "enough": str(enough),
    }
