"""What every check is given and gives back."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from evenface.construction import BuiltPanel
from evenface.finding import Finding
from evenface.parts import Part
from evenface.piece.records import NOTHING_MADE, Job, Made


@dataclass(frozen=True, slots=True)
class Asked:
    """One panel under question, with the part it becomes, the job it belongs to and what was made of it so far."""

    job: Job
    panel: BuiltPanel
    part: Part
    made: Made = NOTHING_MADE


type Check = Callable[[Asked], Iterator[Finding]]
