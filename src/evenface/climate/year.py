"""From monthly means to every day of the year, with a cold spell and a damp spell.

The daily curve is the smoothest periodic one whose mean over each month is the given one. Spells come on
top: monthly means are too smooth, and two dry weeks in January can double the bow of a thin face.
A year has 365 days, day 0 is 1 January; humidity is a fraction, temperature °C.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from evenface.climate.indoor import MonthlyRoom
from evenface.climate.kinds import Edge, RoomKind, damping_time, monthly_room
from evenface.climate.outdoors import MONTHS, Outdoors
from evenface.climate.vapour import Floats, vapour_pressure
from evenface.evidence import Status
from evenface.words import Said, said

DAYS: Final = 365
MONTH_DAYS: Final = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MONTH_OF_DAY: Final = np.repeat(np.arange(12), MONTH_DAYS)
DRIEST: Final = 0.02
DAMPEST: Final = 0.97
"""Daily humidity is held between these two."""


@dataclass(frozen=True, slots=True, eq=False)
class RoomYear:
    """The air about a piece on every day of a year that repeats itself; arrays of 365, read-only.

    days : 0 to 364; temperature_c [°C]; humidity [-]; notes : what must be said about it.
    Raises ValueError when the arrays are not 365 long, not finite, or humidity is no fraction.
    """

    days: Floats
    temperature_c: Floats
    humidity: Floats
    status: Status
    source: str
    notes: tuple[Said, ...] = ()

    def __post_init__(self) -> None:
        for name in ("days", "temperature_c", "humidity"):
            array = np.array(getattr(self, name), dtype=np.float64)
            if array.shape != (DAYS,) or not np.isfinite(array).all():
                raise ValueError(f"{name}: expected 365 finite values, was given shape {array.shape}")
            array.setflags(write=False)
            object.__setattr__(self, name, array)
        if not np.all((self.humidity > 0.0) & (self.humidity < 1.0)):
            low, high = self.humidity.min(), self.humidity.max()
            raise ValueError(f"expected humidity between 0 and 1, was given {low:g} to {high:g}")

    @property
    def vapour_pressure_pa(self) -> Floats:
        """Vapour pressure on every day [Pa]."""
        return vapour_pressure(self.temperature_c, self.humidity)

    @property
    def fingerprint(self) -> str:
        """A short name that two years share only when every day of them is the same."""
        return hashlib.sha256(self.temperature_c.tobytes() + self.humidity.tobytes()).hexdigest()[:16]

    def month_means(self) -> tuple[Floats, Floats]:
        """Mean temperature and humidity of each month, shape (12,) each."""
        return month_means(self.temperature_c), month_means(self.humidity)

    def from_day(self, day: int, days: int) -> tuple[Floats, Floats]:
        """Temperature and humidity for some days from a day of the year on, shape (days,) each."""
        index = (day + np.arange(days)) % DAYS
        return self.temperature_c[index], self.humidity[index]


@dataclass(frozen=True, slots=True)
class Spell:
    """Some days on which the humidity lies off the smooth year.

    first_day : 0 to 364; days : how many; humidity_change : added, such as −0.10 [-];
    temperature_change_c : added [K].
    """

    first_day: int
    days: int = 14
    humidity_change: float = -0.10
    temperature_change_c: float = 0.0

    def __post_init__(self) -> None:
        if not 0 <= self.first_day < DAYS or not 1 <= self.days <= DAYS:
            raise ValueError(f"expected a first day of 0 to 364 and 1 to 365 days, was given {self}")
        if not -0.5 <= self.humidity_change <= 0.5:
            raise ValueError(f"expected a change of humidity as a fraction, was given {self.humidity_change}")


@dataclass(frozen=True, slots=True)
class Spells:
    """How long and how strong the two spells of every year are; the days are found from the year itself."""

    days: int = 14
    cold: float = -0.10
    damp: float = 0.10


USUAL_SPELLS: Final = Spells()
NO_SPELLS: Final = Spells(14, 0.0, 0.0)


# --- daily from monthly -------------------------------------------------------------------------------


def month_means(daily: ArrayLike) -> Floats:
    """Mean over each month of 365 daily values, shape (12,)."""
    values = np.asarray(daily, dtype=np.float64)
    return np.asarray(np.bincount(MONTH_OF_DAY, weights=values, minlength=12) / np.array(MONTH_DAYS))


@cache
def _smoothing() -> Floats:
    """Matrix (365, 12): daily values of least periodic bending whose monthly means are those given."""
    bend = np.roll(np.eye(DAYS), 1, axis=0) - 2.0 * np.eye(DAYS) + np.roll(np.eye(DAYS), -1, axis=0)
    mean = np.zeros((12, DAYS))
    mean[MONTH_OF_DAY, np.arange(DAYS)] = 1.0 / np.array(MONTH_DAYS)[MONTH_OF_DAY]
    system = np.block([[bend.T @ bend, mean.T], [mean, np.zeros((12, 12))]])
    right = np.vstack([np.zeros((DAYS, 12)), np.eye(12)])
    return np.asarray(np.linalg.solve(system, right)[:DAYS])


def daily(monthly: ArrayLike) -> Floats:
    """The smoothest periodic daily curve with these twelve monthly means, shape (365,).

    Raises ValueError when there are not twelve.
    """
    months = np.asarray(monthly, dtype=np.float64)
    if months.shape != (12,):
        raise ValueError(f"expected 12 monthly means, was given shape {months.shape}")
    return np.asarray(_smoothing() @ months)


def smooth_year(room: MonthlyRoom) -> RoomYear:
    """A room's year day by day, without spells."""
    humidity, note = _held(daily(room.humidity))
    return RoomYear(
        np.arange(DAYS, dtype=np.float64),
        daily(room.temperature_c),
        humidity,
        room.status,
        room.source,
        (*room.notes, *note),
    )


