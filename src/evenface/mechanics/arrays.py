"""Array types and the few shape checks that every record of this room shares."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

type Floats = NDArray[np.float64]
type Complexes = NDArray[np.complex128]


def floats(values: ArrayLike, name: str, *, axes: int = 0) -> Floats:
    """Return `values` as a float array with at least `axes` axes and nothing that is not finite.

    Raises ValueError naming `name` when an axis is missing or a value is NaN or infinite.
    """
    array = np.asarray(values, dtype=np.float64)
    if array.ndim < axes:
        raise ValueError(f"{name}: expected at least {axes} axes, got shape {array.shape}")
    if not np.isfinite(array).all():
        raise ValueError(f"{name}: expected finite numbers, got {array[~np.isfinite(array)].flat[0]}")
    return array


def per_layer(values: ArrayLike, name: str, layers: int, *, above: float | None = None) -> Floats:
    """Return `values` as (..., layers); a single number is given to every layer.

    `above`: every value must exceed it. Raises ValueError naming the field and the first bad value.
    """
    array = floats(values, name)
    if array.ndim == 0:
        array = np.full(layers, float(array))
    if array.shape[-1] != layers:
        raise ValueError(f"{name}: expected {layers} layers on the last axis, got shape {array.shape}")
    if above is not None and not (array > above).all():
        raise ValueError(f"{name}: expected every value above {above:g}, got {array.min():g}")
    return array


def even_function_ratio(x: Complexes) -> tuple[Complexes, Complexes, Complexes, Complexes]:
    """Return 2x·coth 2x, 2x/sinh 2x, tanh(x)/x and (x·coth x − 1)/x² without overflow or cancellation.

    All four are even in x, so the sign of the root behind x does not matter; Re x ≥ 0 is expected.
    Near zero their series are used: the limits are 1, 1, 1 and 1/3.
    """
    small = (np.abs(x.real) < 0.03) & (np.abs(x.imag) < 0.03)
    safe = np.where(small, np.complex128(1.0), x)
    decay = np.exp(-2.0 * safe)
    square = decay * decay
    one_over_fall = 1.0 / (1.0 - square)
    one_over_x = 1.0 / safe
    gap = (1.0 - decay) * (1.0 - decay) * one_over_fall
    coth = (1.0 + decay) * (1.0 + decay) * one_over_fall
    double = 2.0 * safe * one_over_fall
    through = [
        double * (1.0 + square),
        2.0 * double * decay,
        gap * one_over_x,
        (coth - one_over_x) * one_over_x,
    ]
    far = [np.asarray(value, dtype=np.complex128) for value in through]
    if not small.any():
        return far[0], far[1], far[2], far[3]
    q = np.where(small, x * x, np.complex128(0.0))
    series = [
        1.0 + q * (4 / 3 + q * (-16 / 45 + q * 128 / 945)),
        1.0 + q * (-2 / 3 + q * (14 / 45 - q * 124 / 945)),
        1.0 + q * (-1 / 3 + q * (2 / 15 - q * 17 / 315)),
        1 / 3 + q * (-1 / 45 + q * (2 / 945 - q / 4725)),
    ]
    near = [np.asarray(value, dtype=np.complex128) for value in series]
    chosen = [np.where(small, one, other) for one, other in zip(near, far, strict=True)]
    return chosen[0], chosen[1], chosen[2], chosen[3]
