"""The glue line between a face and its carrier near a free end: shear, slip, and what reaches the middle.

Far from the ends the face pulls with the force the laminate solution gives; at a free end it is zero, and
the shear of the glue line builds it up over a few millimetres (stiff glue) or centimetres (contact
cement). Two layers sheared by each other give way in three places: in the glue (ta/Ga), in the face
(t1/3G1) and in the carrier (t2/3G2); leaving out the carrier makes a thin stiff glue look four times worse
than it is, and leaving out bending doubles the stress of equal layers.

Formulas after E. Suhir, J. Appl. Mech. 53 (1986) 657-660 and 56 (1989) 595-600, and W. T. Chen and
C. W. Nelson, IBM J. Res. Dev. 23 (1979) 179-188 (from memory, rearranged here; checked against finite
elements). Valid for small strain, elastic layers (give a long-term G for a creeping glue), a bonded length
of at least about twice the thickness; within 20 % of the peak, 1 % of the force. Peel is not given.

All arguments broadcast; mm, N, MPa.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats


@dataclass(frozen=True, slots=True)
class Bond:
    """Stiffness of a glue line between two layers; every field broadcasts.

    flexibility : strain difference per N/mm of face force, λ [mm/N].
    compliance : slip per MPa of shear, of glue and layers together, c [mm/MPa].
    glue_compliance : the glue's own part of it, ta/Ga [mm/MPa].
    """

    flexibility: Floats
    compliance: Floats
    glue_compliance: Floats

    @property
    def decay_per_mm(self) -> Floats:
        """k = √(λ/c): the end effect falls by e over 1/k [1/mm]."""
        k: Floats = np.sqrt(self.flexibility / self.compliance)
        return k


@dataclass(frozen=True, slots=True)
class BondEnd:
    """What a glue line feels, for each bonded length.

    peak_shear_mpa : shear at the free ends, signed as the strain difference [MPa].
    slip_mm : how far the face has moved past the carrier at an end, glue and layers together [mm].
    glue_slip_mm : the part of it that shows as a step at the edge, inside the glue [mm].
    face_force : face force in the middle, per mm of width [N/mm].
    share : that force over the one of an endless panel [-].
    build_up_mm : length 1/k over which the force builds up [mm].
    """

    peak_shear_mpa: Floats
    slip_mm: Floats
    glue_slip_mm: Floats
    face_force: Floats
    share: Floats
    build_up_mm: Floats


def bond(
    face_thickness_mm: ArrayLike,
    face_modulus_mpa: ArrayLike,
    face_shear_modulus_mpa: ArrayLike,
    carrier_thickness_mm: ArrayLike,
    carrier_modulus_mpa: ArrayLike,
    carrier_shear_modulus_mpa: ArrayLike,
    glue_thickness_mm: ArrayLike,
    glue_shear_modulus_mpa: ArrayLike,
    *,
    held_flat: bool = False,
) -> Bond:
    """Stiffness of the glue line of one face on a carrier.

    Moduli are those along the bonded length; shear moduli those of its plane with the thickness (for wood
    across the grain the rolling shear modulus). `held_flat`: the panel may not bend (screwed down, or faced
    alike on both sides: then give half the carrier's thickness).

    Raises ValueError when a thickness or modulus is not positive.
    """
    t1, E1 = _positive(face_thickness_mm, "face thickness"), _positive(face_modulus_mpa, "face modulus")
    t2, E2 = (
        _positive(carrier_thickness_mm, "carrier thickness"),
        _positive(carrier_modulus_mpa, "carrier modulus"),
    )
    G1 = _positive(face_shear_modulus_mpa, "face shear modulus")
    G2 = _positive(carrier_shear_modulus_mpa, "carrier shear modulus")
    ta = _positive(glue_thickness_mm, "glue thickness")
    Ga = _positive(glue_shear_modulus_mpa, "glue shear modulus")
    flexibility = 1.0 / (E1 * t1) + 1.0 / (E2 * t2)
    if not held_flat:
        arm = (t1 + t2) / 2.0 + ta
        flexibility = flexibility + arm**2 / (E1 * t1**3 / 12.0 + E2 * t2**3 / 12.0)
    glue = ta / Ga
    return Bond(flexibility, glue + t1 / (3.0 * G1) + t2 / (3.0 * G2), glue)


def bond_end(line: Bond, strain_difference: ArrayLike, half_length_mm: ArrayLike) -> BondEnd:
    """Shear, slip and force of a glue line of length 2·half_length whose ends are free.

    strain_difference : free strain of the carrier less that of the face; > 0 puts the face in tension.
    """
    return bond_end_of_force(
        line, floats(strain_difference, "strain_difference") / line.flexibility, half_length_mm
    )


def bond_end_of_force(line: Bond, endless_force: ArrayLike, half_length_mm: ArrayLike) -> BondEnd:
    """The same when the face force far from the ends is known, from a laminate solution [N/mm]."""
    force, half = floats(endless_force, "endless_force"), floats(half_length_mm, "half_length_mm")
    k = line.decay_per_mm
    tanh = np.tanh(k * half)
    peak = force * k * tanh
    share = built_up_share(line, half)
    return BondEnd(
        peak_shear_mpa=peak,
        slip_mm=peak * line.compliance,
        glue_slip_mm=peak * line.glue_compliance,
        face_force=force * share,
        share=share,
        build_up_mm=1.0 / k + 0.0 * half,
    )


def shear_along(line: Bond, endless_force: ArrayLike, half_length_mm: ArrayLike, x_mm: ArrayLike) -> Floats:
    """Shear at `x_mm` from the middle: F·k·sinh(kx)/cosh(kl), odd in x [MPa]."""
    k, half, x = line.decay_per_mm, floats(half_length_mm, "half_length_mm"), floats(x_mm, "x_mm")
    return np.asarray(floats(endless_force, "endless_force") * k * np.sign(x) * _ratio(k, half, x, odd=True))


def force_along(line: Bond, endless_force: ArrayLike, half_length_mm: ArrayLike, x_mm: ArrayLike) -> Floats:
    """Face force at `x_mm` from the middle: F·(1 − cosh(kx)/cosh(kl)) [N/mm]."""
    k, half, x = line.decay_per_mm, floats(half_length_mm, "half_length_mm"), floats(x_mm, "x_mm")
    return np.asarray(floats(endless_force, "endless_force") * (1.0 - _ratio(k, half, x, odd=False)))


def built_up_share(line: Bond, half_length_mm: ArrayLike) -> Floats:
    """Share of the endless face force that is reached in the middle, 1 − 1/cosh(kl) [-]."""
    kl = line.decay_per_mm * floats(half_length_mm, "half_length_mm")
    # written as a product: exact for short bonds, no overflow for long ones
    share: Floats = np.tanh(kl) * np.tanh(kl / 2.0)
    return share


def bent_sagitta(line: Bond, endless_curvature: ArrayLike, half_length_mm: ArrayLike) -> Floats:
    """Bow over the whole bonded length with the weak ends counted [mm].

    The curvature follows the face force; integrated twice, κ·(l²/2 − (1 − 1/cosh kl)/k²).
    """
    k, half = line.decay_per_mm, floats(half_length_mm, "half_length_mm")
    lost = built_up_share(line, half) / k**2
    return np.asarray(floats(endless_curvature, "endless_curvature") * (half**2 / 2.0 - lost))


def length_until_steady(line: Bond, share: float = 0.95) -> Floats:
    """Bonded length from which the end shear is within `share` of its greatest value: 2·artanh(share)/k."""
    if not 0.0 < share < 1.0:
        raise ValueError(f"expected a share between 0 and 1, was given {share}")
    length: Floats = 2.0 * np.arctanh(share) / line.decay_per_mm
    return length


def _ratio(k: Floats, half: Floats, x: Floats, *, odd: bool) -> Floats:
    """cosh(kx)/cosh(kl), or |sinh(kx)|/cosh(kl), without overflow."""
    inside = np.abs(x)
    sign = -1.0 if odd else 1.0
    ratio: Floats = (
        np.exp(-k * (half - inside))
        * (1.0 + sign * np.exp(-2.0 * k * inside))
        / (1.0 + np.exp(-2.0 * k * half))
    )
    return ratio


def _positive(value: ArrayLike, name: str) -> Floats:
    array = floats(value, name)
    if np.any(array <= 0.0):
        raise ValueError(f"{name}: expected a value above zero, was given {np.min(array):g}")
    return array
