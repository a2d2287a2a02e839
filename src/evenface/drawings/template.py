"""Patterns at true size: templates for the router with what they need to know, and plain outlines."""

from collections.abc import Iterator, Sequence
from typing import Final

from evenface.drawings.dimensions import Beside, Span, chain
from evenface.drawings.draft import TILED_LETTERS, Draft
from evenface.drawings.scene import SMALL_MM, Area, Circle, Fill, Path, Scene, Stroke
from evenface.shape.cutter import Cutter, rotation_limit
from evenface.shape.outline import Outline
from evenface.shape.ring import Ring
from evenface.shape.segment import Box
from evenface.shape.template import Guide, Template
from evenface.shape.template_board import CornerHole, TemplateBoard
from evenface.shape.template_pair import Pair
from evenface.words import ENGLISH, Manner, Said, said

CHECK_MM: Final = 100.0
_BEYOND_MM: Final = 8.0
_SAME_MM: Final = 1e-6
MEASURE_FIRST: Final = said("measure both 100 mm lines on the print before using it")


def template_of(
    template: Template,
    name: str,
    manner: Manner = ENGLISH,
    board: TemplateBoard | None = None,
    holes: Sequence[CornerHole] = (),
    notes: Sequence[Said] = (),
    lies_on: str = "show face",
) -> Scene:
    """A template at 1:1: its edge, the cut it guides, centre lines, hold-down zones, check lines.

    board : the board it is cut from, where it is known. holes : drilled in the corners of the part first.
    notes : what else the bench wants to know of it. lies_on : the face or edge of the panel it is laid on.
    """
    draft = Draft(1.0, manner, TILED_LETTERS)
    if board is not None:
        _draw_board(draft, board)
    draw_outline(draft, template.outline, Stroke.CUT, "template")
    draw_outline(draft, template.part, Stroke.HIDDEN, "part")
    _draw_holes(draft, holes)
    _draw_centre_lines(draft, template.part.bounds)
    draw_check_lines(draft, board.board if board else template.outline.bounds)
    title = said("{name}: template for {work:word} work", name=name, work=template.work)
    return draft.scene(title, *notes, *_template_notes(template, holes), _cut_here(lies_on), MEASURE_FIRST)


def pair_of(
    pair: Pair,
    guides: tuple[Guide, Guide],
    cutter: Cutter,
    name: str,
    manner: Manner = ENGLISH,
    board: TemplateBoard | None = None,
    notes: Sequence[Said] = (),
    lies_on: str = "show face",
) -> Scene:
    """One template at 1:1 for a recess and the insert that fits it.

    guides : the large one that cuts the recess, the small one that cuts the insert. board, notes, lies_on : as
    for `template_of`.
    """
    draft = Draft(1.0, manner, TILED_LETTERS)
    if board is not None:
        _draw_board(draft, board)
    draw_outline(draft, pair.template, Stroke.CUT, "template")
    draw_outline(draft, pair.recess, Stroke.HIDDEN, "recess")
    if pair.clearance_mm > _SAME_MM:  # at no clearance both are one line
        draw_outline(draft, pair.insert, Stroke.DOTTED, "insert")
    _draw_centre_lines(draft, pair.template.bounds)
    draw_check_lines(draft, board.board if board else pair.template.bounds)
    big, small = guides
    return draft.scene(
        said("{name}: template for recess and insert", name=name),
        *notes,
        said("cutter {size:mm2}", size=cutter.diameter_mm),
        *rotation_note(cutter.diameter_mm),
        said("recess with {guide:word} {size:mm2} (dashed), insert with {other:word} {less:mm2} (dotted)",
             guide=big.kind, size=big.diameter_mm, other=small.kind, less=small.diameter_mm),
        said("gap on each side {gap:mm2}", gap=pair.clearance_mm),
        _cut_here(lies_on),
        MEASURE_FIRST,
    )  # fmt: skip


def pattern_of(outlines: Sequence[Outline], name: str, manner: Manner = ENGLISH) -> Scene:
    """Outlines at 1:1, to mark out from or to scribe by. ValueError when there are none."""
    if not outlines:
        raise ValueError("expected at least one outline, was given none")
    draft = Draft(1.0, manner, TILED_LETTERS)
    for outline in outlines:
        draw_outline(draft, outline, Stroke.CUT, "template")
    boxes = [outline.bounds for outline in outlines]
    whole = (
        min(b[0] for b in boxes),
        min(b[1] for b in boxes),
        max(b[2] for b in boxes),
        max(b[3] for b in boxes),
    )
    _draw_centre_lines(draft, whole)
    draw_check_lines(draft, whole)
    return draft.scene(said("{name}: pattern at true size, show face up", name=name))


