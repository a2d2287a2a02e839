"""Moisture and warp through time: the two fast paths, the march, and the laws they must keep."""

from dataclasses import replace

import numpy as np
import pytest

from evenface.mechanics import (
    HELD_ACROSS,
    Climate,
    GlueWater,
    Isotherm,
    Relaxation,
    SoftGlue,
    Stack,
    Warp,
    days_from_monthly_means,
    deform,
    even_strain,
    first_years,
    free_resultants,
    laminate,
    layer_stresses,
    saturation_pressure_pa,
    settled_year,
)
from evenface.mechanics.arrays import even_function_ratio
from evenface.mechanics.laminate import strip
from evenface.mechanics.march import march
from evenface.mechanics.marched import marched_years
from evenface.mechanics.modal import straight_step
from evenface.mechanics.response import relax
from evenface.mechanics.vapour import air_permeability
from evenface.mechanics.weights import curvature_weights, glue_line_share

DAY = np.arange(365) / 365


def layers(*rows: tuple[float, ...], films: tuple[float, float] = (0.0, 0.0)) -> Stack:
    return Stack(*np.array(rows).T, np.asarray(films[0]), np.asarray(films[1]))


#            mm    E1      E2     nu   G     angle  move 1   move 2  μ       storage
LAMINATE = (0.8, 12_000.0, 9_500.0, 0.3, 4_000.0, 0.0, 0.0035, 0.0075, 17_000.0, 84.0)
PLYWOOD = (18.0, 8_700.0, 7_500.0, 0.05, 1_000.0, 0.0, 0.0035, 0.0040, 120.0, 117.0)
FIBREBOARD = (18.0, 3_000.0, 3_000.0, 0.25, 1_200.0, 0.0, 0.0050, 0.0050, 25.0, 74.0)
LINOLEUM = (2.0, 150.0, 150.0, 0.4, 53.0, 0.0, 0.0100, 0.0100, 900.0, 72.0)
BACKER = (0.5, 9_000.0, 7_000.0, 0.3, 3_000.0, 0.0, 0.0035, 0.0075, 12_000.0, 78.0)


def year(seed: int = 3) -> Climate:
    noise = np.random.default_rng(seed).standard_normal(365)
    weather = np.fft.irfft(np.fft.rfft(noise) / (1 + np.arange(183) / 20), 365)
    return Climate(0.45 + 0.14 * np.cos(2 * np.pi * (DAY - 0.6)) + 0.04 * weather)


UNEQUAL = {
    "laminate on plywood": layers(PLYWOOD, LAMINATE),
    "laminate on fibreboard, lacquered below": layers(FIBREBOARD, LAMINATE, films=(2.0, 0.0)),
    "linoleum over plywood with a backer": layers(BACKER, PLYWOOD, LINOLEUM, films=(0.05, 0.3)),
}


def swing(warp: Warp) -> float:
    return float(np.abs(warp.curvature_per_mm).max())


@pytest.mark.parametrize("stack", UNEQUAL.values(), ids=UNEQUAL)
def test_settled_year_is_where_the_first_years_end(stack: Stack) -> None:
    other = Climate(0.9 - year().humidity)
    settled = settled_year(stack, year(), other, 0.5)
    late = first_years(stack, year(), other, 0.5, days=365 * 14)
    gap = np.abs(late.curvature_per_mm[-365:] - settled.curvature_per_mm).max()
    assert gap < 1e-3 * swing(settled)
    # steps of daily weather live in a thin skin that cells resolve less well than exact layers do
    assert np.abs(late.layer_humidity[-365:] - settled.layer_humidity).max() < 1e-3
    assert np.abs(late.layer_tilt[-365:] - settled.layer_tilt).max() < 4e-3


@pytest.mark.parametrize("stack", UNEQUAL.values(), ids=UNEQUAL)
def test_march_and_modes_agree_where_both_apply(stack: Stack) -> None:
    fast = first_years(stack, year(), year(5), 0.5, days=150)
    run = march(stack, year(), year(5), 0.5, days=150)
    slow = marched_years(stack, run, year(), year(5), 0.5)
    # the first two days are a jump, which a march only approaches
    assert np.abs(slow.curvature_per_mm - fast.curvature_per_mm)[2:].max() < 1e-3 * swing(fast)


