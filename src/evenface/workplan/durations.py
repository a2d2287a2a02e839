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
    Work.DRY_FIT: (20.0, 8.0, 0.0, 0.0),
}


def usual_minutes(work: Work, pieces: int = 1, length_m: float = 0.0, area_m2: float = 0.0) -> Minutes:
    """Hand time of a step; length and area are of one piece."""
    set_up, each, per_m, per_m2 = _USUAL[work]
    return Minutes(set_up, each + per_m * length_m + per_m2 * area_m2, pieces, Status.PRACTICE, SOURCE)
