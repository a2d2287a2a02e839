"""Vapour in air: saturation pressure, permeability of still air, and resistance that falls with humidity.

Sources: saturation pressure after EN ISO 13788 (both branches, from memory; 842 Pa at 23 °C and 30 % and
644 Pa at 3 °C and 85 % check it); δ_air = 2·10⁻⁷·T^0.81/p (from memory, 1.97·10⁻¹⁰ kg/(m·s·Pa) at 20 °C).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats

AIR_PRESSURE_PA = 101325.0
SECONDS_PER_DAY = 86400.0
DRY_CUP, WET_CUP = 0.25, 0.75


def saturation_pressure_pa(temperature_c: ArrayLike) -> Floats:
    """Return the saturation pressure of water vapour, Pa; over ice below 0 °C. Valid −30 to 60 °C."""
    t = floats(temperature_c, "temperature_c")
    water = 610.5 * np.exp(17.269 * t / (237.3 + t))
    ice = 610.5 * np.exp(21.875 * t / (265.5 + t))
    return np.where(t < 0.0, ice, water)


def air_permeability(temperature_c: ArrayLike) -> Floats:
    """Return δ of still air in kg/(m·day·Pa) at normal pressure."""
    kelvin = floats(temperature_c, "temperature_c") + 273.15
    return np.asarray(SECONDS_PER_DAY * 2.0e-7 * kelvin**0.81 / AIR_PRESSURE_PA)


def resistance_at(humidity: Floats, dry: Floats, wet: Floats) -> Floats:
    """Return μ at a relative humidity between the dry-cup (mean 25 %) and wet-cup (mean 75 %) values.

    log μ runs straight through both and stays level below 0 and above 100 %. Common practice, not a law.
    """
    share = (np.clip(humidity, 0.0, 1.0) - DRY_CUP) / (WET_CUP - DRY_CUP)
    return np.asarray(dry * (wet / dry) ** share)
