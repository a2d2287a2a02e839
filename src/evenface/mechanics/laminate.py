"""Classical lamination theory: layers with free strains that vary through each layer.

Layers are listed bottom to top, z points up, ε(z) = ε0 + z·κ, and κ > 0 domes the top face. The
deflection belonging to κ is w = −½(κx·x² + κy·y² + κxy·x·y); κxy is the engineering twist −2·∂²w/∂x∂y.
Any number of leading axes (draws, days) may stand before the layer axis; they broadcast.

Source: R. M. Jones, Mechanics of Composite Materials; free strains after Timoshenko 1925 (both from memory;
the published examples under tests/mechanics/sources check them).
Valid for thin plates in plane stress, small strain and small rotation: trust it to a bow of about
0.3 × thickness, not beyond 1 × thickness.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats, per_layer

FREE = (False, False, False)
HELD_ACROSS = (False, True, True)
HELD_ALONG = (True, False, True)
HELD_FLAT = (True, True, True)


@dataclass(frozen=True, slots=True, eq=False)
class Plies:
    """Elastic layers bottom to top, every field (..., layers), MPa and mm.

    `angle_deg` turns the layer's direction 1 from x towards y. Raises ValueError for thicknesses or
    moduli that are not positive and for ν12²·E2/E1 ≥ 1, which no material has.
    """

    thickness_mm: Floats
    E1_MPa: Floats
    E2_MPa: Floats
    nu12: Floats
    G12_MPa: Floats
    angle_deg: Floats

    def __post_init__(self) -> None:
        layers = floats(self.thickness_mm, "thickness_mm", axes=1).shape[-1]
        for name in ("thickness_mm", "E1_MPa", "E2_MPa", "G12_MPa"):
            object.__setattr__(self, name, per_layer(getattr(self, name), name, layers, above=0.0))
        for name in ("nu12", "angle_deg"):
            object.__setattr__(self, name, per_layer(getattr(self, name), name, layers))
        if not (self.nu12**2 * self.E2_MPa < self.E1_MPa).all():
            raise ValueError("nu12: expected nu12² · E2 < E1 in every layer, got a larger Poisson ratio")


def isotropic(thickness_mm: ArrayLike, E_MPa: ArrayLike, nu: ArrayLike) -> Plies:
    """Return plies with the same properties in all in-plane directions."""
    E, poisson = floats(E_MPa, "E_MPa"), floats(nu, "nu")
    shear = E / (2.0 * (1.0 + poisson))
    thickness = floats(thickness_mm, "thickness_mm")
    return Plies(thickness, E, E, poisson, shear, np.zeros_like(thickness))


@dataclass(frozen=True, slots=True, eq=False)
class Laminate:
    """Stiffness of a stack about its middle plane.

    `z_mm` (..., layers + 1) interfaces; `Q_MPa` (..., layers, 3, 3) plane-stress stiffness in panel axes;
    `turn` (..., layers, 3, 2) takes free strains (ε1, ε2) of a layer into panel axes (εx, εy, γxy);
    `A` N/mm, `B` N, `D` N·mm, all (..., 3, 3).
    """

    z_mm: Floats
    Q_MPa: Floats
    turn: Floats
    A: Floats
    B: Floats
    D: Floats

    @property
    def thickness_mm(self) -> Floats:
        """Thickness of each layer, (..., layers)."""
        return np.diff(self.z_mm, axis=-1)

    @property
    def middle_mm(self) -> Floats:
        """Height of the middle of each layer over the middle plane, (..., layers)."""
        middles: Floats = 0.5 * (self.z_mm[..., 1:] + self.z_mm[..., :-1])
        return middles

    @property
    def abd(self) -> Floats:
        """The 6 × 6 matrix of A, B, B, D, (..., 6, 6)."""
        upper = np.concatenate([self.A, self.B], axis=-1)
        return np.concatenate([upper, np.concatenate([self.B, self.D], axis=-1)], axis=-2)


@dataclass(frozen=True, slots=True, eq=False)
class Deformation:
    """Middle-plane strains, curvatures (1/mm) and the moments (N·mm/mm) that hold what is held; (..., 3)."""

    strain: Floats
    curvature_per_mm: Floats
    holding_moment_N: Floats  # noqa: N815


def rotated_stiffness(plies: Plies) -> tuple[Floats, Floats]:
    """Return Q̄ (..., layers, 3, 3) and the turning matrix (..., layers, 3, 2) of free strains."""
    nu21 = plies.nu12 * plies.E2_MPa / plies.E1_MPa
    divisor = 1.0 - plies.nu12 * nu21
    q11, q22 = plies.E1_MPa / divisor, plies.E2_MPa / divisor
    q12, q66 = plies.nu12 * q22, plies.G12_MPa
    angle = np.deg2rad(plies.angle_deg)
    c, s = np.cos(angle), np.sin(angle)
    q11, q12, q22, q66, c, s = np.broadcast_arrays(q11, q12, q22, q66, c, s)
    cc, ss, cs = c * c, s * s, c * s
    cccc, ssss, ccss = cc * cc, ss * ss, cs * cs
    a, b = q11 - q12 - 2 * q66, q12 - q22 + 2 * q66
    out = np.empty((*c.shape, 3, 3))
    out[..., 0, 0] = q11 * cccc + 2 * (q12 + 2 * q66) * ccss + q22 * ssss
    out[..., 1, 1] = q11 * ssss + 2 * (q12 + 2 * q66) * ccss + q22 * cccc
    out[..., 0, 1] = out[..., 1, 0] = (q11 + q22 - 4 * q66) * ccss + q12 * (cccc + ssss)
    out[..., 2, 2] = (q11 + q22 - 2 * q12 - 2 * q66) * ccss + q66 * (cccc + ssss)
    out[..., 0, 2] = out[..., 2, 0] = cs * (a * cc + b * ss)
    out[..., 1, 2] = out[..., 2, 1] = cs * (a * ss + b * cc)
    turn = np.stack(
        [np.stack([cc, ss], axis=-1), np.stack([ss, cc], axis=-1), np.stack([2 * cs, -2 * cs], axis=-1)],
        axis=-2,
    )
    return out, turn


def laminate(plies: Plies) -> Laminate:
    """Return the stiffness of `plies` about the middle of the whole stack."""
    Q, turn = rotated_stiffness(plies)
    h = plies.thickness_mm
    tops = np.cumsum(h, axis=-1)
    bottoms = np.concatenate([np.zeros((*h.shape[:-1], 1)), tops], axis=-1)
    z = bottoms - 0.5 * tops[..., -1:]
    middle = 0.5 * (z[..., 1:] + z[..., :-1])
    A = np.einsum("...l,...lij->...ij", h, Q)
    B = np.einsum("...l,...lij->...ij", h * middle, Q)
    D = np.einsum("...l,...lij->...ij", h * (middle**2 + h**2 / 12.0), Q)
    return Laminate(z, Q, turn, A, B, D)


def even_strain(strain: ArrayLike, thickness_mm: ArrayLike) -> tuple[Floats, Floats]:
    """Return the two moments of free strains (..., layers, 2) that are even through each layer."""
    e, h = floats(strain, "strain", axes=2), floats(thickness_mm, "thickness_mm", axes=1)
    return e * h[..., None], np.zeros(np.broadcast_shapes(e.shape, (*h.shape, 1)))


def sloping_strain(bottom: ArrayLike, top: ArrayLike, thickness_mm: ArrayLike) -> tuple[Floats, Floats]:
    """Return the two moments of free strains that run straight from `bottom` to `top` of each layer."""
    low, high = floats(bottom, "bottom", axes=2), floats(top, "top", axes=2)
    h = floats(thickness_mm, "thickness_mm", axes=1)[..., None]
    return 0.5 * h * (low + high), h**2 * (high - low) / 12.0


def free_resultants(stack: Laminate, moment0: ArrayLike, moment1: ArrayLike) -> tuple[Floats, Floats]:
    """Return N (N/mm) and M (N·mm/mm), (..., 3): what the free strains would pull if all were held.

    `moment0` (..., layers, 2): ∫ε dz over each layer in its own directions 1 and 2, mm;
    `moment1` (..., layers, 2): ∫ε·(z − z_middle of the layer) dz, mm².
    """
    m0, m1 = floats(moment0, "moment0", axes=2), floats(moment1, "moment1", axes=2)
    pull = np.einsum("...lij,...ljk->...lik", stack.Q_MPa, stack.turn)
    N = np.einsum("...lik,...lk->...i", pull, m0)
    M = np.einsum("...lik,...lk->...i", pull, m0 * stack.middle_mm[..., None] + m1)
    return N, M


def deform(stack: Laminate, N: Floats, M: Floats, held: tuple[bool, bool, bool] = FREE) -> Deformation:
    """Return how the stack deforms under free resultants when the curvatures marked in `held` stay zero.

    `held` = (κx, κy, κxy); FREE, HELD_ACROSS, HELD_ALONG and HELD_FLAT are the usual cases. In-plane
    strains are always free. The holding moments are those the fixings must supply (zero where free).
    """
    open_ = np.concatenate([np.ones(3, dtype=bool), ~np.array(held, dtype=bool)])
    load = np.concatenate(np.broadcast_arrays(N, M), axis=-1)[..., open_, None]
    matrix = stack.abd[..., open_, :][..., :, open_]
    answer = np.linalg.solve(matrix, load)[..., 0]
    full = np.zeros((*answer.shape[:-1], 6))
    full[..., open_] = answer
    strain, curvature = full[..., :3], full[..., 3:]
    moment = _times(stack.B, strain) + _times(stack.D, curvature) - M
    return Deformation(strain, curvature, np.where(np.array(held), moment, 0.0))


def free_bending_stiffness(stack: Laminate) -> Floats:
    """Return D* = D − B·A⁻¹·B (..., 3, 3), N·mm: moment per curvature when the plane is free to stretch.

    −D*·κ are the moments that press a panel of free curvature κ flat.
    """
    return stack.D - stack.B @ np.linalg.solve(stack.A, stack.B)


def holding_moments(stack: Laminate, curvature_per_mm: Floats) -> Floats:
    """Return −D*·κ, (..., 3) in N·mm/mm: the edge moments that press a panel of free curvature κ flat."""
    return -_times(free_bending_stiffness(stack), curvature_per_mm)


def stress_at(
    stack: Laminate, deformed: Deformation, layer: int, z_mm: ArrayLike, free_strain: ArrayLike
) -> Floats:
    """Return (σx, σy, τxy) in MPa, (..., 3), in `layer` at height `z_mm` over the middle plane.

    `free_strain` (..., 2): the layer's own free strains (ε1, ε2) at that height. Raises ValueError when
    `z_mm` lies outside the layer.
    """
    z, e = floats(z_mm, "z_mm"), floats(free_strain, "free_strain", axes=1)
    low, high = stack.z_mm[..., layer], stack.z_mm[..., layer + 1]
    slack = 1e-9 * np.max(np.abs(stack.z_mm))
    if not ((z >= low - slack) & (z <= high + slack)).all():
        raise ValueError(f"z_mm: expected a height within layer {layer} ({low} to {high}), got {z}")
    strain = deformed.strain + z[..., None] * deformed.curvature_per_mm
    return _times(stack.Q_MPa[..., layer, :, :], strain - _times(stack.turn[..., layer, :, :], e))


def strip(plies: Plies, moment0: Floats, moment1: Floats) -> tuple[Floats, Floats]:
    """Return middle strain and curvature (1/mm) along x of a narrow strip cut from the stack.

    Narrow: σy = τxy = 0 in every layer, so each counts with its modulus along x alone (shear and Poisson
    coupling between layers left out). Moments of free strain as in `free_resultants`.
    """
    Q, turn = rotated_stiffness(plies)
    modulus = 1.0 / np.linalg.inv(Q)[..., 0, 0]
    h = plies.thickness_mm
    tops = np.cumsum(h, axis=-1)
    middle = tops - 0.5 * h - 0.5 * tops[..., -1:]
    e0 = np.einsum("...lk,...lk->...l", turn[..., 0, :], moment0)
    e1 = np.einsum("...lk,...lk->...l", turn[..., 0, :], moment1)
    EA, ES = np.sum(modulus * h, axis=-1), np.sum(modulus * h * middle, axis=-1)
    EI = np.sum(modulus * h * (middle**2 + h**2 / 12.0), axis=-1)
    N, M = np.sum(modulus * e0, axis=-1), np.sum(modulus * (e0 * middle + e1), axis=-1)
    determinant = EA * EI - ES**2
    return (EI * N - ES * M) / determinant, (EA * M - ES * N) / determinant


def _times(matrix: Floats, vector: Floats) -> Floats:
    product: Floats = np.matmul(matrix, vector[..., None])[..., 0]
    return product
