"""A table more in a list of tables of a job file, written as those beside it are; or one less."""

import re
from typing import Any, Final

import tomlrt

from evenface.finding import Change
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.entries import found
from evenface.interfaces.web.keeping import keep_changes, keep_edited
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.store import KeptJob
from evenface.toml_places import split_path

_OF_A_PIECE: Final = re.compile(r"piece\[\d{1,5}\](\.[a-z_]+(\[\d{1,5}\])?)+")


def add_table(holder: Any, key: str, table: dict[str, Any]) -> None:
    """`table` after the last under `key`; a list is begun where there is none, or one table without a list."""
    table = plain(table)
    new, known = tomlrt.Table.inline(table), holder.get(key)
    if known is None:
        holder[key] = [new]
    elif isinstance(known, dict):
        before = known.to_dict() if hasattr(known, "to_dict") else dict(known)
        del holder[key]
        holder[key] = [tomlrt.Table.inline(before), new]
    elif isinstance(known, tomlrt.AoT):
        known.add(table)
    else:
        known.append(new)


def plain(value: Any) -> Any:
    """Whole numbers as a maker writes them, without a point."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def copy_table(site: Site, job: KeptJob, version: int, path: str) -> KeptJob:
    """The job with a table more after the last of its list, like that one. Raises NoSuchPage, Stale, FileError."""
    _known(site.desk.look(job, flat=False), path)
    *way, last = split_path(path)
    key = str(way.pop()) if isinstance(last, int) else str(last)

    def edit(document: Any) -> None:
        holder = document
        for step in way:
            holder = holder[step]
        many = holder[key]
        table = (many[last] if isinstance(last, int) else many).to_dict()
        beside = many if isinstance(last, int) else [many]
        if "name" in table:
            table["name"] = _free(str(table["name"]), {str(one.get("name")) for one in beside})
        add_table(holder, key, table)

    return keep_edited(site, job, version, edit)


def remove_table(site: Site, job: KeptJob, version: int, path: str) -> KeptJob:
    """The job without that table. Raises NoSuchPage, Stale, FileError for one that is needed."""
    _known(site.desk.look(job, flat=False), path)
    return keep_changes(site, job, version, [Change(path, "", "")])


def _known(view: View, path: str) -> None:
    if not _OF_A_PIECE.fullmatch(path) or not isinstance(found(view.source.data, path), dict):
        raise NoSuchPage("That is not there any more.")


def _free(name: str, taken: set[str]) -> str:
    return next(f"{name} {number}" for number in range(2, 10_000) if f"{name} {number}" not in taken)
