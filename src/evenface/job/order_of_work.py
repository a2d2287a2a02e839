"""The steps of a job as cards, calendar and price have them: the whole order of work with the maker's own times."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenface.construction import Construction
from evenface.parts import Part
from evenface.pricing.own_times import NO_TIMES, OwnTimes, with_own_times
from evenface.workplan import PanelToMake, PieceToMake, Step, derive_steps, panels_to_make, pieces_to_make


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
) -> OrderOfWork:
    """Every step of the job. parts : those of these constructions, in their order.

    own_times : in place of the estimates; the price takes the same. Raises ValueError when parts and constructions
    do not belong together.
    """
    panels = panels_to_make(constructions, parts)
    pieces = pieces_to_make(constructions, panels)
    steps = derive_steps(panels, days_lain, pieces=pieces)
    return OrderOfWork(panels, pieces, with_own_times(steps, own_times))
