"""From curvature to millimetres: rise over a chord, exact arcs, and the fourth corner of a twisted panel."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats


def bow_mm(curvature_per_mm: ArrayLike, span_mm: ArrayLike) -> Floats:
    """Return κ·L²/8: height of the middle over the chord for small rotation."""
    curvature, span = floats(curvature_per_mm, "curvature_per_mm"), floats(span_mm, "span_mm")
    return np.asarray(curvature * span**2 / 8.0)


def arc_rise_mm(curvature_per_mm: float, length_mm: float, *, along_arc: bool = False) -> float:
    """Return the exact rise of a circular arc over its chord, from the chord or from the arc's length."""
    if curvature_per_mm == 0.0:
        return 0.0
    radius = 1.0 / abs(curvature_per_mm)
    half = length_mm / (2.0 * radius)
    if not along_arc and half > 1.0:
        raise ValueError(f"length_mm: expected a chord of at most {2 * radius:g}, got {length_mm:g}")
    angle = half if along_arc else float(np.arcsin(half))
    return float(np.copysign(2.0 * radius * np.sin(angle / 2.0) ** 2, curvature_per_mm))


def fourth_corner_mm(twist_per_mm: ArrayLike, length_mm: float, width_mm: float) -> Floats:
    """Return the distance of the fourth corner from the plane of the other three: κxy·L·W/2, signed.

    Bow and cup drop out of it. Negative: the corner at (L, W) lies low when the other three are level, as
    w = −½κxy·x·y; the sign returned is that of κxy. Other definitions differ by factors of 2 and 4.
    """
    return np.asarray(floats(twist_per_mm, "twist_per_mm") * length_mm * width_mm / 2.0)
