"""Pressure turned into force, clamps and the bow of a caul.

Forces in N, lengths in mm, pressure and moduli in N/mm². Force of a bar clamp: READ 1.9 kN each in a
published example (nine clamps for 161 cm² at 1.03 N/mm²); spacing on edging: READ every 150 mm. Spread of one
clamp, 45° through caul and edging: length / (jaw + 2 × (caul + edging width)), trade reference.
"""

import math
from dataclasses import dataclass
from typing import Final

from evenface.evidence import Status, Value
from evenface.materials.rules import rule

CLAMP_N: Final = Value(
    1900.0, 1900.0, 3000.0, "N", Status.READ, "a magazine's example: about 1.9 kN for each bar clamp"
)
CAUL_MM: Final = (50.0, 100.0)
"""Width and height of the caul reckoned with; the height bends."""
_CAUL_LENGTH_MM: Final = 600.0
JAW_MM: Final = 35.0
BATTEN_MM: Final = 40.0
"""COMMON PRACTICE: jaw of a bar clamp, and depth of the straight batten under clamps set all along."""
PAIR_MM: Final = 50.0
"""A pair of cauls across a face takes up so much; closer than this they cannot stand."""


@dataclass(frozen=True, slots=True)
class Clamping:
    """How a strip is clamped.

    count, spacing_mm : clamps along it, each with the usual force. decided_by : "force", "spacing" or "spread".
    caul_span_mm : a caul clamped only at its ends, at most 600 mm; crown_mm : the bow it needs to press evenly;
    caul_end_n : what each of its two clamps must hold; caul_reaches_mpa : what two usual clamps give there.
    """

    force_n: float
    count: int
    spacing_mm: float
    decided_by: str
    caul_span_mm: float
    crown_mm: float
    caul_end_n: float
    caul_reaches_mpa: float = 0.0


def force_n(pressure_mpa: float, area_mm2: float) -> float:
    """F = p × A."""
    return pressure_mpa * area_mm2


def crown_mm(
    load_n_per_mm: float, span_mm: float, modulus_mpa: float, width_mm: float, height_mm: float
) -> float:
    """Bow a caul needs so that it lies straight under an even load when clamped at its ends.

    5 q l⁴ / (384 E I) with I = b h³ / 12: the sag of a beam held at its ends, of one section all along.
    """
    inertia = width_mm * height_mm**3 / 12.0
    return 5.0 * load_n_per_mm * span_mm**4 / (384.0 * modulus_mpa * inertia)


def by_spread(length_mm: float, wood_mm: float, batten_mm: float = BATTEN_MM) -> int:
    """Clamps so that their pressure meets: length / (jaw + 2 × (batten + edging width)), rounded up."""
    return math.ceil(length_mm / (JAW_MM + 2.0 * (batten_mm + wood_mm)) - 1e-9)


def clamps_for(force: float) -> int:
    """How many usual clamps give this force, at least one."""
    return max(1, math.ceil(force / CLAMP_N.nominal - 1e-9))


def clamp_strip(
    length_mm: float, height_mm: float, pressure_mpa: float, caul_mpa: float, wood_mm: float | None = None
) -> Clamping:
    """Clamps for a strip of edging glued to an edge; `caul_mpa` is the modulus of the caul's wood.

    wood_mm : width of the edging, through which the clamps' pressure spreads; None leaves that out.
    Raises ValueError for a size or pressure that is not above zero.
    """
    if min(length_mm, height_mm, pressure_mpa, caul_mpa) <= 0.0:
        raise ValueError(
            f"expected sizes, pressure and modulus above 0, was given {length_mm}, {height_mm}, "
            f"{pressure_mpa}, {caul_mpa}"
        )
    force = force_n(pressure_mpa, length_mm * height_mm)
    counts = {
        "spacing": math.ceil(length_mm / rule("edging-clamp-spacing").nominal),
        "force": clamps_for(force),
        "spread": 0 if wood_mm is None else by_spread(length_mm, wood_mm),
    }
    count = max(*counts.values(), 2)
    load = pressure_mpa * height_mm
    span = min(length_mm, _CAUL_LENGTH_MM)
    return Clamping(
        force_n=force,
        count=count,
        spacing_mm=length_mm / count,
        decided_by=max(counts, key=lambda reason: counts[reason]),
        caul_span_mm=span,
        crown_mm=crown_mm(load, span, caul_mpa, *CAUL_MM),
        caul_end_n=load * span / 2.0,
        caul_reaches_mpa=2.0 * CLAMP_N.nominal / (span * height_mm),
    )


@dataclass(frozen=True, slots=True)
class CaulPairs:
    """Cauls in pairs across a whole face, a clamp at each end of a pair. crown_mm : of each caul."""

    pairs: int
    every_mm: float
    crown_mm: float


def caul_pairs(length_mm: float, width_mm: float, pressure_mpa: float, caul_mpa: float) -> CaulPairs | None:
    """Pairs along the length, each over the width, that give this pressure; None where they find no room.

    Two clamps of force F on a pair carry p × W × s, so s = 2 F / (p W).
    """
    most = 2.0 * CLAMP_N.nominal / (pressure_mpa * width_mm)
    pairs = max(2, math.ceil(length_mm / most - 1e-9))
    every = length_mm / pairs
    if every < PAIR_MM:
        return None
    return CaulPairs(pairs, every, crown_mm(pressure_mpa * every, width_mm, caul_mpa, *CAUL_MM))
