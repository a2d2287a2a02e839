"""What is seen of upright boxes along one axis, exactly: a grid of all their borders, the nearest box in each cell."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import groupby, pairwise

from evenface.drawings.placed_parts import PlacedPart, Solid
from evenface.shape.ring import Ring
from evenface.shape.segment import Box

type Unit = tuple[bool, int, int]
"""One side of a cell: whether it is upright, its column, its row."""


class Look(Enum):
    """A way of looking: which directions of the piece run right and up on the paper, which one away, and how.

    The last is +1 when what has the higher coordinate is nearer to the eye.
    """

    FRONT = (0, 2, 1, -1)
    SIDE = (1, 2, 0, 1)
    PLAN = (0, 1, 2, 1)

    @property
    def right(self) -> int:
        return self.value[0]

    @property
    def up(self) -> int:
        return self.value[1]

    @property
    def away(self) -> int:
        return self.value[2]

    def nearness(self, solid: Solid) -> float:
        """Of the face of a box that looks at the eye."""
        return solid[1][self.away] if self.value[3] > 0 else -solid[0][self.away]

    def on_paper(self, solid: Solid) -> Box:
        """The rectangle a box takes up."""
        low, high = solid
        return low[self.right], low[self.up], high[self.right], high[self.up]


@dataclass(frozen=True, slots=True)
class Seen:
    """What one cell shows: which of the parts, how near its face is, whether it is cut there."""

    part: int
    near: float
    cut: bool = False


@dataclass(frozen=True, slots=True)
class Sight:
    """A view as cells. xs, ys : borders of the cells; cells[row][column], None where nothing stands."""

    look: Look
    parts: Sequence[PlacedPart]
    xs: tuple[float, ...]
    ys: tuple[float, ...]
    cells: tuple[tuple[Seen | None, ...], ...]

    def units(self) -> Iterator[tuple[Unit, bool]]:
        """Every side of a cell on which two different things meet, and whether something is cut there."""
        beyond = (None,) * (len(self.xs) - 1)
        for row, cells in enumerate(self.cells):
            for column, (one, other) in enumerate(pairwise((None, *cells, None))):
                if one is not other and one != other:
                    yield (True, column, row), _cut(one, other)
        for row, (below, above) in enumerate(pairwise((beyond, *self.cells, beyond))):
            for column, (one, other) in enumerate(zip(below, above, strict=True)):
                if one is not other and one != other:
                    yield (False, column, row), _cut(one, other)

    def hidden_units(self) -> list[Unit]:
        """Sides of cells on borders of parts that something nearer covers, in order."""
        column_of = {x: n for n, x in enumerate(self.xs)}
        row_of = {y: n for n, y in enumerate(self.ys)}
        drawn = {unit for unit, _ in self.units()}
        hidden: set[Unit] = set()
        for part in self.parts:
            x0, y0, x1, y1 = self.look.on_paper(part.whole)
            c0, r0, c1, r1 = column_of[x0], row_of[y0], column_of[x1], row_of[y1]
            hidden |= {(True, column, row) for column in (c0, c1) for row in range(r0, r1)}
            hidden |= {(False, column, row) for row in (r0, r1) for column in range(c0, c1)}
        return [unit for unit in sorted(hidden - drawn) if not self._is_air(unit)]

    def spaced(self, hidden: Iterable[Unit], apart_mm: float) -> Iterator[Unit]:
        """Those of the hidden sides that are no nearer than this to a line beside them, seen or hidden."""
        taken: dict[tuple[bool, int], list[float]] = {}
        for unit, _ in self.units():
            strip, place = self._strip_and_place(unit)
            taken.setdefault(strip, []).append(place)
        for unit in hidden:
            strip, place = self._strip_and_place(unit)
            beside = taken.setdefault(strip, [])
            if all(abs(place - other) >= apart_mm for other in beside):
                beside.append(place)
                yield unit

    def _is_air(self, unit: Unit) -> bool:
        """Whether nothing is seen on either side of it, as in a slot at the end of a part."""
        stands, column, row = unit
        before = self._at(row, column - 1) if stands else self._at(row - 1, column)
        return before is None and self._at(row, column) is None

    def _strip_and_place(self, unit: Unit) -> tuple[tuple[bool, int], float]:
        """The row (or column) of cells a side belongs to, and where in it the side stands."""
        stands, column, row = unit
        return ((True, row), self.xs[column]) if stands else ((False, column), self.ys[row])

    def lines(self, units: Iterable[Unit]) -> Iterator[tuple[float, float, float, float]]:
        """Sides of cells joined to lines (x0, y0, x1, y1) as long as they go."""
        given = sorted(units)
        for column, first, last in _runs([(column, row) for stands, column, row in given if stands]):
            yield self.xs[column], self.ys[first], self.xs[column], self.ys[last]
        level = sorted((row, column) for stands, column, row in given if not stands)
        for row, first, last in _runs(level):
            yield self.xs[first], self.ys[row], self.xs[last], self.ys[row]

    def rectangles(self, part: int) -> Iterator[Box]:
        """Rectangles in which nothing but that part is seen, each as high as it goes for its width."""
        rows = [[cell is not None and cell.part == part for cell in row] for row in self.cells]
        for bottom, row in enumerate(rows):
            for first, last in _stretches(row):
                if bottom and all(rows[bottom - 1][first:last]):
                    continue
                top = bottom + 1
                while top < len(rows) and all(rows[top][first:last]):
                    top += 1
                yield self.xs[first], self.ys[bottom], self.xs[last], self.ys[top]

    def _at(self, row: int, column: int) -> Seen | None:
        inside = 0 <= row < len(self.cells) and 0 <= column < len(self.cells[0])
        return self.cells[row][column] if inside else None


def sight_of(
    parts: Sequence[PlacedPart],
    look: Look,
    cut_at: float | None = None,
    also: Iterable[Box] = (),
) -> Sight:
    """What is seen of the parts.

    cut_at : what stands nearer than this plane square to the look is taken away, what it meets is cut.
    also : rectangles on whose borders the cells are parted too.
    Where two boxes lie in one place, as a tenon in its slot, the one not housed in the other is seen.
    """
    solids = [(n, solid) for n, part in enumerate(parts) for solid in part.solids]
    wholes = [look.on_paper(part.whole) for part in parts]
    boxes = [*wholes, *(look.on_paper(solid) for _, solid in solids), *also]
    xs = tuple(sorted({x for box in boxes for x in (box[0], box[2])}))
    ys = tuple(sorted({y for box in boxes for y in (box[1], box[3])}))
    column_of, row_of = {x: n for n, x in enumerate(xs)}, {y: n for n, y in enumerate(ys)}
    cells: list[list[Seen | None]] = [[None] * (len(xs) - 1) for _ in range(len(ys) - 1)]
    shown = [(_seen(n, solid, look, cut_at), solid) for n, solid in solids]
    present = [(seen, solid) for seen, solid in shown if seen is not None]
    for seen, solid in sorted(present, key=lambda one: _order(one[0], parts)):
        x0, y0, x1, y1 = look.on_paper(solid)
        for row in range(row_of[y0], row_of[y1]):
            cells[row][column_of[x0] : column_of[x1]] = [seen] * (column_of[x1] - column_of[x0])
    return Sight(look, parts, xs, ys, tuple(map(tuple, cells)))


def ring_of_box(box: Box) -> Ring:
    """The outline of a rectangle."""
    x0, y0, x1, y1 = box
    return (x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)


def _order(seen: Seen, parts: Sequence[PlacedPart]) -> tuple[float, bool]:
    """Farther ones first, and of those as near the housed one first: it is painted over."""
    return seen.near, not parts[seen.part].placement.sunk


def _seen(part: int, solid: Solid, look: Look, cut_at: float | None) -> Seen | None:
    if cut_at is None:
        return Seen(part, look.nearness(solid))
    low, high = solid[0][look.away], solid[1][look.away]
    if look.value[3] < 0:
        low, high = -high, -low
    level = cut_at * look.value[3]
    if low >= level:
        return None
    return Seen(part, level, True) if high > level else Seen(part, high)


def _cut(one: Seen | None, other: Seen | None) -> bool:
    return (one is not None and one.cut) or (other is not None and other.cut)


def _runs(places: Sequence[tuple[int, int]]) -> Iterator[tuple[int, int, int]]:
    """Places (line, number) in order, as (line, first, after the last) of those that follow each other."""
    for (line, _), group in groupby(enumerate(places), key=lambda one: (one[1][0], one[1][1] - one[0])):
        numbers = [number for _, (_, number) in group]
        yield line, numbers[0], numbers[-1] + 1


def _stretches(row: Sequence[bool]) -> Iterator[tuple[int, int]]:
    start = 0
    for held, group in groupby(row):
        end = start + len(list(group))
        if held:
            yield start, end
        start = end
