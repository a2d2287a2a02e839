"""A top on a base as asked for. Lengths in mm, masses in kg."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from evenface.piece.records import Panel, Side


@dataclass(frozen=True, slots=True)
class Legs:
    """See `form.LegsForm`."""

    wood: str
    size: tuple[float, float]
    cut: str = "rift"


@dataclass(frozen=True, slots=True)
class ApronJoint:
    """See `form.ApronJointForm`."""

    kind: str = "mortise and tenon"
    length: float | None = None
    thickness: float | None = None
    haunch: float | None = None


@dataclass(frozen=True, slots=True)
class Apron:
    """See `form.ApronForm`."""

    wood: str
    thickness: float
    height: float
    front: float | None = None
    rear: float | None = None
    ends: float | None = None
    cut: str = "flat"
    back: float = 5.0
    joint: ApronJoint = field(default_factory=ApronJoint)
    bearers: int = 0
    bearer_height: float | None = None

    def height_at(self, side: Side) -> float:
        """Height of the apron at that side. [mm]"""
        own = {Side.FRONT: self.front, Side.REAR: self.rear}.get(side, self.ends)
        return self.height if own is None else own


@dataclass(frozen=True, slots=True)
class Supports:
    """See `form.SupportsForm`."""

    width: float
    what: str = "trestle"
    count: int = 2
    screwed: bool = True


@dataclass(frozen=True, slots=True)
class Fixing:
    """See `form.FixingForm`."""

    kind: str = "slotted plate"
    every: float = 300.0
    slot: float | None = None
    fixed: str = "middle"


@dataclass(frozen=True, slots=True)
class Seats:
    """See `form.SeatsForm`."""

    front: int = 0
    rear: int = 0
    left: int = 0
    right: int = 0
    arms: bool = False

    def at(self, side: Side) -> int:
        return int(getattr(self, side.value))

    @property
    def any(self) -> bool:
        return any(self.at(side) for side in Side)


@dataclass(frozen=True, slots=True)
class Load:
    """See `form.LoadForm`. [kg]"""

    even: float = 60.0
    edge: float = 75.0


@dataclass(frozen=True, slots=True)
class Way:
    """See `form.WayForm`."""

    doors: tuple[tuple[float, float], ...] = ()
    corner: tuple[float, float] | None = None
    ceiling: float = 2300.0


@dataclass(frozen=True, slots=True)
class TopOnBase:
    """A top on legs and aprons, or on supports: one of the two is given.

    size_mm : width, height, depth over everything. overhang : of the top over the outside of the base, by edge.
    """

    top: Panel
    size_mm: tuple[float, float, float]
    overhang: Mapping[Side, float]
    legs: Legs | None = None
    apron: Apron | None = None
    supports: Supports | None = None
    fixing: Fixing = field(default_factory=Fixing)
    seats: Seats = field(default_factory=Seats)
    load: Load = field(default_factory=Load)
    way: Way = field(default_factory=Way)
    origin: str = ""
