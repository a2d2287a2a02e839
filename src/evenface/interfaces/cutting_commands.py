"""The command about cutting, as it stands on the command line; its work is done in `cutting`."""

from pathlib import Path
from typing import Annotated

import typer


def cutting(
    job: Annotated[Path, typer.Argument(help="The job file (TOML).")],
    which: Annotated[
        str,
        typer.Option(
            "--list",
            help="saw: numbered cuts. rail: with a guide rail. shears: knife and shears. merchant: rough sizes. "
            "sizes: what saves a sheet.",
        ),
    ] = "saw",
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", help="Folder of a packet whose plan is kept where it serves."),
    ] = None,
    seconds: Annotated[float, typer.Option("--seconds", help="Time the layouts may take.")] = 3.0,
    materials: Annotated[
        Path | None,
        typer.Option("--materials", help="Your own materials file; default: materials.toml beside the job."),
    ] = None,
    labels: Annotated[
        Path | None,
        typer.Option(
            "--labels",
            help="Write stickers for the parts as PDF instead, 24 on A4, in the order in which they come off.",
        ),
    ] = None,
    skip: Annotated[
        int, typer.Option("--skip", help="Stickers already used at the head of the first sheet.")
    ] = 0,
    units: Annotated[str, typer.Option("--units", help="mm or inch, for what is shown.")] = "mm",
) -> None:
    """List the cuts of JOB for a saw, a guide rail, knife and shears or the merchant; or sizes that save a sheet.

    Exit code 1 when a stop stands.
    """
    from evenface.interfaces.cutting import cutting_and_show, labels_and_show

    if labels is not None:
        raise typer.Exit(labels_and_show(job, labels, skip, out, seconds, materials, units))
    raise typer.Exit(cutting_and_show(job, which, out, seconds, materials, units))


def add_cutting(app: typer.Typer) -> None:
    """Put the command on the command line."""
    app.command()(cutting)