def test_modes_between_two_temperatures_agree_with_the_march() -> None:
    stack = layers(FIBREBOARD, LAMINATE)
    warm, cold = Climate(np.full(365, 0.30), np.asarray(23.0)), Climate(np.full(365, 0.85), np.asarray(3.0))
    fast = first_years(stack, warm, cold, 0.5, days=120)
    run = march(stack, warm, cold, 0.5, days=120)
    slow = marched_years(stack, run, warm, cold, 0.5)
    assert np.abs(slow.curvature_per_mm - fast.curvature_per_mm)[2:].max() < 1e-3 * swing(fast)
    settled = settled_year(stack, warm, cold, 0.5)
    late = first_years(stack, warm, cold, 0.5, days=3000)
    assert late.curvature_per_mm[-1] == pytest.approx(settled.curvature_per_mm[-1], abs=2e-3 * swing(settled))
    # vapour flows from the dry warm room to the damp cold side
    assert run.inflow_kg_m2[-1, 1] - run.inflow_kg_m2[60, 1] > 0


def test_water_is_neither_made_nor_lost() -> None:
    damp = Isotherm(np.array([0, 0.2, 0.5, 0.8, 0.95]), np.array([0, 30.0, 55.0, 95.0, 160.0]))
    stack = layers(FIBREBOARD, LAMINATE, films=(0.1, 0.0))
    run = march(
        stack,
        year(),
        year(8),
        np.array([0.6, 0.4]),
        [GlueWater(1, 0.075, 3.0)],
        wet_resistance=np.array([15.0, 14_000.0]),
        isotherms=[damp, None],
        days=90,
    )
    gained = run.water_kg_m2.sum(axis=1) - run.water_kg_m2[0].sum()
    assert np.abs(gained - run.inflow_kg_m2.sum(axis=1)).max() < 1e-8 * run.water_kg_m2[0].sum()
    dry = march(stack, year(), year(8), np.array([0.6, 0.4]), isotherms=[damp, None], days=1)
    assert run.water_kg_m2[0].sum() - dry.water_kg_m2[0].sum() == pytest.approx(0.075, rel=1e-10)
    # the isotherm holds between its points: stored water read back from the humidity
    inner = run.cells.layer == 0
    content = damp.curve()[0](np.clip(run.humidity[-1, inner], 0, 0.95)) * 1e-3 * run.cells.width_mm[inner]
    assert content == pytest.approx(run.water_kg_m2[-1, inner], rel=1e-8)


def test_steady_flow_through_a_board_that_opens_with_humidity() -> None:
    """Flux = δ_air·p_sat/h · ∫ dφ/μ(φ) in closed form for log μ straight in φ."""
    dry, wet, low, high = 200.0, 20.0, 0.3, 0.7
    stack = layers((18.0, *FIBREBOARD[1:8], dry, 74.0))
    run = march(
        stack, Climate(np.full(60, high)), Climate(np.full(60, low)), 0.5,
        wet_resistance=np.array([wet]), days=60, steps_per_day=2,
    )  # fmt: skip
    rate = np.log(dry / wet) / 0.5
    open_ = (np.exp(rate * (high - 0.25)) - np.exp(rate * (low - 0.25))) / (rate * dry)
    expected = float(air_permeability(20.0) * saturation_pressure_pa(20.0)) / 0.018 * open_
    per_day = np.diff(run.inflow_kg_m2[-2:], axis=0)[0]
    assert per_day == pytest.approx([-expected, expected], rel=1e-3)


