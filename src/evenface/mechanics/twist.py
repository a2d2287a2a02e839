"""Twist of plywood from plies that do not lie quite square: only a band, never a nominal."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats
from evenface.mechanics.laminate import Plies, deform, even_strain, free_resultants, laminate
from evenface.mechanics.rise import fourth_corner_mm
from evenface.mechanics.sampling import percentiles


def sample_twist(
    plies: Plies,
    free_strain: ArrayLike,
    angle_deviation_deg: ArrayLike,
    *,
    draws: int = 500,
    seed: int = 1,
) -> Floats:
    """Return κxy in 1/mm, (draws,), of a plywood whose ply angles scatter independently about the nominal.

    `free_strain` (layers, 2): each ply's own free strains (ε1, ε2) for the change of moisture;
    `angle_deviation_deg`: standard deviation, one number or one per ply. There is no nominal twist: the
    draws lie evenly about zero, and only their spread means anything.
    """
    layers = plies.thickness_mm.shape[-1]
    scatter = np.broadcast_to(floats(angle_deviation_deg, "angle_deviation_deg"), (layers,))
    z = np.random.default_rng(seed).standard_normal((draws, layers))
    turned = replace(
        plies,
        **{name: np.broadcast_to(getattr(plies, name), (draws, layers)) for name in _PLY_FIELDS},
        angle_deg=plies.angle_deg + scatter * z,
    )
    built = laminate(turned)
    strain = np.broadcast_to(floats(free_strain, "free_strain"), (draws, layers, 2))
    N, M = free_resultants(built, *even_strain(strain, turned.thickness_mm))
    return np.asarray(deform(built, N, M).curvature_per_mm[:, 2])


_PLY_FIELDS = ("thickness_mm", "E1_MPa", "E2_MPa", "nu12", "G12_MPa")


def twist_band_mm(
    twist_per_mm: Floats, length_mm: float, width_mm: float, percent: Sequence[float] = (50.0, 95.0)
) -> Floats:
    """Return percentiles of the fourth corner's distance from the plane of the other three, mm, unsigned."""
    corner = np.abs(fourth_corner_mm(twist_per_mm, length_mm, width_mm))
    return percentiles(corner, np.asarray(percent, dtype=np.float64))
