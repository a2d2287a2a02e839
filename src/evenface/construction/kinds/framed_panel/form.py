"""The table of a framed loose panel as it is written in the job file."""

from dataclasses import dataclass
from typing import Literal

from evenface.piece.fields import Line, Size, SizeOrNone, Word
from evenface.piece.form import CutWord, Form
from evenface.piece.forms import PieceForm


@dataclass(frozen=True, kw_only=True)
class FrameForm(Form):
    """The frame. width: seen beside the panel; rail_width: of top and bottom, if they differ.

    seat: "rebate" holds the panel from the front, level with the frame; "rebate behind" from the rear, under a
    lip; "groove" shuts it in. ledge: how far the frame reaches under or round the panel. lip: wood before it.
    shy: how far the panel lies below the frame's face. gap: air on each side; left out, it is reckoned from
    the year of the room.
    """

    wood: Word
    width: Size
    thickness: Size
    rail_width: Size | None = None
    cut: CutWord = "flat"
    joint: Literal["mitre", "butt", "bridle"] = "mitre"
    seat: Literal["rebate", "rebate behind", "groove"] = "rebate"
    ledge: Size = 10.0
    lip: Size = 6.0
    shy: SizeOrNone = 0.3
    gap: Size | None = None
    arris: SizeOrNone = 1.0


@dataclass(frozen=True, kw_only=True)
class FramedPanelForm(PieceForm):
    """A panel that lies loose in a frame of solid wood. size: width and height over the frame."""

    size: tuple[Size, Size]
    buildup: Word
    frame: FrameForm
    room_behind: Line = ""
