"""What goes between the rack and files: tables in and out, labels, backups."""

from collections.abc import Sequence
from datetime import date, datetime
from pathlib import Path

from rich.console import Console
from rich.markup import escape

from evenface.documents.files import write_files
from evenface.documents.rack_labels import label_pdf
from evenface.errors import Complaint, FileError, Place
from evenface.interfaces.racking import THERE, material_names
from evenface.interfaces.screen import manner_of, tell
from evenface.store.rack import Rack
from evenface.store.rack_files import csv_text, read_rows, xlsx_bytes
from evenface.store.rack_import import preview, summary
from evenface.store.rack_keeping import back_up
from evenface.words import said

MOST_SHOWN = 40


def import_and_show(file: Path, write: bool, materials: Path | None) -> int:
    """The preview, and with `write` the import itself."""
    console = Console(highlight=False)
    names = material_names(materials)
    rows = read_rows(file)
    with Rack() as rack:
        found = preview(rows, str(file), {item.code: item for item in rack.items()}, names)
        lines = summary(found)
        for line in lines[:MOST_SHOWN]:
            console.print(escape(line))
        if len(lines) > MOST_SHOWN:
            tell(console, said("… and {count:count} more", count=len(lines) - MOST_SHOWN))
        counts = said(
            "{new:count} new, {changed:count} corrected, {same:count} as they are.",
            new=len(found.new), changed=len(found.changed), same=len(found.same),
        )  # fmt: skip
        tell(console, counts)
        if not lines:
            return 0
        if write:
            action = rack.bring_in(found.new, found.changed)
            booked = "Booked in as action {number:count}; 'evenface rack undo' takes all of it back."
            tell(console, said(booked, number=action.number))
        else:
            tell(console, said("Nothing was changed yet: say --write to book it in."))
    return 0


def export_and_show(file: Path) -> int:
    """The whole rack as a table."""
    ending = file.suffix.lower()
    if ending not in (".csv", ".xlsx"):
        raise FileError([Complaint(Place(str(file)), "a name that ends in .csv or .xlsx", repr(file.name))])
    with Rack() as rack:
        items = rack.items()
    content = csv_text(items).encode() if ending == ".csv" else xlsx_bytes(items)
    write_files({file.name: content}, file.parent)
    told = said(
        "Written to {file}: {count:count} items. Photos are not in it.", file=str(file), count=len(items)
    )
    tell(Console(highlight=False), told)
    return 0


def labels_and_show(file: Path, codes: Sequence[str], skip: int, units: str) -> int:
    """Labels of what was named, else of all that is there."""
    manner = manner_of(units)
    with Rack() as rack:
        items = tuple(rack.find(code) for code in codes) if codes else rack.items(states=THERE)
    write_files({file.name: label_pdf(items, date.today(), skip, manner)}, file.parent)
    told = said("Written to {file}: {count:count} labels. Print at 100 %.", file=str(file), count=len(items))
    tell(Console(highlight=False), told)
    return 0


def backup_and_show(folder: Path) -> int:
    """A whole copy, looked at."""
    with Rack() as rack:
        place = back_up(rack.engine, rack.folder, folder, datetime.now())
    told = said(
        "Backed up to {folder}. To go back, copy its files into an empty data folder (EVENFACE_HOME).",
        folder=str(place),
    )
    tell(Console(highlight=False), told)
    return 0