# --- spells and damping -------------------------------------------------------------------------------


def usual_spells(year: RoomYear, spells: Spells = USUAL_SPELLS) -> tuple[Spell, ...]:
    """The cold spell about the driest day of a year and the damp spell about its dampest.

    A spell takes at most a third of what there is to take (own limit): air at 15 % does not fall to 5, nor
    does air at 90 % rise to saturation.
    """
    centres = (int(np.argmin(year.humidity)), int(np.argmax(year.humidity)))
    most = (-year.humidity[centres[0]] / 3.0, (1.0 - year.humidity[centres[1]]) / 3.0)
    changes = (max(spells.cold, float(most[0])), min(spells.damp, float(most[1])))
    return tuple(
        Spell((centre - spells.days // 2) % DAYS, spells.days, change)
        for centre, change in zip(centres, changes, strict=True)
        if change
    )


def with_spells(year: RoomYear, spells: tuple[Spell, ...]) -> RoomYear:
    """The same year with spells added; the notes say when and how much."""
    temperature, humidity = year.temperature_c.copy(), year.humidity.copy()
    notes = list(year.notes)
    for spell in spells:
        index = (spell.first_day + np.arange(spell.days)) % DAYS
        humidity[index] += spell.humidity_change
        temperature[index] += spell.temperature_change_c
        template = (
            "A damp spell of {days:days} in {month:word} adds {change:percent} humidity."
            if spell.humidity_change > 0
            else "A cold spell of {days:days} in {month:word} takes {change:percent} humidity."
        )
        month = MONTHS[MONTH_OF_DAY[index[spell.days // 2]]]
        notes.append(said(template, days=spell.days, month=month, change=abs(spell.humidity_change)))
    humidity, note = _held(humidity)
    return RoomYear(year.days, temperature, humidity, year.status, year.source, (*notes, *note))


def damped(year: RoomYear, time_constant_days: float) -> RoomYear:
    """The air in a closed case: its humidity follows the room's with a time constant, its mean is the same.

    The periodic answer of a first-order lag, stepped exactly from day to day.
    Raises ValueError for a time constant that is negative or not finite.
    """
    if not (np.isfinite(time_constant_days) and time_constant_days >= 0.0):
        raise ValueError(f"expected a time constant of 0 days or more, was given {time_constant_days}")
    if time_constant_days == 0.0:
        return year
    keep = float(np.exp(-1.0 / time_constant_days))
    # h[i] = keep·h[i−1] + (1 − keep)·room[i], closed over the year in Fourier space
    turn = np.exp(-2j * np.pi * np.fft.rfftfreq(DAYS))
    inside = np.fft.irfft(np.fft.rfft(year.humidity) * (1.0 - keep) / (1.0 - keep * turn), DAYS)
    note = said(
        "Inside a closed case the air follows the room with a time constant of {days:days}.",
        days=time_constant_days,
    )
    return RoomYear(year.days, year.temperature_c, inside, year.status, year.source, (*year.notes, note))


def room_year(
    weather: Outdoors, kind: RoomKind, spells: Spells = USUAL_SPELLS, edge: Edge = "usual"
) -> RoomYear:
    """The year about a piece: place → monthly room → days → spells → a closed case's damping."""
    smooth = smooth_year(monthly_room(weather, kind, edge))
    return damped(with_spells(smooth, usual_spells(smooth, spells)), damping_time(kind, edge))


def even_year(humidity: float, temperature_c: float = 20.0) -> RoomYear:
    """A year of unchanging air, for tests and for a shop that is kept."""
    return RoomYear(
        np.arange(DAYS, dtype=np.float64),
        np.full(DAYS, temperature_c),
        np.full(DAYS, humidity),
        Status.MEASURED,
        "kept even",
    )


def _held(humidity: Floats) -> tuple[Floats, tuple[Said, ...]]:
    held = np.asarray(np.clip(humidity, DRIEST, DAMPEST))
    days = int(np.sum(held != humidity))
    if not days:
        return held, ()
    return held, (
        said(
            "On {days:count} days the humidity was held between {low:percent} and {high:percent}.",
            days=days,
            low=DRIEST,
            high=DAMPEST,
        ),
    )
