"""`evenface choose` and `evenface compare`: what to build from, and variants side by side."""

import sys
from datetime import date
from pathlib import Path
from typing import Final

from rich.console import Console
from rich.markup import escape

from evenface.documents.choosing import (
    RANK_NOTE,
    Shown,
    build_ups_table,
    comparison_json,
    comparison_scene,
    comparison_table,
    page_pdf,
    ranking_table,
)
from evenface.documents.display import called
from evenface.documents.files import write_files
from evenface.documents.money_text import locale_for, money_text
from evenface.drawings import to_svg
from evenface.errors import Complaint, FileError, Place
from evenface.interfaces.screen import manner_of, show_table, tell
from evenface.job.alternatives import Column, alternatives
from evenface.job.choosing import Chosen, briefs_of, choose, needs_in_words
from evenface.job.opening import open_with_all
from evenface.materials import load_catalogue
from evenface.piece.brief_records import Brief
from evenface.piece.briefs import named_brief
from evenface.words import Manner, said, say

MOST_BUILD_UPS: Final = 12
EXPLAIN_FILE: Final = "what-is-what.pdf"


def choose_and_show(
    path: Path | None,
    use: str,
    explain: bool,
    out: Path | None,
    materials: Path | None,
    units: str,
    piece: str = "",
) -> int:
    """Show what the brief rules out and what is left; write the explaining page where asked."""
    console, manner = Console(highlight=False), manner_of(units)
    if explain:
        from evenface.documents.explaining import explaining_pdf

        folder = out or Path("out")
        write_files({EXPLAIN_FILE: explaining_pdf(date.today(), manner)}, folder)
        tell(console, said("Written to {file}.", file=str(folder / EXPLAIN_FILE)))
        if path is None and not use:
            return 0
    opened = open_with_all(path, materials) if path is not None else None
    asked: tuple[tuple[str, Brief], ...] = (("", named_brief(use)),) if use else ()
    if not asked and opened is not None:
        asked = briefs_of(opened.job, piece)
    if not asked:
        where = Place(str(path or ""), key="brief")
        raise FileError(
            [Complaint(where, "a [brief] in the job, or --for", "neither", 'Try --for "wet bench".')]
        )
    catalogue = opened.catalogue if opened is not None else load_catalogue(materials)
    for name, brief in asked:
        if name:
            console.print(escape(name), style="bold")
        found = choose(brief, catalogue, opened.job) if opened is not None else choose(brief, catalogue)
        _show_chosen(console, found, manner)
    return 0


def _show_chosen(console: Console, found: Chosen, manner: Manner) -> None:
    for need, asked in needs_in_words(found.brief):
        console.print(escape(f"{manner.translate(need)}: {say(asked, manner)}"))
    for ranking in found.rankings:
        show_table(console, ranking_table(ranking, manner))
        console.print()
    console.print(escape(manner.translate(RANK_NOTE)), style="dim")
    cells = [
        (one.facing.title, one.carrier, one.back, one.behaviour, one.lies_flat, one.price_level)
        for one in found.build_ups[:MOST_BUILD_UPS]
    ]
    show_table(console, build_ups_table(cells, manner))


def compare_and_show(
    path: Path,
    piece: str,
    as_json: bool,
    out: Path | None,
    seconds: float,
    materials: Path | None,
    units: str,
) -> int:
    """Show the variants of the job; with a folder also as picture, page and JSON. 1 when one cannot be made."""
    manner = manner_of(units)
    opened = open_with_all(path, materials)
    found = alternatives(opened, piece=piece, budget_s=seconds)
    part = called(found.part, manner)
    rows = [variant_row(column, found.part, locale_for(found.locale, manner)) for column in found.columns]
    if as_json:
        sys.stdout.write(comparison_json(rows, called(found.part)))
    else:
        show_table(Console(highlight=False), comparison_table(rows, part, manner))
    if out is not None:
        scene, shown = comparison_scene(rows, part, manner), comparison_table(rows, part, manner)
        title = f"{opened.job.name}: {found.piece}" if found.piece else opened.job.name
        write_files(
            {
                "variants.svg": to_svg(scene).encode(),
                "variants.json": comparison_json(rows, called(found.part)).encode(),
                "variants.pdf": page_pdf(title, [shown], [scene], date.today(), language=manner.language),
            },
            out,
        )
    return int(any(row.why_not or row.findings[0] for row in rows))


def variant_row(column: Column, part: tuple[str, str], locale: str) -> Shown:
    """A column ready to be shown, its price as the maker's country writes it."""
    price = None
    if column.price is not None and (column.price.total.amount or not column.price.missing):
        text = money_text(column.price.total, locale)
        price = (f"from {text}" if column.price.at_least else text, column.price.total.amount)
    return Shown(
        column.name,
        column.behaviour(part),
        column.mass_kg,
        column.sheets,
        column.roll_m,
        column.hours,
        column.days,
        price,
        (column.stops, column.weighs, column.notes),
        column.why_not,
    )
