"""The page beside the price: rates, shares and terms of this one job, which go before `prices.toml`."""

from collections.abc import Mapping, Sequence
from typing import Any, Final

from starlette.responses import Response

from evenface.errors import FileError, told_at_entry
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.edits import Outcome, answered, beside_entries
from evenface.interfaces.web.entries import Entry
from evenface.interfaces.web.piece_entries import form_of
from evenface.interfaces.web.price_entries import EXTRAS, price_entries, price_groups
from evenface.interfaces.web.price_settings import NAMED, PAYMENT, add, remove
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.store import KeptJob

ABOUT: Final = "rates"
WORDS: Final = EXTRAS | {PAYMENT: "Payment: its share, and when"} | NAMED


def show(site: Site, asked: Asked) -> Response:
    """Everything the price rests on beside what is built."""
    return _page(site, asked, site.job(asked))


def edit(site: Site, asked: Asked) -> Response:
    """What was typed: kept where it can be, else given back with the reason."""

    def find(view: View) -> tuple[str, Sequence[Entry]]:
        return ABOUT, price_entries(view, asked.manner)

    return answered(site, asked, site.job(asked), find, _page)


def _page(
    site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None,
    told: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    view = site.desk.look(job, flat=False)
    groups = price_groups(view, asked.manner)
    entries = [entry for group in groups for entry in group.entries]
    values: dict[str, Any] = beside_entries(site, asked, job, entries, out)
    values |= form_of(view, groups, asked, out.told if out else None)
    return site.page(
        "rates_edited.html" if asked.live else "rates.html", asked, status, title="Rates and terms", job=job,
        groups=groups, about=ABOUT, told=told or {}, sent=asked.form, kinds=WORDS,
        here=f"/jobs/{job.id}/rates", **values,
    )  # fmt: skip


@changing
def change(site: Site, asked: Asked) -> Response:
    """Something added or taken out; a slip comes back with its reason."""
    job, version, form = site.job(asked), asked.whole("version"), asked.form
    do, *words = form.get("do", "").split(" ")
    if do == "out" and len(words) == 2 and words[1].isascii() and words[1].isdigit() and len(words[1]) < 6:
        remove(site, job, version, words[0], int(words[1]))
        return done(f"/jobs/{job.id}/rates", "out")
    if do != "add":
        raise NoSuchPage("There is no such thing to do here.")
    try:
        add(site, job, version, form.get("kind", ""), form.get("name", ""), form.get("figure", ""))
    except FileError as error:
        told: dict[str, str] = {}
        for one in error.complaints:
            at = one.place.key if one.place.key in ("name", "figure") else "figure"
            told[at] = f"{told.get(at, '')} {told_at_entry(one, asked.manner)}".strip()
        return _page(site, asked, job, 422, None, told)
    return done(f"/jobs/{job.id}/rates", "added")


ROUTES: Final = (
    ("GET", "/jobs/{job}/rates", show),
    ("POST", "/jobs/{job}/rates", edit),
    ("POST", "/jobs/{job}/extras", change),
)
