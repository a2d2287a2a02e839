"""The sheet a drawing is made on: gathers primitives and keeps lettering from lying on lettering."""

from collections.abc import Iterable, Sequence
from textwrap import wrap

from evenface.drawings.scene import (
    SMALL_MM,
    TEXT_MM,
    Anchor,
    Dimension,
    Line,
    Primitive,
    Scene,
    Stroke,
    Text,
    bounds_of,
    scale_text,
    scene_of,
    text_box,
    texts_of,
)
from evenface.shape.segment import Box, Point
from evenface.words import Manner, Said, length_shown, said, say

_CLEAR_MM = 0.8
NOTE_LETTERS = 92
TILED_LETTERS = 64
"""In a row of notes. Of a drawing that runs over several pages they then stay on the page they begin on."""


class Draft:
    """Primitives as they are put down. Boxes already taken are in mm of the piece."""

    def __init__(self, scale: float, manner: Manner, note_letters: int = NOTE_LETTERS) -> None:
        self.scale, self.manner, self.note_letters = scale, manner, note_letters
        self.primitives: list[Primitive] = []
        self._taken: list[Box] = []

    def paper(self, mm: float) -> float:
        """A length on the paper, in mm of the piece."""
        return mm / self.scale

    def words(self, sentence: Said) -> str:
        return say(sentence, self.manner)

    def add(self, *primitives: Primitive) -> None:
        """Put primitives down; their lettering, and the lines of dimensions, keep labels off."""
        self.primitives += primitives
        for text in texts_of(primitives):
            self._taken.append(text_box(text, self.scale))
        for one in primitives:
            if isinstance(one, Dimension):
                self._taken += [_box(line) for line in one.extensions]

    def keep_off(self, *boxes: Box) -> None:
        """Boxes on which no label may lie."""
        self._taken += boxes

    def is_free(self, box: Box) -> bool:
        clear = self.paper(_CLEAR_MM)
        return not any(
            box[0] - clear < other[2]
            and other[0] < box[2] + clear
            and box[1] - clear < other[3]
            and other[1] < box[3] + clear
            for other in self._taken
        )

    def line_is_free(self, first: Point, last: Point) -> bool:
        """Whether a straight line runs through no lettering put down so far."""
        steps = [k / 40 for k in range(41)]
        points = [(first[0] + k * (last[0] - first[0]), first[1] + k * (last[1] - first[1])) for k in steps]
        boxes = [text_box(text, self.scale) for text in texts_of(self.primitives)]
        return not any(box[0] < x < box[2] and box[1] < y < box[3] for x, y in points for box in boxes)

    def label(
        self,
        text: str,
        places: Iterable[Point],
        size_mm: float = TEXT_MM,
        anchor: Anchor = Anchor.MIDDLE,
        layer: str = "labels",
        within: Box | None = None,
    ) -> Text | None:
        """The text at the first of the places (middle of its height) where it lies on nothing; else None."""
        shown = self.manner.name(text)
        for x, y in places:
            one = Text(x, y - self.paper(0.36 * size_mm), shown, size_mm, anchor, 0.0, layer)
            box = text_box(one, self.scale)
            if self.is_free(box) and (within is None or _inside(box, within)):
                self.add(one)
                return one
        return None

    def note(self, *rows: str) -> None:
        """Rows of small lettering under everything drawn so far; long ones go on in the next row."""
        x0, y0, _, _ = bounds_of(self.primitives, self.scale, 0.0)
        lines = [line for row in rows for line in wrap(row, self.note_letters) or [row]]
        for number, row in enumerate(lines):
            y = y0 - self.paper(4.5 + number * 1.5 * SMALL_MM)
            self.add(Text(x0, y, row, SMALL_MM, Anchor.START, 0.0, "notes"))

    def scene(self, title: Said, *notes: Said) -> Scene:
        """The finished scene, with its title, scale and unit beneath it."""
        name = self.words(title)
        unit = said("sizes in inches") if self.manner.system == "inch" else said("sizes in mm")
        head = f"{name} · {scale_text(self.scale)} · {self.words(unit)}"
        self.note(head, *(self.words(one) for one in notes))
        return scene_of(name, self.scale, self.primitives)

    def line(self, first: Point, last: Point, stroke: Stroke, layer: str) -> None:
        self.add(Line(*first, *last, stroke, layer))


def figure(length_mm: float, manner: Manner) -> str:
    """A length as it stands on a drawing: in the reader's system, without the unit."""
    return length_shown(length_mm, manner)


def first_fitting(scenes: Iterable[Scene], paper_mm: tuple[float, float]) -> Scene:
    """The first scene that lies on a paper of that width and height, else the last one."""
    last: Scene | None = None
    for scene in scenes:
        last = scene
        if scene.width_mm <= paper_mm[0] and scene.height_mm <= paper_mm[1]:
            return scene
    if last is None:
        raise ValueError("expected at least one scale to try")
    return last


def _box(points: Sequence[Point]) -> Box:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _inside(box: Box, within: Box) -> bool:
    return within[0] <= box[0] and within[1] <= box[1] and box[2] <= within[2] and box[3] <= within[3]
