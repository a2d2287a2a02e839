"""A drawer of its own as asked for. [mm]"""

from collections.abc import Mapping
from dataclasses import dataclass

from evenface.construction.drawers.records import DrawerBox
from evenface.piece.records import Panel


@dataclass(frozen=True, slots=True)
class Front:
    """See `form.FrontForm`."""

    lie: str = "inset"
    gap: float = 2.0
    over: float = 16.0
    shy: float = 0.0
    stand_off: float = 2.0
    grain: str = "across"

    @property
    def beyond_mm(self) -> float:
        """How far it reaches over the opening on every side; below 0 is the gap of an inset one."""
        return -self.gap if self.lie == "inset" else self.over


@dataclass(frozen=True, slots=True)
class LoneDrawer:
    """A drawer for an opening. opening_mm : clear width, height, depth. patterns : by role."""

    opening_mm: tuple[float, float, float]
    box: DrawerBox
    patterns: Mapping[str, Panel]
    front: Front | None = None
    inside: str = ""
    origin: str = ""
