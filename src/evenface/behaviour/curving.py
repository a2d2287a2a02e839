"""Curvature of a build-up in its air, worked out once for each distinct one."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from evenface.behaviour.stacks import Stacked
from evenface.climate.year import MONTH_OF_DAY, RoomYear
from evenface.construction.room_air import climate_of
from evenface.mechanics import Climate, curvature_weights, first_years, sample_band, settled_year
from evenface.mechanics.laminate import free_bending_stiffness, laminate

type Floats = NDArray[np.float64]

DRAWS = 500
SEED = 1
INSTANTS = 73
FIRST_DAYS = 730
REALITY = 0.30
"""Measured panels differ from any such reckoning by about so much even with measured properties."""


@dataclass(frozen=True, slots=True)
class Curved:
    """Curvatures of a build-up in its air: nominal and band at every fifth day. [1/mm]

    first : day by day for two years after bonding, with the glue's water. water : what of it is the water.
    humidity : of each layer, mean through it. shares : of each uncertain property, along x and y.
    stiffness : in bending, per width. [N mm] even : curvatures per unit of each layer's humidity. (3, layers)
    """

    nominal: Floats
    low: Floats
    high: Floats
    days: Floats
    first: Floats
    water: Floats
    humidity: Floats
    shares: tuple[dict[str, float], dict[str, float]]
    stiffness: tuple[float, float]
    even: Floats

    def nominal_at(self, humidity: Floats, bonding: Floats) -> Floats:
        """Curvatures a panel bonded with its layers at `bonding` has when all of them stand at `humidity`."""
        return np.asarray(self.even @ (humidity - bonding))


@dataclass(frozen=True, slots=True, eq=False)
class _Key:
    """What decides a curvature; equal keys are computed once."""

    numbers: Stacked
    top: RoomYear
    bottom: RoomYear
    bonding_month: int

    def _same(self) -> tuple[bytes, str, str, int]:
        return self.numbers.key, self.top.fingerprint, self.bottom.fingerprint, self.bonding_month

    def __hash__(self) -> int:
        return hash(self._same())

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Key) and self._same() == other._same()


def curved(numbers: Stacked, top: RoomYear, bottom: RoomYear, bonding_month: int) -> Curved:
    """Curvatures of a panel with a year above and one below, bonded in the middle of a month of 1 to 12."""
    return _curved_once(_Key(numbers, top, bottom, bonding_month))


def forget() -> None:
    """Forget what was worked out; for tests and benchmarks."""
    _curved_once.cache_clear()


def remembered() -> tuple[int, int]:
    """How often an answer was at hand, and how often it had to be worked out."""
    info = _curved_once.cache_info()
    return info.hits, info.misses


@lru_cache(maxsize=512)
def _curved_once(key: _Key) -> Curved:
    numbers = key.numbers
    stack, bonding = numbers.stack, np.asarray(numbers.humidity_at_bonding)
    top, bottom = climate_of(key.top), climate_of(key.bottom)
    soft, size = numbers.soft_glue, numbers.size_mm
    settled = settled_year(stack, top, bottom, bonding, soft_glue=soft, size_mm=size, times=INSTANTS)
    nominal = settled.curvature_per_mm
    band = sample_band(
        stack,
        top,
        bottom,
        bonding,
        numbers.varied,
        draws=DRAWS,
        seed=SEED,
        times=INSTANTS,
        soft_glue=soft,
        size_mm=size,
    )
    low, high = _widened(nominal, band.curvature_per_mm[0], band.curvature_per_mm[-1])
    first, water = _first(key)
    bending = np.asarray(free_bending_stiffness(laminate(stack.plies)))
    shares = [
        {
            name: float(share[axis])
            for name, share in sorted(band.shares.items(), key=lambda item: -item[1][axis])
        }
        for axis in (0, 1)
    ]
    weight, _ = curvature_weights(stack, soft_glue=soft, size_mm=size)
    even = np.asarray(weight * np.asarray(stack.thickness_mm))
    stiffness = float(bending[..., 0].flat[0]), float(bending[..., 1].flat[0])
    return Curved(
        nominal,
        low,
        high,
        band.days,
        first,
        water,
        settled.layer_humidity,
        (shares[0], shares[1]),
        stiffness,
        even,
    )


def _first(key: _Key) -> tuple[Floats, Floats]:
    """Two years from the middle of the month of bonding on, and what of them the glue's water does.

    The water is taken to swell the board after the panel was pressed flat, so its bow passes as it dries.
    """
    numbers = key.numbers
    start = int(np.argmax(key.bonding_month - 1 == MONTH_OF_DAY)) + 14
    faces = _turned(key.top, start), _turned(key.bottom, start)

    def years(water: bool) -> Floats:
        return first_years(
            numbers.stack,
            *faces,
            np.asarray(numbers.humidity_at_bonding),
            numbers.glue_water if water else (),
            water_held=0.0,
            soft_glue=numbers.soft_glue,
            size_mm=numbers.size_mm,
            days=FIRST_DAYS,
            cells=40,
            with_layers=False,
        ).curvature_per_mm

    dry = years(False)
    wet = years(True) if numbers.glue_water else dry
    return wet, wet - dry


def _turned(year: RoomYear, start: int) -> Climate:
    temperature, humidity = year.from_day(start, 365)
    return Climate(humidity, temperature)


def _widened(nominal: Floats, low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """The band of the properties together with what reality adds to any such reckoning."""
    reality = REALITY * np.abs(nominal)
    down, up = np.maximum(nominal - low, 0.0), np.maximum(high - nominal, 0.0)
    return nominal - np.hypot(down, reality), nominal + np.hypot(up, reality)
