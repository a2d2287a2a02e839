"""Which work on a panel is allowed when, and what a panel still lacks."""

from collections.abc import Callable, Mapping
from typing import Final

from evenface.workplan import allowed_faces as faces
from evenface.workplan import allowed_shape as shape
from evenface.workplan import allowed_wood as wood
from evenface.workplan.records import Placed, Work
from evenface.workplan.rules import Told
from evenface.workplan.surfaces import Surfaces


def missing_of(panel: Surfaces) -> tuple[str, ...]:
    """What this panel still lacks, in words of the work."""
    asked = panel.panel.panel
    wood = bool(panel.panel.edgings or asked.inserts)
    names = {one.name for one in asked.cutouts} | {one.name for one in asked.grips}
    needs = {
        Work.CUT_CARRIER: panel.carrier_cut,
        Work.GLUE_EDGING: panel.edged.keys() == {edging.side for edging in panel.panel.edgings},
        Work.TRIM_ENDS: not panel.long_ends,
        Work.GLUE_CORNERS: panel.corner_pieces is not None or not panel.needs_corner_pieces(),
        Work.FLUSH_EDGING: not panel.proud(),
        Work.BOND: set(panel.bonded) == set(panel.sheets),
        Work.TRIM: not panel.overhanging(),
        Work.SHAPE_CORNERS: panel.rounded or not panel.shaped_corners(),
        Work.PROFILE: panel.profiled or not asked.profiles,
        Work.ROUT_CUTOUT: names <= panel.holes,
        Work.CUT_JOINT: panel.joints_cut or not panel.to_cut,
        Work.FINISH: panel.finish_dry_h is not None or not wood,
        Work.DRILL: panel.drilled or not panel.to_drill,
    }
    return tuple(work.value for work, done in needs.items() if not done)


HANDLERS: Final[Mapping[Work, Callable[[Surfaces, Placed], Told]]] = {
    Work.CUT_CARRIER: wood.cut_carrier,
    Work.CUT_FACING: wood.cut_facing,
    Work.MILL_EDGING: wood.mill_edging,
    Work.GLUE_EDGING: wood.glue_edging,
    Work.TRIM_ENDS: wood.trim_ends,
    Work.GLUE_CORNERS: wood.glue_corners,
    Work.FLUSH_EDGING: wood.flush_edging,
    Work.ROUT_RECESS: wood.rout_recess,
    Work.GLUE_INSERT: wood.glue_insert,
    Work.FLUSH_INSERT: wood.flush_insert,
    Work.SHAPE_CORNERS: shape.shape_corners,
    Work.FIT_FACING: faces.fit_facing,
    Work.PREPARE: faces.prepare,
    Work.BOND: faces.bond,
    Work.TRIM: faces.trim,
    Work.LEVEL: faces.level,
    Work.PROFILE: shape.profile,
    Work.ROUT_CUTOUT: shape.rout_hole,
    Work.ROUT_GRIP: shape.rout_hole,
    Work.CLEAR_JOINT: shape.clear_joint,
    Work.CUT_JOINT: shape.cut_joint,
    Work.FINISH: shape.finish,
    Work.DRILL: shape.drill,
}
GLUING: Final = frozenset({Work.GLUE_EDGING, Work.GLUE_CORNERS, Work.GLUE_INSERT, Work.BOND})
MACHINING: Final = frozenset(
    {
        Work.TRIM_ENDS,
        Work.FLUSH_EDGING,
        Work.ROUT_RECESS,
        Work.FLUSH_INSERT,
        Work.SHAPE_CORNERS,
        Work.TRIM,
        Work.LEVEL,
        Work.PROFILE,
        Work.ROUT_CUTOUT,
        Work.ROUT_GRIP,
        Work.CLEAR_JOINT,
        Work.CUT_JOINT,
        Work.FINISH,
        Work.DRILL,
    }
)
DUSTY: Final = (MACHINING | GLUING | {Work.CUT_CARRIER}) - {Work.BOND}
