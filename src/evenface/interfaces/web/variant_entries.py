"""What each variant of a job sets differently: its name and every entry it sets, to be changed and added to."""

import re
from typing import Any, Final

from evenface.errors import Complaint, FileError, Place
from evenface.finding import Change
from evenface.interfaces.web.deeds import called_in
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import TEXT, Entry
from evenface.interfaces.web.job_entries import job_entries
from evenface.interfaces.web.keeping import keep_changes
from evenface.interfaces.web.part_entries import all_entries
from evenface.interfaces.web.piece_entries import Group
from evenface.interfaces.web.plain_entries import entry_at
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.store import KeptJob
from evenface.toml_places import key_path
from evenface.words import Manner

AT: Final = "variant"
_OF_A_LIST: Final = re.compile(r"\.(profile|cutout|grip|insert)\b")
"""Entries of what is worked into a part: named by their places in a list, they are left to its own page."""


def variant_groups(view: View, manner: Manner) -> tuple[Group, ...]:
    """A group for every variant, in the order of the file; nothing stands beside them."""
    return (Group("", (), ()), *(_group(view, manner, number) for number in range(len(_written(view)))))


def variant_entries(view: View, manner: Manner) -> tuple[Entry, ...]:
    """All of them in one row."""
    return tuple(entry for group in variant_groups(view, manner) for entry in group.entries)


def _group(view: View, manner: Manner, number: int) -> Group:
    data, one = view.source.data, _written(view)[number]
    name, word = str(one.get("name", "")), manner.translate
    entries = [
        entry_at(data, f"{AT}[{number}].name", "Name", TEXT, manner, needed=True, whose=str(number + 1))
    ]
    deeds = []
    for place, path in enumerate(one.get("changes", {})):
        called, whose = called_in(view, path, manner)[0], str(number + 1)
        if called == path:
            called, whose = "Entry of the job file", f"{whose}: {path}"
        at = key_path((AT, number, "changes", path))
        label = f"{word('Take out')}: {path if path in whose else called}"
        if one["changes"][path] != "":
            entries.append(entry_at(data, at, called, TEXT, manner, needed=True, whose=whose))
        else:
            label += f" = {word('nothing')}"
        deeds.append((label, f"out {number} {place}"))
    return Group(f"{word('Variant')} {number + 1}", tuple(entries), (), tuple(deeds), name)


def may_differ(view: View, manner: Manner) -> dict[str, str]:
    """Entries of the job and its parts by their key paths, as they are called."""
    found = {
        one.path: _named(one, manner) for one in job_entries(view, manner) if not one.path.startswith("job.")
    }
    for panel in view.panels:
        for one in (each for each in all_entries(view, panel, manner) if not _OF_A_LIST.search(each.path)):
            found.setdefault(one.path, f"{manner.name(panel.name)}, {_named(one, manner)}")
    return found


def set_difference(site: Site, job: KeptJob, version: int, number: int, path: str, new: str) -> KeptJob:
    """The variant sets that entry too. Raises NoSuchPage, Stale, FileError where the job could not be so."""
    _variant(site.desk.look(job, flat=False), number)
    path, new = path.strip(), new.strip()
    if not path or not new:
        key = "new" if path else "path"
        raise FileError([Complaint(Place(key=key), "a value" if path else "an entry of the job", "nothing")])
    site.desk.change(job, [Change(path, "", new)], flat=False)  # what cannot be is told before it is compared
    return keep_changes(site, job, version, [Change(key_path((AT, number, "changes", path)), "", new)])


def leave_out(site: Site, job: KeptJob, version: int, number: int, place: int) -> KeptJob:
    """The variant no longer sets that entry. Raises NoSuchPage, Stale, FileError for the last one."""
    changes = list(_variant(site.desk.look(job, flat=False), number).get("changes", {}))
    if not 0 <= place < len(changes):
        raise NoSuchPage("That is not there any more.")
    return keep_changes(
        site, job, version, [Change(key_path((AT, number, "changes", changes[place])), "", "")]
    )


def _variant(view: View, number: int) -> dict[str, Any]:
    known = _written(view)
    if not 0 <= number < len(known):
        raise NoSuchPage("That variant is not there any more.")
    return known[number]


def _written(view: View) -> list[dict[str, Any]]:
    written: Any = view.source.data.get(AT, [])
    return list(written)


def _named(entry: Entry, manner: Manner) -> str:
    return manner.translate(entry.label) + (f" ({entry.whose})" if entry.whose else "")
