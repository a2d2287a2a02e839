"""Variants side by side: a row for each, and across the rows one strip of bars for each quantity."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from evenface.drawings.scene import (
    SMALL_MM,
    TEXT_MM,
    Anchor,
    Area,
    Fill,
    Line,
    Path,
    Primitive,
    Scene,
    Stroke,
    Text,
    scene_of,
    text_width_mm,
)
from evenface.shape.ring import Ring

ROW_MM: Final = 9.0
BAR_MM: Final = 4.2
STRIP_MM: Final = 26.0
FIGURE_MM: Final = 2.0
"""Size of the figures behind the bars."""
_LEAST_MM: Final = 14.0
LONGEST_NAME: Final = 26


@dataclass(frozen=True, slots=True)
class Strip:
    """One quantity over all variants.

    low, high : of each bar; None where a variant has no figure. A quantity that is one number begins at 0.
    texts : what stands behind each bar.
    """

    title: str
    low: tuple[float | None, ...]
    high: tuple[float | None, ...]
    texts: tuple[str, ...]


def comparison_of(title: str, names: Sequence[str], strips: Sequence[Strip]) -> Scene:
    """The picture, 1:1 on the paper. Bars of a strip share one scale; 0 has a line of its own.

    Raises ValueError when a strip has not one bar a variant.
    """
    for strip in strips:
        if not len(strip.low) == len(strip.high) == len(strip.texts) == len(names):
            raise ValueError(f"strip {strip.title!r}: expected {len(names)} bars, was given {len(strip.low)}")
    shown = [name if len(name) <= LONGEST_NAME else name[: LONGEST_NAME - 1] + "…" for name in names]
    left = max((text_width_mm(name, SMALL_MM) for name in shown), default=0.0) + 4.0
    bottom = -ROW_MM * len(names)
    wide = [
        STRIP_MM + max(_LEAST_MM, *(text_width_mm(text, FIGURE_MM) + 5.0 for text in one.texts))
        for one in strips
    ]
    right = left + sum(wide)
    made: list[Primitive] = [Line(0.0, 0.0, right, 0.0, Stroke.VISIBLE, "table")]
    for number, name in enumerate(shown):
        y = -ROW_MM * (number + 1)
        made.append(Text(0.0, y + ROW_MM / 2 - 0.36 * SMALL_MM, name, SMALL_MM, Anchor.START))
        made.append(Line(0.0, y, right, y, Stroke.HATCH, "table"))
    for number, strip in enumerate(strips):
        made += _strip(strip, left + sum(wide[:number]), bottom)
    made.append(Text(0.0, 9.0, title, TEXT_MM, Anchor.START))
    return scene_of(title, 1.0, made)


def _strip(strip: Strip, x0: float, bottom: float) -> list[Primitive]:
    known = [end for ends in (strip.low, strip.high) for end in ends if end is not None]
    least, most = min(0.0, *known, 0.0), max(0.0, *known, 0.0)
    span = (most - least) or 1.0

    def at(figure: float) -> float:
        return x0 + (figure - least) / span * STRIP_MM

    made: list[Primitive] = [
        Text(x0, 2.0, strip.title, SMALL_MM, Anchor.START),
        Line(at(0.0), 0.0, at(0.0), bottom, Stroke.FINE, "table"),
    ]
    for row, (low, high, text) in enumerate(zip(strip.low, strip.high, strip.texts, strict=True)):
        middle = -ROW_MM * (row + 0.5)
        if low is not None and high is not None and high > low:
            ring = _box(at(low), at(high), middle)
            made += [Area((ring,), Fill.BAND, "bars"), Path(ring, True, Stroke.FINE, "bars")]
        beside = x0 + STRIP_MM + 1.2
        made.append(Text(beside, middle - 0.36 * FIGURE_MM, text, FIGURE_MM, Anchor.START))
    return made


def _box(left: float, right: float, middle: float) -> Ring:
    low, high = middle - BAR_MM / 2, middle + BAR_MM / 2
    return ((left, low, 0.0), (right, low, 0.0), (right, high, 0.0), (left, high, 0.0))
