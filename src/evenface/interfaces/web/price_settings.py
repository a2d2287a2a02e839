"""What is added to and taken out of `[price]` beside typing: work of others, fittings, payments, risks, fixed costs."""

from collections.abc import Mapping
from typing import Any, Final

import tomlrt

from evenface.errors import Complaint, FileError, Place, one_of
from evenface.finding import Change
from evenface.interfaces.web.keeping import keep_changes, keep_edited
from evenface.interfaces.web.price_entries import AT, EXTRAS, written_list
from evenface.interfaces.web.site import NoSuchPage, Site
from evenface.interfaces.web.tables_added import add_table
from evenface.piece.editing import value_of
from evenface.store import KeptJob
from evenface.toml_places import key_path

PAYMENT: Final = "offer.payment"
NAMED: Final = {
    "risk": "What goes wrong, of the hours of an operation",
    "rate.fixed_costs": "Fixed cost of a year",
}
"""Tables with names of the maker's own, and what an entry of them is."""
KINDS: Final = (*EXTRAS, PAYMENT, *NAMED)


def add(site: Site, job: KeptJob, version: int, kind: str, name: str, figure: str) -> KeptJob:
    """The job with one more of that kind. figure : its price or share. Raises Stale, FileError."""
    name, figure = " ".join(name.split()), figure.strip()
    if kind not in KINDS:
        raise FileError([Complaint(Place(key="kind"), one_of(KINDS), repr(kind[:40]))])
    if not name:
        raise FileError([Complaint(Place(key="name"), "a name", "nothing")])
    if not figure and kind not in EXTRAS:
        raise FileError([Complaint(Place(key="figure"), "a number", "nothing")])
    if kind in NAMED:
        return keep_changes(site, job, version, [Change(key_path((AT, *kind.split("."), name)), "", figure)])
    if kind == PAYMENT:
        return _with_table(site, job, version, kind, {"share": value_of(figure), "when": name})
    more = {"price": value_of(figure)} if figure else {}
    return _with_table(site, job, version, kind, {"name": name} | more)


def remove(site: Site, job: KeptJob, version: int, kind: str, number: int) -> KeptJob:
    """The job without that one, by its number from 0. Raises NoSuchPage, Stale, FileError."""
    known = written_list(site.desk.look(job, flat=False), kind) if kind in (*EXTRAS, PAYMENT) else []
    if not 0 <= number < len(known):
        raise NoSuchPage("That is not there any more.")
    path = f"{AT}.{kind}" if len(known) == 1 else f"{AT}.{kind}[{number}]"
    return keep_changes(site, job, version, [Change(path, "", "")])


def _with_table(site: Site, job: KeptJob, version: int, kind: str, table: Mapping[str, Any]) -> KeptJob:
    def edit(document: Any) -> None:
        holder = document
        for step in (AT, *kind.split(".")[:-1]):
            if step not in holder:
                inline = holder is not document
                holder[step] = tomlrt.Table.inline({}) if inline else tomlrt.Table.section({})
            holder = holder[step]
        add_table(holder, kind.rpartition(".")[2], dict(table))

    return keep_edited(site, job, version, edit)
