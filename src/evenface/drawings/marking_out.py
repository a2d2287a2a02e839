"""A part seen on the face that is worked, standing as in its piece, every hole and hollow with its place.

Figures along two edges are measured from the corner that is lowest, furthest left and nearest to the front: the same
for a left and a right side. What is worked into the edges is dashed.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from evenface.construction import Axis, Construction, Worked
from evenface.construction.as_it_stands import EDGES, FACES, OPPOSITE, WAYS, AsItStands, standing
from evenface.drawings.draft import Draft, figure
from evenface.drawings.scene import SMALL_MM, Anchor, Circle, Path, Scene, Stroke, Text
from evenface.shape.segment import Box, Point
from evenface.words import ENGLISH, Manner, Said, said

SCALES: Final = (0.5, 0.2, 0.1, 0.05, 0.02)
PAPERS: Final = (((85.5, 132.0), 54, 0.1), ((170.0, 132.0), 112, 0.02))
"""Half the page's width, as long as that is no finer than 1:10, else the whole; letters in a row of notes on each."""
APART_MM: Final = 3.0
"""Between the figures of one edge, on the paper."""
LED_MM: Final = (1.0, 3.0, 6.5)
"""Where the line to a figure begins, bends and ends, out from the edge, on the paper."""
LEAST_MM: Final = 0.45
"""Radius a hole is drawn with at least, on the paper."""
MAIN: Final = ("top", "bottom")
SEEN: Final = {
    Axis.FRONT: (Axis.RIGHT, Axis.UP),
    Axis.REAR: (Axis.LEFT, Axis.UP),
    Axis.RIGHT: (Axis.REAR, Axis.UP),
    Axis.LEFT: (Axis.FRONT, Axis.UP),
    Axis.UP: (Axis.RIGHT, Axis.REAR),
    Axis.DOWN: (Axis.LEFT, Axis.REAR),
}
"""Looking at a face: which direction of the piece runs right on the paper, and which up."""


def marked_out(
    construction: Construction, name: str, number: str, manner: Manner = ENGLISH
) -> tuple[Scene, ...]:
    """Each worked face of the part; what is worked into its edges alone is drawn on its show face.

    Nothing where nothing is worked, or where copies of the part stand in several ways.
    """
    worked = [one for one in construction.arranged.worked if one.part == name and _has_place(one)]
    stands = standing(construction, name)
    if not worked or stands is None:
        return ()
    faces = [face for face in MAIN if any(one.face == face for one in worked)] or ["top"]
    scenes = []
    for face in faces:
        shown = [one for one in worked if one.face == face or one.face not in MAIN]
        view = _View(stands, face, *SEEN[stands.looks(face)])
        scenes.append(_largest(view, shown, f"{number} {manner.name(name)}", manner))
    return tuple(scenes)


@dataclass(frozen=True, slots=True)
class _View:
    """One face of a part on the paper. right, up : the directions of the piece that run so there."""

    stands: AsItStands
    face: str
    right: Axis
    up: Axis

    @property
    def size(self) -> tuple[float, float]:
        return self.stands.size_along(self.right), self.stands.size_along(self.up)

    def point(self, x: float, y: float) -> Point:
        """A place in part coordinates on the paper."""
        return self._way(self.right, x, y), self._way(self.up, x, y)

    def box(self, x0: float, y0: float, x1: float, y1: float) -> Box:
        (a, b), (c, d) = self.point(x0, y0), self.point(x1, y1)
        return min(a, c), min(b, d), max(a, c), max(b, d)

    def _way(self, axis: Axis, x: float, y: float) -> float:
        own = self.stands.placement
        for direction, at in ((own.x_axis, x), (own.y_axis, y)):
            if axis is direction:
                return at
            if axis is OPPOSITE[direction]:
                return self.stands.size_along(axis) - at
        raise ValueError(f"{axis} runs through the thickness of {own.part}")

    def holes(self, one: Worked) -> list[Point]:
        """Middles of holes bored into this face."""
        return [self.point(x, y) for x, y in one.centres] if one.face == self.face else []

    def hollows(self, one: Worked) -> list[Box]:
        """Rectangles of what is worked into this face, or runs in from an edge; holes in an edge too."""
        if one.face == self.face:
            return [] if one.centres else [self.box(one.x0_mm, one.y0_mm, one.x1_mm, one.y1_mm)]
        half = max(one.diameter_mm, 4.0) / 2
        runs = [(at - half, at + half) for at, _ in one.centres] or [(one.x0_mm, one.x1_mm)]
        spaces = [one.space(self.stands.size_mm, run) for run in runs]
        return [self.box(x[0], y[0], x[1], y[1]) for x, y, _ in spaces]


