"""Outside dimensions of a view, and rows of sizes of the piece where all their ends show in it."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, pairwise
from typing import Final

from evenface.construction.placed import Chain, Point
from evenface.drawings.dimensions import Beside, Span, chain, rows_taken
from evenface.drawings.draft import Draft, figure
from evenface.drawings.scene import TEXT_MM, Dimension, text_width_mm
from evenface.drawings.sight import Look

MOST_ROWS: Final = 5
"""Dimension lines on one side of a view."""
LEAST_MM: Final = 0.8
"""The shortest size on the paper that still stands in a row."""
MOST_AIR_MM: Final = 5.0
"""A size too short for the paper is left out of its row when it is no more than this: a gap."""
_CORNER_MM: Final = 4.0
_SAME_MM: Final = 0.01
_HALVES_UP_MM: Final = 1e-6


def draw_sizes(
    draft: Draft,
    look: Look,
    size_mm: Point,
    chains: Iterable[Chain],
    lines: Sequence[Sequence[float]],
    left_free_mm: float = 0.0,
    sawn_off: bool = False,
) -> tuple[float, ...]:
    """Width below, height at the left, and before each the rows of sizes that fit: gaps too fine to be drawn, if any.

    lines : (x0, y0, x1, y1) of all that is drawn; a row stands where each of its ends lies on one of them.
    left_free_mm : of the paper, kept free for numerals beside the view: then only the height stands behind them.
    Where figures at the left stand below the view, the rows below begin further out. sawn_off : at the right end
    the piece goes on, and no size ends there.
    """
    chains = tuple(chains)
    rows = [] if left_free_mm else _shown(chains, look.up, size_mm, lines, upright=False)
    border = -draft.paper(left_free_mm)
    left, upright = _dimensions(draft, Beside.LEFT, size_mm[look.up], rows, border)
    draft.add(*left)
    under = max((-one.reach[0] - draft.paper(_CORNER_MM) for one in left), default=0.0)
    rows = _shown(chains, look.right, size_mm, lines, upright=True)
    size = size_mm[look.right]
    below, across = _dimensions(draft, Beside.BELOW, size, rows, -max(under, 0.0), sawn_off)
    draft.add(*below)
    fine = {
        high - low
        for row in (*upright, *across)
        for low, high in _sizes(row)
        if not _drawn(draft, high - low)
    }
    return tuple(sorted({round(one, 2) for one in fine}))


def _shown(
    chains: Iterable[Chain], axis: int, size_mm: Point, lines: Sequence[Sequence[float]], upright: bool
) -> list[tuple[float, ...]]:
    """The rows along that axis that take up the whole piece and end on lines of the view."""
    ends = {line[0 if upright else 1] for line in lines if _stands(line) is upright}
    rows = [stations(one) for one in chains if _along(one, axis) and _is_whole(one, size_mm[axis])]
    return [row for row in rows if all(_near(end, ends) for end in row)]


def stations(row: Chain) -> tuple[float, ...]:
    """Where the sizes of a row that takes up the whole piece begin and end, from the origin of the piece."""
    places = list(accumulate((size for _, size in row.members), initial=0.0))
    if row.axis.value.startswith("-"):
        places = [row.total_mm - place for place in reversed(places)]
    return tuple(places)


def _along(row: Chain, axis: int) -> bool:
    return row.axis.vector[axis] != 0.0


def _is_whole(row: Chain, size: float) -> bool:
    return abs(row.total_mm - size) < _SAME_MM


def _stands(line: Sequence[float]) -> bool:
    return abs(line[0] - line[2]) < 1e-9


def _near(end: float, ends: Iterable[float]) -> bool:
    return any(abs(end - one) <= 2 * _SAME_MM for one in ends)


def _dimensions(
    draft: Draft,
    beside: Beside,
    size: float,
    rows: Sequence[tuple[float, ...]],
    border: float,
    sawn_off: bool = False,
) -> tuple[tuple[Dimension, ...], list[tuple[float, ...]]]:
    """The outside size, and as many rows as leave it a place on the sheet; those rows too.

    Rows that can be drawn whole come first, then those with most sizes last.
    """
    spans = set() if sawn_off else {_span(draft, 0.0, size)}
    taken = []
    whole = {row: all(_drawn(draft, high - low) for low, high in _sizes(row)) for row in rows}
    for row in sorted(rows, key=lambda row: (not whole[row], len(row))):
        tried = spans | set(_spans(draft, row[:-1] if sawn_off else row))
        if _roomy(draft, row) and rows_taken(tried, draft.scale) <= MOST_ROWS:
            spans = tried
            taken.append(row)
    return chain(spans, beside, border, draft.scale), taken


def _sizes(row: Sequence[float]) -> list[tuple[float, float]]:
    return [(low, high) for low, high in pairwise(row) if high - low > _SAME_MM]


def _drawn(draft: Draft, size: float) -> bool:
    """Long enough on the paper for a dimension of its own."""
    return size >= draft.paper(LEAST_MM)


def _spans(draft: Draft, row: Sequence[float]) -> Iterator[Span]:
    for low, high in _sizes(row):
        if _drawn(draft, high - low):
            yield _span(draft, low, high)


def _span(draft: Draft, low: float, high: float) -> Span:
    """Ends that are the same but for rounding are drawn once; halves are rounded up, as in tables."""
    return Span(round(low, 3), round(high, 3), figure(high - low + _HALVES_UP_MM, draft.manner), (0.0, 0.0))


def _roomy(draft: Draft, row: Sequence[float]) -> bool:
    """Whether all figures fit the row, and what is too fine to be drawn is air between fronts and no part."""
    sizes = [high - low for low, high in _sizes(row)]
    shown = [one for one in sizes if _drawn(draft, one)]
    long = sum(text_width_mm(figure(one, draft.manner), TEXT_MM) for one in shown)
    fine = max((one for one in sizes if not _drawn(draft, one)), default=0.0)
    return bool(shown) and fine <= MOST_AIR_MM and draft.paper(long) <= row[-1] - row[0]
