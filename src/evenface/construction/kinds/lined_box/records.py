"""A lined box as asked for. Lengths in mm; see `form` for what each entry means."""

from dataclasses import dataclass, field
from typing import Final

from evenface.piece.records import Panel

FRONT, SIDES = "front", "sides"
PAIRS: Final = (FRONT, SIDES)
"""The two pairs of walls: front and rear, left and right."""
TO_REAR, TO_RIGHT = "front to rear", "left to right"


@dataclass(frozen=True, slots=True)
class Walls:
    """See `form.WallsForm`."""

    wood: str
    thickness: float
    side_thickness: float | None = None
    cut: str = "quarter"

    def thick(self, pair: str) -> float:
        """Thickness of the wood of front and rear, or of the two sides. [mm]"""
        return self.thickness if pair == FRONT or self.side_thickness is None else self.side_thickness


@dataclass(frozen=True, slots=True)
class LiningAsked:
    """See `form.LiningForm`."""

    facing: str
    glue: str
    direction: float = 0.0
    corner: str = "front runs through"
    gap: float = 0.0
    thickness: float | None = None


@dataclass(frozen=True, slots=True)
class FingersAsked:
    """See `form.FingersForm`."""

    number: int | None = None
    width: float | None = None
    cutter: float = 6.0
    half_pins: bool = False
    starts: str = FRONT
    fit: float = 0.1


@dataclass(frozen=True, slots=True)
class BottomAsked:
    """See `form.BottomForm`. panel : its pattern, None for solid wood."""

    panel: Panel | None = None
    wood: str = ""
    thickness: float = 8.0
    cut: str = "quarter"
    groove: float = 6.0
    up: float = 6.0
    play: float = 0.5


@dataclass(frozen=True, slots=True)
class DividersAsked:
    """See `form.DividerForm`. panel : pattern, None for solid wood."""

    way: str
    count: int = 1
    clear: tuple[float, ...] = ()
    panel: Panel | None = None
    wood: str = ""
    thickness: float = 6.0
    cut: str = "quarter"
    held: str = "housed"
    depth: float = 4.0
    play: float = 0.2
    below: float = 0.0
    origin: str = ""


@dataclass(frozen=True, slots=True)
class LinedBox:
    """size_mm : width, depth, height, outside or inside (`given_inside`)."""

    size_mm: tuple[float, float, float]
    given_inside: bool
    walls: Walls
    lining: LiningAsked
    bottom: BottomAsked
    fingers: FingersAsked = field(default_factory=FingersAsked)
    dividers: tuple[DividersAsked, ...] = ()
    origin: str = ""
