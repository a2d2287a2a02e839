"""A job as a version to be offered or compared: parts, panels, price, and the day it would be ready."""

from datetime import date

from evenface.job.opening import Opened
from evenface.job.pricing import Prices, price_job
from evenface.job.shop_days import planner_of
from evenface.pricing.changes import Version
from evenface.result import Result


def version_of(
    opened: Opened,
    result: Result,
    prices: Prices,
    start: date | None = None,
    hours: float | None = None,
    name: str = "",
) -> Version:
    """The version of a planned job. start : first day of work, for the day it is ready; None leaves it out."""
    panels = tuple(panel for one in result.sketch.constructions for panel in one.panels)
    ready = ready_on(opened, result, prices, start, hours) if start is not None else None
    return Version(
        name or opened.job.name, result.sketch.all_parts, panels, price_job(opened, result, prices), ready
    )


def ready_on(opened: Opened, result: Result, prices: Prices, start: date, hours: float | None = None) -> date:
    """The day the last step ends when work begins on `start`, in the job's own shop and order, with own times.

    hours : worked a day, in place of the shop's own. Raises FileError for locked days, ticks or moves of steps
    nobody knows.
    """
    planner = planner_of(opened, result.sketch, prices.own_times, start.isoformat(), hours)
    return planner.plan().finish.date()
