"""The pages of money: the price line by line, what is not priced to be filled in, papers to the client."""

from typing import Any, Final

from starlette.responses import Response

from evenface.documents.finding_tables import finding_text
from evenface.documents.money_text import locale_for, total_text
from evenface.documents.price_tables import (
    build_up_table,
    by_piece_table,
    rate_table,
    shares_table,
    sums_table,
)
from evenface.errors import Complaint, FileError, Place
from evenface.interfaces.pricing import pieces_shown
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.keeping import keep_changes
from evenface.interfaces.web.money import (
    UNITS,
    Priced,
    blanks,
    filled_in,
    kept_file,
    kept_papers,
    priced,
    write_paper,
)
from evenface.interfaces.web.site import Asked, Site
from evenface.result import Result
from evenface.store import KeptJob
from evenface.words import Manner

MEDIA: Final = {"pdf": "application/pdf", "csv": "text/csv; charset=utf-8"}
PAPER_WORDS: Final = {
    "offer": "Offer and drawings to approve",
    "confirmation": "Order confirmation",
    "delivery-note": "Delivery note",
    "invoice": "Invoice as a table",
}


def price(site: Site, asked: Asked) -> Response:
    """The price line by line; the layouts it needs are reckoned beside the page."""
    job = site.job(asked)
    view = site.desk.look(job)
    work = site.planner.work(view) or site.planner.start(view)
    state = work.state  # read once: the plan goes on while the page is made
    values: dict[str, Any] = {"job": job, "work": work, "state": state}
    if state == "done" and work.result is not None:
        values |= _priced(site, job, work.result, asked.manner)
    name = "price_live.html" if asked.live else "price.html"
    return site.page(name, asked, title="Price", **values)


def _priced(site: Site, job: KeptJob, result: Result, manner: Manner) -> dict[str, Any]:
    found = priced(site, job, site.desk.look(job), result)
    locale = locale_for(found.prices.table.locale, manner)
    tables = [shares_table(found.price, locale, manner)]
    if len(result.sketch.constructions) > 1:
        pieces = pieces_shown(result, found.price, found.prices)
        tables.insert(0, by_piece_table(pieces, found.price.at_least, locale, manner))
    if found.price.rate.lines:
        tables.append(rate_table(found.price.rate, locale, manner))
    return {
        "total": total_text(found.price, locale, manner),
        "sums": sums_table(found.price, locale, manner),
        "lines": build_up_table(found.price, locale, manner),
        "tables": tables,
        "blanks": blanks(found.price, manner),
        "units_of": UNITS,
        "currency": found.prices.table.currency,
        "whole": found.whole,
        "stops": [finding_text(one, manner) for one in found.stops],
        "papers": PAPER_WORDS,
        "kept": kept_papers(site, job),
    }


@changing
def fill_in(site: Site, asked: Asked) -> Response:
    """Prices that were missing, written into the job."""
    job = site.job(asked)
    found = _now(site, job)
    changes = filled_in(asked.form, blanks(found.price, asked.manner))
    if not changes:
        expected = "at least one figure"
        raise FileError(
            [Complaint(Place(key="price"), expected, "none", "Leave out what you do not know yet.")]
        )
    keep_changes(site, job, asked.whole("version"), changes)
    return done(f"/jobs/{job.id}/price", "priced")


@changing
def write(site: Site, asked: Asked) -> Response:
    """A paper to the client, kept under its number."""
    job = site.job(asked)
    view = site.desk.look(job)
    write_paper(site, job, view, site.planner.result(view), asked.form, asked.manner)
    return done(f"/jobs/{job.id}/price", "written", "papers")


def paper_to_client(site: Site, asked: Asked) -> Response:
    """A file of a kept paper."""
    name = asked.path["name"]
    content = kept_file(site, site.job(asked), asked.path["number"], name)
    media = MEDIA.get(name.rpartition(".")[2], "text/plain; charset=utf-8")
    number = "".join(one for one in asked.path["number"] if one.isdigit())
    headers = {"Content-Disposition": f'attachment; filename="{number}-{_plain(name)}"'}
    return Response(content, media_type=media, headers=headers)


def _plain(name: str) -> str:
    return "".join(one if one.isascii() and (one.isalnum() or one in "-_.") else "-" for one in name)


def _now(site: Site, job: KeptJob) -> Priced:
    view = site.desk.look(job)
    return priced(site, job, view, site.planner.result(view))


ROUTES: Final = (
    ("GET", "/jobs/{job}/price", price),
    ("POST", "/jobs/{job}/price", fill_in),
    ("POST", "/jobs/{job}/offers", write),
    ("GET", "/jobs/{job}/offers/{number}/{name}", paper_to_client),
)
