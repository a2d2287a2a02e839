"""Bow in mm from curvature, and what becomes of it when it is no longer small.

Plates that dome both ways must stretch in their own plane; past a bow of about a third of their
thickness they curve less than the linear theory says, and past a critical pull they snap into a
half-pipe. Both follow here from one energy: the curvatures are taken as even over the plate, the
bending is that of an isotropic plate, and the stretching is the exact one for an even Gaussian
curvature of a free plate (it equals the mean deflection of a clamped plate of the same outline).

Arrays broadcast; κ in 1/mm, lengths in mm; κ > 0 domes the show face.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

type Array = NDArray[np.float64]

WARN_BOW_PER_THICKNESS: Final = 0.3
"""From here on the linear bow is a few percent too large: say so."""
NO_CLAIM_BOW_PER_THICKNESS: Final = 1.0
"""From here on the linear bow is some 15 to 20 % too large, and no accuracy is claimed."""

_LOADING_STEPS: Final = 40
_NEWTON_STEPS: Final = 12

# Mean deflection of a clamped plate under an even load over that of an endless strip of its width,
# against width over length: reckoned with 64 polynomial terms, converged to six digits.
_SLENDERNESS: Final = np.array([0.0, 1 / 10, 1 / 6, 1 / 4, 1 / 3, 1 / 2, 1 / 1.5, 1 / 1.25, 1.0])
_STRETCH_SHARE: Final = np.array(
    [1.0, 0.92628, 0.87714, 0.81571, 0.75428, 0.63108, 0.50606, 0.40822, 0.28017]
)


# --- plain geometry -------------------------------------------------------------------------------


def sagitta(curvature: ArrayLike, chord_mm: ArrayLike) -> Array:
    """Bow over a chord by the parabola κL²/8, with the sign of κ [mm].

    Within 0.2 % of the circle while the bow stays under a fortieth of the chord.
    """
    k, chord = _arrays(curvature, chord_mm)
    return k * chord**2 / 8.0


def sagitta_of_chord(curvature: ArrayLike, chord_mm: ArrayLike) -> Array:
    """Bow of a circular arc over its chord: R − √(R² − L²/4) [mm].

    Raises ValueError when the chord is longer than the circle is wide.
    """
    k, chord = _arrays(curvature, chord_mm)
    half_angle_sine = k * chord / 2.0
    if np.any(np.abs(half_angle_sine) > 1.0):
        raise ValueError("expected a chord no longer than the circle's diameter 2/κ, was given a longer one")
    # written without 1/κ so that a flat panel gives 0
    bow: Array = k * chord**2 / 4.0 / (1.0 + np.sqrt(1.0 - half_angle_sine**2))
    return bow


def sagitta_of_arc(curvature: ArrayLike, arc_mm: ArrayLike) -> Array:
    """Bow of a circular arc whose own length is given: R(1 − cos(κL/2)) [mm]."""
    k, arc = _arrays(curvature, arc_mm)
    quarter = k * arc / 4.0
    bow: Array = k * arc**2 / 8.0 * np.sinc(quarter / np.pi) ** 2
    return bow


def curvature_of_sagitta(bow_mm: ArrayLike, chord_mm: ArrayLike) -> Array:
    """Curvature of the circle through a measured bow over a straightedge: 8f/(L² + 4f²) [1/mm]."""
    bow, chord = _arrays(bow_mm, chord_mm)
    return 8.0 * bow / (chord**2 + 4.0 * bow**2)


def bow_per_thickness(bow_mm: ArrayLike, thickness_mm: ArrayLike) -> Array:
    """|bow| over thickness, to be held against the two limits at the head of this module."""
    bow, thickness = _arrays(bow_mm, thickness_mm)
    return np.abs(bow) / thickness


def _arrays(first: ArrayLike, second: ArrayLike) -> tuple[Array, Array]:
    return np.asarray(first, dtype=np.float64), np.asarray(second, dtype=np.float64)


# --- the disc of the literature -------------------------------------------------------------------


def lenticular_disc_curvature(radius_mm: float, middle_thickness_mm: float, poisson: float) -> float:
    """Curvature unit R0 of a disc with thickness t0(1 − r²/a²): curvature × R0 is the k of `even_curvatures`.

    Source: A. Fernandes, C. Maurini, S. Vidoli, Int. J. Solids Struct. 47 (2010) 1449-1458.
    Returns R0 in mm, (a²/t0)·√((1 − ν²)/(14 + 2ν)).
    """
    return float(radius_mm**2 / middle_thickness_mm * np.sqrt((1 - poisson**2) / (14 + 2 * poisson)))


def splitting_curvature(poisson: float) -> float:
    """Free curvature (× R0) past which a dome splits into a half-pipe: 2√(1 − ν)/(1 + ν) [-]."""
    return float(2.0 * np.sqrt(1.0 - poisson) / (1.0 + poisson))


def half_pipe_curvatures(free_curvature: float, poisson: float) -> tuple[float, float]:
    """The two curvatures after the dome has split, larger first, all × R0 [-].

    Their product stays at 1 − ν and their sum is (1 + ν) × the free curvature.
    Raises ValueError below the splitting curvature, where the dome is the only shape.
    """
    if abs(free_curvature) < splitting_curvature(poisson):
        raise ValueError(
            f"expected a free curvature past {splitting_curvature(poisson):.4f}, was given {free_curvature}; "
            "below it the plate stays a dome"
        )
    total = free_curvature * (1.0 + poisson)
    spread = np.sqrt(total**2 - 4.0 * (1.0 - poisson))
    large, small = (total + spread) / 2.0, (total - spread) / 2.0
    return (float(large), float(small)) if free_curvature > 0 else (float(small), float(large))


def even_curvatures(free_x: ArrayLike, free_y: ArrayLike, poisson: float) -> tuple[Array, Array]:
    """Curvatures of a free plate whose layers would like (free_x, free_y), all × R0, broadcasting [-].

    Solves (kx − hx) + ν(ky − hy) + kx·ky² = 0 and its mirror by raising the pull from nothing, so a dome
    stays on the branch it started on. With equal pulls this is (1 + ν)(k − h) + k³ = 0, which holds up to
    `splitting_curvature`; past it an even dome is no longer stable and `half_pipe_curvatures` applies.
    """
    hx, hy = np.broadcast_arrays(np.asarray(free_x, float), np.asarray(free_y, float))
    kx, ky = np.zeros(hx.shape), np.zeros(hx.shape)
    for share in np.linspace(0.0, 1.0, _LOADING_STEPS + 1)[1:]:
        for _ in range(_NEWTON_STEPS):
            kx, ky, moved = _newton(kx, ky, share * hx, share * hy, poisson)
            if moved < 1e-13:
                break
    return kx, ky


def _newton(kx: Array, ky: Array, hx: Array, hy: Array, nu: float) -> tuple[Array, Array, float]:
    rest_x = (kx - hx) + nu * (ky - hy) + kx * ky**2
    rest_y = (ky - hy) + nu * (kx - hx) + ky * kx**2
    own_x, own_y, cross = 1.0 + ky**2, 1.0 + kx**2, nu + 2.0 * kx * ky
    determinant = own_x * own_y - cross**2
    # at the point of splitting the tangent vanishes; a floor keeps the step finite there
    determinant = np.where(np.abs(determinant) < 1e-9, 1e-9, determinant)
    step_x = (own_y * rest_x - cross * rest_y) / determinant
    step_y = (own_x * rest_y - cross * rest_x) / determinant
    return kx - step_x, ky - step_y, float(np.max(np.abs(step_x) + np.abs(step_y), initial=0.0))


# --- a rough correction for panels ----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class LargeBow:
    """What is left of a linear bow and cup when the panel's stretching is counted.

    curvature_x, curvature_y : corrected curvatures, [1/mm].
    share_x, share_y : corrected over linear curvature (1 where the linear one is 0).
    splits : whether the pull is past the point where an even dome snaps into a half-pipe.
    """

    curvature_x: Array
    curvature_y: Array
    share_x: Array
    share_y: Array
    splits: NDArray[np.bool_]


def panel_curvature_unit(
    length_mm: ArrayLike, width_mm: ArrayLike, thickness_mm: ArrayLike, poisson: float
) -> Array:
    """R0 of a rectangular panel of even thickness [mm].

    √(12(1 − ν²)·m)/h, with m the mean deflection of the clamped plate of this outline per unit of load and
    stiffness: W⁴/720 for an endless strip, 0.28 of that for a square.
    """
    length, width = np.asarray(length_mm, float), np.asarray(width_mm, float)
    short, long = np.minimum(length, width), np.maximum(length, width)
    mean_clamped = short**4 / 720.0 * np.interp(short / long, _SLENDERNESS, _STRETCH_SHARE)
    unit: Array = np.sqrt(12.0 * (1.0 - poisson**2) * mean_clamped) / np.asarray(thickness_mm, float)
    return unit


def large_bow(
    curvature_x: ArrayLike,
    curvature_y: ArrayLike,
    length_mm: ArrayLike,
    width_mm: ArrayLike,
    thickness_mm: ArrayLike,
    poisson: float = 0.3,
) -> LargeBow:
    """Correct linear curvatures for the stretching of a free rectangular panel; arrays broadcast.

    Rough on purpose: the panel is taken as isotropic, its curvature as even and twist is left out. A panel
    that bends one way only is not corrected, rightly: a half-pipe does not stretch. Use it to flag and to
    say "rather less than"; above one thickness claim nothing.
    """
    linear_x, linear_y = np.asarray(curvature_x, float), np.asarray(curvature_y, float)
    unit = panel_curvature_unit(length_mm, width_mm, thickness_mm, poisson)
    kx, ky = even_curvatures(linear_x * unit, linear_y * unit, poisson)
    corrected_x, corrected_y = kx / unit, ky / unit
    equal_pull = np.sqrt(np.maximum(linear_x * linear_y, 0.0)) * unit
    return LargeBow(
        curvature_x=corrected_x,
        curvature_y=corrected_y,
        share_x=_share(corrected_x, linear_x),
        share_y=_share(corrected_y, linear_y),
        splits=equal_pull > splitting_curvature(poisson),
    )


def _share(corrected: Array, linear: Array) -> Array:
    corrected, linear = np.broadcast_arrays(corrected, linear)
    small = np.abs(linear) < 1e-15
    return np.where(small, 1.0, corrected / np.where(small, 1.0, linear))
