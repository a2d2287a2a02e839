"""One year of one build-up, day by day: the fast paths against finite elements used well, in one run.

The peer is scikit-fem on the same one-dimensional problem: elements graded like our cells, assembled once,
two-stage L-stable steps of second order with both stages on one factorisation. Both are judged against
the same answer on a far finer mesh with far shorter steps. The peer takes the coarsest mesh and the longest
step that reach 1e-3, which ours must reach too. Run as a script; prints times, errors and the ratio.
"""

from __future__ import annotations

import time
from collections.abc import Callable

import numpy as np
import skfem
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu

from evenface.mechanics import Climate, Stack, Varied, first_years, sample_band, settled_year
from evenface.mechanics.cells import cell_fractions, counts_per_layer
from evenface.mechanics.vapour import air_permeability, saturation_pressure_pa
from evenface.mechanics.weights import curvature_weights

DAY = np.arange(365) / 365
ROWS = np.array(
    [
        # mm, E1, E2, nu, G, angle, movement 1 and 2, resistance, storage; bottom to top
        [0.5, 9_000, 7_000, 0.3, 3_000, 0, 0.0035, 0.0075, 12_000, 78],
        [0.1, 1_300, 1_300, 0.3, 500, 0, 0.0020, 0.0020, 5_000, 100],
        [6.0, 8_700, 7_500, 0.05, 1_000, 0, 0.0035, 0.0040, 120, 117],
        [12.0, 9_000, 7_000, 0.05, 1_000, 0, 0.0035, 0.0040, 100, 117],
        [0.1, 1_300, 1_300, 0.3, 500, 0, 0.0020, 0.0020, 5_000, 100],
        [2.0, 150, 150, 0.4, 53, 0, 0.0100, 0.0100, 900, 72],
    ]
)
STACK = Stack(*ROWS.T)
WEATHER = 0.45 + 0.13 * np.cos(2 * np.pi * (DAY - 0.6)) - 0.08 * np.exp(-(((DAY - 0.2) / 0.02) ** 2))
START, GAMMA = 0.5, 1.0 - np.sqrt(0.5)


def finite_elements(cells: int, steps_per_day: int, element: skfem.Element) -> np.ndarray:
    """κx and κy day by day; potential relative humidity, moments of it taken through the mass matrix."""
    counts = counts_per_layer(STACK, cells)
    widths = np.concatenate([h * cell_fractions(n) for h, n in zip(STACK.thickness_mm, counts, strict=True)])
    z = np.concatenate([[0.0], np.cumsum(widths)])
    layer = np.repeat(np.arange(STACK.layers), counts)
    basis = skfem.Basis(skfem.MeshLine(z), element)
    pick = layer[np.argsort(np.argsort(basis.mesh.p[0][basis.mesh.t].mean(axis=0)))][:, None]
    permeability = float(air_permeability(20.0) * saturation_pressure_pa(20.0)) * 1e3
    conduct, store = permeability / STACK.vapour_resistance[pick], 1e-3 * STACK.storage_kg_m3[pick]

    stiffness = skfem.BilinearForm(lambda u, v, w: conduct * u.grad[0] * v.grad[0]).assemble(basis)
    mass = skfem.BilinearForm(lambda u, v, w: store * u * v).assemble(basis)
    weight0, weight1 = curvature_weights(STACK)
    middle = np.cumsum(STACK.thickness_mm) - 0.5 * STACK.thickness_mm
    read = np.array(
        [
            skfem.LinearForm(
                lambda v, w, a=a, b=b: (a[pick] + b[pick] * (w.x[0] - middle[pick])) * v
            ).assemble(basis)
            for a, b in zip(weight0[:2], weight1[:2], strict=True)
        ]
    )
    ends = basis.get_dofs().all()
    inner = np.setdiff1d(np.arange(basis.N), ends)
    K, M = csc_matrix(stiffness), csc_matrix(mass)
    step = 1.0 / steps_per_day
    K_ii, K_ie, M_ii, M_ie = K[inner][:, inner], K[inner][:, ends], M[inner][:, inner], M[inner][:, ends]
    solver = splu(csc_matrix(M_ii + GAMMA * step * K_ii))
    drive, couple = np.asarray(K_ie.sum(axis=1)).ravel(), np.asarray(M_ie.sum(axis=1)).ravel()
    u = np.full(inner.size, START)
    read_i, read_e = read[:, inner], read[:, ends].sum(axis=1)
    reference = read.sum(axis=1) * START
    out = np.zeros((365, 2))
    air = WEATHER[0]
    for day in range(364):
        slope = WEATHER[day + 1] - WEATHER[day]
        for part in range(steps_per_day):
            # both faces carry the air's humidity; its rate enters through the mass matrix
            first_air = WEATHER[day] + slope * (part + GAMMA) * step
            air = WEATHER[day] + slope * (part + 1) * step
            k1 = solver.solve(-(K_ii @ u) - drive * first_air - couple * slope)
            k2 = solver.solve(-(K_ii @ (u + (1 - GAMMA) * step * k1)) - drive * air - couple * slope)
            u = u + step * ((1 - GAMMA) * k1 + GAMMA * k2)
        out[day + 1] = read_i @ u + read_e * air - reference
    return out


