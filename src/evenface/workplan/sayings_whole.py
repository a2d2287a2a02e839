"""What is said of the work on joints, on boards and on a whole piece."""

from collections.abc import Mapping
from typing import Final

from evenface.workplan.records import Work
from evenface.workplan.saying import Saying, saying

_CLAMPS: Final = ("bench", "clamps")

WHOLE: Final[Mapping[Work, Saying]] = {
    Work.CLEAR_JOINT: saying(
        "Glue holds in wood, not in a facing, and the joint is set out from clean wood: cleared before it is cut.",
        "Down to clean wood all over, no glue left; the shoulder square to the edge.",
        "Cleared too wide, the bare strip shows inside for ever.",
        "router on a fence",
        "chisel",
    ),
    Work.CUT_JOINT: saying(
        "On the finished size, face already on, so that width and place are true; never after gluing up.",
        "Try a rest of the part that goes in: it enters with the hand and stays; depth at both ends.",
        "Too wide or in the wrong place it is patched, or the part is lost.",
        "router with fence, or saw",
        "marking gauge",
    ),
    Work.MILL_BOARD: saying(
        "Planed from wood that has lain with the rest, straight before it is thicknessed, ends left long.",
        "Straight, out of wind, square; face side and face edge marked.",
        "Too thin is a new board: mill one more than the job needs.",
        "planer",
        "thicknesser",
        "saw",
    ),
    Work.LINE_BOARD: saying(
        "Lined while the board is still long and whole; trimmed flush before any joint is cut.",
        "No bubble; the lining flush with every edge.",
        "A lining that does not hold is planed off with the face of the board.",
        "glue spreader",
        "cauls or press",
        "trimmer with bearing",
        occupies=("press or bag",),
    ),
    Work.CUT_LENGTH: saying(
        "Ends were left long so that damage there is cut away; joints are set out from the true ends.",
        "Pairs laid side by side are one length to the nail; ends square, or at their angle, both ways.",
        "Too short is a new board.",
        "cross-cut saw with a stop",
        "shooting board and plane",
    ),
    Work.SET_DOWELS: saying(
        "Dowels set beforehand leave only holes and edges to be spread when the piece is closed.",
        "All stand the same height, a little less than the holes are deep; no glue round them.",
        "Too long a dowel holds the joint open: cut it now.",
        "glue bottle",
        "mallet",
        "stop block for the height",
    ),
    Work.ASSEMBLE: saying(
        "Parts are faced, worked, drilled and finished inside: nothing more can be got at once this is closed.",
        "Both diagonals alike, no wind, joints closed all along; wipe what comes out before it sets.",
        "Once the glue has grabbed, a joint left open or out of square stays so.",
        "glue",
        "clamps and cauls",
        "rule for the diagonals",
        occupies=_CLAMPS,
    ),
    Work.FLUSH_JOINTS: saying(
        "Once the glue is dry what stands proud at the joints comes down to one face, before the outside is finished.",
        "No step to be felt with the nail; nothing sanded hollow.",
        "Planed too far, the part beside it is thin or its facing is through.",
        "plane",
        "sanding block",
    ),
    Work.FINISH_OUTSIDE: saying(
        "The outside is finished when all joints are level, and before anything loose is put in.",
        "Same number of coats as inside; grooves and rebates for loose parts dry and free.",
        "Finish run into a groove glues the part that must stay free.",
        "sanding block",
        "masking tape",
        "cloth or brush",
    ),
    Work.FIT_PART: saying(
        "Put in when everything round it is together and set: it must not be used to pull the piece square.",
        "It lies on its seat all round without force; the diagonals have not changed.",
        "Screwed in under tension it pulls the piece out of square; take it out again.",
        "screwdriver",
        "square",
    ),
    Work.LAY_IN: saying(
        "It moves by itself through the year: in when the frame round it is made and finished, and no glue anywhere.",
        "Air all round as drawn; it can be pushed a little in each direction.",
        "A single spot of glue holds it, and it cracks or bows what is round it.",
        "spacers of the gap's thickness",
        "screwdriver",
    ),
    Work.FIT_HARDWARE: saying(
        "Screwed on while the piece still lies open on the bench, once it is together and square.",
        "Every screw sits flat; left and right at the same height.",
        "A screw too long comes out through the facing: measure before the first one.",
        "screwdriver",
        "bradawl or pilot drill",
    ),
    Work.PUT_IN: saying(
        "It runs in a case that is together, square and set; its front is put on afterwards, to the gaps.",
        "Runs to its end with one finger and does not hang; the same air left and right.",
        "None: runners are set again.",
        "screwdriver",
        "spacers",
    ),
    Work.SCREW_ON: saying(
        "Set to the gaps as they really came out, then screwed from behind.",
        "Gaps even all round, edges in line with the neighbours; then the last screws.",
        "A screw hole in the wrong place is filled from behind: use the slotted holes first.",
        "spacers of the gap's thickness",
        "double-sided tape",
        "screwdriver",
    ),
    Work.HANG: saying(
        "Hung when the case is together and square: in a case out of square no gap comes out even.",
        "Gaps even with the card, edges in line; they stay where they are left.",
        "None: hinges are set again, as far as their screws reach.",
        "screwdriver",
        "card of the gap's thickness",
    ),
    Work.SET_PLACE: saying(
        "Loose parts go in last, so that everything behind them can be reached.",
        "They rest on all their points and come out again by hand.",
        "None.",
        "level",
    ),
    Work.PACK: saying(
        "Everything is measured and written down before; nothing lies on a bare face from here on.",
        "Face to face in pairs with something soft between, edges and corners guarded, runs kept together; linoleum "
        "without film or cardboard straight on it, and no weight on it in the first weeks.",
        "Film on linoleum in the sun marks it, and foam prints into fresh finish.",
        "blankets or soft paper",
        "edge guards",
        "labels",
        occupies=("floor",),
    ),
    Work.DELIVER: saying(
        "When everything is packed, at the day agreed, with the path and the lifting known.",
        "Parts upright on their long edge and lashed; what is needed first is loaded last.",
        "A corner knocked on the way is a part made twice.",
        "straps",
        "trolley",
        occupies=(),
    ),
    Work.FIT_ON_SITE: saying(
        "Walls and floors are never true: set level, scribed and fixed where it stands, gaps set once more.",
        "Level both ways, nothing rocks, gaps even; flatness measured and handed over in writing.",
        "A piece screwed to a crooked wall goes out of square: pack behind it first.",
        "level",
        "packing pieces",
        "drill and screwdriver",
        occupies=(),
    ),
}
