"""A drawer as asked for, and the place it is made for."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from evenface.construction.fastenings import Joining
from evenface.construction.ground import Ground
from evenface.piece.records import Panel


@dataclass(frozen=True, slots=True)
class DrawerBox:
    """See `form.DrawerForm`."""

    wood: str = ""
    buildup: str = ""
    thickness: float = 12.0
    cut: str = "flat"
    height: float | None = None
    clearance: float = 12.7
    above: float = 10.0
    below: float = 10.0
    runner: str = "side runner"
    length: float | None = None
    joint: Joining = field(default_factory=Joining)
    bottom_wood: str = ""
    bottom_thickness: float = 8.0
    groove: float = 6.0
    up: float = 10.0


@dataclass(frozen=True, slots=True)
class DrawerPlace:
    """What one drawer is made for.

    number : among the drawers of the piece. patterns : "drawer side" and "drawer bottom", where they are panels.
    inside : the air round it. origin : key path of the table of the box; row_origin : of the row it is asked in.
    x, z : the clear opening it runs in. begins_y : rear of the front; ends_y : what it must not touch behind.
    ahead : members of the row of depth before the box. front_key : of the front that is screwed on, "" without.
    left, right, above : names of the parts beside and over it, or "outside". aside_mm : how far its bottom is
    moved to the right when the piece is taken apart. [mm]
    """

    number: int
    asked: DrawerBox
    patterns: Mapping[str, Panel]
    ground: Ground
    inside: str
    origin: str
    row_origin: str
    x: tuple[float, float]
    z: tuple[float, float]
    begins_y: float
    ends_y: float
    ahead: tuple[tuple[str, float], ...]
    front_key: str
    left: str = "outside"
    right: str = "outside"
    above: str = "outside"
    aside_mm: float = 300.0