def test_the_march_converges_in_time_and_space() -> None:
    damp = Isotherm(np.array([0, 0.2, 0.5, 0.8, 0.95]), np.array([0, 30.0, 55.0, 95.0, 160.0]))
    stack = layers(FIBREBOARD, LAMINATE)

    def bow(steps: int, cells: int) -> np.ndarray:
        run = march(
            stack, year(), year(8), 0.5, wet_resistance=np.array([12.0, 9000.0]),
            isotherms=[damp, None], days=40, steps_per_day=steps, cells=cells,
        )  # fmt: skip
        return marched_years(stack, run, year(), year(8), 0.5).curvature_per_mm[1:]

    fine = bow(8, 120)
    assert np.abs(bow(4, 60) - fine).max() < 2e-3 * np.abs(fine).max()


def test_swelling_by_stored_water_equals_swelling_by_humidity_when_storage_is_even() -> None:
    stack = layers(FIBREBOARD, LAMINATE)
    run = march(stack, year(), year(8), 0.45, [GlueWater(1, 0.05, 3.0)], days=30)
    by_water = marched_years(stack, run, year(), year(8), 0.45, by_water=True)
    by_air = marched_years(stack, run, year(), year(8), 0.45)
    assert by_water.curvature_per_mm == pytest.approx(by_air.curvature_per_mm, abs=5e-3 * swing(by_air))
    fast = first_years(stack, year(), year(8), 0.45, [GlueWater(1, 0.05, 3.0)], water_held=0.0, days=30)
    assert by_air.curvature_per_mm[0] == pytest.approx(fast.curvature_per_mm[0], rel=1e-9, abs=1e-15)


def test_sealed_all_round_keeps_its_water_and_evens_out() -> None:
    stack = layers(FIBREBOARD, LAMINATE)
    warp = first_years(stack, None, None, np.array([0.6, 0.4]), days=3000)
    capacity = stack.thickness_mm * stack.storage_kg_m3
    total = warp.layer_humidity @ capacity
    assert total == pytest.approx(np.full(3000, total[0]), rel=1e-9)
    assert warp.layer_humidity[-1] == pytest.approx([total[0] / capacity.sum()] * 2, rel=1e-6)
    with pytest.raises(ValueError, match="sealed all round never settles"):
        settled_year(stack, None, None, 0.5)


def test_symmetric_panel_in_even_air_stays_flat_on_both_paths() -> None:
    stack = layers(LAMINATE, PLYWOOD, LAMINATE)
    assert swing(settled_year(stack, year(), year(), 0.5)) * 1000 < 1e-9
    assert swing(first_years(stack, year(), year(), 0.5)) * 1000 < 1e-9
    cold_sheet = first_years(stack, year(), year(), np.array([0.45, 0.45, 0.6]))
    assert swing(cold_sheet) * 1000 > 1e-4


def test_turning_the_panel_over_flips_the_sign() -> None:
    stack, turned = layers(BACKER, PLYWOOD, LINOLEUM), layers(LINOLEUM, PLYWOOD, BACKER)
    for run in (settled_year, first_years):
        one, two = run(stack, year(), year(4), 0.5), run(turned, year(4), year(), 0.5)
        assert one.curvature_per_mm == pytest.approx(-two.curvature_per_mm, abs=1e-9 * swing(one))


def test_splitting_a_layer_changes_nothing_in_the_settled_year() -> None:
    part = (6.0, *PLYWOOD[1:])
    rest = (12.0, *PLYWOOD[1:])
    whole = settled_year(layers(PLYWOOD, LAMINATE), year(), year(4), 0.5)
    split = settled_year(layers(rest, part, LAMINATE), year(), year(4), 0.5)
    assert split.curvature_per_mm == pytest.approx(whole.curvature_per_mm, abs=1e-9 * swing(whole))


