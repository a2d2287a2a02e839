"""A step of the work, what must go before it, and the waits between.

Times of hands are minutes, waits are hours by the clock (nights and weekends count).
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from evenface.construction import Arranged, BuiltBoard, BuiltPanel, Worked
from evenface.construction.placed import LOOSE
from evenface.evidence import Status
from evenface.materials import Glue
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
    CLEAR_JOINT = "clear the facing from the joints"
    CUT_JOINT = "cut joints and grooves"
    DRILL = "drill for the fittings"
    MILL_BOARD = "mill the boards"
    LINE_BOARD = "line the boards"
    CUT_LENGTH = "cut the boards to length"
    DRY_FIT = "dry fit"
    SET_DOWELS = "glue in the dowels"
    ASSEMBLE = "assemble"
    FLUSH_JOINTS = "level the joints"
    FINISH_OUTSIDE = "finish the outside"
    FIT_PART = "fit without glue"
    LAY_IN = "put in loose"
    FIT_HARDWARE = "screw on the fittings"
    PUT_IN = "put in what runs"
    SCREW_ON = "screw on"
    HANG = "hang"
    SET_PLACE = "set in place"
    PACK = "pack"
    DELIVER = "deliver"
    FIT_ON_SITE = "fit on site"


@dataclass(frozen=True, slots=True)
class PanelToMake:
    """A built panel with the id its part carries on labels and papers, and its size ladder where known.

    worked : what is worked into it for joints and fittings. drilled : whether holes come into it; a loose panel
    is taken to have some, for what it is screwed to is not known.
    """

    part: str
    panel: BuiltPanel
    sizes: Part | None = None
    worked: tuple[Worked, ...] = ()
    drilled: bool = True


@dataclass(frozen=True, slots=True)
class BoardToMake:
    """A board of solid wood with the id of its part, and what is worked into it."""

    part: str
    board: BuiltBoard
    sizes: Part | None = None
    worked: tuple[Worked, ...] = ()


@dataclass(frozen=True, slots=True)
class PieceToMake:
    """A piece with its parts, how they stand, meet and are fitted. number : its place in the job, from 1."""

    number: int
    name: str
    count: int
    panels: tuple[PanelToMake, ...]
    boards: tuple[BoardToMake, ...] = ()
    arranged: Arranged = LOOSE

    @property
    def ids(self) -> Mapping[str, str]:
        """Id of each part by its name."""
        found = {one.panel.name: one.part for one in self.panels}
        return found | {one.board.name: one.part for one in self.boards}

    @property
    def glue(self) -> Glue | None:
        """What its joints are glued with: the first glue of its panels that holds a joint, else None."""
        glues = [glue for one in self.panels for glue in (one.panel.edging_glue, one.panel.glue)]
        return next((glue for glue in glues if glue.kind not in ("contact_solvent", "contact_water")), None)


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
    """One step, for all copies of one part; of a piece or the whole job where `part` is empty.

    joints : numbers in the piece's joints that it closes, or whose dowels it sets; dry : those it closes without glue,
    because a part must be free to move or is only held.
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
    joints: tuple[int, ...] = ()
    dry: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Placed:
    """A step on the clock: hours from the beginning of the job."""

    step: Step
    start_h: float
    end_h: float
