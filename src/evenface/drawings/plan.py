"""The plan of a panel: seen from the show face, with edging, joints, cut-outs, inserts and dimensions."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from evenface.construction import BuiltPanel, Edging, End, EndKind
from evenface.construction.free_outlines import edging_of_free_outline, sides_of
from evenface.drawings.corner_wood import draw_corner_wood, draw_edge_wood
from evenface.drawings.dimensions import Beside, Span, chain
from evenface.drawings.draft import Draft, figure, first_fitting
from evenface.drawings.legend import ROW_MM, corner_rows, detail_rows, paired
from evenface.drawings.marks import direction_arrow, edge_mark, face_mark
from evenface.drawings.outlines import finished_outline, inside
from evenface.drawings.plan_details import details_of, draw_corner_sizes, draw_details, draw_names
from evenface.drawings.scene import SMALL_MM, Path, Scene, Stroke
from evenface.piece.records import Meeting, Role, Side
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.segment import Point, Segment
from evenface.words import ENGLISH, Manner, Said, said

SCALES: Final = (1.0, 0.5, 0.4, 0.2, 0.1, 1 / 15, 0.05, 0.04, 0.02, 0.01)
PAPER_MM: Final = (180.0, 120.0)
_CORNER_MM: Final = 4.0
_FEW: Final = 2
_CROWD_MM: Final = 10.0
_MOST_MM: Final = 80.0
"""A plan with more than a few details may be higher by so much for each, and never by more."""


def plan_of(
    panel: BuiltPanel,
    manner: Manner = ENGLISH,
    scale: float | None = None,
    paper_mm: tuple[float, float] = PAPER_MM,
) -> Scene:
    """The plan at the given scale, else at the largest usual one that lies on the paper.

    With many details it may run past the paper's height, for their dimensions and the rows that give their sizes.
    """
    scales = (scale,) if scale else _worth_trying(panel, paper_mm)
    paper = (paper_mm[0], paper_mm[1] + crowd_mm(panel, manner))
    return first_fitting((_plan(panel, manner, one) for one in scales), paper)


def crowd_mm(panel: BuiltPanel, manner: Manner = ENGLISH) -> float:
    """How much higher a plan may be for the dimensions of many details and the rows that give their sizes."""
    rows = ROW_MM * sum(1 for _ in detail_rows(panel, {}, manner))
    return min(rows + _CROWD_MM * max(0, len(details_of(panel)) - _FEW), _MOST_MM)


def _worth_trying(panel: BuiltPanel, paper_mm: tuple[float, float]) -> Sequence[float]:
    fits = [
        one
        for one in SCALES
        if panel.length_mm * one <= paper_mm[0] - 15 and panel.width_mm * one <= paper_mm[1] - 15
    ]
    return fits or SCALES[-1:]


def _plan(panel: BuiltPanel, manner: Manner, scale: float) -> Scene:
    draft = Draft(scale, manner)
    outline = finished_outline(panel)
    draft.add(*(Path(ring, layer="outline") for ring in outline.rings))
    draw_edgings(draft, panel, outline)
    draw_details(draft, panel)
    draw_dimensions(draft, panel)
    numbers = draw_names(draft, panel)
    lettered = draw_corner_sizes(draft, panel)
    draw_marks(draft, panel)
    rows = [said("{row}", row=row) for row in detail_rows(panel, numbers, manner)]
    return draft.scene(_title(panel), *_notes(panel), *paired(list(corner_rows(panel, lettered))), *rows)


def _title(panel: BuiltPanel) -> Said:
    return said("{name}: plan, show face up", name=panel.name)


def draw_edgings(draft: Draft, panel: BuiltPanel, outline: Outline) -> None:
    """Inner borders of the edging and its mitres, dashed where a facing lies over them."""
    face = panel.face(Role.FACE)
    if panel.panel.outline is not None:
        _draw_along_outline(draft, panel)
        return
    for edging in panel.edgings:
        seen = face is None or edging.top is Meeting.FLUSH
        stroke = Stroke.VISIBLE if seen else Stroke.HIDDEN
        for first, last in _joint_lines(panel, edging):
            for a, b in inside(first, last, outline):
                draft.line(a, b, stroke, "edging")
    stroke = Stroke.VISIBLE if _seen_corners(panel) else Stroke.HIDDEN
    for piece in _built_corners(panel):
        ring = ((piece.x0, piece.y0, piece.bulge), (piece.x1, piece.y1, 0.0))
        draft.add(Path(ring, False, stroke, "edging"))
    draw_corner_wood(draft, panel, _seen_corners(panel))


def _seen_corners(panel: BuiltPanel) -> bool:
    """Whether the pieces of built corners are seen from above."""
    woods = [corner.edging for corner in panel.corners if corner.edging is not None]
    return panel.face(Role.FACE) is None or all(wood.top is Meeting.FLUSH for wood in woods)


def _draw_along_outline(draft: Draft, panel: BuiltPanel) -> None:
    """The inner border of the edging of a free outline, and the joints between its pieces."""
    try:
        made = edging_of_free_outline(panel)
    except ShapeError:
        return  # told by the checks
    sides, face = sides_of(panel), panel.face(Role.FACE)
    pieces = {piece.number - 1: piece for piece in panel.edge_pieces if piece.name == "outline"}
    for stretch in made.stretches:
        edging = panel.edging(sides[stretch.number])
        seen = face is None or edging is None or edging.top is Meeting.FLUSH
        stroke = Stroke.VISIBLE if seen else Stroke.HIDDEN
        if stretch.inner is None:
            continue
        ring = ((*stretch.inner.first, stretch.inner.bulge), (*stretch.inner.last, 0.0))
        draft.add(Path(ring, False, stroke, "edging"))
        if stretch.number in pieces:
            draw_edge_wood(draft, pieces[stretch.number], stretch, seen)
        outline = finished_outline(panel)
        for a, b in inside(stretch.outer.last, stretch.inner.last, outline):
            draft.line(a, b, stroke, "edging")


def _built_corners(panel: BuiltPanel) -> Iterator[Segment]:
    """The carrier's edge where a corner built of pieces meets it."""
    if not any(not corner.fault for corner in panel.corners) or panel.carrier_outline is None:
        return
    box = panel.carrier.rectangle
    for piece in panel.carrier_outline.outer_segments():
        along_x = abs(piece.y0 - piece.y1) < 1e-9 and min(abs(piece.y0 - y) for y in (box.y0, box.y1)) < 1e-9
        along_y = abs(piece.x0 - piece.x1) < 1e-9 and min(abs(piece.x0 - x) for x in (box.x0, box.x1)) < 1e-9
        if piece.is_arc or not (along_x or along_y):
            yield piece


