"""The two complete answers to a job: the sketch that follows each keystroke, and the whole result.

Takes: the records of the rooms above it.
Gives: `Sketch` (no layouts) and `Result` (everything), both complete: never half filled in.
May import: errors, evidence, words, finding, materials, piece, construction, parts, behaviour, layouts, checks,
    templates.
Start reading at: `Sketch`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from evenface.behaviour import Behaviour
from evenface.construction import Construction
from evenface.finding import Finding
from evenface.layouts import Layout
from evenface.parts import Part
from evenface.piece.records import Job, Made
from evenface.templates import Jig, RoutedTemplate
from evenface.words import Said

SCHEMA = "evenface-result-1"


@dataclass(frozen=True, slots=True)
class Sketch:
    """Everything that can be known without laying pieces out on stock.

    findings : gravest first. behaviours : of each panel in the order of the constructions, or none where
    flatness was left for later. templates : of every curve that is routed. boards : parts
    of solid wood, apart from `parts`, which are the panels in the order of the constructions. jigs : forms to
    bend strips on, rails for scooped grips.
    """

    job: Job
    made: Made
    constructions: tuple[Construction, ...]
    parts: tuple[Part, ...]
    findings: tuple[Finding, ...]
    behaviours: tuple[Behaviour, ...] = ()
    templates: tuple[RoutedTemplate, ...] = ()
    boards: tuple[Part, ...] = ()
    jigs: tuple[Jig, ...] = ()

    @property
    def all_parts(self) -> tuple[Part, ...]:
        """Panels and boards, in the order of their numbers."""
        if not self.boards:
            return self.parts
        return tuple(sorted((*self.parts, *self.boards), key=_by_number))


def _by_number(part: Part) -> tuple[int, ...]:
    return tuple(int(number) for number in part.id.split("."))


@dataclass(frozen=True, slots=True)
class BuyingRow:
    """One line of the buying list. amount in `unit` (sheets, m, m³, kg); size_mm where it has one.

    note : what the amount rests on, or what is missing.
    """

    material: str
    title: str
    form: str
    size_mm: tuple[float | None, float | None] | None
    amount: float
    unit: str
    note: Said


@dataclass(frozen=True, slots=True)
class Result:
    """A planned job.

    hashes : of the job text, the made file and the catalogue, so that a paper can be traced to its input.
    not_done : what was left out, with the reason in words.
    """

    version: str
    hashes: Mapping[str, str]
    seed: int
    sketch: Sketch
    layouts: tuple[Layout, ...]
    buying: tuple[BuyingRow, ...]
    findings: tuple[Finding, ...]
    seconds: float
    not_done: tuple[tuple[str, Said], ...] = ()
    schema: str = field(default=SCHEMA)
