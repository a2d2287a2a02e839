"""`evenface flat`, `backers`, `limit` and `calibrate`: will it stay flat, and what would change that."""

import sys
from pathlib import Path

from rich.console import Console
from rich.markup import escape

from evenface.documents.choice_tables import backers_table, limits_table
from evenface.documents.display import called
from evenface.documents.files import write_files
from evenface.documents.flat_plot import plot_bytes
from evenface.documents.flat_tables import Row, flat_notes, flat_table, month_table, rows_of
from evenface.documents.result_json import flatness_text
from evenface.errors import Complaint, FileError, MissingWord, Place
from evenface.interfaces.screen import manner_of, show_findings, show_table
from evenface.job.backers import backers, panel_named
from evenface.job.calibration import calibrated, entry_text, store_entry
from evenface.job.limits import LimitQuestion, width_limits
from evenface.job.opening import Opened, open_with_all
from evenface.job.sketch import sketch
from evenface.materials import load_catalogue
from evenface.units import number_text
from evenface.words import Manner, said

BEYOND = ("flat.bow", "flat.cup", "flat.twist")


def flat_and_show(
    path: Path, part: str | None, as_json: bool, plot: Path | None, materials: Path | None, units: str
) -> int:
    """Show how the parts bend through the year; the exit code is 1 when one may go beyond its limit."""
    manner = manner_of(units)
    opened = open_with_all(path, materials)
    drafted = sketch(opened)
    rows = _asked_for(opened, rows_of(drafted), part)
    if plot is not None:
        _write_plot(rows, plot, manner)
    shown = {(panel.piece, panel.name) for panel, _ in rows}
    found = [
        one for one in drafted.findings if one.code.startswith("flat.") and (one.piece, one.part) in shown
    ]
    if as_json:
        sys.stdout.write(flatness_text(rows))
    else:
        _show(Console(highlight=False), rows, part is not None, manner)
        show_findings(Console(highlight=False), found, manner)
    return int(any(one.code in BEYOND for one in found))


def _asked_for(opened: Opened, rows: tuple[Row, ...], part: str | None) -> tuple[Row, ...]:
    if part is None:
        return rows
    panel = panel_named(opened, part)
    return tuple(row for row in rows if (row[0].piece, row[0].name) == (panel.piece, panel.name))


def _show(console: Console, rows: tuple[Row, ...], by_month: bool, manner: Manner) -> None:
    show_table(console, flat_table(rows, manner))
    for _, behaviour in rows:
        if by_month:
            show_table(console, month_table(behaviour, manner))
    for note in dict.fromkeys(note for _, behaviour in rows for note in flat_notes(behaviour, manner)):
        console.print(escape(note), style="dim")
    console.print()


def _write_plot(rows: tuple[Row, ...], plot: Path, manner: Manner) -> None:
    if len(rows) != 1:
        known = [f"{panel.piece}, {panel.name}" for panel, _ in rows]
        raise FileError(
            [
                Complaint(
                    Place(key="--plot"),
                    "one part to draw, named by --part",
                    said("{count} parts", count=len(rows)),
                    said("Parts: {known}.", known="; ".join(known)),
                )
            ]
        )
    panel, behaviour = rows[0]
    write_files({plot.name: plot_bytes(panel, behaviour, plot.name, manner)}, plot.parent)


def backers_and_show(path: Path, part: str, materials: Path | None, units: str) -> int:
    """Show every way to back a part, and what it would weigh and cost."""
    manner = manner_of(units)
    opened = open_with_all(path, materials)
    rows = backers(opened, part)
    first = rows[0].behaviour
    cells = [(row.title, row.behaviour, row.cost_per_m2) for row in rows]
    console = Console(highlight=False)
    name = called((first.piece, first.part), manner)
    show_table(console, backers_table(cells, name, opened.job.currency, manner))
    return 0


def limit_and_show(question: LimitQuestion, materials: Path | None, units: str) -> int:
    """Show the largest safe widths of a wood."""
    ground, limits = width_limits(question, load_catalogue(materials))
    manner = manner_of(units)
    show_table(Console(highlight=False), limits_table(ground, limits, manner))
    return 0


def calibrate_and_show(
    facing: str,
    carrier: str,
    length_mm: float,
    bows_mm: tuple[float, float],
    humidities: tuple[float, float],
    days: int,
    board_mm: float | None,
    write: Path | None,
    materials: Path | None,
) -> int:
    """Show what two test strips say of a sheet, and store it where asked; 1 when they need longer."""
    catalogue = load_catalogue(materials)
    if facing not in catalogue.names("facing"):
        raise MissingWord("facing", facing, catalogue.names("facing"))
    found = calibrated(catalogue, facing, carrier, length_mm, bows_mm, humidities, days, board_mm)
    sys.stdout.write(entry_text(facing, found))
    sys.stdout.write(
        f"# pull along {number_text(found.pull_along_n_mm, 1)}, across {number_text(found.pull_across_n_mm, 1)} "
        f"N/mm per unit of humidity; {number_text(100 * found.settled, 0)} % of the last bow was reached\n"
    )
    if write is not None:
        store_entry(write, facing, found)
    if found.needs_longer:
        sys.stderr.write("The strips had not settled: wait longer and measure again.\n")
    return int(found.needs_longer)
