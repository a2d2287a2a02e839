"""What is said of each kind of work: why here, with what, what to look at, what a slip costs."""

from collections.abc import Mapping
from typing import Final

from evenface.piece.records import CornerAt, Role, Side
from evenface.words import Said, said
from evenface.workplan.records import Work
from evenface.workplan.saying import Saying, saying
from evenface.workplan.sayings_whole import WHOLE

_CLAMPS: Final = ("bench", "clamps")
_PRESS: Final = ("press or bag",)

SAYINGS: Final[Mapping[Work, Saying]] = {
    Work.CONDITION: saying(
        "What is glued together damp and dry bows afterwards: board, facing, back and wood lie in one room first.",
        "Pieces to be glued together read within 2 % moisture of each other.",
        "A sheet glued damp shrinks later: cracks at corners, open joints, bow. The whole panel is lost.",
        "moisture meter",
        "hygrometer",
        "spacers",
        occupies=("floor",),
    ),
    Work.CUT_CARRIER: saying(
        "Every later size rests on the carrier.",
        "Length, width and both diagonals; no void along the edge that a bearing can fall into.",
        "A carrier too small is cut again.",
        "saw",
        "rule",
    ),
    Work.CUT_FACING: saying(
        "With overhang where it is trimmed after bonding, to the opening where it is let in; direction marked on each "
        "blank.",
        "The arrow runs the same way on face and back; no chips on the show face.",
        "A blank turned the wrong way is a new sheet.",
        "fine-toothed saw with a low-gap fence",
    ),
    Work.MILL_EDGING: saying(
        "Milled from wood that has lain with the board, a little proud so that nothing is left low.",
        "Straight, square, proud of the carrier on both faces by the allowance.",
        "A strip that is too low cannot be lifted: mill it again.",
        "planer",
        "saw",
    ),
    Work.GLUE_EDGING: saying(
        "One side at a time: glued all at once they slip and mitres open.",
        "Proud on both faces along the whole length, no gap at the joint, glue beads pressed out all along.",
        "Until the glue grabs it can be taken off; afterwards it is sawn off and the carrier is smaller.",
        "bowed cauls",
        "clamps",
        occupies=_CLAMPS,
    ),
    Work.TRIM_ENDS: saying(
        "Ends were left long so that damage there is cut away; they are flush before another strip runs past them.",
        "Ends level with the carrier's edge; a straight edge touches everywhere.",
        "Cut too deep, it shows, or the joint with the next strip stays open.",
        "saw",
        "block plane",
    ),
    Work.GLUE_CORNERS: saying(
        "Solid corner pieces go in while edges are still square to clamp against.",
        "No gap against carrier and strips; proud on both faces.",
        "A gap here opens at the finished arc and cannot be closed.",
        "clamps",
        "notched clamping blocks",
        occupies=_CLAMPS,
    ),
    Work.FLUSH_EDGING: saying(
        "A facing shows every step beneath it, so wood and carrier are made one level first.",
        "No step to be felt with the nail; a straight edge shows no light.",
        "Sanded hollow, the hollow shows through the facing.",
        "router on a levelling base, or plane",
        "sanding block",
    ),
    Work.ROUT_RECESS: saying(
        "The insert needs a bed of even depth to its own template.",
        "Depth at three places; the insert enters with the clearance drawn.",
        "An offset the wrong way makes the recess too big: a new carrier.",
        "router, bush and cutter as measured",
        "recess template",
    ),
    Work.GLUE_INSERT: saying(
        "Solid wood for grips and fixings is let in while it can still be clamped and levelled.",
        "Down on its bed all round; grain as drawn.",
        "Once set it is routed out again.",
        "clamp with a padded caul",
        occupies=_CLAMPS,
    ),
    Work.FLUSH_INSERT: saying(
        "An insert left proud or low shows through, or catches the hand.",
        "No step to be felt with the nail.",
        "Sanded low it is filled or let in anew.",
        "router on a levelling base, or plane",
        "sanding block",
    ),
    Work.SHAPE_CORNERS: saying(
        "Shaped to the template, so that every corner is the same and a breakthrough is seen here.",
        "No carrier shows in the arc; square to the face; no flat where arc meets edge.",
        "A breakthrough found before the facing costs a carrier, after it the panel.",
        "band saw or jigsaw",
        "router with bearing",
        "corner template",
    ),
    Work.FIT_FACING: saying(
        "A facing between edgings is scribed to the opening as it came out, not cut to a number.",
        "Lies flat without force and without light along any side; piece and opening marked alike.",
        "Too small by a hair shows for ever: a new sheet.",
        "knife and straight edge, or trimmer",
        "sanding block",
    ),
    Work.PREPARE: saying(
        "Dust and glue beads under a facing show for ever.",
        "Wiped clean, dry, no bead, no grain to be felt with the flat hand.",
        "None: clean again.",
        "vacuum cleaner",
        "scraper",
        "tack cloth",
    ),
    Work.BOND: saying(
        "Back and face the same day or pressed together, so that both pull alike from the first hour.",
        "Tap all over: one sound everywhere. Overhang on every edge to be trimmed.",
        "A bonded facing does not come off whole: face, back and often carrier are lost.",
        "glue spreader",
        "press, bag, cauls or roller as on the glue card",
        occupies=_PRESS,
    ),
    Work.TRIM: saying(
        "The overhang is in the way of everything that follows.",
        "Flush all round, no chip, no glue left on the edge.",
        "A slip of the trimmer bites the edge and is rarely made invisible.",
        "trimmer with bearing",
        "fine file, always from the face towards the carrier",
    ),
    Work.LEVEL: saying(
        "Wood that stands beside the facing comes down to it last, a paper's thickness at a time.",
        "Level to the nail; no scratch on the facing.",
        "A slip marks the facing, and that is not made good.",
        "scraper or levelling router, base taped",
        "masking tape on the facing",
    ),
    Work.PROFILE: saying(
        "Profiles follow the trimmed outline and run round the shaped corners.",
        "Even all round, no burn, the line between facing and wood as drawn.",
        "A dig of the cutter is deeper than the profile: a new edging at best.",
        "router or spindle",
        "profile cutter",
    ),
    Work.ROUT_CUTOUT: saying(
        "Cut once face and back are on, so that nothing bridges the hole.",
        "Radius in every inner corner; no chip on the show face; cut edge smooth.",
        "Too large cannot be mended.",
        "jigsaw",
        "router",
        "template",
    ),
    Work.ROUT_GRIP: saying(
        "Hollowed once the wood it lies in is level with everything round it.",
        "Wall and floor as drawn; mirrored pairs lie mirrored.",
        "Through the wall: a new insert.",
        "router, cutter as drawn",
        "grip template",
    ),
    Work.FINISH: saying(
        "Last on the wood, when no tool comes near it any more.",
        "Same number of coats everywhere; nothing on the facing.",
        "Finish on linoleum may stain for ever: mask it, and try it on a rest first.",
        "sanding block",
        "masking tape",
        "cloth or brush",
    ),
    Work.DRILL: saying(
        "Holes are measured from the finished edges; their places stand in the packet, under marking out.",
        "Position from the reference edge; depth stop set; holes through laminate larger than the screw.",
        "A hole in the wrong place stays.",
        "drill with depth stop",
        "drilling jig",
    ),
    Work.DRY_FIT: saying(
        "Everything goes together once without glue.",
        "Gaps even, nothing rocks; bow and twist measured and written down.",
        "None: this is where faults are found.",
        "feeler or card of the gap's thickness",
        "straight edge",
    ),
    **WHOLE,
}