def draw_outline(draft: Draft, outline: Outline, stroke: Stroke, layer: str) -> None:
    draft.add(*(Path(ring, True, stroke, layer) for ring in outline.rings))


def _draw_holes(draft: Draft, holes: Sequence[CornerHole]) -> None:
    """Each hole with a cross on its middle, which runs past its rim."""
    for hole in holes:
        draft.add(Circle(hole.x_mm, hole.y_mm, hole.diameter_mm / 2, Stroke.FINE, "holes"))
        reach = hole.diameter_mm / 2 + 2.0
        draft.line((hole.x_mm - reach, hole.y_mm), (hole.x_mm + reach, hole.y_mm), Stroke.FINE, "holes")
        draft.line((hole.x_mm, hole.y_mm - reach), (hole.x_mm, hole.y_mm + reach), Stroke.FINE, "holes")


def _draw_board(draft: Draft, board: TemplateBoard) -> None:
    for zone in board.hold_down:
        draw_hold_down(draft, zone)
    draft.add(Path(_ring(board.swept), True, Stroke.DOTTED, "swept"))
    draft.add(Path(_ring(board.board), True, Stroke.VISIBLE, "board"))


def draw_hold_down(draft: Draft, zone: Box, beside_middle: bool = False) -> None:
    """A zone of the board that clamps or screws may take up, lettered where it is wide enough.

    beside_middle : a centre line runs through the zone's middle, so it is lettered to the left of it.
    """
    draft.add(Area((_ring(zone),), Fill.OFFCUT, "hold-down"))
    draft.add(Path(_ring(zone), True, Stroke.FINE, "hold-down"))
    across = 0.25 if beside_middle else 0.5
    middle = (zone[0] + across * (zone[2] - zone[0]), (zone[1] + zone[3]) / 2)
    words = draft.words(said("hold down here"))
    lettering = draft.label(words, [middle], SMALL_MM, layer="hold-down", within=zone)
    if lettering is not None:
        half = lettering.width_mm / 2 + 1.0
        behind = (middle[0] - half, middle[1] - 2.0, middle[0] + half, middle[1] + 2.0)
        draft.primitives.insert(-1, Area((_ring(behind),), Fill.PIECE, "hold-down"))


def _draw_centre_lines(draft: Draft, box: Box) -> None:
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    draft.line((box[0] - _BEYOND_MM, y), (box[2] + _BEYOND_MM, y), Stroke.CENTRE, "centre lines")
    draft.line((x, box[1] - _BEYOND_MM), (x, box[3] + _BEYOND_MM), Stroke.CENTRE, "centre lines")


def draw_check_lines(draft: Draft, box: Box) -> None:
    """100 mm below and to the left: measured on the print before it is trusted."""
    text = "100 mm"  # measured with a rule in mm, whatever the reader's system
    for beside, start, border in (
        (Beside.BELOW, box[0], box[1] - _BEYOND_MM),
        (Beside.LEFT, box[1], box[0] - _BEYOND_MM),
    ):
        span = Span(start, start + CHECK_MM, text, (border, border))
        draft.add(*chain([span], beside, border, draft.scale))


def _template_notes(template: Template, holes: Sequence[CornerHole]) -> Iterator[Said]:
    yield said(
        "{guide:word} {guide_size:mm2}, cutter {cutter_size:mm2}: cut lies {offset:mm2} from the edge",
        guide=template.guide.kind,
        guide_size=template.guide.diameter_mm,
        cutter_size=template.cutter.diameter_mm,
        offset=abs(template.offset_mm),
    )
    length, width = template.outline.size
    yield said("template {length:mm2} × {width:mm2}", length=length, width=width)
    yield from rotation_note(template.cutter.diameter_mm)
    for size in sorted({hole.diameter_mm for hole in holes}):
        count = sum(hole.diameter_mm == size for hole in holes)
        yield said("drill first: {n:count} holes of {size:mm2}", n=count, size=size)


def rotation_note(cutter_mm: float) -> Iterator[Said]:
    limit = rotation_limit(cutter_mm)
    if limit is not None:
        yield said("turn this cutter at most {limit:count} a minute, or as it says on it", limit=limit)


def _cut_here(lies_on: str) -> Said:
    """What the lines mean, and which way up the template lies."""
    lines = said("full line: cut the template here; dashed: what it cuts")
    if lies_on == "show face":
        return said("{lines}; show face up", lines=lines)
    if lies_on == "underside":
        return said(
            "{lines}; drawn as seen from below: it lies on the underside, show face down", lines=lines
        )
    return said("{lines}; it lies on the {edge:word}, show face to the top of the drawing",
                lines=lines, edge=lies_on)  # fmt: skip


def _ring(box: Box) -> Ring:
    x0, y0, x1, y1 = box
    return ((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0))
