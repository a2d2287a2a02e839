"""`evenface check`: the sketch of a job and its findings, nothing written."""

import sys
from pathlib import Path

from evenface.documents.result_json import findings_text
from evenface.finding import Severity
from evenface.interfaces.screen import manner_of, show_findings
from evenface.job.opening import open_with_all
from evenface.job.sketch import sketch


def check_and_show(path: Path, as_json: bool, materials: Path | None, units: str) -> int:
    """Show the findings; the exit code is 1 when a stop stands."""
    from rich.console import Console

    manner = manner_of(units)
    drafted = sketch(open_with_all(path, materials))
    if as_json:
        sys.stdout.write(findings_text(drafted.findings))
    else:
        show_findings(Console(highlight=False), drafted.findings, manner)
    return int(any(finding.severity is Severity.STOP for finding in drafted.findings))