def _joint_lines(panel: BuiltPanel, edging: Edging) -> Iterator[tuple[Point, Point]]:
    yield (
        _place(panel, edging.side, edging.start.inner_mm, edging.width_mm),
        _place(panel, edging.side, edging.end.inner_mm, edging.width_mm),
    )
    for end in (edging.start, edging.end):
        if _draws_its_end(panel, edging, end):
            yield (
                _place(panel, edging.side, end.outer_mm, 0.0),
                _place(panel, edging.side, end.inner_mm, edging.width_mm),
            )


def _draws_its_end(panel: BuiltPanel, edging: Edging, end: End) -> bool:
    """A mitre is drawn once, by the edging along the length; a butt is the neighbour's inner border."""
    if end.kind is EndKind.MITRE:
        return edging.side.runs_along_length
    return end.kind is EndKind.SHORT


def _place(panel: BuiltPanel, side: Side, along: float, into: float) -> Point:
    """The point so far along a side (from its left or front end) and so far into the panel."""
    match side:
        case Side.FRONT:
            return along, into
        case Side.REAR:
            return along, panel.width_mm - into
        case Side.LEFT:
            return into, along
        case Side.RIGHT:
            return panel.length_mm - into, along


def draw_dimensions(draft: Draft, panel: BuiltPanel) -> None:
    """Finished size, net size of the carrier and widths of edging below and left; details on their nearer side.

    Where figures at the sides stand past a corner, the rows below and above begin further out.
    """
    length, width = panel.length_mm, panel.width_mm
    below = list(_size_spans(draft, length, _steps(panel, Side.LEFT, Side.RIGHT), 0.0))
    left = list(_size_spans(draft, width, _steps(panel, Side.FRONT, Side.REAR), 0.0))
    details = details_of(panel)
    lower = [d for d in details if d.box[1] + d.box[3] < width]
    below += _detail_spans(draft, [((d.given[0], d.box[1]), (d.given[2], d.box[1])) for d in lower], 0.0)
    upper = [d for d in details if d not in lower]
    above = _detail_spans(draft, [((d.given[0], d.box[3]), (d.given[2], d.box[3])) for d in upper], width)
    nearer_left = [d for d in details if d.box[0] + d.box[2] < length]
    left += _detail_spans(draft, [((d.given[1], d.box[0]), (d.given[3], d.box[0])) for d in nearer_left], 0.0)
    others = [d for d in details if d not in nearer_left]
    right = _detail_spans(draft, [((d.given[1], d.box[2]), (d.given[3], d.box[2])) for d in others], length)
    beside = (
        *chain(left, Beside.LEFT, 0.0, draft.scale),
        *chain(right, Beside.RIGHT, length, draft.scale),
    )
    room = draft.paper(_CORNER_MM)
    under = max((-one.reach[0] - room for one in beside), default=0.0)
    over = max((one.reach[1] - width - room for one in beside), default=0.0)
    draft.add(*beside)
    draft.add(*chain(below, Beside.BELOW, -max(under, 0.0), draft.scale))
    draft.add(*chain(above, Beside.ABOVE, width + max(over, 0.0), draft.scale))


