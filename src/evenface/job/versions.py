"""A job as a version to be offered or compared: parts, panels, price, and the day it would be ready."""

from datetime import date

from evenface.job.opening import Opened
from evenface.job.pricing import Prices, price_job, steps_of
from evenface.pricing.changes import Version
from evenface.pricing.own_times import with_own_times
from evenface.result import Result
from evenface.workplan.calendar import WorkDays, schedule


def version_of(
    opened: Opened,
    result: Result,
    prices: Prices,
    start: date | None = None,
    hours: float = 7.0,
    name: str = "",
) -> Version:
    """The version of a planned job. start : first day of work, for the day it is ready; None leaves it out."""
    panels = tuple(panel for one in result.sketch.constructions for panel in one.panels)
    ready = ready_on(result, prices, start, hours) if start is not None else None
    return Version(
        name or opened.job.name, result.sketch.all_parts, panels, price_job(opened, result, prices), ready
    )


def ready_on(result: Result, prices: Prices, start: date, hours: float = 7.0) -> date:
    """The day the last step ends, one person working Monday to Friday from the first day on."""
    steps = with_own_times(steps_of(result), prices.own_times)
    return schedule(steps, WorkDays(start, hours)).finish.date()