def test_laminate_on_one_face_first_bows_one_way_and_later_the_other() -> None:
    """Dry air: the bare side of the board shrinks first, then the laminate, which moves more, wins."""
    stack = layers(FIBREBOARD, (*LAMINATE[:6], 0.0075, 0.0075, 17_000.0, 84.0))
    air = Climate(np.full(365, 0.35))
    fast = first_years(stack, air, air, 0.5, days=365)
    bow = fast.curvature_per_mm[:, 0]
    flat_days = np.flatnonzero(np.diff(np.sign(bow[1:]))) + 1
    assert bow[1] > 1e-6
    assert bow[-1] < -5e-6
    assert flat_days.size == 1
    run = march(stack, air, air, 0.5, days=60)
    slow = marched_years(stack, run, air, air, 0.5).curvature_per_mm[:, 0]
    day = flat_days[0]
    assert slow[day] * slow[day + 1] < 0
    # the end is the even state of lamination theory
    built = laminate(stack.plies)
    strain = -0.15 * np.stack([stack.expansion_1, stack.expansion_2], axis=-1)
    ended = deform(built, *free_resultants(built, *even_strain(strain, stack.thickness_mm)))
    last = first_years(stack, air, air, 0.5, days=2000).curvature_per_mm[-1]
    assert last == pytest.approx(ended.curvature_per_mm, rel=1e-4, abs=1e-12)


def test_glue_water_bows_the_panel_and_dries_away() -> None:
    stack = layers(FIBREBOARD, LAMINATE)
    air = Climate(np.full(365, 0.5))
    water = [GlueWater(1, 0.06, 3.0)]
    pressed_wet = first_years(stack, air, air, 0.5, water, days=600)
    wetted_later = first_years(stack, air, air, 0.5, water, water_held=0.0, days=600)
    wet, late = pressed_wet.curvature_per_mm[:, 0], wetted_later.curvature_per_mm[:, 0]
    assert wet[0] == pytest.approx(0.0, abs=1e-15)
    assert late[0] > 1e-5
    assert late - wet == pytest.approx(np.full(600, late[0]), rel=1e-9)
    assert wet[-1] == pytest.approx(-late[0], rel=1e-3)


def test_stresses_close_and_match_the_even_state() -> None:
    stack = layers(FIBREBOARD, LAMINATE)
    air = Climate(np.full(365, 0.35))
    stress = layer_stresses(stack, first_years(stack, air, air, 0.5, days=40), 0.5)
    h = stack.thickness_mm
    force = (stress * (0.5 * h[:, None, None])).sum(axis=(1, 2))
    assert np.abs(force).max() < 1e-9 * np.abs(stress).max() * h.sum()
    held = first_years(stack, air, air, 0.5, days=40, held=HELD_ACROSS)
    assert np.abs(held.curvature_per_mm[:, 1:]).max() == 0.0
    assert np.abs(held.curvature_per_mm[-1, 0]) > 0.0


def test_relaxation_ends_at_its_share_on_both_paths() -> None:
    slow = Relaxation(0.7, 60.0)
    stack = layers(PLYWOOD, LAMINATE)
    settled = settled_year(stack, year(), year(), 0.5, relaxation=slow)
    late = first_years(stack, year(), year(), 0.5, relaxation=slow, days=365 * 14)
    assert late.curvature_per_mm[-365:] == pytest.approx(settled.curvature_per_mm, abs=1e-3 * swing(settled))
    steady = relax(np.ones((1000, 3)), slow)
    assert steady[0] == pytest.approx([1.0] * 3)
    assert steady[60] == pytest.approx([0.7 + 0.3 * np.exp(-1)] * 3, rel=1e-12)


def test_soft_glue_runs_from_sliding_to_rigid() -> None:
    stack = layers(PLYWOOD, LAMINATE)
    rigid = curvature_weights(stack)[0]
    for modulus, expected in ((1e7, rigid), (1e-9, np.zeros_like(rigid))):
        soft = curvature_weights(stack, soft_glue=[SoftGlue(1, modulus, 0.1)], size_mm=(1000.0, 600.0))[0]
        assert soft == pytest.approx(expected, abs=1e-3 * np.abs(rigid).max())
    with pytest.raises(ValueError, match="length, width"):
        curvature_weights(stack, soft_glue=[SoftGlue(1, 1.0, 0.1)])


