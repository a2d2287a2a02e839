"""A step of the work, what must go before it, and the waits between.

Times of hands are minutes, waits are hours by the clock (nights and weekends count).
"""

from dataclasses import dataclass
from enum import StrEnum

from evenface.construction import BuiltPanel
from evenface.evidence import Status
from evenface.parts import Part
from evenface.piece.records import CornerAt, Role, Side
from evenface.words import NOTHING, Said


class Work(StrEnum):
    """What is done in a step."""

    CONDITION = "lay up to condition"
    CUT_CARRIER = "cut the carrier"
    CUT_FACING = "cut the facings"
    MILL_EDGING = "mill the edging"
    GLUE_EDGING = "glue on edging"
    TRIM_ENDS = "trim the ends of the edging"
    GLUE_CORNERS = "glue in corner pieces"
    FLUSH_EDGING = "flush the edging to the carrier"
    ROUT_RECESS = "rout a recess"
    GLUE_INSERT = "glue in an insert"
    FLUSH_INSERT = "flush an insert"
    SHAPE_CORNERS = "shape the corners"
    FIT_FACING = "fit the facing into its opening"
    PREPARE = "prepare the surfaces"
    BOND = "bond the facings"
    TRIM = "trim the facings"
    LEVEL = "level the edging to the facing"
    PROFILE = "profile the edges"
    ROUT_CUTOUT = "rout a cut-out"
    ROUT_GRIP = "rout a grip"
    FINISH = "sand and finish the wood"
    DRILL = "drill for the fittings"
    DRY_FIT = "dry fit"


@dataclass(frozen=True, slots=True)
class PanelToMake:
    """A built panel with the id its part carries on labels and papers, and its size ladder where known."""

    part: str
    panel: BuiltPanel
    sizes: Part | None = None


@dataclass(frozen=True, slots=True)
class Minutes:
    """Time of hands: once for setting up, and for each piece. Raises ValueError for a negative time."""

    set_up: float
    each: float
    pieces: int
    status: Status
    source: str

    def __post_init__(self) -> None:
        if min(self.set_up, self.each) < 0.0 or self.pieces < 1:
            raise ValueError(
                f"expected times of 0 or more and at least one piece, was given {self.set_up}, {self.each} "
                f"and {self.pieces}"
            )

    @property
    def total(self) -> float:
        return self.set_up + self.each * self.pieces


@dataclass(frozen=True, slots=True)
class After:
    """A step that must be finished before, and the hours that must then pass before this one begins."""

    id: str
    wait_h: float = 0.0


@dataclass(frozen=True, slots=True)
class Wait:
    """What has to pass after a step before work that depends on it. least_h to most_h: as sources differ."""

    kind: str
    least_h: float
    most_h: float
    why: Said = NOTHING


@dataclass(frozen=True, slots=True)
class Step:
    """One step, for all copies of one panel (for all panels of the job where `part` is empty).

    roles, sides, corners, feature : which faces, edges, corners, insert, cut-out or grip it is about.
    after : what must go before. people : pairs of hands. occupies : bench, clamps, press.
    wait : what follows it. check : what to look at before going on. undo_risk : what a slip costs.
    """

    id: str
    work: Work
    part: str
    parts: tuple[str, ...]
    piece: str
    title: Said
    why: Said
    after: tuple[After, ...]
    hand_minutes: Minutes
    tools: tuple[Said, ...] = ()
    settings: tuple[Said, ...] = ()
    check: Said = NOTHING
    cautions: tuple[Said, ...] = ()
    undo_risk: Said = NOTHING
    people: int = 1
    occupies: tuple[str, ...] = ("bench",)
    wait: Wait | None = None
    roles: tuple[Role, ...] = ()
    sides: tuple[Side, ...] = ()
    corners: tuple[CornerAt, ...] = ()
    feature: str = ""


@dataclass(frozen=True, slots=True)
class Placed:
    """A step on the clock: hours from the beginning of the job."""

    step: Step
    start_h: float
    end_h: float
