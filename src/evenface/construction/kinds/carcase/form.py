"""The table of a carcase as it is written in the job file."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from evenface.construction.drawers.form import DrawerForm, JoiningForm, JointEntry
from evenface.piece.fields import Count, Flag, Line, Positive, Size, SizeOrNone, Word
from evenface.piece.form import CutWord, Form
from evenface.piece.forms import PieceForm, _as_list
from evenface.piece.shape_forms import CutoutForm


@dataclass(frozen=True, kw_only=True)
class BackForm(Form):
    """The back, its show face inwards. how: let into a groove or a rebate, or laid on the rear.

    depth: of groove or rebate into the sides. inset: from the rear edge to a back in a groove. play: what the
    back is smaller than its groove on each side. shy: how far a back on the rear stays from the outside.
    """

    buildup: Word
    how: Literal["groove", "rebate", "rear"] = "groove"
    depth: Size = 8.0
    inset: SizeOrNone = 12.0
    play: SizeOrNone = 1.0
    shy: SizeOrNone = 2.0
    cutout: Annotated[tuple[CutoutForm, ...], BeforeValidator(_as_list)] = ()


@dataclass(frozen=True, kw_only=True)
class FrontsForm(Form):
    """Doors and drawer fronts. lie: inset between the sides, overlay on them, or half overlay (shared sides).

    gap: between two fronts, and round an inset one. left, right, top, bottom: air at the outside, half the gap
    where an overlay front is not told otherwise; at a side given so, a half overlay front covers the outer panel up to
    there. beside: sides at which a wall or the next piece stands close.
    drawers: another build-up for drawer fronts. stand_off: air between an overlay front and the carcase. shy: how
    far an inset front lies behind the edges. cup: from the door's edge to the hinge cup.
    """

    buildup: Word
    lie: Literal["inset", "overlay", "half overlay"] = "overlay"
    drawers: Line = ""
    gap: Size | None = None
    left: SizeOrNone | None = None
    right: SizeOrNone | None = None
    top: SizeOrNone | None = None
    bottom: SizeOrNone | None = None
    beside: tuple[Literal["left", "right"], ...] = ()
    stand_off: SizeOrNone = 2.0
    shy: SizeOrNone = 0.0
    cup: Size | None = None


@dataclass(frozen=True, kw_only=True)
class FrontGripForm(Form):
    """A grip let into every front: a piece of wood with a hollow, in line across the run.

    size, radius, depth: of the wood, along the front's length and across it. diameter, hollow: cutter, depth of
    the hollow. from_edge: its middle from the closing edge of a door. up: its middle from the lower edge of a
    door, half the height when left out; on drawers it stands in the middle.
    """

    wood: Word
    size: tuple[Size, Size] = (150.0, 44.0)
    radius: SizeOrNone = 22.0
    depth: Size = 15.0
    when: Literal["before facing", "after facing"] = "after facing"
    cutter: Literal["ball", "core-box", "cove", "straight"] = "ball"
    diameter: Size = 25.0
    hollow: Size = 10.0
    from_edge: Size = 46.0
    up: Size | None = None


@dataclass(frozen=True, kw_only=True)
class ScribeForm(Form):
    """Strips of wood fitted to the wall. over: what they are left wider, to be planed to the wall."""

    left: SizeOrNone = 0.0
    right: SizeOrNone = 0.0
    top: SizeOrNone = 0.0
    wood: Line = ""
    thickness: Size = 20.0
    over: SizeOrNone = 10.0


@dataclass(frozen=True, kw_only=True)
class PlinthForm(Form):
    """A plinth the carcase stands on, of a build-up, or of a wood with its thickness. setback: behind the front of
    the carcase."""

    buildup: Line = ""
    wood: Line = ""
    thickness: Size = 20.0
    cut: CutWord = "flat"
    height: Size
    setback: SizeOrNone = 50.0


@dataclass(frozen=True, kw_only=True)
class HangingRailForm(Form):
    """A rail of wood under the top, behind a back let into a groove, by which the carcase hangs."""

    wood: Word
    height: Size = 80.0
    thickness: Size = 20.0


@dataclass(frozen=True, kw_only=True)
class RowForm(Form):
    """A row of a bay, counted from above.

    what: a door, a pair of doors, drawers, or open. height: clear height; left out, an equal share. count: of
    drawers. heights: of the fronts of a bank from above, the lowest takes the rest; growth: how many times as
    high each is as the one above it. shelves: loose ones behind a door or in an open row. shelf_below: a fixed
    shelf divides it from the next row. load: on a shelf, newtons per metre.
    """

    what: Literal["door", "doors", "drawers", "open"] = "open"
    height: Size | None = None
    count: Annotated[int, Field(strict=True, ge=1, le=20)] = 1
    heights: tuple[Size, ...] = ()
    growth: Positive = 1.0
    hinge: Literal["left", "right"] = "left"
    grain: Literal["upright", "across", ""] = ""
    shelves: Annotated[int, Field(strict=True, ge=0, le=20)] = 0
    shelf_below: Flag = False
    load: Positive | None = None
    run: Line = ""


@dataclass(frozen=True, kw_only=True)
class BayForm(Form):
    """What stands between two uprights. width: clear; left out, an equal share. count: so many alike."""

    width: Size | None = None
    count: Count = 1
    row: Annotated[tuple[RowForm, ...], BeforeValidator(_as_list)] = ()


@dataclass(frozen=True, kw_only=True)
class CarcaseForm(PieceForm):
    """A cupboard, cabinet, wall unit or pedestal.

    size: width, height and depth over everything, or opening: of the place it is fitted into. sides, top,
    bottom, shelves, dividers: build-ups; what is left out is as the sides. left, right: a side of its own.
    top_at, bottom_at: how they meet the sides. run: name of the run in which the face goes round the carcase.
    inside: kind of room inside, when there are doors. one_sheet: the doors of a pair come from one sheet.
    """

    size: tuple[Size, Size, Size] | None = None
    opening: tuple[Size, Size, Size] | None = None
    sides: Word
    left: Line = ""
    right: Line = ""
    top: Line = ""
    bottom: Line = ""
    shelves: Line = ""
    dividers: Line = ""
    top_at: Literal["between", "over", "mitred"] = "between"
    bottom_at: Literal["between", "over", "mitred"] = "between"
    joint: JointEntry = field(default_factory=JoiningForm)
    shelf_joint: JointEntry | None = None
    back: BackForm | None = None
    fronts: FrontsForm | None = None
    drawer: DrawerForm | None = None
    grip: FrontGripForm | None = None
    scribe: ScribeForm = field(default_factory=ScribeForm)
    plinth: PlinthForm | None = None
    legs: SizeOrNone = 0.0
    hanging_rail: HangingRailForm | None = None
    inside: Line = "in-a-cupboard"
    run: Line = ""
    shelf_setback: SizeOrNone = 2.0
    one_sheet: Flag = True
    bay: Annotated[tuple[BayForm, ...], BeforeValidator(_as_list)] = ()
