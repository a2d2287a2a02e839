"""The command line. Heavy rooms are opened only inside the command that needs them."""

import os
import sys
from pathlib import Path
from typing import Annotated

import typer

from evenface import __version__
from evenface.interfaces.cutting_commands import add_cutting
from evenface.interfaces.money_commands import add_to
from evenface.interfaces.rack import rack_app

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
PartName = Annotated[str | None, typer.Option("--part", help="Only this part, by name or 'piece, part'.")]
Units = Annotated[str, typer.Option("--units", help="mm or inch, for what is shown; files keep mm.")]


@app.callback()
def _top(
    version: Annotated[bool, typer.Option("--version", "-V", help="Print the version and stop.")] = False,
    language: Annotated[
        str,
        typer.Option("--language", help="en or sv, for what is shown and printed; or set EVENFACE_LANGUAGE."),
    ] = "",
) -> None:
    if language:
        os.environ["EVENFACE_LANGUAGE"] = language
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
    from_rack: Annotated[
        bool, typer.Option("--from-rack", help="Cut what lies in the rack first, and reserve what is taken.")
    ] = False,
    replan: Annotated[
        bool,
        typer.Option("--replan", help="Lay everything out anew, also where the plan in OUT still serves."),
    ] = False,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Plan JOB: sizes, findings, layouts and the printed packet, written to the folder OUT.

    Writes packet.pdf, result.json, parts.csv, cuts.csv, layouts.xlsx and the drawings (SVG, DXF). Layouts of a
    plan that lies in OUT are kept as long as they serve. A stop among the findings does not
    keep the packet from being written, but the exit code is then 1.
    """
    from evenface.interfaces.planning import plan_and_write

    try:
        code = plan_and_write(job, out, seconds, seed, materials, units, from_rack, replan)
    except KeyboardInterrupt:
        sys.stderr.write("Interrupted before there was a plan; nothing was written.\n")
        code = EXIT_INTERRUPTED
    raise typer.Exit(code)


@app.command()
def check(
    job: JobFile,
    as_json: Annotated[bool, typer.Option("--json", help="Findings as JSON on standard output.")] = False,
    tried: Annotated[
        bool, typer.Option("--try", help="Try every remedy that names entries of the job, and rank them.")
    ] = False,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Check JOB without planning it.

    Exit code 0 when it can be made, 1 when a stop stands, 2 when the file cannot be read.
    """
    from evenface.interfaces.checking import check_and_show

    raise typer.Exit(check_and_show(job, as_json, materials, units, tried))


