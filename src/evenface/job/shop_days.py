"""The days of a job in its own shop: hours, people, free days, clamps, press, locked days, ticks, steps moved."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime

from evenface.errors import Complaint, FileError, Place, nearest_words
from evenface.job.opening import Opened
from evenface.job.order_of_work import OrderOfWork, order_of_work
from evenface.piece.calendar_records import DAY_MIN, Done, Person, ShopCalendar
from evenface.pricing.own_times import NO_TIMES, OwnTimes
from evenface.result import Sketch
from evenface.workplan import PanelToMake, Step
from evenface.workplan.calendar import Schedule, WorkDays, plan_shop
from evenface.workplan.glue_card import GlueCard, glue_cards
from evenface.workplan.pressing import Means
from evenface.workplan.schedule.needs import needs_of


class Planner:
    """Plans the steps of one job for its shop, or for another that might be.

    start : as typed, a date or nothing. hours : worked a day in place of the shop's own, None for those.
    Raises FileError for a date that is none, hours no day has, and ticks or locked days of steps nobody knows.
    """

    def __init__(
        self,
        opened: Opened,
        panels: Sequence[PanelToMake],
        steps: Sequence[Step],
        cards: Sequence[GlueCard],
        start: str,
        hours: float | None,
    ) -> None:
        self.panels, self.steps, self.cards = panels, steps, cards
        self.shop = shop_with(opened.job.calendar, hours)
        self.done = opened.made.done
        self._check_names(opened)
        self.first, self.now = beginning(self.shop, self.done, start)

    def plan(self, seconds: float = 0.0) -> Schedule:
        """The plan of the job's own shop."""
        return self._for(self.shop, seconds)

    def plan_for(self, shop: ShopCalendar) -> Schedule:
        """The same steps for another shop, by the list schedule."""
        return self._for(shop, 0.0)

    def _for(self, shop: ShopCalendar, seconds: float) -> Schedule:
        needs = needs_of(self.panels, self.steps, self.cards, shop)
        try:
            return plan_shop(self.steps, shop, self.first, needs, self.done, self.now, seconds)
        except ValueError as fault:
            raise FileError(
                [Complaint(Place(key="calendar"), "days that can be planned", str(fault))]
            ) from None

    def _check_names(self, opened: Opened) -> None:
        """Ticks and locked days name steps of the plan."""
        known = tuple(step.id for step in self.steps)
        asked = [(one.step, opened.made.file, f"{one.origin}.step") for one in self.done]
        asked += [(one.step, opened.job.file, one.origin) for one in self.shop.locked]
        wrong = [
            Complaint(Place(file, key=key), "a step of the work plan", repr(step), nearest_words(step, known))
            for step, file, key in asked
            if step not in known
        ]
        if wrong:
            raise FileError(wrong)


def planner_of(
    opened: Opened,
    drafted: Sketch,
    own_times: OwnTimes = NO_TIMES,
    start: str = "",
    hours: float | None = None,
) -> Planner:
    """The planner of a sketched job. Raises FileError as `Planner` does, and for moves of steps nobody knows."""
    order = order_of_work(drafted.constructions, drafted.parts, 0.0, own_times, opened.job)
    return Planner(opened, order.panels, order.steps, cards_of(opened, order), start, hours)


def cards_of(opened: Opened, order: OrderOfWork) -> tuple[GlueCard, ...]:
    """The glue cards of these steps, for the clamps and the press the shop has."""
    glues = tuple(map(opened.catalogue.glue, opened.catalogue.names("glue")))
    means = Means(opened.job.calendar.clamps, opened.job.calendar.press_mm)
    return tuple(glue_cards(order.panels, order.steps, means, glues, order.pieces))


def shop_with(shop: ShopCalendar, hours: float | None) -> ShopCalendar:
    """Hours asked for go before those of the job file. Raises FileError for hours no day has."""
    if hours is None:
        return shop
    try:
        week = WorkDays(date(2027, 1, 4), hours).as_shop().people[0].week
    except ValueError:
        raise FileError(
            [Complaint(Place(key="--hours"), "hours within one day, 16 at most", str(hours))]
        ) from None
    return replace(shop, people=tuple(Person(one.name, week, one.absent) for one in shop.people))


def beginning(shop: ShopCalendar, done: Sequence[Done], start: str) -> tuple[date, int]:
    """The day minutes count from, and the minute from which the rest is planned.

    With ticks the rest begins at the last tick's end, not before the day asked for (default: today).
    Raises FileError for a start that is no date.
    """
    try:
        asked = date.fromisoformat(start) if start else None
    except ValueError:
        raise FileError([Complaint(Place(key="--start"), "a date such as 2027-01-11", start)]) from None
    if not done:
        return asked or shop.start or date.today(), 0
    begin = asked or max(date.today(), shop.start or date.today())
    ticked = [one.day for one in done if one.day is not None]
    first = min([begin, *ticked])
    last = max(
        (
            datetime.combine(one.day, datetime.min.time()).toordinal() * DAY_MIN + (one.at_min or 0)
            for one in done
            if one.day is not None
        ),
        default=0,
    )
    now = max((begin - first).days * DAY_MIN, last - first.toordinal() * DAY_MIN)
    return first, now
