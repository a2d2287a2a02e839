"""The exact fast path in time: the linear moisture problem split into modes that decay on their own.

C·dp/dt = −K·p + g_bottom·p_bottom(t) + g_top·p_top(t) becomes one decay per mode; an input that runs
straight from day to day is integrated exactly. Only the wanted outputs are formed, as one kernel for each
output and face, and the history follows by convolution. All leading axes (draws) go along.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.fft import irfft, rfft

from evenface.mechanics.arrays import Floats
from evenface.mechanics.cells import Cells


@dataclass(frozen=True, slots=True, eq=False)
class Modes:
    """`rate` (..., modes) 1/day; `shape` (..., cells, modes) orthonormal; `root` (..., cells) √capacity;
    `gain` (..., 2, modes): how the air pressure below and above feeds each mode."""

    rate: Floats
    shape: Floats
    root: Floats
    gain: Floats


def modes_of(cells: Cells) -> Modes:
    """Return the modes of the linear moisture problem; sealed on both faces gives one of rate zero."""
    link = cells.conductance
    root = np.sqrt(np.broadcast_to(cells.capacity, (*link.shape[:-1], cells.capacity.shape[-1])))
    diagonal = (link[..., :-1] + link[..., 1:]) / root**2
    beside = -link[..., 1:-1] / (root[..., :-1] * root[..., 1:])
    rate, shape = np.linalg.eigh(_dense(diagonal, beside))
    rate = np.where(rate < 1e-12 * rate[..., -1:], 0.0, rate)
    ends = np.stack([shape[..., 0, :] / root[..., :1], shape[..., -1, :] / root[..., -1:]], axis=-2)
    return Modes(rate, shape, root, ends * link[..., [0, -1], None])


def _dense(diagonal: Floats, beside: Floats) -> Floats:
    count = diagonal.shape[-1]
    matrix = np.zeros((*diagonal.shape, count))
    step = np.arange(count)
    matrix[..., step, step] = diagonal
    matrix[..., step[1:], step[:-1]] = beside
    return matrix


def straight_step(x: Floats) -> tuple[Floats, Floats]:
    """Return the weights of the input at the start and end of one step of length x = rate·Δt.

    y_end = exp(−x)·y_start + Δt·(a·u_start + b·u_end) for an input that runs straight.
    """
    small = x < 1e-3
    safe = np.where(small, 1.0, x)
    fall = -np.expm1(-safe)
    end = np.where(small, 0.5 - x / 6.0 + x**2 / 24.0, (safe - fall) / safe**2)
    whole = np.where(small, 1.0 - x / 2.0 + x**2 / 6.0, fall / safe)
    return whole - end, end


def history(
    modes: Modes,
    weights: Floats,
    air_weights: Floats,
    start_pa: Floats,
    air_pa: Floats,
    step_days: float = 1.0,
) -> Floats:
    """Return outputs (..., times, outputs) for the air pressures `air_pa` (times, 2), evenly spaced.

    `weights` (..., outputs, cells) and `air_weights` (..., outputs, 2) as `profile_weights` gives them;
    `start_pa` (..., cells) at the first time. Exact in time for air that runs straight between the times.
    """
    times = air_pa.shape[0]
    seen = np.matmul(weights / modes.root[..., None, :], modes.shape)
    decay = np.exp(modes.rate[..., None] * (-step_days * np.arange(times)))
    amount = np.matmul((start_pa * modes.root)[..., None, :], modes.shape)
    free = np.matmul(seen * amount, decay)
    feed = seen[..., None, :, :] * (modes.gain * step_days)[..., :, None, :]
    at_start, at_end = (part[..., None, None, :] for part in straight_step(modes.rate * step_days))
    early, late = _kernel(feed * at_start, decay), _kernel(feed * at_end, decay)
    free = free - np.einsum("...fot,f->...ot", late, air_pa[0])
    kernel = late.copy()
    kernel[..., 1:] += early[..., :-1]
    kernel[..., 0] += np.swapaxes(air_weights, -1, -2)
    return np.asarray(np.swapaxes(free + _convolve(kernel, air_pa), -1, -2))


def _kernel(feed: Floats, decay: Floats) -> Floats:
    """Response (..., faces, outputs, times) to one day of air."""
    flat = feed.reshape(*feed.shape[:-3], -1, feed.shape[-1])
    kernel = np.matmul(flat, decay)
    return np.asarray(kernel.reshape(*kernel.shape[:-2], *feed.shape[-3:-1], kernel.shape[-1]))


def _convolve(kernel: Floats, air_pa: Floats) -> Floats:
    times = air_pa.shape[0]
    length = 1 << (2 * times - 2).bit_length()
    spectrum = rfft(kernel, length, axis=-1) * rfft(air_pa.T, length, axis=-1)[:, None, :]
    return np.asarray(irfft(spectrum.sum(axis=-3), length, axis=-1)[..., :times])


def profiles(modes: Modes, start_pa: Floats, air_pa: Floats, step_days: float = 1.0) -> Floats:
    """Return the vapour pressure of every cell at every time, (times, cells), for one draw."""
    count = start_pa.shape[-1]
    return history(modes, np.eye(count), np.zeros((count, 2)), start_pa, air_pa, step_days)
