"""A piece taken apart: every part moved out of its place, seen slantwise from the front, the right and above."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from evenface.drawings.axonometric import back_to_front, inner_edges, outline, seen_points
from evenface.drawings.draft import Draft
from evenface.drawings.part_numbers import Edge, Numbered, draw_numbers
from evenface.drawings.placed_parts import PlacedPart, Solid
from evenface.drawings.scene import Area, Fill, Path, Scene, Stroke, box_round
from evenface.shape.segment import Box, Point
from evenface.words import Said, said

_IN_A_ROW: Final = 10


@dataclass(frozen=True, slots=True)
class Apart:
    """Boxes where they are drawn, in the order in which they are painted, and where each number may be led from.

    border : round all of them on the paper, in mm of the piece. covered : numbers of which nothing is seen.
    """

    solids: tuple[Solid, ...]
    border: Box
    numbered: tuple[Numbered, ...]
    covered: tuple[str, ...]


def apart_from(parts: Sequence[PlacedPart]) -> Apart:
    """The same at every scale: worked out once for all that are tried."""
    moved = [part.apart() for part in parts]
    solids = [part.whole for part in moved]
    order = back_to_front(solids)
    border = box_round([point for solid in solids for point in outline(solid)])
    places: dict[str, list[Point]] = {}
    for part, points in zip(moved, seen_points(solids, order), strict=True):
        places.setdefault(part.number, []).extend(points)
    return Apart(
        tuple(solids[n] for n in order),
        border,
        tuple(_led_out(number, points) for number, points in places.items() if points),
        tuple(number for number, points in places.items() if not points),
    )


def draw_apart(draft: Draft, apart: Apart, name: str) -> Scene:
    """The drawing of a piece of that name."""
    for solid in apart.solids:
        ring = tuple((x, y, 0.0) for x, y in outline(solid))
        draft.add(Area((ring,), Fill.PIECE, "outline"), Path(ring, True, Stroke.VISIBLE, "outline"))
        for first, last in inner_edges(solid):
            draft.line(first, last, Stroke.FINE, "outline")
    draw_numbers(draft, apart.numbered, apart.border)
    return draft.scene(
        said("{name}: taken apart", name=name),
        said("widths and heights to scale, depths by half"),
        *_behind(apart.covered),
    )


def _led_out(number: str, points: Sequence[Point]) -> Numbered:
    """Led to either side from the place that is seen nearest to the middle of all that is seen of it."""
    middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
    start = min(points, key=lambda one: (one[0] - middle[0]) ** 2 + (one[1] - middle[1]) ** 2)
    return Numbered(number, dict.fromkeys((Edge.RIGHT, Edge.LEFT, Edge.ABOVE), start))


def _behind(numbers: Sequence[str]) -> Iterator[Said]:
    """The numbers of parts of which nothing is seen, in rows that are no longer than the drawing."""
    for start in range(0, len(numbers), _IN_A_ROW):
        row = ", ".join(numbers[start : start + _IN_A_ROW])
        yield said("also behind others: {numbers}" if start else "behind others: {numbers}", numbers=row)
