"""Does the day of delivery hold, and what would bring the work in: more hours, another person, more to press with."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from evenface.piece.calendar_records import DAY_MIN, Person, ShopCalendar, Stretch
from evenface.words import Said, said
from evenface.workplan.calendar import Schedule
from evenface.workplan.schedule.hours import OpenHours

type PlanFor = Callable[[ShopCalendar], Schedule]


@dataclass(frozen=True, slots=True)
class Relief:
    """One change to the shop: when the work is then done, and how many calendar days that is earlier."""

    change: Said
    finish: datetime
    days: int
    holds: bool


@dataclass(frozen=True, slots=True)
class Deadline:
    """The day wanted against the plan.

    days_spare : calendar days from the last day of work to the day wanted, below 0 when it is late.
    hours_spare : open hours of the first person left until then. impossible : no plan of this shop holds it, proved.
    """

    due: date
    finish: datetime
    holds: bool
    days_spare: int
    hours_spare: float
    impossible: bool
    reliefs: tuple[Relief, ...]


def deadline(plan: Schedule, shop: ShopCalendar, due: date, plan_for: PlanFor) -> Deadline:
    """Hold a plan against the day wanted; `plan_for` plans the same steps for another shop.

    A change never makes it later: where the new plan is no better, the old one is still good.
    """
    last = (due - plan.days.first).days * DAY_MIN + DAY_MIN
    end = round(plan.end_h * 60.0)
    reliefs = tuple(_relief(plan, change, plan_for(other), due) for change, other in changes_of(shop))
    return Deadline(
        due=due,
        finish=plan.finish,
        holds=end <= last,
        days_spare=(due - _last_day(plan.finish)).days,
        hours_spare=_open_h(shop, plan.days.first, end, last),
        impossible=round(plan.bound_h * 60.0) > last,
        reliefs=reliefs,
    )


def changes_of(shop: ShopCalendar) -> tuple[tuple[Said, ShopCalendar], ...]:
    """What a shop might do: each change by itself."""
    found = [
        (said("{hours:count} h more each day", hours=hours), replace(shop, people=_longer(shop, 60 * hours)))
        for hours in (1, 2)
    ]
    second = Person("?", shop.people[0].week)
    found.append((said("one more person at the same hours"), replace(shop, people=(*shop.people, second))))
    if shop.press_mm is not None:
        length, width = shop.press_mm
        wide = replace(shop, press_mm=(length, 2.0 * width))
        found.append((said("a press or bag of twice the width"), wide))
        found.append((said("one more press or bag"), replace(shop, presses=shop.presses + 1)))
    if shop.clamps is not None:
        found.append((said("twice as many clamps"), replace(shop, clamps=2 * shop.clamps)))
    return tuple(found)


def _relief(plan: Schedule, change: Said, other: Schedule, due: date) -> Relief:
    finish = min(plan.finish, other.finish)
    days = (_last_day(plan.finish) - _last_day(finish)).days
    return Relief(change, finish, days, _last_day(finish) <= due)


def _last_day(finish: datetime) -> date:
    """Work that ends at midnight ends on the day before."""
    return (finish - timedelta(minutes=1)).date()


def _longer(shop: ShopCalendar, minutes: int) -> tuple[Person, ...]:
    def day(stretches: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
        if not stretches:
            return stretches
        start, end = stretches[-1]
        return (*stretches[:-1], (start, min(DAY_MIN, end + minutes)))

    return tuple(replace(one, week=tuple(day(stretches) for stretches in one.week)) for one in shop.people)


def _open_h(shop: ShopCalendar, first: date, start: int, end: int) -> float:
    """Open hours of the first person between two moments."""
    if end <= start:
        return 0.0
    hours = OpenHours(first, shop.people[:1], shop.closed)
    return (hours.worked_before(end) - hours.worked_before(start)) / 60.0
