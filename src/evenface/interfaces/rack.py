"""`evenface rack`: what lies in the rack, as commands; their work is done in `racking` and `rack_tables`."""

from pathlib import Path
from typing import Annotated

import typer

rack_app = typer.Typer(
    name="rack",
    help="Keep the rack: sheets, rolls, boards and offcuts, booked in, reserved, cut and undone.",
    no_args_is_help=True,
    rich_markup_mode=None,
)

Code = Annotated[str, typer.Argument(help="The code on its label, such as K7F3-2MQT.")]
Codes = Annotated[list[str], typer.Argument(help="Codes on the labels.")]
Units = Annotated[str, typer.Option("--units", help="mm or inch, for what is shown.")]
Note = Annotated[str, typer.Option("--note", help="A word for the log.")]
Place = Annotated[str | None, typer.Option("--place", help="Where it lies.")]
Thickness = Annotated[
    str | None, typer.Option("--thickness", help="As measured: 18.4, '18.4 mm', '23/32 in'.")
]
Batch = Annotated[str | None, typer.Option("--batch", help="Batch or delivery.")]
Grain = Annotated[str | None, typer.Option("--grain", help="Along its length, across it, or none.")]
Faces = Annotated[str | None, typer.Option("--faces", help="Which face is good: label, other or both.")]
Moisture = Annotated[str | None, typer.Option("--moisture", help="Measured, in percent.")]
Price = Annotated[str | None, typer.Option("--price", help="Of one piece.")]
Currency = Annotated[str | None, typer.Option("--currency", help="Such as EUR; needed beside a price.")]
Value = Annotated[
    str | None, typer.Option("--value", help="What a plan has to pay for it, where that is not its price.")
]
Least = Annotated[
    str | None, typer.Option("--least", help="From what size a rest of it is worth keeping: 100x300.")
]
Notes = Annotated[str | None, typer.Option("--notes", help="Kept with it.")]
Defects = Annotated[
    str | None, typer.Option("--defects", help="'knot 60 x 40 at 900 x 50; split 300 x 5 at 0 x 90'.")
]
Photo = Annotated[Path | None, typer.Option("--photo", help="A JPEG or PNG; it is copied.")]
Materials = Annotated[Path | None, typer.Option("--materials", help="Your own materials file.")]


@rack_app.command(name="list")
def list_items(
    material: Annotated[str, typer.Option("--material", help="Only this one.")] = "",
    state: Annotated[
        str, typer.Option("--state", help="free, reserved, cut, spoiled or all; default: what is there.")
    ] = "",
    job: Annotated[
        str, typer.Option("--job", help="Only what is reserved for this job (file or name).")
    ] = "",
    units: Units = "mm",
) -> None:
    """List what is in the rack, and what became of everything received."""
    from evenface.interfaces.racking import list_and_show

    raise typer.Exit(list_and_show(material, state, job, units))


