"""A rounded outer corner against a square carrier corner behind edging of unequal widths.

``R`` is the outer radius, ``w1`` and ``w2`` the edging widths beside the corner, ``m`` the wood to be left
(the profile's depth at the carrier's top plus a reserve), all in mm. The carrier's corner lies
√(max(R − w1, 0)² + max(R − w2, 0)²) from the centre of the rounding and must stay within R − m of it.
"""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, pi, sin, sqrt, tan

from .faults import need

_SHARE = 1 - 1 / sqrt(2)


def corner_reserve(radius_mm: float, width1_mm: float, width2_mm: float) -> float:
    """Least wood between a square carrier corner and the rounded outline, straights included, mm.

    Negative where the carrier pokes out: R 60 behind 14 mm gives −5.05. An edging wider than R counts as R
    at the corner, so a 40 mm edging beside a 12 mm one round R 20 leaves 12.
    """
    R, w1, w2 = radius_mm, width1_mm, width2_mm
    need(
        R >= 0 and w1 >= 0 and w2 >= 0,
        "negative",
        f"radius and widths must be 0 or more, got {R}, {w1}, {w2}",
    )
    reach = hypot(max(R - w1, 0.0), max(R - w2, 0.0))
    return R - reach if reach > 0 else min(w1, w2)


def smallest_width(radius_mm: float, wood_mm: float, other_width_mm: float | None = None) -> float:
    """The smallest edging width that leaves ``wood_mm`` at a corner of this radius.

    Both edgings alike unless ``other_width_mm`` fixes the neighbour's. Equal: R(1 − 1/√2) + m/√2, never
    below m. R 60 leaving 3.47 needs 20.03.

    Raises
    ShapeError
        ``too_narrow`` when the neighbour alone leaves too little, whatever this width.
    """
    R, m = radius_mm, wood_mm
    if other_width_mm is None:
        return max(m, R * _SHARE + m / sqrt(2)) if m < R else m
    other = other_width_mm
    need(
        other >= m,
        "too_narrow",
        f"the neighbour's {other} mm leaves less than the {m} mm wanted anywhere",
        other,
    )
    if other >= R:
        return m
    return max(m, R - sqrt((R - m) ** 2 - (R - other) ** 2))


def largest_radius(width1_mm: float, wood_mm: float, width2_mm: float | None = None) -> float:
    """The largest outer radius two edging widths carry with ``wood_mm`` left.

    Equal widths: (√2·w − m)/(√2 − 1); 14 mm leaving 3.47 carries R 39.4. Unequal: the larger root of
    (R − w1)² + (R − w2)² = (R − m)².

    Raises
    ShapeError
        ``too_narrow`` when a width is below the wood wanted even on the straights.
    """
    w1, m = width1_mm, wood_mm
    w2 = w1 if width2_mm is None else width2_mm
    need(
        min(w1, w2) >= m,
        "too_narrow",
        f"an edging of {min(w1, w2)} mm cannot leave {m} mm of wood",
        min(w1, w2),
    )
    half = w1 + w2 - m  # R² − 2·half·R + (w1² + w2² − m²) = 0
    root = half + sqrt(max(half * half - (w1 * w1 + w2 * w2 - m * m), 0.0))
    # below the wider width only the narrower one counts, and it leaves enough by itself
    return max(root, w1, w2)


def clip_legs(radius_mm: float, width1_mm: float, width2_mm: float, wood_mm: float) -> tuple[float, float]:
    """Least legs to cut off a square carrier corner so that ``wood_mm`` is left, along x and along y.

    The corner stands at (w1, w2), ``width1_mm`` from the side and ``width2_mm`` from the front. The leg along
    x is R − w1 − √((R − m)² − (R − w2)²), never below 0. Equal widths give one figure: R 60, w 14, m 3.47
    gives 13.1.

    Raises
    ShapeError
        ``too_narrow`` when a width is below the wood wanted.
    """
    R, w1, w2, m = radius_mm, width1_mm, width2_mm, wood_mm
    need(
        min(w1, w2) >= m,
        "too_narrow",
        f"an edging of {min(w1, w2)} mm cannot leave {m} mm of wood",
        min(w1, w2),
    )
    if corner_reserve(R, w1, w2) >= m:
        return 0.0, 0.0
    along1 = R - w1 - sqrt((R - m) ** 2 - max(R - w2, 0.0) ** 2)
    along2 = R - w2 - sqrt((R - m) ** 2 - max(R - w1, 0.0) ** 2)
    return max(along1, 0.0), max(along2, 0.0)


def mitre_angles(width1_mm: float, width2_mm: float, corner_rad: float = pi / 2) -> tuple[float, float]:
    """Angles (degrees) between each edging's length and the joint, for unequal widths at any corner.

    tan α1 = w1·sin β / (w2 + w1·cos β); at a right angle atan(w1/w2): 14 beside 40 gives 19.3° and 70.7°.
    The two add up to the corner's own angle.
    """
    w1, w2 = width1_mm, width2_mm
    need(w1 > 0 and w2 > 0, "negative", f"mitred widths must be above 0, got {w1} and {w2}")
    need(
        0 < corner_rad < pi, "angle", f"a corner must lie between 0 and 180°, got {degrees(corner_rad):.1f}°"
    )
    first = atan2(w1 * sin(corner_rad), w2 + w1 * cos(corner_rad))
    return degrees(first), degrees(corner_rad - first)


def mitred_inside_length(
    length_mm: float, width_mm: float, neighbours_mm: tuple[float, float], corner_rad: float = pi / 2
) -> float:
    """Inside length of an edging mitred at both ends; at right angles less the neighbours' widths."""
    inside = length_mm
    for neighbour in neighbours_mm:
        angle, _ = mitre_angles(width_mm, neighbour, corner_rad)
        inside -= width_mm / tan(angle * pi / 180)
    return inside
