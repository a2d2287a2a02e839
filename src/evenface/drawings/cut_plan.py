"""A sheet of a layout for other programs and machines: bare geometry in mm, one layer for each kind of thing.

Layers: sheet (outline), trim (what is left inside the trims), part, run (what is cut apart last), rest (what is left
over), cut (middle of each saw cut), defect (wane, knots, damage), text (names, sizes, numbers of cuts). The reference
corner of the sheet lies at 0, 0. Of a stick the length counts; it is drawn as a bar of its own width or `STICK_MM`.
"""

from collections.abc import Iterator, Sequence
from typing import Final

from evenface.drawings.scene import ADVANCE, Anchor, Line, Path, Primitive, Scene, Stroke, Text, scene_of
from evenface.drawings.wood import faults_of, outline_of, wane_of
from evenface.layouts.records import Cut, Layout, Offcut, Placed, Sheet
from evenface.shape.ring import Ring
from evenface.shape.segment import Box
from evenface.units import from_grid, length_figure

LAYERS: Final = ("sheet", "trim", "part", "run", "rest", "cut", "defect", "text")
STICK_MM: Final = 20.0
_SCALE: Final = 0.1
_LARGEST_MM: Final = 40.0
_NUMBER_MM: Final = 12.0


def cut_plan_of(layout: Layout, index: int) -> Scene:
    """One sheet of a layout as bare geometry. Raises IndexError for a sheet the layout does not have."""
    sheet = layout.sheets[index]
    title = f"{layout.material}, {index + 1} of {len(layout.sheets)}"
    return scene_of(title, _SCALE, tuple(_things(layout, sheet)))


def _things(layout: Layout, sheet: Sheet) -> Iterator[Primitive]:
    high = _high(layout, sheet)
    stick = sheet.form == "stick"
    yield _ring(
        _rectangle((0.0, 0.0, from_grid(sheet.length), high)) if stick else outline_of(sheet), "sheet"
    )
    if sheet.trim:
        trim, side = from_grid(sheet.trim), 0.0 if sheet.form in ("stick", "board") else from_grid(sheet.trim)
        yield _ring(_rectangle((trim, side, from_grid(sheet.length) - trim, high - side)), "trim")
    yield from _faults(sheet)
    for rest in sheet.offcuts:
        box = _box(rest, sheet, high)
        yield _ring(_rectangle(box), "rest")
        yield from _named((_size(rest, stick),), box)
    for piece in sheet.placed:
        if piece.inside:
            yield _ring(_rectangle(_box(piece, sheet, high)), "run")
        for one in piece.apart:
            box = _box(one, sheet, high)
            yield _ring(_rectangle(box), "part")
            yield from _named((one.part, _size(one, stick)), box)
    for cut in sheet.cuts:
        yield from _cut(cut, stick, high)


def _high(layout: Layout, sheet: Sheet) -> float:
    if sheet.form != "stick":
        return from_grid(sheet.width)
    return from_grid(layout.section.width) if layout.section is not None else STICK_MM


def _faults(sheet: Sheet) -> Iterator[Primitive]:
    for ring in wane_of(sheet):
        yield _ring(ring, "defect")
    for box, kind in faults_of(sheet):
        yield _ring(_rectangle(box), "defect")
        yield from _named((kind,), box)


def _cut(cut: Cut, stick: bool, high: float) -> Iterator[Primitive]:
    """The middle of the saw cut, with its number at its beginning."""
    at = from_grid(cut.position) + from_grid(cut.kerf) / 2
    low, end = (0.0, high) if stick else (from_grid(cut.from_), from_grid(cut.to_))
    number, size = str(cut.number), _NUMBER_MM * _SCALE
    if cut.axis == "along":
        yield Line(low, at, end, at, Stroke.ACCENT, "cut")
        yield Text(low + 2.0, at + 2.0, number, size, Anchor.START, 0.0, "text")
    else:
        yield Line(at, low, at, end, Stroke.ACCENT, "cut")
        yield Text(at - 2.0, low + 2.0, number, size, Anchor.START, 90.0, "text")


def _named(rows: Sequence[str], box: Box) -> Iterator[Text]:
    """Rows in the middle of a box, along its longer side, no larger than it holds."""
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    long, short = sorted((box[2] - box[0], box[3] - box[1]), reverse=True)
    standing = box[3] - box[1] > box[2] - box[0]
    size = min(_LARGEST_MM, 0.8 * short / (1.4 * len(rows)), 0.9 * long / (ADVANCE * max(map(len, rows))))
    for number, row in enumerate(rows):
        drop = ((number - (len(rows) - 1) / 2) * 1.4 + 0.36) * size
        at = (x + drop, y) if standing else (x, y - drop)
        yield Text(*at, row, size * _SCALE, Anchor.MIDDLE, 90.0 if standing else 0.0, "text")


def _size(one: Placed | Offcut, stick: bool) -> str:
    sizes = (one.length,) if stick else (one.length, one.width)
    return " x ".join(length_figure(from_grid(size)) for size in sizes)


def _ring(ring: Ring, layer: str) -> Path:
    return Path(ring, True, Stroke.VISIBLE, layer)


def _rectangle(box: Box) -> Ring:
    x0, y0, x1, y1 = box
    return ((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0))


def _box(one: Placed | Offcut, sheet: Sheet, high: float) -> Box:
    x, length = from_grid(one.x), from_grid(one.length)
    if sheet.form == "stick":
        return x, 0.0, x + length, high
    return x, from_grid(one.y), x + length, from_grid(one.y + one.width)