def median_ms(run: Callable[[], object], repeats: int = 25) -> float:
    run()
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        run()
        times.append(time.perf_counter() - start)
    return 1e3 * float(np.median(times))


def main() -> None:
    air = Climate(WEATHER)

    def modes(cells: int) -> np.ndarray:
        return first_years(STACK, air, air, START, days=365, cells=cells, with_layers=False).curvature_per_mm

    truth = finite_elements(160, 32, skfem.ElementLineP2())
    scale = np.abs(truth).max()
    apart = slice(3, None)  # the first two days are a jump between board and air

    def error(values: np.ndarray) -> float:
        return float(np.abs(values[:, :2] - truth)[apart].max() / scale)

    ours_ms, ours_error = median_ms(lambda: modes(72)), error(modes(72))
    print(f"{'one year, 6 layers, daily':44s} {'ms':>8s} {'error':>9s}")
    print(f"{'modes, 72 cells':44s} {ours_ms:8.2f} {ours_error:9.1e}")
    best = np.inf
    for name, element in (("P1", skfem.ElementLineP1()), ("P2", skfem.ElementLineP2())):
        for cells in (24, 40, 60, 90):
            for steps in (1, 2, 3, 4, 6):
                off = error(finite_elements(cells, steps, element))
                if off > 1e-3:
                    continue
                taken = median_ms(lambda c=cells, s=steps, e=element: finite_elements(c, s, e), 5)
                best = min(best, taken)
                label = f"scikit-fem {name}, {cells} elements, {steps} steps a day"
                print(f"{label:44s} {taken:8.2f} {off:9.1e}")
                break
    print(f"fastest peer within 1e-3 over ours: {best / ours_ms:.0f} x (bar: 20 x)")
    print(
        f"{'settled year, exact layers':44s} {median_ms(lambda: settled_year(STACK, air, air, START)):8.2f}"
    )
    varied = [
        Varied("top moves", "expansion_1", (5,), 0.010, 0.006, 0.016),
        Varied("board moves", "expansion_1", (2, 3), 0.0035, 0.0023, 0.0047),
        Varied("board moves across", "expansion_2", (2, 3), 0.0040, 0.0026, 0.0054),
        Varied("board stiffness", "E1_MPa", (2, 3), 9_000, 7_500, 10_500),
        Varied("board passes vapour", "vapour_resistance", (2, 3), 120, 60, 220),
        Varied("top passes vapour", "vapour_resistance", (5,), 900, 600, 1_400),
        Varied("board stores", "storage_kg_m3", (2, 3), 117, 95, 140),
        Varied("top at bonding", "humidity_at_bonding", (5,), 0.5, 0.42, 0.58, "normal"),
    ]
    band = median_ms(lambda: sample_band(STACK, air, air, START, varied))
    print(f"{'band of the settled year, 500 draws':44s} {band:8.2f}  (bar: 30 ms)")


if __name__ == "__main__":
    main()
