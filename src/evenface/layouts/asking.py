"""Asking the engine for better plans: questions, answers turned into trees, lengths searched for."""

import math
import time
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Final

from evenface.layouts.engine import Answer, Engine
from evenface.layouts.plans import Plan, bought_by, rank
from evenface.layouts.records import Blank, Demand, measure_of
from evenface.layouts.stock_records import StockSize
from evenface.layouts.tree import Leaf, Spot, Tree, recover

DETERMINISTIC_BELOW = 60
"""Fewer pieces than this are planned by runs that are counted, not timed: the same plan every time."""


def _rung(method: str, queue: int, rounds: int) -> Answer:
    """A run of one of the engine's methods that ends by itself: how much it keeps open, how often it corrects."""
    return {
        "mode": "NotAnytimeDeterministic",
        "set": {
            f"use_{method}": True,
            "not_anytime_tree_search_queue_size": queue,
            "not_anytime_sequential_value_correction_number_of_iterations": rounds,
        },
    }


COUNTED: Final = tuple(
    _rung(method, queue, rounds)
    for queue, rounds in ((16, 2), (128, 8), (512, 32))
    for method in ("tree_search", "sequential_value_correction")
)
"""From short to long: the first takes hundredths of a second and has the best plan nearly always. A longer one
counts only where it saves stock, so that it does not matter to the plan how many of them the time allows."""
BY_THE_CLOCK: Final[Answer] = {"mode": "Anytime"}
"""The engine as it works by itself: for many pieces, and for few in the time the counted runs leave over."""
PASSES: Final = (COUNTED[0:3:2], COUNTED[1:2], COUNTED[3:5], (BY_THE_CLOCK,))
"""By which runs a shorter roll is sought, first by those that take hundredths of a second."""
PAIRS_BELOW = 200
"""From so many pieces on two of the engine's reductions eat its whole time; they are left out."""
MOST_ASKED = 3000
SHORTEST_S = 0.05
FIRST_SHARE = 0.5
SLICES = 8
LEAST_SLICE_S = 0.3
"""A length is tried for an eighth of the time, at least so long."""


def better_plans(
    demand: Demand,
    blanks: Sequence[Blank],
    standing: Plan,
    bound: int | Decimal,
    engine: Engine,
    limit_s: float,
) -> Iterator[int | Decimal | Plan]:
    """Plans of the engine that beat the one that stands, each better than the last, and bounds in between.

    A bound is what the engine shows that no plan can be below, in the unit of the aim.
    blanks : those that are to be cut (too large ones left out), in the order of the pieces' indices.
    Raises EngineFailed when the engine crashes, refuses or overruns its time.
    """
    if sum(blank.count for blank in blanks) > MOST_ASKED or limit_s < SHORTEST_S:
        return
    if demand.stock[0].form == "board":
        return  # where a piece may lie in a board is more than the engine is told
    if demand.stock[0].form == "roll":
        yield from _shorter(demand, blanks, standing, bound, engine, limit_s)
        return
    stock = [size for size in demand.stock if size.copies != 0]
    question = question_of(demand, blanks, stock)
    question["target"] = _target(demand, bound)
    yield from _improving(demand, blanks, stock, standing, engine.ask(question, limit_s))


def _improving(
    demand: Demand,
    blanks: Sequence[Blank],
    stock: Sequence[StockSize],
    standing: Plan,
    answers: Iterator[Answer],
) -> Iterator[int | Decimal | Plan]:
    best = standing
    for answer in answers:
        if answer.get("bound"):
            yield _bound_in_aim(demand, float(answer["bound"]))
        if "plan" not in answer:
            continue
        plan = _plan(demand, blanks, stock, answer["plan"])
        if plan is not None and rank(plan, demand.aim) < rank(best, demand.aim):
            best = plan
            yield plan
        if answer.get("proved") and plan is not None:
            yield measure_of(demand.aim, bought_by(plan))


def _bound_in_aim(demand: Demand, bound: float) -> int | Decimal:
    """The engine's bound in the unit of the aim, a hair lower so that its rounding cannot make it false."""
    careful = bound * (1.0 - 1e-9)
    if demand.aim == "fewest":
        return math.ceil(careful - 1e-6)
    if demand.aim == "area":
        return math.floor(careful * 10_000.0)
    return Decimal(math.floor(careful * 100)) / 100


