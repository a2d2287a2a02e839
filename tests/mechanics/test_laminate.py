"""Laws of the laminate: symmetry, turning over, splitting; a library and finite elements beside it."""

import warnings

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.mechanics.laminate import (
    FREE,
    HELD_FLAT,
    Plies,
    deform,
    even_strain,
    free_bending_stiffness,
    free_resultants,
    holding_moments,
    isotropic,
    laminate,
    sloping_strain,
    strip,
)
from evenface.mechanics.rise import bow_mm, fourth_corner_mm

layer = st.tuples(
    st.floats(0.1, 20), st.floats(1000, 16_000), st.floats(400, 12_000), st.floats(0.02, 0.2),
    st.floats(300, 5000), st.floats(-90, 90), st.floats(-1e-3, 1e-3), st.floats(-4e-3, 4e-3),
)  # fmt: skip
stacks = st.lists(layer, min_size=1, max_size=6)


def curvature(layers: list[tuple[float, ...]], held: tuple[bool, bool, bool] = FREE) -> np.ndarray:
    columns = np.array(layers).T
    plies = Plies(*columns[:6])
    built = laminate(plies)
    N, M = free_resultants(built, *even_strain(columns[6:].T, plies.thickness_mm))
    return deform(built, N, M, held).curvature_per_mm


def size(layers: list[tuple[float, ...]]) -> float:
    columns = np.array(layers).T
    return float(np.abs(columns[6:]).max() / columns[0].sum())


@settings(max_examples=40, deadline=None)
@given(stacks)
def test_symmetric_stack_stays_flat(layers: list[tuple[float, ...]]) -> None:
    assert np.max(np.abs(curvature([*layers, *layers[::-1]]))) * 1000 < 1e-9


@settings(max_examples=40, deadline=None)
@given(stacks)
def test_turning_over_flips_the_sign(layers: list[tuple[float, ...]]) -> None:
    assert curvature(layers[::-1]) == pytest.approx(-curvature(layers), abs=1e-9 * size(layers) + 1e-18)


@settings(max_examples=40, deadline=None)
@given(stacks, st.floats(0.1, 0.9), st.integers(0, 5))
def test_splitting_a_layer_changes_nothing(layers: list[tuple[float, ...]], share: float, at: int) -> None:
    at %= len(layers)
    thickness, *rest = layers[at]
    parts = [(share * thickness, *rest), ((1 - share) * thickness, *rest)]
    split = [*layers[:at], *parts, *layers[at + 1 :]]
    assert curvature(split) == pytest.approx(curvature(layers), abs=1e-9 * size(layers) + 1e-18)


def test_splitting_a_slope_changes_nothing() -> None:
    whole, parts = (
        isotropic([10.0, 1.0], [3000, 9000], 0.3),
        isotropic([4.0, 6.0, 1.0], [3000, 3000, 9000], 0.3),
    )
    e0, e1, top = 1e-4, 9e-4, 3e-4
    cut = e0 + 0.4 * (e1 - e0)
    answers = []
    for plies, low, high in ((whole, [e0, top], [e1, top]), (parts, [e0, cut, top], [cut, e1, top])):
        pair = [np.repeat(np.array(v)[:, None], 2, 1) for v in (low, high)]
        built = laminate(plies)
        N, M = free_resultants(built, *sloping_strain(*pair, plies.thickness_mm))
        answers.append(deform(built, N, M).curvature_per_mm)
    assert answers[0] == pytest.approx(answers[1], rel=1e-12)


def test_a_quarter_turn_swaps_the_axes_and_leading_axes_broadcast() -> None:
    angles = np.array([[0.0, 10.0, 0.0], [90.0, 100.0, 90.0]])
    plies = Plies(
        [2.0, 16.0, 0.8], [9e3, 3e3, 12e3], [1e3, 3e3, 9e3], [0.1, 0.3, 0.3], [600, 1150, 4e3], angles
    )
    built = laminate(plies)
    N, M = free_resultants(
        built, *even_strain([[1e-4, 2e-3], [5e-4, 5e-4], [3e-4, 8e-4]], plies.thickness_mm)
    )
    one, turned = deform(built, N, M).curvature_per_mm
    assert turned == pytest.approx([one[1], one[0], -one[2]], rel=1e-9)


def test_moments_that_hold_it_flat_are_those_of_its_free_curvature() -> None:
    plies = Plies([2.0, 16.0, 0.8], [9e3, 3e3, 12e3], [1e3, 3e3, 9e3], [0.1, 0.3, 0.3], [600, 1150, 4e3], 0.0)
    built = laminate(plies)
    N, M = free_resultants(
        built, *even_strain([[1e-4, 2e-3], [5e-4, 5e-4], [3e-4, 8e-4]], plies.thickness_mm)
    )
    free, flat = deform(built, N, M), deform(built, N, M, HELD_FLAT)
    assert np.max(np.abs(flat.curvature_per_mm)) == 0.0
    assert holding_moments(built, free.curvature_per_mm) == pytest.approx(flat.holding_moment_N, rel=1e-9)
    assert np.all(np.linalg.eigvalsh(free_bending_stiffness(built)) > 0)


def test_bow_grows_with_the_square_of_the_length_and_the_corner_is_half_twist() -> None:
    assert float(bow_mm(2e-5, 2400.0)) == pytest.approx(4 * float(bow_mm(2e-5, 1200.0)), rel=1e-14)
    twist, L, W, bow, cup = 3e-5, 500.0, 350.0, 1e-5, -2e-5

    def w(x: float, y: float) -> float:
        return -0.5 * (bow * x * x + cup * y * y + twist * x * y)

    off_plane = w(L, W) - (w(L, 0) + w(0, W) - w(0, 0))
    assert -off_plane == pytest.approx(float(fourth_corner_mm(twist, L, W)), rel=1e-12)


