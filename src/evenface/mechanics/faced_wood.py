"""Solid wood with a sheet glued to one or both faces: what grows with its width and what does not.

Cup and free mismatch grow with the width, slip at the edge and shear of the glue reach a ceiling after a
few centimetres, and the tension across the grain under the face is there at almost any width.

The middle of the board follows lamination theory (grain along x, width along y); towards the two long
edges the face force falls to zero over the build-up length of the glue line. Everything is elastic and
linear in the moisture change; give long-term moduli where creep matters. mm, MPa; fields broadcast, so
draws of shape (n, 1) meet widths of shape (m,).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats
from evenface.mechanics.bond import Bond, bent_sagitta, bond, bond_end_of_force
from evenface.mechanics.laminate import (
    FREE,
    HELD_FLAT,
    Deformation,
    Laminate,
    Plies,
    deform,
    even_strain,
    free_resultants,
    laminate,
    sloping_strain,
    stress_at,
)


@dataclass(frozen=True, slots=True)
class Wood:
    """A board, grain along x.

    moduli along the grain and across the width; `poisson` ν_LT; `shear_mpa` in the plane of the board;
    `rolling_shear_mpa` of width with thickness, which the glue line works against.
    free strains along and across; `ring_curvature` from the rings, > 0 domes the upper side [1/mm].
    """

    thickness_mm: ArrayLike
    modulus_along_mpa: ArrayLike
    modulus_across_mpa: ArrayLike
    poisson: ArrayLike
    shear_mpa: ArrayLike
    rolling_shear_mpa: ArrayLike
    strain_along: ArrayLike
    strain_across: ArrayLike
    ring_curvature: ArrayLike = 0.0


@dataclass(frozen=True, slots=True)
class Sheet:
    """A facing; along and across mean the wood's grain, not the sheet's own direction."""

    thickness_mm: ArrayLike
    modulus_along_mpa: ArrayLike
    modulus_across_mpa: ArrayLike
    poisson: ArrayLike
    shear_mpa: ArrayLike
    through_shear_mpa: ArrayLike
    strain_along: ArrayLike
    strain_across: ArrayLike


@dataclass(frozen=True, slots=True)
class Glue:
    """A glue line; a lasting load on a soft glue asks for its long-term shear modulus."""

    thickness_mm: ArrayLike
    shear_modulus_mpa: ArrayLike


@dataclass(frozen=True, slots=True)
class FacedWood:
    """Effects of the moisture change over each width; all fields broadcast.

    cup_mm : middle over the chord of the edges, > 0 domes the upper face.
    curvature : of the middle region across the width [1/mm].
    bond_shear_mpa : shear of the glue line at the edges.
    tension_mpa : stress across the grain of the wood just under the upper face, mid-width; > 0 pulls.
    bottom_stress_mpa : the same at its underside.
    edge_slip_mm : step between face and wood at each edge, inside the glue.
    mismatch_mm : by how much wood and face would differ over the whole width if not glued.
    build_up_mm : width of the edge zone in which the face force builds up.
    """

    width_mm: Floats
    cup_mm: Floats
    curvature: Floats
    bond_shear_mpa: Floats
    tension_mpa: Floats
    bottom_stress_mpa: Floats
    edge_slip_mm: Floats
    mismatch_mm: Floats
    build_up_mm: Floats


def faced_wood(
    width_mm: ArrayLike,
    wood: Wood,
    sheet: Sheet,
    glue: Glue,
    *,
    both_sides: bool = False,
    held_flat: bool = False,
) -> FacedWood:
    """Cup, glue shear, tension across the grain and edge slip of faced wood over its width.

    The sheet lies on top, or alike on both sides. `held_flat`: pressed or screwed so that it cannot cup.
    Range: width above about twice the thickness; below it the figures err on the large side.
    Raises ValueError when a thickness or modulus is not positive, or a width is not.
    """
    width = floats(width_mm, "width_mm")
    if np.any(width <= 0.0):
        raise ValueError(f"width_mm: expected a width above zero, was given {np.min(width):g}")
    stack, deformed, free = _middle(wood, sheet, both_sides=both_sides, held_flat=held_flat)
    top = stack.z_mm.shape[-1] - 2
    board = 1 if both_sides else 0
    face_stress = stress_at(stack, deformed, top, stack.middle_mm[..., top], free["sheet"])[..., 1]
    upper = stress_at(stack, deformed, board, stack.z_mm[..., board + 1], free["top"])[..., 1]
    lower = stress_at(stack, deformed, board, stack.z_mm[..., board], free["bottom"])[..., 1]

    line = _line(wood, sheet, glue, both_sides=both_sides, held_flat=held_flat)
    end = bond_end_of_force(line, face_stress * floats(sheet.thickness_mm, "sheet thickness"), width / 2.0)
    ring = np.zeros(()) if held_flat else floats(wood.ring_curvature, "ring_curvature")
    curvature = deformed.curvature_per_mm[..., 1]
    cup = ring * width**2 / 8.0 + bent_sagitta(line, curvature - ring, width / 2.0)
    difference = floats(wood.strain_across, "wood strain") - floats(sheet.strain_across, "sheet strain")
    return FacedWood(
        width_mm=width,
        cup_mm=cup,
        curvature=curvature,
        bond_shear_mpa=end.peak_shear_mpa,
        tension_mpa=upper * end.share,
        bottom_stress_mpa=lower * end.share,
        edge_slip_mm=end.glue_slip_mm,
        mismatch_mm=np.asarray(difference * width),
        build_up_mm=end.build_up_mm,
    )


def _middle(
    wood: Wood, sheet: Sheet, *, both_sides: bool, held_flat: bool
) -> tuple[Laminate, Deformation, dict[str, Floats]]:
    """The endless board: its stack, how it deforms, and the free strains where stresses are read."""
    order: list[Wood | Sheet] = [sheet, wood, sheet] if both_sides else [wood, sheet]
    thickness = _layers([layer.thickness_mm for layer in order])
    plies = Plies(
        thickness,
        _layers([layer.modulus_along_mpa for layer in order]),
        _layers([layer.modulus_across_mpa for layer in order]),
        _layers([layer.poisson for layer in order]),
        _layers([layer.shear_mpa for layer in order]),
        np.zeros(len(order)),
    )
    even = _pairs([(layer.strain_along, layer.strain_across) for layer in order])
    swing = 0.5 * floats(wood.ring_curvature, "ring_curvature") * floats(wood.thickness_mm, "wood thickness")
    slope = _pairs([(0.0, swing if layer is wood else 0.0) for layer in order])
    stack = laminate(plies)
    moment0, _ = even_strain(even, thickness)
    _, moment1 = sloping_strain(-slope, slope, thickness)
    N, M = free_resultants(stack, moment0, moment1)
    deformed = deform(stack, N, M, HELD_FLAT if held_flat else FREE)
    board = order.index(wood)
    free = {
        "sheet": even[..., len(order) - 1, :],
        "top": even[..., board, :] + slope[..., board, :],
        "bottom": even[..., board, :] - slope[..., board, :],
    }
    return stack, deformed, free


def _line(wood: Wood, sheet: Sheet, glue: Glue, *, both_sides: bool, held_flat: bool) -> Bond:
    """The glue line across the width; faced alike, each face works on half the board, which stays flat."""
    thickness = floats(wood.thickness_mm, "wood thickness")
    return bond(
        sheet.thickness_mm,
        sheet.modulus_across_mpa,
        sheet.through_shear_mpa,
        thickness / 2.0 if both_sides else thickness,
        wood.modulus_across_mpa,
        wood.rolling_shear_mpa,
        glue.thickness_mm,
        glue.shear_modulus_mpa,
        held_flat=both_sides or held_flat,
    )


def _layers(values: list[ArrayLike]) -> Floats:
    return np.stack(np.broadcast_arrays(*(np.asarray(value, float) for value in values)), axis=-1)


def _pairs(values: list[tuple[ArrayLike, ArrayLike]]) -> Floats:
    return np.stack(np.broadcast_arrays(*(_layers([along, across]) for along, across in values)), axis=-2)
