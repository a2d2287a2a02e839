"""Tables and findings on a terminal."""

import os
import sys
from collections.abc import Sequence

from rich.console import Console
from rich.markup import escape
from rich.table import Table as RichTable

from evenface.documents import Table
from evenface.documents.finding_tables import gathered, tally
from evenface.errors import Complaint, FileError, Place
from evenface.finding import Finding, Severity
from evenface.languages import LANGUAGES, manner_for
from evenface.words import Manner, Said, say

LANGUAGE_NAMED = "EVENFACE_LANGUAGE"
MANY = 7
"""More columns than these stand close together, and their figures may break between words."""
NARROW, WIDEST = 20, 24
"""Characters: figures up to the one are not broken between words, a column of them takes no more than the other."""
INK = {Severity.STOP: "bold red", Severity.WEIGH: "yellow", Severity.NOTE: "dim"}


def manner_of(units: str) -> Manner:
    """The reader's manner, in the language EVENFACE_LANGUAGE names; FileError for what nobody knows."""
    if units not in ("mm", "inch"):
        raise FileError([Complaint(Place(key="--units"), "mm or inch", repr(units))])
    language = os.environ.get(LANGUAGE_NAMED, "") or "en"
    if language not in LANGUAGES:
        raise FileError([Complaint(Place(key="--language"), " or ".join(LANGUAGES), repr(language))])
    return manner_for(language, units)


def manner_of_faults() -> Manner:
    """How to say what went wrong: in the language asked for, in English where nobody speaks that one."""
    language = os.environ.get(LANGUAGE_NAMED, "")
    return manner_for(language if language in LANGUAGES else "en")


def tell(console: Console, sentence: Said, style: str = "") -> None:
    """One sentence, in the language asked for."""
    console.print(escape(say(sentence, manner_of_faults())), style=style)


def show_table(console: Console, table: Table) -> None:
    """A table of finished strings, as wide as it needs to be; on a narrow screen words give way before figures do."""
    shown = RichTable(
        title=escape(table.title) or None,
        title_justify="left",
        box=None,
        pad_edge=False,
        collapse_padding=len(table.columns) > MANY,
    )
    for number, column in enumerate(table.columns):
        shown.add_column(
            escape(column.title),
            justify="right" if column.numeric else "left",
            width=_figures_wide([row[number] for row in table.rows], column.title, len(table.columns) <= MANY)
            if column.numeric
            else None,
            overflow="fold",  # a sum that ends in dots is no sum
        )
    for row in table.rows:
        shown.add_row(*(escape(cell) for cell in row))
    console.print(shown)
    if table.note:
        console.print(escape(table.note), style="dim")


def _figures_wide(cells: Sequence[str], title: str, whole: bool) -> int | None:
    """What a column of figures needs so that none is broken; None where there are sentences among them."""
    from rich.cells import cell_len

    words = [word for text in (*cells, title) for word in text.split(" ")]
    longest = max((cell_len(cell) for cell in cells), default=0)
    least = longest if longest <= (NARROW if whole else NARROW - 4) else 0
    needed = max(least, *map(cell_len, words))
    return needed if needed <= WIDEST else None


def show_findings(console: Console, findings: Sequence[Finding], manner: Manner) -> None:
    """Each finding with its place, its numbers, why, and what would mend it; the same of several places once."""
    for text in gathered(findings, manner):
        console.print(
            f"[{INK[Severity(text.severity)]}]{escape(text.word)}[/]  {escape(text.where)}: {escape(text.message)}"
        )
        if text.found and text.limit:
            limit = manner.translate("limit")
            console.print(f"      {escape(text.found)}, {limit} {escape(text.limit)}")
        for line in text.also:
            console.print(f"      {escape(line)}")
        if text.why:
            console.print(f"      {escape(text.why)}", style="dim")
        for remedy in text.remedies:
            console.print(f"      → {escape(remedy)}")
    console.print(escape(tally(findings, manner)))


def show_square(address: str) -> None:
    """An address as a square for a telephone's camera; nothing where the terminal has no signs for it."""
    import io

    import segno

    picture = io.StringIO()
    segno.make_qr(address).terminal(out=picture, compact=True)
    try:
        picture.getvalue().encode(sys.stdout.encoding or "ascii")
    except UnicodeEncodeError:
        return
    sys.stdout.write(picture.getvalue())
