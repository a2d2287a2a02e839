"""How solid wood moves: across the grain, between its rings, and where two pieces meet in a mitre.

Moisture contents are fractions of dry mass; movement coefficients are strain per unit of moisture content
(a handbook's .00274 per 1 % is 0.274 here). Swelling is positive. All arguments broadcast.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats

FIBRE_SATURATION: Final = 0.30
"""Moisture content above which wood no longer swells; the handbook's default where the species is unknown."""


# --- movement across the grain --------------------------------------------------------------------


def movement(
    size_mm: ArrayLike, coefficient: ArrayLike, moist_from: ArrayLike, moist_to: ArrayLike
) -> Floats:
    """Change of a size by the linear equation ΔD = D·C·(M2 − M1) [mm].

    Source: Wood Handbook (USDA FPL-GTR-282) Eq. 13-1. For 6 to 14 % moisture, the size taken near 10 %.
    """
    change = floats(moist_to, "moist_to") - floats(moist_from, "moist_from")
    return np.asarray(floats(size_mm, "size_mm") * floats(coefficient, "coefficient") * change)


def movement_from_shrinkage(
    size_mm: ArrayLike,
    shrinkage: ArrayLike,
    moist_from: ArrayLike,
    moist_to: ArrayLike,
    fibre_saturation: ArrayLike = FIBRE_SATURATION,
) -> Floats:
    """Change of a size measured at `moist_from`, from the shrinkage green to dry (a fraction) [mm].

    ΔD = D·(M2 − M1)/(Mf/S − Mf + M1): Wood Handbook Eq. 13-2 (3000/S − 30 + M1 with percents), for any
    range; moisture above fibre saturation counts as fibre saturation.
    """
    full, saturation = floats(shrinkage, "shrinkage"), floats(fibre_saturation, "fibre_saturation")
    before = np.minimum(floats(moist_from, "moist_from"), saturation)
    after = np.minimum(floats(moist_to, "moist_to"), saturation)
    return np.asarray(
        floats(size_mm, "size_mm") * (after - before) / (saturation / full - saturation + before)
    )


def coefficient_from_shrinkage(
    shrinkage: ArrayLike, fibre_saturation: ArrayLike = FIBRE_SATURATION
) -> Floats:
    """Movement coefficient from the shrinkage green to dry: C = S/(Mf·(1 − (2/3)·S)) [-].

    Follows from Eq. 13-2 with the size at a third of fibre saturation (10 %) as the base; it gives 39 of 44
    printed coefficients to the fifth decimal.
    """
    full = floats(shrinkage, "shrinkage")
    return np.asarray(full / (floats(fibre_saturation, "fibre_saturation") * (1.0 - 2.0 / 3.0 * full)))


def shrinkage_at(
    shrinkage: ArrayLike, moisture: ArrayLike, fibre_saturation: ArrayLike = FIBRE_SATURATION
) -> Floats:
    """Shrinkage from green to `moisture`: S·(1 − M/Mf), nothing above fibre saturation (Eq. 4-9) [-]."""
    dried = 1.0 - floats(moisture, "moisture") / floats(fibre_saturation, "fibre_saturation")
    return np.asarray(floats(shrinkage, "shrinkage") * np.maximum(dried, 0.0))


# --- what the cut of the board does ---------------------------------------------------------------


def across_the_width(tangential: ArrayLike, radial: ArrayLike, ring_angle_deg: ArrayLike) -> Floats:
    """A strain or coefficient across the width of a board: T·cos² + R·sin² of the rings' angle [-].

    ring_angle_deg : angle of the rings to the board's face: 0 flat-sawn, 45 rift, 90 quarter-sawn. For the
    thickness give 90 less that angle.
    """
    angle = np.deg2rad(floats(ring_angle_deg, "ring_angle_deg"))
    T, R = floats(tangential, "tangential"), floats(radial, "radial")
    return np.asarray(T * np.cos(angle) ** 2 + R * np.sin(angle) ** 2)


