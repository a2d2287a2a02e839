"""From humidity to curvature as plain weights on each layer's humidity moments.

κ = Σ over layers (weight0·∫φ dz + weight1·∫φ·(z − z_middle) dz): worked out once per build-up, so that a
history of moisture becomes a history of curvature by one product. Soft glue lines are included by shear
lag: each line passes on the share of composite action that its slip leaves over the length.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, pairwise

import numpy as np

from evenface.mechanics.arrays import Floats
from evenface.mechanics.laminate import FREE, Laminate, laminate, rotated_stiffness
from evenface.mechanics.stack import SoftGlue, Stack

type Held = tuple[bool, bool, bool]


def curvature_weights(
    stack: Stack,
    *,
    held: Held = FREE,
    soft_glue: Sequence[SoftGlue] = (),
    size_mm: tuple[float, float] | None = None,
) -> tuple[Floats, Floats]:
    """Return weight0 (1/mm²) and weight1 (1/mm³), (..., 3, layers), for κx, κy, κxy per unit of humidity.

    `size_mm` (length, width) is needed with `soft_glue`, since a line that gives loses pull over a length
    that does not grow with the panel; at most 3 such lines. Raises ValueError otherwise.
    """
    built = laminate(stack.plies)
    pull = layer_pull(stack, built)
    if not soft_glue:
        return _bonded_weights(built, pull, (), held)
    if size_mm is None:
        raise ValueError("size_mm: expected (length, width) in mm, as a soft glue line is named")
    if len(soft_glue) > 3:
        raise ValueError(f"soft_glue: expected at most 3 lines, got {len(soft_glue)}")
    shares = [_shares(stack, glue, size_mm) for glue in soft_glue]
    total0: Floats = np.zeros(())
    total1: Floats = np.zeros(())
    lines = range(len(soft_glue))
    for count in range(len(soft_glue) + 1):
        for open_ in combinations(lines, count):
            breaks = tuple(sorted(soft_glue[line].interface for line in open_))
            part0, part1 = _bonded_weights(built, pull, breaks, held)
            share = np.prod([1.0 - s if i in open_ else s for i, s in enumerate(shares)], axis=0)
            total0, total1 = total0 + share[..., None] * part0, total1 + share[..., None] * part1
    return total0, total1


def layer_pull(stack: Stack, built: Laminate) -> Floats:
    """Return (..., layers, 3), MPa: stress in a fully held layer per unit of humidity, sign reversed."""
    expansion = np.stack(np.broadcast_arrays(stack.expansion_1, stack.expansion_2), axis=-1)
    strain = np.matmul(built.turn, expansion[..., None])
    return np.asarray(np.matmul(built.Q_MPa, strain)[..., 0])


def _bonded_weights(
    built: Laminate, pull: Floats, breaks: tuple[int, ...], held: Held
) -> tuple[Floats, Floats]:
    """Weights when the stack slides freely at the interfaces `breaks`: parts share κ, not strain."""
    layers = built.thickness_mm.shape[-1]
    edges = [0, *breaks, layers]
    bending: Floats = np.zeros(1)
    moments: list[Floats] = []
    for low, high in pairwise(edges):
        part = slice(low, high)
        A, B, D = _part(built, part)
        centre = np.linalg.solve(A, B).swapaxes(-1, -2)
        bending = bending + D - centre @ B
        q = pull[..., part, :]
        arm = built.middle_mm[..., part, None] * q - np.einsum("...ij,...lj->...li", centre, q)
        moments.append(arm)
    free = ~np.array(held)
    compliance = np.zeros_like(bending)
    inner = np.linalg.inv(bending[..., free, :][..., :, free])
    compliance[..., np.ix_(free, free)[0], np.ix_(free, free)[1]] = inner
    arms = np.concatenate(moments, axis=-2)
    weight0 = np.einsum("...ij,...lj->...il", compliance, arms)
    weight1 = np.einsum("...ij,...lj->...il", compliance, pull)
    return weight0, weight1


def _part(built: Laminate, part: slice) -> tuple[Floats, Floats, Floats]:
    h, middle = built.thickness_mm[..., part], built.middle_mm[..., part]
    Q = built.Q_MPa[..., part, :, :]
    A = np.einsum("...l,...lij->...ij", h, Q)
    B = np.einsum("...l,...lij->...ij", h * middle, Q)
    D = np.einsum("...l,...lij->...ij", h * (middle**2 + h**2 / 12.0), Q)
    return A, B, D


def _shares(stack: Stack, glue: SoftGlue, size_mm: tuple[float, float]) -> Floats:
    """Share of composite action left in the bow, the cup and the twist, (..., 3)."""
    Q, _ = rotated_stiffness(stack.plies)
    compliance = np.linalg.inv(Q)
    along, across = (
        glue_line_share(1.0 / compliance[..., axis, axis], stack.thickness_mm, glue, size_mm[axis])
        for axis in (0, 1)
    )
    return np.stack([along, across, np.minimum(along, across)], axis=-1)


def glue_line_share(modulus_MPa: Floats, thickness_mm: Floats, glue: SoftGlue, span_mm: float) -> Floats:
    """Return the share (...) of the bow that composite action adds over `span_mm`, 0 (slides) to 1 (rigid).

    Partial-interaction beam: slip decays from the ends as cosh(αx)/cosh(αL/2) with
    α² = (G/t)·(1/EA₁ + 1/EA₂ + d²/(EI₁ + EI₂)); integrated twice, 1 − 8/(αL)²·(1 − 1/cosh(αL/2)).
    `modulus_MPa`, `thickness_mm` (..., layers). Theory: Newmark et al. 1951, from memory. Elastic glue; a
    contact glue that creeps is met by its long-term modulus. Raises ValueError for a missing interface.
    """
    layers = thickness_mm.shape[-1]
    if not 0 < glue.interface < layers:
        raise ValueError(f"soft glue: expected an interface from 1 to {layers - 1}, got {glue.interface}")
    top = np.cumsum(thickness_mm, axis=-1)
    middle = top - 0.5 * thickness_mm
    EA, EI, centre = [], [], []
    for part in (slice(0, glue.interface), slice(glue.interface, layers)):
        stiff = modulus_MPa[..., part] * thickness_mm[..., part]
        axial = stiff.sum(axis=-1)
        axis = (stiff * middle[..., part]).sum(axis=-1) / axial
        arm = middle[..., part] - axis[..., None]
        EA.append(axial)
        EI.append((stiff * (arm**2 + thickness_mm[..., part] ** 2 / 12.0)).sum(axis=-1))
        centre.append(axis)
    distance = centre[1] - centre[0]
    flexibility = 1.0 / EA[0] + 1.0 / EA[1] + distance**2 / (EI[0] + EI[1])
    reach = np.sqrt(glue.shear_modulus_MPa / glue.thickness_mm * flexibility) * span_mm
    decay = np.exp(-0.5 * reach)
    lost = 8.0 / reach**2 * (1.0 - 2.0 * decay / (1.0 + decay**2))
    series = 1.0 - 5.0 / 48.0 * reach**2
    return np.asarray(1.0 - np.where(reach < 1e-3, series, lost))
