"""A bought sheet with what is cut from it: pieces, trims, offcuts, and the cuts numbered in their order."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from evenface.drawings.draft import Draft, figure, first_fitting
from evenface.drawings.scene import (
    ADVANCE,
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
    text_box,
    text_width_mm,
)
from evenface.drawings.strokes import arrow_head
from evenface.drawings.wood import Fault, beyond, faults_of, outline_of, wane_of
from evenface.layouts.records import Cut, Layout, Offcut, Placed, Sheet
from evenface.shape.ring import Ring
from evenface.shape.segment import Box
from evenface.units import from_grid
from evenface.words import ENGLISH, Manner, said

SCALES: Final = (0.5, 0.2, 0.1, 1 / 15, 0.05, 0.04, 1 / 30, 0.025, 0.02, 0.01)
PAPER_MM: Final = (180.0, 120.0)
STICK_MM: Final = 9.0
_SIZES: Final = (TEXT_MM, SMALL_MM, 2.0, 1.7)
_NUMBER_MM: Final = 1.8
_LIST_COLUMNS: Final = 3


def sheet_of(
    layout: Layout,
    index: int,
    manner: Manner = ENGLISH,
    scale: float | None = None,
    paper_mm: tuple[float, float] = PAPER_MM,
) -> Scene:
    """One sheet of a layout, at the given scale or the largest usual one that lies on the paper.

    Raises IndexError for a sheet the layout does not have.
    """
    sheet = layout.sheets[index]
    room = paper_mm[0] - 6.0, paper_mm[1] - 6.0
    fits = [
        one
        for one in SCALES
        if from_grid(sheet.length) * one <= room[0] and _height(sheet, one) * one <= room[1]
    ]
    scales = (scale,) if scale else (fits or SCALES[-1:])
    return first_fitting((_Picture(layout, index, manner, one).scene() for one in scales), paper_mm)


def _height(sheet: Sheet, scale: float) -> float:
    """How high a sheet is drawn, mm of the piece: a stick, of which only the length counts, as a bar."""
    return STICK_MM / scale if sheet.form == "stick" else from_grid(sheet.width)


class _Picture:
    """One sheet being drawn."""

    def __init__(self, layout: Layout, index: int, manner: Manner, scale: float) -> None:
        self.layout, self.index, self.sheet = layout, index, layout.sheets[index]
        self.draft = Draft(scale, manner)
        self.high = _height(self.sheet, scale)
        self.listed: dict[str, int] = {}
        self.unnumbered: list[int] = []
        self.unnamed: list[str] = []
        self.unlettered: list[str] = []

    def scene(self) -> Scene:
        sheet = self.sheet
        length = from_grid(sheet.length)
        self._draw_trims(length)
        for offcut in sheet.offcuts:
            self._draw_offcut(offcut)
        self._draw_faults()
        for piece in sheet.placed:
            self.draft.add(Path(_ring(self._box(piece)), True, Stroke.VISIBLE, "pieces"))
            for one in piece.apart if piece.inside else ():
                self.draft.add(Path(_ring(self._box(one)), True, Stroke.HIDDEN, "pieces"))
        self.draft.add(Path(self._outline(length), True, Stroke.CUT, "outline"))
        for fault in faults_of(sheet):
            self._name_fault(fault)
        for piece in sheet.placed:
            for one in piece.apart:
                self._name_piece(one)
        for cut in sheet.cuts:
            self._number_cut(cut)
        for offcut in sheet.offcuts:
            self._name_offcut(offcut)
        return self._titled(length)

    def _titled(self, length: float) -> Scene:
        rows = sorted((number, words) for words, number in self.listed.items())
        title = said(
            "{material}: {n:count} of {all:count}, {size}",
            material=self.layout.material,
            n=self.index + 1,
            all=len(self.layout.sheets),
            size=self._size(length, self.high),
        )
        texts = [f"{number}: {words}" for number, words in rows]
        lines = [
            "; ".join(texts[start : start + _LIST_COLUMNS]) for start in range(0, len(texts), _LIST_COLUMNS)
        ]
        notes = [said("{row}", row=line) for line in lines]
        if self.unnumbered:
            left_out = ", ".join(str(number) for number in self.unnumbered)
            notes.append(said("no room here for the numbers of cuts {numbers}", numbers=left_out))
        if self.unlettered:
            notes.append(said("pieces too small to letter: {pieces}", pieces=_counted(self.unlettered)))
        if self.unnamed:
            notes.append(said("also left over: {sizes}", sizes=_counted(self.unnamed)))
        return self.draft.scene(title, *notes)

    def _size(self, length: float, width: float) -> str:
        first = figure(length, self.draft.manner)
        return first if self.sheet.form == "stick" else f"{first} × {figure(width, self.draft.manner)}"

    def _box(self, one: Placed | Offcut) -> Box:
        x, length = from_grid(one.x), from_grid(one.length)
        if self.sheet.form == "stick":
            return x, 0.0, x + length, self.high
        y, width = from_grid(one.y), from_grid(one.width)
        return x, y, x + length, y + width

    def _draw_trims(self, length: float) -> None:
        trim = from_grid(self.sheet.trim)
        if not trim:
            return
        low = 0.0 if self.sheet.form in ("stick", "board") else trim
        rings = (
            _ring((0.0, 0.0, length, self.high)),
            _ring((trim, low, length - trim, self.high - low)),
        )
        self.draft.add(Area(rings, Fill.WASTE, "trims"))
        self.draft.add(Path(rings[1], True, Stroke.FINE, "trims"))

    def _outline(self, length: float) -> Ring:
        """Of a board with its taper."""
        return _ring((0.0, 0.0, length, self.high)) if self.sheet.form == "stick" else outline_of(self.sheet)

    def _draw_faults(self) -> None:
        """Nothing beyond a tapered edge; wane as waste, faults as crossed boxes."""
        if over := beyond(self.sheet):
            self.draft.add(Area((over,), Fill.PIECE, "faults"))
        for ring in wane_of(self.sheet):
            self.draft.add(Area((ring,), Fill.WASTE, "faults"), Path(ring, True, Stroke.HIDDEN, "faults"))
        for (x0, y0, x1, y1), _ in faults_of(self.sheet):
            self.draft.add(
                Area((_ring((x0, y0, x1, y1)),), Fill.PIECE, "faults"),
                Path(_ring((x0, y0, x1, y1)), True, Stroke.ACCENT, "faults"),
                Line(x0, y0, x1, y1, Stroke.ACCENT, "faults"),
                Line(x0, y1, x1, y0, Stroke.ACCENT, "faults"),
            )

    def _name_fault(self, fault: Fault) -> None:
        """What it is, in its middle where it holds the word, else beside it; then nothing lies on it."""
        word = self.draft.manner.translate(fault.kind)
        x0, y0, x1, y1 = fault.box
        wide, tall = self.draft.paper(text_width_mm(word, 2.0) / 2 + 1.0), self.draft.paper(2.0)
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        places = [(x1 + wide, y), (x0 - wide, y), (x, y1 + tall), (x, y0 - tall)]
        if x1 - x0 > 2 * wide and y1 - y0 > 1.5 * tall:
            places.insert(0, (x, y))
        lettered = self.draft.label(word, places, 2.0, layer="faults")
        if lettered is not None:  # on paper of its own: it lies across lines
            paper = _ring(text_box(lettered, self.draft.scale))
            self.draft.primitives[-1:] = [Area((paper,), Fill.PIECE, "faults"), lettered]
        self.draft.keep_off(fault.box)

    def _draw_offcut(self, offcut: Offcut) -> None:
        box = self._box(offcut)
        self.draft.add(Area((_ring(box),), Fill.OFFCUT, "offcuts"))
        self.draft.add(Path(_ring(box), True, Stroke.FINE, "offcuts"))

    def _name_offcut(self, offcut: Offcut) -> None:
        """Its size, after the numbers of the cuts have found their places; else a number for the list."""
        box = self._box(offcut)
        size = self._size(box[2] - box[0], box[3] - box[1])
        if any(self._label(part, (size,), (SMALL_MM, 2.0), "offcuts", backed=True) for part in _parts(box)):
            return
        words = self.draft.words(said("offcut {size}", size=size))
        number = self.listed.get(words, len(self.listed) + 1)
        if any(
            self._label(part, (f"({number})",), (2.0, 1.7), "offcuts", backed=True) for part in _parts(box)
        ):
            self.listed[words] = number
        else:
            self.unnamed.append(size)

    def _name_piece(self, piece: Placed) -> None:
        """Part and size, as large as fits and along the piece if need be; else a number for the list."""
        box = self._box(piece)
        length, width = (piece.width, piece.length) if piece.turned else (piece.length, piece.width)
        size = self._size(from_grid(length), from_grid(width))
        drawn = self._label(box, (piece.part, size), _SIZES, "labels")
        if not drawn:
            words = f"{piece.part} {size}"
            number = self.listed.get(words, len(self.listed) + 1)
            if self._label(box, (f"({number})",), _SIZES, "labels"):
                self.listed[words] = number
            else:
                self.unlettered.append(words)
        self._draw_way(piece, box)

    def _draw_way(self, piece: Placed, box: Box) -> None:
        """A small arrow along the length of the piece, where it does not touch its name."""
        paper = self.draft.paper
        half, clear = paper(3.5), paper(1.6)
        for x, y in self._arrow_places(box, piece.turned):
            if piece.turned:
                a, b = (x, y - half), (x, y + half)
            else:
                a, b = (x - half, y), (x + half, y)
            around = (a[0] - clear / 2, a[1] - clear / 2, b[0] + clear / 2, b[1] + clear / 2)
            if _holds(box, around) and self.draft.is_free(around):
                arrow = arrow_head(b, a, self.draft.scale, "directions")
                self.draft.add(
                    Line(*a, *b, Stroke.ACCENT, "directions"),
                    Path(arrow.vertices, False, Stroke.ACCENT, "directions"),
                )
                self.draft.keep_off(around)
                return

    def _arrow_places(self, box: Box, standing: bool) -> Iterator[tuple[float, float]]:
        """Beside the name of a piece, then further along it."""
        x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        for drop in (5.5, 4.4, -5.5, -4.4):
            step = self.draft.paper(drop)
            yield (x + step, y) if standing else (x, y - step)
        for share in (0.3, -0.3, 0.4, -0.4, 0.2, -0.2, 0.46, -0.46):
            yield x + share * (box[2] - box[0]), y
            yield x, y + share * (box[3] - box[1])

    def _label(
        self, box: Box, rows: Sequence[str], sizes: Sequence[float], layer: str, backed: bool = False
    ) -> bool:
        """Rows of lettering in the middle of a box, lying or standing; False when no size fits."""
        for size in sizes:
            wide = self.draft.paper(max(text_width_mm(row, size) for row in rows) + 1.2)
            tall = self.draft.paper(1.35 * size * len(rows) + 0.4)
            for standing in (False, True):
                across, up = (tall, wide) if standing else (wide, tall)
                around = _middle_box(box, across, up)
                if _holds(box, around) and self.draft.is_free(around):
                    if backed:
                        self.draft.add(Area((_ring(around),), Fill.PIECE, layer))
                    self.draft.add(*self._rows(box, rows, size, standing, layer))
                    return True
        return False

    def _rows(self, box: Box, rows: Sequence[str], size: float, standing: bool, layer: str) -> Iterator[Text]:
        x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
        for number, row in enumerate(rows):
            drop = self.draft.paper((number - (len(rows) - 1) / 2) * 1.35 * size + 0.26 * size)
            at = (x + drop, y) if standing else (x, y - drop)
            yield Text(*at, row, size, Anchor.MIDDLE, 90.0 if standing else 0.0, layer)

    def _number_cut(self, cut: Cut) -> None:
        """Its number in a ring: outside the sheet where the cut reaches its border, else on the cut."""
        radius = self.draft.paper(max(1.5, 0.5 + ADVANCE * _NUMBER_MM * len(str(cut.number)) / 2))
        for x, y in self._number_places(cut, radius):
            around = (x - radius, y - radius, x + radius, y + radius)
            if self.draft.is_free(around):
                break
        else:
            self.unnumbered.append(cut.number)
            return
        base = y - self.draft.paper(0.36 * _NUMBER_MM)
        disc: Ring = ((x - radius, y, 1.0), (x + radius, y, 1.0))
        self.draft.add(
            Area((disc,), Fill.PIECE, "cuts"),
            Circle(x, y, radius, Stroke.FINE, "cuts"),
            Text(x, base, str(cut.number), _NUMBER_MM, Anchor.MIDDLE, 0.0, "cuts"),
        )
        self.draft.keep_off(around)

    def _number_places(self, cut: Cut, radius: float) -> Iterator[tuple[float, float]]:
        at = from_grid(cut.position) + from_grid(cut.kerf) / 2
        first, last = from_grid(cut.from_), from_grid(cut.to_)
        along = cut.axis == "along"
        trim = from_grid(self.sheet.trim)
        end = from_grid(self.sheet.length) if along else self.high
        stick = self.sheet.form == "stick"
        if stick:
            first, last = 0.0, self.high
        outside = []
        if stick or first <= trim + 1e-6:
            outside += [-radius * 1.3, -radius * 3.6]
        if stick or last >= end - trim - 1e-6:
            outside += [end + radius * 1.3, end + radius * 3.6]
        run = last - first
        places = [*outside, *(first + run * s for s in (0.5, 0.25, 0.75, 0.1, 0.9, 0.03, 0.97))]
        for place in places:
            yield (place, at) if along else (at, place)


def _counted(names: Sequence[str]) -> str:
    """Like names once, with how often they come."""
    return ", ".join(f"{n}× {name}" if n > 1 else name for name, n in Counter(names).items())


def _ring(box: Box) -> Ring:
    x0, y0, x1, y1 = box
    return ((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0))


def _parts(box: Box) -> Iterator[Box]:
    """The whole of a box, then its halves."""
    x0, y0, x1, y1 = box
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    yield from (box, (x0, y0, x, y1), (x, y0, x1, y1), (x0, y0, x1, y), (x0, y, x1, y1))


def _middle_box(box: Box, across: float, up: float) -> Box:
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    return x - across / 2, y - up / 2, x + across / 2, y + up / 2


def _holds(box: Box, inner: Box) -> bool:
    return box[0] <= inner[0] and box[1] <= inner[1] and inner[2] <= box[2] and inner[3] <= box[3]