def modulus_across_the_width(
    tangential_mpa: ArrayLike,
    radial_mpa: ArrayLike,
    rolling_shear_mpa: ArrayLike,
    poisson_tr: ArrayLike,
    ring_angle_deg: ArrayLike,
) -> Floats:
    """Modulus across the width of a board whose rings stand at an angle to its face [MPa].

    Turned compliance of a material with axes R and T; ν_TR is strain along R for a pull along T. Rift boards
    are the softest: their rings roll over each other (G_RT is small).
    """
    ET, ER = floats(tangential_mpa, "tangential_mpa"), floats(radial_mpa, "radial_mpa")
    G, nu = floats(rolling_shear_mpa, "rolling_shear_mpa"), floats(poisson_tr, "poisson_tr")
    angle = np.deg2rad(floats(ring_angle_deg, "ring_angle_deg"))
    cc, ss = np.cos(angle) ** 2, np.sin(angle) ** 2
    compliance = cc**2 / ET + ss**2 / ER + cc * ss * (1.0 / G - 2.0 * nu / ET)
    return np.asarray(1.0 / compliance)


def ring_cup(
    width_mm: ArrayLike,
    pith_distance_mm: ArrayLike,
    strain_tangential: ArrayLike,
    strain_radial: ArrayLike,
    pith_offset_mm: ArrayLike = 0.0,
) -> Floats:
    """Cup of a board from the curve of its rings: middle over the edges' chord, away from the pith [mm].

    pith_distance_mm : from the pith to the height in the board at which the cup is read (> 0; its middle).
    pith_offset_mm : how far the pith lies sideways from the middle of the width.

    Strains even along T and R fit together without stress; the deflection is
    v = ε_R·y − (ε_T − ε_R)·x·atan(x/y), exact for small strain. For a centred pith the cup is
    (ε_T − ε_R)·(w/2)·atan(w/2y). Drying makes it negative: the edges rise on the bark side.
    Raises ValueError when the pith lies at or above that height.
    """
    w, y = floats(width_mm, "width_mm"), floats(pith_distance_mm, "pith_distance_mm")
    if np.any(y <= 0.0):
        raise ValueError(f"pith_distance_mm: expected a distance above zero, was given {np.min(y):g}")
    difference = floats(strain_tangential, "strain_tangential") - floats(strain_radial, "strain_radial")
    middle = -floats(pith_offset_mm, "pith_offset_mm")

    def sunk(x: Floats) -> Floats:
        return np.asarray(x * np.arctan2(x, y))

    edges = 0.5 * (sunk(middle - w / 2.0) + sunk(middle + w / 2.0))
    return np.asarray(difference * (edges - sunk(middle)))


def ring_curvature(
    width_mm: ArrayLike,
    pith_distance_mm: ArrayLike,
    strain_tangential: ArrayLike,
    strain_radial: ArrayLike,
    pith_offset_mm: ArrayLike = 0.0,
) -> Floats:
    """The even curvature that gives the cup of `ring_cup` over the width: 8·cup/w² [1/mm].

    > 0 domes the side away from the pith. Towards width 0 and a centred pith it is 2(ε_T − ε_R)/y, the
    parabola that overstates the cup of a wide board near the pith by a quarter.
    """
    cup = ring_cup(width_mm, pith_distance_mm, strain_tangential, strain_radial, pith_offset_mm)
    return np.asarray(8.0 * cup / floats(width_mm, "width_mm") ** 2)


# --- where two pieces meet ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class MitreOpening:
    """What a mitre does when its two members change their width; > 0 opens, < 0 presses.

    angle_deg : the wedge between the two mitre faces.
    inside_mm : gap at the inner corner when the outer corner stays tight (width lost: drying).
    outside_mm : gap at the outer corner when the inner corner stays tight (width gained).
    """

    angle_deg: Floats
    inside_mm: Floats
    outside_mm: Floats


