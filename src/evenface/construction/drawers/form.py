"""The table of a drawer box as it is written in the job file, and that of the joint that holds it together."""

from dataclasses import dataclass, field
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from evenface.piece.fields import Line, Size, SizeOrNone
from evenface.piece.form import CutWord, Form

JointWord = Literal["dowel", "loose tongue", "biscuit", "screw", "housing"]


def _as_kind(given: object) -> object:
    return {"kind": given} if isinstance(given, str) else given


@dataclass(frozen=True, kw_only=True)
class JoiningForm(Form):
    """kind: what holds the joint. depth: of a housing. every: spacing of dowels, biscuits or screws, 16 and more."""

    kind: JointWord = "dowel"
    depth: Size = 6.0
    every: Annotated[Size, Field(ge=16.0)] = 128.0


JointEntry = Annotated[JoiningForm, BeforeValidator(_as_kind)]


@dataclass(frozen=True, kw_only=True)
class DrawerForm(Form):
    """Drawer boxes: of a wood, or of a build-up. bottom: a build-up, or bottom_wood with its thickness.

    clearance: of the runner, on each side. above, below: air over the box, and under it for the runner.
    height: of the box; left out, it is as high as it can be. length: of runner and box; left out, the longest
    usual one. groove: how deep the bottom lies in the sides. up: wood below the bottom.
    """

    wood: Line = ""
    buildup: Line = ""
    thickness: Size = 12.0
    cut: CutWord = "flat"
    height: Size | None = None
    clearance: SizeOrNone = 12.7
    above: SizeOrNone = 10.0
    below: SizeOrNone = 10.0
    runner: Literal["side runner", "under runner", "wooden runner"] = "side runner"
    length: Size | None = None
    joint: JointEntry = field(default_factory=JoiningForm)
    bottom: Line = ""
    bottom_wood: Line = ""
    bottom_thickness: Size = 8.0
    groove: Size = 6.0
    up: SizeOrNone = 10.0
