"""The page beside the price: rates, shares and terms of this one job, which go before `prices.toml`."""

from collections.abc import Mapping
from typing import Final

from starlette.responses import Response

from evenface.errors import FileError
from evenface.interfaces.web.answers import changing
from evenface.interfaces.web.deeds import done
from evenface.interfaces.web.edits import Outcome
from evenface.interfaces.web.entry_pages import entries_page, handlers, told_at
from evenface.interfaces.web.price_entries import EXTRAS, price_entries, price_groups
from evenface.interfaces.web.price_settings import NAMED, PAYMENT, add, remove
from evenface.interfaces.web.site import Asked, NoSuchPage, Site
from evenface.store import KeptJob

ABOUT: Final = "rates"
WORDS: Final = EXTRAS | {PAYMENT: "Payment: its share, and when"} | NAMED


def _page(
    site: Site, asked: Asked, job: KeptJob, status: int = 200, out: Outcome | None = None,
    told: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    view = site.desk.look(job, flat=False)
    groups = price_groups(view, asked.manner)
    return entries_page(
        site, asked, job, view, groups, status, out, "rates.html", ("deeds", "more"), title="Rates and terms",
        about=ABOUT, told=told or {}, sent=asked.form, kinds=WORDS, here=f"/jobs/{job.id}/rates",
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
        return _page(site, asked, job, 422, None, told_at(error, ("name", "figure"), "figure", asked.manner))
    return done(f"/jobs/{job.id}/rates", "added")


_SHOW, _EDIT = handlers(ABOUT, price_entries, _page)
ROUTES: Final = (
    ("GET", "/jobs/{job}/rates", _SHOW),
    ("POST", "/jobs/{job}/rates", _EDIT),
    ("POST", "/jobs/{job}/extras", change),
)
