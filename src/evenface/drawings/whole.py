"""Drawings of a whole piece from its placed parts: front, side, plan, a section, and the piece taken apart.

Parts are drawn as rectangles and boxes, less the grooves, rebates and housings worked into them; roundings,
cut-outs and profiles are on the sheets of the parts. x runs right, y to the rear, z up, as the piece stands.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from evenface.construction import BuiltPanel, Construction
from evenface.construction.placed import Point
from evenface.drawings.apart import apart_from, draw_apart
from evenface.drawings.cut_faces import cut_areas, material_boxes, place_of_cut
from evenface.drawings.draft import Draft, figure
from evenface.drawings.part_numbers import Edge, Numbered, column_mm, draw_numbers
from evenface.drawings.placed_parts import PlacedPart, placed_parts
from evenface.drawings.plan import SCALES
from evenface.drawings.rows_of_sizes import draw_sizes
from evenface.drawings.scene import Scene, Stroke
from evenface.drawings.sight import Look, Sight, sight_of
from evenface.shape.segment import Box
from evenface.words import ENGLISH, Manner, Said, listed, said

VIEWS_PAPER_MM: Final = (170.0, 150.0)
APART_PAPER_MM: Final = (170.0, 200.0)
LEAST_SEEN_MM: Final = 0.5
"""What shows less than this on the paper, as a divider in the gap between two doors, bears no number."""
MOST_HIDDEN: Final = 16
"""More hidden parts than these would be a thicket of dashes: they are left out then."""
DASHES_APART_MM: Final = 0.8
"""A dashed line nearer than this to another line on the paper is left out."""
MOST_AT_TWO_SIDES: Final = 14
"""More numbers than these are led to the left too, where rows of sizes would stand."""
_INTO_MM: Final = 4.0
_SAME_MM: Final = 0.01
_KINDS: Final = {"front": Look.FRONT, "side": Look.SIDE, "plan": Look.PLAN}
_NAMES: Final = {
    Look.FRONT: "{name}: from the front",
    Look.SIDE: "{name}: from the right",
    Look.PLAN: "{name}: from above",
}


def whole_scenes(
    construction: Construction,
    numbers: Mapping[str, str] | None = None,
    manner: Manner = ENGLISH,
    scales: Sequence[float] = SCALES,
) -> tuple[tuple[str, Scene], ...]:
    """Every drawing of the piece with its kind: front, side, plan, section, apart; none for loose panels.

    The views share the largest of the scales at which each lies on half a page; the section and the piece
    taken apart have scales of their own. numbers : of the parts by their names, else counted from 1.
    """
    if not construction.arranged.placements or construction.arranged.size_mm is None:
        return ()

    parts, size = _standing(construction, numbers)
    sights = {look: sight_of(parts, look) for look in Look}
    cut_at = place_of_cut(parts, size[0])
    cut = _cut_sight(parts, cut_at)
    apart = apart_from(parts)

    def views(scale: float) -> tuple[tuple[str, Scene], ...]:
        return tuple(
            (kind, _view(construction, sights[look], scale, manner)) for kind, look in _KINDS.items()
        )

    def section(scale: float) -> tuple[tuple[str, Scene], ...]:
        return (("section", _section(construction, cut, cut_at, scale, manner)),)

    def taken_apart(scale: float) -> tuple[tuple[str, Scene], ...]:
        return (("apart", draw_apart(Draft(scale, manner), apart, construction.piece.name)),)

    wide, deep, high = size
    bare = max(wide, deep), max(high, deep)
    x0, y0, x1, y1 = apart.border
    return (
        *_fitting(views, scales, VIEWS_PAPER_MM, bare),
        *_fitting(section, scales, VIEWS_PAPER_MM, (deep, high)),
        *_fitting(taken_apart, scales, APART_PAPER_MM, (x1 - x0, y1 - y0)),
    )


def view_of(
    construction: Construction,
    look: Look,
    scale: float,
    numbers: Mapping[str, str] | None = None,
    manner: Manner = ENGLISH,
    beneath: Sequence[Box] = (),
    sawn_off: bool = False,
) -> Scene:
    """What is seen of the piece from that way; what is hidden is dashed where it is not too much.

    beneath : rectangles on the paper, in mm of the piece, that are dashed too: hollows on the far side.
    sawn_off : it goes on beyond its right border, which therefore ends no size.
    Raises ValueError for a piece whose parts stand nowhere.
    """
    parts, _ = _standing(construction, numbers)
    return _view(construction, sight_of(parts, look), scale, manner, beneath, sawn_off)


def _view(
    construction: Construction,
    sight: Sight,
    scale: float,
    manner: Manner,
    beneath: Sequence[Box] = (),
    sawn_off: bool = False,
) -> Scene:
    draft, look, size = Draft(scale, manner), sight.look, _size(construction)
    lines = _draw_lines(draft, sight)
    shown = [tuple(sight.rectangles(n)) for n in range(len(sight.parts))]
    hidden = _unseen(draft, shown)
    if hidden <= MOST_HIDDEN:
        covered = sight.hidden_units()
        lines += sight.lines(covered)
        for line in sight.lines(sight.spaced(covered, DASHES_APART_MM / scale)):
            draft.line(line[:2], line[2:], Stroke.HIDDEN, "hidden")
    given = [look.on_paper((one.low, one.high)) for one in construction.arranged.given]
    outside = list(lines)
    for line in dict.fromkeys(side for box in (*beneath, *given) for side in _sides(box)):
        lines.append(line)
        if not (_on_border(line, size[look.right], size[look.up]) and _is_drawn(line, outside)):
            draft.line(line[:2], line[2:], Stroke.HIDDEN, "hidden")
    fine = draw_sizes(draft, look, size, construction.arranged.chains, lines, sawn_off=sawn_off)
    _draw_numbers(draft, sight, _largest(sight, shown, scale), size)
    notes = [said("not dashed: {count:count} parts behind others", count=hidden)] * (hidden > MOST_HIDDEN)
    notes += _too_fine(fine, manner)
    return draft.scene(
        said(_NAMES[look], name=construction.piece.name),
        *notes,
        *_by_others(construction),
        *_plainness(construction),
    )


def section_through(
    construction: Construction,
    scale: float,
    numbers: Mapping[str, str] | None = None,
    manner: Manner = ENGLISH,
    at_mm: float | None = None,
) -> Scene:
    """The piece cut upright from front to rear, what lies left of the cut seen from the right.

    at_mm : from the left side; else the middle, or beside it where a part stands along the cut there.
    Raises ValueError for a piece whose parts stand nowhere.
    """
    parts, size = _standing(construction, numbers)
    cut_at = place_of_cut(parts, size[0]) if at_mm is None else at_mm
    return _section(construction, _cut_sight(parts, cut_at), cut_at, scale, manner)


def _cut_sight(parts: Sequence[PlacedPart], cut_at: float) -> Sight:
    met = [part for part in parts if part.whole[0][0] < cut_at < part.whole[1][0]]
    borders = [box for part in met for box in material_boxes(part, Look.SIDE)]
    return sight_of(parts, Look.SIDE, cut_at, borders)


def _section(construction: Construction, sight: Sight, cut_at: float, scale: float, manner: Manner) -> Scene:
    draft, size = Draft(scale, manner), _size(construction)
    draft.add(*cut_areas(sight, cut_at))
    lines = _draw_lines(draft, sight)
    shown = shown_numbers(sight, scale)
    left = column_mm(shown) if len(shown) > MOST_AT_TWO_SIDES else 0.0
    fine = draw_sizes(draft, Look.SIDE, size, construction.arranged.chains, lines, left)
    _draw_numbers(draft, sight, shown, size, to_the_left=left > 0)
    return draft.scene(
        said("{name}: section", name=construction.piece.name),
        said("cut {at:mm} from the left, seen from the right", at=cut_at),
        *_too_fine(fine, manner),
    )


def _too_fine(gaps: Sequence[float], manner: Manner) -> Iterator[Said]:
    if gaps:
        yield said("too fine to be drawn: {sizes}", sizes=", ".join(figure(one, manner) for one in gaps))


def apart_of(
    construction: Construction,
    scale: float,
    numbers: Mapping[str, str] | None = None,
    manner: Manner = ENGLISH,
) -> Scene:
    """Every part moved out of its place, seen slantwise from the front, the right and above.

    Raises ValueError for a piece whose parts stand nowhere.
    """
    parts, _ = _standing(construction, numbers)
    return draw_apart(Draft(scale, manner), apart_from(parts), construction.piece.name)


def shown_numbers(sight: Sight, scale: float) -> dict[str, Box]:
    """Numbers of the parts that show, each with the largest rectangle in which it does."""
    return _largest(sight, [tuple(sight.rectangles(n)) for n in range(len(sight.parts))], scale)


def _largest(sight: Sight, shown: Sequence[Sequence[Box]], scale: float) -> dict[str, Box]:
    best: dict[str, tuple[float, Box]] = {}
    for part, boxes in zip(sight.parts, shown, strict=True):
        for box in boxes:
            wide, high = box[2] - box[0], box[3] - box[1]
            worth = min(wide, high) * max(wide, high)
            if min(wide, high) * scale >= LEAST_SEEN_MM and worth > best.get(part.number, (0.0, box))[0]:
                best[part.number] = (worth, box)
    return {number: box for number, (_, box) in best.items()}


def _standing(
    construction: Construction, numbers: Mapping[str, str] | None
) -> tuple[tuple[PlacedPart, ...], Point]:
    parts, size = placed_parts(construction, numbers), construction.arranged.size_mm
    if not parts or size is None:
        raise ValueError(
            f"expected a piece whose parts stand somewhere, was given {construction.piece.name!r}"
        )
    return parts, size


def _size(construction: Construction) -> Point:
    size = construction.arranged.size_mm
    assert size is not None
    return size


def _fitting(
    draw: Callable[[float], tuple[tuple[str, Scene], ...]],
    scales: Sequence[float],
    paper_mm: tuple[float, float],
    bare_mm: tuple[float, float],
) -> tuple[tuple[str, Scene], ...]:
    """The drawings at the first scale at which all of them lie on the paper, else at the last.

    bare_mm : what they take up without sizes and numerals, in mm of the piece.
    """
    worth = [one for one in scales if all(a * one <= b for a, b in zip(bare_mm, paper_mm, strict=True))]
    made: tuple[tuple[str, Scene], ...] = ()
    for scale in worth or scales[-1:]:
        made = draw(scale)
        if all(one.width_mm <= paper_mm[0] and one.height_mm <= paper_mm[1] for _, one in made):
            break
    return made


def _draw_lines(draft: Draft, sight: Sight) -> list[tuple[float, float, float, float]]:
    """Borders of all that is seen; where something is cut its border is the broader line."""
    units = dict(sight.units())
    cut = list(sight.lines(unit for unit, is_cut in units.items() if is_cut))
    seen = list(sight.lines(unit for unit, is_cut in units.items() if not is_cut))
    for lines, stroke in ((seen, Stroke.FINE if cut else Stroke.VISIBLE), (cut, Stroke.VISIBLE)):
        for line in lines:
            draft.line(line[:2], line[2:], stroke, "outline")
    return seen + cut


def _sides(box: Box) -> Iterator[tuple[float, float, float, float]]:
    x0, y0, x1, y1 = box
    yield from ((x0, y0, x1, y0), (x0, y1, x1, y1), (x0, y0, x0, y1), (x1, y0, x1, y1))


def _on_border(line: Sequence[float], wide: float, high: float) -> bool:
    """Whether it lies on the outside of the piece."""
    x0, y0, x1, y1 = line
    return (x0 == x1 and x0 in (0.0, wide)) or (y0 == y1 and y0 in (0.0, high))


def _is_drawn(line: Sequence[float], lines: Sequence[Sequence[float]]) -> bool:
    """Whether one of the lines goes through its middle, the same way."""
    upright = line[0] == line[2]
    along, across = (1, 0) if upright else (0, 1)
    middle = (line[along] + line[along + 2]) / 2
    return any(
        abs(one[across] - line[across]) < _SAME_MM
        and abs(one[across + 2] - line[across]) < _SAME_MM
        and min(one[along], one[along + 2]) <= middle <= max(one[along], one[along + 2])
        for one in lines
    )


def _unseen(draft: Draft, shown: Sequence[Sequence[Box]]) -> int:
    """How many of the parts show nothing worth a number."""
    least = LEAST_SEEN_MM / draft.scale
    return sum(not any(min(box[2] - box[0], box[3] - box[1]) >= least for box in boxes) for boxes in shown)


def _draw_numbers(
    draft: Draft, sight: Sight, shown: Mapping[str, Box], size: Point, to_the_left: bool = False
) -> None:
    border = (0.0, 0.0, size[sight.look.right], size[sight.look.up])
    into = draft.paper(_INTO_MM)
    numbered = []
    for number, (x0, y0, x1, y1) in shown.items():
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        aside = min((x1 - x0) / 2, into)
        starts = {Edge.ABOVE: (x, y1 - min((y1 - y0) / 2, into)), Edge.RIGHT: (x1 - aside, y)}
        starts |= {Edge.LEFT: (x0 + aside, y)} if to_the_left else {}
        numbered.append(Numbered(number, starts))
    draw_numbers(draft, numbered, border)


def _by_others(construction: Construction) -> Iterator[Said]:
    names = dict.fromkeys(one.name for one in construction.arranged.given)
    if names:
        yield said("dashed, made by others: {names}", names=listed(names))


def _plainness(construction: Construction) -> Iterator[Said]:
    panels = [one.panel for one in construction.panels if isinstance(one, BuiltPanel)]
    if any(panel.corners or panel.cutouts or panel.outline is not None for panel in panels):
        yield said("without roundings and cut-outs: see the parts")
