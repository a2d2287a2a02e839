"""The table of a drawer of its own as it is written in the job file."""

from dataclasses import dataclass
from typing import Literal

from evenface.construction.drawers.form import DrawerForm
from evenface.piece.fields import Line, Size, SizeOrNone, Word
from evenface.piece.form import Form
from evenface.piece.forms import PieceForm


@dataclass(frozen=True, kw_only=True)
class FrontForm(Form):
    """The front. lie: inset in the opening, or overlay before it. gap: air round an inset one. over: how far an
    overlay one reaches over the opening on every side. shy: how far an inset one lies behind the edges.
    stand_off: air between an overlay one and what it lies before. grain: across the front or upright."""

    buildup: Word
    lie: Literal["inset", "overlay"] = "inset"
    gap: Size = 2.0
    over: SizeOrNone = 16.0
    shy: SizeOrNone = 0.0
    stand_off: SizeOrNone = 2.0
    grain: Literal["across", "upright"] = "across"


@dataclass(frozen=True, kw_only=True)
class LoneDrawerForm(PieceForm):
    """A drawer for an opening that is there already.

    opening: its clear width, height and depth. drawer: how the box is made. front: left out, the box is all there
    is to see. inside: kind of room inside.
    """

    opening: tuple[Size, Size, Size]
    drawer: DrawerForm
    front: FrontForm | None = None
    inside: Line = "in-a-cupboard"
