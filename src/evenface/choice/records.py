"""A candidate, why it is ruled out or doubtful, and how well it meets the wishes."""

from dataclasses import dataclass
from enum import StrEnum

from evenface.evidence import Band, Status, Value
from evenface.words import Said


class Verdict(StrEnum):
    """`out`: a must is not met. `doubt`: the range of the figure reaches below the must, or sources disagree."""

    OUT = "out"
    DOUBT = "doubt"
    GOOD = "good"


@dataclass(frozen=True, slots=True)
class Reason:
    """Why. need : the need, or "" of a pair. found : the figure, limit : what is asked, in the same unit.

    disagreement : True where one end of the range would meet the must and the other would not.
    """

    verdict: Verdict
    need: str
    message: Said
    why: str
    source: str
    status: Status
    found: Value | None = None
    limit: float | None = None
    disagreement: bool = False


@dataclass(frozen=True, slots=True)
class Candidate:
    """A class of material held against a brief.

    materials : of the catalogue that belong to it. score : share of the wishes met, 0 to 1, as a band; of a
    brief without wishes 1. strong : wishes it meets well. gives_up : wishes in which another candidate that is
    not out is clearly better, with how far the two lie apart as a share of the scale. known : False where there
    are wishes and nothing is known of the class in any of them.
    """

    kind: str
    name: str
    title: str
    verdict: Verdict
    reasons: tuple[Reason, ...]
    score: Band
    materials: tuple[str, ...] = ()
    strong: tuple[str, ...] = ()
    gives_up: tuple[tuple[str, float], ...] = ()
    price_level: float | None = None
    known: bool = True

    @property
    def is_out(self) -> bool:
        return self.verdict is Verdict.OUT


@dataclass(frozen=True, slots=True)
class Ranking:
    """Candidates of one kind: the good ones first, those ruled out last."""

    kind: str
    candidates: tuple[Candidate, ...]

    @property
    def left(self) -> tuple[Candidate, ...]:
        """Those that are not ruled out."""
        return tuple(one for one in self.candidates if not one.is_out)
