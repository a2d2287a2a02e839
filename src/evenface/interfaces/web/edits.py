"""What is typed into a part or a piece: kept at once, merged with another window's, or kept aside with its reason."""

import logging
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Final

from starlette.responses import RedirectResponse, Response

from evenface.construction import BuiltPanel
from evenface.errors import Complaint, EvenfaceError, FileError, Place
from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import Entry, Wishes, changes_of, reasons_for
from evenface.interfaces.web.site import Asked, Site
from evenface.store import KeptJob, Stale
from evenface.words import Manner

WAS: Final = "was:"
"""Field beside an entry: the value the maker saw when typing began."""
TRIES: Final = 4
NOT_KEPT: Final = "Not kept yet: Set keeps it."
MEANWHILE: Final = (
    "The job was changed in another window meanwhile. What you entered is not kept yet: "
    "set it all the same, or take the newer values."
)
AT_FAULT: Final = (
    "a value evenface can reckon with",
    "one at which it fails by a fault of its own",
    "Try another value; the window where evenface was started says what went wrong.",
)
LOG: Final = logging.getLogger(__name__)


@dataclass(slots=True)
class Outcome:
    """What became of the fields that were sent.

    reasons : by key path, why it is not kept; under "" what concerns no entry. clashes : entries another
    window changed meanwhile, with the value that stands. kept : the changes made. told : the entries as the window
    that sent them has them, by their paths; None where another one changed the job meanwhile.
    """

    job: KeptJob
    reasons: dict[str, str] = field(default_factory=dict)
    clashes: dict[str, str] = field(default_factory=dict)
    kept: list[str] = field(default_factory=list)
    told: Mapping[str, Entry] | None = None


type Finder = Callable[[View], tuple[str, Sequence[Entry]] | None]
"""What is edited, in a view: its name as the maker knows it, and its entries; None where it is not there."""


type Paged = Callable[[Site, Asked, KeptJob, int, Outcome | None], Response]
"""The page of what is edited, with a status and what became of the fields that were sent."""


def answered(site: Site, asked: Asked, job: KeptJob, find: Finder, page: Paged) -> Response:
    """What was typed taken in: for our script the page anew, else the way back to it, or the page with the reasons."""
    out = take_in(site, asked, job, find)
    status = 409 if out.clashes else 422 if out.reasons else 200
    if status != 200 or asked.live:
        return page(site, asked, out.job, status, out)
    return RedirectResponse(asked.address, 303)


def beside_entries(
    site: Site, asked: Asked, job: KeptJob, entries: Sequence[Entry], out: Outcome | None
) -> dict[str, Any]:
    """What a page shows beside its entries: typed and not kept, and why. out : of what was just sent."""
    if out is None:
        typed, reasons = waiting(site, job, entries, asked.manner)
        return {"typed": typed, "reasons": reasons, "clashes": {}, "message": reasons.get("", "")}
    typed = {path: asked.form[path] for path in (*out.reasons, *out.clashes) if path in asked.form}
    message = asked.manner.translate(MEANWHILE if out.clashes else out.reasons.get("", ""))
    return {"typed": typed, "reasons": out.reasons, "clashes": out.clashes, "message": message}


def take_in(site: Site, asked: Asked, job: KeptJob, find: Finder) -> Outcome:
    """Everything sent for what is edited: kept on the newest state wherever nobody else changed it."""
    for _ in range(TRIES):
        try:
            return _take_in(site, asked, job, find)
        except Stale as stale:
            job = stale.newest
    raise Stale(job)