def _steps(panel: BuiltPanel, first: Side, last: Side) -> tuple[float, float]:
    return panel.edging_width_mm(first), panel.edging_width_mm(last)


def _size_spans(draft: Draft, size: float, widths: tuple[float, float], foot: float) -> Iterator[Span]:
    first, last = widths
    stations = [0.0, *([first] if first else []), *([size - last] if last else []), size]
    if len(stations) > 2:
        for a, b in pairwise(stations):
            if b - a > 1e-6:
                yield Span(a, b, figure(b - a, draft.manner), (foot, foot))
    yield Span(0.0, size, figure(size, draft.manner), (foot, foot))


type _Station = tuple[float, float]


def _detail_spans(draft: Draft, ranges: Sequence[tuple[_Station, _Station]], foot: float) -> list[Span]:
    return [
        Span(a, b, figure(b - a, draft.manner), (foot_a, foot_b))
        for (a, foot_a), (b, foot_b) in _chained(ranges, foot)
    ]


def _chained(ranges: Sequence[tuple[_Station, _Station]], foot: float) -> Iterator[tuple[_Station, _Station]]:
    """Position and size of each detail: from the one before it where they stand apart, else from 0.

    A station is the place along the chain and where its leading line starts. Equal lengths are given once.
    """
    seen: set[tuple[float, float]] = set()
    before: _Station = (0.0, foot)
    for first, last in sorted(ranges):
        if first[0] < before[0] - 1e-6:
            before = (0.0, foot)
        for a, b in ((before, first), (first, last)):
            key = (round(a[0], 3), round(b[0], 3))
            if b[0] - a[0] > 1e-6 and key not in seen:
                seen.add(key)
                yield a, b
        before = last


def draw_marks(draft: Draft, panel: BuiltPanel) -> None:
    """Way of the facing, face mark, mark on the reference edge, and the name of the front."""
    face = panel.face(Role.FACE)
    edge_mark(draft, panel)
    if face is not None:
        direction_arrow(draft, panel, face.direction_deg)
    face_mark(draft, panel)
    front = draft.words(said("front"))
    inner = panel.edging_width_mm(Side.FRONT) + draft.paper(3.0)
    places = [(panel.length_mm * share, inner) for share in (0.56, 0.6, 0.4, 0.7, 0.3, 0.2, 0.8)]
    draft.label(front, places, SMALL_MM, within=(0.0, 0.0, panel.length_mm, panel.width_mm))


def _notes(panel: BuiltPanel) -> Iterator[Said]:
    """Edging in words, one row for each kind."""
    seen: set[tuple[str, float]] = set()
    for edging in panel.edgings:
        key = (edging.wood.title, edging.width_mm)
        if key in seen:
            continue
        seen.add(key)
        sides = [one for one in panel.edgings if (one.wood.title, one.width_mm) == key]
        yield _edging_note(edging, sides)


def _edging_note(edging: Edging, sides: Sequence[Edging]) -> Said:
    named = said("{a:word}", a=sides[0].side.value)
    for one in sides[1:]:
        named = said("{before}, {side:word}", before=named, side=one.side.value)
    return said("{wood} {width:mm}: {sides}", wood=edging.wood.title, width=edging.width_mm, sides=named)
