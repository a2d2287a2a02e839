"""Better bounds where a plan is not proved: linear programs solved in the child, certificates checked here."""

import time
from collections.abc import Iterator, Sequence
from decimal import ROUND_FLOOR, Decimal
from fractions import Fraction
from math import ceil, gcd
from typing import Final

from evenface.layouts.bounds import Grown, grown_by
from evenface.layouts.columns import Bin, Model, Row, bound_of, points
from evenface.layouts.engine import Answer, Engine
from evenface.layouts.records import Demand, StockSize
from evenface.layouts.strips import Piece

MOST_SIZES: Final = 80
MOST_STEPS: Final = 12_000_000
"""Work of pricing one sheet in stages: beyond, the bound comes too late to be of use."""
MOST_POINTS: Final = 2_000
"""Sums of sizes in one direction: tables of their square have to go into memory."""
MOST_SHARE: Final = 0.4
SMALL_SHARE: Final = 0.15
MANY_PIECES: Final = 200
"""From so many pieces on the engine needs its time for plans."""
LONGEST_S: Final = 3.0
CENT: Final = Decimal("0.01")


def better_bounds(
    demand: Demand, pieces: Sequence[Piece], measure: int | Decimal, engine: Engine, limit_s: float
) -> Iterator[int | Decimal]:
    """Bounds in the unit of the aim, each true by itself, none needed beyond `measure`.

    Takes at most two fifths of the time. Raises EngineFailed when the child crashes or overruns its time.
    """
    share = MOST_SHARE if len(pieces) < MANY_PIECES else SMALL_SHARE
    until = time.monotonic() + min(LONGEST_S, share * limit_s)
    models = models_of(demand, pieces)
    for number, model in enumerate(models):
        left = (until - time.monotonic()) / (len(models) - number)
        if left <= 0.02:
            return
        enough = (_spent(demand, measure) - _grain(demand)) + _grain(demand) / 1000
        for answer in engine.ask(_question(model, enough, left), left + 1.0):
            if "worths" in answer:
                yield in_aim(demand, bound_of(model, answer["worths"]))


def models_of(demand: Demand, pieces: Sequence[Piece]) -> tuple[Model, ...]:
    """The linear programs that bound this demand, the quick ones first; none for too many sizes."""
    form, kerf = demand.stock[0].form, demand.saw.kerf
    along = 0 if form == "roll" and not _endless(demand) else kerf
    grown = grown_by(pieces, 0 if form == "stick" else kerf, along)
    if not grown or len(grown) > MOST_SIZES:
        return ()
    if form == "stick":
        rows = tuple(Row(n, g.length, 1) for n, g in enumerate(grown))
        bins = tuple(Bin(s.usable_length + kerf, 1, _cost(demand, s)) for s in demand.stock)
        return (Model(rows, tuple(g.count for g in grown), bins),)
    if form == "roll":
        return _kept([_bars(demand, grown, kerf, along, across=True)])
    bars = [_bars(demand, grown, kerf, kerf, across) for across in (True, False)]
    return _kept([*bars, _stages(demand, grown, kerf)])


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
        xs = len(points([row.other for row in rows], one.along))
        ys = len(points([row.size for row in rows], one.capacity))
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


def _question(model: Model, enough: Fraction, limit_s: float) -> Answer:
    return {
        "form": "bound",
        "model": {
            "rows": [[r.piece, r.size, r.amount, r.other] for r in model.rows],
            "counts": list(model.counts),
            "bins": [[b.capacity, b.cover, str(b.cost), b.along] for b in model.bins],
            "stages": model.stages,
        },
        "enough": str(enough),
        "limit": limit_s,
    }
