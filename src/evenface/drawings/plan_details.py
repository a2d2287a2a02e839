"""What lies inside a plan: cut-outs, inserts and grips with their names, and the sizes of corners."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot

from evenface.construction import BuiltPanel
from evenface.construction.notches import notches_of, wall_widths
from evenface.drawings.draft import Draft, figure
from evenface.drawings.marks import inside_edgings
from evenface.drawings.outlines import corners_of
from evenface.drawings.scene import (
    SMALL_MM,
    TEXT_MM,
    Anchor,
    Area,
    Circle,
    Fill,
    Leader,
    Line,
    Path,
    RadiusDimension,
    Stroke,
    text_width_mm,
)
from evenface.piece.records import Corner, CornerAt, Grip, Insert, Role
from evenface.shape.outline import Outline
from evenface.shape.ring import segments_of
from evenface.shape.segment import Box


@dataclass(frozen=True, slots=True)
class Detail:
    """Something inside the outline that has a place: its name, the box round it, whether it is a hole.

    beyond_mm : what lies round the box and is to be kept clear of its name too. round : a circle, whose middle is
    given.
    """

    name: str
    box: Box
    empty: bool = False
    beyond_mm: float = 0.0
    round: bool = False

    @property
    def given(self) -> Box:
        """What its dimensions give: the box, of a circle the middle alone."""
        if not self.round:
            return self.box
        x, y = (self.box[0] + self.box[2]) / 2, (self.box[1] + self.box[3]) / 2
        return x, y, x, y


def details_of(panel: BuiltPanel) -> tuple[Detail, ...]:
    """Notches, cut-outs, inserts and grips that stand in no insert, in the order of the file."""
    asked = panel.panel
    inserts = {insert.name for insert in asked.inserts}
    alone = [grip for grip in asked.grips if grip.insert not in inserts]
    return (
        *(
            Detail(
                "" if notch.corner else notch.name,
                notch.outline.bounds,
                True,
                max(wall_widths(panel, notch)) if notch.returned else 0.0,
            )
            for notch in notches_of(panel)
        ),
        *(
            Detail(cutout.name, cutout.outline.bounds, True, round=_is_circle(cutout.outline))
            for cutout in asked.cutouts
        ),
        *(Detail(insert.name, insert.outline.bounds) for insert in asked.inserts),
        *(Detail(grip.name, _grip_box(grip)) for grip in alone if grip.path),
    )


def _is_circle(outline: Outline) -> bool:
    pieces = outline.outer_segments()
    return (
        all(one.is_arc for one in pieces)
        and len({round(one.radius, 6) for one in pieces}) == 1
        and abs(outline.size[0] - outline.size[1]) < 1e-6
    )


def draw_details(draft: Draft, panel: BuiltPanel) -> None:
    """Cut-outs crossed through, inserts with their grain, grips with the run of the cutter."""
    for cutout in panel.panel.cutouts:
        through = cutout.depth_mm is None
        _draw_outline(draft, cutout.outline, Stroke.VISIBLE, "cutouts")
        if through:
            _draw_cross(draft, cutout.outline)
    for insert in panel.panel.inserts:
        _draw_insert(draft, panel, insert)
    for grip in panel.panel.grips:
        _draw_grip(draft, grip)


def draw_names(draft: Draft, panel: BuiltPanel) -> dict[str, int]:
    """The names of details, clear of the lines that lead to their dimensions.

    Where a name has no room its number stands there instead: those that do, by name.
    """
    details = details_of(panel)
    draft.keep_off(*(detail.box for detail in details if not detail.empty))
    numbers: dict[str, int] = {}
    for detail in details:
        others = [other.box for other in details if other is not detail]
        if not detail.name or _draw_name(draft, panel, detail, draft.manner.name(detail.name), others):
            continue
        number = len(numbers) + 1
        if _draw_name(draft, panel, detail, f"({number})", others):
            numbers[detail.name] = number
    draft.keep_off(*(detail.box for detail in details))
    return numbers


def _draw_outline(draft: Draft, outline: Outline, stroke: Stroke, layer: str) -> None:
    draft.add(*(Path(ring, True, stroke, layer) for ring in outline.rings))


def _draw_cross(draft: Draft, outline: Outline) -> None:
    """Two fine diagonals: the drawing sign for a hole that goes right through."""
    x0, y0, x1, y1 = outline.bounds
    rounded = [s for s in segments_of(outline.outer) if s.is_arc]
    inset = max((s.radius for s in rounded), default=0.0) * 0.3
    inset = min(inset, 0.2 * min(x1 - x0, y1 - y0))
    for ya, yb in ((y0 + inset, y1 - inset), (y1 - inset, y0 + inset)):
        draft.line((x0 + inset, ya), (x1 - inset, yb), Stroke.FINE, "cutouts")


def _draw_insert(draft: Draft, panel: BuiltPanel, insert: Insert) -> None:
    faced = panel.face(Role.FACE) is not None
    hidden = insert.face == "bottom" or (faced and insert.when == "before facing")
    _draw_outline(draft, insert.outline, Stroke.HIDDEN if hidden else Stroke.VISIBLE, "inserts")
    if not hidden:
        draft.add(Area(insert.outline.rings, Fill.LONG_GRAIN, "inserts", insert.grain_deg))


def _draw_grip(draft: Draft, grip: Grip) -> None:
    """The run of the cutter's middle, and how far it cuts to both sides of it."""
    radius = grip.cutter_diameter_mm / 2
    for x, y in {grip.path[0], grip.path[-1]} if grip.path else ():
        draft.add(Circle(x, y, radius, Stroke.FINE, "grips"))
    for first, last in zip(grip.path, grip.path[1:], strict=False):
        length = hypot(last[0] - first[0], last[1] - first[1]) or 1.0
        nx, ny = -(last[1] - first[1]) / length * radius, (last[0] - first[0]) / length * radius
        draft.add(
            Line(*first, *last, Stroke.CENTRE, "grips"),
            Line(first[0] + nx, first[1] + ny, last[0] + nx, last[1] + ny, Stroke.VISIBLE, "grips"),
            Line(first[0] - nx, first[1] - ny, last[0] - nx, last[1] - ny, Stroke.VISIBLE, "grips"),
        )


