"""The price of a planned job: what it takes, at what the maker says it costs."""

from dataclasses import dataclass, replace
from pathlib import Path

from evenface.errors import Complaint, FileError, Place, nearest_words
from evenface.job.opening import Opened
from evenface.job.order_of_work import order_of_work
from evenface.job.plan import sheet_materials
from evenface.piece.price_records import NO_PRICES, PriceTable
from evenface.piece.prices import OWN_PRICES, open_prices
from evenface.pricing import Fitting, Needed, Price, ToPrice, price_of
from evenface.pricing.gather import (
    finished_area_m2,
    hours_of,
    not_laid_out,
    sheets_of,
    wood_of,
)
from evenface.pricing.labour import EVERY
from evenface.pricing.money import decimal_of
from evenface.pricing.own_times import NO_TIMES, OWN_TIMES, OwnTimes, open_own_times
from evenface.pricing.own_wood import wood_taken
from evenface.result import Result, Sketch
from evenface.toml_places import key_path
from evenface.words import said
from evenface.workplan import Step, Work


@dataclass(frozen=True, slots=True)
class Prices:
    """What the maker says of money for this job, and how long the maker takes."""

    table: PriceTable
    own_times: OwnTimes = NO_TIMES


def prices_for(opened: Opened, folder: Path | None = None, file: Path | None = None) -> Prices:
    """`[price]` of the job before `prices.toml` in its folder; own times from `own-times.toml` beside them.

    folder : where both lie; default: the job's. file : a file of prices named by itself.
    Raises FileError, for two currencies too, and for an operation nobody knows under `risk`.
    """
    beside = folder or Path(opened.job.file).parent
    own = file or beside / OWN_PRICES
    usual = open_prices(own, opened.catalogue) if file or own.is_file() else NO_PRICES
    table = replace(opened.job.price.over(usual), file=str(own))
    table = replace(table, currency=_currency(opened, usual))
    _check_operations(table)
    times = beside / OWN_TIMES
    return Prices(table, open_own_times(times) if times.is_file() else NO_TIMES)


def price_job(opened: Opened, result: Result, prices: Prices) -> Price:
    """The price of a planned job, line by line."""
    return price_of(to_price(opened, result, prices), prices.table)


def to_price(opened: Opened, result: Result, prices: Prices) -> ToPrice:
    """Hours, sheets, wood, glue and finish of a planned job."""
    drafted, job = result.sketch, opened.job
    woods = {
        layer.material: opened.catalogue.wood(layer.material).title
        for part in drafted.all_parts
        for layer in part.layers
        if layer.bought_mm is not None
    }
    boards = wood_taken(job, drafted.all_parts, result.layouts, woods)
    taken = {one.material for one in boards}
    return ToPrice(
        hours=hours_of(steps_of(result), prices.own_times.shares()),
        sheets=sheets_of(job, result.layouts, sheet_materials(drafted), prices.table.currency),
        wood=tuple(one for one in wood_of(job, drafted.all_parts, woods) if one.material not in taken),
        boards=boards,
        glue=tuple(
            Needed(row.material, row.title, decimal_of(row.amount), job.file)
            for row in result.buying
            if row.form == "glue"
        ),
        finish=_finish(opened, result),
        fittings=tuple(
            Fitting(one.name, one.count * construction.piece.count, one.price)
            for construction in drafted.constructions
            for one in construction.arranged.fittings
        ),
        not_laid_out=not_laid_out(job, drafted.all_parts, result.layouts),
    )


def steps_of(result: Result) -> tuple[Step, ...]:
    """The steps of the job in its own order, with the usual estimates of hand time."""
    return steps_of_sketch(result.sketch)


def steps_of_sketch(drafted: Sketch, own_times: OwnTimes = NO_TIMES) -> tuple[Step, ...]:
    """The same of a job that is not laid out; with own times in place of the estimates where they are handed in.

    Steps moved by hand stand where they were moved. Raises FileError for a move of a step nobody knows.
    """
    return order_of_work(drafted.constructions, drafted.parts, own_times=own_times, job=drafted.job).steps


def _finish(opened: Opened, result: Result) -> tuple[Needed, ...]:
    areas: dict[str, float] = {}
    for construction in result.sketch.constructions:
        for panel in construction.panels:
            buildup = opened.job.buildups.get(panel.panel.buildup)
            if buildup is not None and buildup.finish:
                area = panel.count * finished_area_m2(panel)
                areas[buildup.finish] = areas.get(buildup.finish, 0.0) + area
    return tuple(
        Needed(name, opened.catalogue.finish(name).title, decimal_of(area), opened.job.file)
        for name, area in areas.items()
        if area > 0
    )


def _currency(opened: Opened, usual: PriceTable) -> str:
    """The one currency of job and prices."""
    said_by = {
        f"{opened.job.file} [job]": opened.job.currency,
        f"{opened.job.file} [price]": opened.job.price.currency,
        usual.file: usual.currency,
    }
    named = {place: code for place, code in said_by.items() if code}
    if len(set(named.values())) > 1:
        (first, code), *others = named.items()
        place, other = next((p, c) for p, c in others if c != code)
        raise FileError(
            [
                Complaint(
                    Place(place, key="currency"),
                    said("{code}, as in {first}", code=code, first=first),
                    other,
                    "Amounts are not changed.",
                )
            ]
        )
    return next(iter(named.values()), "")


def _check_operations(table: PriceTable) -> None:
    known = (EVERY, *(work.value for work in Work))
    wrong = [name for name in table.risk if name not in known]
    if wrong:
        raise FileError(
            [
                Complaint(
                    Place(table.places.get(key_path(("risk", name)), table.file), key=f"risk.{name}"),
                    "an operation of the work plan, or every",
                    repr(name),
                    nearest_words(name, known),
                )
                for name in wrong
            ]
        )