def question_of(demand: Demand, blanks: Sequence[Blank], stock: Sequence[StockSize]) -> Answer:
    """What the engine is asked: stock and pieces in its words, and the runs it shall make one after another."""
    count = sum(blank.count for blank in blanks)
    stick = demand.stock[0].form == "stick"
    return {
        "form": "stick" if stick else "sheet",
        "bins": [
            [
                s.usable_length,
                s.usable_width,
                count if s.copies is None else min(s.copies, count),
                _cost(demand, s),
            ]
            for s in stock
        ],
        "items": [[b.length, 1 if stick else b.width, b.count, b.may_turn and not stick] for b in blanks],
        "kerf": demand.saw.kerf,
        "stages": demand.saw.stages,
        "first": demand.saw.first_cut,
        "rungs": [*COUNTED, BY_THE_CLOCK] if count < DETERMINISTIC_BELOW else [BY_THE_CLOCK],
        "pairs": count < PAIRS_BELOW,
        "open": False,
        "target": None,
    }


def _cost(demand: Demand, stock: StockSize) -> float:
    if demand.aim == "money":
        return max(0.01, float(stock.price or 0))
    if demand.aim == "fewest":
        return 1.0
    return (stock.length or 1) * (1 if stock.form == "stick" else stock.width) / 10_000.0


def _target(demand: Demand, bound: int | Decimal) -> float:
    """The bound in the engine's unit, a hair above so that rounding cannot miss it."""
    scale = 10_000.0 if demand.aim == "area" else 1.0
    return float(bound) / scale * (1.0 + 1e-9)


def _plan(
    demand: Demand, blanks: Sequence[Blank], stock: Sequence[StockSize], answer: list[Answer]
) -> Plan | None:
    """The engine's sheets as trees; None when they cannot be cut straight through."""
    first = None if demand.saw.first_cut == "any" else demand.saw.first_cut
    trees: list[tuple[StockSize, Tree]] = []
    for sheet in answer:
        spots: list[Spot] = []
        for item, x, y, length, width in sheet["items"]:
            wide = 1 if demand.stock[0].form == "stick" else width
            long = blanks[item].length if demand.stock[0].form == "stick" else length
            turned = demand.stock[0].form != "stick" and (long, wide) != (
                blanks[item].length,
                blanks[item].width,
            )
            spots.append((x, y, Leaf(item, long, wide, turned)))
        if not spots:
            continue
        try:
            tree = recover(spots, demand.saw.kerf, "across" if demand.stock[0].form == "stick" else first)
        except ValueError:
            return None
        trees += [(stock[sheet["stock"]], tree)] * int(sheet["copies"])
    return Plan(tuple(trees), 0, "engine")


def _shorter(
    demand: Demand,
    blanks: Sequence[Blank],
    standing: Plan,
    bound: int | Decimal,
    engine: Engine,
    limit_s: float,
) -> Iterator[Plan]:
    """Running metres: ask whether all goes into one shorter length, half of the gap at a time, then less.

    The engine's own search for the least length is poor; asked for one sheet of a given length it is good. Of
    several widths the one the plan stands on is made shorter.
    """
    if len(standing.trees) != 1 or standing.trees[0][0].length is not None:
        return
    roll, tree = standing.trees[0]
    until = time.monotonic() + limit_s
    best = standing
    area = sum(blank.length * blank.width * blank.count for blank in blanks)
    low = -(-area // roll.usable_width)
    if demand.aim == "length" and isinstance(bound, int):
        low = max(low, bound - 2 * roll.trim)
    high = tree.length
    for rungs in PASSES:
        share = FIRST_SHARE
        while high - low > max(10, high // 1000) and (high - low) * share >= max(10, high // 2000):
            left_s = until - time.monotonic()
            if left_s < SHORTEST_S:
                return
            if BY_THE_CLOCK in rungs:
                left_s = min(max(LEAST_SLICE_S, limit_s / SLICES), left_s)
            trial = high - max(1, int((high - low) * share))
            found = _one_sheet(demand, blanks, roll, trial, rungs, engine, left_s)
            if found is None:
                share /= 2  # not shown to be impossible: a longer one may be found
                continue
            high = found.trees[0][1].length
            if rank(found, demand.aim) < rank(best, demand.aim):
                best = found
                yield found


def _one_sheet(
    demand: Demand,
    blanks: Sequence[Blank],
    roll: StockSize,
    length: int,
    rungs: Sequence[Answer],
    engine: Engine,
    limit_s: float,
) -> Plan | None:
    question = question_of(demand, blanks, [roll]) | {"rungs": list(rungs)}
    question["bins"] = [[length, roll.usable_width, sum(blank.count for blank in blanks), 1.0]]
    question["target"] = 1.0
    question["first"] = "any"
    found = None
    for answer in engine.ask(question, limit_s):
        if "plan" in answer and found is None:
            plan = _plan(demand, blanks, [roll], answer["plan"])
            found = plan if plan is not None and len(plan.trees) == 1 else None
    return found


def reached(demand: Demand, plan: Plan, bound: int | Decimal) -> bool:
    """Whether no plan can be better."""
    return plan.left == 0 and measure_of(demand.aim, bought_by(plan)) <= bound
