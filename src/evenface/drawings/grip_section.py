"""A section across a grip at its deepest: the hollow in its wood, and the board and sheets it is let into.

u runs square to the cutter's way from its axis, v is the level above the underside; both true at 1:1.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import acos, tan

from evenface.construction import BuiltInsert, BuiltPanel
from evenface.construction.hollows import BuiltGrip, built_grip
from evenface.drawings.boards import board_areas, sheet_areas
from evenface.drawings.callouts import column
from evenface.drawings.dimensions import Beside, Span, chain
from evenface.drawings.draft import Draft, figure
from evenface.drawings.outlines import inside
from evenface.drawings.scene import Area, Fill, Path, Scene, Stroke
from evenface.piece.records import Role, Side
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.ring import Ring, Vertex
from evenface.shape.segment import Segment
from evenface.words import ENGLISH, Manner, said

BESIDE_MM = 14.0
"""How much of the board is shown beside the wood of the grip."""
_WIDEST_MM = 80.0
_REACH_MM = 5000.0


@dataclass(frozen=True, slots=True)
class _Cut:
    """What is cut: the grip, its wood from `left` to `right` of the axis, the side the section looks like."""

    panel: BuiltPanel
    grip: BuiltGrip
    insert: BuiltInsert
    left: float
    right: float
    side: Side

    @property
    def from_face(self) -> bool:
        return self.grip.asked.from_ == "face"

    def level(self, below: float) -> float:
        """The level at a depth below the surface the cutter enters."""
        return self.panel.thickness_mm - below if self.from_face else below

    def below(self, level: float) -> float:
        return self.panel.thickness_mm - level if self.from_face else level


def grip_sections_of(panel: BuiltPanel, manner: Manner = ENGLISH) -> Iterator[tuple[str, Scene]]:
    """Name and section of every grip worked from a face into wood let into it; 1:1, wide ones 1:2."""
    for grip in panel.panel.grips:
        try:
            cut = _cut_of(panel, built_grip(panel, grip))
        except ShapeError:
            continue  # told by the checks
        if cut is not None:
            yield grip.name, _section(cut, manner)


def _cut_of(panel: BuiltPanel, grip: BuiltGrip) -> _Cut | None:
    """None for grips from an edge or in the board itself, and where the hollow lies outside its wood."""
    found = [one for one in panel.inserts if one.asked.name == grip.asked.insert and not one.fault]
    if grip.side is not None or not found:
        return None
    way = grip.hollow.way[len(grip.hollow.way) // 2]
    x, y = way.at(0.5)
    ux, uy = way.heading(0.0) if way.length > 0 else (1.0, 0.0)
    across = Segment(x + uy * _REACH_MM, y - ux * _REACH_MM, x - uy * _REACH_MM, y + ux * _REACH_MM)
    stretches = [
        (across.share_of(a) * across.length - _REACH_MM, across.share_of(b) * across.length - _REACH_MM)
        for a, b in inside(across.first, across.last, Outline((found[0].piece.outer,)))
    ]
    ours = [(a, b) for a, b in stretches if a < 0.0 < b]
    if not ours:
        return None
    side = Side.FRONT if abs(ux) >= abs(uy) else Side.LEFT
    return _Cut(panel, grip, found[0], *ours[0], side)


def _section(cut: _Cut, manner: Manner) -> Scene:
    wide = cut.right - cut.left + 2 * BESIDE_MM
    draft = Draft(1.0 if wide <= _WIDEST_MM else 0.5, manner)
    ends = cut.left - BESIDE_MM, cut.right + BESIDE_MM
    _draw_board(draft, cut, ends)
    _draw_faces(draft, cut, ends)
    _draw_insert(draft, cut)
    _draw_surfaces(draft, cut, ends)
    _draw_sizes(draft, cut, ends)
    _draw_labels(draft, cut, ends)
    grip = cut.grip.asked
    return draft.scene(
        said("{name}: section across {grip}", name=cut.panel.name, grip=grip.name),
        said("{cutter:word} cutter {size:mm}, {depth:mm} deep", cutter=grip.cutter,
             size=grip.cutter_diameter_mm, depth=grip.depth_mm),
    )  # fmt: skip


def _box(u0: float, v0: float, u1: float, v1: float) -> Ring:
    if u1 - u0 < 1e-9 or v1 - v0 < 1e-9:
        return ()
    return ((u0, v0, 0.0), (u1, v0, 0.0), (u1, v1, 0.0), (u0, v1, 0.0))


def _draw_board(draft: Draft, cut: _Cut, ends: tuple[float, float]) -> None:
    """The carrier to both sides of the recess, and what is left of it under and over it."""
    carrier, insert = cut.panel.carrier, cut.insert
    parts = (
        (ends[0], cut.left, carrier.z0_mm, carrier.z1_mm),
        (cut.right, ends[1], carrier.z0_mm, carrier.z1_mm),
        (cut.left, cut.right, carrier.z0_mm, insert.z0_mm),
        (cut.left, cut.right, insert.z1_mm, carrier.z1_mm),
    )
    for u0, u1, low, high in parts:

        def strip(
            a: float, b: float, u0: float = u0, u1: float = u1, low: float = low, high: float = high
        ) -> Ring:
            return _box(u0, max(a, low), u1, min(b, high))

        draft.add(*board_areas(carrier, strip, cut.side))
        ring = _box(u0, low, u1, high)
        if ring:
            draft.add(Path(ring, True, Stroke.FINE, "carrier"))


def _draw_faces(draft: Draft, cut: _Cut, ends: tuple[float, float]) -> None:
    """Each sheet, cut away where wood comes up through it or the hollow opens it."""
    for face in cut.panel.faces:
        entered = (face.role is Role.FACE) == cut.from_face
        holes: list[tuple[float, float]] = []
        if cut.insert.z0_mm < face.z1_mm - 1e-9 and face.z0_mm + 1e-9 < cut.insert.z1_mm:
            holes = [(cut.left, cut.right)]
        elif entered:
            half = cut.grip.hollow.half_width_at(min(cut.below(face.z0_mm), cut.below(face.z1_mm)))
            holes = [(-half, half)]
        start = ends[0]
        for a, b in (*holes, (ends[1], ends[1])):
            draft.add(*sheet_areas(face, _box(start, face.z0_mm, a, face.z1_mm), cut.side))
            start = b


def _draw_insert(draft: Draft, cut: _Cut) -> None:
    insert = cut.insert
    top = insert.z1_mm if cut.from_face else insert.z0_mm
    foot = insert.z0_mm if cut.from_face else insert.z1_mm
    hollow = _hollow(cut, max(cut.below(top), 0.0))
    ring = (
        (cut.left, foot, 0.0),
        (cut.right, foot, 0.0),
        (cut.right, top, 0.0),
        *hollow,
        (cut.left, top, 0.0),
    )
    along = (round(insert.asked.grain_deg / 90.0) % 2 == 0) == (cut.side is Side.FRONT)
    draft.add(Area((ring,), Fill.END_GRAIN if along else Fill.LONG_GRAIN, "hatch", 90.0 if along else 0.0))
    draft.add(Path(ring, True, Stroke.VISIBLE, "inserts"))


def _hollow(cut: _Cut, from_below: float) -> list[Vertex]:
    """The hollow from a depth below the surface down and up again, from the right to the left of its axis."""
    hollow = cut.grip.hollow
    cutter, depth = hollow.cutter, hollow.depth_mm
    if from_below >= depth:
        return []
    r, half = cutter.corner_radius_mm, hollow.half_width_at(from_below)
    flat, sign = cutter.radius_mm - r, 1.0 if cut.from_face else -1.0
    start = max(from_below, depth - r)  # where the rounding of the tip begins
    reach = hollow.half_width_at(start)
    turn = acos(max(-1.0, min(1.0, (r - depth + start) / r))) if r else 0.0  # of the rounding, on one side
    bulge = -sign * tan(turn / 4)
    points = [(half, from_below, 0.0)] if start > from_below + 1e-9 else []
    points += [(reach, start, bulge), (flat, depth, 0.0)]
    points += [(-flat, depth, bulge), (-reach, start, 0.0)]
    points += [(-half, from_below, 0.0)] if start > from_below + 1e-9 else []
    placed = [(u, cut.level(below), b) for u, below, b in points]
    return [
        v for k, v in enumerate(placed)
        if k + 1 == len(placed) or abs(v[0] - placed[k + 1][0]) + abs(v[1] - placed[k + 1][1]) > 1e-9
    ]  # fmt: skip


def _draw_surfaces(draft: Draft, cut: _Cut, ends: tuple[float, float]) -> None:
    """Both faces of the panel in the broad line of a cut, the one the cutter enters with the hollow in it."""
    top = cut.panel.thickness_mm
    entered, other = (top, 0.0) if cut.from_face else (0.0, top)
    line = ((ends[1], entered, 0.0), *_hollow(cut, 0.0), (ends[0], entered, 0.0))
    draft.add(Path(line, False, Stroke.CUT, "outline"))
    draft.add(Path(((ends[0], other, 0.0), (ends[1], other, 0.0)), False, Stroke.CUT, "outline"))
    for u in ends:
        draft.line((u, -draft.paper(2.0)), (u, top + draft.paper(2.0)), Stroke.FINE, "outline")


def _draw_sizes(draft: Draft, cut: _Cut, ends: tuple[float, float]) -> None:
    """Depth and what is left under it to the left; wood beside the hollow and its opening above or below."""
    hollow, insert, manner = cut.grip.hollow, cut.insert, draft.manner
    floor = insert.z0_mm if cut.from_face else insert.z1_mm
    surface, tip = cut.level(0.0), cut.level(hollow.depth_mm)
    upright = [_span(surface, tip, ends[0], manner), _span(tip, floor, ends[0], manner)]
    upright.append(_span(0.0, cut.panel.thickness_mm, ends[0], manner))
    draft.add(*chain([one for one in upright if one], Beside.LEFT, ends[0], draft.scale))
    top = insert.z1_mm if cut.from_face else insert.z0_mm
    half = hollow.half_width_at(max(cut.below(top), 0.0))
    stations = [cut.left, -half, half, cut.right]
    level = [_span(a, b, surface, manner) for a, b in pairwise(stations)]
    beside = Beside.ABOVE if cut.from_face else Beside.BELOW
    draft.add(*chain([one for one in level if one], beside, surface, draft.scale))


def _span(a: float, b: float, foot: float, manner: Manner) -> Span | None:
    low, high = min(a, b), max(a, b)
    return Span(low, high, figure(high - low, manner), (foot, foot)) if high - low > 0.005 else None


def _draw_labels(draft: Draft, cut: _Cut, ends: tuple[float, float]) -> None:
    panel, insert = cut.panel, cut.insert
    x = ends[1] - draft.paper(4.0)
    labels = [((x, (panel.carrier.z0_mm + panel.carrier.z1_mm) / 2), panel.carrier.material.title)]
    labels += [((x, (face.z0_mm + face.z1_mm) / 2), face.material.title) for face in panel.faces]
    wall = (cut.right + cut.grip.hollow.half_width_at(0.0)) / 2
    labels.append(((wall, (insert.z0_mm + insert.z1_mm) / 2), insert.wood.title))
    column(draft, ends[1] + draft.paper(8.0), labels)
