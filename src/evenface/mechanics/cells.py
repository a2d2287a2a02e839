"""The thickness cut into graded cells: widths, storage, conductances, and weights that read a profile.

The potential is the vapour pressure p of each cell (its humidity times the saturation pressure at its
temperature); at one temperature that is the humidity itself up to a factor. Cell values are means; inside
a cell the profile runs straight between its two faces, whose values follow from equal flux on both sides,
so a steady straight profile is read exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from evenface.mechanics.arrays import Floats, floats
from evenface.mechanics.stack import Climate, GlueWater, Stack
from evenface.mechanics.vapour import air_permeability, saturation_pressure_pa

SEALED = np.inf


@dataclass(frozen=True, slots=True, eq=False)
class Cells:
    """Cells bottom to top, (..., cells) unless said otherwise.

    `layer` (cells,) which layer each lies in; `width_mm`; `offset_mm` height of its middle over the middle
    of its layer; `saturation_pa` at its temperature, `face_saturation_pa` (cells + 1,) at its faces;
    `half_resistance` from middle to face, m²·day·Pa/kg; `film_resistance` (..., 2) bottom and top, infinite
    where sealed; `capacity` kg/(m²·Pa).
    """

    layer: np.ndarray[tuple[int, ...], np.dtype[np.intp]]
    width_mm: Floats
    offset_mm: Floats
    saturation_pa: Floats
    face_saturation_pa: Floats
    half_resistance: Floats
    film_resistance: Floats
    capacity: Floats

    @property
    def conductance(self) -> Floats:
        """Between neighbours and to the air at both ends, (..., cells + 1), kg/(m²·day·Pa)."""
        half, film = self.half_resistance, self.film_resistance
        ends = [film[..., :1] + half[..., :1], film[..., 1:] + half[..., -1:]]
        inner = half[..., :-1] + half[..., 1:]
        shape = np.broadcast_shapes(*(part.shape[:-1] for part in (*ends, inner)))
        parts = [np.broadcast_to(part, (*shape, part.shape[-1])) for part in (ends[0], inner, ends[1])]
        return 1.0 / np.concatenate(parts, axis=-1)


@cache
def cell_fractions(count: int) -> Floats:
    """Return the widths of `count` cells of one layer as fractions, finest at both ends of the layer."""
    edges = np.linspace(-1.0, 1.0, count + 1)
    graded = 0.6 * edges + 0.4 * np.sin(0.5 * np.pi * edges)
    fractions = np.asarray(0.5 * np.diff(graded))
    fractions.setflags(write=False)
    return fractions


def face_temperatures(bottom: Climate | None, top: Climate | None) -> tuple[float, float]:
    """Return the mean temperature of both faces; a sealed face takes that of the other."""
    if bottom is None and top is None:
        return 20.0, 20.0
    low = bottom if bottom is not None else top
    high = top if top is not None else bottom
    assert low is not None
    assert high is not None
    return low.mean_temperature_c, high.mean_temperature_c


def counts_per_layer(stack: Stack, cells: int) -> list[int]:
    """Return cells for each layer: 2, and the rest of `cells` by slowness; outer layers get half more."""
    first = [
        values.reshape(-1, stack.layers)[0]
        for values in (stack.thickness_mm, stack.vapour_resistance, stack.storage_kg_m3)
    ]
    slow = first[0] * np.sqrt(first[1] * first[2])
    slow[[0, -1]] *= 1.5
    spare = max(cells - 2 * stack.layers, 0)
    return [2 + round(spare * share) for share in (slow / slow.sum()).tolist()]


def cut_into_cells(
    stack: Stack,
    bottom_c: float,
    top_c: float,
    *,
    cells: int = 72,
    sealed: tuple[bool, bool] = (False, False),
) -> Cells:
    """Return about `cells` graded cells of `stack` with the faces at the two temperatures."""
    counts = counts_per_layer(stack, cells)
    layer = np.repeat(np.arange(stack.layers), counts)
    fractions = np.concatenate([cell_fractions(count) for count in counts])
    ends = np.concatenate([np.cumsum(cell_fractions(count)) for count in counts])
    h = stack.thickness_mm[..., layer]
    width, offset = h * fractions, h * (ends - 0.5 * fractions - 0.5)
    height = (np.cumsum(width, axis=-1) - 0.5 * width) / np.sum(width, axis=-1, keepdims=True)
    faces = np.cumsum(fractions * stack.thickness_mm.reshape(-1, stack.layers)[0][layer])
    face_height = np.concatenate([[0.0], faces / faces[-1]])
    saturation = saturation_pressure_pa(bottom_c + (top_c - bottom_c) * height)
    face_saturation = saturation_pressure_pa(bottom_c + (top_c - bottom_c) * face_height)
    air = float(air_permeability(0.5 * (bottom_c + top_c)))
    half = 0.5e-3 * width * stack.vapour_resistance[..., layer] / air
    films = [
        np.where(shut, SEALED, film / air)
        for shut, film in zip(sealed, (stack.film_bottom_m, stack.film_top_m), strict=True)
    ]
    film_resistance = np.stack(np.broadcast_arrays(*films), axis=-1)
    capacity = 1e-3 * width * stack.storage_kg_m3[..., layer] / saturation
    return Cells(layer, width, offset, saturation, face_saturation, half, film_resistance, capacity)


def start_humidity(stack: Stack, cells: Cells, humidity_at_bonding: Floats) -> Floats:
    """Return the humidity of each cell, (..., cells), from one number or one per layer (..., layers)."""
    start = floats(humidity_at_bonding, "humidity_at_bonding")
    if start.ndim == 0:
        start = np.full(stack.layers, float(start))
    if start.shape[-1] != stack.layers:
        raise ValueError(f"humidity_at_bonding: expected {stack.layers} layers, got shape {start.shape}")
    return start[..., cells.layer]


def wetted(stack: Stack, cells: Cells, water: GlueWater) -> Floats:
    """Return the added water of each cell in kg/m², (..., cells).

    Raises ValueError when the interface does not exist or the depth reaches beyond the panel.
    """
    if not 0 < water.interface < stack.layers:
        raise ValueError(
            f"glue water: expected an interface from 1 to {stack.layers - 1}, got {water.interface}"
        )
    top = np.cumsum(cells.width_mm, axis=-1)
    line = np.sum(stack.thickness_mm[..., : water.interface], axis=-1, keepdims=True)
    low, high = line - water.depth_below_mm, line + water.depth_above_mm
    if (low < -1e-9).any() or (high > top[..., -1:] + 1e-9).any():
        raise ValueError("glue water: expected depths that lie within the panel")
    overlap = np.clip(np.minimum(top, high) - np.maximum(top - cells.width_mm, low), 0.0, None)
    return np.asarray(water.mass_kg_m2 * overlap / (high - low))


def profile_weights(cells: Cells, weight0: Floats, weight1: Floats) -> tuple[Floats, Floats]:
    """Turn weights on each layer's humidity moments into weights on cell and air vapour pressures.

    `weight0`, `weight1` (..., outputs, layers) multiply ∫φ dz (mm) and ∫φ·(z − z_middle) dz (mm²).
    Returns (..., outputs, cells) for the cells and (..., outputs, 2) for the air below and above.
    """
    w0, w1 = weight0[..., cells.layer], weight1[..., cells.layer]
    width, offset = cells.width_mm[..., None, :], cells.offset_mm[..., None, :]
    mean = (w0 * width + w1 * width * offset) / cells.saturation_pa[..., None, :]
    slope = w1 * width**2 / 12.0
    half, film = cells.half_resistance, cells.film_resistance
    lower_share = half[..., 1:] / (half[..., :-1] + half[..., 1:])
    with np.errstate(invalid="ignore"):
        ends = np.stack([half[..., 0], half[..., -1]], axis=-1)
        air_share = np.where(np.isinf(film), 0.0, ends / (ends + film))
    below, above = cells.face_saturation_pa[..., :-1], cells.face_saturation_pa[..., 1:]
    upper, lower = slope / above, -slope / below
    inner = upper[..., :-1] + lower[..., 1:]
    end = np.stack(np.broadcast_arrays(lower[..., 0], upper[..., -1]), axis=-1)
    air = end * air_share[..., None, :]
    out = np.zeros(np.broadcast_shapes(mean.shape, (*air.shape[:-1], mean.shape[-1]), (*inner.shape[:-1], 1)))
    out += mean
    share = lower_share[..., None, :]
    out[..., :-1] += inner * share
    out[..., 1:] += inner * (1.0 - share)
    out[..., 0] += (end - air)[..., 0]
    out[..., -1] += (end - air)[..., 1]
    return out, air
