"""From a logger's readings to days, and to a year that repeats itself."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenface.climate.logger import LoggerSeries
from evenface.climate.outdoors import MONTHS
from evenface.climate.vapour import Floats
from evenface.climate.year import DAMPEST, DAYS, DRIEST, MONTH_OF_DAY, RoomYear
from evenface.errors import Complaint, FileError, Place
from evenface.evidence import Status, weakest
from evenface.words import said


@dataclass(frozen=True, slots=True, eq=False)
class DailySeries:
    """Means of whole days: dates datetime64[D], temperature_c [°C], humidity [-]."""

    dates: NDArray[np.datetime64]
    temperature_c: Floats
    humidity: Floats


def daily_means(log: LoggerSeries) -> DailySeries:
    """Means of each day from the first to the last reading, by time, bridging gaps with a straight line.

    Every stretch between two readings counts with its own length, so uneven intervals do no harm.
    """
    seconds = log.times.astype("datetime64[s]").astype(np.float64)
    first, last = log.times[0].astype("datetime64[D]"), log.times[-1].astype("datetime64[D]")
    dates = np.arange(first, last + np.timedelta64(1, "D"))
    edges = np.append(dates, dates[-1] + np.timedelta64(1, "D")).astype("datetime64[s]").astype(np.float64)
    edges = np.clip(edges, seconds[0], seconds[-1])
    length = np.diff(edges)
    # a day that holds only its very first or last moment has no length of its own
    whole = length > 0.0
    means = [
        _integral(seconds, values, edges)[whole] / length[whole]
        for values in (log.temperature_c, log.humidity)
    ]
    return DailySeries(dates[whole], means[0], means[1])


def _integral(seconds: Floats, values: Floats, edges: Floats) -> Floats:
    """Integral of the straight-line curve between successive edges."""
    grid = np.union1d(seconds, edges)
    curve = np.interp(grid, seconds, values)
    total = np.concatenate([[0.0], np.cumsum(np.diff(grid) * (curve[1:] + curve[:-1]) / 2.0)])
    return np.asarray(np.diff(total[np.searchsorted(grid, edges)]))


def logged_year(log: LoggerSeries, fill: RoomYear | None = None) -> RoomYear:
    """The year of a log: each day of the year is the mean of the days logged on that date.

    fill : a reckoned year for the days the log does not reach; the notes name the months it was used in.
    29 February is left out. Without `fill` a log must cover every day.

    Raises FileError naming the months that are missing when there is no `fill`.
    """
    days = daily_means(log)
    index, usable = _day_of_year(days.dates)
    counts = np.bincount(index[usable], minlength=DAYS)
    missing = counts == 0
    months = [MONTHS[month] for month in np.unique(MONTH_OF_DAY[missing])]
    if missing.any() and fill is None:
        given = f"{int(np.sum(~missing))} of 365 days; days missing in {', '.join(months)}"
        hint = "Fill the rest with the year of a place and kind of room."
        raise FileError([Complaint(Place(log.file), "a log that covers the whole year", given, hint)])
    rows, notes, statuses = [], list(log.notes), [Status.MEASURED]
    for values, filler in (
        (days.temperature_c, fill.temperature_c if fill else None),
        (days.humidity, fill.humidity if fill else None),
    ):
        row = np.bincount(index[usable], weights=values[usable], minlength=DAYS) / np.maximum(counts, 1)
        rows.append(row if filler is None else np.where(missing, filler, row))
    if missing.any() and fill is not None:
        statuses.append(fill.status)
        notes += fill.notes
        notes.append(
            said(
                "{days:count} days in {months} come from a reckoned year.",
                days=int(missing.sum()),
                months=", ".join(months),
            )
        )
    return RoomYear(
        np.arange(DAYS, dtype=np.float64),
        rows[0],
        np.clip(rows[1], DRIEST, DAMPEST),
        weakest(statuses),
        f"logger {log.file}".strip(),
        tuple(notes),
    )


def _day_of_year(dates: NDArray[np.datetime64]) -> tuple[NDArray[np.intp], NDArray[np.bool_]]:
    """Day 0 to 364 of each date, and which dates are not 29 February."""
    years = dates.astype("datetime64[Y]")
    day = (dates - years.astype("datetime64[D]")).astype(np.intp)
    number = years.astype(np.int64) + 1970
    leap = ((number % 4 == 0) & (number % 100 != 0)) | (number % 400 == 0)
    extra = leap & (day == 59)
    return np.where(leap & (day > 59), day - 1, day), ~extra
