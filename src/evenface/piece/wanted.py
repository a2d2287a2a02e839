"""`[brief]` and `[[variant]]` of a job file."""

from typing import Any, Final

from evenface.errors import Complaint, FileError, nearest_words
from evenface.finding import Change
from evenface.piece.brief_records import Alternative, Brief
from evenface.piece.showing import shown
from evenface.piece.source_text import Source
from evenface.words import said

MOST_VARIANTS: Final = 6
LONGEST_NAME: Final = 60
_KEYS: Final = ("name", "changes")


def brief_in(source: Source, complaints: list[Complaint]) -> Brief | None:
    """The brief of the job, where there is one that can be read."""
    return brief_at(source, source.data.get("brief"), "brief", complaints)


def brief_at(source: Source, table: Any, path: str, complaints: list[Complaint]) -> Brief | None:
    """The brief written at that key path, of the job or of a piece."""
    if table is None:
        return None
    if not isinstance(table, dict):
        complaints.append(Complaint(source.place(path), "a table [brief]", shown(table)))
        return None
    from evenface.piece.briefs import brief_of

    try:
        return brief_of(table, lambda key: source.place(f"{path}.{key}"))
    except FileError as fault:
        complaints.extend(fault.complaints)
        return None


def variants_in(source: Source, complaints: list[Complaint]) -> tuple[Alternative, ...]:
    """The variants to compare, at most six."""
    entries = source.data.get("variant", [])
    if not isinstance(entries, list) or not all(isinstance(one, dict) for one in entries):
        complaints.append(Complaint(source.place("variant"), "[[variant]] tables", shown(entries)))
        return ()
    if len(entries) > MOST_VARIANTS:
        expected, place = (
            said("at most {most} variants", most=MOST_VARIANTS),
            source.place(f"variant[{MOST_VARIANTS}]"),
        )
        complaints.append(Complaint(place, expected, str(len(entries))))
    made = [_variant(source, number, table, complaints) for number, table in enumerate(entries)]
    names = [one.name for one in made]
    complaints += [
        Complaint(source.place(f"{one.origin}.name"), "a name of its own", repr(one.name))
        for one in made
        if names.count(one.name) > 1
    ]
    return tuple(made)


def _variant(source: Source, number: int, table: dict[str, Any], complaints: list[Complaint]) -> Alternative:
    origin = f"variant[{number}]"
    for key in table:
        if key not in _KEYS:
            hint = nearest_words(key, _KEYS)
            complaints.append(Complaint(source.place(f"{origin}.{key}"), "name or changes", repr(key), hint))
    name, changes = table.get("name"), table.get("changes")
    if not isinstance(name, str) or not 0 < len(name.strip()) <= LONGEST_NAME or not name.isprintable():
        complaints.append(
            Complaint(
                source.place(f"{origin}.name"),
                said("a name of up to {most} signs", most=LONGEST_NAME),
                shown(name),
            )
        )
        name = f"variant {number + 1}"
    if not isinstance(changes, dict) or not changes:
        complaints.append(
            Complaint(
                source.place(f"{origin}.changes"),
                'entries to set differently, such as { "buildup.bench.carrier" = "mdf-22" }',
                shown(changes),
            )
        )
        changes = {}
    made = []
    for path, new in changes.items():
        if isinstance(new, dict | list):
            place = source.place(f"{origin}.changes")
            complaints.append(
                Complaint(place, said("one value for {path}", path=path), shown(new), "Name the inner keys.")
            )
            continue
        made.append(Change(path, "", _plain(new)))
    return Alternative(name.strip(), tuple(made), origin)


def _plain(given: object) -> str:
    return str(given).lower() if isinstance(given, bool) else str(given)
