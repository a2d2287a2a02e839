"""Settings for boards of solid wood, for joints and for the finished piece: common practice in small shops."""

from collections.abc import Mapping, Sequence
from typing import Final

from evenface.construction import Worked
from evenface.words import said
from evenface.workplan import cutters as c
from evenface.workplan.machining_record import Machining, spoken_speed, traced
from evenface.workplan.records import Work

_STRAIGHT: Final = c.Cutter(12.0)
_LEVELLER: Final = c.Cutter(19.0)

_CUTTERS_MM: Final = (3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0)
"""COMMON PRACTICE: straight cutters of a small shop."""
_WITHIN: Final = frozenset(
    {
        "groove",
        "housing",
        "halving",
        "mortise",
        "haunch groove",
        "bridle slot",
        "finger slot",
        "plate recesses",
    }
)
"""What a cutter works within; beside a rebate or a tenon it may be as wide as it likes."""


def joint_cutting(worked: Sequence[Worked] = ()) -> Machining:
    """How joints are cut: with the widest straight cutter that goes into the narrowest of them, Ø 12 mm at most."""
    narrow = min((width for width in map(_width_mm, worked) if width > 0.0), default=_CUTTERS_MM[-1])
    cutter = c.Cutter(max((one for one in _CUTTERS_MM if one <= narrow + 1e-6), default=_CUTTERS_MM[0]))
    squared = any(one.kind == "mortise" for one in worked)
    return Machining(
        said(
            "Groove cutter or straight cutter, no wider than the narrowest of it, or the saw for shoulders."
        ),
        spoken_speed(cutter),
        traced(cutter),
        said(
            "No pass deeper than {deep:mm}; what is wider than the cutter in two passes, each against the fence.",
            deep=cutter.diameter_mm / 2,
        ),
        said(
            "A scrap behind every exit; the part clamped over its whole length; mortises squared with the chisel."
        )
        if squared
        else said("A scrap behind every exit; the part clamped over its whole length."),
        said("Face mark always against the same fence; left and right marked before, not remembered."),
    )


def _width_mm(one: Worked) -> float:
    """Between its two sides; 0 for what is open at one of them, or told by its places alone."""
    if one.kind in ("finger slot", "halving"):  # through the whole thickness
        return one.x1_mm - one.x0_mm
    return min(one.x1_mm - one.x0_mm, one.y1_mm - one.y0_mm) if one.kind in _WITHIN else 0.0


OF_WOOD: Final[Mapping[Work, Machining]] = {
    Work.MILL_BOARD: Machining(
        said("Surface planer, thicknesser, ripping blade of 24 to 40 teeth; knives sharp for figured wood."),
        said("Cutter block at the machine's own rotation; blade never above what is stamped on it."),
        said("Slow and even; grain rising away from the knives, push blocks on the planer."),
        said("Flatten one face, square one edge, then 1 mm a pass to thickness, the last 0.3 mm."),
        said("Nothing shorter than 400 mm through the machines; cut to length at the end."),
        said("Hollow face down on the planer; face mark on the first straight face."),
    ),
    Work.CUT_LENGTH: Machining(
        said("Cross-cut blade of 60 teeth or more; a stop for pairs, so that none is measured twice."),
        said("Never above what is stamped on the blade."),
        said("Steady, slower as the blade comes out."),
        said("First end square, then to the stop; mitres a hair long, shot to the line."),
        said("A fresh strip behind the cut."),
        said("Face side up, lining up where there is one; face edge against the fence."),
    ),
    Work.CLEAR_JOINT: Machining(
        said("Straight cutter against a fence, set to the facing's thickness and its glue line."),
        spoken_speed(_STRAIGHT),
        traced(_STRAIGHT),
        said("Score the line with a knife, one pass to it, the rest with a chisel."),
        said("A scrap flush with the edge where the cutter runs out."),
        said("Facing up, fence against the reference edge."),
    ),
    Work.CUT_JOINT: joint_cutting(),
    Work.DRILL: Machining(
        said("Brad-point drills; a jig for rows of dowels; depth stop set on a rest."),
        said("Drills to 10 mm up to 3000 turns a minute."),
        said("Lift now and then; slow where it comes out."),
        said("Full depth in one go; holes in end grain from a jig, square both ways."),
        said("A waste board clamped tight below."),
        said("Jig against the face mark, on both parts of the joint."),
    ),
    Work.FLUSH_JOINTS: Machining(
        said(
            "Sharp block plane, scraper, then a hard sanding block; a router on a levelling base for long ones."
        ),
        spoken_speed(_LEVELLER),
        traced(_LEVELLER),
        said("Not more than 0.5 mm a pass; the last tenth by hand."),
        said("Inwards from both ends, so that no end grain breaks out."),
        said("Piece on felt; facing beside the joint taped."),
    ),
    Work.FINISH: Machining(
        said("Grits 120, 150, 180, each until the one before is gone; hand block beside facings."),
        said("Sander at middle speed, extraction on before it touches."),
        said("Slow, along the grain, lifted before it stops."),
        said("Two coats at least, a light rub with 240 between."),
        said("Glue faces masked: no finish on them."),
        said("What will lie inside first, what is seen last."),
    ),
    Work.FINISH_OUTSIDE: Machining(
        said("Grits 150 and 180 at the joints, 240 between coats; hand block beside facings."),
        said("Sander at middle speed, extraction on before it touches."),
        said("Slow, along the grain; across the joint only where both grains meet."),
        said("As many coats as inside."),
        said("Facing masked to the joint: a scratch in it stays."),
        said("Underside and back first, what is seen last."),
    ),
}
