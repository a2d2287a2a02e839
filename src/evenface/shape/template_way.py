"""A slot as wide as the guide along a way of lines: the template of a hollow cut with one cutter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, degrees, inf, tan

from evenface.words import said

from .cutter import Cutter
from .faults import Place, ShapeError, need
from .offset import offset, swept
from .ring import turn_at
from .segment import Segment
from .template import Guide, Template, guide_offset

_SMALL_RAD = 1e-6


@dataclass(frozen=True, slots=True)
class Bend:
    """Where a way bends: the angle it turns by, and how much further than asked the cutter gets inside it.

    On the inner side of a bend the guide can cut the corner: with an offset o the arris that was to be sharp
    comes out as an arc of radius o, o·(1/cos(turn/2) − 1) further in.
    """

    x_mm: float
    y_mm: float
    turn_deg: float
    further_mm: float


def bends_of(way: Sequence[Segment], offset_mm: float) -> tuple[Bend, ...]:
    """The bends of a way with what a guide ``offset_mm`` larger than its cutter, each side, makes of them."""
    found = []
    for before, after in pairwise(way):
        turn = abs(turn_at(before, after))
        if turn > _SMALL_RAD:
            further = offset_mm * (1 / max(cos(turn / 2), _SMALL_RAD) - 1)
            found.append(Bend(*after.first, degrees(turn), further))
    return tuple(found)


def template_along(way: Sequence[Segment], guide: Guide, cutter: Cutter) -> Template:
    """The slot that leads ``cutter`` along a way of lines, and what really comes out of it.

    Raises
    ShapeError
        ``bush`` (the cutter does not pass); ``too_tight`` with the place and the largest guide as its value
        (a piece of the way between two bends is too short for the guide to lie against both its sides);
        ``island`` (the way comes back to itself and the middle of the template would fall out).
    """
    distance = guide_offset(guide, cutter)
    need(
        distance > 0 or guide.kind == "bearing",
        "bush",
        said(
            "a cutter of {cutter:mm2} does not pass a bush of {bush:mm2}",
            cutter=cutter.diameter_mm,
            bush=guide.diameter_mm,
        ),
        distance,
    )
    need(
        distance >= 0,
        "bearing",
        said(
            "a slot along the way needs a bearing at least as wide as its cutter of {cutter:mm2}",
            cutter=cutter.diameter_mm,
        ),
        cutter.diameter_mm,
    )
    _need_long_pieces(way, guide)
    slot = swept(way, guide.diameter_mm / 2)
    need(
        not slot.holes,
        "island",
        "its way comes back to itself: the middle of the template would fall out",
    )
    return Template(offset(slot, -distance).only, slot, "inside", guide, cutter, distance)


def _need_long_pieces(way: Sequence[Segment], guide: Guide) -> None:
    """Between its bends each piece must be longer than what the guide cuts off at both: g·tan(turn/2) each."""
    turns = [0.0, *(abs(turn_at(a, b)) for a, b in pairwise(way)), 0.0]
    for number, piece in enumerate(way):
        used = sum(tan(turn / 2) for turn in turns[number : number + 2])  # turns of π give a huge figure
        most = 2 * piece.length / used if used > _SMALL_RAD else inf
        if guide.diameter_mm > most + 1e-9:
            message = said(
                "between its bends the way runs straight for {straight:mm2}, too short for a guide of {guide:mm2}: one "
                "of at most {most:mm2} would do",
                straight=piece.length, guide=guide.diameter_mm, most=most,
            )  # fmt: skip
            raise ShapeError("too_tight", message, Place(0, number, *piece.first), most)
