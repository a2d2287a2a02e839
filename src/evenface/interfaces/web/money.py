"""What the pages of money do: price a planned job, fill in what is not priced, write papers to the client."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from evenface.documents.display import sentence
from evenface.documents.numbered import keep, kept
from evenface.documents.price_tables import asked_at, to_write
from evenface.errors import Complaint, FileError
from evenface.errors import Place as Where
from evenface.finding import Change, Finding, Severity
from evenface.interfaces.offering import OFFERS, PAPERS, offered_of, papers_to_client
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.keeping import folder_of
from evenface.interfaces.web.site import NoSuchPage, NotAsThingsStand, Site
from evenface.job.pricing import Prices, price_job, prices_for
from evenface.job.versions import ready_on
from evenface.pricing import Price
from evenface.result import Result
from evenface.store import KeptJob
from evenface.toml_places import key_path
from evenface.words import Manner, said

UNITS: Final = {
    **{"sheet": "a sheet", "m2": "a m²", "m": "a metre", "m3": "a m³"},
    **{"kg": "a kg", "l": "a litre", "piece": "a piece"},
}
"""What a price is of, as written and as said."""
_OF_MATERIAL: Final = re.compile(r'material\."([^"]+)" = \{ price = …, per = "(\w+)" \}')


@dataclass(frozen=True, slots=True)
class Blank:
    """Something that is not priced, to be filled in.

    field : the key path in the job that takes the figure; empty where only the text of a file can say it.
    unit : what the figure is of, empty for a plain figure. line, where : what to write otherwise, and where.
    """

    what: str
    field: str
    unit: str
    line: str
    where: str

    @property
    def unit_field(self) -> str:
        return self.field.removesuffix(".price") + ".per"


@dataclass(frozen=True, slots=True)
class Priced:
    """A planned job with its price and what the maker said of money."""

    price: Price
    prices: Prices
    stops: tuple[Finding, ...]

    @property
    def whole(self) -> bool:
        """Whether a paper may leave the shop: everything priced, nothing that stops the piece."""
        return not self.price.missing and not self.stops


def priced(site: Site, job: KeptJob, view: View, result: Result) -> Priced:
    """The price of the job. Raises FileError where the prices beside it cannot be read."""
    prices = prices_for(view.opened, folder=folder_of(site, job))
    stops = tuple(one for one in result.findings if one.severity is Severity.STOP)
    return Priced(price_job(view.opened, result, prices), prices, stops)


def blanks(price: Price, manner: Manner) -> tuple[Blank, ...]:
    """Everything not priced, each figure asked for once."""
    found: dict[str, Blank] = {}
    for one in price.missing:
        what = sentence(one.what, manner)
        material = _OF_MATERIAL.fullmatch(one.key)
        if material is not None:
            field, unit = key_path(("price", "material", material[1], "price")), material[2]
        elif one.key.startswith("rate.hourly"):
            field, unit = "price.rate.hourly", "h"
        elif re.fullmatch(r"margin|rate\.\w+", one.key):
            field, unit = f"price.{one.key}", ""
        else:
            field, unit = "", ""
        line, where = to_write(one.key, manner), asked_at(one.where, manner)
        found.setdefault(one.key or what, Blank(what, field, unit, line, where))
    return tuple(found.values())


def filled_in(typed: Mapping[str, str], asked: tuple[Blank, ...]) -> list[Change]:
    """What was typed as entries of `[price]` in the job. Raises FileError for a unit nobody knows."""
    changes: list[Change] = []
    for one in asked:
        figure = typed.get(one.field, "").strip() if one.field else ""
        if not figure:
            continue
        changes.append(Change(one.field, "", _figure(figure)))
        if one.unit and one.unit != "h":
            unit = typed.get(one.unit_field, one.unit)
            if unit not in UNITS:
                raise FileError([Complaint(Where(key=one.unit_field), " or ".join(UNITS), repr(unit[:40]))])
            changes.append(Change(one.unit_field, "", unit))
    return changes


def _figure(typed: str) -> str:
    """As the file writes a number; a share stays a text."""
    plain = typed.replace(" ", "").replace("\N{NO-BREAK SPACE}", "")
    return plain.replace(",", ".") if re.fullmatch(r"\d+(?:[.,]\d+)?", plain) else typed


def write_paper(
    site: Site, job: KeptJob, view: View, result: Result, form: Mapping[str, str], manner: Manner
) -> Path:
    """One paper to the client under the next number, with the job as it was. form : paper, to, start, draft.

    Raises NotAsThingsStand while price or piece is not whole and no draft was asked for.
    """
    paper = form.get("paper", "")
    if paper not in PAPERS:
        raise NoSuchPage(said("There is no paper called {paper}.", paper=repr(paper[:40])))
    found = priced(site, job, view, result)
    draft = not found.whole
    if draft and form.get("draft") != "yes":
        raise NotAsThingsStand(
            "Something is not priced, or a finding stops the piece. Mend it, or ask for a draft: it says so on itself."
        )
    begin = _day(form.get("start", ""))
    ready = ready_on(view.opened, result, found.prices, begin) if begin is not None else None
    to = " ".join(form.get("to", "").split())[:200]

    def papers(number: str) -> Mapping[str, bytes]:
        offered = offered_of(view.opened, result, found.prices, found.price, number, (begin, ready), draft)
        made = papers_to_client(paper, offered, result, to, manner)
        return {**made, job_copy(job): job.text.encode()}

    return keep(folder_of(site, job) / OFFERS, paper, papers)


def kept_papers(site: Site, job: KeptJob) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    """Number, kind and file names of every paper of this job, the newest first."""
    found = kept(folder_of(site, job) / OFFERS)
    mine = [one for one in found if (one[2] / job_copy(job)).is_file()]
    return tuple(
        (number, kind, tuple(sorted(file.name for file in place.iterdir())))
        for number, kind, place in reversed(mine)
    )


def kept_file(site: Site, job: KeptJob, number: str, name: str) -> bytes:
    """A file of a paper that was kept; both names are looked up, never used as a path. Raises NoSuchPage."""
    for known, kind, names in kept_papers(site, job):
        if known == number and name in names:
            return (folder_of(site, job) / OFFERS / f"{known}-{kind}" / name).read_bytes()
    raise NoSuchPage(
        said("There is no paper {number} with a file {name}.", number=repr(number[:20]), name=repr(name[:60]))
    )


def job_copy(job: KeptJob) -> str:
    """The name under which the job lies beside its papers."""
    return job.file.name if job.file is not None else f"job-{job.id}.toml"


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text.strip()) if text.strip() else None
    except ValueError:
        raise FileError(
            [Complaint(Where(key="start"), "a date such as 2027-01-11", repr(text[:40]))]
        ) from None