def title_of(
    work: Work,
    roles: tuple[Role, ...] = (),
    sides: tuple[Side, ...] = (),
    corners: tuple[CornerAt, ...] = (),
    feature: str = "",
) -> Said:
    """What is done and where, in one line."""
    faces, edges = _row([_FACE[role] for role in roles]), _row([side.value for side in sides])
    if feature:
        return said("{work:word}: {where}", work=work.value, where=feature)
    if work in _ON_A_FACE:
        return said("{work:word}: {face}, {edges}", work=work.value, face=faces, edges=edges)
    if corners or (sides and work in (Work.GLUE_EDGING, Work.PROFILE)):
        where = _row([at.value for at in corners]) if corners else edges
        return said("{work:word}: {where}", work=work.value, where=where)
    return said("{work:word}", work=work.value)


_FACE: Final[Mapping[Role, str]] = {Role.FACE: "face side", Role.BACK: "back side"}
_ON_A_FACE: Final = frozenset({Work.FLUSH_EDGING, Work.LEVEL, Work.FIT_FACING})


def _row(words: list[str]) -> Said:
    """Words one after the other, each still to be put into the reader's language."""
    fields = {f"w{number}": word for number, word in enumerate(words)}
    return Said(", ".join(f"{{{name}:word}}" for name in fields), fields)
