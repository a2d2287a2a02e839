"""What every check is given and gives back."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from evenface.construction import BuiltPanel
from evenface.finding import Finding
from evenface.parts import Part
from evenface.piece.records import Job


@dataclass(frozen=True, slots=True)
class Asked:
    """One panel under question, with the part it becomes and the job it belongs to."""

    job: Job
    panel: BuiltPanel
    part: Part


type Check = Callable[[Asked], Iterator[Finding]]
