"""Curvature through time: the settled year, and the first years after bonding."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats
from evenface.mechanics.cells import (
    Cells,
    cut_into_cells,
    face_temperatures,
    profile_weights,
    start_humidity,
    wetted,
)
from evenface.mechanics.harmonics import day_basis, frequency_nodes, slabs_of, transfer, year_by_days
from evenface.mechanics.laminate import FREE, deform, free_resultants, laminate, sloping_strain
from evenface.mechanics.modal import history, modes_of
from evenface.mechanics.stack import DAYS_PER_YEAR, Climate, GlueWater, Relaxation, SoftGlue, Stack
from evenface.mechanics.vapour import saturation_pressure_pa
from evenface.mechanics.weights import Held, curvature_weights


@dataclass(frozen=True, slots=True, eq=False)
class Warp:
    """`days` (times,); `curvature_per_mm` (..., times, 3): κx, κy, κxy since bonding; `layer_humidity`
    (..., times, layers) mean humidity of each layer; `layer_tilt` (..., times, layers) the difference of
    humidity between top and bottom of the layer that has the same first moment as its profile."""

    days: Floats
    curvature_per_mm: Floats
    layer_humidity: Floats
    layer_tilt: Floats


def settled_year(
    stack: Stack,
    climate_top: Climate | None,
    climate_bottom: Climate | None,
    humidity_at_bonding: ArrayLike,
    *,
    held: Held = FREE,
    soft_glue: Sequence[SoftGlue] = (),
    size_mm: tuple[float, float] | None = None,
    relaxation: Relaxation | None = None,
    times: int = DAYS_PER_YEAR,
    with_layers: bool = True,
    nodes: int = 20,
) -> Warp:
    """Return the yearly cycle after many years of the same climate, `times` instants from the first value.

    A face given as None is sealed. `humidity_at_bonding`: the humidity, one number or one per layer, at
    which the panel was flat. The air runs straight between its values and repeats; keep them daily where
    spells matter. Linear; `nodes` frequencies are computed (20: exact to about 1e-4 of the swing for
    panels from 3 mm on; a bare foil whose bow follows the kinks of the weather is met to some 4 %).
    Raises ValueError when both faces are sealed (nothing then settles).
    """
    if climate_top is None and climate_bottom is None:
        raise ValueError("climate: expected air at one face at least; a panel sealed all round never settles")
    weight0, weight1 = curvature_weights(stack, held=held, soft_glue=soft_glue, size_mm=size_mm)
    reference = _bonding_reading(stack, weight0, humidity_at_bonding)
    if with_layers:
        weight0, weight1 = _with_layer_rows(stack, weight0, weight1)
    out = _settled_rows(stack, weight0, weight1, climate_top, climate_bottom, relaxation, times, nodes)
    lasting = 1.0 if relaxation is None else relaxation.long_term_share
    shift = lasting * reference[..., None, :]
    out = np.array(
        np.broadcast_to(out, (*np.broadcast_shapes(out.shape[:-1], shift.shape[:-1]), out.shape[-1]))
    )
    out[..., :3] -= shift
    days = np.arange(float(times)) * (DAYS_PER_YEAR / times)
    return Warp(days, out[..., :3], *_layer_rows(out, stack.layers))


def first_years(
    stack: Stack,
    climate_top: Climate | None,
    climate_bottom: Climate | None,
    initial_humidities: ArrayLike,
    glue_water: Sequence[GlueWater] = (),
    *,
    water_held: float = 1.0,
    held: Held = FREE,
    soft_glue: Sequence[SoftGlue] = (),
    size_mm: tuple[float, float] | None = None,
    relaxation: Relaxation | None = None,
    days: int = 2 * DAYS_PER_YEAR,
    cells: int = 72,
    with_layers: bool = True,
) -> Warp:
    """Return day by day what happens from bonding on; day 0 is the bonding.

    The climates are daily and begin at bonding; shorter ones repeat (365 values: the same year twice).
    `initial_humidities`: one number or one per layer. `glue_water` is added to the boards beside the glue
    lines; `water_held` is the share of it that has swelled them before the glue sets flat (1: all of it, so
    its drying bends the panel afterwards; 0: it bends the panel at once). Linear; exact in time.
    """
    sealed = (climate_bottom is None, climate_top is None)
    low_c, high_c = face_temperatures(climate_bottom, climate_top)
    grid = cut_into_cells(stack, low_c, high_c, cells=cells, sealed=sealed)
    weight0, weight1 = curvature_weights(stack, held=held, soft_glue=soft_glue, size_mm=size_mm)
    dry, wet = start_profiles(stack, grid, initial_humidities, glue_water)
    reference = dry + water_held * (wet - dry)
    if with_layers:
        weight0, weight1 = _with_layer_rows(stack, weight0, weight1)
    seen, air_seen = profile_weights(grid, weight0, weight1)
    air = np.stack([_pressure(climate_bottom, low_c, days), _pressure(climate_top, high_c, days)], axis=-1)
    start = wet * grid.saturation_pa
    out = history(modes_of(grid), seen, air_seen, start, air)
    even = cell_means(grid, weight0, weight1)
    out[..., 0, :] = _times(even, wet)
    out[..., :3] -= _times(even[..., :3, :], reference)[..., None, :]
    if relaxation is not None:
        out[..., :3] = relax(out[..., :3], relaxation)
    return Warp(np.arange(float(days)), out[..., :3], *_layer_rows(out, stack.layers))


def layer_stresses(stack: Stack, warp: Warp, humidity_at_bonding: ArrayLike, *, held: Held = FREE) -> Floats:
    """Return stresses since bonding, MPa, (..., times, layers, 2, 3): at bottom and top of each layer, in
    panel axes (σx, σy, τxy). Elastic and rigidly glued; humidity taken as straight through each layer, so a
    sharp profile inside a layer is rounded off. Relaxation is not counted: the stresses are upper values.
    """
    built = laminate(stack.plies)
    expansion = np.stack(np.broadcast_arrays(stack.expansion_1, stack.expansion_2), axis=-1)
    mean = warp.layer_humidity - np.asarray(humidity_at_bonding, dtype=np.float64)
    ends = np.stack([mean - 0.5 * warp.layer_tilt, mean + 0.5 * warp.layer_tilt], axis=-1)
    strain = ends[..., None] * expansion[..., None, :]
    N, M = free_resultants(built, *sloping_strain(strain[..., 0, :], strain[..., 1, :], stack.thickness_mm))
    one = deform(built, N, M, held)
    z = np.stack([built.z_mm[..., :-1], built.z_mm[..., 1:]], axis=-1)
    total = one.strain[..., None, None, :] + z[..., None] * one.curvature_per_mm[..., None, None, :]
    free = np.einsum("...lij,...lej->...lei", built.turn, strain)
    return np.asarray(np.einsum("...lij,...lej->...lei", built.Q_MPa, total - free))


def start_profiles(
    stack: Stack, grid: Cells, initial_humidities: ArrayLike, glue_water: Sequence[GlueWater]
) -> tuple[Floats, Floats]:
    """Return the humidity of each cell before and after the glue's water is added, (..., cells)."""
    dry = start_humidity(stack, grid, np.asarray(initial_humidities, dtype=np.float64))
    wet = dry
    for water in glue_water:
        wet = wet + wetted(stack, grid, water) / (grid.capacity * grid.saturation_pa)
    return dry, np.asarray(wet)


