"""A drawing at true size laid over printed pages: windows, marks, check lines. Numbers only, mm.

Drawing coordinates have y up; page coordinates start at the lower left corner of the paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Literal

from .faults import need
from .segment import Box, Point

type Way = Literal["portrait", "landscape", "fewest"]

PAPERS = {"A4": (210.0, 297.0), "A3": (297.0, 420.0), "Letter": (215.9, 279.4)}
CHECK_MM = 100.0
LEAST_MARGIN_MM = 8.0  # check lines run in the margin, and printers leave 3 to 5 mm blank


@dataclass(frozen=True, slots=True)
class Page:
    """One page: its place in the map (row 0 on top, column 0 left) and its window on the drawing.

    A drawing point (x, y) prints at (x − shift_x, y − shift_y) on the paper. ``cut`` is the window less the
    strip that the next page to the right and above lies on: cut there, or lap the pages by the overlap.
    ``marks`` are drawing points shown on this page and on a neighbour alike, to lay the two true.
    """

    row: int
    column: int
    window: Box
    cut: Box
    shift: Point
    marks: tuple[Point, ...]

    @property
    def name(self) -> str:
        """Row letter and column number, as in the page map: A1 is the upper left page."""
        letters, row = "", self.row
        while row >= 0:
            letters, row = chr(ord("A") + row % 26) + letters, row // 26 - 1
        return f"{letters}{self.column + 1}"


@dataclass(frozen=True, slots=True)
class Tiling:
    """All pages of one drawing, row by row from the top, with the check lines of every page."""

    paper: str
    paper_size: Point
    landscape: bool
    margin_mm: float
    overlap_mm: float
    rows: int
    columns: int
    pages: tuple[Page, ...]

    @property
    def check_lines(self) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
        """A 100 mm line along the lower margin and one along the left margin, in page coordinates."""
        middle, start = self.margin_mm / 2, self.margin_mm
        return (
            ((start, middle), (start + CHECK_MM, middle)),
            ((middle, start), (middle, start + CHECK_MM)),
        )

    def page(self, row: int, column: int) -> Page:
        return self.pages[row * self.columns + column]


def tile(
    drawing: Box, paper: str = "A4", way: Way = "fewest", margin_mm: float = 10.0, overlap_mm: float = 10.0
) -> Tiling:
    """Pages that cover the drawing's box (left, low, right, high) at true size, neighbours overlapping.

    ``fewest`` takes the orientation with fewer pages (portrait when equal). The rest of the last pages is
    shared out, so the drawing stands in the middle of the sheet that is glued together.

    Raises
    ShapeError
        ``paper`` (unknown), ``size`` (empty drawing), ``margin`` (below 8 mm), ``overlap``.
    """
    need(paper in PAPERS, "paper", f"expected one of {', '.join(PAPERS)}, got {paper!r}")
    need(drawing[2] > drawing[0] and drawing[3] > drawing[1], "size", f"nothing to print in {drawing}")
    need(
        margin_mm >= LEAST_MARGIN_MM,
        "margin",
        f"the margin must be at least {LEAST_MARGIN_MM} mm, got {margin_mm}",
    )
    need(way in ("portrait", "landscape", "fewest"), "way", f"no page lies {way!r}")
    short, long = PAPERS[paper]
    ways = {"portrait": ((short, long),), "landscape": ((long, short),)}.get(
        way, ((short, long), (long, short))
    )
    laid = [_laid(drawing, paper, size, margin_mm, overlap_mm) for size in ways]
    return min(laid, key=lambda tiling: len(tiling.pages))


def _laid(drawing: Box, paper: str, size: Point, margin: float, overlap: float) -> Tiling:
    wide, tall = size[0] - 2 * margin, size[1] - 2 * margin
    need(min(wide, tall) >= CHECK_MM, "margin", f"a margin of {margin} mm leaves no room for a 100 mm line")
    need(
        0 <= overlap < min(wide, tall) / 2,
        "overlap",
        f"an overlap of {overlap} mm leaves too little of the page",
    )
    columns, rows = (
        _count(drawing[2] - drawing[0], wide, overlap),
        _count(drawing[3] - drawing[1], tall, overlap),
    )
    left = (drawing[0] + drawing[2] - (columns * wide - (columns - 1) * overlap)) / 2
    low = (drawing[1] + drawing[3] - (rows * tall - (rows - 1) * overlap)) / 2
    pages = []
    for row in range(rows):
        for column in range(columns):
            x = left + column * (wide - overlap)
            y = low + (rows - 1 - row) * (tall - overlap)
            window = (x, y, x + wide, y + tall)
            right_lap = overlap if column < columns - 1 else 0.0
            upper_lap = overlap if row > 0 else 0.0
            pages.append(
                Page(
                    row, column, window, (x, y, window[2] - right_lap, window[3] - upper_lap),
                    (x - margin, y - margin), _marks(window, overlap, row, column, rows, columns),
                )
            )  # fmt: skip
    return Tiling(paper, size, size[0] > size[1], margin, overlap, rows, columns, tuple(pages))


def _count(length: float, printed: float, overlap: float) -> int:
    return max(1, ceil((length - overlap) / (printed - overlap) - 1e-9))


def _marks(window: Box, overlap: float, row: int, column: int, rows: int, columns: int) -> tuple[Point, ...]:
    """Two marks in the middle of every strip shared with a neighbour, a quarter in from its ends."""
    left, low, right, high = window
    half, marks = overlap / 2, []
    quarters_y = (low + (high - low) / 4, high - (high - low) / 4)
    quarters_x = (left + (right - left) / 4, right - (right - left) / 4)
    if column > 0:
        marks += [(left + half, y) for y in quarters_y]
    if column < columns - 1:
        marks += [(right - half, y) for y in quarters_y]
    if row < rows - 1:
        marks += [(x, low + half) for x in quarters_x]
    if row > 0:
        marks += [(x, high - half) for x in quarters_x]
    return tuple(marks)
