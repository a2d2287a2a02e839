"""The aims of a good layout in their order: moved up and down, taken out, added, set back to the usual."""

from collections.abc import Mapping, Sequence
from typing import Any, Final, get_args

from starlette.responses import Response

from evenface.errors import Complaint, FileError, Place
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import found
from evenface.interfaces.web.keeping import keep_changes
from evenface.interfaces.web.listed import list_changes
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.piece.cutting_forms import AimWord
from evenface.piece.cutting_records import USUAL_AIMS
from evenface.store import KeptJob

AT: Final = "cutting.aims"
WORDS: Final[Mapping[str, str]] = {
    "least money": "Spend the least on material",
    "fewest sheets": "Take the fewest sheets",
    "offcuts first": "Use up what is left over before new sheets",
    "largest offcut": "Leave one large rest, not many small ones",
    "fewest cuts": "Make the fewest cuts",
    "fewest settings": "Move the fence the fewest times",
}
"""What each aim asks for, as one would say it at the saw."""


def aims_of(view: View) -> tuple[str, ...]:
    """The aims of the job in their order: as written, else the usual ones."""
    return tuple(view.sketch.job.cutting.aims)


def shown(view: View) -> dict[str, Any]:
    """For the page: the aims in their order, those that are not among them, and whether they are the usual ones."""
    aims = aims_of(view)
    left = [one for one in get_args(AimWord) if one not in aims]
    return {"aims": aims, "left": left, "words": WORDS, "as_usual": aims == USUAL_AIMS}


def keep_aims(site: Site, job: KeptJob, version: int, aims: Sequence[str]) -> KeptJob:
    """The job with those aims in that order; none at all for the usual ones. Raises Stale, FileError."""
    written: Any = found(site.desk.look(job, flat=False).source.data, AT)
    return keep_changes(site, job, version, list_changes(AT, written or [], aims, bare=False))


def moved(aims: Sequence[str], do: str, name: str) -> list[str]:
    """The aims after what was asked: up, down, out or add. Raises NoSuchPage, FileError for the last one out."""
    after = list(aims)
    if do == "add" and name in WORDS and name not in after:
        return [*after, name]
    if name not in after or do not in ("up", "down", "out"):
        raise NoSuchPage("That aim is not there any more.")
    place = after.index(name)
    after.pop(place)
    if do == "out":
        if not after:
            raise FileError([Complaint(Place(key=AT), "at least one aim", "none")])
        return after
    after.insert(max(place - 1, 0) if do == "up" else place + 1, name)
    return after


@changing
def change(site: Site, asked: Asked) -> Response:
    """One aim moved, taken out or added; or all as usual. do : "up", "down", "out", a space and the aim."""
    job = site.job(asked)
    do, _, name = asked.form.get("do", "").partition(" ")
    if do == "add":
        name = asked.form.get("aim", "")
    before = aims_of(site.desk.look(job, flat=False))
    after = [] if do == "usual" else moved(before, do, name)
    keep_aims(site, job, asked.whole("version"), after)
    place = f"aim-{after.index(name) + 1}" if name in after else "aims"
    return done(f"/jobs/{job.id}/job", {"out": "out", "add": "added"}.get(do, "order"), place)


ROUTES: Final = (("POST", "/jobs/{job}/aims", change),)
