"""A framed loose panel as asked for. Lengths in mm."""

from dataclasses import dataclass, field

from evenface.piece.records import Panel


@dataclass(frozen=True, slots=True)
class Frame:
    """The frame; see `form.FrameForm` for what each entry means."""

    wood: str
    width: float
    thickness: float
    rail_width: float | None = None
    cut: str = "flat"
    joint: str = "mitre"
    seat: str = "rebate"
    ledge: float = 10.0
    lip: float = 6.0
    shy: float = 0.3
    gap: float | None = None
    arris: float = 1.0


@dataclass(frozen=True, slots=True)
class Framed:
    """A framed panel. panel : as large as the frame; building it gives it its own size."""

    panel: Panel
    width_mm: float
    height_mm: float
    frame: Frame
    origin: str
    panel_names: tuple[str, ...] = field(default=("panel",))
