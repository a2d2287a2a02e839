"""Bands: the settled year and the first years for hundreds of seeded draws of the properties.

Each varied property has a nominal value and the ends of its 90 % spread. A standard normal draw carries it
below and above the nominal separately, so nominal, low and high are its 50, 5 and 95 % points exactly.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from evenface.mechanics.arrays import Floats, floats
from evenface.mechanics.laminate import FREE
from evenface.mechanics.response import Warp, first_years, settled_year
from evenface.mechanics.stack import (
    DAYS_PER_YEAR,
    LAYER_FIELDS,
    Climate,
    GlueWater,
    Relaxation,
    SoftGlue,
    Stack,
)
from evenface.mechanics.weights import Held

FILM_FIELDS = ("film_bottom_m", "film_top_m")
HUMIDITY = "humidity_at_bonding"
Z_95 = 1.6448536269514722


@dataclass(frozen=True, slots=True)
class Varied:
    """One uncertain property: `field` of a stack, or "humidity_at_bonding", in `layers` that move together.

    `nominal`, `low`, `high`: 50, 5 and 95 % points, in the field's unit. Two sheets of one batch share one
    entry; independent ones get two. `spread`: "lognormal" (all three above 0) or "normal".
    `also`: further fields that take the same values, as a sheet without grain is as stiff both ways.
    """

    name: str
    field: str
    layers: tuple[int, ...]
    nominal: float
    low: float
    high: float
    spread: Literal["lognormal", "normal"] = "lognormal"
    also: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for field in (self.field, *self.also):
            if field not in (*LAYER_FIELDS, *FILM_FIELDS, HUMIDITY):
                raise ValueError(f"varied {self.name}: no field {field!r} in a stack")
        if not self.low <= self.nominal <= self.high:
            raise ValueError(f"varied {self.name}: expected low ≤ nominal ≤ high")
        if self.spread == "lognormal" and self.low <= 0.0:
            raise ValueError(f"varied {self.name}: a lognormal spread needs values above 0, got {self.low:g}")

    def values(self, z: Floats) -> Floats:
        """Return the property at standard normal draws `z`, same shape."""
        if self.spread == "normal":
            down, up = self.nominal - self.low, self.high - self.nominal
            return np.asarray(self.nominal + np.where(z < 0, down, up) * z / Z_95)
        down, up = float(np.log(self.nominal / self.low)), float(np.log(self.high / self.nominal))
        return np.asarray(self.nominal * np.exp(np.where(z < 0, down, up) * z / Z_95))


@dataclass(frozen=True, slots=True, eq=False)
class Band:
    """What the draws gave. `days` (times,); `percent` (levels,); `curvature_per_mm` (levels, times, 3).

    `lowest_per_mm`, `highest_per_mm` (levels, 3): percentiles of each draw's own lowest and highest value
    over the year. `worst_per_mm` (3,): the edge of the 90 % band farthest from flat, signed, and
    `worst_day` (3,) where it stands. `shares` {name: (3,)}: squared rank correlation of each property with
    the curvature on that day; `draws_per_mm` (draws, 3) the curvature on that day.
    """

    days: Floats
    percent: Floats
    curvature_per_mm: Floats
    lowest_per_mm: Floats
    highest_per_mm: Floats
    worst_per_mm: Floats
    worst_day: Floats
    shares: dict[str, Floats]
    draws_per_mm: Floats


PERCENT = (5.0, 25.0, 50.0, 75.0, 95.0)


def drawn(
    stack: Stack, humidity_at_bonding: ArrayLike, varied: Sequence[Varied], draws: int, seed: int
) -> tuple[Stack, Floats, Floats]:
    """Return the stack and bonding humidity with one leading axis of draws, and the normal draws used."""
    z = np.random.default_rng(seed).standard_normal((draws, len(varied)))
    bonding = floats(humidity_at_bonding, HUMIDITY)
    fields: dict[str, Floats] = {HUMIDITY: np.tile(np.broadcast_to(bonding, (stack.layers,)), (draws, 1))}
    for column, one in enumerate(varied):
        values = one.values(z[:, column])
        for field in (one.field, *one.also):
            if field in FILM_FIELDS:
                fields[field] = values
                continue
            if field not in fields:
                fields[field] = np.tile(getattr(stack, field), (draws, 1))
            fields[field][:, list(one.layers)] = values[:, None]
    at_bonding = np.clip(fields.pop(HUMIDITY), 0.0, 1.0)
    return replace(stack, **fields), at_bonding, z


def sample_band(
    stack: Stack,
    climate_top: Climate | None,
    climate_bottom: Climate | None,
    humidity_at_bonding: ArrayLike,
    varied: Sequence[Varied],
    *,
    draws: int = 500,
    seed: int = 1,
    times: int = 73,
    held: Held = FREE,
    soft_glue: Sequence[SoftGlue] = (),
    size_mm: tuple[float, float] | None = None,
    relaxation: Relaxation | None = None,
) -> Band:
    """Return the band of the settled year at `times` instants (73: every fifth day), to 2e-3 of the swing."""
    many, bonding, z = drawn(stack, humidity_at_bonding, varied, draws, seed)
    warp = settled_year(
        many,
        climate_top,
        climate_bottom,
        bonding,
        held=held,
        soft_glue=soft_glue,
        size_mm=size_mm,
        relaxation=relaxation,
        times=times,
        with_layers=False,
        nodes=14,
    )
    return _band(warp, varied, z)


def sample_first_years(
    stack: Stack,
    climate_top: Climate | None,
    climate_bottom: Climate | None,
    initial_humidities: ArrayLike,
    glue_water: Sequence[GlueWater],
    varied: Sequence[Varied],
    *,
    draws: int = 500,
    seed: int = 1,
    days: int = 2 * DAYS_PER_YEAR,
    every_days: int = 5,
    cells: int = 30,
    water_held: float = 1.0,
    held: Held = FREE,
    soft_glue: Sequence[SoftGlue] = (),
    size_mm: tuple[float, float] | None = None,
    relaxation: Relaxation | None = None,
) -> Band:
    """Return the band of the first years after bonding, every `every_days` days (slower: about a second)."""
    many, bonding, z = drawn(stack, initial_humidities, varied, draws, seed)
    warp = first_years(
        many,
        climate_top,
        climate_bottom,
        bonding,
        glue_water,
        water_held=water_held,
        held=held,
        soft_glue=soft_glue,
        size_mm=size_mm,
        relaxation=relaxation,
        days=days,
        cells=cells,
        with_layers=False,
    )
    few = slice(None, None, every_days)
    thinned = Warp(warp.days[few], warp.curvature_per_mm[..., few, :], warp.layer_humidity, warp.layer_tilt)
    return _band(thinned, varied, z)


def _band(warp: Warp, varied: Sequence[Varied], z: Floats) -> Band:
    percent = np.array(PERCENT)
    curvature = np.broadcast_to(warp.curvature_per_mm, (z.shape[0], *warp.curvature_per_mm.shape[-2:]))
    levels = percentiles(curvature, percent)
    both = np.stack([levels[0], levels[-1]])
    flat = np.argmax(np.abs(both).reshape(-1, 3), axis=0)
    worst = both.reshape(-1, 3)[flat, np.arange(3)]
    day = flat % warp.days.size
    at_worst = curvature[:, day, np.arange(3)]
    shares = {one.name: rank_share(z[:, column], at_worst) for column, one in enumerate(varied)}
    lowest = percentiles(curvature.min(axis=1), percent)
    highest = percentiles(curvature.max(axis=1), percent)
    return Band(
        warp.days, percent, levels, lowest, highest, worst, warp.days[day], shares, np.array(at_worst)
    )


def percentiles(values: Floats, percent: Floats) -> Floats:
    """Return percentiles over the first axis, (levels, ...), straight between order statistics."""
    ordered = np.sort(np.ascontiguousarray(np.moveaxis(values, 0, -1)), axis=-1)
    place = percent / 100.0 * (values.shape[0] - 1)
    low = np.floor(place).astype(int)
    high = np.minimum(low + 1, values.shape[0] - 1)
    part = place - low
    return np.asarray(np.moveaxis(ordered[..., low] * (1 - part) + ordered[..., high] * part, -1, 0))


def rank_share(z: Floats, outputs: Floats) -> Floats:
    """Return the squared rank correlation of `z` (draws,) with each column of `outputs` (draws, columns).

    About the share of the variance that the property explains; independent properties of a response that is
    near enough monotone add up to about 1. A column that does not vary gives 0.
    """
    ranks = np.argsort(np.argsort(outputs, axis=0), axis=0) - 0.5 * (z.size - 1)
    own = np.argsort(np.argsort(z)) - 0.5 * (z.size - 1)
    share = (own @ ranks / (own @ own)) ** 2
    size = np.abs(outputs).max(axis=0, initial=0.0)
    return np.where(np.ptp(outputs, axis=0) <= 1e-12 * size, 0.0, share)
