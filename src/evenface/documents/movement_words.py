"""What wood, gaps and surfaces do through the year, in plain words with this job's own numbers."""

from collections.abc import Iterator, Sequence
from typing import Final

import numpy as np

from evenface.construction import Construction
from evenface.construction.room_air import USUAL_PLACE, USUAL_ROOM, year_of
from evenface.construction.wood_through_year import width_through_year
from evenface.piece.records import Job
from evenface.result import Sketch
from evenface.words import Said, listed, said

_GAP_SEEN_MM: Final = 0.05


def movement(sketch: Sketch) -> tuple[Said, ...]:
    """What wood and gaps do through the year, and the air all this holds in."""
    return (*_room(sketch.job), *_wood(sketch), *_gaps(sketch.constructions), *_surfaces(sketch))


def _room(job: Job) -> Iterator[Said]:
    humidity = year_of(job, job.room).month_means()[1]
    yield said(
        "The pieces are made for one room: {room:word}, {place}, with between {low} and {high} % relative humidity "
        "through the year. In drier or damper air they move more than is said here.",
        room=(job.room or USUAL_ROOM).replace("-", " "),
        place=(job.place or USUAL_PLACE).replace("-", " ").title(),
        low=round(100.0 * float(np.min(humidity))),
        high=round(100.0 * float(np.max(humidity))),
    )


def _wood(sketch: Sketch) -> Iterator[Said]:
    """The widest edging and the widest board, for they move most."""
    edgings = [edging for one in sketch.constructions for panel in one.panels for edging in panel.edgings]
    if edgings:
        widest = max(edgings, key=lambda edging: edging.width_mm)
        through = width_through_year(sketch.job, widest.wood, widest.width_mm, widest.cut)
        yield said(
            "Solid wood swells and shrinks across its grain. The widest edging, {width:mm} of {wood}, changes by up "
            "to {swing:mm} between the driest and the dampest weeks. Where it meets the facing a fine line may be "
            "felt; that is no fault.",
            width=widest.width_mm,
            wood=widest.wood.title,
            swing=round(through.swing_mm, 1),
        )
    boards = [board for one in sketch.constructions for board in one.boards]
    if boards:
        board = max(boards, key=lambda one: one.board.width_mm)
        through = width_through_year(sketch.job, board.wood, board.board.width_mm, board.board.cut)
        yield said(
            "The widest board, {name} of {piece}, {width:mm} of {wood}, changes by up to {swing:mm}.",
            name=board.name,
            piece=board.piece,
            width=board.board.width_mm,
            wood=board.wood.title,
            swing=round(through.swing_mm, 1),
        )


def _gaps(constructions: Sequence[Construction]) -> Iterator[Said]:
    """Gaps that move, those of a piece that do the same in one sentence."""
    for one in constructions:
        groups: dict[tuple[float, float, float], list[str]] = {}
        for gap in one.arranged.gaps:
            least, most = gap.least_mm, gap.most_mm
            if least is not None and most is not None and most - least > _GAP_SEEN_MM:
                ends = (round(gap.mm, 1), round(least, 1), round(most, 1))
                groups.setdefault(ends, []).append(gap.name)
        for (mm, least, most), names in groups.items():
            yield said(
                "{piece}, {gap}: {mm:mm} as drawn, between {least:mm} and {most:mm} through the year.",
                piece=one.piece.name,
                gap=listed(dict.fromkeys(names), "; "),
                mm=mm,
                least=least,
                most=most,
            )


def _surfaces(sketch: Sketch) -> Iterator[Said]:
    families = {face.material.family for one in sketch.constructions for p in one.panels for face in p.faces}
    if "linoleum" in families:
        yield said(
            "New linoleum has a yellowish film that light takes away within days or weeks; under things that stand "
            "on it, it stays. Move them now and then."
        )
    yield said("A care sheet comes with the pieces.")
