"""Bow, cup and twist of each panel over the settled year, once for each distinct build-up and air."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from evenface.behaviour.records import Behaviour, Bend, Direction
from evenface.behaviour.rooms_air import air_of, climate_of
from evenface.behaviour.stacks import Stacked, stacked
from evenface.behaviour.twist import twist_bend
from evenface.climate.year import MONTH_OF_DAY, RoomYear
from evenface.construction import BuiltPanel, CarrierLayer, Construction, FaceLayer
from evenface.evidence import Band, Status, weakest
from evenface.mechanics import Climate, bow_mm, first_years, sample_band, settled_year
from evenface.mechanics.laminate import free_bending_stiffness, laminate
from evenface.piece.records import Job
from evenface.words import Said, said

type Floats = NDArray[np.float64]

DRAWS = 500
SEED = 1
INSTANTS = 73
REALITY = 0.30
"""Measured panels differ from any such reckoning by about so much even with measured properties."""


@dataclass(frozen=True, slots=True)
class Curved:
    """Curvatures of a build-up in its air: nominal by day, and the band at every fifth day. [1/mm]"""

    nominal: Floats
    low: Floats
    high: Floats
    days: Floats
    first: Floats
    shares: tuple[dict[str, float], dict[str, float]]
    stiffness: tuple[float, float]


def behaviours_of(job: Job, constructions: Sequence[Construction]) -> tuple[Behaviour, ...]:
    """Every panel of the job, in order."""
    return tuple(behaviour_of(job, panel) for construction in constructions for panel in construction.panels)


def behaviour_of(job: Job, panel: BuiltPanel) -> Behaviour:
    """One panel through the year; MissingWord for a place or room nobody knows."""
    top, bottom = air_of(job, panel.panel)
    numbers = stacked(job, panel)
    curved = _curved_once(_Key(numbers, top, bottom, job.bonding_month))
    bends = (*_bends(panel, curved), twist_bend(panel, numbers, top, bottom))
    return Behaviour(
        piece=panel.piece,
        part=panel.name,
        thickness_mm=panel.thickness_mm,
        bends=bends,
        first_years=_first_years(panel, curved),
        holding_n=_holding_force(panel, curved, bends[0].deciding_mm),
        mass_kg_m2=_mass_per_area(panel),
        weakest=weakest((numbers.weakest, top.status, bottom.status)),
        notes=_notes(job, top, bottom, numbers.weakest),
        origin=panel.origin,
    )


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


@lru_cache(maxsize=256)
def _curved_once(key: _Key) -> Curved:
    stack, bonding = key.numbers.stack, np.asarray(key.numbers.humidity_at_bonding)
    top, bottom = climate_of(key.top), climate_of(key.bottom)
    nominal = settled_year(stack, top, bottom, bonding, times=INSTANTS, with_layers=False).curvature_per_mm
    band = sample_band(
        stack, top, bottom, bonding, key.numbers.varied, draws=DRAWS, seed=SEED, times=INSTANTS
    )
    start = int(np.argmax(key.bonding_month - 1 == MONTH_OF_DAY))
    first = first_years(
        stack, _turned(key.top, start), _turned(key.bottom, start), bonding, cells=40, with_layers=False
    )
    low, high = _widened(nominal, band.curvature_per_mm[0], band.curvature_per_mm[-1])
    bending = free_bending_stiffness(laminate(stack.plies))
    shares = tuple(
        {
            name: float(share[axis])
            for name, share in sorted(band.shares.items(), key=lambda item: -item[1][axis])
        }
        for axis in (0, 1)
    )
    return Curved(
        nominal, low, high, band.days, first.curvature_per_mm, (shares[0], shares[1]), _two(bending)
    )


def _two(stiffness: Floats) -> tuple[float, float]:
    """Bending stiffness per width along x and y. [N mm]"""
    values = np.asarray(stiffness)
    return float(values[..., 0].flat[0]), float(values[..., 1].flat[0])


def _turned(year: RoomYear, start: int) -> Climate:
    temperature, humidity = year.from_day(start, 365)
    return Climate(humidity, temperature)


def _widened(nominal: Floats, low: Floats, high: Floats) -> tuple[Floats, Floats]:
    """The band of the properties together with what reality adds to any such reckoning."""
    reality = REALITY * np.abs(nominal)
    return nominal - np.hypot(nominal - low, reality), nominal + np.hypot(high - nominal, reality)


def _bends(panel: BuiltPanel, curved: Curved) -> tuple[Bend, Bend]:
    """Bow along the longer edge, cup along the shorter."""
    sizes = (panel.length_mm, panel.width_mm)
    long_axis = 0 if sizes[0] >= sizes[1] else 1
    return (
        _bend(Direction.BOW, curved, long_axis, sizes[long_axis]),
        _bend(Direction.CUP, curved, 1 - long_axis, sizes[1 - long_axis]),
    )


def _bend(direction: Direction, curved: Curved, axis: int, size_mm: float) -> Bend:
    nominal, low, high = (
        bow_mm(curvature[:, axis], size_mm) for curvature in (curved.nominal, curved.low, curved.high)
    )
    furthest = np.maximum(np.abs(low), np.abs(high))
    month = MONTH_OF_DAY[np.minimum(curved.days.astype(int), 364)]
    day = int(np.argmax(furthest))
    months = tuple(
        _band_at(
            nominal, low, high, int(np.flatnonzero(month == number)[np.argmax(furthest[month == number])])
        )
        for number in range(12)
    )
    return Bend(
        direction=direction,
        gauge_mm=size_mm,
        worst=_band_at(nominal, low, high, day),
        month=int(month[day]) + 1,
        year=months,
        shares=curved.shares[axis],
    )


def _band_at(nominal: Floats, low: Floats, high: Floats, day: int) -> Band:
    return Band(float(low[day]), float(nominal[day]), float(high[day]))


def _first_years(panel: BuiltPanel, curved: Curved) -> dict[Direction, tuple[float, ...]]:
    """Nominal rise at the middle of each of the 24 months after bonding. [mm]"""
    days = (np.arange(24) * 30.4 + 15).astype(int)
    sizes = (panel.length_mm, panel.width_mm)
    long_axis = 0 if sizes[0] >= sizes[1] else 1
    return {
        direction: tuple(float(rise) for rise in bow_mm(curved.first[days, axis], sizes[axis]))
        for direction, axis in ((Direction.BOW, long_axis), (Direction.CUP, 1 - long_axis))
    }


def _holding_force(panel: BuiltPanel, curved: Curved, worst_bow_mm: float) -> float | None:
    """Force in the middle of a part held at its ends that takes out the worst bow: 48·EI·δ/L³. [N]"""
    if panel.panel.hold.how in ("free", "hinged"):
        return None
    long, wide = max(panel.length_mm, panel.width_mm), min(panel.length_mm, panel.width_mm)
    stiffness = curved.stiffness[0 if panel.length_mm >= panel.width_mm else 1] * wide
    return 48.0 * stiffness * abs(worst_bow_mm) / long**3


def _mass_per_area(panel: BuiltPanel) -> float:
    layers: tuple[CarrierLayer | FaceLayer, ...] = (panel.carrier, *panel.faces)
    return sum(layer.thickness.nominal * layer.material.density.nominal for layer in layers) / 1000.0


def _notes(job: Job, top: RoomYear, bottom: RoomYear, status: Status) -> tuple[Said, ...]:
    notes = [
        said(
            "Reckoned with linear laminate theory and one-dimensional moisture transport; reality may differ "
            "by {share:percent} even where every property is measured, and a test panel decides.",
            share=REALITY,
        )
    ]
    if not job.place and not job.humidity:
        notes.append(said("No place is given in the job: reckoned for a heated home in Copenhagen."))
    if status is Status.MEMORY:
        notes.append(
            said("Some properties are from memory; measure a test strip before relying on the figures.")
        )
    return (*notes, *top.notes, *(note for note in bottom.notes if note not in top.notes))
