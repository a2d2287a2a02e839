"""The bound of a linear program over patterns, and the certificate by which anyone can check it.

A worth is given to every piece so that what fits together on one stock is worth at most V. Then no plan can do
with less stock than (worth of all pieces) / V. The linear program, solved by column generation (Gilmore and Gomory,
"A linear programming approach to the cutting-stock problem", Oper. Res. 9, 1961), finds good worths; they are
rounded down to whole numbers, and V is found again exactly for those. So rounding in the solver can make the bound
weaker, never false.

Three models: sticks (a pattern is one stick); bars (any line across the sheet or roll is a pattern, its measure
the length it holds for; so for every way of cutting); stages (a pattern is a sheet cut in three stages).
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd
from typing import Any, Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from evenface.layouts.lengths import filled

MOST_POINTS: Final = 12_000
"""Steps into which a capacity is divided: sizes and capacity are rounded down, which keeps the bound true."""
FULL_WORTH: Final = 1_000_000
MOST_PACKED: Final = 300

type Worths = NDArray[np.int64]


class Priced(NamedTuple):
    """The best pattern: its value, how often each row is in it, and (row, x, y) of each piece in it.

    x runs along the stock, y across it. Lines know x alone. Where a capacity had to be divided into coarse steps a
    line may hold a hair too much: `patterns` looks at that before it cuts anything.
    """

    value: int
    pattern: list[int]
    spots: list[tuple[int, int, int]]


class Column(NamedTuple):
    """A pattern met on the way: which stock it is for, and what it holds where."""

    bin: int
    spots: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One way a piece may lie: index of the piece, its size across, and what one piece covers this way."""

    piece: int
    size: int
    amount: int
    other: int = 0


@dataclass(frozen=True, slots=True)
class Bin:
    """One stock: capacity across (and along, for stages), how much one unit of it covers, its cost."""

    capacity: int
    cover: int
    cost: Fraction
    along: int = 0


@dataclass(frozen=True, slots=True)
class Model:
    """Rows, counts of the pieces, stocks. stages : "" for one-dimensional patterns, else the first cuts."""

    rows: tuple[Row, ...]
    counts: tuple[int, ...]
    bins: tuple[Bin, ...]
    stages: str = ""

    def pricers(self) -> "list[Callable[[Worths], Priced]]":
        """For each stock, what finds its best pattern."""
        if self.stages:
            return [_Stages(self, one).price for one in self.bins]
        return [_Line(self, one).price for one in self.bins]


def bound_of(model: Model, worths: Sequence[int]) -> Fraction:
    """Least cost that these worths prove, found exactly. worths : one a row, 0 or more."""
    values = np.array(worths, dtype=np.int64)
    if len(values) != len(model.rows) or values.min(initial=0) < 0 or values.max(initial=0) > FULL_WORTH:
        return Fraction(0)
    return _proved(model, worths, [price(values).value for price in model.pricers()])


def _proved(model: Model, worths: Sequence[int], best: Sequence[int]) -> Fraction:
    least: dict[int, int] = {}
    for row, worth in zip(model.rows, worths, strict=True):
        value = int(worth) * row.amount
        least[row.piece] = min(least.get(row.piece, value), value)
    total = sum(model.counts[piece] * value for piece, value in least.items())
    per = [one.cost / (one.cover * value) for one, value in zip(model.bins, best, strict=True) if value > 0]
    return total * min(per) if per else Fraction(0)