def _has_place(one: Worked) -> bool:
    return one.kind != "mitre" and (bool(one.centres) or one.x1_mm > one.x0_mm or one.y1_mm > one.y0_mm)


def _largest(view: _View, shown: Sequence[Worked], called: str, manner: Manner) -> Scene:
    scene: Scene | None = None
    for paper, letters, finest in PAPERS:
        for scale in SCALES:
            if scale < finest or any(a * scale > b - 12.0 for a, b in zip(view.size, paper, strict=True)):
                continue
            scene = _draw(view, shown, called, manner, scale, letters)
            if scene.width_mm <= paper[0] and scene.height_mm <= paper[1]:
                return scene
    return scene or _draw(view, shown, called, manner, SCALES[-1], PAPERS[-1][1])


def _draw(
    view: _View, shown: Sequence[Worked], called: str, manner: Manner, scale: float, letters: int
) -> Scene:
    draft = Draft(scale, manner, letters)
    wide, high = view.size
    draft.add(Path(_ring((0.0, 0.0, wide, high))))
    across, upwards = {0.0, wide}, {0.0, high}
    for one in shown:
        radius = max(one.diameter_mm / 2, draft.paper(LEAST_MM))
        for x, y in view.holes(one):
            draft.add(Circle(x, y, radius, layer="worked"))
            across.add(x)
            upwards.add(y)
        stroke = Stroke.VISIBLE if one.face == view.face else Stroke.HIDDEN
        if not one.depth_mm:
            stroke = Stroke.CENTRE  # a line to be marked, nothing is worked there
        for box in view.hollows(one):
            draft.add(Path(_ring(box), stroke=stroke, layer="worked"))
            _stations_of(view, one, box, across, upwards)
    _figures(draft, view, sorted(across), along=True)
    _figures(draft, view, sorted(upwards), along=False)
    _name_edges(draft, view)
    told = _rows(draft, list(_letter(draft, view, shown)))
    face = FACES[view.stands.looks(view.face)]
    return draft.scene(said("{part}: {face:word}", part=called, face=face), *told)


def _ring(box: Box) -> tuple[tuple[float, float, float], ...]:
    x0, y0, x1, y1 = box
    return (x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)


def _stations_of(view: _View, one: Worked, box: Box, across: set[float], upwards: set[float]) -> None:
    """Ends of a hollow; of a hole in an edge its middle along that edge."""
    upright = one.face in ("left", "right")
    if one.face != view.face and one.centres:
        own = view.stands.placement
        runs = own.y_axis if upright else own.x_axis
        if runs in (view.right, OPPOSITE[view.right]):
            across.add((box[0] + box[2]) / 2)
        else:
            upwards.add((box[1] + box[3]) / 2)
        return
    across |= {box[0], box[2]}
    upwards |= {box[1], box[3]}


