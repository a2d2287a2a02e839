"""How a part stands in its piece, in words: its plan shows it lying with the show face up."""

from collections.abc import Mapping
from typing import Final

from evenface.construction import Axis
from evenface.construction.as_it_stands import standing
from evenface.documents.pictures import part_ids
from evenface.result import Sketch
from evenface.words import ENGLISH, Manner, said, say

LOOKING: Final[Mapping[Axis, str]] = {
    Axis.UP: "upwards",
    Axis.DOWN: "downwards",
    Axis.LEFT: "to the left",
    Axis.RIGHT: "to the right",
    Axis.FRONT: "to the front",
    Axis.REAR: "to the rear",
}


def standing_words(sketch: Sketch, manner: Manner = ENGLISH) -> dict[str, str]:
    """By the id of the part; none for parts that stand nowhere or in several ways."""
    told: dict[str, str] = {}
    for number, construction in enumerate(sketch.constructions, start=1):
        for name, part in part_ids(sketch, number).items():
            stands = standing(construction, name)
            if stands is not None:
                left, front, face = (LOOKING[stands.looks(side)] for side in ("left", "front", "top"))
                told[part] = say(
                    said(
                        "in the piece its left edge looks {left:word}, its front edge {front:word}, "
                        "its show face {face:word}",
                        left=left, front=front, face=face,
                    ), manner,
                )  # fmt: skip
    return told
