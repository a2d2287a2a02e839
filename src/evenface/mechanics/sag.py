"""Sag of shelves and overhangs: a section of several materials, three ways of holding, and creep.

Euler-Bernoulli beams: trust them while the span is at least ten times the height; shear adds about 10 % at
ten times for boards and wood. Forces in N, line loads in N/mm, lengths in mm, moduli in MPa. Loads act
downwards, a positive deflection is downwards. All arguments broadcast.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats


class Held(StrEnum):
    """How the ends of a span are held."""

    RESTING = "resting"
    """On two pins or bearers: free to turn."""
    FIXED = "fixed"
    """Both ends kept from turning, as in a deep housing that is glued; real ones lie between the two."""
    OVERHANG = "overhang"
    """One end fixed, the other free."""


# --- the section ----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Section:
    """A cross-section of rectangles, by its modulus-weighted sums; arrays broadcast.

    neutral_mm : height of the neutral axis over the underside of the lowest rectangle's datum.
    stiffness : EI about it [N·mm²].
    axial : EA [N].
    torsion : GJ [N·mm²], open thin strips added up; 0 where no shear moduli were given.
    """

    neutral_mm: Floats
    stiffness: Floats
    axial: Floats
    torsion: Floats


def section(
    width_mm: ArrayLike,
    height_mm: ArrayLike,
    middle_mm: ArrayLike,
    modulus_mpa: ArrayLike,
    creep: ArrayLike = 0.0,
    shear_modulus_mpa: ArrayLike = 0.0,
) -> Section:
    """Transformed section of carrier, facings and edging side by side or one over the other.

    Each rectangle is given by width, height, height of its middle over any common datum, modulus along the
    span, creep factor φ and shear modulus; the rectangles run along the last axis, shape (..., n). A creep
    factor makes the modulus E/(1 + φ), so a creeping carrier hands its share over to stiff edging.
    `torsion` adds the rectangles' own: carrier and facings count as if they could slide over each
    other, so it is on the low side for faced panels.

    Raises ValueError when a width, height or modulus is not positive or a creep factor is negative.
    """
    b, h = floats(width_mm, "width_mm", axes=1), floats(height_mm, "height_mm", axes=1)
    z, E = floats(middle_mm, "middle_mm", axes=1), floats(modulus_mpa, "modulus_mpa", axes=1)
    phi, G = floats(creep, "creep"), floats(shear_modulus_mpa, "shear_modulus_mpa")
    for name, value in (("width_mm", b), ("height_mm", h), ("modulus_mpa", E)):
        if np.any(value <= 0.0):
            raise ValueError(f"{name}: expected values above zero, was given {np.min(value):g}")
    if np.any(phi < 0.0):
        raise ValueError(f"creep: expected a factor of 0 or more, was given {np.min(phi):g}")
    lasting = E / (1.0 + phi)
    EA = lasting * b * h
    axial = np.sum(EA, axis=-1)
    neutral = np.sum(EA * z, axis=-1) / axial
    stiffness = np.sum(EA * (h**2 / 12.0 + (z - neutral[..., None]) ** 2), axis=-1)
    thin, broad = np.minimum(b, h), np.maximum(b, h)
    slim = thin / broad
    # St. Venant's constant of a rectangle, fitted to 0.5 % (from memory, checked at a square and a strip)
    constant = broad * thin**3 * (1.0 / 3.0 - 0.21 * slim * (1.0 - slim**4 / 12.0))
    torsion = np.sum(G / (1.0 + phi) * constant, axis=-1)
    return Section(np.asarray(neutral), np.asarray(stiffness), np.asarray(axial), np.asarray(torsion))


def stress_per_moment(
    part: Section, height_mm: ArrayLike, modulus_mpa: ArrayLike, creep: ArrayLike = 0.0
) -> Floats:
    """Stress at a height for a moment of 1 N·mm that makes the span sag; > 0 below the neutral axis [MPa]."""
    lasting = floats(modulus_mpa, "modulus_mpa") / (1.0 + floats(creep, "creep"))
    return np.asarray(lasting * (part.neutral_mm - floats(height_mm, "height_mm")) / part.stiffness)


# --- the span -------------------------------------------------------------------------------------

_EVEN: Final = {Held.RESTING: 5.0 / 384.0, Held.FIXED: 1.0 / 384.0, Held.OVERHANG: 1.0 / 8.0}
_EVEN_MOMENT: Final = {Held.RESTING: 1.0 / 8.0, Held.FIXED: 1.0 / 12.0, Held.OVERHANG: 1.0 / 2.0}


def sag_under_even_load(
    line_load: ArrayLike, span_mm: ArrayLike, stiffness: ArrayLike, held: Held = Held.RESTING
) -> Floats:
    """Greatest deflection under an even load: 5qL⁴/384EI, qL⁴/384EI or qL⁴/8EI [mm]."""
    q, L = floats(line_load, "line_load"), floats(span_mm, "span_mm")
    return np.asarray(_EVEN[held] * q * L**4 / floats(stiffness, "stiffness"))


def moment_under_even_load(line_load: ArrayLike, span_mm: ArrayLike, held: Held = Held.RESTING) -> Floats:
    """Greatest bending moment under an even load, without sign [N·mm]."""
    return np.asarray(_EVEN_MOMENT[held] * floats(line_load, "line_load") * floats(span_mm, "span_mm") ** 2)


def sag_under_point_load(
    force_n: ArrayLike,
    span_mm: ArrayLike,
    stiffness: ArrayLike,
    held: Held = Held.RESTING,
    at_mm: ArrayLike | None = None,
) -> Floats:
    """Greatest deflection of the span under one force [mm].

    at_mm : place of the force from the (left, or fixed) end; the middle, or the tip of an overhang, unless
    given. The greatest deflection need not lie under the force; for an overhang it is at the tip.

    Raises ValueError when the place lies outside the span.
    """
    F, L, EI = floats(force_n, "force_n"), floats(span_mm, "span_mm"), floats(stiffness, "stiffness")
    usual = L if held is Held.OVERHANG else L / 2.0
    a = usual if at_mm is None else floats(at_mm, "at_mm")
    if np.any((a < 0.0) | (a > L)):
        raise ValueError(f"at_mm: expected a place on the span of {np.min(L):g} mm, was given {a}")
    if held is Held.OVERHANG:
        return np.asarray(F * a**2 * (3.0 * L - a) / (6.0 * EI))
    near, far = np.minimum(a, L - a), np.maximum(a, L - a)
    if held is Held.FIXED:
        return np.asarray(2.0 * F * near**2 * far**3 / (3.0 * EI * (L + 2.0 * far) ** 2))
    return np.asarray(F * near * (L**2 - near**2) ** 1.5 / (9.0 * np.sqrt(3.0) * L * EI))


def sag_at_loaded_edge(
    force_n: ArrayLike,
    off_centre_mm: ArrayLike,
    span_mm: ArrayLike,
    part: Section,
    held: Held = Held.RESTING,
) -> Floats:
    """Deflection of the front edge when the whole force stands on it, spread evenly along it [mm].

    The shelf bends as a beam and turns about its middle: the even load q = F/L does q·e of turning per mm,
    which the ends hold, so the mid-span turns by q·e·L²/8GJ (the tip of an overhang by q·e·L²/2GJ).
    off_centre_mm : e, from the middle of the depth to the edge.

    Raises ValueError when the section was reckoned without shear moduli.
    """
    if np.any(part.torsion <= 0.0):
        raise ValueError("expected a section with shear moduli; an edge load twists the shelf")
    F, e = floats(force_n, "force_n"), floats(off_centre_mm, "off_centre_mm")
    L = floats(span_mm, "span_mm")
    share = 1.0 / 2.0 if held is Held.OVERHANG else 1.0 / 8.0
    turn = share * F * e * L / part.torsion
    return np.asarray(sag_under_even_load(F / L, L, part.stiffness, held) + turn * e)


def longest_span(
    line_load: ArrayLike, stiffness: ArrayLike, sag_per_span: ArrayLike, held: Held = Held.RESTING
) -> Floats:
    """Longest span whose sag under an even load stays within a share of it (such as 1/300) [mm]."""
    limit, EI = floats(sag_per_span, "sag_per_span"), floats(stiffness, "stiffness")
    return np.asarray((limit * EI / (_EVEN[held] * floats(line_load, "line_load"))) ** (1.0 / 3.0))


def crept(sag_mm: ArrayLike, creep: ArrayLike) -> Floats:
    """Sag of one material after long loading: sag·(1 + φ) [mm]. For mixed ones give φ to `section`."""
    return np.asarray(floats(sag_mm, "sag_mm") * (1.0 + floats(creep, "creep")))