def mitre_angles(width_mm: ArrayLike, other_width_mm: ArrayLike) -> tuple[Floats, Floats]:
    """Angle of the mitre to the outer edge of each member: atan of own width over the other's [degrees].

    Two unequal members meet on the line from the outer to the inner corner, so not at 45 degrees.
    """
    w1, w2 = floats(width_mm, "width_mm"), floats(other_width_mm, "other_width_mm")
    return np.asarray(np.degrees(np.arctan2(w1, w2))), np.asarray(np.degrees(np.arctan2(w2, w1)))


def mitre_opening(
    width_mm: ArrayLike,
    other_width_mm: ArrayLike,
    strain_across: ArrayLike,
    other_strain_across: ArrayLike,
    strain_along: ArrayLike = 0.0,
    other_strain_along: ArrayLike = 0.0,
) -> MitreOpening:
    """How far a 90° mitre opens when each member swells (+) or shrinks (−) across and along its grain.

    A member cut at α keeps both ends of its mitre face: tan α' = tan α·(1 + ε_across)/(1 + ε_along).
    The corner is held at 90° by the rest of the frame, so what the two angles lack is the open wedge.
    For two equal members and no movement along: inside gap = −ε·w·√2.
    """
    w1, w2 = floats(width_mm, "width_mm"), floats(other_width_mm, "other_width_mm")
    pairs = (
        (w1 / w2, floats(strain_across, "strain_across"), floats(strain_along, "strain_along")),
        (w2 / w1, floats(other_strain_across, "other_strain_across"), floats(other_strain_along, "along")),
    )
    angles = [np.arctan(slope * (1.0 + across) / (1.0 + along)) for slope, across, along in pairs]
    wedge = np.pi / 2.0 - (angles[0] + angles[1])
    gap = 2.0 * np.hypot(w1, w2) * np.sin(np.abs(wedge) / 2.0)
    return MitreOpening(
        angle_deg=np.asarray(np.degrees(wedge)),
        inside_mm=np.asarray(np.copysign(gap, wedge)),
        outside_mm=np.asarray(np.copysign(gap, -wedge)),
    )


def mismatch(size_mm: ArrayLike, strain: ArrayLike, other_strain: ArrayLike) -> Floats:
    """By how much one piece outgrows another over a common size: an insert in its recess, a frame [mm]."""
    return np.asarray(floats(size_mm, "size_mm") * (floats(strain, "strain") - floats(other_strain, "other")))


def ridge(thickness_mm: ArrayLike, strain: ArrayLike, other_strain: ArrayLike) -> Floats:
    """Height of the ridge (+) or sunken line (−) of edging against carrier on each face [mm].

    Both were level when bonded and share their middle plane, so each face shows half of what the
    thicknesses differ.
    """
    return np.asarray(0.5 * mismatch(thickness_mm, strain, other_strain))


def largest_within(sizes: ArrayLike, effects: ArrayLike, limit: float) -> float:
    """The largest size up to which |effect| stays within a limit, between the given sizes by straight line.

    sizes : rising, shape (n,); effects : shape (n,). Infinite when no given size breaks the limit (the
    effect does not bind, or binds only beyond the sizes asked for), 0 when the smallest already breaks it.
    Raises ValueError when the shapes differ or the sizes do not rise.
    """
    x, y = floats(sizes, "sizes", axes=1), np.abs(floats(effects, "effects", axes=1))
    if x.shape != y.shape or np.any(np.diff(x) <= 0.0):
        raise ValueError(f"expected rising sizes and as many effects, was given {x.shape} and {y.shape}")
    broken = np.flatnonzero(y > limit)
    if broken.size == 0:
        return float("inf")
    first = int(broken[0])
    if first == 0:
        return 0.0
    low, high = y[first - 1], y[first]
    return float(x[first - 1] + (x[first] - x[first - 1]) * (limit - low) / (high - low))
