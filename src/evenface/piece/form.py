"""What every table of a job file is made from, and the words several of them use."""

from dataclasses import dataclass
from typing import ClassVar, Literal

from pydantic import ConfigDict

STRICT = ConfigDict(extra="forbid", allow_inf_nan=False)

SideWord = Literal["front", "rear", "left", "right"]
Section = Literal["under", "flush"]
OrderWord = Literal["edging first", "facing first"]
EndsWord = Literal["auto", "mitre", "butt"]
CutWord = Literal["flat", "rift", "quarter"]
ConstructionWord = Literal["rounded", "clipped", "block", "ring", "strips"]
ProfileWord = Literal["round-over", "chamfer", "bevel under", "cove", "thumbnail", "stepped", "free"]
FaceWord = Literal["top", "bottom"]


@dataclass(frozen=True, kw_only=True)
class Form:
    __pydantic_config__: ClassVar[ConfigDict] = STRICT
