"""The plan of a job's steps with the words of its cards: reckoned once for a state of the job and of the bench."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Final

from evenface.documents.bench_cards import cards_data, whole_cards
from evenface.errors import FileError, told_at_entry
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.keeping import folder_of
from evenface.interfaces.web.site import Site, digest
from evenface.job.order_of_work import OrderOfWork, order_of_work
from evenface.job.shop_days import Planner, cards_of
from evenface.pricing.own_times import OWN_TIMES, own_times_beside
from evenface.store import KeptJob
from evenface.words import Manner
from evenface.workplan.calendar import Schedule, WorkDays, schedule
from evenface.workplan.glue_card import GlueCard

HOURS_A_DAY: Final = 7.0


@dataclass(frozen=True, slots=True)
class Planned:
    """The plan, and the words of each card by its step.

    glued, parts : glue cards, and the name of each part by its number.
    gone : steps that are ticked and are no step of the job any more. told : why the shop's own days could not be
    planned, where they could not; the plan is then one of plain days.
    """

    plan: Schedule
    glued: tuple[GlueCard, ...]
    parts: Mapping[str, str]
    words: Mapping[str, Mapping[str, Any]]
    gone: tuple[str, ...]
    told: tuple[str, ...]


def planned(site: Site, job: KeptJob, view: View, first: date | None, manner: Manner) -> Planned:
    """The plan as it stands, kept until the job, its made file, the own times or the day change."""
    key = ("plan", first, *state_of(site, job, view, manner))
    made: Planned = site.kept.get(key, lambda: _planned(site, job, view, first, manner))
    return made


def state_of(site: Site, job: KeptJob, view: View, manner: Manner) -> tuple[object, ...]:
    """All that what is made for the bench rests on."""
    times = folder_of(site, job) / OWN_TIMES
    own = digest(times.read_bytes()) if times.is_file() else ""
    hashes = sorted(view.opened.hashes.items())
    return (job.id, job.name, *hashes, own, date.today(), manner.language, manner.system)


def _planned(site: Site, job: KeptJob, view: View, first: date | None, manner: Manner) -> Planned:
    own = own_times_beside(folder_of(site, job) / "job")
    order = order_of_work(view.sketch.constructions, view.sketch.parts, 0.0, own, view.opened.job)
    glued = cards_of(view.opened, order)
    known = {step.id for step in order.steps}
    gone = tuple(one.step for one in view.opened.made.done if one.step not in known)
    plan, told = _plan(view, order, glued, first, known, manner)
    parts = {part.id: f"{part.id} {manner.name(part.name)} ({part.piece})" for part in view.sketch.all_parts}
    data: Any = cards_data(job.name, plan, parts, glued, {}, date.today(), 1, manner)
    return Planned(plan, glued, parts, whole_cards(data["cards"]), gone, told)


def _plan(
    view: View,
    order: OrderOfWork,
    glued: tuple[GlueCard, ...],
    first: date | None,
    known: set[str],
    manner: Manner,
) -> tuple[Schedule, tuple[str, ...]]:
    """As the shop works, ticks of steps that are no more left aside; plain days for one person where that fails."""
    made = view.opened.made
    opened = replace(
        view.opened, made=replace(made, done=tuple(one for one in made.done if one.step in known))
    )
    start = first.isoformat() if first else ""
    try:
        return Planner(opened, order.panels, order.steps, glued, start, None).plan(), ()
    except FileError as error:
        day = first or view.opened.job.calendar.start or date.today()
        told = tuple(f"{one.place.key}: {told_at_entry(one, manner)}" for one in error.complaints)
        return schedule(order.steps, WorkDays(day, HOURS_A_DAY)), told
