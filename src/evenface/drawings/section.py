"""Sections through the edges of a panel: the layers as the saw would show them, cut by the profile.

x is the distance from the finished edge into the panel, y the level above the underside.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evenface.construction import BuiltPanel, Edging, FaceLayer
from evenface.construction.shapes import edge_shape
from evenface.drawings.boards import GRAINED, board_areas, runs_out, sheet_areas
from evenface.drawings.callouts import column
from evenface.drawings.clip import between
from evenface.drawings.dimensions import Beside, Span, chain
from evenface.drawings.draft import Draft, figure
from evenface.drawings.profile_sizes import draw_profile_sizes
from evenface.drawings.scene import (
    SMALL_MM,
    Anchor,
    Area,
    Fill,
    Leader,
    Path,
    Scene,
    Stroke,
    Text,
)
from evenface.parts.edging import proud_mm
from evenface.piece.records import Meeting, Role, Side
from evenface.shape.edge_shape import EdgeShape
from evenface.shape.faults import ShapeError
from evenface.shape.ring import Ring
from evenface.words import ENGLISH, Manner, Said, said

INWARDS_MM = 26.0
"""How much of the panel is shown behind the edging."""


@dataclass(frozen=True, slots=True)
class _Cut:
    """A section being drawn. shape : the edge with its profiles; inner : how far in it is shown."""

    panel: BuiltPanel
    side: Side
    edging: Edging | None
    shape: EdgeShape
    inner: float
    whole: bool

    @property
    def width(self) -> float:
        return self.edging.width_mm if self.edging else 0.0

    def strip(self, z0: float, z1: float, low: float = 0.0, high: float | None = None) -> Ring:
        """What is left by the profile between two levels and two distances from the edge."""
        if z1 - z0 < 1e-9:
            return ()
        ring = self.shape.layer_section(max(z0, 0.0), min(z1, self.shape.thickness_mm), self.inner).outer
        return between(ring, low, self.inner if high is None else high)

    def inset(self, face: FaceLayer) -> float:
        """How far from the finished edge a facing begins."""
        flush = self.edging is not None and self.edging.meets(face.role) is Meeting.FLUSH
        return self.width if flush else 0.0


def sections_of(panel: BuiltPanel, manner: Manner = ENGLISH, scale: float = 1.0) -> tuple[Scene, ...]:
    """One section for each kind of edge that is edged or profiled, in the order front, rear, left, right."""
    return tuple(section_of(panel, sides[0], manner, scale, sides[1:]) for sides in distinct_sides(panel))


def distinct_sides(panel: BuiltPanel) -> tuple[tuple[Side, ...], ...]:
    """Sides whose sections look alike, together; sides neither edged nor profiled are left out."""
    alike: dict[object, list[Side]] = {}
    for side in Side:
        edging = panel.edging(side)
        profiles = tuple(p for p in panel.panel.profiles if side in p.sides)
        if edging is None and not profiles:
            continue
        section = edging and (
            edging.wood.name, edging.cut, edging.width_mm, edging.top, edging.bottom, edging.order,
            edging.proud_mm,
        )  # fmt: skip
        way = runs_out(panel.carrier.direction_deg, side) if _grained(panel) else True
        alike.setdefault((section, profiles, way), []).append(side)
    return tuple(tuple(sides) for sides in alike.values())


def _grained(panel: BuiltPanel) -> bool:
    """Whether something in the panel looks different from the end than from the side."""
    return panel.carrier.material.board in GRAINED or any(f.material.family == "veneer" for f in panel.faces)


def section_of(
    panel: BuiltPanel,
    side: Side,
    manner: Manner = ENGLISH,
    scale: float = 1.0,
    also: Sequence[Side] = (),
) -> Scene:
    """The section across one side, outer edge to the left. also : sides that look the same."""
    cut = _cut_of(panel, side)
    draft = Draft(scale, manner)
    _draw_layers(draft, cut)
    _draw_contour(draft, cut)
    _draw_allowances(draft, cut)
    _draw_sizes(draft, cut)
    draw_profile_sizes(draft, panel, side, cut.shape)
    _draw_labels(draft, cut)
    return draft.scene(_title(panel, (side, *also)), *_notes(cut))


def _cut_of(panel: BuiltPanel, side: Side) -> _Cut:
    """A profile that cannot be is a finding of the checks; the edge is then drawn square, and says so."""
    edging = panel.edging(side)
    try:
        shape, whole = edge_shape(panel, side), True
    except ShapeError:
        shape, whole = EdgeShape(panel.thickness_mm), False
    reach = shape.depth_between(0.0, panel.thickness_mm)[0]
    width = edging.width_mm if edging else 0.0
    return _Cut(panel, side, edging, shape, max(width, reach) + INWARDS_MM, whole)


def _draw_layers(draft: Draft, cut: _Cut) -> None:
    panel, carrier = cut.panel, cut.panel.carrier
    draft.add(*board_areas(carrier, lambda a, b: cut.strip(a, b, cut.width), cut.side))
    core = cut.strip(carrier.z0_mm, carrier.z1_mm, cut.width)
    draft.add(Path(core, True, Stroke.FINE, "carrier"))
    if cut.edging is not None:
        wood = cut.strip(cut.edging.z0_mm, cut.edging.z1_mm, 0.0, cut.width)
        if len(wood) > 2:
            draft.add(Area((wood,), Fill.END_GRAIN, "hatch", 90.0))
            draft.add(Path(wood, True, Stroke.VISIBLE, "edging"))
    for face in panel.faces:
        start = cut.inset(face)
        draft.add(*sheet_areas(face, cut.strip(face.z0_mm, face.z1_mm, start), cut.side))
        glue = cut.strip(*_glue_levels(face), start)
        if len(glue) > 2:
            draft.add(Area((glue,), Fill.GLUE))


def _glue_levels(face: FaceLayer) -> tuple[float, float]:
    if face.role is Role.FACE:
        return face.z0_mm - face.glue_line_mm, face.z0_mm
    return face.z1_mm, face.z1_mm + face.glue_line_mm


def _draw_contour(draft: Draft, cut: _Cut) -> None:
    """The finished edge and both faces in the broad line of a cut, and the break at the inner end."""
    top = cut.panel.thickness_mm
    curve = cut.shape.curve(0.0, top)
    vertices = [(s.x0, s.y0, s.bulge if s.is_arc else 0.0) for s in curve]
    vertices = [(cut.inner, 0.0, 0.0), *vertices, (curve[-1].x1, curve[-1].y1, 0.0), (cut.inner, top, 0.0)]
    draft.add(Path(tuple(vertices), False, Stroke.CUT, "outline"))
    lap, bend = draft.paper(2.5), draft.paper(1.2)
    x, middle = cut.inner, top / 2
    zigzag = ((x, -lap), (x, middle - bend), (x - bend, middle - bend / 3), (x + bend, middle + bend / 3))
    ends = ((x, middle + bend), (x, top + lap))
    draft.add(Path(tuple((u, v, 0.0) for u, v in (*zigzag, *ends)), False, Stroke.FINE, "outline"))


def _draw_allowances(draft: Draft, cut: _Cut) -> None:
    """What is still there before flushing, trimming and profiling, dotted."""
    panel, edging = cut.panel, cut.edging
    over = panel.allowances.overhang_mm[cut.side]
    for face in panel.faces:
        if cut.inset(face) == 0.0 and over > 0 and cut.side not in face.fitted:
            _dotted(draft, (0.0, face.z0_mm), (-over, face.z0_mm), (-over, face.z1_mm), (0.0, face.z1_mm))
    if edging is not None:
        low, high = proud_mm(panel, edging)
        for proud, level, meeting in ((-low, edging.z0_mm, edging.bottom), (high, edging.z1_mm, edging.top)):
            if meeting is Meeting.FLUSH and proud:
                far = level + proud
                _dotted(draft, (0.0, level), (0.0, far), (cut.width, far), (cut.width, level))
    for profile, level, way in ((cut.shape.top, panel.thickness_mm, -1.0), (cut.shape.bottom, 0.0, 1.0)):
        if profile is not None:
            deep = profile.depth_at(0.0)
            _dotted(draft, (deep, level), (0.0, level), (0.0, level + way * profile.height_mm))


def _dotted(draft: Draft, *points: tuple[float, float]) -> None:
    draft.add(Path(tuple((x, y, 0.0) for x, y in points), False, Stroke.DOTTED, "allowance"))


def _draw_sizes(draft: Draft, cut: _Cut) -> None:
    panel, edging = cut.panel, cut.edging
    top = panel.thickness_mm
    upright = [Span(0.0, top, figure(top, draft.manner), (0.0, 0.0))]
    if edging is not None:
        if edging.height_mm < top - 1e-9:
            height = figure(edging.height_mm, draft.manner)
            upright.append(Span(edging.z0_mm, edging.z1_mm, height, (0.0, 0.0)))
        width = Span(0.0, cut.width, figure(cut.width, draft.manner), (0.0, 0.0))
        below = -draft.paper(6.0) if cut.shape.bottom else 0.0
        draft.add(*chain([width], Beside.BELOW, below, draft.scale))
    over = max(panel.allowances.overhang_mm[cut.side], 0.0)
    draft.add(*chain(upright, Beside.LEFT, -over, draft.scale))


def _draw_labels(draft: Draft, cut: _Cut) -> None:
    """Layers in a column to the right; the edging above the section."""
    panel, carrier = cut.panel, cut.panel.carrier
    x = cut.inner - draft.paper(4.0)
    labels = [((x, (carrier.z0_mm + carrier.z1_mm) / 2), carrier.material.title)]
    labels += [((x, (face.z0_mm + face.z1_mm) / 2), face.material.title) for face in panel.faces]
    column(draft, cut.inner + draft.paper(8.0), labels)
    if cut.edging is None:
        return
    words = draft.words(
        said(
            "{wood}, {width} × {height}",
            wood=cut.edging.wood.title,
            width=figure(cut.width, draft.manner),
            height=figure(cut.edging.height_mm, draft.manner),
        )
    )
    level = panel.thickness_mm + draft.paper(7.0)
    start = (cut.width * 0.6, (cut.edging.z0_mm + cut.edging.z1_mm) / 2)
    elbow = (start[0] + draft.paper(2.0), level)
    tail = (elbow[0] + draft.paper(2.0), level)
    base = level - draft.paper(0.36 * SMALL_MM)
    text = Text(tail[0] + draft.paper(0.6), base, words, SMALL_MM, Anchor.START, 0.0, "labels")
    draft.add(Leader((start, elbow, tail), text))


def _title(panel: BuiltPanel, sides: Sequence[Side]) -> Said:
    named = said("{a:word}", a=sides[0].value)
    for one in sides[1:]:
        named = said("{before}, {side:word}", before=named, side=one.value)
    return said("{name}: edge section, {sides}", name=panel.name, sides=named)


_ONE_FACE = {
    Meeting.UNDER: "edging under the facing",
    Meeting.FLUSH: "edging flush with the facing",
}
_MIXED = {
    Meeting.UNDER: "edging under the face and flush with the back",
    Meeting.FLUSH: "edging flush with the face and under the back",
}


def _notes(cut: _Cut) -> Iterator[Said]:
    edging = cut.edging
    if edging is not None and cut.panel.faces:
        meetings = tuple(edging.meets(face.role) for face in cut.panel.faces)
        how = _ONE_FACE[meetings[0]] if len(set(meetings)) == 1 else _MIXED[edging.top]
        yield said("{how:word}, {order:word}", how=how, order=edging.order.value)
        low, high = proud_mm(cut.panel, edging)
        if low or high:
            yield said(
                "edging glued on {top:mm} proud at the face, {back:mm} at the back", top=high, back=low
            )
    if cut.panel.carrier.material.board in GRAINED:
        out = runs_out(cut.panel.carrier.direction_deg, cut.side)
        yield said("grain of the carrier's faces runs along this edge" if out else
                   "grain of the carrier's faces runs square to this edge")  # fmt: skip
    if not cut.whole:
        yield said("the profile asked for cannot be cut: drawn without it")
