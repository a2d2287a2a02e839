"""The way in: whether the piece, its top and its base go through doors and round a corner, turned as they may be.

A door: of the three sizes two pass through it, straight or tilted (a rectangle in a rectangle, Carver 1957). Moved
lengthwise, the third does not matter. A corner: the longest rectangle of a given width that turns from one passage
into the other; on end or tilted up under the ceiling it is shorter in plan.
"""

from collections.abc import Iterator
from itertools import permutations
from math import hypot
from typing import Final

import numpy as np

from evenface.construction.kinds.top_on_base.records import TopOnBase
from evenface.construction.kinds.top_on_base.sizes import BaseSizes
from evenface.construction.records import Construction
from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.words import said

HANDS_MM: Final = 20.0
"""COMMON PRACTICE: air for hands and blankets, over both sides together."""
type Box = tuple[float, float, float]


def passes_door(box: Box, width_mm: float, height_mm: float) -> bool:
    """Whether a box goes through an opening, straight or tilted in it, whichever way it is carried."""
    return any(_in_opening(a, b, width_mm, height_mm) for a, b, _ in permutations(box))


def _in_opening(a: float, b: float, w: float, h: float) -> bool:
    """A rectangle in a rectangle. J. H. Carver (1957): it fits if p ≤ a and q ≤ b, or p > a, q ≤ b and
    ((a + b)/(p + q))² + ((a − b)/(p − q))² ≥ 2, for a ≥ b and p ≥ q."""
    p, q = max(a, b), min(a, b)
    long, short = max(w, h), min(w, h)
    if p <= long and q <= short:
        return True
    if p <= long or q > short or p == q:
        return False
    return bool(((long + short) / (p + q)) ** 2 + ((long - short) / (p - q)) ** 2 >= 2.0)


def longest_round(width_mm: float, first_mm: float, second_mm: float) -> float:
    """Longest rectangle of a width that turns from one passage into another at a right angle; 0 if none. [mm]

    With its outer side along a line that touches both outer walls at angle t, its inner side must clear the inner
    corner: L = (a·cos t + b·sin t − w) / (sin t·cos t), least over t.
    """
    if width_mm >= min(first_mm, second_mm):
        return 0.0
    t = np.linspace(0.5, 89.5, 1781) * np.pi / 180.0
    lengths = (first_mm * np.cos(t) + second_mm * np.sin(t) - width_mm) / (np.sin(t) * np.cos(t))
    return float(np.min(lengths))


def turns_corner(box: Box, first_mm: float, second_mm: float, ceiling_mm: float) -> bool:
    """Whether a box turns the corner: lying, on edge, on end, or with its long side tilted up."""
    for long, wide, high in permutations(box):
        for length in _in_plan(long, high, ceiling_mm):
            a, b = max(length, wide), min(length, wide)
            if a <= longest_round(b, first_mm, second_mm):
                return True
    return False


def _in_plan(long: float, high: float, ceiling: float) -> Iterator[float]:
    """Length in plan as it stands, and tilted up as far as the ceiling lets it."""
    if high <= ceiling:
        yield long
    t = np.linspace(0.0, 90.0, 361) * np.pi / 180.0
    free = long * np.sin(t) + high * np.cos(t) <= ceiling
    if np.any(free):
        yield float(np.min((long * np.cos(t) + high * np.sin(t))[free]))


def way_in(piece: TopOnBase, construction: Construction, sizes: BaseSizes) -> Iterator[Finding]:
    """Findings `way.door`, `way.corner`: graver where even the top or the base alone does not pass."""
    width, height, depth = piece.size_mm
    base: Box = (sizes.x[1] - sizes.x[0], sizes.y[1] - sizes.y[0], sizes.legs_mm)
    boxes: dict[str, Box] = {
        "piece": (width, depth, height),
        "top": (width, depth, sizes.top_mm),
        "base": base,
    }
    if piece.legs is None:
        del boxes["base"]
    way = piece.way
    for number, (wide, high) in enumerate(way.doors):
        stuck = [
            name for name, box in boxes.items() if not passes_door(box, wide - HANDS_MM, high - HANDS_MM)
        ]
        if stuck:
            yield _stuck(
                piece,
                "way.door",
                f"{piece.origin}.way.doors[{number}]",
                stuck,
                (wide, high),
                boxes[stuck[-1]],
            )
    if way.corner is not None:
        first, second = (one - HANDS_MM for one in way.corner)
        stuck = [
            name
            for name, box in boxes.items()
            if not turns_corner(box, first, second, way.ceiling - HANDS_MM)
        ]
        if stuck:
            yield _stuck(
                piece, "way.corner", f"{piece.origin}.way.corner", stuck, way.corner, boxes[stuck[-1]]
            )


def _stuck(
    piece: TopOnBase, code: str, origin: str, stuck: list[str], opening: tuple[float, float], box: Box
) -> Finding:
    apart = stuck == ["piece"]
    small = sorted(box)
    where = said(
        "a door {wide:mm} × {high:mm}" if code == "way.door" else "the corner of passages {wide:mm} and {high:mm} wide",
        wide=opening[0], high=opening[1],
    )  # fmt: skip
    what = {"piece": "The whole piece", "top": "Even the top alone", "base": "Even the base alone"}[stuck[-1]]
    message = said(
        "{what:word} does not go through {where}, however it is turned.", what=what, where=where
    ) if code == "way.door" else said(
        "{what:word} does not turn round {where}, lying, on end or tilted.", what=what, where=where
    )  # fmt: skip
    mend = (
        Remedy("way.apart", said("Carry top and base in apart and screw them together in the room: they pass."))
        if apart
        else Remedy("way.parts", said("Make it in two parts, or lift it in another way; measure the way again."))
    )  # fmt: skip
    return Finding(
        code=code, severity=Severity.WEIGH if apart else Severity.STOP, origin=origin, at=stuck[-1],
        value=certain(hypot(small[0], small[1]) if code == "way.corner" else small[1]), limit=min(opening), unit="mm",
        message=message, why=said("{hands:mm} is left for hands and blankets.", hands=HANDS_MM),
        source="own reckoning: a box through an opening, tilted as far as it helps", weakest=Status.DERIVED,
        remedies=(mend,),
    )  # fmt: skip
