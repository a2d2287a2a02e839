"""The table of a top on a base as it is written in the job file."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from evenface.piece.fields import Flag, Positive, Size, SizeOrNone, Word
from evenface.piece.form import CutWord, Form, SideWord
from evenface.piece.forms import AllowancesForm, LimitForm, PanelEdgingForm, PieceForm, _as_list
from evenface.piece.shape_forms import CornersForm, CutoutForm, GripForm, InsertForm, ProfileForm, SidesForm
from evenface.piece.shape_forms import _as_sides as as_sides


def _as_square(given: object) -> object:
    return given if isinstance(given, list) else [given, given]


def _as_kind(given: object) -> object:
    return {"kind": given} if isinstance(given, str) else given


@dataclass(frozen=True, kw_only=True)
class LegsForm(Form):
    """Four legs. size: across the width and the depth of the piece, or one figure for both."""

    wood: Word
    size: Annotated[tuple[Size, Size], BeforeValidator(_as_square)]
    cut: CutWord = "rift"


@dataclass(frozen=True, kw_only=True)
class ApronJointForm(Form):
    """Leg and apron. length: of the tenon into the leg; thickness: of tenon or tongue; haunch: how far the
    tenon stays below the upper edge, with a short haunch there. What is left out follows from the wood there is.
    """

    kind: Literal["mortise and tenon", "loose tenon", "dowel"] = "mortise and tenon"
    length: Size | None = None
    thickness: Size | None = None
    haunch: SizeOrNone | None = None


@dataclass(frozen=True, kw_only=True)
class ApronForm(Form):
    """The aprons between the legs. height: of all, or front, rear, ends: of their own. back: how far they lie
    behind the outer faces of the legs. bearers: rails from the front to the rear apron, under the top.
    """

    wood: Word
    thickness: Size
    height: Size
    front: Size | None = None
    rear: Size | None = None
    ends: Size | None = None
    cut: CutWord = "flat"
    back: SizeOrNone = 5.0
    joint: Annotated[ApronJointForm, BeforeValidator(_as_kind)] = field(default_factory=ApronJointForm)
    bearers: Annotated[int, Field(strict=True, ge=0, le=8)] = 0
    bearer_height: Size | None = None


@dataclass(frozen=True, kw_only=True)
class SupportsForm(Form):
    """A base given by others, or built as pieces of their own. width: of one, along the piece. screwed: the top
    is fixed to them; else it lies on them."""

    what: Literal["trestle", "cabinet", "frame"] = "trestle"
    count: Annotated[int, Field(strict=True, ge=2, le=6)] = 2
    width: Size
    screwed: Flag = True


@dataclass(frozen=True, kw_only=True)
class FixingForm(Form):
    """How the top is held down. every: at most so far apart, 50 and more. slot: its length, else reckoned from the
    year of the room. fixed: where top and base stay together, from where everything moves.
    """

    kind: Literal["button", "slotted plate", "slotted screw"] = "slotted plate"
    every: Annotated[Size, Field(ge=50.0)] = 300.0
    slot: Size | None = None
    fixed: Literal["middle", "front"] = "middle"


@dataclass(frozen=True, kw_only=True)
class SeatsForm(Form):
    """How many sit at each side. arms: on chairs with arms."""

    front: Annotated[int, Field(strict=True, ge=0, le=20)] = 0
    rear: Annotated[int, Field(strict=True, ge=0, le=20)] = 0
    left: Annotated[int, Field(strict=True, ge=0, le=5)] = 0
    right: Annotated[int, Field(strict=True, ge=0, le=5)] = 0
    arms: Flag = False


@dataclass(frozen=True, kw_only=True)
class LoadForm(Form):
    """In kilograms. even: spread over the whole top, lasting. edge: on one spot of an edge, for tipping."""

    even: Positive = 60.0
    edge: Positive = 75.0


@dataclass(frozen=True, kw_only=True)
class WayForm(Form):
    """The way to its place. doors: clear width and height of each. corner: clear widths of two passages or of
    stairs and landing that meet at a right angle. ceiling: over that corner."""

    doors: tuple[tuple[Size, Size], ...] = ()
    corner: tuple[Size, Size] | None = None
    ceiling: Size = 2300.0


@dataclass(frozen=True, kw_only=True)
class TopOnBaseForm(PieceForm):
    """A bench, desk or table: a faced top on legs and aprons, or on supports given by others.

    size: width, height and depth over everything. overhang: of the top over the outside of the base. The keys of
    the top are those of a panel.
    """

    size: tuple[Size, Size, Size]
    buildup: Word
    overhang: Annotated[SidesForm, BeforeValidator(as_sides)] = field(default_factory=SidesForm)
    legs: LegsForm | None = None
    apron: ApronForm | None = None
    supports: SupportsForm | None = None
    fixing: Annotated[FixingForm, BeforeValidator(_as_kind)] = field(default_factory=FixingForm)
    seats: SeatsForm = field(default_factory=SeatsForm)
    load: LoadForm = field(default_factory=LoadForm)
    way: WayForm = field(default_factory=WayForm)
    edges: tuple[SideWord, ...] | None = None
    edging: PanelEdgingForm | None = None
    corners: CornersForm | None = None
    profile: Annotated[tuple[ProfileForm, ...], BeforeValidator(_as_list)] = ()
    insert: Annotated[tuple[InsertForm, ...], BeforeValidator(_as_list)] = ()
    grip: Annotated[tuple[GripForm, ...], BeforeValidator(_as_list)] = ()
    cutout: Annotated[tuple[CutoutForm, ...], BeforeValidator(_as_list)] = ()
    allowances: AllowancesForm = field(default_factory=AllowancesForm)
    limit: LimitForm | None = None
    seams: tuple[Size, ...] | Literal["none"] | None = None
