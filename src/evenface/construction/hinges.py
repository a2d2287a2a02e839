"""Hinges of a door: how many, where, and where the hinge cup comes to lie against the edging."""

from dataclasses import dataclass, replace
from math import hypot
from typing import Final

from evenface.materials.rules import hinge_count, hinge_rows, rule

CUP: Final = rule("hinge-cup-diameter")
LEAST_BORE: Final = rule("hinge-cup-edge-least")
MOST_BORE: Final = rule("hinge-cup-edge-most")
CUP_DEPTH_MM: Final = 12.5
"""COMMON PRACTICE: depth of the hole for a cup of 35 mm; the maker's own figure goes before it."""
CUP_FLOOR_MM: Final = 2.5
"""COMMON PRACTICE: what must be left under a cup."""
USUAL_BORE_MM: Final = 5.0
FIRST_MM: Final = 100.0
"""COMMON PRACTICE: middle of the outer hinges from the ends of the door."""
OVERLAY_AIR: Final = ((16.0, 0.5), (18.0, 0.8), (20.0, 1.4), (22.0, 2.4), (24.0, 3.9))
"""From memory of hinge makers' charts: thickness of an overlay door, and the air it needs beside its hinge edge."""
BEFORE_MM, BEHIND_MM = 1.0, 3.0
"""Own reckoning: board left between the edging joint and the cup, before it and behind it."""


@dataclass(frozen=True, slots=True)
class Hanging:
    """How a door is hung.

    count : of hinges; in_chart : whether the chart reaches so far. at_mm : their middles from the lower end.
    bore_mm : from the door's edge to the cup. cut_mm : how far the cup reaches over the edging joint, 0 when it
    is clear.
    """

    count: int
    in_chart: bool
    at_mm: tuple[float, ...]
    bore_mm: float
    cut_mm: float
    mass_kg: float

    @property
    def centre_mm(self) -> float:
        """Middle of the cup from the door's edge."""
        return self.bore_mm + CUP.nominal / 2


def hang(height_mm: float, mass_kg: float, edging_mm: float, bore_mm: float | None = None) -> Hanging:
    """Hinges for a door of that height and mass, with so wide an edging on its hinge side.

    bore_mm : the maker's own distance of the cup from the edge; None chooses the one that clears the joint.
    Beyond the chart one hinge more than its last row is counted, for the drawing only.
    """
    found = hinge_count(height_mm, mass_kg)
    count = found if found is not None else hinge_rows()[-1].count + 1
    bore = bore_mm if bore_mm is not None else _clear_bore(edging_mm)
    first = min(FIRST_MM, height_mm / 4)
    apart = (height_mm - 2 * first) / (count - 1)
    return Hanging(
        count,
        found is not None,
        tuple(first + apart * number for number in range(count)),
        bore,
        _cut(edging_mm, bore),
        mass_kg,
    )


def further_in(hung: Hanging, by_mm: float) -> Hanging:
    """The same hinges moved off those of the next door: the outer ones inwards, those between upwards, by so much.

    Of a door too low for that they stay where they are.
    """
    lowest, *between, highest = hung.at_mm
    if highest - lowest < 3 * by_mm:
        return hung
    return replace(hung, at_mm=(lowest + by_mm, *(at + by_mm for at in between), highest - by_mm))


def _clear_bore(edging_mm: float) -> float:
    """The usual distance, or one that leaves board before the cup where the edging is narrow enough."""
    if edging_mm + BEFORE_MM <= USUAL_BORE_MM:
        return USUAL_BORE_MM
    if edging_mm + BEFORE_MM <= MOST_BORE.nominal:
        return edging_mm + BEFORE_MM
    if edging_mm >= USUAL_BORE_MM + CUP.nominal + BEHIND_MM:
        return USUAL_BORE_MM
    return LEAST_BORE.nominal if edging_mm >= LEAST_BORE.nominal + CUP.nominal + BEHIND_MM else USUAL_BORE_MM


def _cut(edging_mm: float, bore_mm: float) -> float:
    """How far the cup, with the board it needs round it, lies over the joint between edging and board."""
    near, far = bore_mm - BEFORE_MM, bore_mm + CUP.nominal + BEHIND_MM
    if edging_mm <= near + 1e-9 or edging_mm >= far - 1e-9:
        return 0.0
    return min(edging_mm - near, far - edging_mm)


def corner_needs_mm(width_mm: float, thickness_mm: float) -> float:
    """Air an inset door needs on its closing side, so that its rear corner passes: √(w² + t²) − w.

    Turned about the front arris of its hinge side; a hinge that carries the door outwards needs less.
    """
    return hypot(width_mm, thickness_mm) - width_mm


def overlay_needs_mm(thickness_mm: float) -> float:
    """Air an overlay door on cup hinges needs beside its hinge edge while it opens, cup about 5 mm from the edge.

    Between the thicknesses of the table a straight line; beyond them its last two go on. Rounding the arris
    needs less.
    """
    pairs = OVERLAY_AIR if thickness_mm > OVERLAY_AIR[0][0] else OVERLAY_AIR[:2]
    upper = next((n for n, (thick, _) in enumerate(pairs) if thick >= thickness_mm), len(pairs) - 1)
    (t0, a0), (t1, a1) = pairs[max(upper - 1, 0)], pairs[max(upper, 1)]
    return max(a0 + (a1 - a0) * (thickness_mm - t0) / (t1 - t0), 0.0)
