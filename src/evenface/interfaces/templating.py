"""`evenface templates`: every template of a job at true size."""

import datetime
from pathlib import Path

from rich.console import Console

from evenface.documents.files import write_files
from evenface.documents.template_files import cutters_table, template_files, templates_table
from evenface.errors import EvenfaceError
from evenface.interfaces.screen import manner_of, show_findings, show_table, tell
from evenface.job.opening import open_with_all
from evenface.job.sketch import sketch
from evenface.shape.tiling import PAPERS
from evenface.words import said


class PaperError(EvenfaceError):
    """A paper nobody prints templates on here."""


def write_templates(path: Path, out: Path, paper: str, materials: Path | None, units: str) -> int:
    """Write them, list them, say what could not be made; the exit code is 1 when something could not."""
    known = {name.lower(): name for name in PAPERS}
    if paper.lower() not in known:
        raise PaperError(
            said(
                "--paper: expected one of {words}, was given {paper}.",
                words=", ".join(PAPERS),
                paper=repr(paper),
            )
        )
    console, manner = Console(highlight=False), manner_of(units)
    drafted = sketch(open_with_all(path, materials), with_band=False)
    refused = [one for one in drafted.findings if one.code.startswith(("template.", "jig."))]
    paper, day = known[paper.lower()], datetime.date.today()
    files = template_files(drafted.templates, day, paper, manner, drafted.jigs)
    if files:
        write_files(files, out)
        show_table(console, templates_table(drafted.templates, manner, drafted.jigs))
        show_table(console, cutters_table(drafted.templates, manner, drafted.jigs))
        tell(console, said("Written to {folder}: {count:count} files.", folder=str(out), count=len(files)))
    else:
        tell(console, said("Nothing in this job is routed along a template."))
    show_findings(console, refused, manner)
    return int(bool(refused))