@app.command()
def templates(
    job: JobFile,
    out: Annotated[
        Path, typer.Option("--out", "-o", help="Folder for the templates; made when missing.")
    ] = Path("templates"),
    paper: Annotated[str, typer.Option("--paper", help="A4, A3 or Letter.")] = "A4",
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Write the router's templates of JOB at true size: PDF over several pages, SVG and DXF in mm.

    Exit code 1 when a curve cannot be routed with the tools of the shop; the others are written all the same.
    """
    from evenface.interfaces.templating import write_templates

    raise typer.Exit(write_templates(job, out, paper, materials, units))


@app.command()
def flat(
    job: JobFile,
    part: PartName = None,
    as_json: Annotated[bool, typer.Option("--json", help="Rows as JSON on standard output.")] = False,
    plot: Annotated[
        Path | None, typer.Option("--plot", help="Chart of one part: a file that ends in .svg or .png.")
    ] = None,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Show how far each part of JOB bows, cups and twists through the year.

    Exit code 0 when all stay within their limits, 1 when one may not, 2 when the file cannot be read.
    """
    from evenface.interfaces.flat import flat_and_show

    raise typer.Exit(flat_and_show(job, part, as_json, plot, materials, units))


@app.command()
def backers(
    job: JobFile,
    part: Annotated[str, typer.Option("--part", help="Name of the part, or 'piece, part'.")],
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Compare backs, boards and thicknesses for one part: bow, cup, twist, weight, cost."""
    from evenface.interfaces.flat import backers_and_show

    raise typer.Exit(backers_and_show(job, part, materials, units))


@app.command()
def limit(
    wood: Annotated[str, typer.Argument(help="The solid wood, such as ash.")],
    cut: Annotated[str, typer.Option("--cut", help="flat, rift or quarter.")] = "flat",
    thickness: Annotated[float, typer.Option("--thickness", help="Of the wood, mm.")] = 20.0,
    facing: Annotated[str, typer.Option("--facing", help="The sheet over it.")] = "hpl-0.8",
    glue: Annotated[str, typer.Option("--glue", help="The glue under the sheet.")] = "pva-d3",
    board: Annotated[str, typer.Option("--board", help="The carrier beside it.")] = "birch-ply-18",
    place: Annotated[str, typer.Option("--place", help="Where it will stand.")] = "copenhagen",
    room: Annotated[str, typer.Option("--room", help="The kind of room.")] = "heated-home",
    bonded_at: Annotated[
        float, typer.Option("--bonded-at", help="Humidity of the shop at gluing, percent.")
    ] = 50.0,
    change: Annotated[
        float | None,
        typer.Option("--change", help="Change of moisture content, percent, instead of a place: -3."),
    ] = None,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """How wide solid WOOD may be: faced, in a mitre, under a facing, let into a board, as a frame."""
    from evenface.interfaces.flat import limit_and_show
    from evenface.job.limits import LimitQuestion

    moisture = None if change is None else change / 100.0
    there, kind = place.replace(" ", "-"), room.replace(" ", "-")
    question = LimitQuestion(
        wood, cut, thickness, facing, glue, board, there, kind, bonded_at / 100.0, moisture
    )
    raise typer.Exit(limit_and_show(question, materials, units))


@app.command()
def calibrate(
    facing: Annotated[str, typer.Argument(help="The sheet that was tested.")],
    carrier: Annotated[str, typer.Option("--carrier", help="Thin board under it, such as mdf-6.")],
    length: Annotated[float, typer.Option("--length", help="Of the strips between the supports, mm.")],
    along: Annotated[
        float, typer.Option("--along", help="Change of bow of the strip cut along the sheet, mm; domed is +.")
    ],
    across: Annotated[float, typer.Option("--across", help="The same of the strip cut across it, mm.")],
    from_: Annotated[float, typer.Option("--from", help="First humidity, percent.")],
    to: Annotated[float, typer.Option("--to", help="Second humidity, percent.")],
    days: Annotated[int, typer.Option("--days", help="How long they lay at the second.")],
    board: Annotated[float | None, typer.Option("--board-mm", help="Board as measured, mm.")] = None,
    write: Annotated[
        Path | None, typer.Option("--write", help="Your materials file, to store the entry in.")
    ] = None,
    materials: Materials = None,
) -> None:
    """Work back how a sheet moves from two test strips, and store it as your own figure.

    Exit code 1 when the strips had not settled.
    """
    from evenface.interfaces.flat import calibrate_and_show

    code = calibrate_and_show(
        facing, carrier, length, (along, across), (from_ / 100, to / 100), days, board, write, materials
    )
    raise typer.Exit(code)


@app.command(name="steps")
def order_of_work(
    job: JobFile,
    out: Annotated[
        Path | None,
        typer.Option("--out", "-o", help="Folder for bench-cards.pdf and order-of-work.ics."),
    ] = None,
    start: Annotated[
        str,
        typer.Option("--start", help="First day, as 2027-01-11; default: that of [calendar], else today."),
    ] = "",
    hours: Annotated[
        float | None, typer.Option("--hours", help="Hours a day from 8 o'clock, for those of [calendar].")
    ] = None,
    due: Annotated[str, typer.Option("--due", help="Does this day hold, and what would bring it in?")] = "",
    seconds: Annotated[float, typer.Option("--seconds", help="Time to look for a shorter plan.")] = 2.0,
    days_lain: Annotated[
        float, typer.Option("--days-lain", help="Days the stock has already lain together in the shop.")
    ] = 0.0,
    per_page: Annotated[int, typer.Option("--per-page", help="Cards on a page: 4 or 1.")] = 4,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Order the work on JOB: every step on its day, checked; with OUT also bench cards, care sheets, calendar file.

    People, hours, free days, clamps and press are those of [calendar]; without it one person works Monday to
    Friday, 8 to 15. Exit code 1 when a stop stands or --due does not hold.
    """
    from evenface.interfaces.steps import plan_steps

    raise typer.Exit(plan_steps(job, out, start, hours, days_lain, per_page, materials, units, due, seconds))


@app.command()
def choose(
    job: Annotated[
        Path | None, typer.Argument(help="A job file with a [brief]; its place and room count.")
    ] = None,
    use: Annotated[
        str, typer.Option("--for", help="A use with a name instead, such as 'wet bench' or 'writing desk'.")
    ] = "",
    piece: Annotated[
        str, typer.Option("--piece", help="Only this piece, by name; default: every brief.")
    ] = "",
    explain: Annotated[
        bool, typer.Option("--explain", help="Write the page for clients: what is what.")
    ] = False,
    out: Annotated[Path | None, typer.Option("--out", "-o", help="Folder for that page.")] = None,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Choose facing, carrier, back, glue, wood and finish: what the brief rules out and why, what is good."""
    from evenface.interfaces.choosing import choose_and_show

    raise typer.Exit(choose_and_show(job, use, explain, out, materials, units, piece))


@app.command()
def compare(
    job: JobFile,
    piece: Annotated[str, typer.Option("--piece", help="Only this piece, by name.")] = "",
    as_json: Annotated[bool, typer.Option("--json", help="Rows as JSON on standard output.")] = False,
    out: Annotated[
        Path | None, typer.Option("--out", "-o", help="Folder for variants.pdf, .svg and .json.")
    ] = None,
    seconds: Annotated[
        float, typer.Option("--seconds", help="Time the layouts may take, for all variants together.")
    ] = 2.0,
    materials: Materials = None,
    units: Units = "mm",
) -> None:
    """Compare the [[variant]] tables of JOB: bow, weight, sheets, hours, days, price, findings.

    Exit code 1 when a variant cannot be made or has a stop.
    """
    from evenface.interfaces.choosing import compare_and_show

    raise typer.Exit(compare_and_show(job, piece, as_json, out, seconds, materials, units))


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


@app.command(name="open")
def open_app(
    job: Annotated[
        Path | None, typer.Argument(help="The job file; the last job or the example when none is named.")
    ] = None,
    port: Annotated[
        int | None,
        typer.Option("--port", min=0, max=65535, help="0: any that is free. The usual one when left out."),
    ] = None,
    browser: Annotated[bool, typer.Option("--browser/--no-browser", help="Show it in the browser.")] = True,
    share: Annotated[
        bool, typer.Option("--share", help="Also for others on this net, who give the access code shown.")
    ] = False,
    host: Annotated[
        str,
        typer.Option("--host", help="Answer at this address of the machine instead; with an access code."),
    ] = "",
) -> None:
    """Open JOB in the browser, on this machine only unless shared; Ctrl-C ends it and everything is kept."""
    from evenface.interfaces.web.serving import open_and_serve

    open_and_serve(job, port, browser, share, host)


add_to(app)
add_cutting(app)
app.add_typer(rack_app)


def run() -> None:
    """Run the command line; named errors become plain lines, never a traceback."""
    from evenface.errors import EvenfaceError, told_of

    try:
        app()
    except EvenfaceError as error:
        from evenface.interfaces.screen import manner_of_faults

        for line in told_of(error, manner_of_faults()).splitlines():
            sys.stderr.write(f"{line}\n")
        raise SystemExit(EXIT_ERROR) from None