def _take_in(site: Site, asked: Asked, job: KeptJob, find: Finder) -> Outcome:
    found = find(site.desk.look(job, flat=False))
    if found is None or asked.form.get("about", found[0]) != found[0]:
        return Outcome(
            job, {"": "The parts of this job were changed in another window. Load the page again."}
        )
    _, entries = found
    out = Outcome(job)
    typed = {one.path: asked.form[one.path] for one in entries if one.path in asked.form}
    if asked.whole("version") == job.version:
        out.told = {one.path: one for one in entries}
    elif asked.form.get("over") != "yes":
        out.clashes = _clashes(entries, typed, asked.form)
        typed = {path: new for path, new in typed.items() if path not in out.clashes}
    wishes, out.reasons = changes_of(entries, typed, asked.manner)
    after, out.kept = _as_many_as_go(site, job, entries, wishes, out.reasons, asked.manner)
    if after is not None and after.text != job.text:
        stroke = out.kept[0] if len(out.kept) == 1 and asked.live else ""
        out.job = site.store.save(job.id, job.version, after.text, after.name, stroke)
    aside = {path: new.strip() if path in out.reasons else None for path, new in typed.items()}
    site.store.set_pending(job.id, aside)
    return out


def _clashes(entries: Sequence[Entry], typed: Mapping[str, str], form: Mapping[str, str]) -> dict[str, str]:
    """Entries that stand otherwise than the maker saw them, where that was told, and than was typed."""
    now = {one.path: one.value for one in entries}
    return {
        path: now[path]
        for path, new in typed.items()
        if new.strip() != now[path] and form.get(WAS + path) != now[path]
    }


def _as_many_as_go(
    site: Site,
    job: KeptJob,
    entries: Sequence[Entry],
    wishes: Wishes,
    reasons: dict[str, str],
    manner: Manner,
) -> tuple[View | None, list[str]]:
    """All that is wished together, or as much of it as leaves a job that can be read; reasons for the rest."""
    if not wishes:
        return None, []
    try:
        return _changed(site, job, [one for changes in wishes.values() for one in changes]), list(wishes)
    except FileError as error:
        if len(wishes) == 1:
            reasons.update(_told(entries, wishes, error, manner))
            return None, []
    after: View | None = None
    kept: Wishes = {}
    for path, changes in wishes.items():
        try:
            after = _changed(site, job, [one for before in kept.values() for one in before] + changes)
            kept[path] = changes
        except FileError as error:
            reasons.update(_told(entries, {path: changes}, error, manner))
    return after, list(kept)


def _changed(site: Site, job: KeptJob, changes: Sequence[Change]) -> View:
    """The job with those changes. Raises FileError, also where reckoning with them fails by a fault of our own."""
    try:
        return site.desk.change(job, changes, flat=False)
    except EvenfaceError:
        raise
    except Exception:
        paths = [change.path for change in changes]
        LOG.exception("%s could not be reckoned with", ", ".join(paths))
        where = Place(key=paths[0] if len(paths) == 1 else "")
        raise FileError([Complaint(where, *AT_FAULT)]) from None


def _told(entries: Sequence[Entry], wishes: Wishes, error: FileError, manner: Manner) -> dict[str, str]:
    told = reasons_for([one for one in entries if one.path in wishes], error, manner)
    if (
        len(wishes) == 1 and not wishes.keys() & told.keys()
    ):  # what it drags after it is told at its own field
        told[next(iter(wishes))] = told.pop("", "")
    return told


def name_of(panel: BuiltPanel) -> str:
    """Piece and part: what the maker believes to be editing."""
    return f"{panel.piece}: {panel.name}"


def waiting(
    site: Site, job: KeptJob, entries: Sequence[Entry], manner: Manner
) -> tuple[dict[str, str], dict[str, str]]:
    """What was typed and is not kept, by path, and the reason of each as things stand now."""
    pending = site.store.pending(job.id)
    typed = {one.path: pending[one.path] for one in entries if one.path in pending}
    if not typed:
        return {}, {}
    wishes, reasons = changes_of(entries, typed, manner)
    for path, changes in wishes.items():
        try:
            _changed(site, job, changes)
            reasons[path] = manner.translate(NOT_KEPT)
        except FileError as error:
            reasons |= _told(entries, {path: changes}, error, manner)
    return typed, reasons
