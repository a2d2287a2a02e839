"""Our own quick plan: strips across the stock, columns in the strips, pieces stacked in the columns.

It stands before the engine is asked, and nothing is ever bought beyond it. Pieces are placed in several
orders and lying several ways; the best of these plans is kept. Same input, same plan.
"""

from bisect import bisect_left, insort
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from random import Random
from typing import NamedTuple

from evenface.layouts.lengths import pack_lengths
from evenface.layouts.records import Blank, Saw
from evenface.layouts.stock_records import Axis, StockSize
from evenface.layouts.tree import Leaf, Tree, join, swapped

FEW_ORDERS_FROM = 500
"""From so many pieces on one order is tried: more gain little and would take seconds."""
MOST_SEARCHED = 300
"""How many open strips are looked at for a piece: keeps ten thousand pieces inside seconds."""


class Piece(NamedTuple):
    """A piece to be placed: index of its blank, size, and whether it may turn."""

    blank: int
    length: int
    width: int
    may_turn: bool


@dataclass(slots=True)
class _Column:
    length: int
    room: int
    stack: list[Leaf]


@dataclass(slots=True)
class _Strip:
    """A strip being filled: height, length still free (one kerf beyond included), its columns."""

    height: int
    room: int
    columns: list[_Column] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Bed:
    """What strips are laid on, as the strips see it: length they run along, height they fill."""

    length: int
    height: int
    kerf: int
    stacks: bool


type Order = Callable[[Piece], tuple[int, ...]]
type Way = Callable[[Piece], bool]

ORDERS: tuple[Order, ...] = (
    lambda p: (-p.width, -p.length),
    lambda p: (-max(p.length, p.width), -min(p.length, p.width)),
    lambda p: (-p.length * p.width, -p.width),
    lambda p: (-p.length, -p.width),
)


def _lying(piece: Piece) -> bool:
    return piece.may_turn and piece.width > piece.length


def _standing(piece: Piece) -> bool:
    return piece.may_turn and piece.length > piece.width


def _as_given(piece: Piece) -> bool:
    return False


WAYS: tuple[Way, ...] = (_lying, _standing, _as_given)


def expand(blanks: Sequence[Blank], stick: bool = False) -> list[Piece]:
    """One `Piece` for each piece, in an order that does not depend on the order given."""
    by_size = sorted(range(len(blanks)), key=lambda i: (-blanks[i].length, -blanks[i].width, blanks[i].id))
    return [
        Piece(i, blanks[i].length, 1 if stick else blanks[i].width, blanks[i].may_turn and not stick)
        for i in by_size
        for _ in range(blanks[i].count)
    ]


def fits(piece: Piece | Blank, stock: StockSize) -> bool:
    """Whether the piece alone can be cut from an untouched stock of this size."""
    long, wide = stock.usable_length, stock.usable_width
    if stock.form == "stick":
        return piece.length <= long
    straight = piece.length <= long and piece.width <= wide
    return straight or (piece.may_turn and piece.width <= long and piece.length <= wide)


def strip_plans(
    pieces: Sequence[Piece], stock: StockSize, saw: Saw, seed: int = 0, rounds: int = 0, ordered: bool = True
) -> Iterator[list[Tree]]:
    """Plans for one stock size, one tree for each sheet, every one complete.

    Every piece must fit the stock. rounds : how many more plans to try with pieces in shuffled order.
    ordered : False to leave out the plans that are not shuffled.
    For rolls a plan has one tree unless the roll's length is limited.
    """
    axes: tuple[Axis, ...] = ("along", "across")
    if stock.form == "stick":
        if ordered:
            yield _stick_plan(pieces, stock, saw.kerf)
        return
    if stock.form == "roll":
        axes = ("across",)
    elif saw.first_cut != "any":
        axes = (saw.first_cut,)
    for axis in axes:
        bed = _bed(stock, saw, axis)
        mine = [p if axis == "along" else Piece(p[0], p[2], p[1], p[3]) for p in pieces]
        for strips in _strip_sets(mine, bed, seed, rounds, ordered):
            trees = _trees(strips, bed)
            yield trees if axis == "along" else [swapped(tree) for tree in trees]


def _bed(stock: StockSize, saw: Saw, axis: Axis) -> _Bed:
    length, height = stock.usable_length, stock.usable_width
    if axis == "across":
        length, height = height, length
    return _Bed(length, height, saw.kerf, saw.stages is None or saw.stages >= 3)


def _stick_plan(pieces: Sequence[Piece], stock: StockSize, kerf: int) -> list[Tree]:
    groups = pack_lengths([piece.length for piece in pieces], stock.usable_length, kerf)
    return [join("across", (Leaf(pieces[i].blank, pieces[i].length, 1) for i in g), kerf) for g in groups]


def _strip_sets(
    pieces: list[Piece], bed: _Bed, seed: int, rounds: int, ordered: bool
) -> Iterator[list[_Strip]]:
    few = len(pieces) > FEW_ORDERS_FROM
    ways = [way for way in WAYS if way is _as_given or any(piece.may_turn for piece in pieces)]
    for way in ways if ordered else ():
        for order in ORDERS[:1] if few else ORDERS:
            yield _strips(sorted((_turned(p, way, bed) for p in pieces), key=lambda p: order(p[0])), bed)
    chance = Random(seed)
    for _ in range(rounds):
        way, order = chance.choice(ways), chance.choice(ORDERS)
        loose = [(_turned(p, way, bed), chance.uniform(0.75, 1.0)) for p in pieces]
        loose.sort(key=lambda pair: order(pair[0][0])[0] * pair[1])
        yield _strips([piece for piece, _ in loose], bed)


