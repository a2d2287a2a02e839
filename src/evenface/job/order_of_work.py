"""The steps of a job as cards, calendar and price have them: the whole order of work with the maker's own times."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenface.construction import Construction
from evenface.errors import Complaint, FileError, Place, Sentence, nearest_words
from evenface.parts import Part
from evenface.piece.records import Job
from evenface.pricing.own_times import NO_TIMES, OwnTimes, with_own_times
from evenface.workplan import PanelToMake, PieceToMake, Step, derive_steps, panels_to_make, pieces_to_make
from evenface.workplan.moving import unknown_steps, with_moves


@dataclass(frozen=True, slots=True)
class OrderOfWork:
    """Steps in the order they are worked, and what they were derived from."""

    panels: tuple[PanelToMake, ...]
    pieces: tuple[PieceToMake, ...]
    steps: tuple[Step, ...]


def order_of_work(
    constructions: Sequence[Construction],
    parts: Sequence[Part],
    days_lain: float = 0.0,
    own_times: OwnTimes = NO_TIMES,
    job: Job | None = None,
) -> OrderOfWork:
    """Every step of the job. parts : those of these constructions, in their order.

    own_times : in place of the estimates; the price takes the same. job : whose moves by hand and order of corners
    are followed; None for the order as derived. Raises ValueError when parts and constructions do not belong
    together, FileError for a move of a step that is none.
    """
    panels = panels_to_make(constructions, parts)
    pieces = pieces_to_make(constructions, panels)
    corners = job.corners if job is not None else "before facing"
    steps = derive_steps(panels, days_lain, corners, pieces=pieces)
    if job is not None:
        _refuse_strange(job, steps)
        steps = with_moves(steps, job.moves)
    return OrderOfWork(panels, pieces, with_own_times(steps, own_times))


def _refuse_strange(job: Job, steps: Sequence[Step]) -> None:
    known = tuple(step.id for step in steps)
    wrong = [
        Complaint(
            _place(job, f"{move.origin}.{key}"), "a step of the work plan", repr(name), _nearest(name, known)
        )
        for move, key, name in unknown_steps(steps, job.moves)
    ]
    if wrong:
        raise FileError(wrong)


def _place(job: Job, key: str) -> Place:
    line, column = job.texts.get(key, (0, 0))
    return Place(job.file, line, column, key)


def _nearest(name: str, known: tuple[str, ...]) -> Sentence:
    return nearest_words(name, known) or "evenface steps shows the names of all steps."
