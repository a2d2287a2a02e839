"""Laws of sections and spans."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri, condense, solve
from skfem.helpers import dd, ddot, eye, trace

from evenface.mechanics.sag import (
    Held,
    crept,
    longest_span,
    sag_at_loaded_edge,
    sag_under_even_load,
    sag_under_point_load,
    section,
    stress_per_moment,
)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.floats(5, 400), st.floats(2, 40), st.floats(500, 14_000)), min_size=1, max_size=4),
    st.floats(-30, 30),
)
def test_section_does_not_care_where_it_is_measured_from(
    parts: list[tuple[float, float, float]], shift: float
) -> None:
    b, h, E = (np.array(column) for column in zip(*parts, strict=True))
    z = np.cumsum(h) - h / 2
    here, there = section(b, h, z, E), section(b, h, z + shift, E)
    assert float(there.stiffness) == pytest.approx(float(here.stiffness), rel=1e-9)
    assert float(there.neutral_mm) == pytest.approx(float(here.neutral_mm) + shift, rel=1e-9, abs=1e-9)


def test_cutting_a_layer_in_two_changes_nothing() -> None:
    whole = section([300.0], [18.0], [9.0], [3_000.0])
    cut = section([300.0, 300.0], [7.0, 11.0], [3.5, 12.5], [3_000.0, 3_000.0])
    assert float(cut.stiffness) == pytest.approx(float(whole.stiffness), rel=1e-12)
    assert float(whole.stiffness) == pytest.approx(3_000 * 300 * 18**3 / 12, rel=1e-12)


def test_edging_below_the_shelf_stiffens_and_moves_the_neutral_axis() -> None:
    """Carrier 250 × 18, edging 20 × 45 hanging under its front: by the sums written out."""
    part = section([250.0, 20.0], [18.0, 45.0], [36.0, 22.5], [3_000.0, 12_000.0])
    EA1, EA2 = 3_000 * 250 * 18, 12_000 * 20 * 45
    neutral = (EA1 * 36 + EA2 * 22.5) / (EA1 + EA2)
    EI = EA1 * (18**2 / 12 + (36 - neutral) ** 2) + EA2 * (45**2 / 12 + (22.5 - neutral) ** 2)
    assert float(part.neutral_mm) == pytest.approx(neutral, rel=1e-12)
    assert float(part.stiffness) == pytest.approx(EI, rel=1e-12)


def test_stress_over_the_section_is_the_moment() -> None:
    part = section([250.0, 250.0], [18.0, 0.8], [9.0, 18.4], [3_000.0, 10_000.0])
    total = 0.0
    for bottom, top, E in ((0.0, 18.0, 3_000.0), (18.0, 18.8, 10_000.0)):
        z = np.linspace(bottom, top, 2_001)
        stress = stress_per_moment(part, z, E)
        total += np.trapezoid(stress * (float(part.neutral_mm) - z) * 250, z)
    assert total == pytest.approx(1.0, rel=1e-6)
    assert float(stress_per_moment(part, 0.0, 3_000.0)) > 0  # the underside of a sagging shelf is pulled


def test_creep_of_one_material_and_of_a_mixed_section() -> None:
    plain = section([250.0], [18.0], [9.0], [3_000.0])
    slow = section([250.0], [18.0], [9.0], [3_000.0], creep=[2.25])
    sag = float(sag_under_even_load(0.3, 800, plain.stiffness))
    assert float(sag_under_even_load(0.3, 800, slow.stiffness)) == pytest.approx(float(crept(sag, 2.25)))
    args = ([250.0, 20.0], [18.0, 45.0], [36.0, 22.5], [3_000.0, 12_000.0])
    gain = float(section(*args).stiffness) / float(section(*args, creep=[2.25, 0.6]).stiffness)
    assert 1.6 < gain < 3.25  # between the edging's creep and the carrier's


@settings(max_examples=40)
@given(st.floats(0.0, 1.0), st.sampled_from([Held.RESTING, Held.FIXED]))
def test_point_load_mirrors_and_the_middle_is_worst(place: float, held: Held) -> None:
    here = float(sag_under_point_load(90, 700, 2e9, held, at_mm=place * 700))
    there = float(sag_under_point_load(90, 700, 2e9, held, at_mm=700 - place * 700))
    assert here == pytest.approx(there, rel=1e-6, abs=1e-12)
    assert here <= float(sag_under_point_load(90, 700, 2e9, held)) * (1 + 1e-9)


def test_longest_span_just_sags_so_much() -> None:
    for held in Held:
        span = longest_span(0.3, 5e8, 1 / 300, held)
        assert float(sag_under_even_load(0.3, span, 5e8, held)) == pytest.approx(float(span) / 300, rel=1e-9)


def test_torsion_of_a_bar() -> None:
    """St. Venant's square 0.1406·a⁴ and a 10:1 strip 0.3123·b·t³, both to 0.5 % as the fit claims."""
    square = section([20.0], [20.0], [10.0], [1.0], shear_modulus_mpa=[1.0])
    strip = section([200.0], [20.0], [10.0], [1.0], shear_modulus_mpa=[1.0])
    assert float(square.torsion) == pytest.approx(0.1406 * 20**4, rel=5e-3)
    assert float(strip.torsion) == pytest.approx(0.3123 * 200 * 20**3, rel=5e-3)


