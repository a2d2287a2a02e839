"""A part and the four sizes of every layer of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from evenface.piece.records import Role, Side
from evenface.words import Said

type Size = tuple[float, float, float]
"""Length, width (or edging's width in plan), thickness (or edging's height). [mm]"""


@dataclass(frozen=True, slots=True)
class LayerSizes:
    """One layer of a part, from what it measures in the finished piece to what is taken from stock.

    net_mm : in the finished piece. cut_mm : what the saw, fence or thicknesser is set to.
    blank_mm : what is glued on or trimmed from; for sheets the rectangle laid out on stock.
    bought_mm : rough size of solid wood; None for sheets, which are bought by the layout.
    inner_mm : of an edging, the length at its inner side; None elsewhere.
    along_x : whether the first size runs along the panel's length.
    direction_deg : grain or machine direction against the panel's length.
    tolerance_mm : what it has to be kept to; depends_on : what to measure before cutting it.
    reasons : every deduction and allowance, in reading order.
    locked : already cut; its cut size is as measured.
    fitted : scribed into its opening rather than cut to a number.
    """

    role: Role
    material: str
    net_mm: Size
    cut_mm: Size
    blank_mm: Size
    count: int = 1
    side: Side | None = None
    bought_mm: Size | None = None
    inner_mm: float | None = None
    along_x: bool = True
    direction_deg: float = 0.0
    tolerance_mm: float = 0.5
    depends_on: tuple[Said, ...] = ()
    reasons: tuple[Said, ...] = ()
    angles_deg: tuple[float, float] = (90.0, 90.0)
    locked: bool = False
    fitted: bool = False
    name: str = ""
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """One thing made from layers, so many times.

    id : short and stable within the job, as printed on labels ("1.2").
    finished_mm : length, width, thickness over everything.
    mass_kg : of one. marks : face and edge marks to be put on it.
    """

    id: str
    piece: str
    name: str
    count: int
    finished_mm: Size
    layers: tuple[LayerSizes, ...]
    mass_kg: float
    marks: Mapping[str, Said] = field(default_factory=dict)
    origin: str = ""

    def layer(self, role: Role, side: Side | None = None) -> LayerSizes | None:
        """The layer of that role (and side, for edging); None where there is none."""
        return next((layer for layer in self.layers if layer.role is role and layer.side is side), None)
