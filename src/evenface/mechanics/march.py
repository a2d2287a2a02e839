"""The reference: moisture marched implicitly with resistance and storage that depend on humidity.

Same cells as the fast path. Time steps by the two-stage singly diagonal implicit scheme of second order
(γ = 1 − 1/√2, L-stable, so a step in humidity does not ring); each stage by Newton. Water is counted, not
humidity, so what is stored is what flowed in. Temperatures of both faces may run through time; inside,
temperature is straight through the thickness at every instant (heat is thousands of times quicker).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike
from scipy.linalg import solve_banded

from evenface.mechanics.arrays import Floats
from evenface.mechanics.cells import Cells, cut_into_cells, face_temperatures
from evenface.mechanics.response import start_profiles
from evenface.mechanics.stack import Climate, GlueWater, Isotherm, Stack
from evenface.mechanics.vapour import DRY_CUP, WET_CUP, resistance_at, saturation_pressure_pa

GAMMA = 1.0 - np.sqrt(0.5)
NEWTON_ROUNDS = 40
FIRST_STEP_DAYS = 1e-4


@dataclass(frozen=True, slots=True, eq=False)
class March:
    """`days` (times,); `humidity`, `water_kg_m2` (times, cells); `inflow_kg_m2` (times, 2): water that has
    come in through the bottom and the top since the start; `cells` the grid."""

    days: Floats
    humidity: Floats
    water_kg_m2: Floats
    inflow_kg_m2: Floats
    cells: Cells


@dataclass(frozen=True, slots=True, eq=False)
class _Problem:
    grid: Cells
    dry: Floats
    wet: Floats
    water: Callable[[Floats], tuple[Floats, Floats]]
    air: Callable[[float], tuple[Floats, Floats, Floats]]


def march(
    stack: Stack,
    climate_top: Climate | None,
    climate_bottom: Climate | None,
    initial_humidities: ArrayLike,
    glue_water: Sequence[GlueWater] = (),
    *,
    wet_resistance: ArrayLike | None = None,
    isotherms: Sequence[Isotherm | None] = (),
    days: int = 365,
    steps_per_day: int = 4,
    cells: int = 72,
) -> March:
    """Return the moisture of one panel day by day from bonding on (no leading axes).

    `wet_resistance` (layers,): μ of the wet cup, the stack's own being that of the dry cup; None keeps μ
    constant. `isotherms`: one for each layer or None for the stack's constant storage. Climates repeat when
    shorter than `days`. Raises ValueError for stacks with draws; RuntimeError when Newton does not settle.
    """
    if stack.batch:
        raise ValueError(f"stack: the march takes one panel, got leading axes {stack.batch}")
    sealed = (climate_bottom is None, climate_top is None)
    low_c, high_c = face_temperatures(climate_bottom, climate_top)
    grid = cut_into_cells(stack, low_c, high_c, cells=cells, sealed=sealed)
    wet = stack.vapour_resistance if wet_resistance is None else np.asarray(wet_resistance, dtype=np.float64)
    water = _storage(stack, grid, isotherms)
    _, start = start_profiles(stack, grid, initial_humidities, ())
    store = water(start)[0] + _added_water(stack, grid, glue_water)
    problem = _Problem(
        grid,
        stack.vapour_resistance[grid.layer],
        np.broadcast_to(wet, stack.vapour_resistance.shape)[grid.layer],
        water,
        _air(stack, grid, climate_bottom, climate_top),
    )
    return _run(problem, _dry_out_to(problem, start, store), store, days, steps_per_day)


def _added_water(stack: Stack, grid: Cells, glue_water: Sequence[GlueWater]) -> Floats:
    before, after = start_profiles(stack, grid, 0.0, glue_water)
    return (after - before) * grid.capacity * grid.saturation_pa


def _dry_out_to(problem: _Problem, start: Floats, store: Floats) -> Floats:
    """Return the humidity at which each cell holds `store`, found by Newton from `start`."""
    humidity = start.copy()
    for _ in range(NEWTON_ROUNDS):
        held, slope = problem.water(humidity)
        change = (store - held) / slope
        humidity = humidity + np.clip(change, -0.1, 0.1)
        if np.max(np.abs(change)) < 1e-13:
            break
    return humidity


def _storage(
    stack: Stack, grid: Cells, isotherms: Sequence[Isotherm | None]
) -> Callable[[Floats], tuple[Floats, Floats]]:
    """Return a function of cell humidities giving stored water and its slope, kg/m² of cell."""
    if isotherms and len(isotherms) != stack.layers:
        raise ValueError(f"isotherms: expected {stack.layers} entries, got {len(isotherms)}")
    volume = 1e-3 * grid.width_mm
    constant = stack.storage_kg_m3[grid.layer] * volume
    curved = [
        (np.flatnonzero(grid.layer == layer), isotherm, isotherm.curve())
        for layer, isotherm in enumerate(isotherms)
        if isotherm is not None
    ]

    def water(humidity: Floats) -> tuple[Floats, Floats]:
        content, slope = constant * humidity, constant.copy()
        for where, isotherm, (curve, rise) in curved:
            inside = np.clip(humidity[where], isotherm.humidity[0], isotherm.humidity[-1])
            steepness = rise(inside)
            content[where] = volume[where] * (curve(inside) + steepness * (humidity[where] - inside))
            slope[where] = volume[where] * steepness
        return content, slope

    return water


def _air(
    stack: Stack, grid: Cells, bottom: Climate | None, top: Climate | None
) -> Callable[[float], tuple[Floats, Floats, Floats]]:
    """Return a function of the day: humidities below and above, and saturation pressure in air and cells."""
    total = float(np.sum(grid.width_mm))
    height = np.concatenate([[0.0], np.cumsum(grid.width_mm) - 0.5 * grid.width_mm, [total]]) / total

    def at(climate: Climate, day: float) -> tuple[float, float]:
        count = climate.humidity.size
        before, share = int(day) % count, day - int(day)
        after = (before + 1) % count
        both = np.broadcast_to(climate.temperature_c, climate.humidity.shape)
        humidity = (1 - share) * climate.humidity[before] + share * climate.humidity[after]
        return float(humidity), float((1 - share) * both[before] + share * both[after])

    def air(day: float) -> tuple[Floats, Floats, Floats]:
        low = at(bottom, day) if bottom is not None else None
        high = at(top, day) if top is not None else None
        one = low or high or (0.5, 20.0)
        below, above = low or one, high or one
        saturation = saturation_pressure_pa(below[1] + (above[1] - below[1]) * height)
        return np.array([below[0], above[0]]), saturation[[0, -1]], saturation[1:-1]

    return air


def _fluxes(problem: _Problem, humidity: Floats, day: float) -> tuple[Floats, Floats, Floats]:
    """Return upward flux through each face (cells + 1) and its slopes by the cell below and above it."""
    grid = problem.grid
    air, air_saturation, saturation = problem.air(day)
    half = grid.half_resistance * resistance_at(humidity, problem.dry, problem.wet) / problem.dry
    within = (humidity > 0.0) & (humidity < 1.0)
    half_slope = half * np.log(problem.wet / problem.dry) / (WET_CUP - DRY_CUP) * within
    pressure = np.concatenate(
        [air[:1] * air_saturation[:1], humidity * saturation, air[1:] * air_saturation[1:]]
    )
    halves = np.concatenate([grid.film_resistance[:1], half, grid.film_resistance[1:]])
    slopes = np.concatenate([[0.0], half_slope, [0.0]])
    rise = np.concatenate([[0.0], saturation, [0.0]])
    resistance = halves[:-1] + halves[1:]
    flux = (pressure[:-1] - pressure[1:]) / resistance
    by_lower = (rise[:-1] - flux * slopes[:-1]) / resistance
    by_upper = (-rise[1:] - flux * slopes[1:]) / resistance
    return flux, by_lower, by_upper


def _stage(
    problem: _Problem, humidity: Floats, base: Floats, step: float, day: float
) -> tuple[Floats, Floats]:
    """Solve water(φ) = base + step·(flux in − flux out) for φ; return φ and the fluxes that closed it."""
    matrix = np.zeros((3, humidity.size))
    for _ in range(NEWTON_ROUNDS):
        flux, by_lower, by_upper = _fluxes(problem, humidity, day)
        held, slope = problem.water(humidity)
        rest = held - base - step * (flux[:-1] - flux[1:])
        matrix[1] = slope - step * (by_upper[:-1] - by_lower[1:])
        matrix[0, 1:] = step * by_upper[1:-1]
        matrix[2, :-1] = -step * by_lower[1:-1]
        change = solve_banded((1, 1), matrix, -rest)
        humidity = humidity + np.clip(change, -0.2, 0.2)
        if np.max(np.abs(change)) < 1e-11:
            return humidity, _fluxes(problem, humidity, day)[0]
    raise RuntimeError(f"moisture march: no solution on day {day:.3f}; try more steps per day")


def _run(problem: _Problem, humidity: Floats, store: Floats, days: int, steps_per_day: int) -> March:
    inflow = np.zeros(2)
    humidities, stores, inflows = [humidity], [store], [inflow]
    for day in range(days - 1):
        for start, end in _parts_of(day, steps_per_day):
            step = end - start
            first, flux1 = _stage(problem, humidity, store, GAMMA * step, start + GAMMA * step)
            base = store + (1.0 - GAMMA) * step * (flux1[:-1] - flux1[1:])
            humidity, flux2 = _stage(problem, first, base, GAMMA * step, end)
            flux = (1.0 - GAMMA) * flux1 + GAMMA * flux2
            store = store + step * (flux[:-1] - flux[1:])
            inflow = inflow + step * np.array([flux[0], -flux[-1]])
        humidities.append(humidity)
        stores.append(problem.water(humidity)[0])
        inflows.append(inflow)
    return March(
        np.arange(float(days)), np.array(humidities), np.array(stores), np.array(inflows), problem.grid
    )


def _parts_of(day: int, steps_per_day: int) -> list[tuple[float, float]]:
    """Return the steps of a day; the first day begins with very small ones that grow."""
    edges = np.linspace(0.0, 1.0, steps_per_day + 1)
    if day == 0:
        edges = np.concatenate([[0.0], np.geomspace(FIRST_STEP_DAYS, 1.0, 12 * steps_per_day)])
    return [
        (day + low, day + high) for low, high in zip(edges[:-1].tolist(), edges[1:].tolist(), strict=True)
    ]