def _figures(draft: Draft, view: _View, places: Sequence[float], along: bool) -> None:
    """What every place measures from the low corner, led out below or to the left, clear of one another."""
    size = view.size[0 if along else 1]
    kept = [at for n, at in enumerate(places) if n == 0 or at - places[n - 1] > 0.05]
    kept = [at for at in kept if -1e-6 <= at <= size + 1e-6]
    spread = _apart(kept, draft.paper(APART_MM))
    axis = view.right if along else view.up
    begin, bend, end = (draft.paper(one) for one in LED_MM)
    middle = draft.paper(0.36 * SMALL_MM)
    for at, stands in zip(kept, spread, strict=True):
        told = at if axis in WAYS else size - at
        text = figure(told, draft.manner)
        line = [(at, -begin), (at, -bend), (stands, -end)]
        if along:
            place = Text(
                stands + middle, -end - draft.paper(0.8), text, SMALL_MM, Anchor.END, 90.0, "dimensions"
            )
        else:
            line = [(y, x) for x, y in line]
            place = Text(
                -end - draft.paper(0.8), stands - middle, text, SMALL_MM, Anchor.END, 0.0, "dimensions"
            )
        draft.add(Path(tuple((x, y, 0.0) for x, y in line), False, Stroke.FINE, "dimensions"), place)


def _apart(places: Sequence[float], least: float) -> list[float]:
    """The same places moved as little as may be until they stand so far apart: crowded ones round their middle."""
    groups: list[list[float]] = []
    for at in places:
        groups.append([at])
        while len(groups) > 1 and _first_of(groups[-1], least) < _last_of(groups[-2], least) + least - 1e-9:
            last = groups.pop()
            groups[-1] += last
    return [_first_of(group, least) + least * n for group in groups for n in range(len(group))]


def _first_of(group: Sequence[float], least: float) -> float:
    return sum(group) / len(group) - least * (len(group) - 1) / 2


def _last_of(group: Sequence[float], least: float) -> float:
    return _first_of(group, least) + least * (len(group) - 1)


def _name_edges(draft: Draft, view: _View) -> None:
    """Which edge of the piece is above on the paper, and which on its right."""
    wide, high = view.size
    above = draft.words(said("{edge:word}", edge=EDGES[view.up]))
    right = draft.words(said("{edge:word}", edge=EDGES[view.right]))
    draft.add(
        Text(wide / 2, high + draft.paper(1.5), above, SMALL_MM, Anchor.MIDDLE, 0.0, "labels"),
        Text(wide + draft.paper(3.2), high / 2, right, SMALL_MM, Anchor.MIDDLE, 90.0, "labels"),
    )


def _rows(draft: Draft, told: Sequence[Said]) -> Iterator[Said]:
    """As many in a row as it holds."""
    row: Said | None = None
    for one in told:
        both = said("{one}; {other}", one=row, other=one) if row else one
        if row and len(draft.words(both)) > draft.note_letters:
            yield row
            both = one
        row = both
    if row:
        yield row


def _boxes(draft: Draft, view: _View, one: Worked) -> list[Box]:
    radius = max(one.diameter_mm / 2, draft.paper(LEAST_MM))
    return [(x - radius, y - radius, x + radius, y + radius) for x, y in view.holes(one)] + view.hollows(one)


def _beside(box: Box, step: float) -> Iterator[Point]:
    x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    yield from ((box[2] + step, y), (box[0] - step, y), (x, box[3] + step), (x, box[1] - step))


def _letter(draft: Draft, view: _View, shown: Sequence[Worked]) -> Iterator[Said]:
    """A letter beside everything worked, and what each letter stands for."""
    meant: dict[tuple[str, float, float, bool], str] = {}
    places = [_boxes(draft, view, one) for one in shown]
    draft.keep_off(*(box for boxes in places for box in boxes))
    for one, boxes in zip(shown, places, strict=True):
        key = (one.kind, one.diameter_mm, round(one.depth_mm, 3), one.face != view.face)
        letter = meant.setdefault(key, chr(ord("a") + len(meant) % 26))
        round_it = [place for box in boxes for place in _beside(box, draft.paper(2.2))]
        draft.label(letter, round_it, SMALL_MM, within=(0.0, 0.0, *view.size))
    for (kind, wide, deep, in_edge), letter in meant.items():
        what = said("{letter} {kind:word}", letter=letter, kind=kind)
        if wide:
            what = said("{what} Ø {wide:mm}", what=what, wide=wide)
        if deep:
            what = said("{what}, {deep:mm} deep", what=what, deep=deep)
        yield said("{what}, in the edge", what=what) if in_edge else what