def cell_means(grid: Cells, weight0: Floats, weight1: Floats) -> Floats:
    """Return weights (..., outputs, cells) on cell humidities, each cell taken as even."""
    offset = grid.offset_mm[..., None, :]
    return (weight0[..., grid.layer] + weight1[..., grid.layer] * offset) * grid.width_mm[..., None, :]


def relax(curvature: Floats, relaxation: Relaxation, step_days: float = 1.0) -> Floats:
    """Return curvatures (..., times, 3) with the slow loss of pull; exact for straight runs between times."""
    ratio = step_days / relaxation.time_constant_days
    keep, gain = np.exp(-ratio), -np.expm1(-ratio) / ratio
    quick = curvature.copy()
    change = gain * np.diff(curvature, axis=-2)
    for time in range(1, curvature.shape[-2]):
        quick[..., time, :] = keep * quick[..., time - 1, :] + change[..., time - 1, :]
    share = relaxation.long_term_share
    return np.asarray(share * curvature + (1.0 - share) * quick)


def _settled_rows(
    stack: Stack,
    weight0: Floats,
    weight1: Floats,
    top: Climate | None,
    bottom: Climate | None,
    relaxation: Relaxation | None,
    times: int,
    nodes: int,
) -> Floats:
    """One year of every output, (..., times, outputs), humidities counted from zero."""
    low_c, high_c = face_temperatures(bottom, top)
    frequencies = frequency_nodes(nodes)
    slabs = slabs_of(stack, low_c, high_c)
    passed = transfer(slabs, weight0, weight1, frequencies, (bottom is None, top is None))
    if relaxation is not None:
        angle = 2j * np.pi * frequencies / DAYS_PER_YEAR * relaxation.time_constant_days
        share = relaxation.long_term_share
        passed[..., :3, :] *= (share + (1.0 - share) * angle / (1.0 + angle))[:, None, None]
    rows: list[Floats] = []
    bases: list[Floats] = []
    for face, climate, at_c in ((0, bottom, low_c), (1, top, high_c)):
        if climate is None:
            continue
        one = np.swapaxes(passed[..., face], -1, -2)
        rows += [one.real, one.imag]
        daily = year_by_days(climate.humidity) * float(saturation_pressure_pa(at_c))
        bases += day_basis(daily, nodes, times)
    rows_by_time = np.matmul(np.concatenate(rows, axis=-1), np.concatenate(bases, axis=0))
    return np.ascontiguousarray(np.swapaxes(rows_by_time, -1, -2))


