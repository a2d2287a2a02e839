"""What is done with the stock lines of a job beside typing: a line more or less, damage more or less."""

from collections.abc import Mapping, Sequence
from typing import Any

import tomlrt

from evenface.errors import FileError
from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import Entry, changes_of, reasons_for
from evenface.interfaces.web.job_stock_entries import AT, damage_of, lines_of, new_damage, new_line
from evenface.interfaces.web.keeping import keep_changes, keep_edited, keep_text
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.interfaces.web.tables_added import add_table
from evenface.interfaces.web.written import table_text
from evenface.piece.editing import apply_changes
from evenface.store import KeptJob
from evenface.words import Manner


def add_line(
    site: Site, job: KeptJob, version: int, typed: Mapping[str, str], manner: Manner
) -> dict[str, str]:
    """A line more, of what was typed into the entries of `new_line`; else the reason of each. Raises Stale."""
    view = site.desk.look(job, flat=False)
    wishes, reasons = _wished(new_line(view, manner), typed, manner)
    if reasons:
        return reasons
    try:
        keep_line(site, job, version, [change for changes in wishes.values() for change in changes])
    except FileError as error:
        return reasons_for(new_line(view, manner), error, manner)
    return {}


def keep_line(site: Site, job: KeptJob, version: int, changes: Sequence[Change]) -> KeptJob:
    """The job with a line more. changes : its entries, the material first. Raises Stale, FileError."""
    text = job.text
    if AT not in site.desk.look(job, flat=False).source.data:
        text = f"{text.rstrip()}\n\n{table_text(AT, {'material': changes[0].new})}"
    return keep_text(site, job, version, apply_changes(text, changes))


def remove_line(site: Site, job: KeptJob, version: int, number: int) -> KeptJob:
    """The job without that line, by its number from 0. Raises NoSuchPage, Stale, FileError."""
    _line(site.desk.look(job, flat=False), number)
    return keep_changes(site, job, version, [Change(f"{AT}[{number}]", "", "")])


def add_damage(
    site: Site, job: KeptJob, version: int, number: int, typed: Mapping[str, str], manner: Manner
) -> dict[str, str]:
    """Damage more on a line, of what was typed as at, size and kind; else the reason of each. Raises Stale."""
    line = _line(site.desk.look(job, flat=False), number)
    entries = new_damage(number, len(damage_of(line, "")))
    keys = {one.path.rpartition(".")[2]: one.path for one in entries}
    wishes, reasons = _wished(entries, {path: typed.get(key, "") for key, path in keys.items()}, manner)
    if not reasons:
        table: dict[str, Any] = {}
        for one in (change for changes in wishes.values() for change in changes):
            key = next(key for key, path in keys.items() if one.path.startswith(path))
            table[key] = [*table.get(key, []), _figure(one.new)] if key != "kind" else one.new
        try:
            keep_damage(site, job, version, number, table)
        except FileError as error:
            reasons = reasons_for(entries, error, manner)
    back = {path: key for key, path in keys.items()}
    return {back.get(path, ""): why for path, why in reasons.items()}


def keep_damage(site: Site, job: KeptJob, version: int, number: int, table: dict[str, Any]) -> KeptJob:
    """The job with damage more on a line. table : at, size and kind. Raises NoSuchPage, Stale, FileError."""
    _line(site.desk.look(job, flat=False), number)
    return keep_edited(site, job, version, lambda document: add_table(document[AT][number], "defect", table))


def remove_damage(site: Site, job: KeptJob, version: int, number: int, place: int) -> KeptJob:
    """The job without that damage of a line, both numbers from 0. Raises NoSuchPage, Stale, FileError."""
    known = damage_of(_line(site.desk.look(job, flat=False), number), f"{AT}[{number}]")
    if not 0 <= place < len(known):
        raise NoSuchPage("That damage is not there any more.")
    path = f"{AT}[{number}].defect" if len(known) == 1 else known[place][0]
    return keep_changes(site, job, version, [Change(path, "", "")])


def _line(view: View, number: int) -> dict[str, Any]:
    known = lines_of(view)
    if not 0 <= number < len(known):
        raise NoSuchPage("That line is not there any more.")
    return known[number]


def _wished(
    entries: Sequence[Entry], typed: Mapping[str, str], manner: Manner
) -> tuple[dict[str, list[Change]], dict[str, str]]:
    wishes, reasons = changes_of(entries, typed, manner)
    for one in entries:
        if one.needed and one.path not in wishes and one.path not in reasons:
            reasons[one.path] = manner.translate("Expected a value: this one cannot be left out.")
    return wishes, reasons


def _figure(word: str) -> Any:
    """A length as the file has it: a plain number, or a text with its unit."""
    plain = word.replace(".", "", 1).removeprefix("-")
    return tomlrt.loads(f"n = {word}")["n"] if plain.isascii() and plain.isdigit() else word
