"""The pages of making: the cards in order, the calendar by day, one card with its timer."""

from itertools import groupby
from typing import Any, Final

from starlette.responses import Response

from evenface.documents.money_text import day_text
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.making import (
    Making,
    clear_timer,
    day_typed,
    making,
    rest_timer,
    start_timer,
    tick,
    untick,
)
from evenface.interfaces.web.site import Asked, Site
from evenface.store import KeptJob
from evenface.words import Manner

WEEKDAYS: Final = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
NEAR: Final = 2
"""Days with something left to do that stand open."""


def cards(site: Site, asked: Asked) -> Response:
    """Every step in order, to be ticked."""
    job, found = _found(site, asked)
    days = _days(found, asked.manner)
    near = [number for number, day in enumerate(days) if day["open"]][:NEAR]
    values: dict[str, Any] = {"job": job, "made": found, "days": days, "near": near, "called": _called(found)}
    return site.page("making.html", asked, title="Making", start=found.plan.days.first.isoformat(), **values)


def calendar(site: Site, asked: Asked) -> Response:
    """The same by day: what to begin, how long hands are busy, what waits overnight."""
    job, found = _found(site, asked)
    values: dict[str, Any] = {"job": job, "made": found, "days": _days(found, asked.manner)}
    return site.page(
        "calendar.html", asked, title="Calendar", start=found.plan.days.first.isoformat(), **values
    )


def card(site: Site, asked: Asked) -> Response:
    """One step, to be read at arm's length, with its timer."""
    job, found = _found(site, asked)
    one = found.card(asked.path["step"])
    at = found.cards.index(one)
    beside = [
        found.cards[place].step.id if 0 <= place < len(found.cards) else "" for place in (at - 1, at + 1)
    ]
    values: dict[str, Any] = {
        "job": job,
        "card": one,
        "called": _called(found),
        "before": beside[0],
        "after": beside[1],
    }
    title = str(one.words["title"])
    return site.page("card.html", asked, title=title, number=at + 1, count=len(found.cards), **values)


def _found(site: Site, asked: Asked) -> tuple[KeptJob, Making]:
    job = site.job(asked)
    view = site.desk.look(job, flat=False)
    return job, making(site, job, view, day_typed(asked.query.get("start", "")), asked.manner)


def _called(found: Making) -> dict[str, str]:
    """Every step in words: what is done, and to which part."""
    return {one.step.id: f"{one.words['title']}, {one.words['part']}" for one in found.cards}


def _days(found: Making, manner: Manner) -> list[dict[str, Any]]:
    """The cards by the day they begin."""
    days = []
    for day, group in groupby(found.cards, key=lambda one: one.start.date()):
        of_day = list(group)
        minutes = sum(one.step.hand_minutes.total for one in of_day)
        name = f"{manner.translate(WEEKDAYS[day.weekday()])}, {day_text(day, manner)}"
        open_now = any(one.done is None for one in of_day)
        days.append({"name": name, "cards": of_day, "hours": f"{minutes / 60:.1f}", "open": open_now})
    return days


@changing
def work(site: Site, asked: Asked) -> Response:
    """Tick, take a tick back, start and rest the timer."""
    job = site.job(asked)
    step, do = asked.path["step"], asked.form.get("do", "")
    if do == "tick":
        tick(site, job, step, asked.form.get("minutes", ""))
    elif do == "untick":
        untick(site, job, step)
    elif do == "start":
        start_timer(site, job, step)
    elif do == "rest":
        rest_timer(site, job, step)
    elif do == "clear":
        clear_timer(site, job, step)
    deed = {"tick": "ticked", "untick": "unticked"}.get(do, "")
    if asked.form.get("from") == "card":
        return done(f"/jobs/{job.id}/making/{step}", deed, "time")
    return done(f"/jobs/{job.id}/making", deed, f"step-{step}")


ROUTES: Final = (
    ("GET", "/jobs/{job}/making", cards),
    ("GET", "/jobs/{job}/calendar", calendar),
    ("GET", "/jobs/{job}/making/{step}", card),
    ("POST", "/jobs/{job}/making/{step}", work),
)
