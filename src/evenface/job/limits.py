"""The largest safe widths of a wood in a place: faced, in a mitre, under a facing, let in, as a frame."""

from dataclasses import dataclass

from evenface.behaviour.widths import (
    Ground,
    WidthLimit,
    faced_limit,
    ground_of,
    ground_of_change,
)
from evenface.behaviour.widths_by_movement import frame_limit, insert_limit, mitre_limit, ridge_limit
from evenface.construction.room_air import USUAL_PLACE, USUAL_ROOM, year_of
from evenface.construction.wood_through_year import RING_ANGLE
from evenface.errors import Complaint, FileError, MissingWord, Place
from evenface.materials import Catalogue
from evenface.piece.records import Job


@dataclass(frozen=True, slots=True)
class LimitQuestion:
    """What is asked. moisture_change : given instead of a place, as a fraction (−0.03 dries by 3 %)."""

    wood: str
    cut: str = "flat"
    thickness_mm: float = 20.0
    facing: str = "hpl-0.8"
    glue: str = "pva-d3"
    board: str = "birch-ply-18"
    place: str = USUAL_PLACE
    room: str = USUAL_ROOM
    bonded_at: float = 0.5
    moisture_change: float | None = None


def ground_for(question: LimitQuestion, catalogue: Catalogue) -> Ground:
    """The wood and its change. MissingWord for unknown names, FileError for figures that cannot be."""
    wood = catalogue.wood(question.wood)
    if question.cut not in RING_ANGLE:
        raise MissingWord("cut", question.cut, tuple(RING_ANGLE))
    change = question.moisture_change
    if not 1.0 <= question.thickness_mm <= 200.0 or not 0.05 <= question.bonded_at <= 0.95:
        given = f"{question.thickness_mm:g} mm at {question.bonded_at:g}"
        raise FileError(
            [Complaint(Place(key="limit"), "a thickness of 1 to 200 mm, bonded at 5 to 95 %", given)]
        )
    if change is not None and not 0.001 <= abs(change) <= 0.15:
        raise FileError([Complaint(Place(key="limit"), "a change of 0.1 to 15 % moisture", f"{change:g}")])
    if change is not None:
        return ground_of_change(wood, question.cut, question.thickness_mm, change, question.bonded_at)
    job = Job(1, "", {}, (), place=question.place, room=question.room)
    year = year_of(job, question.room)
    return ground_of(wood, question.cut, question.thickness_mm, year, question.bonded_at)


def width_limits(question: LimitQuestion, catalogue: Catalogue) -> tuple[Ground, tuple[WidthLimit, ...]]:
    """Every use of the wood: faced on one face and on both, mitre, under a facing, insert, frame."""
    ground = ground_for(question, catalogue)
    facing, glue = catalogue.facing(question.facing), catalogue.glue(question.glue)
    board = catalogue.carrier(question.board)
    return ground, (
        faced_limit(ground, facing, glue, both=False),
        faced_limit(ground, facing, glue, both=True),
        mitre_limit(ground),
        ridge_limit(ground, board),
        insert_limit(ground, board),
        frame_limit(ground),
    )
