"""`evenface offer` and `change`: papers to a client, each kept under its number."""

from collections.abc import Mapping
from datetime import date
from pathlib import Path
from typing import Final

from rich.console import Console
from rich.markup import escape

from evenface.documents.approval import approval_pdf
from evenface.documents.invoice_csv import invoice_text
from evenface.documents.letters import Letterhead
from evenface.documents.money_text import locale_for, money_text, total_text
from evenface.documents.numbered import keep
from evenface.documents.offer import Offered, offer_pdf
from evenface.documents.order_papers import (
    change_pdf,
    changes_table,
    confirmation_pdf,
    delivery_pdf,
    price_changes_table,
)
from evenface.documents.pictures import pictures_of
from evenface.documents.price_tables import missing_table
from evenface.errors import Complaint, FileError, Place, one_of
from evenface.finding import Severity
from evenface.interfaces.screen import manner_of, show_findings, show_table, tell
from evenface.job.opening import Opened, open_with_all
from evenface.job.plan import plan
from evenface.job.pricing import Prices, price_job, prices_for
from evenface.job.versions import ready_on, version_of
from evenface.pricing import Price
from evenface.pricing.changes import compare
from evenface.result import Result
from evenface.words import Manner, said

PAPERS: Final = ("offer", "confirmation", "delivery-note", "invoice")
OFFERS: Final = "offers"
LAYOUT_SECONDS: Final = 3.0


def offer_and_write(
    path: Path,
    out: Path | None,
    paper: str,
    start: str,
    hours: float | None,
    to: str,
    anyway: bool,
    materials: Path | None,
    prices: Path | None,
    units: str,
) -> int:
    """Write the paper under the next number and say where; nothing is written while price or piece is not whole."""
    console, manner = Console(highlight=False), manner_of(units)
    if paper not in PAPERS:
        raise FileError([Complaint(Place(key="--paper"), one_of(PAPERS), repr(paper))])
    opened = open_with_all(path, materials)
    terms = prices_for(opened, file=prices)
    result = plan(opened, budget_s=LAYOUT_SECONDS)
    price = price_job(opened, result, terms)
    stops = [finding for finding in result.findings if finding.severity is Severity.STOP]
    if price.missing:
        show_table(console, missing_table(price, manner))
    if stops:
        show_findings(console, stops, manner)
    if (price.missing or stops) and not anyway:
        tell(console, said("Nothing was written. --anyway writes it as a draft."))
        return 1
    begin = _day(start, "--start")
    ready = ready_on(opened, result, terms, begin, hours) if begin is not None else None
    draft = bool(price.missing or stops)

    def papers(number: str) -> Mapping[str, bytes]:
        offered = offered_of(opened, result, terms, price, number, (begin, ready), draft)
        return {**papers_to_client(paper, offered, result, to, manner), path.name: path.read_bytes()}

    place = keep(out or path.parent / OFFERS, paper, papers)
    _warn_of_day(console, opened, ready)
    written = ", ".join(sorted(one.name for one in place.iterdir()))
    tell(console, said("Written to {folder}: {files}.", folder=str(place), files=written))
    console.print(escape(total_text(price, locale_for(terms.table.locale, manner), manner)), style="bold")
    return int(draft)


def papers_to_client(
    paper: str, offered: Offered, result: Result, to: str, manner: Manner
) -> dict[str, bytes]:
    if paper == "offer":
        drawn = pictures_of(result, manner)
        return {
            "offer.pdf": offer_pdf(offered, drawn, manner),
            "approval.pdf": approval_pdf(offered, drawn, manner),
        }
    if paper == "confirmation":
        return {"order-confirmation.pdf": confirmation_pdf(offered, to, manner)}
    if paper == "delivery-note":
        return {"delivery-note.pdf": delivery_pdf(offered, to, manner)}
    return {"invoice.csv": invoice_text(offered).encode()}


def offered_of(
    opened: Opened,
    result: Result,
    terms: Prices,
    price: Price,
    number: str,
    days: tuple[date | None, date | None] = (None, None),
    draft: bool = False,
) -> Offered:
    """What a paper speaks of, dated today. days : on which work begins, and on which it is ready."""
    job, table = opened.job, terms.table
    head = Letterhead(
        job.name,
        number,
        date.today(),
        table.maker,
        job.client,
        table.terms.client_address,
        table.locale,
        draft,
    )
    finishes = {
        name: opened.catalogue.finish(one.finish).title for name, one in job.buildups.items() if one.finish
    }
    return Offered(head, result.sketch, price, table, finishes, *days)


def change_and_show(
    old: Path,
    new: Path,
    out: Path | None,
    start: str,
    hours: float | None,
    to: str,
    materials: Path | None,
    prices: Path | None,
    units: str,
) -> int:
    """Show what changed from the old job to the new; with a folder also write the change order there."""
    console, manner = Console(highlight=False), manner_of(units)
    begin = _day(start, "--start") or date.today()
    planned = []
    for path in (old, new):
        opened = open_with_all(path, materials)
        terms = prices_for(opened, folder=new.parent, file=prices)
        result = plan(opened, budget_s=LAYOUT_SECONDS)
        planned.append((opened, terms, result, version_of(opened, result, terms, begin, hours)))
    (_, _, _, before), (opened, terms, result, now) = planned
    if before.price.currency != now.price.currency:
        given = f"{before.price.currency} and {now.price.currency}"
        raise FileError([Complaint(Place(str(new), key="currency"), "one currency in both versions", given)])
    changed, locale = compare(before, now), locale_for(terms.table.locale, manner)
    show_table(console, changes_table(changed, manner))
    show_table(console, price_changes_table(changed, locale, manner))
    total = said("{money}, {days:+.0f} days", money=money_text(changed.total, locale), days=changed.days or 0)
    tell(console, said("{total} (not everything is priced)", total=total) if changed.at_least else total)
    if out is not None:

        def papers(number: str) -> Mapping[str, bytes]:
            offered = offered_of(
                opened, result, terms, now.price, number, (begin, now.ready), changed.at_least
            )
            return {
                "change-order.pdf": change_pdf(changed, offered, to, manner),
                "old.toml": old.read_bytes(),
                "new.toml": new.read_bytes(),
            }

        tell(console, said("Written to {file}.", file=str(keep(out, "change", papers))))
    return int(changed.at_least)


def _day(text: str, key: str) -> date | None:
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        raise FileError([Complaint(Place(key=key), "a date such as 2027-01-11", text)]) from None


def _warn_of_day(console: Console, opened: Opened, ready: date | None) -> None:
    due = opened.job.due
    if ready is not None and due and ready > date.fromisoformat(due):
        late = said("Ready on {day}, later than wanted: {due}.", day=ready.isoformat(), due=due)
        tell(console, late, style="yellow")