@rack_app.command()
def receive(
    material: Annotated[str, typer.Argument(help="Its name in the catalogue, such as birch-ply-18.")],
    size: Annotated[str, typer.Option("--size", help="Length x width: 2500x1250, '98 1/2 in x 49 in'.")],
    form: Annotated[
        str, typer.Option("--form", help="sheet, rolled_sheet, roll, board, offcut or stick.")
    ] = "sheet",
    copies: Annotated[int, typer.Option("--copies", min=1, max=500, help="How many alike.")] = 1,
    thickness: Thickness = None,
    batch: Batch = None,
    grain: Grain = None,
    faces: Faces = None,
    moisture: Moisture = None,
    place: Place = None,
    price: Price = None,
    currency: Currency = None,
    value: Value = None,
    least: Least = None,
    defects: Defects = None,
    notes: Notes = None,
    photo: Photo = None,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Book MATERIAL in, one entry a piece, each with a code for its label."""
    from evenface.interfaces.racking import receive_and_show

    cells = {
        **{"material": material, "size": size, "form": form, "thickness": thickness, "batch": batch},
        **{"grain": grain, "faces": faces, "moisture": moisture, "place": place, "price": price},
        **{"currency": currency, "value": value, "least": least, "defects": defects, "notes": notes},
    }
    raise typer.Exit(receive_and_show(cells, copies, photo, materials, units))


@rack_app.command()
def correct(
    code: Code,
    size: Annotated[str | None, typer.Option("--size", help="Length x width, as measured.")] = None,
    thickness: Thickness = None,
    batch: Batch = None,
    grain: Grain = None,
    faces: Faces = None,
    moisture: Moisture = None,
    place: Place = None,
    price: Price = None,
    currency: Currency = None,
    value: Value = None,
    least: Least = None,
    defects: Defects = None,
    notes: Notes = None,
    photo: Photo = None,
    units: Units = "mm",
) -> None:
    """Put right what is known of CODE: its place, its moisture, a size measured anew. An empty text clears."""
    from evenface.interfaces.racking import correct_and_show

    cells = {
        **{"size": size, "thickness": thickness, "batch": batch, "grain": grain, "faces": faces},
        **{"moisture": moisture, "place": place, "price": price, "currency": currency, "value": value},
        **{"least": least, "defects": defects, "notes": notes},
    }
    raise typer.Exit(correct_and_show(code, cells, photo, units))


@rack_app.command()
def find(code: Code, units: Units = "mm") -> None:
    """Show everything about CODE: what it is, where it lies, where it came from, what was cut from it."""
    from evenface.interfaces.racking import find_and_show

    raise typer.Exit(find_and_show(code, units))


@rack_app.command()
def reserve(
    job: Annotated[str, typer.Argument(help="The job file, or the name of the job.")],
    codes: Codes,
    note: Note = "",
) -> None:
    """Reserve CODES for JOB, all or none. `evenface plan JOB --from-rack` does it for what a plan takes."""
    from evenface.interfaces.racking import reserve_and_show

    raise typer.Exit(reserve_and_show(job, codes, note))


@rack_app.command()
def release(codes: Codes, note: Note = "") -> None:
    """Put reserved CODES back among the free ones."""
    from evenface.interfaces.racking import release_and_show

    raise typer.Exit(release_and_show(codes, note))


@rack_app.command()
def cut(
    code: Code,
    rest: Annotated[
        list[str] | None,
        typer.Option("--rest", help="A rest to keep, length x width along its own; may stand several times."),
    ] = None,
    nothing: Annotated[bool, typer.Option("--nothing-left", help="No rest is kept.")] = False,
    job: Annotated[str, typer.Option("--job", help="The job it is cut for, where it is reserved.")] = "",
    place: Annotated[str, typer.Option("--place", help="Where the rests lie; default: where it lay.")] = "",
    note: Note = "",
    units: Units = "mm",
) -> None:
    """Book CODE out as cut and its rests in, in one step. Without --rest: the rests its plan leaves."""
    from evenface.interfaces.racking import cut_and_show

    raise typer.Exit(cut_and_show(code, rest or [], nothing, job, place, note, units))


@rack_app.command()
def spoil(code: Code, note: Note = "") -> None:
    """Strike CODE: nothing can be made of it any more."""
    from evenface.interfaces.racking import spoil_and_show

    raise typer.Exit(spoil_and_show(code, note))


@rack_app.command()
def undo(
    anyone: Annotated[
        bool, typer.Option("--anyone", help="The last thing anybody did, not only you yourself.")
    ] = False,
) -> None:
    """Take back the last thing you did with the rack; everything is as it was before."""
    from evenface.interfaces.racking import undo_and_show

    raise typer.Exit(undo_and_show(anyone))


@rack_app.command()
def log(most: Annotated[int, typer.Option("--most", min=1, max=10_000, help="How many lines.")] = 20) -> None:
    """Show what was done with the rack, the newest first."""
    from evenface.interfaces.racking import log_and_show

    raise typer.Exit(log_and_show(most))


@rack_app.command(name="import")
def import_table(
    file: Annotated[Path, typer.Argument(help="A table that ends in .csv or .xlsx.")],
    write: Annotated[bool, typer.Option("--write", help="Book it in; without it only the preview.")] = False,
    materials: Materials = None,
) -> None:
    """Read FILE and show what it would change; with --write, change it, in one step that can be undone.

    The first row names the columns: form, material, length and width are needed; `evenface rack export`
    writes all of them. A row with a known code corrects that item.
    """
    from evenface.interfaces.rack_files import import_and_show

    raise typer.Exit(import_and_show(file, write, materials))


@rack_app.command()
def export(
    file: Annotated[Path, typer.Argument(help="To be written: a file that ends in .csv or .xlsx.")],
) -> None:
    """Write the whole rack to FILE, so that an empty rack that imports it holds the same."""
    from evenface.interfaces.rack_files import export_and_show

    raise typer.Exit(export_and_show(file))


@rack_app.command()
def labels(
    file: Annotated[Path, typer.Argument(help="The PDF to be written.")],
    codes: Annotated[
        list[str] | None, typer.Argument(help="Only these; default: all that is free or reserved.")
    ] = None,
    skip: Annotated[int, typer.Option("--skip", help="Stickers already used on the first sheet.")] = 0,
    units: Units = "mm",
) -> None:
    """Write labels with codes to FILE: 24 stickers of 70 × 37 mm on a sheet of A4."""
    from evenface.interfaces.rack_files import labels_and_show

    raise typer.Exit(labels_and_show(file, codes or [], skip, units))


@rack_app.command()
def backup(
    folder: Annotated[Path, typer.Argument(help="Where backups are kept, best on another disc.")],
) -> None:
    """Write the whole rack and its photos into a new folder inside FOLDER, looked at once written."""
    from evenface.interfaces.rack_files import backup_and_show

    raise typer.Exit(backup_and_show(folder))
