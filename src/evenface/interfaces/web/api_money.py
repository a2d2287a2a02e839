"""Money, for programs: prices filled in, papers to the client written and read again."""

from typing import Annotated, Final, Literal, cast

from pydantic import BaseModel, Field
from starlette.responses import Response

from evenface.errors import Complaint, FileError, Place
from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.api_answers import planned_result
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.keeping import keep_changes
from evenface.interfaces.web.money import blanks, filled_in, kept_file, kept_papers, priced, write_paper
from evenface.interfaces.web.site import Site
from evenface.store import Stale

MEDIA: Final = {"pdf": "application/pdf", "csv": "text/csv; charset=utf-8"}


class PriceEntry(s.Sent):
    """A figure for something that was not priced. field, per : as the blanks of the price name them."""

    field: Annotated[str, Field(min_length=1, max_length=300)]
    price: Annotated[str, Field(min_length=1, max_length=40)]
    per: Annotated[str, Field(max_length=20)] = ""


class PriceEntries(s.AtVersion):
    """Figures to fill in."""

    prices: Annotated[list[PriceEntry], Field(min_length=1, max_length=200)]


class NewPaper(s.Sent):
    """A paper to the client. start : the day work could begin, empty for none. draft : also while it is not whole."""

    paper: Literal["offer", "confirmation", "delivery-note", "invoice"]
    to: Annotated[str, Field(max_length=400)] = ""
    start: Annotated[str, Field(max_length=10)] = ""
    draft: bool = False


class PaperAnswer(BaseModel):
    """A paper that was kept under its number."""

    number: str
    paper: str
    files: list[str]


def fill_in(site: Site, call: Call) -> s.JobAnswer:
    """Prices written into the job."""
    asked, job = cast(PriceEntries, call.body), call.job(site)
    if asked.version != job.version:
        raise Stale(job)
    result = planned_result(site, call)
    known = blanks(priced(site, job, site.desk.look(job), result).price, call.manner)
    fields = {one.field: one for one in known if one.field}
    typed: dict[str, str] = {}
    for one in asked.prices:
        if one.field not in fields:
            raise FileError([Complaint(Place(key=one.field[:60]), "a field that is blank", "another")])
        typed[one.field] = one.price
        if one.per:
            typed[fields[one.field].unit_field] = one.per
    return s.job_answer(keep_changes(site, job, asked.version, filled_in(typed, known)))


def write(site: Site, call: Call) -> PaperAnswer:
    """A paper under the next number."""
    asked, job = cast(NewPaper, call.body), call.job(site)
    form = {"paper": asked.paper, "to": asked.to, "start": asked.start, "draft": "yes" if asked.draft else ""}
    place = write_paper(site, job, site.desk.look(job), planned_result(site, call), form, call.manner)
    return next(one for one in papers(site, call) if place.name == f"{one.number}-{one.paper}")


def papers(site: Site, call: Call) -> list[PaperAnswer]:
    """Every paper to the client, the newest first."""
    return [
        PaperAnswer(number=number, paper=kind, files=list(files))
        for number, kind, files in kept_papers(site, call.job(site))
    ]


def paper_file(site: Site, call: Call) -> Response:
    """A file of such a paper; number and name are looked up, never used as a path."""
    name = call.path["file"]
    content = kept_file(site, call.job(site), call.path["number"], name)
    return Response(
        content, media_type=MEDIA.get(name.rpartition(".")[2], "application/octet-stream"),
        headers={"Content-Disposition": "attachment"},
    )  # fmt: skip


_JOB: Final = "/jobs/{job}"
OPERATIONS: Final = (
    Operation("POST", f"{_JOB}/price", "fillInPrices", "Fill in what is not priced", fill_in, s.JobAnswer,
              PriceEntries, refusals=(409,)),
    Operation("GET", f"{_JOB}/offers", "listOffers", "Papers to the client, the newest first", papers,
              list[PaperAnswer]),
    Operation("POST", f"{_JOB}/offers", "writeOffer", "Write a paper to the client, under its number", write,
              PaperAnswer, NewPaper, refusals=(409,)),
    Operation("GET", f"{_JOB}/offers/{{number}}/{{file}}", "readOffer", "A file of such a paper", paper_file,
              media="*/*", refusals=(404,)),
)  # fmt: skip
