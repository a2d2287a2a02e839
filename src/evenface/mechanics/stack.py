"""What this room is told about a panel and the air on its two sides: plain records of numbers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from evenface.mechanics.arrays import Floats, floats, per_layer
from evenface.mechanics.laminate import Plies

DAYS_PER_YEAR = 365


@dataclass(frozen=True, slots=True, eq=False)
class Stack:
    """Layers bottom to top; every layer field is (..., layers), leading axes are draws.

    `expansion_1`, `expansion_2`: free strain per unit of relative humidity along the layer's own
    directions (0.0035 %/%RH = 0.0035). `vapour_resistance`: μ. `storage_kg_m3`: ρ·du/dφ, kg/m³ per unit of
    humidity. `film_bottom_m`, `film_top_m` (...): s_d of finish and air film on the faces, metres.
    Raises ValueError for sizes, moduli, μ or storage that are not positive and for negative films.
    """

    thickness_mm: Floats
    E1_MPa: Floats
    E2_MPa: Floats
    nu12: Floats
    G12_MPa: Floats
    angle_deg: Floats
    expansion_1: Floats
    expansion_2: Floats
    vapour_resistance: Floats
    storage_kg_m3: Floats
    film_bottom_m: Floats = field(default_factory=lambda: np.zeros(()))
    film_top_m: Floats = field(default_factory=lambda: np.zeros(()))

    def __post_init__(self) -> None:
        layers = floats(self.thickness_mm, "thickness_mm", axes=1).shape[-1]
        for name in ("thickness_mm", "E1_MPa", "E2_MPa", "G12_MPa", "vapour_resistance", "storage_kg_m3"):
            object.__setattr__(self, name, per_layer(getattr(self, name), name, layers, above=0.0))
        for name in ("nu12", "angle_deg", "expansion_1", "expansion_2"):
            object.__setattr__(self, name, per_layer(getattr(self, name), name, layers))
        for name in ("film_bottom_m", "film_top_m"):
            film = floats(getattr(self, name), name)
            if (film < 0.0).any():
                raise ValueError(f"{name}: expected an s_d of 0 or more, got {film.min():g}")
            object.__setattr__(self, name, film)

    @property
    def layers(self) -> int:
        """Number of layers."""
        return int(self.thickness_mm.shape[-1])

    @property
    def plies(self) -> Plies:
        """The elastic layers alone."""
        return Plies(self.thickness_mm, self.E1_MPa, self.E2_MPa, self.nu12, self.G12_MPa, self.angle_deg)

    @property
    def batch(self) -> tuple[int, ...]:
        """Shape of the leading axes of all fields together."""
        shapes = [getattr(self, name).shape[:-1] for name in LAYER_FIELDS]
        return np.broadcast_shapes(*shapes, self.film_bottom_m.shape, self.film_top_m.shape)


LAYER_FIELDS = (
    "thickness_mm",
    "E1_MPa",
    "E2_MPa",
    "nu12",
    "G12_MPa",
    "angle_deg",
    "expansion_1",
    "expansion_2",
    "vapour_resistance",
    "storage_kg_m3",
)


@dataclass(frozen=True, slots=True, eq=False)
class Climate:
    """The air at one face: relative humidity at evenly spaced times, and its temperature.

    `humidity` (times,): fractions. For `settled_year` the values are spread evenly over one year (365
    daily values, or any number from 12 on); for `first_years` they are daily, the first at bonding.
    `temperature_c`: one number or (times,). The fast path uses its mean (both faces alike: isothermal;
    unlike: straight temperature through the thickness and vapour pressure as the potential); the march
    uses every value. Raises ValueError for humidities outside 0 to 1.
    """

    humidity: Floats
    temperature_c: Floats = field(default_factory=lambda: np.asarray(20.0))

    def __post_init__(self) -> None:
        humidity = floats(self.humidity, "humidity", axes=1)
        if humidity.ndim != 1 or not ((humidity >= 0.0) & (humidity <= 1.0)).all():
            raise ValueError("humidity: expected one row of fractions between 0 and 1 (50 % is 0.5)")
        temperature = floats(self.temperature_c, "temperature_c")
        if temperature.shape not in ((), humidity.shape):
            raise ValueError(f"temperature_c: expected 1 or {humidity.size} values, got {temperature.shape}")
        object.__setattr__(self, "humidity", humidity)
        object.__setattr__(self, "temperature_c", temperature)

    @property
    def mean_temperature_c(self) -> float:
        """Mean temperature, °C."""
        return float(np.mean(self.temperature_c))


@dataclass(frozen=True, slots=True)
class GlueWater:
    """Water a glue line gives to its neighbours: `mass_kg_m2` above interface `interface`.

    Interface 1 lies between layers 0 and 1. The water is spread evenly over `depth_below_mm` under the
    line and `depth_above_mm` over it.
    """

    interface: int
    mass_kg_m2: float
    depth_below_mm: float
    depth_above_mm: float = 0.0

    def __post_init__(self) -> None:
        if self.mass_kg_m2 < 0.0 or self.depth_below_mm < 0.0 or self.depth_above_mm < 0.0:
            raise ValueError("glue water: expected mass and depths of 0 or more")
        if self.depth_below_mm + self.depth_above_mm <= 0.0:
            raise ValueError("glue water: expected a depth above 0 on at least one side of the line")


@dataclass(frozen=True, slots=True, eq=False)
class Isotherm:
    """Stored water of a layer, kg/m³, at rising relative humidities; monotone cubic between the points.

    Beyond the last point the line goes on straight, so that glue water may wet a cell past 100 %.
    Raises ValueError unless both rows rise.
    """

    humidity: Floats
    content_kg_m3: Floats

    def __post_init__(self) -> None:
        x, y = floats(self.humidity, "humidity", axes=1), floats(self.content_kg_m3, "content_kg_m3", axes=1)
        if x.shape != y.shape or x.size < 2 or (np.diff(x) <= 0).any() or (np.diff(y) <= 0).any():
            raise ValueError("isotherm: expected two equally long rows of at least 2 rising values")
        object.__setattr__(self, "humidity", x)
        object.__setattr__(self, "content_kg_m3", y)

    def curve(self) -> tuple[Callable[[Floats], Floats], Callable[[Floats], Floats]]:
        """Return content and its slope as functions of humidity within the given points."""
        from scipy.interpolate import PchipInterpolator

        content = PchipInterpolator(self.humidity, self.content_kg_m3)
        return content, content.derivative()


@dataclass(frozen=True, slots=True)
class SoftGlue:
    """A glue line that gives: `interface` (1 = between layers 0 and 1), shear modulus and thickness."""

    interface: int
    shear_modulus_MPa: float  # noqa: N815
    thickness_mm: float

    def __post_init__(self) -> None:
        if self.shear_modulus_MPa <= 0.0 or self.thickness_mm <= 0.0:
            raise ValueError("soft glue: expected a shear modulus and a thickness above 0")


@dataclass(frozen=True, slots=True)
class Relaxation:
    """Slow loss of pull: a change of curvature keeps 1 at once and `long_term_share` in the end.

    Standard linear solid on the curvature as a whole: κ_relaxed(t) = ∫ R(t − s) dκ(s) with
    R = share + (1 − share)·exp(−t/time_constant_days). Memory, weak evidence: share 0.6 to 0.8 over months.
    It stands for a carrier that creeps under a sheet that hardly does; it is not a material law.
    """

    long_term_share: float = 0.7
    time_constant_days: float = 60.0

    def __post_init__(self) -> None:
        if not 0.0 < self.long_term_share <= 1.0 or self.time_constant_days <= 0.0:
            raise ValueError("relaxation: expected a share above 0 up to 1 and a time constant above 0")
