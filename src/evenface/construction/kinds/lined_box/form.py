"""The table of a lined box as it is written in the job file."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from evenface.piece.fields import Flag, Line, Size, SizeOrNone, Word
from evenface.piece.form import CutWord, Form
from evenface.piece.forms import PieceForm, _as_list


@dataclass(frozen=True, kw_only=True)
class WallsForm(Form):
    """Solid wood of the four walls. thickness: without the lining; side_thickness: of left and right, if it differs."""

    wood: Word
    thickness: Size
    side_thickness: Size | None = None
    cut: CutWord = "quarter"


@dataclass(frozen=True, kw_only=True)
class LiningForm(Form):
    """What the walls are faced with inside. thickness: of the sheet as measured, else the catalogue's.

    direction: 0 where the sheet runs along the walls, 90 where it stands.
    corner: which pair's lining runs into the inner corner, while the other stops before it; "mitred" for both
    bevelled, "shy" for both stopping before the other's face. gap: air left beside that, on each wall.
    """

    facing: Word
    glue: Word
    thickness: Size | None = None
    direction: Literal[0, 90] = 0
    corner: Literal["front runs through", "sides run through", "mitred", "shy"] = "front runs through"
    gap: SizeOrNone = 0.0


@dataclass(frozen=True, kw_only=True)
class FingersForm(Form):
    """The corner joint. number: of fingers of both walls together; odd, so that top and bottom are alike.

    width: of a finger; left out, the height shared equally, or one pass of the cutter where no number is given. What
    width and number leave over goes to the lowest and highest finger. half_pins: those two half as wide. starts:
    which pair has the lowest one. fit: what a slot is wider than its finger.
    """

    number: Annotated[int, Field(strict=True, ge=2, le=99)] | None = None
    width: Size | None = None
    cutter: Size = 6.0
    half_pins: Flag = False
    starts: Literal["front", "sides"] = "front"
    fit: SizeOrNone = 0.1


@dataclass(frozen=True, kw_only=True)
class BottomForm(Form):
    """The bottom, in a groove of all four walls: a build-up, or a wood with its thickness, grain from left to right.

    groove: how deep it is cut into the wood. up: wood below the bottom. play: air at each edge in the groove.
    """

    buildup: Line = ""
    wood: Line = ""
    thickness: Size = 8.0
    cut: CutWord = "quarter"
    groove: Size = 6.0
    up: Size = 6.0
    play: SizeOrNone = 0.5


@dataclass(frozen=True, kw_only=True)
class DividerForm(Form):
    """Dividers of one way; two tables whose dividers cross are halved over each other.

    clear: clear widths from the left or the front; those left out share the rest. buildup, or wood with its
    thickness. held: housed in the walls, or loose. depth: of the housing, lining and all. play: air at each end.
    below: how far the divider stays below the edge of the box.
    """

    way: Literal["front to rear", "left to right"]
    count: Annotated[int, Field(strict=True, ge=1, le=40)] = 1
    clear: tuple[Size, ...] = ()
    buildup: Line = ""
    wood: Line = ""
    thickness: Size = 6.0
    cut: CutWord = "quarter"
    held: Literal["housed", "loose"] = "housed"
    depth: Size = 4.0
    play: SizeOrNone | None = None
    below: SizeOrNone = 0.0


@dataclass(frozen=True, kw_only=True)
class LinedBoxForm(PieceForm):
    """A box or tray of solid wood, faced inside.

    size: width, depth and height outside, or inside: of the room in it.
    """

    size: tuple[Size, Size, Size] | None = None
    inside: tuple[Size, Size, Size] | None = None
    walls: WallsForm
    lining: LiningForm
    fingers: FingersForm = field(default_factory=FingersForm)
    bottom: BottomForm
    divider: Annotated[tuple[DividerForm, ...], BeforeValidator(_as_list)] = ()