class _Line:
    """Patterns of one dimension: a knapsack in which every piece lies at most as often as there are pieces."""

    def __init__(self, model: Model, one: Bin) -> None:
        step = gcd(one.capacity, *(row.size for row in model.rows))
        step = max(step, -(-one.capacity // MOST_POINTS))
        self.capacity = one.capacity // step
        self.rows = len(model.rows)
        self.sizes = [row.size for row in model.rows]
        self.splits: list[tuple[int, int, int]] = []
        for index, row in enumerate(model.rows):
            size = row.size // step
            if row.size > one.capacity:
                continue
            left = min(model.counts[row.piece], one.capacity // row.size)
            share = 1
            while left > 0:
                times = min(share, left)
                self.splits.append((index, size * times, times))
                left -= times
                share *= 2

    def price(self, worths: Worths) -> Priced:
        best = np.zeros(self.capacity + 1, dtype=np.int64)
        taken: list[tuple[int, int, int, NDArray[np.bool_]]] = []
        for index, size, times in self.splits:
            worth = int(worths[index]) * times
            if worth == 0 or size > self.capacity:
                continue
            other = best[: self.capacity + 1 - size] + worth
            here = best[size:]
            better = np.zeros(self.capacity + 1, dtype=np.bool_)
            better[size:] = other > here
            np.maximum(best[size:], other, out=best[size:])
            taken.append((index, size, times, better))
        at, pattern = self.capacity, [0] * self.rows
        for index, size, times, better in reversed(taken):
            if better[at]:
                pattern[index] += times
                at -= size
        spots, reach = [], 0
        for index, times in enumerate(pattern):
            for _ in range(times):
                spots.append((index, reach, 0))
                reach += self.sizes[index]
        return Priced(int(best[self.capacity]), pattern, spots)


class _Stages:
    """Patterns of a sheet cut in strips, the strips in columns, the columns in pieces (then trimmed).

    Counted as often as they fit, so at least as good as any real pattern. Every sum of sizes is a point.
    """

    def __init__(self, model: Model, one: Bin) -> None:
        self.rows = model.rows
        self.beds: list[tuple[str, _Bed]] = []
        for axis in ("along", "across"):
            if model.stages in (axis, "any"):
                lies = [(r.other, r.size) if axis == "along" else (r.size, r.other) for r in model.rows]
                bed = (one.along, one.capacity) if axis == "along" else (one.capacity, one.along)
                self.beds.append((axis, _Bed(lies, *bed)))

    def price(self, worths: Worths) -> Priced:
        priced = [(axis, bed.price(worths)) for axis, bed in self.beds]
        axis, best = max(priced, key=lambda one: one[1].value)
        if axis == "along":
            return best
        return best._replace(spots=[(row, y, x) for row, x, y in best.spots])


class _Bed:
    """Strips run along x and are stacked in y; `lies` are (length along x, height) of the rows."""

    def __init__(self, lies: Sequence[tuple[int, int]], length: int, height: int) -> None:
        self.able = [n for n, (long, high) in enumerate(lies) if long <= length and high <= height]
        self.count = len(lies)
        longs = np.array([lies[n][0] for n in self.able], dtype=np.int64)
        highs = np.array([lies[n][1] for n in self.able], dtype=np.int64)
        self.highs: list[int] = highs.tolist()
        self.xs, self.ys = points(longs.tolist(), length), points(highs.tolist(), height)
        self.columns = np.unique(longs)
        self.within = longs[None, :] <= self.columns[:, None]
        self.back_y = _back(self.ys, highs)
        self.back_x = _back(self.xs, self.columns)
        self.back_strip = _back(self.ys, self.ys)

    def price(self, worths: Worths) -> Priced:
        worth = worths[self.able]
        stacks, stack_from = self._stacks(worth)
        strips, strip_from = self._strips(stacks)
        sheet, sheet_from = self._sheet(strips[-1])
        pattern = [0] * self.count
        spots: list[tuple[int, int, int]] = []
        at, y0 = len(self.ys) - 1, 0
        while sheet_from[at] >= 0:
            high = int(sheet_from[at])
            x, x0 = len(self.xs) - 1, 0
            while strip_from[x, high] >= 0:
                column, y, up = int(strip_from[x, high]), high, y0
                while stack_from[column, y] >= 0:
                    row = int(stack_from[column, y])
                    pattern[self.able[row]] += 1
                    spots.append((self.able[row], x0, up))
                    y, up = int(self.back_y[row, y]), up + self.highs[row]
                x, x0 = int(self.back_x[column, x]), x0 + int(self.columns[column])
            at, y0 = int(self.back_strip[high, at]), y0 + int(self.ys[high])
        return Priced(int(sheet[-1]), pattern, spots)

    def _stacks(self, worth: Worths) -> tuple[Worths, Worths]:
        """Best worth of a column of each length filled up to each height, and its last piece."""
        value = np.zeros((len(self.columns), len(self.ys)), dtype=np.int64)
        last = np.full(value.shape, -1, dtype=np.int64)
        for y in range(1, len(self.ys)):
            back = self.back_y[:, y]
            trial = np.where(self.within & (back >= 0)[None, :], value[:, back] + worth[None, :], 0)
            last[:, y] = trial.argmax(axis=1)
            value[:, y] = trial.max(axis=1)
            last[value[:, y] == 0, y] = -1
        return value, last

    def _strips(self, stacks: Worths) -> tuple[Worths, Worths]:
        value = np.zeros((len(self.xs), len(self.ys)), dtype=np.int64)
        last = np.full(value.shape, -1, dtype=np.int64)
        for x in range(1, len(self.xs)):
            back = self.back_x[:, x]
            trial = np.where((back >= 0)[:, None], value[back] + stacks, 0)
            last[x] = trial.argmax(axis=0)
            value[x] = trial.max(axis=0)
            last[x, value[x] == 0] = -1
        return value, last

    def _sheet(self, strips: Worths) -> tuple[Worths, Worths]:
        value = np.zeros(len(self.ys), dtype=np.int64)
        last = np.full(value.shape, -1, dtype=np.int64)
        for y in range(1, len(self.ys)):
            back = self.back_strip[1:, y]
            trial = np.where(back >= 0, value[back] + strips[1:], 0)
            value[y] = trial.max()
            last[y] = trial.argmax() + 1 if value[y] > 0 else -1
        return value, last


def points(sizes: Sequence[int], capacity: int) -> NDArray[np.int64]:
    """0 and every sum of sizes up to the capacity."""
    reached, step = _sums(sizes, capacity)
    flags = np.frombuffer(reached.to_bytes(reached.bit_length() // 8 + 1, "little"), dtype=np.uint8)
    return np.flatnonzero(np.unpackbits(flags, bitorder="little")).astype(np.int64) * step


def count_points(sizes: Sequence[int], capacity: int) -> int:
    """How many points there are."""
    return _sums(sizes, capacity)[0].bit_count()


def _sums(sizes: Sequence[int], capacity: int) -> tuple[int, int]:
    """A bit for each multiple of the step that is 0 or a sum of sizes; the step divides every size."""
    step = gcd(*sizes) or 1
    room = capacity // step
    reached, mask = 1, (1 << (room + 1)) - 1
    for size in {size // step for size in sizes}:
        shift = size
        while 0 < shift <= room:
            reached |= (reached << shift) & mask
            shift *= 2
    return reached, step


def _back(at: NDArray[np.int64], sizes: NDArray[np.int64]) -> NDArray[np.int64]:
    """For each size and point the last point from which the size reaches no further; -1 where it does not go."""
    return np.searchsorted(at, at[None, :] - sizes[:, None], side="right") - 1


def best_worths(
    model: Model,
    enough: Fraction,
    until: Callable[[], bool],
    most_rounds: int = 4000,
    met: list[Column] | None = None,
) -> list[int]:
    """Worths by column generation, the best met before `until()` says stop or the bound reaches `enough`.

    met : takes every pattern found on the way.
    Imports the solver, which prints to stdout: only for the child process.
    """
    import highspy

    solver: Any = highspy
    master = solver.Highs()
    master.setOptionValue("output_flag", False)
    master.setOptionValue("threads", 1)
    scale = _rows_and_starts(master, model, solver.kHighsInf)
    pricers = model.pricers()
    if met is not None:
        met += _packed(model)
    best, worths = Fraction(0), [0] * len(model.rows)
    for _ in range(most_rounds):
        master.run()
        duals = np.maximum(0.0, np.array(master.getSolution().row_dual[: len(model.rows)]))
        if not duals.max(initial=0.0) > 0:
            break
        whole = np.floor(duals / duals.max() * FULL_WORTH).astype(np.int64)
        priced = [price(whole) for price in pricers]
        proved = _proved(model, whole.tolist(), [one.value for one in priced])
        if proved > best:
            best, worths = proved, whole.tolist()
        if met is not None:
            met += [Column(number, tuple(one.spots)) for number, one in enumerate(priced) if one.spots]
        if best >= enough or until() or not _new_columns(master, model, priced, duals, scale):
            break
    return worths


def _rows_and_starts(master: Any, model: Model, infinite: float) -> float:
    """Rows "covered at least as often as the pieces that lie this way", and a first pattern for each.

    Gives back by how much covers and amounts are made smaller, so that the solver sees handy numbers.
    """
    scale = 1.0 / max(row.amount for row in model.rows)
    for _ in model.rows:
        master.addRow(0.0, infinite, 0, [], [])
    for count in model.counts:
        master.addRow(float(count), infinite, 0, [], [])
    for index, row in enumerate(model.rows):
        lying = [index, len(model.rows) + row.piece]
        master.addCol(0.0, 0.0, infinite, 2, lying, [-row.amount * scale, 1.0])
        for one in model.bins:
            if row.size <= one.capacity and row.other <= one.along:
                master.addCol(float(one.cost), 0.0, infinite, 1, [index], [one.cover * scale])
    for column in _packed(model):
        held = sorted({row for row, _, _ in column.spots})
        times = [float(sum(row == one for one, _, _ in column.spots)) * scale for row in held]
        master.addCol(float(model.bins[column.bin].cost), 0.0, infinite, len(held), held, times)
    return scale


def _packed(model: Model) -> list[Column]:
    """Sticks filled as full as they can be: patterns to begin with, so that fewer have to be generated."""
    if model.stages or any(one.cover != 1 for one in model.bins) or sum(model.counts) > MOST_PACKED:
        return []
    rows = [index for index, row in enumerate(model.rows) for _ in range(model.counts[row.piece])]
    columns = []
    for number, one in enumerate(model.bins):
        fit = [index for index in rows if model.rows[index].size <= one.capacity]
        for group in filled([model.rows[index].size for index in fit], one.capacity, 0):
            at, spots = 0, []
            for place in group:
                spots.append((fit[place], at, 0))
                at += model.rows[fit[place]].size
            columns.append(Column(number, tuple(spots)))
    return columns


def _new_columns(
    master: Any, model: Model, priced: Sequence[Priced], duals: NDArray[np.float64], scale: float
) -> bool:
    added = False
    for one, (_, pattern, _) in zip(model.bins, priced, strict=True):
        used = [n for n, times in enumerate(pattern) if times]
        cover = [pattern[n] * one.cover * scale for n in used]
        gain = sum(c * float(duals[n]) for c, n in zip(cover, used, strict=True)) - float(one.cost)
        if gain > 1e-7 * float(one.cost):
            master.addCol(float(one.cost), 0.0, float("inf"), len(used), used, cover)
            added = True
    return added
