"""A first answer to "what would it cost?": from own past jobs, with how far such answers were off.

price = so much a square metre of panel + a metre of edging + a rounded corner + a grip, fitted to the maker's
own jobs. Coefficients are not below zero; relative errors are made small, so that a large job does not decide
alone. Of the four, as many are fitted as the number of jobs bears; which ones, the jobs themselves decide: each
is estimated from the others, and the formula that does that best is taken. The spread is what that came to.
"""

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from statistics import median
from typing import Final

import numpy as np

from evenface.construction import BuiltPanel
from evenface.errors import Complaint, FileError, Place
from evenface.piece.source_text import read_text
from evenface.pricing.money import Money, decimal_of, money
from evenface.words import said

PAST_JOBS: Final = "past-jobs.csv"
COLUMNS: Final = ("job", "day", "area_m2", "edging_m", "corners", "grips", "hours", "price", "currency")
LEAST_JOBS: Final = 3
_FORMULAS: Final = ((0,), (0, 1), (0, 1, 2), (0, 1, 3), (0, 1, 2, 3))


@dataclass(frozen=True, slots=True)
class Extent:
    """How much there is to do, coarsely: area of panels, metres of edging, rounded corners, grips."""

    area_m2: float
    edging_m: float
    corners: int = 0
    grips: int = 0

    def __post_init__(self) -> None:
        if not (self.area_m2 > 0.0 and min(self.edging_m, self.corners, self.grips) >= 0):
            raise ValueError(f"expected an area above 0 and nothing below 0, was given {self}")

    @property
    def row(self) -> tuple[float, ...]:
        return self.area_m2, self.edging_m, float(self.corners), float(self.grips)


@dataclass(frozen=True, slots=True)
class PastJob:
    """A finished job: its extent, the hours it took, and the net price that was paid."""

    job: str
    extent: Extent
    price: Decimal
    currency: str = ""
    hours: Decimal | None = None
    day: str = ""

    def __post_init__(self) -> None:
        if not (self.price.is_finite() and self.price > 0):
            raise ValueError(f"expected a price above 0 of {self.job}, was given {self.price}")


@dataclass(frozen=True, slots=True)
class Estimate:
    """A ball-park figure. low, high : between them lay four of five past jobs when estimated from the others.

    per : money a m², a metre of edging, a corner, a grip; 0 for what the jobs do not tell apart.
    """

    middle: Money
    low: Money
    high: Money
    jobs: int
    per: tuple[float, float, float, float]


def extent_of(panels: Sequence[BuiltPanel]) -> Extent:
    """The extent of built panels, all copies counted."""
    return Extent(
        sum(one.count * one.length_mm * one.width_mm for one in panels) * 1e-6,
        sum(one.count * edging.outer_length_mm for one in panels for edging in one.edgings) * 1e-3,
        sum(one.count * sum(1 for corner in one.panel.corners if corner.size_mm > 0) for one in panels),
        sum(one.count * len(one.panel.grips) for one in panels),
    )


def estimate(extent: Extent, past: Sequence[PastJob], currency: str) -> Estimate | None:
    """A net price from past jobs in that currency; None while they are fewer than three."""
    known = [one for one in past if one.currency == currency]
    if len(known) < LEAST_JOBS:
        return None
    rows = np.array([one.extent.row for one in known])
    prices = np.array([float(one.price) for one in known])
    usable = [f for f in _FORMULAS if len(known) >= len(f) + 2 or f == (0,)]
    told = {f: _told_by_the_others(rows[:, f], prices) for f in usable}
    best = min(usable, key=lambda f: (round(median(abs(np.log(told[f]))), 9), len(f)))
    per = np.zeros(4)
    per[list(best)] = _fitted(rows[:, best], prices)
    middle = float(per @ np.array(extent.row))
    low, high = np.quantile(told[best], (0.1, 0.9))
    return Estimate(
        money(decimal_of(middle), currency),
        money(decimal_of(middle * min(1.0, float(low))), currency),
        money(decimal_of(middle * max(1.0, float(high))), currency),
        len(known),
        (float(per[0]), float(per[1]), float(per[2]), float(per[3])),
    )


def _fitted(rows: np.ndarray, prices: np.ndarray) -> np.ndarray:
    """Coefficients of 0 or more with the least squares of relative errors."""
    from scipy.optimize import nnls

    found: np.ndarray = nnls(rows / prices[:, None], np.ones(len(prices)))[0]
    return found


def _told_by_the_others(rows: np.ndarray, prices: np.ndarray) -> np.ndarray:
    """For each job its price over what the other jobs would have said."""
    out = []
    for number in range(len(prices)):
        others = np.arange(len(prices)) != number
        said_by_others = float(rows[number] @ _fitted(rows[others], prices[others]))
        out.append(prices[number] / max(said_by_others, 1e-9))
    return np.array(out)


# --- the file -----------------------------------------------------------------------------------------


def open_past_jobs(path: Path) -> tuple[PastJob, ...]:
    """Read `past-jobs.csv`. Raises FileError holding every complaint."""
    return read_past_jobs(read_text(path), str(path))


def read_past_jobs(text: str, file: str) -> tuple[PastJob, ...]:
    """Read the text of a table of past jobs: the columns of `COLUMNS` in any order, comma or semicolon between."""
    text = text.removeprefix("\ufeff")
    head = text.partition("\n")[0]
    reader = csv.DictReader(io.StringIO(text), delimiter=";" if head.count(";") > head.count(",") else ",")
    missing = {"job", "area_m2", "edging_m", "price"} - set(reader.fieldnames or ())
    if missing:
        expected = said("the columns {words}", words=", ".join(COLUMNS))
        raise FileError(
            [Complaint(Place(file, 1), expected, said("no {words}", words=", ".join(sorted(missing))))]
        )
    found: list[PastJob] = []
    complaints: list[Complaint] = []
    for row in reader:
        try:
            found.append(_past_job({key: (value or "").strip() for key, value in row.items() if key}))
        except (ValueError, InvalidOperation) as fault:
            complaints.append(
                Complaint(Place(file, reader.line_num), "a past job", str(fault) or "no number")
            )
    if complaints:
        raise FileError(complaints)
    return tuple(found)


def _past_job(row: dict[str, str]) -> PastJob:
    def number(key: str) -> float:
        given = row.get(key, "") or "0"
        try:
            return float(given.replace(",", "."))
        except ValueError:
            raise ValueError(f"{key} = {given!r}") from None

    extent = Extent(number("area_m2"), number("edging_m"), int(number("corners")), int(number("grips")))
    hours = decimal_of(number("hours")) if row.get("hours") else None
    return PastJob(
        row["job"], extent, decimal_of(number("price")), row.get("currency", ""), hours, row.get("day", "")
    )


def past_jobs_text(jobs: Sequence[PastJob]) -> str:
    """The table as text, commas between. Names that a spreadsheet would take for a formula get an apostrophe."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for one in jobs:
        e = one.extent
        name = f"'{one.job}" if one.job[:1] in ("=", "+", "-", "@") else one.job
        cells = (name, one.day, f"{e.area_m2:.3f}", f"{e.edging_m:.2f}", e.corners, e.grips)
        writer.writerow(
            (*cells, f"{one.hours:f}" if one.hours is not None else "", f"{one.price:f}", one.currency)
        )
    return out.getvalue()
