"""What the pages of making do: steps on the calendar, cards, ticks with minutes, a timer that outlasts a restart."""

import math
import threading
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from time import time
from typing import Any, Final

from evenface.errors import Complaint, EvenfaceError, FileError, Place
from evenface.finding import Change
from evenface.interfaces.web.desk import View, made_place
from evenface.interfaces.web.keeping import write_whole
from evenface.interfaces.web.making_plan import planned
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.interfaces.web.written import table_text
from evenface.job.pricing import steps_of_sketch
from evenface.piece.calendar_records import Done
from evenface.piece.editing import apply_changes
from evenface.piece.source_text import read_text
from evenface.store import KeptJob
from evenface.words import Manner, said
from evenface.workplan import Step
from evenface.workplan.calendar import Schedule

MOST_MINUTES: Final = 100_000.0
_TIMER: Final = "timer:"
_writing = threading.Lock()


@dataclass(frozen=True, slots=True)
class Timer:
    """Time taken for a step so far. since : of the clock, when it was started last; None while it rests."""

    minutes: float
    since: float | None

    @property
    def now(self) -> float:
        """Minutes up to this moment."""
        running = 0.0 if self.since is None else max(0.0, time() - self.since) / 60.0
        return self.minutes + running


@dataclass(frozen=True, slots=True)
class Card:
    """A step as it is worked: its place on the calendar, finished strings, tick and timer.

    missing : ids of steps that must go before it and are not ticked.
    """

    step: Step
    start: datetime
    end: datetime
    words: Mapping[str, Any]
    done: Done | None
    timer: Timer | None
    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Making:
    """Every card in the order of the calendar. gone, told : as of the plan."""

    cards: tuple[Card, ...]
    plan: Schedule
    gone: tuple[str, ...] = ()
    told: tuple[str, ...] = ()

    @property
    def left_minutes(self) -> float:
        """Of hands, for what is not ticked."""
        return sum(one.step.hand_minutes.total for one in self.cards if one.done is None)

    @property
    def next(self) -> Card | None:
        """The first card that can be begun."""
        return next((one for one in self.cards if one.done is None and not one.missing), None)

    def card(self, step: str) -> Card:
        """Raises NoSuchPage."""
        found = next((one for one in self.cards if one.step.id == step), None)
        if found is None:
            raise NoSuchPage(said("This job has no step {step}.", step=repr(step[:40])))
        return found


def making(site: Site, job: KeptJob, view: View, first: date | None, manner: Manner) -> Making:
    """The steps of the job from that day on, with the shop's days, people and ticks; today when none is named."""
    known = planned(site, job, view, first, manner)
    plan, words = known.plan, known.words
    ticks, timers = {one.step: one for one in view.opened.made.done}, timers_of(site, job)
    cards = tuple(
        Card(
            one.step, plan.days.clock(one.start_h), plan.days.clock(one.end_h), words[one.step.id],
            ticks.get(one.step.id), timers.get(one.step.id),
            tuple(before.id for before in one.step.after if before.id not in ticks),
        )
        for one in plan.placed
    )  # fmt: skip
    return Making(cards, plan, known.gone, known.told)


def day_typed(text: str) -> date | None:
    """A day as typed; None for an empty one. Raises FileError."""
    try:
        return date.fromisoformat(text.strip()) if text.strip() else None
    except ValueError:
        raise FileError(
            [Complaint(Place(key="start"), "a date such as 2027-01-11", repr(text[:40]))]
        ) from None


def timers_of(site: Site, job: KeptJob) -> dict[str, Timer]:
    """Every timer of the job by its step."""
    found = {}
    for key, kept in site.store.pending(job.id).items():
        minutes, _, since = kept.partition("|")
        if key.startswith(_TIMER):
            found[key.removeprefix(_TIMER)] = Timer(float(minutes), float(since) if since else None)
    return found


def start_timer(site: Site, job: KeptJob, step: str) -> None:
    """Begin, or go on after a rest."""
    known = timers_of(site, job).get(step, Timer(0.0, None))
    since = time() if known.since is None else known.since
    site.store.set_pending(job.id, {_TIMER + step: f"{known.minutes!r}|{since!r}"})


def rest_timer(site: Site, job: KeptJob, step: str) -> None:
    """Stop counting; what was counted is kept."""
    known = timers_of(site, job).get(step)
    if known is not None:
        site.store.set_pending(job.id, {_TIMER + step: f"{known.now!r}|"})


def clear_timer(site: Site, job: KeptJob, step: str) -> None:
    """Forget what was counted."""
    site.store.set_pending(job.id, {_TIMER + step: None})


def tick(site: Site, job: KeptJob, step: str, minutes: str) -> None:
    """Tick a step off: `[[done]]` in the made file, with the minutes typed, else those of the timer.

    Raises NoSuchPage for a step the job does not have, FileError for minutes that cannot be.
    """
    _known_step(site, job, step)
    timer = timers_of(site, job).get(step)
    took = _minutes(minutes, timer)
    entry: dict[str, Any] = {"step": step} | ({"minutes": took} if took else {})
    entry["day"] = datetime.now().strftime("%Y-%m-%d %H:%M")
    with _writing:
        text = _without(_made_text(site, job), step)
        _write_made(site, job, f"{text.rstrip()}\n\n{table_text('done', entry)}")
    clear_timer(site, job, step)


def untick(site: Site, job: KeptJob, step: str) -> None:
    """Take the tick back; everything else in the made file stays."""
    with _writing:
        text = _made_text(site, job)
        without = _without(text, step)
        if without != text:
            _write_made(site, job, without)


def _without(text: str, step: str) -> str:
    import tomllib

    written = tomllib.loads(text)
    done = written.get("done", [])
    numbers = [number for number, one in enumerate(done) if isinstance(one, dict) and one.get("step") == step]
    if "done" in written and len(numbers) == len(done):  # the key goes too: an empty list takes no table more
        return apply_changes(text, [Change("done", "", "")])
    for number in reversed(numbers):
        text = apply_changes(text, [Change(f"done[{number}]", "", "")])
    return text


def _known_step(site: Site, job: KeptJob, step: str) -> None:
    known = {one.id for one in steps_of_sketch(site.desk.look(job, flat=False).sketch)}
    if step not in known:
        raise NoSuchPage(said("This job has no step {step}.", step=repr(step[:40])))


def _minutes(typed: str, timer: Timer | None) -> float:
    """As typed; empty, what the timer says, at least one once it ran. 0 for not noted."""
    plain = typed.strip().replace(",", ".")
    if not plain:
        return 0.0 if timer is None else float(max(1, round(timer.now)))
    try:
        minutes = float(plain)
    except ValueError:
        minutes = math.nan
    if not 0.0 < minutes <= MOST_MINUTES:
        raise FileError([Complaint(Place(key="minutes"), "minutes above 0", repr(typed[:40]))])
    return round(minutes, 2)


def _made_text(site: Site, job: KeptJob) -> str:
    place = made_place(job, site.store.folder)
    return read_text(place) if place.is_file() else "format = 1\n"


def _write_made(site: Site, job: KeptJob, text: str) -> None:
    place: Path = made_place(job, site.store.folder)
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        write_whole(place, text.encode())
    except OSError as problem:
        raise EvenfaceError(
            said(
                "{place} cannot be written: {problem}. The tick is not kept.",
                place=str(place),
                problem=str(problem),
            )
        ) from problem
