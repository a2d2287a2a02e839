"""What was just done, told on the page that follows, and the place on that page where the focus goes.

The address carries the deed's name and the place (`?did=undo#undo`), so that it works with no script.
"""

from collections.abc import Iterator
from typing import Any, Final

from starlette.responses import RedirectResponse

from evenface.errors import FileError
from evenface.interfaces.web.brief_entries import brief_entries
from evenface.interfaces.web.desk import Desk, View
from evenface.interfaces.web.entries import TEXT, shown_value
from evenface.interfaces.web.hours_entries import hours_entries
from evenface.interfaces.web.job_entries import job_entries
from evenface.interfaces.web.job_stock_entries import stock_entries
from evenface.interfaces.web.part_entries import all_entries
from evenface.interfaces.web.piece_entries import piece_entries
from evenface.interfaces.web.price_entries import price_entries
from evenface.store import JobStore, KeptJob
from evenface.toml_places import key_path, split_path
from evenface.words import Manner, said, say

DEEDS: Final = {
    "undo": "Undone.",
    "redo": "Done again.",
    "kept": "The remedy is kept. Undo takes it back.",
    "added": "Added. Undo takes it off again.",
    "off": "Taken off. Undo brings it back.",
    "out": "Taken out. Undo brings it back.",
    "piece": "The new piece is here.",
    "part": "The new part is here.",
    "priced": "The prices are kept.",
    "away": "The job is put away; it stands under the list and can be brought back.",
    "back": "The job is back.",
    "ticked": "Ticked.",
    "unticked": "The tick is out again.",
    "written": "The paper is written.",
    "held": "The step is held to its day. Empty its entry to let it go.",
    "laid": "The hours are written anew. Undo brings back the ones before.",
    "order": "The order is kept. Undo brings back the one before.",
    "variant": "The variant is written into the job.",
}
"""What may be told, by the word the address carries."""
STEPS: Final = {"undo": "Undone: {what}.", "redo": "Done again: {what}."}
OF_THE_JOB: Final = (job_entries, hours_entries, stock_entries, brief_entries, price_entries)
AIMS: Final = "cutting.aims"
MOST: Final = 2
"""Entries of one step that are named; the rest is counted."""


def done(page: str, deed: str, place: str = "did") -> RedirectResponse:
    """To a page that tells the deed, with the focus at the element of that id."""
    return RedirectResponse(f"{page}{f'?did={deed}' if deed else ''}#{place}", 303)


def told(store: JobStore, desk: Desk, job: KeptJob | None, deed: str, manner: Manner) -> str:
    """The deed in words; of undo and redo, what changed. Empty for no deed of ours."""
    if deed not in DEEDS:
        return ""
    plain = manner.translate(DEEDS[deed])
    if job is None or deed not in STEPS:
        return plain
    before = store.beside(job.id, "redo" if deed == "undo" else "undo")
    try:
        view = desk.look(job, flat=False)
        old = desk.look(job, before, flat=False).source.data if before is not None else {}
    except FileError:
        return plain
    names = [_named(view, *one, manner) for one in differences(old, view.source.data)]
    if before is None or not names:
        return plain
    words = "; ".join(names[:MOST])
    if len(names) > MOST:
        words += say(said("; and {count} entries more", count=len(names) - MOST), manner)
    return say(said(STEPS[deed], what=words), manner)


def differences(old: Any, new: Any) -> list[tuple[str, Any, Any]]:
    """Every entry of two job files that differs: its key path, what it was and what it is, None where absent."""
    before, after = dict(_leaves(old, "")), dict(_leaves(new, ""))
    paths = dict.fromkeys((*before, *after))
    pairs = ((path, before.get(path), after.get(path)) for path in paths)
    return [(path, was, now) for path, was, now in pairs if was != now]


def _leaves(data: Any, at: str) -> Iterator[tuple[str, Any]]:
    if isinstance(data, dict):
        for key, value in data.items():
            name = key_path((str(key),))
            yield from _leaves(value, f"{at}.{name}" if at else name)
    elif isinstance(data, list):
        for number, value in enumerate(data):
            yield from _leaves(value, f"{at}[{number}]")
    else:
        yield at, data


def _named(view: View, path: str, was: Any, now: Any, manner: Manner) -> str:
    """An entry with its old and new value, called as its field on the screen."""
    called, kind = called_in(view, path, manner)
    shown = [shown_value(one, kind, manner) or manner.translate("nothing") for one in (was, now)]
    return f"{called} {shown[0]} → {shown[1]}"


def called_in(view: View, path: str, manner: Manner) -> tuple[str, str]:
    """What an entry is called on the screens, and its kind; the path itself where no page has it."""
    for panel in view.panels:
        if path.startswith(f"{panel.origin}."):
            for entry in all_entries(view, panel, manner):
                if entry.path == path:
                    return f"{manner.name(panel.name)}, {manner.translate(entry.label)}", entry.kind
    for entry in (one for entries in OF_THE_JOB for one in entries(view, manner)):
        called = manner.translate(entry.label) + (f" ({entry.whose})" if entry.whose else "")
        if entry.path == path:
            return called, entry.kind
        if entry.holds is not None and path.startswith(f"{entry.path}["):
            return called, entry.holds.kind
    if path.startswith(f"{AIMS}["):
        return manner.translate("What makes a good layout"), TEXT
    steps = split_path(path)
    number = steps[1] if steps[0] == "piece" and len(steps) > 2 else None
    if isinstance(number, int) and number < len(view.sketch.job.pieces):
        for entry in piece_entries(view, number, manner):
            if entry.path == path:
                name = view.sketch.job.pieces[number].name
                return f"{name}, {manner.translate(entry.label)}", entry.kind
    return path, ""
