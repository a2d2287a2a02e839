"""Tables of a whole piece for the packet: joints, all that is worked into parts, gaps, rows of sizes, fittings.

Pieces whose parts stand nowhere have no such pages.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from evenface.construction import Construction, Gap, Worked
from evenface.construction.as_it_stands import (
    WAYS,
    AsItStands,
    centres_of,
    forward,
    standing,
    stretches_of,
)
from evenface.construction.placed import Axis, Fitting
from evenface.documents.display import DASH, FIT_MM, length, sentence
from evenface.documents.pictures import bored, part_ids
from evenface.documents.tables import Table, table
from evenface.result import Sketch
from evenface.words import ENGLISH, Manner, Said, say

WORKED_NOTE: Final = (
    "Measured as the part stands in the piece, from its lower, left or front edge: the words say which way the first "
    "and the second figure run. Holes by their middles. Without such words: from the left and the front edge, as the "
    "board lies on its drawing with the show face up; on an edge, along it and up through the thickness."
)
GAPS_NOTE: Final = (
    "As drawn, then the least and the most through the year; no figures where wood does not move it."
)
JOINTS_NOTE: Final = "Length: of the joint. Enters: how far the second part reaches into the first."
ROWS_NOTE: Final = (
    "Sizes in a row that together give a size of the piece, from the left, the front or the floor."
)
_DIRECTIONS: Final[Mapping[Axis, str]] = {
    Axis.RIGHT: "across",
    Axis.LEFT: "across",
    Axis.REAR: "in depth",
    Axis.FRONT: "in depth",
    Axis.UP: "upright",
    Axis.DOWN: "upright",
}


@dataclass(frozen=True, slots=True)
class WholePage:
    """The pages of one piece. number : of the piece, from 1. facts : name and text. tables : with rows only."""

    number: int
    heading: str
    facts: list[list[str]]
    tables: tuple[Table, ...]


def whole_pages(sketch: Sketch, manner: Manner = ENGLISH) -> Iterator[WholePage]:
    """The pages of every piece whose parts stand somewhere, in the order of the job."""
    for number, construction in enumerate(sketch.constructions, start=1):
        if construction.arranged.placements:
            ids = part_ids(sketch, number)
            made = (
                joints_table(construction, ids, manner),
                worked_table(construction, ids, manner),
                *gap_tables(construction, ids, manner),
                rows_table(construction, manner),
                fittings_table(construction, ids, manner),
            )
            yield WholePage(
                number,
                construction.piece.name,
                _facts(construction, number, manner),
                tuple(one for one in made if one.rows),
            )


def joints_table(construction: Construction, ids: Mapping[str, str], manner: Manner = ENGLISH) -> Table:
    """Every joint: its kind, the two parts, how many dowels or screws, and what it takes from or adds to sizes.

    Joints alike in all of that are one row, which says how many they are.
    """
    told = Counter(
        (
            manner.translate(one.kind),
            *(_part(name, ids, manner) for name in one.between),
            length(one.length_mm, manner=manner),
            length(one.enters_mm, FIT_MM, manner) if one.enters_mm else DASH,
            str(one.number) if one.number else DASH,
            manner.translate("free to move" if one.moves else "glued" if one.glued else "dry"),
            sentence(one.deduction, manner),
        )
        for one in construction.arranged.joints
    )
    rows = [(*row[:3], str(times), *row[3:]) for row, times in told.items()]
    headings = (
        "Joint", "First part", "Second part", ">Joints", ">Length", ">Enters", ">Number", "Held", "In the sizes",
    )  # fmt: skip
    return table("Joints", headings, rows, manner.translate(JOINTS_NOTE), manner)


def worked_table(construction: Construction, ids: Mapping[str, str], manner: Manner = ENGLISH) -> Table:
    """Everything worked into the parts, in the order of their numbers; the same on several faces is one row."""
    ordered = sorted(construction.arranged.worked, key=lambda one: _order(ids[one.part]))
    stand = {one.part: _as_drawn(construction, one.part) for one in ordered}
    faces: dict[tuple[str, ...], list[str]] = {}
    for one in ordered:
        deep = length(one.depth_mm, FIT_MM, manner) if one.depth_mm else DASH
        stands = stand[one.part]
        what, place = manner.translate(one.kind), _where(one, stands, manner)
        same = (ids[one.part], one.part, what, place, deep, sentence(one.said, manner))
        faces.setdefault(same, []).append(manner.translate(stands.word(one.face) if stands else one.face))
    rows = [(*same[:3], ", ".join(dict.fromkeys(found)), *same[3:]) for same, found in faces.items()]
    headings = (">No.", "Part", "What", "Face", "From – to", ">Deep", "How")
    return table("Worked into the parts", headings, rows, manner.translate(WORKED_NOTE), manner)


def gap_tables(
    construction: Construction, ids: Mapping[str, str], manner: Manner = ENGLISH
) -> Iterator[Table]:
    """Air left on purpose, one table for each reason."""
    groups: dict[Said, list[Gap]] = {}
    for gap in construction.arranged.gaps:
        groups.setdefault(gap.why, []).append(gap)
    headings = ("Gap", "Way", "Between", ">Drawn", ">Least", ">Most")
    for why, gaps in groups.items():
        rows = [
            (
                gap.name,
                manner.translate(_DIRECTIONS[gap.axis]),
                _between(gap, ids, manner),
                *(_fit(size, manner) for size in (gap.mm, gap.least_mm, gap.most_mm)),
            )
            for gap in gaps
        ]
        note = f"{sentence(why, manner)} {manner.translate(GAPS_NOTE)}".strip()
        yield table("Gaps", headings, rows, note, manner)


def rows_table(construction: Construction, manner: Manner = ENGLISH) -> Table:
    """Every row of sizes with what it adds up to, those too fine for the drawings as well."""
    rows = [
        (
            one.name,
            " + ".join(
                f"{manner.name(name)} {length(size, FIT_MM, manner)}" for name, size in one.members if size
            ),
            length(one.total_mm, FIT_MM, manner),
        )
        for one in construction.arranged.chains
        if len(one.members) > 1
    ]
    headings = ("Row", "Sizes", ">Together")
    return table("Rows of sizes", headings, rows, manner.translate(ROWS_NOTE), manner)


def fittings_table(construction: Construction, ids: Mapping[str, str], manner: Manner = ENGLISH) -> Table:
    """What is bought and screwed on or glued in, for one piece; the same for the same reason is one row."""
    alike: dict[tuple[str, Said, Said], list[Fitting]] = {}
    for one in construction.arranged.fittings:
        alike.setdefault((one.name, one.size, one.why), []).append(one)
    rows = [
        (
            str(sum(one.count for one in found)),
            manner.translate(name),
            say(size, manner),
            ", ".join(_sorted_ids([part for one in found for part in one.parts], ids)),
            sentence(why, manner),
        )
        for (name, size, why), found in alike.items()
    ]
    return table("Fittings", (">Number", "Fitting", "Size", "In parts", "Why"), rows, manner=manner)


def _facts(construction: Construction, number: int, manner: Manner) -> list[list[str]]:
    word, size = manner.translate, construction.arranged.size_mm
    facts = [[word("number"), str(number)], [word("count"), str(construction.piece.count)]]
    if size is not None:
        wide, deep, high = (length(one, FIT_MM, manner) for one in size)
        facts.append([word("width × depth × height"), f"{wide} × {deep} × {high} {word(manner.system)}"])
    return facts


def _part(name: str, ids: Mapping[str, str], manner: Manner) -> str:
    return f"{ids[name]} {manner.name(name)}"


def _order(part_id: str) -> tuple[int, ...]:
    return tuple(int(number) for number in part_id.split("."))


def _sorted_ids(names: Sequence[str], ids: Mapping[str, str]) -> list[str]:
    return sorted({ids[name] for name in names if name in ids}, key=_order)


def _between(gap: Gap, ids: Mapping[str, str], manner: Manner) -> str:
    """The two parts beside it, a part that is named twice once."""
    names = dict.fromkeys(gap.between)
    return ", ".join(_part(name, ids, manner) if name in ids else manner.translate(name) for name in names)


def _fit(size_mm: float | None, manner: Manner) -> str:
    return DASH if size_mm is None else length(size_mm, FIT_MM, manner)


def _as_drawn(construction: Construction, name: str) -> AsItStands | None:
    """The part as it stands; None for a board that is drawn lying, with its joints."""
    lying = any(one.name == name for one in construction.boards) and not bored(construction, name)
    return None if lying else standing(construction, name)


def _where(one: Worked, stands: AsItStands | None, manner: Manner) -> str:
    """Middle points of holes, or the rectangle; a dash where it runs along the whole edge."""
    if not one.centres and one.x1_mm <= one.x0_mm and one.y1_mm <= one.y0_mm:
        return DASH
    centres = centres_of(stands, one) if stands else list(one.centres)
    across = stretches_of(stands, one) if stands else ((one.x0_mm, one.x1_mm), (one.y0_mm, one.y1_mm))
    told = (
        "; ".join(" / ".join(length(c, FIT_MM, manner) for c in centre) for centre in centres)
        if centres
        else " × ".join(_from_to(a, b, manner) for a, b in across)
    )
    if stands is None:
        return told
    ways = " / ".join(manner.translate(WAYS[forward(axis)]) for axis in stands.ways(one.face))
    return f"{ways}: {told}"


def _from_to(low: float, high: float, manner: Manner) -> str:
    first, last = length(low, FIT_MM, manner), length(high, FIT_MM, manner)
    return first if first == last else f"{first}{DASH}{last}"
