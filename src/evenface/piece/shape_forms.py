"""The tables of a job file that speak of shapes: corners, profiles, outlines, openings, grips, fixings."""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from evenface.piece.fields import Count, FileName, Flag, Line, Number, Size, SizeOrNone, Spot, Word
from evenface.piece.form import ConstructionWord, CutWord, EndsWord, FaceWord, Form, ProfileWord, SideWord


@dataclass(frozen=True, kw_only=True)
class CornerForm(Form):
    radius: SizeOrNone | None = None
    chamfer: SizeOrNone | None = None
    construction: ConstructionWord | None = None
    pieces: Count | None = None
    strip: Size | None = None
    reserve: SizeOrNone | None = None
    ends: EndsWord | None = None
    through: SideWord | None = None
    notch: tuple[Size, Size] | None = None
    inner_radius: SizeOrNone | None = None
    returned: Flag | None = None


@dataclass(frozen=True, kw_only=True)
class CornersForm(CornerForm):
    front_left: CornerForm | None = None
    front_right: CornerForm | None = None
    rear_right: CornerForm | None = None
    rear_left: CornerForm | None = None


@dataclass(frozen=True, kw_only=True)
class ProfileForm(Form):
    shape: ProfileWord
    edges: tuple[SideWord, ...] | None = None
    face: FaceWord = "top"
    radius: Size | None = None
    depth: Size | None = None
    height: Size | None = None
    curve: tuple[tuple[Number, ...], ...] = ()
    stop: Size | None = None
    reserve: SizeOrNone | None = None


@dataclass(frozen=True, kw_only=True)
class OutlineForm(Form):
    points: tuple[tuple[Number, ...], ...] = ()
    file: FileName | None = None
    layer: Line | None = None
    unit: Literal["mm", "cm", "m", "in", "ft"] | None = None
    sides: tuple[SideWord, ...] = ()


@dataclass(frozen=True, kw_only=True)
class OpeningForm(Form):
    """Where and what shape an insert or cut-out has: at is its centre."""

    name: Word
    at: tuple[Spot, Spot] | None = None
    size: tuple[Size, Size] | None = None
    radius: SizeOrNone | None = None
    diameter: Size | None = None
    shape: Literal["rectangle", "circle", "slot", "bar", "D"] | None = None
    turned: Number = 0.0
    outline: OutlineForm | None = None


@dataclass(frozen=True, kw_only=True)
class InsertForm(OpeningForm):
    wood: Word
    depth: Size | None = None
    through: Flag = False
    face: FaceWord = "top"
    cut: CutWord = "flat"
    grain: Number = 0.0
    clearance: SizeOrNone = 0.1
    when: Literal["before facing", "after facing"] = "before facing"
    flush: SizeOrNone | None = None


@dataclass(frozen=True, kw_only=True)
class CutoutForm(OpeningForm):
    depth: Size | None = None
    wet: Flag = False
    lining: Line = ""
    lining_width: SizeOrNone = 0.0
    service: Literal["none", "water", "gas", "electricity", "cable"] = "none"
    edge: SideWord | None = None
    along: SizeOrNone | None = None
    returned: Flag = False


@dataclass(frozen=True, kw_only=True)
class GripForm(Form):
    name: Word
    depth: Size
    path: tuple[tuple[Spot, Spot], ...]
    insert: Line = ""
    cutter: Literal["ball", "core-box", "cove", "straight"] = "ball"
    diameter: Size = 32.0
    from_: Annotated[Literal["face", "edge", "under"], Field(alias="from")] = "face"
    edge: SideWord | None = None
    scooped: Flag = False
    wall: SizeOrNone | None = None
    floor: SizeOrNone | None = None
    hand: Literal["left", "right", "both"] = "both"


def _as_sides(given: object) -> object:
    return given if isinstance(given, dict) else {"every": given}


@dataclass(frozen=True, kw_only=True)
class SidesForm(Form):
    """One figure for every edge, or one for each that is named."""

    every: SizeOrNone | None = None
    front: SizeOrNone | None = None
    rear: SizeOrNone | None = None
    left: SizeOrNone | None = None
    right: SizeOrNone | None = None


@dataclass(frozen=True, kw_only=True)
class HoldForm(Form):
    """from_edge is where frame, apron or fixings begin, seen from each edge; hinges the edge they sit on."""

    how: Literal["free", "hinged", "screwed", "groove"]
    fixings: Annotated[int, Field(strict=True, ge=0, le=1000)] = 0
    from_edge: Annotated[SidesForm, BeforeValidator(_as_sides)] | None = None
    hinges: SideWord | None = None