def _grip_box(grip: Grip) -> Box:
    xs, ys = zip(*grip.path, strict=True)
    r = grip.cutter_diameter_mm / 2
    return min(xs) - r, min(ys) - r, max(xs) + r, max(ys) + r


def _draw_name(draft: Draft, panel: BuiltPanel, detail: Detail, name: str, others: Sequence[Box]) -> bool:
    """Its name in a cut-out when it fits there, else beside it and in no other; False where there is no room."""
    x0, y0, x1, y1 = detail.box
    middle, step = (x0 + x1) / 2, draft.paper(2.8) + detail.beyond_mm
    half = draft.paper(text_width_mm(name, SMALL_MM) / 2 + 1.2)
    places = [(middle, y0 - step), (middle, y1 + step)]
    places += [(x, y) for y in (y0 - step, y1 + step) for x in (x0 + half, x1 - half)]
    places += [(x, (y0 + y1) / 2) for x in (x0 - half, x1 + half)]
    wide, tall = text_width_mm(name, SMALL_MM) + 2.0, 3.0 * SMALL_MM
    if detail.empty and wide <= (x1 - x0) * draft.scale and tall <= (y1 - y0) * draft.scale:
        places = [(middle, y0 + 0.28 * (y1 - y0)), *places]
    # a number may stand in the opening itself, however small
    if detail.empty and name != draft.manner.name(detail.name):
        places = [(middle, (y0 + y1) / 2), *places]
    tall_half = draft.paper(0.7 * SMALL_MM)
    clear = [
        (x, y)
        for x, y in places
        if not any(
            x - half < other[2]
            and other[0] < x + half
            and y - tall_half < other[3]
            and other[1] < y + tall_half
            for other in others
        )
    ]
    for within in (inside_edgings(panel), (0.0, 0.0, panel.length_mm, panel.width_mm)):
        if draft.label(name, clear, SMALL_MM, within=within) is not None:
            return True
    return False


def draw_corner_sizes(draft: Draft, panel: BuiltPanel) -> list[CornerAt]:
    """Radius or chamfer of each kind of corner, given once with how often it comes: the corners told of."""
    corners, told = corners_of(panel), []
    if panel.panel.outline is not None:
        return list(corners)
    kinds: dict[tuple[str, float], list[Corner]] = {}
    for at in CornerAt:
        if at in corners:
            corner = corners[at]
            kinds.setdefault((corner.shape, corner.size_mm), []).append(corner)
    for (shape, size), alike in kinds.items():
        how_many = f"{len(alike)}×" if len(alike) > 1 else ""
        text = f"{how_many}R{figure(size, draft.manner)}"
        if shape == "chamfer":
            text = f"{how_many}{figure(size, draft.manner)}×45°"
        for corner in alike:
            if _corner_size(draft, panel, corner, text):
                told += [one.at for one in alike]
                break
    return told


def _corner_size(draft: Draft, panel: BuiltPanel, corner: Corner, text: str) -> bool:
    """A leader from the corner inwards to its figure; False where there is no room for it."""
    right = corner.at.along_width.value == "right"
    rear = corner.at.along_length.value == "rear"
    sx, sy = (-1.0 if right else 1.0), (-1.0 if rear else 1.0)
    cx = (panel.length_mm if right else 0.0) + sx * corner.size_mm
    cy = (panel.width_mm if rear else 0.0) + sy * corner.size_mm
    share = 0.5 if corner.shape == "chamfer" else 2**-0.5
    at = (cx - sx * corner.size_mm * share, cy - sy * corner.size_mm * share)
    within = (0.0, 0.0, panel.length_mm, panel.width_mm)
    for reach in (8.0, 11.0, 14.0, 18.0, 24.0, 5.0):
        run = draft.paper(reach)
        elbow = (at[0] + sx * run, at[1] + sy * run)
        tail = (elbow[0] + sx * draft.paper(2.0), elbow[1])
        anchor = Anchor.END if right else Anchor.START
        place = (tail[0] + sx * draft.paper(0.6), tail[1])
        if not draft.line_is_free(at, elbow):
            continue
        lettering = draft.label(text, [place], TEXT_MM, anchor, "dimensions", within)
        if lettering is not None:
            draft.primitives.remove(lettering)
            draft.primitives.append(
                RadiusDimension((cx, cy), at, elbow, tail, lettering)
                if corner.shape == "radius"
                else Leader((at, elbow, tail), lettering, "dimensions")
            )
            return True
    return False
