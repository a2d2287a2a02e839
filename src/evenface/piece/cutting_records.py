"""What the maker said about cutting: which aims come first, what a rest is worth, who saws, what a board looks like."""

from dataclasses import dataclass
from decimal import Decimal
from typing import Final, Literal

type CuttingAim = Literal[
    "fewest sheets", "least money", "offcuts first", "largest offcut", "fewest cuts", "fewest settings"
]

USUAL_AIMS: Final[tuple[CuttingAim, ...]] = (
    "least money",
    "fewest sheets",
    "offcuts first",
    "largest offcut",
    "fewest cuts",
    "fewest settings",
)
"""Least money where every price is known, else fewest sheets (of several sizes: least area); then the rests."""


@dataclass(frozen=True, slots=True)
class MerchantSaw:
    """How the merchant cuts: kerf, what he takes off a sheet's edge and leaves on each piece, least strip."""

    kerf_mm: float = 4.0
    sheet_trim_mm: float = 10.0
    piece_trim_mm: float = 5.0
    least_strip_mm: float = 50.0


@dataclass(frozen=True, slots=True)
class Cutting:
    """Aims in their order, from what size a rest is useful and what it is worth, and limits of handling.

    least_offcut_mm : shorter and longer side. offcut_value : money a square metre, None when not told.
    lift_kg : largest piece one person turns at the saw. rail_mm : length of the guide rail.
    shears_mm : longest cut of the shears. rip_first : of boards; None takes the better way for each board.
    """

    aims: tuple[CuttingAim, ...] = USUAL_AIMS
    least_offcut_mm: tuple[float, float] = (100.0, 300.0)
    offcut_value: Decimal | None = None
    lift_kg: float = 25.0
    rail_mm: float = 1400.0
    shears_mm: float = 1300.0
    rip_first: bool | None = None
    planed_width_mm: float = 3.0
    planed_thickness_mm: float = 3.0
    merchant: MerchantSaw = MerchantSaw()
    origin: str = "cutting"


USUAL_CUTTING: Final = Cutting()


@dataclass(frozen=True, slots=True)
class Defect:
    """A knot or split of a board: a rectangle from its butt end and its lower edge, and what it is."""

    at_mm: tuple[float, float]
    size_mm: tuple[float, float]
    kind: str = "knot"


@dataclass(frozen=True, slots=True)
class RoughBoard:
    """What makes a board more than a rectangle.

    far_width_mm : width at the far end where it tapers, None for parallel. wane_mm : bark or round edge to
    be ripped off along the lower and the upper edge.
    """

    thickness_mm: float | None = None
    far_width_mm: float | None = None
    wane_mm: tuple[float, float] = (0.0, 0.0)
    defects: tuple[Defect, ...] = ()


PLAIN_BOARD: Final = RoughBoard()