def test_soft_glue_share_against_a_solved_slip_beam() -> None:
    """The slip equation of two beams solved by finite differences, glue soft enough to matter."""
    modulus, h = np.array([3000.0, 11_000.0]), np.array([16.0, 0.8])
    glue, span = SoftGlue(1, 0.05, 0.2), 600.0
    EA, EI, d = modulus * h, modulus * h**3 / 12, h.sum() / 2
    count = 2001
    x = np.linspace(-span / 2, span / 2, count)
    step = x[1] - x[0]
    slip = glue.shear_modulus_MPa / glue.thickness_mm
    inner = np.arange(1, count - 1)
    matrix = np.zeros((count, count))
    matrix[[0, -1], [0, -1]] = 1.0
    matrix[inner, inner] = -2 / step**2 - slip * ((1 / EA).sum() + d**2 / EI.sum())
    matrix[inner, inner - 1] = matrix[inner, inner + 1] = 1 / step**2
    right = np.zeros(count)
    right[inner] = slip * 1e-3
    force = np.linalg.solve(matrix, right)
    curvature = force * d / EI.sum()
    half = slice(count // 2, None)
    bow = np.trapezoid(curvature[half] * (span / 2 - x[half]), x[half])
    _, full = strip(
        replace(layers(FIBREBOARD, LAMINATE).plies, thickness_mm=h, E1_MPa=modulus, E2_MPa=modulus),
        *even_strain([[0.0, 0.0], [1e-3, 1e-3]], h),
    )
    share = glue_line_share(modulus, h, glue, span)
    assert abs(bow) / (float(full) * span**2 / 8) == pytest.approx(float(share), rel=1e-3)
    assert 0.1 < float(share) < 0.9


@pytest.mark.parametrize("x", [0.0, 3e-4, 9.99e-4, 1.01e-3, 0.3, 40.0])
def test_one_straight_step_against_quadrature(x: float) -> None:
    s = np.linspace(0.0, 1.0, 20_001)
    at_start, at_end = straight_step(np.array(x))
    fall = np.exp(-x * (1 - s))
    assert float(at_start) == pytest.approx(np.trapezoid(fall * (1 - s), s), rel=2e-6)
    assert float(at_end) == pytest.approx(np.trapezoid(fall * s, s), rel=2e-6)


@pytest.mark.parametrize("x", [1e-9, 0.02 + 0.02j, 0.031 + 0.031j, 1 + 1j, 300 + 300j])
def test_functions_of_a_layer_against_their_definitions(x: complex) -> None:
    seen = [complex(v) for v in even_function_ratio(np.array(x, dtype=np.complex128))]
    if abs(x) > 100:
        expected = [2 * x, 0.0, 1 / x, (x - 1) / x**2]
    elif abs(x) < 1e-6:
        expected = [1.0, 1.0, 1.0, 1 / 3]
    else:
        coth = np.cosh(x) / np.sinh(x)
        twice = np.cosh(2 * x) / np.sinh(2 * x)
        expected = [2 * x * twice, 2 * x / np.sinh(2 * x), np.tanh(x) / x, (x * coth - 1) / x**2]
    assert seen == pytest.approx(expected, rel=1e-8, abs=1e-12)


def test_monthly_means_come_back() -> None:
    months = np.array([0.31, 0.3, 0.33, 0.38, 0.45, 0.52, 0.58, 0.6, 0.55, 0.47, 0.4, 0.34])
    days = days_from_monthly_means(months, 1200)
    edges = np.concatenate([days, days[:1]])
    means = [np.trapezoid(edges[100 * i : 100 * i + 101]) / 100 for i in range(12)]
    assert means == pytest.approx(months, abs=1e-5)


def test_wrong_input_is_named() -> None:
    with pytest.raises(ValueError, match="fractions between 0 and 1"):
        Climate(np.full(12, 45.0))
    with pytest.raises(ValueError, match="expected 2 layers"):
        settled_year(layers(PLYWOOD, LAMINATE), year(), year(), np.array([0.5, 0.5, 0.5]))
    with pytest.raises(ValueError, match="interface from 1 to 1"):
        first_years(layers(PLYWOOD, LAMINATE), year(), year(), 0.5, [GlueWater(2, 0.1, 1.0)])
    with pytest.raises(ValueError, match="storage_kg_m3: expected every value above 0"):
        layers((*PLYWOOD[:9], 0.0))
