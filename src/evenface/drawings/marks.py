"""Marks on a plan: the way of the facing, the face mark, and the reference edge."""

from collections.abc import Iterator
from math import cos, radians, sin
from typing import Final

from evenface.construction import BuiltPanel
from evenface.drawings.draft import Draft
from evenface.drawings.scene import SMALL_MM, Line, Path, Stroke, text_width_mm, way_of
from evenface.drawings.strokes import arrow_head
from evenface.piece.records import Side
from evenface.shape.segment import Box, Point
from evenface.words import said

_ARROWS_MM: Final = (9.0, 6.0, 4.0)
"""Half the length of an arrow on the paper, the longest first."""


def direction_arrow(draft: Draft, panel: BuiltPanel, direction_deg: float) -> None:
    """A double arrow along the way of the facing, where the plan is free, with its name."""
    name = draft.words(said("way of the facing"))
    for length in _ARROWS_MM:
        half = min(draft.paper(length), 0.32 * (panel.width_mm if direction_deg % 180 else panel.length_mm))
        ux, uy = half * way_of(direction_deg)[0], half * way_of(direction_deg)[1]
        found = _room_for_arrow(draft, panel, (ux, uy), name)
        if found is not None:
            break
    else:
        return
    x, y, box = found
    a, b = (x - ux, y - uy), (x + ux, y + uy)
    draft.add(
        Line(*a, *b, Stroke.ACCENT, "marks"),
        _accent(arrow_head(a, b, draft.scale, "marks")),
        _accent(arrow_head(b, a, draft.scale, "marks")),
    )
    draft.keep_off(box)
    gap = draft.paper(4.4) + abs(uy)
    places = [(x, y - gap), (x, y + gap)]
    within = (0.0, 0.0, panel.length_mm, panel.width_mm)
    draft.label(name, places, SMALL_MM, layer="marks", within=within)


def _room_for_arrow(
    draft: Draft, panel: BuiltPanel, reach: Point, name: str
) -> tuple[float, float, Box] | None:
    """Where the arrow lies free between the edgings, with its name below it if there is such a place."""
    lift, (ux, uy) = draft.paper(2.0), (abs(reach[0]), abs(reach[1]))
    half = max(ux, draft.paper(text_width_mm(name, SMALL_MM) / 2))
    inner = inside_edgings(panel)
    for with_name in (True, False):
        for x, y in free_places(panel):
            box = (x - ux - lift, y - uy - lift, x + ux + lift, y + uy + lift)
            wanted = (x - half, y - uy - draft.paper(6.5), x + half, box[3]) if with_name else box
            if (
                draft.is_free(box)
                and draft.is_free(wanted)
                and lies_in(box, inner)
                and lies_in(wanted, inner)
            ):
                return x, y, box
    return None


def inside_edgings(panel: BuiltPanel) -> Box:
    """The box between the edgings, seen from above."""
    return (
        panel.edging_width_mm(Side.LEFT),
        panel.edging_width_mm(Side.FRONT),
        panel.length_mm - panel.edging_width_mm(Side.RIGHT),
        panel.width_mm - panel.edging_width_mm(Side.REAR),
    )


def lies_in(box: Box, within: Box) -> bool:
    return within[0] <= box[0] and within[1] <= box[1] and box[2] <= within[2] and box[3] <= within[3]


def _accent(path: Path) -> Path:
    return Path(path.vertices, path.closed, Stroke.ACCENT, path.layer)


def free_places(panel: BuiltPanel) -> Iterator[Point]:
    """Places of a plan, from its middle outwards."""
    shares = (0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6, 0.12, 0.88)
    for across in shares:
        for along in shares:
            yield panel.length_mm * along, panel.width_mm * across


def edge_mark(draft: Draft, panel: BuiltPanel) -> None:
    """A V with its tip on the front edge: the edge everything is measured and marked from."""
    x, size = panel.length_mm / 2, draft.paper(2.2)
    base = panel.edging_width_mm(Side.FRONT)
    if panel.width_mm < base + 2 * size:
        return
    tip = (x, 0.0, 0.0)
    path = Path(((x - size / 2, size, 0.0), tip, (x + size / 2, size, 0.0)), False, Stroke.ACCENT, "marks")
    draft.add(path)
    draft.keep_off((x - size / 2, 0.0, x + size / 2, size))


def face_mark(draft: Draft, panel: BuiltPanel) -> None:
    """A loop whose tail runs down towards the reference edge, as it is pencilled on a show face."""
    size = draft.paper(2.4)
    low = panel.edging_width_mm(Side.FRONT) + draft.paper(1.5)
    for share in (0.5, 0.45, 0.55, 0.35, 0.65):
        x = panel.length_mm * share
        box: Box = (x - size, low, x + size, low + 2.2 * size)
        if box[3] < panel.width_mm - draft.paper(1.0) and draft.is_free(box):
            break
    else:
        return
    top = low + 1.5 * size
    r = 0.5 * size
    start = (x + r * cos(radians(-60)), top + r * sin(radians(-60)))
    loop = ((start[0], start[1], 1.0), (x - r * cos(radians(60)), top + r * sin(radians(60)), 0.6))
    tail = ((x - 0.2 * size, top - r, 0.0), (x - 0.2 * size, low, 0.0))
    draft.add(Path((*loop, *tail), False, Stroke.ACCENT, "marks"))
    draft.keep_off(box)
