"""Moisture content of boards and laminate in air, with the range boards of one kind were found to have.

The curve u = h/(A + B·h − C·h²) goes exactly through the three points of `data/boards.toml`; it is the form
in which measured isotherms of wood are printed too, and gives slope and inverse in closed form. Wood itself
comes from `sorption`; `isotherm("wood")` wraps it so that layers can be treated alike.
"""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike

from evenface.climate.sorption import (
    SPECIES_SPREAD,
    wood_humidity,
    wood_moisture,
    wood_slope,
)
from evenface.climate.vapour import Floats
from evenface.errors import MissingWord
from evenface.evidence import Status


class Isotherm(Protocol):
    """What every layer that takes up water can answer."""

    @property
    def name(self) -> str: ...
    @property
    def status(self) -> Status: ...
    @property
    def source(self) -> str: ...
    def moisture(self, humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """Moisture content at a relative humidity [-]."""

    def slope(self, humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """Moisture content per unit of humidity, du/dφ [-]."""

    def humidity(self, moisture: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """Relative humidity at which a measured moisture content stays [-]."""

    def spread(self, humidity: ArrayLike) -> tuple[Floats, Floats]:
        """Lowest and highest moisture content found in boards of this kind (90 %) [-]."""


@dataclass(frozen=True, slots=True)
class WoodIsotherm:
    """Solid wood of any species, by Hailwood-Horrobin; ± the species scatter."""

    name: str = "wood"
    status: Status = Status.READ
    source: str = "Wood Handbook (USDA FPL-GTR-282) Eq. 4-5"

    def moisture(self, humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """See `wood_moisture`."""
        return wood_moisture(humidity, temperature_c)

    def slope(self, humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """See `wood_slope`."""
        return wood_slope(humidity, temperature_c)

    def humidity(self, moisture: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """See `wood_humidity`."""
        return wood_humidity(moisture, temperature_c)

    def spread(self, humidity: ArrayLike) -> tuple[Floats, Floats]:
        """The equation ± 1.5 % moisture, never below zero."""
        middle = wood_moisture(humidity)
        return np.maximum(middle - SPECIES_SPREAD, 0.0), middle + SPECIES_SPREAD


@dataclass(frozen=True, slots=True)
class BoardIsotherm:
    """A board: three points at about 20 °C with their range, and the curve through each set.

    Temperature shifts it in the proportion in which it shifts wood (own assumption, small in rooms).
    """

    name: str
    points: tuple[float, float, float]
    at_points: tuple[float, float, float]
    low: tuple[float, float, float]
    high: tuple[float, float, float]
    status: Status
    source: str

    def __post_init__(self) -> None:
        for values in (self.low, self.at_points, self.high):
            A, _, C = through_three_points(self.points, values)
            # A > 0 and C ≥ 0 keep the curve rising all the way
            if A <= 0.0 or C < 0.0:
                raise ValueError(
                    f"{self.name}: expected points of a rising S-shaped curve, was given {values}"
                )
        if not all(
            low <= u <= high for low, u, high in zip(self.low, self.at_points, self.high, strict=True)
        ):
            raise ValueError(f"{self.name}: expected low ≤ moisture ≤ high at each point")

    def moisture(self, humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """Moisture content at a relative humidity [-]."""
        h = np.asarray(humidity, dtype=np.float64)
        return three_constant_curve(h, *self._constants()) * _warmth(h, temperature_c)

    def slope(self, humidity: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """du/dφ, (A + C·φ²)/(A + B·φ − C·φ²)² [-]."""
        h = np.asarray(humidity, dtype=np.float64)
        A, B, C = self._constants()
        own = (A + C * h**2) / (A + B * h - C * h**2) ** 2
        return np.asarray(own * _warmth(h, temperature_c))

    def humidity(self, moisture: ArrayLike, temperature_c: ArrayLike = 20.0) -> Floats:
        """Relative humidity at which a moisture content stays, solved from the quadratic [-].

        Raises ValueError when the board cannot hold so much water in air.
        """
        u = np.asarray(moisture, dtype=np.float64)
        if np.any(u < 0.0) or np.any(u > self.moisture(0.99, temperature_c)):
            most = float(np.min(self.moisture(0.99, temperature_c)))
            raise ValueError(f"{self.name}: expected a moisture content of 0 to {most:.3f}, was given {u}")
        h = self._inverse(u)
        for _ in range(16):  # the shift by temperature itself hangs on the humidity, weakly
            h = self._inverse(u / _warmth(h, temperature_c))
        return h

    def spread(self, humidity: ArrayLike) -> tuple[Floats, Floats]:
        """Lowest and highest moisture content found in boards of this kind (90 %) [-]."""
        h = np.asarray(humidity, dtype=np.float64)
        low, high = (
            three_constant_curve(h, *through_three_points(self.points, values))
            for values in (self.low, self.high)
        )
        return low, high

    def _constants(self) -> tuple[float, float, float]:
        return through_three_points(self.points, self.at_points)

    def _inverse(self, u: Floats) -> Floats:
        # u·(A + Bh − Ch²) = h  →  uC·h² + (1 − uB)·h − uA = 0, its one positive root
        A, B, C = self._constants()
        half = 1.0 - u * B
        return np.asarray(2.0 * u * A / (half + np.sqrt(half**2 + 4.0 * u**2 * A * C)))


def three_constant_curve(humidity: ArrayLike, A: float, B: float, C: float) -> Floats:
    """Moisture content h/(A + B·h − C·h²) [-]."""
    h = np.asarray(humidity, dtype=np.float64)
    return np.asarray(h / (A + B * h - C * h**2))


@cache
def through_three_points(
    humidity: tuple[float, float, float], moisture: tuple[float, float, float]
) -> tuple[float, float, float]:
    """A, B, C of the curve through three points: h/u is a parabola in h.

    Raises ValueError when the points do not rise.
    """
    if not (
        0.0 < humidity[0] < humidity[1] < humidity[2] < 1.0 and 0.0 < moisture[0] < moisture[1] < moisture[2]
    ):
        raise ValueError(f"expected three rising points, was given {humidity} and {moisture}")
    h = np.array(humidity)
    A, B, minus_C = np.linalg.solve(np.vander(h, increasing=True), h / np.array(moisture))
    return float(A), float(B), float(-minus_C)


@cache
def _boards() -> dict[str, BoardIsotherm]:
    text = files("evenface.climate").joinpath("data/boards.toml").read_text(encoding="utf-8")
    return {
        key: BoardIsotherm(
            name=entry["name"],
            points=tuple(entry["humidity"]),
            at_points=tuple(entry["moisture"]),
            low=tuple(entry["low"]),
            high=tuple(entry["high"]),
            status=Status(entry["status"]),
            source=entry["source"],
        )
        for key, entry in tomllib.loads(text).items()
    }


def isotherm(kind: str) -> Isotherm:
    """The isotherm of "wood", "mdf", "particleboard", "plywood" or "laminate".

    Raises MissingWord for any other name.
    """
    if kind == "wood":
        return WoodIsotherm()
    if kind not in _boards():
        raise MissingWord("isotherm", kind, isotherm_names())
    return _boards()[kind]


def isotherm_names() -> tuple[str, ...]:
    """Every kind of layer an isotherm is known for."""
    return ("wood", *_boards())


def _warmth(humidity: Floats, temperature_c: ArrayLike) -> Floats:
    """Moisture of wood at this temperature over that at 20 °C; tends to a limit at humidity 0."""
    h = np.clip(humidity, 1e-6, 0.999)
    return np.asarray(wood_moisture(h, temperature_c) / wood_moisture(h, 20.0))
