"""`evenface price` and `after`: what a job costs, and what became of it."""

from datetime import date
from pathlib import Path
from typing import Final

from rich.console import Console
from rich.markup import escape

from evenface.documents.files import write_files
from evenface.documents.money_text import locale_for, total_text
from evenface.documents.price_tables import (
    PieceCells,
    build_up_table,
    by_piece_table,
    estimate_table,
    materials_after_table,
    missing_table,
    operations_table,
    outcome_table,
    own_times_table,
    rate_table,
    shares_table,
    sums_table,
)
from evenface.errors import Complaint, FileError, Place
from evenface.interfaces.screen import manner_of, show_table, tell
from evenface.job.afterwards import afterwards, log_for, ticked_minutes
from evenface.job.opening import Opened, open_with_all
from evenface.job.plan import plan
from evenface.job.price_by_piece import price_by_piece
from evenface.job.pricing import Prices, price_job, prices_for
from evenface.pricing import Price
from evenface.pricing.own_times import OWN_TIMES, own_times_text
from evenface.pricing.past import (
    LEAST_JOBS,
    PAST_JOBS,
    PastJob,
    estimate,
    extent_of,
    open_past_jobs,
    past_jobs_text,
)
from evenface.result import Result
from evenface.words import Manner, said

LAYOUT_SECONDS: Final = 3.0


def price_and_show(path: Path, quick: bool, materials: Path | None, prices: Path | None, units: str) -> int:
    """Show the price of the job; the exit code is 1 while something is not priced."""
    console, manner = Console(highlight=False), manner_of(units)
    opened = open_with_all(path, materials)
    terms = prices_for(opened, file=prices)
    result = plan(opened, budget_s=LAYOUT_SECONDS)
    if quick:
        return _quick(console, opened, result, terms, manner)
    price, locale = price_job(opened, result, terms), locale_for(terms.table.locale, manner)
    show_table(console, build_up_table(price, locale, manner))
    if price.rate.lines:
        show_table(console, rate_table(price.rate, locale, manner))
    show_table(console, shares_table(price, locale, manner))
    show_table(console, sums_table(price, locale, manner))
    if len(result.sketch.constructions) > 1:
        show_table(
            console, by_piece_table(pieces_shown(result, price, terms), price.at_least, locale, manner)
        )
    if price.missing:
        show_table(console, missing_table(price, manner))
    console.print(escape(total_text(price, locale, manner)), style="bold")
    return int(price.at_least)


def pieces_shown(result: Result, price: Price, terms: Prices) -> list[PieceCells]:
    """Each piece with its number, hours, share and net price."""
    return [
        (one.piece, one.count, one.hours, one.share, one.net) for one in price_by_piece(result, price, terms)
    ]


def _quick(console: Console, opened: Opened, result: Result, terms: Prices, manner: Manner) -> int:
    place = Path(opened.job.file).parent / PAST_JOBS
    past = open_past_jobs(place) if place.is_file() else ()
    panels = [panel for one in result.sketch.constructions for panel in one.panels]
    found = estimate(extent_of(panels), past, terms.table.currency)
    if found is None:
        expected = said(
            "at least {least} past jobs in {currency:word}",
            least=LEAST_JOBS,
            currency=terms.table.currency or "the same currency",
        )
        hint = "evenface after JOB --write adds a finished job."
        raise FileError([Complaint(Place(str(place)), expected, str(len(past)), hint)])
    show_table(console, estimate_table(found, locale_for(terms.table.locale, manner), manner))
    return 0


def after_and_show(path: Path, write: bool, materials: Path | None, prices: Path | None, units: str) -> int:
    """Show what became of the job; with `write` its times and price are kept for the next."""
    console, manner = Console(highlight=False), manner_of(units)
    opened = open_with_all(path, materials)
    terms = prices_for(opened, file=prices)
    result = plan(opened, budget_s=LAYOUT_SECONDS)
    log, place = log_for(opened)
    ticked = ticked_minutes(opened)
    if not (ticked or log.by_step or log.by_work or log.taken):
        expected = "times or material that were noted"
        hint = "Tick steps off with their minutes, or write [[time]] and [[taken]] entries."
        raise FileError([Complaint(Place(str(place)), expected, "none", hint)])
    price, found = afterwards(opened, result, terms, log, ticked, date.today().isoformat())
    locale = locale_for(terms.table.locale, manner)
    show_table(console, operations_table(found, locale, manner))
    if found.materials:
        show_table(console, materials_after_table(found, locale, manner))
    show_table(console, outcome_table(price, found, locale, manner))
    own = terms.own_times.with_job(found.timed)
    show_table(console, own_times_table(list(own.averages().values()), manner))
    if not write:
        tell(console, said("--write keeps these times for the next estimate."), style="dim")
        return 0
    panels = [panel for one in result.sketch.constructions for panel in one.panels]
    kept = {OWN_TIMES: own_times_text(own).encode()}
    if not price.at_least and panels:
        this = PastJob(
            opened.job.name,
            extent_of(panels),
            price.net.amount,
            price.currency,
            found.hours,
            date.today().isoformat(),
        )
        kept[PAST_JOBS] = past_jobs_text([*_others(path.parent / PAST_JOBS, this.job), this]).encode()
    written = write_files(kept, path.parent)
    tell(console, said("Written: {files}.", files=", ".join(map(str, written))))
    return 0


def _others(place: Path, job: str) -> list[PastJob]:
    return [one for one in open_past_jobs(place) if one.job != job] if place.is_file() else []
