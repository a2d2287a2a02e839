"""`evenface check`: the sketch of a job and its findings, nothing written."""

import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from evenface.documents.display import DASH, where
from evenface.documents.money_text import money_text
from evenface.documents.result_json import findings_text
from evenface.documents.tables import Table, table
from evenface.finding import Remedy, Severity
from evenface.interfaces.screen import manner_of, show_findings, show_table
from evenface.job.opening import open_with_all
from evenface.job.sketch import sketch
from evenface.job.try_remedy import Effect, ranked
from evenface.pricing.money import money
from evenface.words import Manner, figure, say


def check_and_show(path: Path, as_json: bool, materials: Path | None, units: str, tried: bool = False) -> int:
    """Show the findings, with `tried` also every remedy tried and ranked; the exit code is 1 when a stop stands."""
    from rich.console import Console

    manner = manner_of(units)
    opened = open_with_all(path, materials)
    drafted = sketch(opened)
    if as_json:
        sys.stdout.write(findings_text(drafted.findings))
    else:
        console = Console(highlight=False)
        show_findings(console, drafted.findings, manner)
        if tried:
            places: dict[Remedy, str] = {}
            for finding in drafted.findings:
                for remedy in finding.remedies:
                    places.setdefault(remedy, where(finding, manner))
            found = ranked(opened, tuple(places))
            show_table(console, remedies_table(found, places, opened.job.currency, manner))
    return int(any(finding.severity is Severity.STOP for finding in drafted.findings))


def remedies_table(
    found: Sequence[tuple[Remedy, Effect]], places: Mapping[Remedy, str], currency: str, manner: Manner
) -> Table:
    """Remedies that were tried, the best first: where, what each clears and brings, sheets, money, hours."""
    rows = [
        (
            say(remedy.message, manner),
            places.get(remedy, ""),
            str(len(effect.gone)),
            str(len(effect.new)),
            figure(effect.mass_kg[1] - effect.mass_kg[0], 1, manner),
            f"{sum(now - was for was, now in effect.sheets.values()):+d}",
            DASH if effect.money is None else money_text(money(effect.money, currency)),
            figure(effect.hours, 1, manner),
        )
        for remedy, effect in found
    ]
    note = manner.translate(
        "Each tried by itself. Best is what clears most, a stop counting as ten risks and a risk as ten notes; then "
        "what costs least in sheets, then in hours. Remedies in words alone cannot be tried."
    )
    headings = ("Remedy", "Where", ">Clears", ">Brings", ">kg", ">Sheets", ">Money", ">Hours")
    return table("Remedies tried, the best first", headings, rows, note, manner)
