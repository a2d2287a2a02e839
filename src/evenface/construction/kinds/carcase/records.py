"""A carcase as asked for: sizes in mm, panels as patterns that building gives their size."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from evenface.construction.drawers.records import DrawerBox
from evenface.construction.fastenings import Joining
from evenface.piece.records import Panel


@dataclass(frozen=True, slots=True)
class Back:
    """See `form.BackForm`."""

    how: str = "groove"
    depth: float = 8.0
    inset: float = 12.0
    play: float = 1.0
    shy: float = 2.0


@dataclass(frozen=True, slots=True)
class Fronts:
    """See `form.FrontsForm`. Gaps left open are set by how the fronts lie; told : sides at which they are given."""

    lie: str = "overlay"
    between: float = 3.0
    left: float = 1.5
    right: float = 1.5
    top: float = 1.5
    bottom: float = 1.5
    stand_off: float = 2.0
    shy: float = 0.0
    cup: float | None = None
    beside: tuple[str, ...] = ()
    told: tuple[str, ...] = ()

    @property
    def inset(self) -> bool:
        return self.lie == "inset"


@dataclass(frozen=True, slots=True)
class GripAsked:
    """See `form.GripForm`."""

    wood: str
    size: tuple[float, float] = (150.0, 44.0)
    radius: float = 22.0
    depth: float = 15.0
    when: str = "after facing"
    cutter: str = "ball"
    diameter: float = 25.0
    hollow: float = 10.0
    from_edge: float = 46.0
    up: float | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Scribe:
    """See `form.ScribeForm`."""

    left: float = 0.0
    right: float = 0.0
    top: float = 0.0
    wood: str = ""
    thickness: float = 20.0
    over: float = 10.0


@dataclass(frozen=True, slots=True)
class Plinth:
    """See `form.PlinthForm`."""

    height: float
    setback: float = 50.0
    wood: str = ""
    thickness: float = 20.0
    cut: str = "flat"


@dataclass(frozen=True, slots=True)
class HangingRail:
    """See `form.HangingRailForm`."""

    wood: str
    height: float = 80.0
    thickness: float = 20.0


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a bay, from above; see `form.RowForm`."""

    what: str
    height: float | None = None
    count: int = 1
    heights: tuple[float, ...] = ()
    growth: float = 1.0
    hinge: str = "left"
    grain: str = ""
    shelves: int = 0
    shelf_below: bool = False
    load: float | None = None
    run: str = ""
    origin: str = ""

    @property
    def closed(self) -> bool:
        return self.what != "open"


@dataclass(frozen=True, slots=True)
class Bay:
    """What stands between two uprights."""

    rows: tuple[Row, ...]
    width: float | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Carcase:
    """A carcase. size_mm : width, height, depth over everything, scribe strips too; fitted : of the place it goes into.

    top_at, bottom_at : "between" the sides, "over" them, or "mitred". patterns : by role, a panel with edging
    on all sides its build-up edges. shelf_fixing : how fixed shelves and dividers are joined.
    """

    size_mm: tuple[float, float, float]
    bays: tuple[Bay, ...]
    patterns: Mapping[str, Panel]
    top_at: str = "between"
    bottom_at: str = "between"
    joint: Joining = field(default_factory=Joining)
    shelf_joint: Joining = field(default_factory=Joining)
    back: Back | None = None
    fronts: Fronts | None = None
    drawer: DrawerBox | None = None
    grip: GripAsked | None = None
    scribe: Scribe = field(default_factory=Scribe)
    plinth: Plinth | None = None
    legs_mm: float = 0.0
    hanging_rail: HangingRail | None = None
    inside: str = "in-a-cupboard"
    run: str = ""
    shelf_setback: float = 2.0
    one_sheet: bool = True
    fitted: bool = False
    origin: str = ""

    @property
    def closed(self) -> bool:
        """Whether any row is shut, so that the inside has an air of its own."""
        return any(row.closed for bay in self.bays for row in bay.rows)
