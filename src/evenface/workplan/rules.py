"""What wood, glue and facings do not allow, by name."""

from collections.abc import Iterator
from enum import StrEnum

from evenface.words import Said


class Rule(StrEnum):
    """What wood, glue and facings do not allow."""

    CONDITION = "glued before the stock has lain together"
    PRESENT = "works on what is not there"
    TWICE = "done twice"
    COVERED = "works on what a facing covers"
    BENEATH = "a facing is laid over what is not ready beneath it"
    CLEAN = "a facing is laid on a surface that is not clean"
    FITTED = "a facing is laid between edgings without being fitted"
    SAME_DAY = "back and face are bonded too far apart"
    NOT_SET = "worked before glue or finish has set"
    WET_JOINT = "levelled while the joint is still swollen"
    ONE_AT_A_TIME = "edging glued on while its neighbour is in clamps"
    ENDS = "an end left long is in the way"
    OVERHANG = "an untrimmed facing is in the way"
    PROUD = "wood that is not level yet is in the way"
    CORNERS_FIRST = "profiled before the corners have their shape"
    FINISHED = "wood is worked after its finish"
    CLEARED = "a joint is cut before the facing is cleared from it"
    ASSEMBLED = "worked when it is glued up already"
    UNREADY = "assembled or fitted before a part is ready"
    OPEN_TIME = "more is glued at once than the glue stays open for"
    CLOSED_IN = "nothing goes in there any more"
    LOOSE = "glue where a part must stay free"
    SQUARE = "fitted or hung before the case is together, set and square"
    PACKED = "packed, sent or fixed too soon, or worked on when packed"
    LEFT_OUT = "something is left out"


type Told = Iterator[tuple[Rule, Said]]
