"""What each piece of a job has in its price: hours by its own steps, material by what of it goes into the piece."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from evenface.job.pricing import Prices, steps_of_sketch
from evenface.pricing import Group, Line, Money, Price
from evenface.pricing.money import decimal_of, split
from evenface.result import Result, Sketch
from evenface.workplan import Step, Work

type Weights = Mapping[str, float]
"""How much of something belongs to a piece, by its name."""

_BY_AREA = (Group.OFFCUTS, Group.GLUE, Group.FINISH)


@dataclass(frozen=True, slots=True)
class PieceShare:
    """A piece's part of the price without tax. hours : of all hands at its own steps. share : of the price."""

    piece: str
    count: int
    hours: float
    share: Decimal
    net: Money


def price_by_piece(result: Result, price: Price, prices: Prices) -> tuple[PieceShare, ...]:
    """One for each piece; they close with the net price to the smallest coin.

    Hours count by the steps of the piece, sheets by the area cut for it, wood by its volume, fittings by their number;
    what is the whole job's (laying up to condition, delivery, contingency, margin) follows in proportion. Empty
    while nothing is priced.
    """
    drafted = result.sketch
    names = tuple(one.piece.name for one in drafted.constructions)
    steps = steps_of_sketch(drafted, prices.own_times)
    spread = _spread(drafted, steps, price.lines, names)
    whole = sum(spread.values())
    if whole <= 0.0:
        return ()
    shares = [decimal_of(spread[name] / whole) for name in names[:-1]]
    shares.append(1 - sum(shares, start=Decimal(0)))
    counts = {one.piece.name: one.piece.count for one in drafted.constructions}
    hours = _hours(steps)
    return tuple(
        PieceShare(name, counts[name], hours.get(name, 0.0), share, part)
        for name, share, part in zip(names, shares, split(price.net, shares), strict=True)
    )


def _spread(
    drafted: Sketch, steps: Sequence[Step], lines: Sequence[Line], names: Sequence[str]
) -> dict[str, float]:
    """Cost by piece of every line that can be told apart; the rest would not change the shares."""
    by_work, by_material = _minutes(steps), _materials(drafted)
    areas, fittings = _areas(drafted), _fittings(drafted)
    found = dict.fromkeys(names, 0.0)
    for line in lines:
        if line.amount is None:
            continue
        if line.work is not None:
            weights: Weights = by_work.get(line.work, {})
        elif line.group is Group.FITTINGS:
            weights = fittings.get(str(line.what.values.get("name", "")), {})
        else:
            weights = by_material.get(line.material, areas if line.group in _BY_AREA else {})
        whole = sum(weights.values())
        for name, weight in weights.items() if whole > 0.0 else ():
            found[name] += float(line.amount.amount) * weight / whole
    return {name: max(0.0, cost) for name, cost in found.items()}


def _minutes(steps: Sequence[Step]) -> dict[Work, dict[str, float]]:
    found: dict[Work, dict[str, float]] = defaultdict(lambda: defaultdict(float))
    for step in steps:
        if step.piece:
            found[step.work][step.piece] += step.hand_minutes.total * step.people
    return found


def _hours(steps: Sequence[Step]) -> dict[str, float]:
    found: dict[str, float] = defaultdict(float)
    for step in steps:
        found[step.piece] += step.hand_minutes.total * step.people / 60.0
    return found


def _materials(drafted: Sketch) -> dict[str, dict[str, float]]:
    """Volume of each material in each piece, before waste: of one sheet material it goes by area."""
    found: dict[str, dict[str, float]] = defaultdict(lambda: defaultdict(float))
    for part in drafted.all_parts:
        for layer in part.layers:
            length, width, height = layer.bought_mm or layer.blank_mm
            found[layer.material][part.piece] += part.count * layer.count * length * width * height
    return found


def _areas(drafted: Sketch) -> dict[str, float]:
    found: dict[str, float] = defaultdict(float)
    for part in drafted.all_parts:
        found[part.piece] += part.count * part.finished_mm[0] * part.finished_mm[1]
    return found


def _fittings(drafted: Sketch) -> dict[str, dict[str, float]]:
    found: dict[str, dict[str, float]] = defaultdict(lambda: defaultdict(float))
    for one in drafted.constructions:
        for fitting in one.arranged.fittings:
            found[fitting.name][one.piece.name] += fitting.count * one.piece.count
    return found
