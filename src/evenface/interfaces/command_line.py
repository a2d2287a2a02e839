"""The command line. Heavy rooms are opened only inside the command that needs them."""

import sys
from pathlib import Path
from typing import Annotated

import typer

from evenface import __version__

EXIT_STOP = 1
EXIT_ERROR = 2
EXIT_INTERRUPTED = 130

app = typer.Typer(
    name="evenface",
    help="Plan panels faced with laminate or linoleum and edged in solid wood.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

JobFile = Annotated[Path, typer.Argument(help="The job file (TOML). See examples/ for two to start from.")]
Materials = Annotated[
    Path | None,
    typer.Option("--materials", help="Your own materials file; default: materials.toml beside the job."),
]
Units = Annotated[str, typer.Option("--units", help="mm or inch, for what is shown; files keep mm.")]


@app.callback()
def _top(
    version: Annotated[bool, typer.Option("--version", "-V", help="Print the version and stop.")] = False,
) -> None:
    if version:
        typer.echo(f"evenface {__version__}")
        raise typer.Exit


@app.command()
def plan(
    job: JobFile,
    out: Annotated[
        Path, typer.Option("--out", "-o", help="Folder for the packet; made when missing.")
    ] = Path("out"),
    seconds: Annotated[
        float, typer.Option("--seconds", help="Time the layouts may take, for all materials together.")
    ] = 3.0,
    seed: Annotated[
        int, typer.Option("--seed", help="Start of the search; the same seed repeats a plan.")
    ] = 0,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Plan JOB: sizes, findings, layouts and the printed packet, written to the folder OUT.

    Writes packet.pdf, result.json, parts.csv and one SVG per drawing. A stop among the findings does not
    keep the packet from being written, but the exit code is then 1.
    """
    from evenface.interfaces.planning import plan_and_write

    try:
        code = plan_and_write(job, out, seconds, seed, materials, units)
    except KeyboardInterrupt:
        sys.stderr.write("Interrupted before there was a plan; nothing was written.\n")
        code = EXIT_INTERRUPTED
    raise typer.Exit(code)


@app.command()
def check(
    job: JobFile,
    as_json: Annotated[bool, typer.Option("--json", help="Findings as JSON on standard output.")] = False,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Check JOB without planning it.

    Exit code 0 when it can be made, 1 when a stop stands, 2 when the file cannot be read.
    """
    from evenface.interfaces.checking import check_and_show

    raise typer.Exit(check_and_show(job, as_json, materials, units))


@app.command(name="materials")
def list_materials(
    name: Annotated[
        str | None, typer.Argument(help="Explain this one, with every figure and its source.")
    ] = None,
    kind: Annotated[
        str | None, typer.Option("--kind", help="Only this kind: carrier, facing, wood, glue or finish.")
    ] = None,
    materials: Materials = None,
) -> None:
    """List the materials known, or explain one: every figure with its range, status and source."""
    from evenface.interfaces.listing import show_materials

    show_materials(name, kind, materials)


def run() -> None:
    """Run the command line; named errors become plain lines, never a traceback."""
    from evenface.errors import EvenfaceError

    try:
        app()
    except EvenfaceError as error:
        for line in str(error).splitlines():
            sys.stderr.write(f"{line}\n")
        raise SystemExit(EXIT_ERROR) from None
