"""Minutes of hands for each kind of work, until the maker has times of his own.

Every figure is an own estimate for one person in a small shop: (setting up, each piece, each metre worked,
each square metre worked).
"""

from collections.abc import Mapping
from typing import Final

from evenface.evidence import Status
from evenface.workplan.records import Minutes, Work

SOURCE: Final = "own estimate, for one person in a small shop; put in your own times"

_USUAL: Final[Mapping[Work, tuple[float, float, float, float]]] = {
    Work.CONDITION: (30.0, 5.0, 0.0, 0.0),
    Work.CUT_CARRIER: (10.0, 5.0, 0.0, 2.0),
    Work.CUT_FACING: (15.0, 6.0, 0.0, 4.0),
    Work.MILL_EDGING: (25.0, 2.0, 4.0, 0.0),
    Work.GLUE_EDGING: (10.0, 6.0, 4.0, 0.0),
    Work.TRIM_ENDS: (5.0, 3.0, 0.0, 0.0),
    Work.GLUE_CORNERS: (15.0, 20.0, 0.0, 0.0),
    Work.FLUSH_EDGING: (10.0, 3.0, 4.0, 0.0),
    Work.ROUT_RECESS: (20.0, 8.0, 0.0, 0.0),
    Work.GLUE_INSERT: (5.0, 8.0, 0.0, 0.0),
    Work.FLUSH_INSERT: (5.0, 6.0, 0.0, 0.0),
    Work.SHAPE_CORNERS: (25.0, 12.0, 0.0, 0.0),
    Work.FIT_FACING: (10.0, 25.0, 3.0, 0.0),
    Work.PREPARE: (5.0, 4.0, 0.0, 4.0),
    Work.BOND: (25.0, 10.0, 0.0, 10.0),
    Work.TRIM: (10.0, 4.0, 3.0, 0.0),
    Work.LEVEL: (10.0, 5.0, 10.0, 0.0),
    Work.PROFILE: (20.0, 4.0, 4.0, 0.0),
    Work.ROUT_CUTOUT: (25.0, 15.0, 0.0, 0.0),
    Work.ROUT_GRIP: (25.0, 10.0, 0.0, 0.0),
    Work.FINISH: (20.0, 6.0, 8.0, 0.0),
    Work.DRILL: (15.0, 6.0, 0.0, 0.0),
    Work.CLEAR_JOINT: (15.0, 6.0, 0.0, 0.0),
    Work.CUT_JOINT: (20.0, 6.0, 2.0, 0.0),
    Work.MILL_BOARD: (15.0, 5.0, 5.0, 0.0),
    Work.LINE_BOARD: (20.0, 10.0, 0.0, 20.0),
    Work.CUT_LENGTH: (10.0, 3.0, 0.0, 0.0),
    Work.DRY_FIT: (20.0, 8.0, 0.0, 0.0),
    Work.PUT_IN: (5.0, 10.0, 0.0, 0.0),
    Work.FLUSH_JOINTS: (10.0, 15.0, 0.0, 0.0),
    Work.FINISH_OUTSIDE: (15.0, 20.0, 0.0, 0.0),
    Work.DELIVER: (60.0, 15.0, 0.0, 0.0),
}

_OF_A_PIECE: Final[Mapping[Work, tuple[float, float, float]]] = {
    Work.SET_DOWELS: (10.0, 0.0, 0.5),
    Work.ASSEMBLE: (20.0, 10.0, 1.0),
    Work.FIT_PART: (5.0, 8.0, 0.5),
    Work.LAY_IN: (5.0, 10.0, 0.5),
    Work.FIT_HARDWARE: (10.0, 0.0, 2.0),
    Work.SCREW_ON: (5.0, 0.0, 12.0),
    Work.HANG: (10.0, 0.0, 15.0),
    Work.SET_PLACE: (2.0, 0.0, 2.0),
    Work.PACK: (15.0, 10.0, 4.0),
    Work.FIT_ON_SITE: (20.0, 30.0, 6.0),
}
"""Setting up, each piece, each thing handled: dowel, minute of closing, screw, fitting, door, part."""


def piece_minutes(work: Work, pieces: int = 1, things: float = 1.0) -> Minutes:
    """Hand time of a step on a whole piece; things are those of one piece."""
    set_up, each, per_thing = _OF_A_PIECE[work]
    return Minutes(set_up, each + per_thing * things, pieces, Status.PRACTICE, SOURCE)


def usual_minutes(work: Work, pieces: int = 1, length_m: float = 0.0, area_m2: float = 0.0) -> Minutes:
    """Hand time of a step; length and area are of one piece."""
    set_up, each, per_m, per_m2 = _USUAL[work]
    return Minutes(set_up, each + per_m * length_m + per_m2 * area_m2, pieces, Status.PRACTICE, SOURCE)
