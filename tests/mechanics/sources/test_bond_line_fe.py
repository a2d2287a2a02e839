"""Bond-line shear of a face on a carrier against finite elements.

E. Suhir, J. Appl. Mech. 53 (1986) 657-660 and 56 (1989) 595-600; W. T. Chen, C. W. Nelson, IBM J. Res.
Dev. 23 (1979) 179-188. MEMORY: the formulas. DERIVED: the finite-element values, plane stress, quadratic
elements, a real glue layer, mesh graded to the free end, two meshes agreeing to 1e-4; the FE shear is the
mean through the glue. Closed-form values are printed to five figures, hence 1e-4. The closed form leaves out
the glue's own stretching and the shear-free corner: 20 % of the FE peak, 1 % of its force.
"""

import numpy as np
import pytest

from evenface.mechanics.bond import Bond, bond, bond_end, shear_along
from evenface.mechanics.laminate import isotropic, strip

NU = 0.3


def shear_modulus(E: float) -> float:
    return E / (2 * (1 + NU))


def hpl_on_particleboard() -> Bond:
    return bond(0.8, 10_000, shear_modulus(10_000), 18, 3_000, shear_modulus(3_000), 0.1, 500)


def equal_layers_soft_glue() -> Bond:
    return bond(5, 10_000, shear_modulus(10_000), 5, 10_000, shear_modulus(10_000), 0.3, 20)


def test_thin_stiff_glue_closed_form() -> None:
    line = hpl_on_particleboard()
    end = bond_end(line, -0.00065 + 0.0015, 150)
    assert float(end.peak_shear_mpa) == pytest.approx(0.80196, rel=1e-4)
    assert float(end.build_up_mm) == pytest.approx(5.1602, rel=1e-4)
    assert float(end.face_force) == pytest.approx(4.13826, rel=1e-4)


def test_thin_stiff_glue_against_fe() -> None:
    end = bond_end(hpl_on_particleboard(), 0.00085, 150)
    assert float(end.peak_shear_mpa) == pytest.approx(0.9614, rel=0.20)
    assert float(end.face_force) == pytest.approx(4.1228, rel=0.01)


def test_equal_layers_soft_glue_closed_form_and_fe() -> None:
    end = bond_end(equal_layers_soft_glue(), 0.001, 100)
    assert float(end.peak_shear_mpa) == pytest.approx(0.60041, rel=1e-4)
    assert float(end.build_up_mm) == pytest.approx(9.5265, rel=1e-4)
    assert float(end.face_force) == pytest.approx(5.71946, rel=1e-4)
    assert float(end.peak_shear_mpa) == pytest.approx(0.58012, rel=0.06)
    assert float(end.face_force) == pytest.approx(5.71949, rel=0.01)


def test_what_goes_wrong_without_the_carriers_shear_or_without_bending() -> None:
    """The two simpler formulas, whose values were printed beside the cases to warn of them."""
    whole = hpl_on_particleboard()
    glue_only = Bond(whole.flexibility, whole.glue_compliance, whole.glue_compliance)
    assert float(bond_end(glue_only, 0.00085, 150).peak_shear_mpa) == pytest.approx(4.19376, rel=1e-4)
    soft = bond(5, 10_000, 1e12, 5, 10_000, 1e12, 0.3, 20, held_flat=True)
    stiff_layers = bond_end(soft, 0.001, 100)
    assert float(stiff_layers.peak_shear_mpa) == pytest.approx(1.29, abs=0.005)  # printed to two decimals
    assert float(stiff_layers.face_force) == pytest.approx(24.7, abs=0.06)  # printed to one decimal


@pytest.mark.parametrize(
    ("line", "difference", "half", "layers"),
    [
        (hpl_on_particleboard(), 0.00085, 150.0, ([18.0, 0.8], [3_000.0, 10_000.0], [-0.00065, -0.0015])),
        (equal_layers_soft_glue(), 0.001, 100.0, ([5.0, 5.0], [10_000.0, 10_000.0], [0.0, -0.001])),
    ],
)
def test_integral_of_shear_is_the_face_force_of_the_laminate(
    line: Bond, difference: float, half: float, layers: tuple[list[float], list[float], list[float]]
) -> None:
    """Equilibrium of the face. 1 %: the laminate here has no glue layer between, the closed form has its arm.

    The soft glue is 3 % of its stack, so its laminate is given the glue's thickness with next to no modulus.
    """
    end = bond_end(line, difference, half)
    force = difference / float(line.flexibility)
    x = np.linspace(0, half, 40_001)
    integral = np.trapezoid(shear_along(line, force, half, x), x)
    assert integral == pytest.approx(float(end.face_force), rel=1e-5)  # trapezoids

    (t2, t1), (E2, E1), (e2, e1) = layers
    glue = 0.1 if t1 < 1 else 0.3
    thickness = np.array([t2, glue, t1])
    free = np.array([e2, 0.0, e1])
    plies = isotropic(thickness, [E2, 1e-3, E1], NU)
    strain, curvature = strip(plies, (free * thickness)[:, None] * np.ones(2), np.zeros((3, 2)))
    middle_of_face = thickness.sum() / 2 - t1 / 2
    face_force = E1 * t1 * (strain + curvature * middle_of_face - e1)
    assert float(end.face_force) == pytest.approx(float(face_force), rel=0.01)
