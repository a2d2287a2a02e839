"""The commands about money, as they stand on the command line; their work is done in `pricing` and `offering`."""

from pathlib import Path
from typing import Annotated

import typer

JobFile = Annotated[Path, typer.Argument(help="The job file (TOML).")]
Materials = Annotated[
    Path | None,
    typer.Option("--materials", help="Your own materials file; default: materials.toml beside the job."),
]
Prices = Annotated[
    Path | None, typer.Option("--prices", help="Your prices; default: prices.toml beside the job.")
]
Units = Annotated[str, typer.Option("--units", help="mm or inch, for what is shown.")]
Start = Annotated[str, typer.Option("--start", help="First day of work, as 2027-01-11.")]
HoursADay = Annotated[
    float | None,
    typer.Option("--hours", min=0.5, max=16.0, help="Hours worked a day; default: those of [calendar]."),
]
To = Annotated[str, typer.Option("--to", help="Number of the offer or order this paper belongs to.")]


def price(
    job: JobFile,
    quick: Annotated[
        bool,
        typer.Option("--quick", help="A first answer from past-jobs.csv beside the job, with its spread."),
    ] = False,
    materials: Materials = None,
    prices: Prices = None,
    units: Units = "mm",
) -> None:
    """Price JOB line by line: hours, material, what is bought besides, margin and mark-up, tax.

    Exit code 1 when something is not priced: it is named, and the sum is at least what it says.
    """
    from evenface.interfaces.pricing import price_and_show

    raise typer.Exit(price_and_show(job, quick, materials, prices, units))


def offer(
    job: JobFile,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", help="Folder where papers are kept; default: offers beside the job."),
    ] = None,
    paper: Annotated[
        str, typer.Option("--paper", help="offer, confirmation, delivery-note or invoice.")
    ] = "offer",
    start: Start = "",
    hours: HoursADay = None,
    to: To = "",
    anyway: Annotated[
        bool, typer.Option("--anyway", help="Write a draft though something is not priced or cannot be made.")
    ] = False,
    materials: Materials = None,
    prices: Prices = None,
    units: Units = "mm",
) -> None:
    """Write the offer for JOB with its approval sheet, or a later paper, under the next number.

    What was written is never written over. Exit code 1 when price or piece is not whole.
    """
    from evenface.interfaces.offering import offer_and_write

    raise typer.Exit(offer_and_write(job, out, paper, start, hours, to, anyway, materials, prices, units))


def after(
    job: JobFile,
    write: Annotated[
        bool, typer.Option("--write", help="Keep times in own-times.toml and the job in past-jobs.csv.")
    ] = False,
    materials: Materials = None,
    prices: Prices = None,
    units: Units = "mm",
) -> None:
    """Set what JOB took beside what was planned: hours, material, money, an operation at a time.

    Times come from steps ticked off with their minutes and from JOB.taken.toml.
    """
    from evenface.interfaces.pricing import after_and_show

    raise typer.Exit(after_and_show(job, write, materials, prices, units))


def change(
    old: Annotated[Path, typer.Argument(help="The job as ordered.")],
    new: Annotated[Path, typer.Argument(help="The job as it is to be now.")],
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", help="Folder to keep the change order in; without it none is written."),
    ] = None,
    start: Start = "",
    hours: HoursADay = None,
    to: To = "",
    materials: Materials = None,
    prices: Prices = None,
    units: Units = "mm",
) -> None:
    """Compare two versions of a job: sizes, numbers, materials, price, day; with OUT also the change order."""
    from evenface.interfaces.offering import change_and_show

    raise typer.Exit(change_and_show(old, new, out, start, hours, to, materials, prices, units))


def add_to(app: typer.Typer) -> None:
    """Put the commands on the command line."""
    for command in (price, offer, after, change):
        app.command()(command)
