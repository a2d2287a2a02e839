"""Outside dimensions of a view, and rows of sizes of the piece where all their ends show in it."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, pairwise
from typing import Final

from evenface.construction.placed import Chain, Point
from evenface.drawings.dimensions import Beside, Span, chain
from evenface.drawings.draft import Draft, figure
from evenface.drawings.scene import Dimension, text_width_mm
from evenface.drawings.sight import Look

MOST_ROWS: Final = 5
"""Dimension lines on one side of a view."""
_SAME_MM: Final = 0.01


def draw_sizes(
    draft: Draft, look: Look, size_mm: Point, chains: Iterable[Chain], lines: Sequence[Sequence[float]]
) -> None:
    """Width below, height at the left, and before each the rows of sizes that fit.

    lines : (x0, y0, x1, y1) of all that is drawn; a row stands where each of its ends lies on one of them.
    """
    given = list(chains)
    for axis, beside, upright in ((look.right, Beside.BELOW, True), (look.up, Beside.LEFT, False)):
        ends = {round(line[0 if upright else 1], 2) for line in lines if _stands(line) is upright}
        rows = [stations(one) for one in given if _along(one, axis) and _is_whole(one, size_mm[axis])]
        shown = [row for row in rows if all(_near(end, ends) for end in row)]
        draft.add(*_dimensions(draft, beside, size_mm[axis], shown))


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
    draft: Draft, beside: Beside, size: float, rows: Sequence[tuple[float, ...]]
) -> tuple[Dimension, ...]:
    """The outside size, and as many rows as leave it a place on the sheet; rows with most sizes last."""
    spans = {_span(draft, 0.0, size)}
    for row in sorted(rows, key=len):
        tried = spans | set(_spans(draft, row))
        if len({_line_of(one) for one in _set(draft, beside, tried)}) <= MOST_ROWS and _roomy(draft, row):
            spans = tried
    return _set(draft, beside, spans)


def _set(draft: Draft, beside: Beside, spans: Iterable[Span]) -> tuple[Dimension, ...]:
    return chain(spans, beside, 0.0, draft.scale)


def _spans(draft: Draft, row: Sequence[float]) -> Iterator[Span]:
    for low, high in pairwise(row):
        if high - low > _SAME_MM:
            yield _span(draft, low, high)


def _span(draft: Draft, low: float, high: float) -> Span:
    """Ends that are the same but for rounding are drawn once."""
    return Span(round(low, 3), round(high, 3), figure(high - low, draft.manner), (0.0, 0.0))


def _roomy(draft: Draft, row: Sequence[float]) -> bool:
    """Whether the figures of a row, all set one behind the other, would not be longer than the row."""
    long = sum(text_width_mm(figure(b - a, draft.manner), 3.0) for a, b in pairwise(row))
    return draft.paper(long) <= row[-1] - row[0]


def _line_of(one: Dimension) -> float:
    return round(one.on[0] if one.angle_deg else one.on[1], 4)
