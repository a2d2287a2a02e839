"""Pressure turned into force, clamps and the bow of a caul.

Forces in N, lengths in mm, pressure and moduli in N/mm². Force of a bar clamp: READ 1.9 kN each in a
published example (nine clamps for 161 cm² at 1.03 N/mm²); spacing on edging: READ every 150 mm.
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


@dataclass(frozen=True, slots=True)
class Clamping:
    """How a strip is clamped.

    count, spacing_mm : clamps along it, each with the usual force. decided_by : "force" or "spacing".
    caul_span_mm : a caul clamped only at its ends, at most 600 mm; crown_mm : the bow it needs to press evenly;
    caul_end_n : what each of its two clamps must hold.
    """

    force_n: float
    count: int
    spacing_mm: float
    decided_by: str
    caul_span_mm: float
    crown_mm: float
    caul_end_n: float


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


def clamp_strip(length_mm: float, height_mm: float, pressure_mpa: float, caul_mpa: float) -> Clamping:
    """Clamps for a strip of edging glued to an edge; `caul_mpa` is the modulus of the caul's wood.

    Raises ValueError for a size or pressure that is not above zero.
    """
    if min(length_mm, height_mm, pressure_mpa, caul_mpa) <= 0.0:
        raise ValueError(
            f"expected sizes, pressure and modulus above 0, was given {length_mm}, {height_mm}, "
            f"{pressure_mpa}, {caul_mpa}"
        )
    force = force_n(pressure_mpa, length_mm * height_mm)
    by_force = math.ceil(force / CLAMP_N.nominal)
    by_spacing = math.ceil(length_mm / rule("edging-clamp-spacing").nominal)
    count = max(by_force, by_spacing, 2)
    load = pressure_mpa * height_mm
    span = min(length_mm, _CAUL_LENGTH_MM)
    return Clamping(
        force_n=force,
        count=count,
        spacing_mm=length_mm / count,
        decided_by="force" if by_force > by_spacing else "spacing",
        caul_span_mm=span,
        crown_mm=crown_mm(load, span, caul_mpa, *CAUL_MM),
        caul_end_n=load * span / 2.0,
    )
