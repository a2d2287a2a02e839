"""How much water wood holds in air, and how fast that changes with the air.

Two published equations for wood: Hailwood-Horrobin as in the Wood Handbook (its table is this equation
rounded) and the newer one of Glass et al., which differs by up to 0.5 % moisture at the damp end; their
difference is a measure of what is not known. Single species lie ±1.5 % moisture about them, and wood that
dries holds some 2 % more than wood that gets wetter (`HYSTERESIS`). Humidity and moisture content are
fractions, temperature °C. Arrays broadcast.
"""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from evenface.climate.vapour import Floats

HYSTERESIS: Final = 0.02
"""Moisture content by which drying wood lies above wetting wood near 65 % humidity (spruce, measured)."""
SPECIES_SPREAD: Final = 0.015
"""How far a species may lie from the equations (oak, beech and spruce at 37 and 83 %)."""

_TOP: Final = 0.999
"""Humidity up to which the inverse looks for an answer."""


def wood_moisture(humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
    """Equilibrium moisture content of wood [-].

    Source: Hailwood-Horrobin with two hydrates, coefficients of Simpson, Wood Handbook (USDA FPL-GTR-282)
    Eq. 4-5, printed for °C. For −1 to 55 °C and humidity from 0 to below 1.
    Raises ValueError for a humidity outside [0, 1).
    """
    h, T = _humidity(humidity), np.asarray(temperature_c, dtype=np.float64)
    W, K, K1, K2 = _coefficients(T)
    Kh = K * h
    hydrates = K1 * Kh + 2.0 * K1 * K2 * Kh**2
    return np.asarray(18.0 / W * (Kh / (1.0 - Kh) + hydrates / (1.0 + K1 * Kh + K1 * K2 * Kh**2)))


def wood_slope(humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
    """Slope du/dφ of `wood_moisture`: moisture content per unit of humidity [-]."""
    h, T = _humidity(humidity), np.asarray(temperature_c, dtype=np.float64)
    W, K, K1, K2 = _coefficients(T)
    Kh = K * h
    above, below = K1 * Kh + 2.0 * K1 * K2 * Kh**2, 1.0 + K1 * Kh + K1 * K2 * Kh**2
    above_slope, below_slope = K1 + 4.0 * K1 * K2 * Kh, K1 + 2.0 * K1 * K2 * Kh
    bound = (above_slope * below - above * below_slope) / below**2
    return np.asarray(18.0 / W * K * (1.0 / (1.0 - Kh) ** 2 + bound))


def wood_humidity(moisture: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
    """Relative humidity at which wood of a measured moisture content would stay as it is [-].

    Inverse of `wood_moisture` by halving; 1e-9 in humidity.
    Raises ValueError when the moisture lies outside what air can give (0 to about 0.28).
    """
    u = np.asarray(moisture, dtype=np.float64)
    if np.any(u < 0.0) or np.any(u > wood_moisture(_TOP, temperature_c)):
        raise ValueError(
            f"expected a moisture content that wood takes from air (0 to about 0.28), was given {u}; "
            "wetter wood is still green"
        )
    low = np.zeros(np.broadcast_shapes(u.shape, np.shape(temperature_c)))
    high = np.full_like(low, _TOP)
    for _ in range(31):
        middle = 0.5 * (low + high)
        too_dry = wood_moisture(middle, temperature_c) < u
        low, high = np.where(too_dry, middle, low), np.where(too_dry, high, middle)
    return np.asarray(0.5 * (low + high))


# --- Glass et al. 2014, Wood Handbook Eq. 4-6 and 4-7 -----------------------------------------------

_A: Final = -0.000612
_B: Final = 2.43
_C: Final = 0.0577
_D: Final = 0.430
_CRITICAL_K: Final = 647.1


def wood_moisture_glass(humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
    """Equilibrium moisture content by Glass, Zelinka and Johnson 2014 (Wood Handbook Eq. 4-6) [-]."""
    h, T = _humidity(humidity), np.asarray(temperature_c, dtype=np.float64) + 273.15
    base = _A * T * (1.0 - T / _CRITICAL_K) ** _B * np.log1p(-h)
    return np.asarray(base ** (_C * T**_D))


def wood_humidity_glass(moisture: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
    """Relative humidity of a moisture content by the inverse, Wood Handbook Eq. 4-7 [-]."""
    u, T = np.asarray(moisture, dtype=np.float64), np.asarray(temperature_c, dtype=np.float64) + 273.15
    if np.any(u < 0.0):
        raise ValueError(f"expected a moisture content of 0 or more, was given {np.min(u):g}")
    exponent = (1.0 / (_A * T)) * (1.0 - T / _CRITICAL_K) ** -_B * u ** (T**-_D / _C)
    return np.asarray(-np.expm1(exponent))


def _coefficients(T: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    W = 349.0 + 1.29 * T + 0.0135 * T**2
    K = 0.805 + 0.000736 * T - 0.00000273 * T**2
    K1 = 6.27 - 0.00938 * T - 0.000303 * T**2
    K2 = 1.91 + 0.0407 * T - 0.000293 * T**2
    return np.asarray(W), np.asarray(K), np.asarray(K1), np.asarray(K2)


def _humidity(humidity: ArrayLike) -> Floats:
    h = np.asarray(humidity, dtype=np.float64)
    if not np.all((h >= 0.0) & (h < 1.0)):
        raise ValueError(
            f"expected a relative humidity from 0 to below 1, was given {h}; percent are not meant"
        )
    return h
