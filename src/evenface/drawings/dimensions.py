"""Dimension chains outside an outline, after the idea of ISO 129-1: stacked, shortest nearest, no overlap.

Figures stand above their line and are read from below and from the right. A length too short for its figure
has it pulled out beside it on the prolonged line. Where a leading line would run through lettering it is
interrupted.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Final

from evenface.drawings.scene import (
    ASCENT,
    DESCENT,
    TEXT_MM,
    Anchor,
    Dimension,
    Text,
    text_width_mm,
)
from evenface.drawings.strokes import OVERSHOOT_MM

FIRST_ROW_MM: Final = 8.0
ROW_MM: Final = 6.5
ABOVE_LINE_MM: Final = 0.9
GAP_MM: Final = 1.0
_PAD_MM: Final = 0.9
_MOST_ROWS: Final = 60


class Beside(Enum):
    """The side of a drawing on which a chain stands: (angle of its lines, which way outwards)."""

    BELOW = (0.0, -1.0)
    ABOVE = (0.0, 1.0)
    LEFT = (90.0, -1.0)
    RIGHT = (90.0, 1.0)


@dataclass(frozen=True, slots=True)
class Span:
    """A length to be shown: from `low` to `high` along the chain, its leading lines starting at `feet`.

    Raises ValueError when it has no length.
    """

    low: float
    high: float
    text: str
    feet: tuple[float, float]

    def __post_init__(self) -> None:
        if not self.low < self.high:
            raise ValueError(f"expected a length above 0, was given {self.low} to {self.high}")


@dataclass(frozen=True, slots=True)
class _Placed:
    span: Span
    row: int
    lettering: tuple[float, float]

    @property
    def reach(self) -> tuple[float, float]:
        return min(self.span.low, self.lettering[0]), max(self.span.high, self.lettering[1])


def chain(
    spans: Iterable[Span], beside: Beside, border: float, scale: float, size_mm: float = TEXT_MM
) -> tuple[Dimension, ...]:
    """Dimensions of some lengths on one side of a drawing, stacked outwards from `border`.

    border : the coordinate, square to the chain, outside which the rows begin.
    """
    unit = 1.0 / scale
    placed = _all_placed(spans, unit, size_mm)
    return tuple(_dimension(one, placed, beside, border, unit, size_mm) for one in placed)


def rows_taken(spans: Iterable[Span], scale: float, size_mm: float = TEXT_MM) -> int:
    """How many dimension lines the same lengths would stand on, without drawing them."""
    return len({one.row for one in _all_placed(spans, 1.0 / scale, size_mm)})


def depth_mm(dimensions: Sequence[Dimension]) -> float:
    """How far a chain reaches from its border on the paper; 0 for none."""
    rows = {round(one.on[0] if one.angle_deg else one.on[1], 6) for one in dimensions}
    return FIRST_ROW_MM + ROW_MM * len(rows) if rows else 0.0


def _all_placed(spans: Iterable[Span], unit: float, size_mm: float) -> list[_Placed]:
    placed: list[_Placed] = []
    for span in sorted(spans, key=lambda span: (span.high - span.low, span.low)):
        placed.append(_place(span, placed, unit, size_mm))
    return placed


def _place(span: Span, placed: Sequence[_Placed], unit: float, size_mm: float) -> _Placed:
    """The innermost row with room; one whose leading lines cross no lettering if there is one."""
    width = (text_width_mm(span.text, size_mm) + 2 * _PAD_MM) * unit
    options = list(_letterings(span, width))
    rows: dict[int, list[tuple[float, float]]] = {}
    for one in placed:
        rows.setdefault(one.row, []).append(one.reach)
    highest = max(rows, default=-1) + 1
    for uncrossed in (True, False):
        for row in range(min(highest + 1, _MOST_ROWS)):
            for lettering in options:
                candidate = _Placed(span, row, lettering)
                if _fits(candidate, rows.get(row, ())) and not (uncrossed and _crosses(candidate, placed)):
                    return candidate
    return _Placed(span, highest, options[0])


def _letterings(span: Span, width: float) -> Iterable[tuple[float, float]]:
    middle, length = (span.low + span.high) / 2, span.high - span.low
    if width <= length:
        slack = (length - width) / 2
        for share in (0.0, -0.5, 0.5, -0.9, 0.9):
            yield middle + share * slack - width / 2, middle + share * slack + width / 2
        return
    yield span.low - width, span.low
    yield span.high, span.high + width


def _fits(candidate: _Placed, beside: Sequence[tuple[float, float]]) -> bool:
    """Whether it meets none of those in its row."""
    low, high = candidate.reach
    return not any(low < last - 1e-9 and first < high - 1e-9 for first, last in beside)


def _crosses(candidate: _Placed, placed: Sequence[_Placed]) -> bool:
    """Whether leading lines of one run through the lettering of another that lies further in."""
    return any(
        (one.row < candidate.row and _through(candidate.span, one.lettering))
        or (one.row > candidate.row and _through(one.span, candidate.lettering))
        for one in placed
    )


def _through(span: Span, lettering: tuple[float, float]) -> bool:
    return any(lettering[0] + 1e-9 < end < lettering[1] - 1e-9 for end in (span.low, span.high))


def _dimension(
    one: _Placed, placed: Sequence[_Placed], beside: Beside, border: float, unit: float, size_mm: float
) -> Dimension:
    angle, outwards = beside.value
    line = _line_of(one.row, outwards, border, unit)
    above = -1.0 if angle else 1.0  # lettering read from the right stands to the left of its line
    middle = (one.lettering[0] + one.lettering[1]) / 2
    base = line + above * ABOVE_LINE_MM * unit
    extensions = []
    for end, foot in zip((one.span.low, one.span.high), one.span.feet, strict=True):
        if _led_further(one, end, foot, placed):
            continue
        stretches = _stretches(
            foot + outwards * GAP_MM * unit,
            line + outwards * OVERSHOOT_MM * unit,
            [
                _lettering_depth(other.row, outwards, above, border, unit, size_mm)
                for other in placed
                if other.row < one.row and other.lettering[0] - 1e-9 < end < other.lettering[1] + 1e-9
            ],
        )
        extensions += [(_point(angle, end, a), _point(angle, end, b)) for a, b in stretches]
    x, y = _point(angle, middle, base)
    return Dimension(
        start=_point(angle, one.span.low, one.span.feet[0]),
        end=_point(angle, one.span.high, one.span.feet[1]),
        angle_deg=angle,
        on=_point(angle, 0.0, line),
        reach=one.reach,
        text=Text(x, y, one.span.text, size_mm, Anchor.MIDDLE, angle, "dimensions"),
        extensions=tuple(extensions),
    )


def _led_further(one: _Placed, end: float, foot: float, placed: Sequence[_Placed]) -> bool:
    """Whether the leading line of an outer row starts at the same place and so serves here too."""
    return any(
        abs(at - end) < 1e-6 and abs(from_ - foot) < 1e-6 and _outer(other, one)
        for other in placed
        for at, from_ in zip((other.span.low, other.span.high), other.span.feet, strict=True)
    )


def _outer(other: _Placed, one: _Placed) -> bool:
    """Whether another dimension lies further out, or further along in the same row."""
    return (other.row, other.span.low) > (one.row, one.span.low)


def _line_of(row: int, outwards: float, border: float, unit: float) -> float:
    return border + outwards * (FIRST_ROW_MM + row * ROW_MM) * unit


def _lettering_depth(
    row: int, outwards: float, above: float, border: float, unit: float, size_mm: float
) -> tuple[float, float]:
    base = _line_of(row, outwards, border, unit) + above * ABOVE_LINE_MM * unit
    ends = (base - above * (DESCENT * size_mm + 0.2) * unit, base + above * (ASCENT * size_mm + 0.2) * unit)
    return min(ends), max(ends)


def _stretches(
    start: float, stop: float, blocked: Sequence[tuple[float, float]]
) -> list[tuple[float, float]]:
    """The pieces of a leading line from start to stop that lettering leaves free."""
    low, high = min(start, stop), max(start, stop)
    free: list[tuple[float, float]] = []
    for first, last in sorted(blocked):
        if last <= low or first >= high:
            continue
        if first > low:
            free.append((low, first))
        low = max(low, last)
    if low < high:
        free.append((low, high))
    return free


def _point(angle: float, along: float, across: float) -> tuple[float, float]:
    return (across, along) if angle else (along, across)