def plate_edge_deflection(length: float, depth: float, thickness: float, E: float, nu: float) -> float:
    """Mid-span deflection of the front edge of a plate on bearers at both ends, 1 N along that edge."""
    mesh = MeshTri.init_tensor(np.linspace(0, length, 41), np.linspace(0, depth, 17))
    basis = Basis(mesh, ElementTriMorley())
    D = E * thickness**3 / (12 * (1 - nu**2))

    @BilinearForm
    def bending(u, v, _):  # type: ignore[no-untyped-def]
        strain = dd(u)
        return ddot(D * ((1 - nu) * strain + nu * eye(trace(strain), 2)), dd(v))

    @LinearForm
    def edge_load(v, _):  # type: ignore[no-untyped-def]
        return v / length

    front = basis.boundary(mesh.facets_satisfying(lambda x: np.isclose(x[1], 0), boundaries_only=True))
    ends = mesh.nodes_satisfying(lambda x: np.isclose(x[0], 0) | np.isclose(x[0], length))
    u = solve(*condense(bending.assemble(basis), edge_load.assemble(front), D=basis.nodal_dofs[0, ends]))
    middle = mesh.nodes_satisfying(lambda x: np.isclose(x[1], 0) & np.isclose(x[0], length / 2))
    return float(u[basis.nodal_dofs[0, middle]][0])


def test_edge_load_against_plate_elements() -> None:
    """A shelf 900 × 250 × 18 loaded along its front edge; a beam that turns is within 5 % of the plate."""
    part = section([250.0], [18.0], [9.0], [3_000.0], shear_modulus_mpa=[3_000 / 2.6])
    ours = float(sag_at_loaded_edge(1.0, 125, 900, part))
    plate = plate_edge_deflection(900, 250, 18, 3_000, 0.3)
    even = float(sag_under_even_load(1 / 900, 900, part.stiffness))
    assert ours == pytest.approx(plate, rel=0.05)
    assert plate > 1.05 * even  # the edge sags more than the even load would tell


def test_nonsense_is_refused() -> None:
    part = section([250.0], [18.0], [9.0], [3_000.0])
    with pytest.raises(ValueError, match="shear moduli"):
        sag_at_loaded_edge(100, 125, 900, part)
    with pytest.raises(ValueError, match="height_mm"):
        section([250.0], [0.0], [9.0], [3_000.0])
    with pytest.raises(ValueError, match="creep"):
        section([250.0], [18.0], [9.0], [3_000.0], creep=[-0.1])
    with pytest.raises(ValueError, match="at_mm"):
        sag_under_point_load(100, 900, 1e9, at_mm=901)
