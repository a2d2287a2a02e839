"""What can be wrong with an outline, and where: one exception that carries the place as data."""

from __future__ import annotations

from dataclasses import dataclass

from evenface.errors import Sentence, in_words
from evenface.words import Said, said, say


@dataclass(frozen=True, slots=True)
class Place:
    """Where in an outline: ring (0 = outer), segment of that ring, and the point in mm.

    ``source`` names the thing read from a file (an entity or element), empty for outlines built here.
    """

    ring: int
    segment: int
    x_mm: float
    y_mm: float
    source: str = ""

    def __str__(self) -> str:
        return say(self.sentence)

    @property
    def sentence(self) -> Said:
        """The place in words."""
        spot = said(
            "ring {ring}, segment {segment}, at x {x:.3f}, y {y:.3f} mm",
            ring=self.ring,
            segment=self.segment,
            x=self.x_mm,
            y=self.y_mm,
        )
        return said("{source}, {spot}", source=self.source, spot=spot) if self.source else spot


class ShapeError(ValueError):
    """A shape that cannot be: what was expected, what was given, where, what to try.

    ``problem`` is a short fixed word (``self_crossing``, ``zero_length``, ``open``, ...) for code that turns
    the error into a finding; ``place`` is None where the whole shape is meant; ``sentence`` is what is said.
    """

    def __init__(
        self, problem: str, message: Sentence, place: Place | None = None, value: float | None = None
    ):
        self.sentence = (
            said("{what:word} ({place})", what=message, place=place.sentence) if place else message
        )
        super().__init__(in_words(self.sentence))
        self.problem = problem
        self.place = place
        self.value = value


def need(condition: bool, problem: str, message: Sentence, value: float | None = None) -> None:
    """Raise ``ShapeError`` unless ``condition`` holds."""
    if not condition:
        raise ShapeError(problem, message, value=value)


def told(broken: Exception, most: int = 120) -> str:
    """What a library says of a broken file, in letters any terminal can show and no longer than a line."""
    text = str(broken).encode("ascii", "replace").decode("ascii").replace("\n", " ")
    return "".join(letter if letter.isprintable() else "?" for letter in text)[:most]
