"""Units in which the catalogue keeps its figures, and the data-sheet units it also reads.

Humidity and moisture content are fractions, so a movement printed as "% per % RH" keeps its number.
"""

from collections.abc import Mapping
from typing import Final

MM: Final = "mm"
METRE: Final = "m"
DENSITY: Final = "kg/m³"
STRESS: Final = "MPa"
RATIO: Final = "1"
PER_HUMIDITY: Final = "1/RH"
"""Strain for a change of the relative humidity from 0 to 1."""
PER_MOISTURE: Final = "1/MC"
"""Strain for a change of the moisture content by 1 kg/kg."""
STORAGE: Final = "kg/kg/RH"
"""Moisture content taken up for a change of the relative humidity from 0 to 1."""
SPREAD: Final = "g/m²"
MINUTES: Final = "min"
CELSIUS: Final = "°C"

CONVERSIONS: Final[Mapping[str, Mapping[str, float]]] = {
    MM: {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4},
    METRE: {"m": 1.0, "mm": 0.001},
    DENSITY: {"kg/m³": 1.0, "kg/m3": 1.0, "g/cm³": 1000.0, "g/cm3": 1000.0},
    STRESS: {"MPa": 1.0, "N/mm²": 1.0, "N/mm2": 1.0, "GPa": 1000.0},
    RATIO: {"1": 1.0, "%": 0.01},
    PER_HUMIDITY: {"1/RH": 1.0, "%/%RH": 1.0},
    PER_MOISTURE: {"1/MC": 1.0, "%/%": 1.0, "%/%MC": 1.0},
    STORAGE: {"kg/kg/RH": 1.0, "%MC/%RH": 1.0},
    SPREAD: {"g/m²": 1.0, "g/m2": 1.0, "kg/m²": 1000.0},
    MINUTES: {"min": 1.0, "h": 60.0, "d": 1440.0},
    CELSIUS: {"°C": 1.0},
}
"""For each unit of the catalogue: the units read, with the factor into it."""


def factor_into(kept: str, written: str) -> float | None:
    """The factor from the unit written into the unit kept; None when the two do not fit."""
    return CONVERSIONS.get(kept, {kept: 1.0}).get(written)