def test_wrong_layers_are_named() -> None:
    with pytest.raises(ValueError, match=r"thickness_mm: expected every value above 0"):
        isotropic([0.8, 0.0], [1e4, 3e3], 0.3)
    with pytest.raises(ValueError, match=r"nu12: expected 2 layers"):
        Plies([0.8, 18.0], [1e4, 3e3], [1e4, 3e3], [0.3, 0.3, 0.3], [4e3, 1e3], 0.0)
    with pytest.raises(ValueError, match=r"nu12² · E2 < E1"):
        Plies([1.0], [1000.0], [9000.0], [0.4], [500.0], [0.0])


@pytest.mark.parametrize("seed", range(5))
def test_stiffness_agrees_with_an_independent_laminate_library(seed: int) -> None:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from composipy import LaminateProperty, OrthotropicMaterial
    rng = np.random.default_rng(seed)
    count = 3 + seed
    thickness, angle = rng.uniform(0.3, 9, count), rng.uniform(-90, 90, count)
    E1, E2 = rng.uniform(5e3, 15e3, count), rng.uniform(400, 5e3, count)
    nu, G = rng.uniform(0.05, 0.4, count), rng.uniform(400, 4e3, count)
    materials = [OrthotropicMaterial(*map(float, row)) for row in zip(E1, E2, nu, G, thickness, strict=True)]
    # the library knows no free strains, so it is asked for stiffness only
    other = LaminateProperty(angle.tolist(), materials)
    own = laminate(Plies(thickness, E1, E2, nu, G, angle))
    for mine, theirs in ((own.A, other.A), (own.B, other.B), (own.D, other.D)):
        assert mine == pytest.approx(np.asarray(theirs), rel=1e-6, abs=1e-6 * np.abs(mine).max())


BUILD_UPS = [
    ([18.0, 0.8], [3000.0, 10_000.0], [-0.00065, -0.0015]),
    ([0.5, 16.0, 0.8], [8000.0, 2800.0, 12_000.0], [-0.0016, -0.0007, -0.0011]),
    ([2.0, 12.0, 6.0, 0.7], [200.0, 7000.0, 3500.0, 9500.0], [0.0012, 0.0004, -0.0003, 0.0008]),
    ([0.8, 0.3, 22.0, 1.2], [11_000.0, 500.0, 2600.0, 14_000.0], [0.0009, 0.0, 0.0005, 0.0014]),
    ([9.0, 3.0, 1.5, 4.0, 0.6], [6000.0, 900.0, 12_000.0, 3000.0, 8000.0], [1e-4, 3e-3, -2e-4, 6e-4, 1.1e-3]),
    ([6.0, 2.0], [2700.0, 150.0], [0.0005, 0.0015]),
]


@pytest.mark.parametrize(("thickness", "moduli", "strains"), BUILD_UPS)
def test_strip_agrees_with_finite_elements(
    thickness: list[float], moduli: list[float], strains: list[float]
) -> None:
    """Plane stress, quadratic quadrilaterals, one layer of them in each layer, half of the length."""
    free = np.repeat(np.array(strains)[:, None], 2, 1)
    _, expected = strip(isotropic(thickness, moduli, 0.3), *even_strain(free, thickness))
    assert fe_curvature(thickness, moduli, strains) == pytest.approx(float(expected), rel=1e-3)


def fe_curvature(thickness: list[float], moduli: list[float], strains: list[float], nu: float = 0.3) -> float:
    import skfem
    from skfem.helpers import ddot, sym_grad, trace

    z = np.concatenate([[0.0], np.cumsum(thickness)])
    length = 10 * z[-1]
    mesh = skfem.MeshQuad.init_tensor(np.linspace(0, length, 41), z)
    basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementQuad2()))
    of = np.searchsorted(z, mesh.p[1][mesh.t].mean(axis=0)) - 1
    E, e = np.array(moduli)[of][:, None], np.array(strains)[of][:, None]
    mu, lam = E / (2 * (1 + nu)), E * nu / (1 - nu**2)

    @skfem.BilinearForm
    def stiffness(u, v, _):  # type: ignore[no-untyped-def]
        return 2 * mu * ddot(sym_grad(u), sym_grad(v)) + lam * trace(sym_grad(u)) * trace(sym_grad(v))

    @skfem.LinearForm
    def pull(v, _):  # type: ignore[no-untyped-def]
        return (2 * mu + 2 * lam) * e * trace(sym_grad(v))

    left = basis.get_dofs(lambda x: np.abs(x[0]) < 1e-9)
    corner = basis.get_dofs(lambda x: (np.abs(x[0]) < 1e-9) & (np.abs(x[1]) < 1e-9))
    fixed = np.concatenate([left.all(["u^1"]), corner.all(["u^2"])])
    u = skfem.solve(*skfem.condense(stiffness.assemble(basis), pull.assemble(basis), D=fixed))
    # slope of the middle: u_x over the height at 0.3 of the length, from the two faces of the board
    here = mesh.p[0] == mesh.p[0][np.argmin(np.abs(mesh.p[0] - 0.3 * length))]
    nodes = np.flatnonzero(here)
    low, high = nodes[np.argmin(mesh.p[1][nodes])], nodes[np.argmax(mesh.p[1][nodes])]
    ux = u[basis.nodal_dofs[0]]
    return float((ux[high] - ux[low]) / z[-1] / mesh.p[0][low])
