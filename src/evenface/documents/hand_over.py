"""Papers that go with the finished piece: care sheets, and the hand-over sheet with its flatness."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from evenface.behaviour import Bend, Direction
from evenface.checks.flat_limits import limit_for, over_the_part
from evenface.construction import BuiltPanel
from evenface.documents.display import DASH, FIT_MM, length
from evenface.documents.flat_tables import Row, range_text
from evenface.documents.letters import (
    Block,
    Letterhead,
    bullets,
    heading,
    letter_pdf,
    paragraph,
    rows,
    sign,
    ticks,
)
from evenface.documents.tables import Table, table
from evenface.piece.bench_records import MeasuredFlat
from evenface.words import ENGLISH, Manner, Own, said, say
from evenface.workplan.care import CareLine
from evenface.workplan.safety import STANDING

TO_FILL: Final = "________"
"""Room to write a figure by hand."""
_HOW: Final = (
    said(
        "Part free, on edge or on three points, in the room where it will stand; the day and the air are noted."
    ),
    said("Bow and cup with a straightedge over the gauge, the rise in the middle; plus: show face round."),
    said("Twist: three corners on a flat table, the gap under the fourth."),
)


def care_pdf(
    head: Letterhead,
    care: Mapping[str, Sequence[CareLine]],
    batches: Mapping[str, str] | None = None,
    manner: Manner = ENGLISH,
) -> bytes:
    """Care sheets of the pieces. care : by the name of the piece. batches : of materials, by their title."""
    return letter_pdf("Care", head, care_blocks(care, batches or {}, manner), manner)


def care_blocks(
    care: Mapping[str, Sequence[CareLine]], batches: Mapping[str, str], manner: Manner = ENGLISH
) -> Iterator[Block]:
    """A heading and a table a piece, then batches to keep, then what comes first."""
    for piece, lines in care.items():
        if not lines:
            continue
        yield heading(piece, manner)
        cells = [
            (manner.translate(line.heading), say(line.text, manner), manner.translate(line.status.value))
            for line in lines
        ]
        yield rows(table("", ("For", "Advice", "Rests on"), cells, manner=manner))
    if batches:
        yield heading("For a repair", manner)
        told = [said("{what}: batch {batch}.", what=title, batch=batch) for title, batch in batches.items()]
        yield bullets(told, manner)
    yield paragraph(STANDING, manner)


def hand_over_pdf(
    head: Letterhead, flat: Sequence[Row], measured: Sequence[MeasuredFlat], manner: Manner = ENGLISH
) -> bytes:
    """The hand-over sheet: each part's flatness as measured, or room to write it, beside what was reckoned."""
    return letter_pdf("Hand-over", head, hand_over_blocks(flat, measured, manner), manner)


def hand_over_blocks(
    flat: Sequence[Row], measured: Sequence[MeasuredFlat], manner: Manner = ENGLISH
) -> Iterator[Block]:
    """Flatness by piece, what was looked at, and the signatures beside it."""
    if flat:
        yield heading("Flatness", manner)
        yield bullets(_HOW, manner)
    for piece in dict.fromkeys(panel.piece for panel, _ in flat):
        yield heading(piece, manner)
        yield rows(flat_to_fill([row for row in flat if row[0].piece == piece], measured, manner))
    yield heading("Looked at together", manner)
    yield ticks(
        (
            "Sizes, gaps and direction as approved",
            "Facing without mark or bubble; colour and batch as the sample",
            "Edges and wood without chip, finish dry",
            "Doors and drawers run; tall pieces screwed to the wall",
            "Care sheet and a rest of each facing handed over",
            f"{manner.translate('Humidity and warmth of the room that day')}:",
            "Noted:",
        ),
        manner,
    )
    yield sign(("place and date", "the client", "the maker"), manner)


def flat_to_fill(flat: Sequence[Row], measured: Sequence[MeasuredFlat], manner: Manner = ENGLISH) -> Table:
    """A row for each copy of a part and each way it bends. Lengths in the reader's unit."""
    cells = [
        _cells(panel, bend, number, measured, manner)
        for panel, behaviour in flat
        for number in range(1, panel.count + 1)
        for bend in behaviour.bends
    ]
    headings = ("Part", "Way", ">Over", ">Reckoned in the year", ">Promised", ">Measured", "Holds")
    note = manner.translate(
        "Reckoned: the range that holds nine of ten such parts through the year. Measured once, on the day noted."
    )
    return table("", headings, cells, note, manner)


def _cells(
    panel: BuiltPanel, bend: Bend, number: int, measured: Sequence[MeasuredFlat], manner: Manner
) -> tuple[str, ...]:
    limit = over_the_part(bend, limit_for(panel, bend.direction))
    value = _measured(panel, bend.direction, number, measured)
    shown = manner.name(panel.name)
    name = Own(shown if panel.count == 1 else f"{shown} {number}")
    return (
        name if bend.direction is Direction.BOW else "",
        manner.translate(bend.direction.value),
        length(bend.gauge_mm, manner=manner),
        range_text(bend.worst, manner),
        f"± {length(limit, FIT_MM, manner)}",
        TO_FILL if value is None else length(value, FIT_MM, manner),
        DASH if value is None else manner.translate(verdict(value, limit, bend)),
    )


def verdict(value_mm: float, limit_mm: float, bend: Bend) -> str:
    """Whether a measured rise keeps what was promised, and whether it was to be expected."""
    if abs(value_mm) > limit_mm:
        return "over"
    high = bend.worst.high
    low = -high if bend.direction is Direction.TWIST else bend.worst.low
    return "yes" if min(low, 0.0) <= value_mm <= max(high, 0.0) else "yes, but outside the range"


def _measured(
    panel: BuiltPanel, direction: Direction, number: int, measured: Sequence[MeasuredFlat]
) -> float | None:
    """The last figure noted of this copy."""
    found = None
    for one in measured:
        if (one.piece, one.panel, one.number) == (panel.piece, panel.name, number):
            value = {
                Direction.BOW: one.bow_mm,
                Direction.CUP: one.cup_mm,
                Direction.TWIST: one.twist_mm,
            }[direction]
            found = value if value is not None else found
    return found
