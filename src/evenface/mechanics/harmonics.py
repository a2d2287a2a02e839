"""The exact fast path for the settled year: every harmonic of the climate passed through the layers.

Each layer is a two-port between the vapour pressures and fluxes at its faces (the transfer matrix of a
layer, written as conductances so that thick, slow layers neither overflow nor lose figures). Interfaces
are joined by a tridiagonal elimination, all draws and frequencies at once. Nothing is cut into cells.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.fft import irfft, rfft

from evenface.mechanics.arrays import Complexes, Floats, even_function_ratio
from evenface.mechanics.stack import DAYS_PER_YEAR, Stack
from evenface.mechanics.vapour import air_permeability, saturation_pressure_pa

TEMPERATURE_SLICES = 16
IMAGES = 3
HIGHEST = (IMAGES + 1) * DAYS_PER_YEAR


@dataclass(frozen=True, slots=True, eq=False)
class Slabs:
    """Slabs of even saturation pressure, bottom to top: each layer once, or sliced where temperature runs.

    `layer` (slabs,); all others (..., slabs) but the films (...): `height_mm` thickness, `offset_mm` of its
    middle over that of its layer, `resistance` m²·day·Pa/kg, `capacity` kg/(m²·Pa), `saturation_pa`;
    `rise` is the logarithm of its ratio from bottom to top.
    """

    layer: np.ndarray[tuple[int, ...], np.dtype[np.intp]]
    height_mm: Floats
    offset_mm: Floats
    resistance: Floats
    capacity: Floats
    saturation_pa: Floats
    rise: Floats
    film_bottom: Floats
    film_top: Floats


def slabs_of(stack: Stack, bottom_c: float, top_c: float) -> Slabs:
    """Return the slabs of `stack` with its faces at the two temperatures, straight in between."""
    slices = 1 if bottom_c == top_c else TEMPERATURE_SLICES
    layer = np.repeat(np.arange(stack.layers), slices)
    place = np.tile((np.arange(slices) + 0.5) / slices - 0.5, stack.layers)
    h = stack.thickness_mm[..., layer]
    height = h / slices
    level = (np.cumsum(height, axis=-1) - 0.5 * height) / np.sum(height, axis=-1, keepdims=True)
    saturation = saturation_pressure_pa(bottom_c + (top_c - bottom_c) * level)
    half = 0.5 * (top_c - bottom_c) * height / np.sum(height, axis=-1, keepdims=True)
    at = bottom_c + (top_c - bottom_c) * level
    rise = np.log(saturation_pressure_pa(at + half) / saturation_pressure_pa(at - half))
    air = float(air_permeability(0.5 * (bottom_c + top_c)))
    return Slabs(
        layer,
        height,
        h * place,
        1e-3 * height * stack.vapour_resistance[..., layer] / air,
        1e-3 * height * stack.storage_kg_m3[..., layer] / saturation,
        saturation,
        rise,
        stack.film_bottom_m / air,
        stack.film_top_m / air,
    )


def transfer(
    slabs: Slabs, weight0: Floats, weight1: Floats, cycles_per_year: Floats, sealed: tuple[bool, bool]
) -> Complexes:
    """Return outputs per pascal at each face and frequency, (..., frequencies, outputs, 2).

    `weight0`, `weight1` (..., outputs, layers) multiply the humidity moments ∫φ dz and ∫φ·(z − z_middle) dz
    of each layer. A sealed face gives zeros. Frequency 0 is the steady state.
    """
    omega = 2.0 * np.pi * cycles_per_year / DAYS_PER_YEAR
    store = (slabs.resistance * slabs.capacity)[..., None] * omega
    x = (0.5 * np.sqrt(1j)) * np.sqrt(store).astype(np.complex128)
    own, across, even, odd = even_function_ratio(x)
    conductance = 1.0 / slabs.resistance[..., None]
    pressures = _interface_pressures(own * conductance, across * conductance, slabs, sealed)
    low, high = pressures[..., :-1, :, :], pressures[..., 1:, :, :]
    parts = np.concatenate([even[..., None] * (low + high), odd[..., None] * (high - low)], axis=-3)
    w0, w1 = weight0[..., slabs.layer], weight1[..., slabs.layer]
    scale = slabs.height_mm / slabs.saturation_pa
    # humidity leans within a slab also because the same pressure means less humidity where it is warmer
    arm = slabs.offset_mm - slabs.rise * slabs.height_mm / 12.0
    mean = (w0 + w1 * arm[..., None, :]) * (0.5 * scale)[..., None, :]
    slope = w1 * (0.25 * scale * slabs.height_mm)[..., None, :]
    weights = np.concatenate(np.broadcast_arrays(mean, slope), axis=-1)
    flat = np.ascontiguousarray(parts).reshape(*parts.shape[:-2], -1).view(np.float64)
    total = np.ascontiguousarray(np.matmul(weights, flat)).view(np.complex128)
    return np.swapaxes(total.reshape(*total.shape[:-1], *parts.shape[-2:]), -3, -2)


def _interface_pressures(
    own: Complexes, across: Complexes, slabs: Slabs, sealed: tuple[bool, bool]
) -> Complexes:
    """Return the pressure at each interface, (..., slabs + 1, frequencies, 2), for unit drives.

    Unit pressure below and above. Forward elimination and back substitution of the tridiagonal balance of
    fluxes at the interfaces.
    """
    count = slabs.layer.size
    drive = []
    for shut, film in zip(sealed, (slabs.film_bottom, slabs.film_top), strict=True):
        drive.append(
            0.0 if shut else 1.0 / np.maximum(film, 1e-13 * float(slabs.resistance.min()))[..., None]
        )
    diagonal = [own[..., 0, :] + drive[0]]
    diagonal += [own[..., j - 1, :] + own[..., j, :] for j in range(1, count)]
    diagonal += [own[..., count - 1, :] + drive[1]]
    inverse: list[Complexes] = [1.0 / diagonal[0]]
    upward: list[Complexes] = []
    right: list[Complexes] = [drive[0] * inverse[0]]
    for j in range(count):
        factor = across[..., j, :] * inverse[j]
        upward.append(factor)
        inverse.append(1.0 / (diagonal[j + 1] - factor * across[..., j, :]))
        right.append(across[..., j, :] * right[j] * inverse[j + 1])
    shape = np.broadcast_shapes(right[count].shape, np.shape(drive[1]))
    out = np.empty((*shape[:-1], count + 1, shape[-1], 2), dtype=np.complex128)
    out[..., count, :, 0], out[..., count, :, 1] = right[count], drive[1] * inverse[count]
    for j in range(count - 1, -1, -1):
        np.multiply(upward[j][..., None], out[..., j + 1, :, :], out=out[..., j, :, :])
        out[..., j, :, 0] += right[j]
    return out


def spectrum(values: Floats) -> Complexes:
    """Return the harmonics of one evenly sampled year: value(t) = Re Σ c_m·exp(2πi·m·t)."""
    count = values.shape[-1]
    out = rfft(values, axis=-1) / count
    out[..., 1:] *= 2.0
    if count % 2 == 0:
        out[..., -1] *= 0.5
    return np.asarray(out)


def year_of(harmonics: Complexes, times: int = DAYS_PER_YEAR) -> Floats:
    """Return one year at `times` even instants from harmonics (..., m); the first instant is t = 0."""
    keep = min(harmonics.shape[-1], (times + 1) // 2)
    part = harmonics[..., :keep] * (0.5 * times)
    part[..., 0] *= 2.0
    return np.asarray(irfft(part, times, axis=-1))


def year_by_days(values: Floats) -> Floats:
    """Return 365 daily values of a year given by any number of even ones, straight in between, repeating."""
    count = values.size
    if count == DAYS_PER_YEAR:
        return values
    place = np.arange(DAYS_PER_YEAR) * (count / DAYS_PER_YEAR)
    return np.asarray(np.interp(place, np.arange(count + 1.0), np.append(values, values[0])))


def days_from_monthly_means(monthly: Floats, times: int = DAYS_PER_YEAR) -> Floats:
    """Return a smooth year, (..., times), whose means over twelve equal months are those given.

    The value at index 0 is that at the start of the first month. Trigonometric, so a jump between two
    months may overshoot a little; months are taken as a twelfth of the year each.
    """
    c = spectrum(np.asarray(monthly, dtype=np.float64))
    count = monthly.shape[-1]
    m = np.arange(c.shape[-1])
    return year_of(c / np.sinc(m / count) * np.exp(-1j * np.pi * m / count), times)


def frequency_nodes(nodes: int = 20) -> Floats:
    """Return the frequencies to compute, in cycles a year: 0 and Chebyshev points on a logarithmic scale."""
    return np.concatenate([[0.0], np.exp(0.5 * (_chebyshev(nodes) + 1.0) * np.log(HIGHEST))])


def day_basis(daily_pa: Floats, nodes: int, times: int) -> tuple[Floats, Floats]:
    """Return what the real and the imaginary part of a response add to each instant, (nodes + 1, times).

    The air runs straight from day to day and repeats yearly, as on the modal path: harmonic m of that
    course is the discrete one times sinc²(m/365), and so are its images m ± 365, m ± 730 … The response,
    smooth in the logarithm of the frequency, is carried from the nodes to all of these by interpolation,
    so that a year costs one product of matrices whatever the number of draws.
    """
    ahead, behind = _images(nodes)
    wave = spectrum(daily_pa)[:, None] * _waves(times)
    forward, mirrored = ahead @ wave, behind @ wave
    return forward.real + mirrored.real, mirrored.imag - forward.imag


@cache
def _waves(times: int) -> Complexes:
    m = np.arange(DAYS_PER_YEAR // 2 + 1)[:, None]
    return np.asarray(np.exp(2j * np.pi * m * np.arange(times) / times))


@cache
def _images(nodes: int) -> tuple[Floats, Floats]:
    """What each node gives to each discrete harmonic, as it is and mirrored, (nodes + 1, harmonics)."""
    m = np.arange(DAYS_PER_YEAR // 2 + 1)
    ahead, behind = np.zeros((m.size, nodes + 1)), np.zeros((m.size, nodes + 1))
    carry = _carry(nodes)
    beyond = np.ones(m.size)
    for image in range(IMAGES + 1):
        up, down = m + image * DAYS_PER_YEAR, image * DAYS_PER_YEAR - m
        strength = np.sinc(up / DAYS_PER_YEAR) ** 2
        beyond -= strength
        ahead += strength[:, None] * carry[up]
        if image:
            strength = np.sinc(down / DAYS_PER_YEAR) ** 2
            beyond -= strength
            behind += strength[:, None] * carry[down]
    # all images together weigh 1; those beyond the last node are given its response, half from each side
    ahead[:, -1] += 0.5 * beyond
    behind[:, -1] += 0.5 * beyond
    return np.ascontiguousarray(ahead.T), np.ascontiguousarray(behind.T)


def _chebyshev(nodes: int) -> Floats:
    return np.asarray(-np.cos(np.pi * np.arange(nodes) / (nodes - 1)))


@cache
def _carry(nodes: int) -> Floats:
    """Barycentric interpolation from the nodes to frequencies 0, 1, … HIGHEST, (HIGHEST + 1, nodes + 1)."""
    x = _chebyshev(nodes)
    weight = (-1.0) ** np.arange(nodes)
    weight[[0, -1]] *= 0.5
    target = 2.0 * np.log(np.arange(1.0, HIGHEST + 1.0)) / np.log(HIGHEST) - 1.0
    gap = target[:, None] - x
    exact = np.abs(gap) < 1e-12
    terms = weight / np.where(exact, 1.0, gap)
    matrix = np.zeros((HIGHEST + 1, nodes + 1))
    matrix[0, 0] = 1.0
    smooth = terms / terms.sum(axis=1, keepdims=True)
    matrix[1:, 1:] = np.where(exact.any(axis=1, keepdims=True), exact, smooth)
    return matrix
