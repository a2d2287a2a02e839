"""How far a part bows and cups from month to month: the band, the nominal line, and what is allowed.

A chart has no scale of the piece: a mm of the rise is as many mm of the paper as its axis says.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil, floor, log10
from types import MappingProxyType
from typing import Final

from evenface.behaviour.records import Behaviour, Bend, Direction
from evenface.drawings.draft import Draft
from evenface.drawings.scene import (
    SMALL_MM,
    TEXT_MM,
    Anchor,
    Area,
    Circle,
    Fill,
    Line,
    Path,
    Scene,
    Stroke,
    Text,
    scene_of,
)
from evenface.units import MM_PER_INCH
from evenface.words import ENGLISH, Manner, Said, figure, said

WIDE_MM: Final = 66.0
HIGH_MM: Final = 30.0
APART_MM: Final = 24.0
_MOST_TICKS: Final = 7
_MONTHS: Final = 12
_TITLES: Final = {
    Direction.BOW: "bow over {gauge:mm}, worst {worst}",
    Direction.CUP: "cup over {gauge:mm}, worst {worst}",
    Direction.TWIST: "twist over {gauge:mm}, worst {worst}",
}


def flat_chart_of(
    behaviour: Behaviour,
    manner: Manner = ENGLISH,
    limits_mm: Mapping[Direction, float] = MappingProxyType({}),
) -> Scene:
    """Charts of bow and cup side by side, each with an axis that holds its limits.

    limits_mm : the rise allowed either way, over the gauge of that bend; no line where none is given.
    Raises ValueError when the behaviour has no bend with a year of twelve months.
    """
    bends = [bend for bend in behaviour.bends if len(bend.year) == _MONTHS]
    if not bends:
        raise ValueError("expected a bend with twelve months, was given none")
    draft = Draft(1.0, manner)
    for number, bend in enumerate(bends):
        limit = limits_mm.get(bend.direction)
        _draw_chart(draft, bend, limit, _axis_of(bend, limit, manner), number * (WIDE_MM + APART_MM))
    title = said("{name}: flatness through the year", name=behaviour.part)
    unit = said("rise in inches") if manner.system == "inch" else said("rise in mm")
    draft.note(
        f"{draft.words(title)} · {draft.words(unit)}", *(draft.words(one) for one in _notes(bends, limits_mm))
    )
    return scene_of(draft.words(title), 1.0, draft.primitives)


@dataclass(frozen=True, slots=True)
class _Axis:
    """Levels that are lettered, in mm of the rise, and how it lies on the paper."""

    low: float
    high: float
    step: float
    unit_mm: float

    def up(self, rise_mm: float) -> float:
        """Height of a rise on the paper, mm."""
        return (rise_mm - self.low) / (self.high - self.low) * HIGH_MM

    @property
    def levels(self) -> tuple[float, ...]:
        first, last = round(self.low / self.step), round(self.high / self.step)
        return tuple(number * self.step for number in range(first, last + 1))

    def figure(self, rise_mm: float, manner: Manner, decimals: int = 3) -> str:
        return figure(rise_mm / self.unit_mm, decimals, manner).replace("-", "−")


def _axis_of(bend: Bend, limit: float | None, manner: Manner) -> _Axis:
    """Whole steps of 1, 2 or 5 that hold flat, the band and the limits."""
    allowed = limit or 0.0
    ends = [-allowed, allowed, *(b.low for b in bend.year), *(b.high for b in bend.year), 0.0]
    unit = MM_PER_INCH if manner.system == "inch" else 1.0
    span = max((max(ends) - min(ends)) / unit, 1e-3)
    raw = span / (_MOST_TICKS - 2)
    ten = 10.0 ** floor(log10(raw))
    step = next(n * ten for n in (1, 2, 5, 10) if n * ten >= raw * (1 - 1e-9)) * unit
    low, high = step * floor(min(ends) / step + 1e-9), step * ceil(max(ends) / step - 1e-9)
    return _Axis(low, high if high > low else low + step, step, unit)


def _draw_chart(draft: Draft, bend: Bend, limit: float | None, axis: _Axis, left: float) -> None:
    worst = axis.figure(bend.deciding_mm, draft.manner, 3 if axis.unit_mm > 1.0 else 1)
    head = draft.words(said(_TITLES[bend.direction], gauge=bend.gauge_mm, worst=worst))
    draft.add(Text(left, HIGH_MM + 4.0, head, TEXT_MM, Anchor.START, 0.0, "labels"))
    low = [(left + x, axis.up(y)) for x, y in _through_the_year([b.low for b in bend.year])]
    high = [(left + x, axis.up(y)) for x, y in _through_the_year([b.high for b in bend.year])]
    draft.add(Area((tuple((x, y, 0.0) for x, y in (*low, *reversed(high))),), Fill.BAND, "band"))
    _draw_axes(draft, axis, left)
    if limit is not None:
        for rise in (-limit, limit):
            y = axis.up(rise)
            draft.line((left, y), (left + WIDE_MM, y), Stroke.ACCENT, "limits")
    nominal = [b.nominal for b in bend.year if b.nominal is not None]
    if len(nominal) == _MONTHS:
        points = tuple((left + x, axis.up(y), 0.0) for x, y in _through_the_year(nominal))
        draft.add(Path(points, False, Stroke.CUT, "nominal"))
    _draw_worst(draft, bend, axis, left)


def _through_the_year(values: list[float]) -> Iterator[tuple[float, float]]:
    """Each month's value in the middle of its month; the settled year closes on itself at both ends."""
    turn = (values[0] + values[-1]) / 2
    each = WIDE_MM / _MONTHS
    yield 0.0, turn
    yield from ((each * (number + 0.5), value) for number, value in enumerate(values))
    yield WIDE_MM, turn


def _draw_axes(draft: Draft, axis: _Axis, left: float) -> None:
    for level in axis.levels:
        y = axis.up(level)
        flat = abs(level) < axis.step / 2
        draft.line((left, y), (left + WIDE_MM, y), Stroke.FINE if flat else Stroke.HATCH, "axes")
        text = axis.figure(level, draft.manner)
        draft.add(Text(left - 1.5, y - 0.36 * SMALL_MM, text, SMALL_MM, Anchor.END, 0.0, "axes"))
    each = WIDE_MM / _MONTHS
    letters = draft.words(said("J F M A M J J A S O N D")).split()
    for number, letter in enumerate(letters):
        draft.add(Text(left + (number + 0.5) * each, -4.0, letter, SMALL_MM, Anchor.MIDDLE, 0.0, "axes"))
    for number in range(_MONTHS + 1):
        draft.add(Line(left + number * each, 0.0, left + number * each, -1.0, Stroke.FINE, "axes"))
    draft.line((left, 0.0), (left, HIGH_MM), Stroke.FINE, "axes")


def _draw_worst(draft: Draft, bend: Bend, axis: _Axis, left: float) -> None:
    """A ring on the edge of the band that decides; its figure stands above the chart."""
    x, y = left + (bend.month - 0.5) * WIDE_MM / _MONTHS, axis.up(bend.deciding_mm)
    draft.add(Circle(x, y, 0.8, Stroke.VISIBLE, "worst"))


def _notes(bends: list[Bend], limits_mm: Mapping[Direction, float]) -> Iterator[Said]:
    yield said("broad line: most likely; band: what it may be; above 0 the show face is domed")
    if any(bend.direction in limits_mm for bend in bends):
        yield said("red lines: the limits; ring: the worst edge of the band in the year")
    else:
        yield said("ring: the worst edge of the band in the year")
