"""Something to know about a piece: how grave, where, how much, against what, why, and what would mend it.

Takes: numbers, limits and sentences from the rooms that compute them.
Gives: `Finding` and `Remedy`, which travel unchanged to paper and screen.
May import: evidence, words.
Start reading at: `Finding`.
"""

from dataclasses import dataclass
from enum import StrEnum

from evenface.evidence import Band, Status
from evenface.words import NOTHING, Said


class Severity(StrEnum):
    """`stop`: it cannot be made or will fail. `weigh`: your risk, decide. `note`: good to know."""

    STOP = "stop"
    WEIGH = "weigh"
    NOTE = "note"


@dataclass(frozen=True, slots=True)
class Change:
    """One entry of the job to set differently: key path, old and new text as written in the file."""

    path: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Remedy:
    """A way out, as data: what to change, in words and as entries of the job.

    predicted : what the finding's value would become, as far as the proposing room can know.
    """

    code: str
    message: Said
    changes: tuple[Change, ...] = ()
    predicted: Band | None = None


@dataclass(frozen=True, slots=True)
class Finding:
    """A problem or remark about the piece; never an exception.

    code : stable name such as `corner.through`, see the list in the documents.
    origin : key path in the job file, `piece[0].panel[1].corners`.
    piece, part, at : names a maker knows: "Glazing bench", "top", "front left corner".
    value, limit, unit : the number found, the number it is held against, both in `unit`.
    gauge_mm : the length over which a flatness value is measured, where it is one.
    source : where the limit comes from; weakest : the weakest evidence the value rests on.
    Raises ValueError when the code is empty or a number stands without a unit.
    """

    code: str
    severity: Severity
    message: Said
    origin: str = ""
    piece: str = ""
    part: str = ""
    at: str = ""
    value: Band | None = None
    limit: float | None = None
    unit: str = ""
    gauge_mm: float | None = None
    why: Said = NOTHING
    source: str = ""
    weakest: Status = Status.DERIVED
    remedies: tuple[Remedy, ...] = ()

    def __post_init__(self) -> None:
        if not self.code:
            raise ValueError("a finding needs a code")
        if (self.value is not None or self.limit is not None) and not self.unit:
            raise ValueError(f"finding {self.code}: a number needs its unit")


_GRAVITY = {Severity.STOP: 0, Severity.WEIGH: 1, Severity.NOTE: 2}


def gravest_first(findings: "list[Finding] | tuple[Finding, ...]") -> tuple[Finding, ...]:
    """Findings in reading order: stops, then risks, then notes; then by place and code."""
    return tuple(sorted(findings, key=lambda f: (_GRAVITY[f.severity], f.piece, f.part, f.code, f.at)))