def _bonding_reading(stack: Stack, weight0: Floats, humidity: ArrayLike) -> Floats:
    start = np.asarray(humidity, dtype=np.float64)
    if start.ndim and start.shape[-1] != stack.layers:
        raise ValueError(f"humidity_at_bonding: expected {stack.layers} layers, got shape {start.shape}")
    return np.asarray(np.sum(weight0 * (stack.thickness_mm * start)[..., None, :], axis=-1))


def _with_layer_rows(stack: Stack, weight0: Floats, weight1: Floats) -> tuple[Floats, Floats]:
    """Add outputs for the mean and the tilt of humidity in every layer below the three curvatures."""
    unit = np.eye(stack.layers)
    mean = unit / stack.thickness_mm[..., None, :]
    tilt = 12.0 * unit / stack.thickness_mm[..., None, :] ** 2
    batch = np.broadcast_shapes(weight0.shape[:-2], mean.shape[:-2])
    none = np.zeros((*batch, stack.layers, stack.layers))
    parts0 = [np.broadcast_to(w, (*batch, *w.shape[-2:])) for w in (weight0, mean, none)]
    parts1 = [np.broadcast_to(w, (*batch, *w.shape[-2:])) for w in (weight1, none, tilt)]
    return np.concatenate(parts0, axis=-2), np.concatenate(parts1, axis=-2)


def _layer_rows(out: Floats, layers: int) -> tuple[Floats, Floats]:
    if out.shape[-1] == 3:
        empty = np.zeros((*out.shape[:-1], 0))
        return empty, empty
    return out[..., 3 : 3 + layers], out[..., 3 + layers :]


def _pressure(climate: Climate | None, temperature_c: float, days: int) -> Floats:
    if climate is None:
        return np.zeros(days)
    return np.resize(climate.humidity, days) * float(saturation_pressure_pa(temperature_c))


def _times(matrix: Floats, vector: Floats) -> Floats:
    product: Floats = np.matmul(matrix, vector[..., None])[..., 0]
    return product