def _turned(piece: Piece, way: Way, bed: _Bed) -> tuple[Piece, bool]:
    """The piece lying as the way has it, or the other way where only that goes into the bed."""
    turn = way(piece)
    straight = piece.length <= bed.length and piece.width <= bed.height
    across = piece.may_turn and piece.width <= bed.length and piece.length <= bed.height
    turn = (turn and across) or not straight
    return (Piece(piece[0], piece[2], piece[1], True), True) if turn else (piece, False)


def _strips(pieces: list[tuple[Piece, bool]], bed: _Bed) -> list[_Strip]:
    """Each piece into the column or strip it fills best, else into a new strip of its own height."""
    places = _Places(bed, [piece for piece, _ in pieces])
    for piece, turned in pieces:
        places.put(piece, turned)
    return places.strips


class _Places:
    """Strips being filled, with their columns by length and themselves by height: the best place is near by."""

    def __init__(self, bed: _Bed, pieces: Sequence[Piece]) -> None:
        self.bed = bed
        self.strips: list[_Strip] = []
        self.open: list[tuple[int, int]] = []
        self.columns: list[tuple[int, int, int]] = []
        self.heights: list[tuple[int, int]] = []
        either = [min(piece.width, piece.length) for piece in pieces if piece.may_turn]
        self.lowest = min([*either, *(piece.width for piece in pieces)], default=0)
        self.shortest = min([*either, *(piece.length for piece in pieces)], default=0) + bed.kerf

    def put(self, piece: Piece, turned: bool) -> None:
        """On a column first, then into a strip, then into a new one; where least is wasted beside the piece."""
        lies = [(piece.length, piece.width, turned)]
        if piece.may_turn and piece.length != piece.width:
            lies.append((piece.width, piece.length, not turned))
        found = min(filter(None, (self._on_column(at, *lie) for at, lie in enumerate(lies))), default=None)
        if found is not None:
            _, strip, lie, column = found
            length, width, turn = lies[lie]
            self._stack(strip, column, Leaf(piece.blank, length, width, turn))
            return
        beside = min(filter(None, (self._in_strip(at, *lie) for at, lie in enumerate(lies))), default=None)
        strip, lie = (beside[1], beside[2]) if beside is not None else (self._opened(piece.width), 0)
        length, width, turn = lies[lie]
        self._append(strip, Leaf(piece.blank, length, width, turn))

    def _on_column(self, lie: int, length: int, width: int, turn: bool) -> tuple[int, int, int, int] | None:
        if not self.bed.stacks:
            return None
        strips, columns = self.strips, self.columns
        for at in range(bisect_left(columns, (length, -1, -1)), len(columns)):
            long, strip, column = columns[at]
            if strips[strip].columns[column].room >= width:
                return (long - length) * width, strip, lie, column
        return None

    def _in_strip(self, lie: int, length: int, width: int, turn: bool) -> tuple[int, int, int] | None:
        strips, heights, need = self.strips, self.heights, length + self.bed.kerf
        for at in range(bisect_left(heights, (width, -1)), len(heights)):
            height, strip = heights[at]
            if strips[strip].room >= need:
                return (height - width) * length, strip, lie
        return None

    def _stack(self, strip: int, number: int, leaf: Leaf) -> None:
        column = self.strips[strip].columns[number]
        column.room -= leaf.width + self.bed.kerf
        column.stack.append(leaf)
        if column.room < self.lowest:
            _drop(self.columns, (column.length, strip, number))

    def _append(self, number: int, leaf: Leaf) -> None:
        strip = self.strips[number]
        _drop(self.open, (strip.room, number))
        strip.room -= leaf.length + self.bed.kerf
        insort(self.open, (strip.room, number))
        if strip.room < self.shortest:
            _drop(self.heights, (strip.height, number))
        room = strip.height - leaf.width - self.bed.kerf
        strip.columns.append(_Column(leaf.length, room, [leaf]))
        if room >= self.lowest:
            insort(self.columns, (leaf.length, number, len(strip.columns) - 1))

    def _opened(self, height: int) -> int:
        number = len(self.strips)
        self.strips.append(_Strip(height, self.bed.length + self.bed.kerf))
        insort(self.heights, (height, number))
        insort(self.open, (self.strips[number].room, number))
        if len(self.open) > MOST_SEARCHED:
            self._close(self.open.pop(0)[1])
        return number

    def _close(self, number: int) -> None:
        """Look at this strip no more."""
        _drop(self.heights, (self.strips[number].height, number))
        for at, column in enumerate(self.strips[number].columns):
            _drop(self.columns, (column.length, number, at))


def _drop[Entry: tuple[int, ...]](entries: list[Entry], entry: Entry) -> None:
    """Take it out of a sorted list, if it is there."""
    at = bisect_left(entries, entry)
    if at < len(entries) and entries[at] == entry:
        del entries[at]


def _trees(strips: list[_Strip], bed: _Bed) -> list[Tree]:
    """Strips put on as few sheets as can be, each sheet as a tree whose first cuts run along."""
    groups = pack_lengths([strip.height for strip in strips], bed.height, bed.kerf)
    return [join("along", (_strip_tree(strips[i], bed.kerf) for i in group), bed.kerf) for group in groups]


def _strip_tree(strip: _Strip, kerf: int) -> Tree:
    columns: list[Tree] = [
        column.stack[0] if len(column.stack) == 1 else join("along", column.stack, kerf)
        for column in strip.columns
    ]
    return columns[0] if len(columns) == 1 else join("across", columns, kerf)
