"""Whole plans out of patterns: those met while a bound was looked for, rounded to whole sheets.

A restricted master chooses how often each pattern is cut. What it takes whole is fixed, patterns are generated for
what is left, and so on until nothing is left; then the solver may choose among all patterns met, in whole numbers.
Nothing here is trusted: the parent makes trees of the places and verifies them.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import repeat
from math import floor
from random import Random
from typing import Any, Final

import numpy as np

from evenface.layouts.columns import FULL_WORTH, Column, Model

ROUNDS: Final = 200
"""Patterns generated for what is left, before some of them are fixed."""
EARLY_DIVES: Final = 3
MOST_COLUMNS: Final = 6_000
COUNTED_DIVES: Final = 12
COUNTED_NODES: Final = 400
"""Where the same demand must give the same plan: so much is tried and no more, whatever time there is."""

type Spot = tuple[int, int, int]
type Sheet = tuple[int, int, tuple[Spot, ...]]
"""Which stock, how many cut alike, and (row, x, y) of each piece."""


@dataclass(frozen=True, slots=True)
class _Known:
    """A column that can be cut, and how often each piece is in it."""

    column: Column
    holds: tuple[tuple[int, int], ...]


def rounded_plans(
    model: Model,
    met: Sequence[Column],
    enough: Fraction,
    until: Callable[[], bool],
    seconds: float,
    counted: bool = False,
) -> Iterator[list[Sheet]]:
    """Plans, each cheaper than the last, until `until()` says stop or one costs no more than `enough`.

    seconds : the most the choice in whole numbers may take. counted : the search ends by itself, by what it
    has tried. Imports the solver: only for the child process.
    """
    known = _distinct(model, met)
    best: Fraction | None = None
    for plan in _tried(model, known, until, seconds, counted):
        cost = sum((model.bins[bin].cost * times for bin, times, _ in plan), Fraction(0))
        if best is None or cost < best:
            best = cost
            yield plan
        if best <= enough or until():
            return


def _tried(
    model: Model, known: dict[Column, _Known], until: Callable[[], bool], seconds: float, counted: bool
) -> Iterator[list[Sheet]]:
    chance = Random(0)
    yield from _dive(model, known, until, None)
    for _ in range(EARLY_DIVES):
        yield from _dive(model, known, until, chance)
    if not until():
        yield from _chosen(model, list(known.values())[-MOST_COLUMNS:], seconds, counted)
    for _ in repeat(None, COUNTED_DIVES) if counted else repeat(None):
        if until():
            return
        yield from _dive(model, known, until, chance)


def _distinct(model: Model, met: Sequence[Column]) -> dict[Column, _Known]:
    known: dict[Column, _Known] = {}
    for column in met:
        _add(model, known, column)
    for index, row in enumerate(model.rows):
        for number, one in enumerate(model.bins):
            if row.size <= one.capacity and row.other <= (one.along or row.other):
                _add(model, known, Column(number, ((index, 0, 0),)))
    return known


def _add(model: Model, known: dict[Column, _Known], column: Column) -> bool:
    """Keep a column unless it is kept already; a line that holds a hair too much loses its last piece."""
    if not model.stages:
        capacity = model.bins[column.bin].capacity
        spots = list(column.spots)
        while spots and spots[-1][1] + model.rows[spots[-1][0]].size > capacity:
            spots.pop()
        column = Column(column.bin, tuple(spots))
    if not column.spots or column in known:
        return False
    holds: dict[int, int] = {}
    for row, _, _ in column.spots:
        piece = model.rows[row].piece
        holds[piece] = holds.get(piece, 0) + 1
    known[column] = _Known(column, tuple(sorted(holds.items())))
    return True


def _dive(
    model: Model, known: dict[Column, _Known], until: Callable[[], bool], chance: Random | None
) -> Iterator[list[Sheet]]:
    """A plan, or none when the time is up. chance : draws which pattern is fixed next; None takes the fullest."""
    left = list(model.counts)
    sheets: list[Sheet] = []
    while any(left):
        if until():
            return
        columns, values = _relaxed(model, known, left, until)
        whole = [(one, floor(value + 1e-6)) for one, value in zip(columns, values, strict=True)]
        taken = [(one, times) for one, times in whole if times > 0]
        if not taken:
            taken = [(_next(columns, values, chance), 1)]
        before = sum(left)
        for one, times in taken:
            sheets += _cut(model, one.column, times, left)
        if sum(left) == before:
            return
    yield sheets


def _next(columns: Sequence[_Known], values: Sequence[float], chance: Random | None) -> _Known:
    if chance is None:
        return columns[max(range(len(columns)), key=lambda at: (values[at], -at))]
    return chance.choices(columns, [max(0.0, value) ** 2 + 1e-9 * (value > 0) for value in values])[0]


def _relaxed(
    model: Model, known: dict[Column, _Known], left: Sequence[int], until: Callable[[], bool]
) -> tuple[list[_Known], list[float]]:
    """The patterns and how often each is cut where parts of a sheet are allowed, for what is left."""
    now = replace(model, counts=tuple(left))
    pricers = now.pricers()
    columns = list(known.values())
    master = _master(model, columns, left)
    for _ in range(ROUNDS):
        master.run()
        duals = np.maximum(0.0, np.array(master.getSolution().row_dual[: len(left)]))
        duals[[at for at, count in enumerate(left) if count == 0]] = 0.0
        most = duals.max(initial=0.0)
        if most <= 0 or until():
            break
        whole = np.floor(duals / most * FULL_WORTH).astype(np.int64)
        by_row = np.array([whole[row.piece] for row in model.rows], dtype=np.int64)
        added = False
        for number, (one, price) in enumerate(zip(model.bins, pricers, strict=True)):
            priced = price(by_row)
            if priced.value * most / FULL_WORTH <= float(one.cost) * (1 + 1e-7):
                continue
            column = _within(model, Column(number, tuple(priced.spots)), left)
            if _add(model, known, column):
                added = True
                fresh = list(known.values())[-1]
                columns.append(fresh)
                rows = [piece for piece, _ in fresh.holds]
                cover = [float(min(times, max(1, left[piece]))) for piece, times in fresh.holds]
                master.addCol(float(one.cost), 0.0, float("inf"), len(rows), rows, cover)
        if not added:
            break
    return columns, list(master.getSolution().col_value)


def _master(model: Model, columns: Sequence[_Known], left: Sequence[int]) -> Any:
    import highspy

    solver: Any = highspy
    master = solver.Highs()
    master.setOptionValue("output_flag", False)
    master.setOptionValue("threads", 1)
    for count in left:
        master.addRow(float(count), solver.kHighsInf, 0, [], [])
    for one in columns:
        rows = [piece for piece, _ in one.holds]
        cover = [float(min(times, max(1, left[piece]))) for piece, times in one.holds]
        cost = float(model.bins[one.column.bin].cost)
        master.addCol(cost, 0.0, float("inf"), len(rows), rows, cover)
    return master


def _within(model: Model, column: Column, left: Sequence[int]) -> Column:
    """The pattern without the pieces of which no more are wanted."""
    room, spots = list(left), []
    for spot in column.spots:
        piece = model.rows[spot[0]].piece
        if room[piece] > 0:
            room[piece] -= 1
            spots.append(spot)
    return Column(column.bin, tuple(spots))


def _cut(model: Model, column: Column, times: int, left: list[int]) -> Iterator[Sheet]:
    """Sheets of one pattern, fewer pieces on the last ones where less is left; `left` is brought up to date."""
    for _ in range(times):
        fitted = _within(model, column, left)
        if not fitted.spots:
            return
        for row, _, _ in fitted.spots:
            left[model.rows[row].piece] -= 1
        yield fitted.bin, 1, fitted.spots


def _chosen(model: Model, columns: Sequence[_Known], seconds: float, counted: bool) -> Iterator[list[Sheet]]:
    """The cheapest choice in whole numbers among these patterns that was found in time, if any."""
    if seconds < 0.05:
        return
    import highspy

    solver: Any = highspy
    master = _master(model, columns, model.counts)
    whole = [solver.HighsVarType.kInteger] * len(columns)
    master.changeColsIntegrality(len(columns), list(range(len(columns))), whole)
    master.setOptionValue("time_limit", seconds)
    if counted:
        master.setOptionValue("mip_max_nodes", COUNTED_NODES)
    master.run()
    values = list(master.getSolution().col_value)
    if len(values) != len(columns):
        return
    left = list(model.counts)
    sheets = [
        sheet
        for one, value in zip(columns, values, strict=True)
        for sheet in _cut(model, one.column, floor(value + 0.5), left)
    ]
    if not any(left):
        yield sheets
