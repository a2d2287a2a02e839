"""Loose lines and arcs from a drawing joined into outlines; what does not close is named with its place."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import dist

from evenface.words import said

from .faults import Place, ShapeError, need
from .outline import Outline
from .ring import Ring, is_inside, ring_area, ring_of, turned_back
from .segment import Point, Segment
from .validity import checked

CLOSES_MM = 0.01  # gaps up to this come from rounding in the drawing and are closed
MOST_SEGMENTS = 5_000
MOST_BYTES = 2_000_000
LONGEST_MM = 20_000.0  # no part of furniture is longer: the unit is wrong then


@dataclass(frozen=True, slots=True)
class Drawn:
    """A line or arc as read, with the name of the entity or element it came from."""

    segment: Segment
    source: str


@dataclass(frozen=True, slots=True)
class Note:
    """Something to know about an import: a fixed word, where, and a value in mm (or a count).

    Words: ``gap_closed``, ``dropped_double``, ``dropped_tiny``, ``ignored``, ``unit_assumed``,
    ``unit_doubt_small``, ``unit_doubt_large``, ``curve_fitted``.
    """

    word: str
    source: str = ""
    x_mm: float = 0.0
    y_mm: float = 0.0
    value: float = 0.0


@dataclass(frozen=True, slots=True)
class Imported:
    """Outlines read from a drawing, largest first, in mm, with what was mended or assumed."""

    outlines: tuple[Outline, ...]
    mm_per_unit: float
    notes: tuple[Note, ...]

    @property
    def only(self) -> Outline:
        """The one outline of the drawing.

        Raises
        ShapeError
            ``several`` when there are more, with the place of the second.
        """
        if len(self.outlines) > 1:
            x, y, _ = self.outlines[1].outer[0]
            message = said(
                "expected one outline, found {count}: put the others on another layer",
                count=len(self.outlines),
            )
            raise ShapeError("several", message, Place(0, 0, x, y))
        return self.outlines[0]


def assembled(drawn: Sequence[Drawn], mm_per_unit: float, notes: Sequence[Note] = ()) -> Imported:
    """Outlines from loose pieces in any order and direction.

    Gaps and pieces up to 0.01 mm are closed and dropped, doubled pieces dropped, all noted.

    Raises
    ShapeError
        ``empty``, ``too_many``, ``too_long``, ``open`` (with gap and place), ``branch`` (three pieces meet), and
        whatever ``validity.checked`` finds.
    """
    need(len(drawn) > 0, "empty", "no line or arc was found in the drawing: check the layer's name")
    message = said(
        "{count} pieces are more than the {most} an outline may have", count=len(drawn), most=MOST_SEGMENTS
    )
    need(len(drawn) <= MOST_SEGMENTS, "too_many", message)
    found = list(notes)
    joined = _Ends(_without_doubles(drawn, found))
    joined.check()
    every = list(joined.rings(found))
    rings = [ring for ring in every if abs(ring_area(ring)) > CLOSES_MM**2]
    if not rings:  # two loops of a line that crosses itself may cancel out: then the crossing is the fault
        for ring in every:
            checked(Outline.of(ring))
    need(len(rings) > 0, "empty", "what was drawn encloses no area")
    outlines = tuple(checked(o) for o in _nested(rings))
    largest = max(max(o.size) for o in outlines)
    need(
        largest <= LONGEST_MM,
        "too_long",
        said(
            "what was drawn is {largest} mm long, no part is over {most:g}: is its unit right?",
            largest=f"{largest:.4g}",
            most=LONGEST_MM,
        ),
        largest,
    )
    return Imported(outlines, mm_per_unit, (*found, *_unit_doubts(outlines)))


def _without_doubles(drawn: Sequence[Drawn], notes: list[Note]) -> list[Drawn]:
    kept: list[Drawn] = []
    seen: set[tuple[float, ...]] = set()
    for d in drawn:
        s = d.segment
        ends = sorted(((round(s.x0, 3), round(s.y0, 3)), (round(s.x1, 3), round(s.y1, 3))))
        middle = s.at(0.5)
        key = (*ends[0], *ends[1], round(middle[0], 3), round(middle[1], 3))
        if s.length <= CLOSES_MM:
            notes.append(Note("dropped_tiny", d.source, s.x0, s.y0, s.length))
        elif key in seen:
            notes.append(Note("dropped_double", d.source, s.x0, s.y0))
        else:
            seen.add(key)
            kept.append(d)
    return kept


class _Ends:
    """Pieces with their ends gathered into places: ends within 0.01 mm are one place."""

    def __init__(self, drawn: Sequence[Drawn]) -> None:
        self.drawn = drawn
        self.places: list[Point] = []
        self.at_place: list[list[tuple[int, int]]] = []
        self._cells: dict[tuple[int, int], list[int]] = {}
        self.ends = [
            (self._place(d.segment.first, i, 0), self._place(d.segment.last, i, 1))
            for i, d in enumerate(drawn)
        ]

    def _place(self, point: Point, piece: int, end: int) -> int:
        cx, cy = int(point[0] // CLOSES_MM), int(point[1] // CLOSES_MM)
        near = [n for dx in (-1, 0, 1) for dy in (-1, 0, 1) for n in self._cells.get((cx + dx, cy + dy), [])]
        found = min(near, key=lambda n: dist(self.places[n], point), default=None)
        if found is None or dist(self.places[found], point) > CLOSES_MM:
            found = len(self.places)
            self.places.append(point)
            self.at_place.append([])
            self._cells.setdefault((cx, cy), []).append(found)
        self.at_place[found].append((piece, end))
        return found

    def check(self) -> None:
        """Refuse loose ends and places where more than two pieces meet."""
        for number, pieces in enumerate(self.at_place):
            if len(pieces) == 1:
                raise self._open(number)
            if len(pieces) > 2:
                names = ", ".join(self.drawn[piece].source for piece, _ in pieces[:4])
                message = said(
                    "{count} lines meet ({names}): an outline passes every place once",
                    count=len(pieces),
                    names=names,
                )
                raise ShapeError("branch", message, self._where(number))

    def _open(self, number: int) -> ShapeError:
        here = self.places[number]
        loose = [n for n, p in enumerate(self.at_place) if len(p) == 1 and n != number]
        gap = min((dist(here, self.places[n]) for n in loose), default=0.0)
        message = said(
            "the outline is open: a gap of {gap:.3f} mm, only gaps up to {most} mm are closed",
            gap=gap,
            most=CLOSES_MM,
        )
        return ShapeError("open", message, self._where(number), gap)

    def _where(self, number: int) -> Place:
        piece, _ = self.at_place[number][0]
        return Place(0, piece, *self.places[number], self.drawn[piece].source)

    def rings(self, notes: list[Note]) -> list[Ring]:
        left = set(range(len(self.drawn)))
        return [self._follow(min(left), left, notes) for _ in iter(lambda: bool(left), False)]

    def _follow(self, first: int, left: set[int], notes: list[Note]) -> Ring:
        run: list[Segment] = []
        piece, entry = first, 0
        while piece in left:
            left.discard(piece)
            d = self.drawn[piece]
            s = d.segment if entry == 0 else d.segment.reversed()
            start, end = self.ends[piece][entry], self.ends[piece][1 - entry]
            gap = max(dist(s.first, self.places[start]), dist(s.last, self.places[end]))
            if gap > 1e-6:
                notes.append(Note("gap_closed", d.source, s.x0, s.y0, gap))
            run.append(Segment(*self.places[start], *self.places[end], s.bulge))
            piece, entry = next(
                ((p, e) for p, e in self.at_place[end] if (p, e) != (piece, 1 - entry)), (first, 0)
            )
        return ring_of(run)


def _nested(rings: Sequence[Ring]) -> tuple[Outline, ...]:
    """Outer rings with the rings that lie in them as holes; an island in a hole is an outline of its own."""
    by_size = sorted(rings, key=lambda ring: -abs(ring_area(ring)))
    outers: list[tuple[Ring, list[Ring]]] = []
    for number, ring in enumerate(by_size):
        x, y, _ = ring[0]
        around = sum(1 for other in by_size[:number] if is_inside(other, (x, y)))
        if around % 2 == 0:
            outers.append((ring if ring_area(ring) > 0 else turned_back(ring), []))
        else:
            home = next(holes for outer, holes in reversed(outers) if is_inside(outer, (x, y)))
            home.append(ring if ring_area(ring) < 0 else turned_back(ring))
    return tuple(Outline((outer, *holes)) for outer, holes in outers)


def _unit_doubts(outlines: Sequence[Outline]) -> list[Note]:
    """Parts of furniture lie between a finger's width and a room's length; else the unit may be wrong."""
    largest = max(max(o.size) for o in outlines)
    if largest < 10:
        return [Note("unit_doubt_small", value=largest)]
    if largest > 6_000:
        return [Note("unit_doubt_large", value=largest)]
    return []
