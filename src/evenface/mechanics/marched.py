"""From a marched history of moisture to the warp that belongs to it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats
from evenface.mechanics.cells import Cells, face_temperatures, profile_weights
from evenface.mechanics.laminate import FREE
from evenface.mechanics.march import March
from evenface.mechanics.response import Warp, cell_means, relax, start_profiles
from evenface.mechanics.stack import Climate, Relaxation, SoftGlue, Stack
from evenface.mechanics.vapour import saturation_pressure_pa
from evenface.mechanics.weights import Held, curvature_weights


def marched_years(
    stack: Stack,
    run: March,
    climate_top: Climate | None,
    climate_bottom: Climate | None,
    initial_humidities: ArrayLike,
    *,
    held: Held = FREE,
    soft_glue: Sequence[SoftGlue] = (),
    size_mm: tuple[float, float] | None = None,
    relaxation: Relaxation | None = None,
    by_water: bool = False,
) -> Warp:
    """Return the warp that belongs to a marched history of moisture.

    `by_water`: free strain follows stored water instead of humidity; `expansion` then counts per unit of
    humidity at the stack's constant storage. The panel is flat at `initial_humidities`.
    """
    grid = run.cells
    weight0, weight1 = curvature_weights(stack, held=held, soft_glue=soft_glue, size_mm=size_mm)
    dry, _ = start_profiles(stack, grid, initial_humidities, ())
    even = cell_means(grid, weight0, weight1)
    if by_water:
        scale = grid.capacity * grid.saturation_pa
        curvature = (run.water_kg_m2 / scale - run.water_kg_m2[0] / scale) @ even.T
        curvature += (run.humidity[0] - dry) @ even.T
    else:
        seen, air_seen = profile_weights(grid, weight0, weight1)
        low_c, high_c = face_temperatures(climate_bottom, climate_top)
        air = np.zeros((run.days.size, 2))
        for face, climate, at_c in ((0, climate_bottom, low_c), (1, climate_top, high_c)):
            if climate is not None:
                air[:, face] = np.resize(climate.humidity, run.days.size) * float(
                    saturation_pressure_pa(at_c)
                )
        curvature = (run.humidity * grid.saturation_pa) @ seen.T + air @ air_seen.T
        curvature[0] = even @ run.humidity[0]
        curvature -= even @ dry
    if relaxation is not None:
        curvature = relax(curvature, relaxation)
    mean, tilt = _layer_moments(stack, grid, run.humidity)
    return Warp(run.days, curvature, mean, tilt)


def _layer_moments(stack: Stack, grid: Cells, humidity: Floats) -> tuple[Floats, Floats]:
    inside = (grid.layer == np.arange(stack.layers)[:, None]) * grid.width_mm
    mean = humidity @ (inside / stack.thickness_mm[:, None]).T
    tilt = humidity @ (12.0 * inside * grid.offset_mm / stack.thickness_mm[:, None] ** 2).T
    return mean, tilt
