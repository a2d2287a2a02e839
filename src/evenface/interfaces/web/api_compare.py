"""Other ways to build, for programs: variants, backers, the year of a part, what a brief leaves over."""

from collections.abc import Sequence
from typing import Annotated, Final, cast

from pydantic import BaseModel, Field

from evenface.documents.choosing import build_ups_table, comparison_table, ranking_table
from evenface.documents.flat_tables import flat_notes, month_table
from evenface.errors import MissingWord
from evenface.interfaces.choosing import MOST_BUILD_UPS, variant_row
from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.api_answers import remedy_at
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.comparing import (
    LAYERS,
    add_variant,
    adopt,
    asking,
    brief_for,
    chosen,
    compared,
    remove_variant,
)
from evenface.interfaces.web.flatness import (
    backers_of,
    backers_shown,
    effect_shown,
    effect_task,
    limits_shown,
    question_of,
    year_of,
)
from evenface.interfaces.web.site import NoSuchPage, NotAsThingsStand, Site
from evenface.store import Stale
from evenface.words import said

Word = Annotated[str, Field(max_length=80)]


class VariantAnswer(BaseModel):
    """A variant of the job: entries that would be set otherwise."""

    number: int
    name: str
    changes: dict[str, str]


class NewVariant(s.AtVersion):
    """A variant more. different : by layer of that build-up, `none` leaves it out."""

    name: Word = ""
    buildup: Word
    different: Annotated[
        dict[Word, Word], Field(min_length=1, max_length=12, description=f"Of {', '.join(LAYERS)}.")
    ]


class WhichPiece(s.Sent):
    """A piece by its name; empty for the whole job. again : begin anew what was stopped or failed."""

    piece: Annotated[str, Field(max_length=200)] = ""
    again: bool = False


class WhichUse(s.Sent):
    """A named use, `piece: NAME`, or empty for the brief of the job."""

    use: Annotated[str, Field(max_length=200)] = ""
    again: bool = False


class Again(s.Sent):
    """again : begin anew what was stopped or failed."""

    again: bool = False


class WidthQuestion(s.Sent):
    """What is asked of the widths of solid wood; what is left out is as in the job, else as usual."""

    wood: Word = ""
    cut: Word = ""
    facing: Word = ""
    board: Word = ""
    glue: Word = ""
    thickness: Word = ""


class YearAnswer(BaseModel):
    """A part through the year."""

    months: s.TableAnswer
    notes: list[str]


def variants(site: Site, call: Call) -> list[VariantAnswer]:
    """Every variant that is written in the job."""
    known = site.desk.look(call.job(site), flat=False).opened.job.variants
    return [
        VariantAnswer(number=number, name=one.name, changes={each.path: each.new for each in one.changes})
        for number, one in enumerate(known, start=1)
    ]


def variant_more(site: Site, call: Call) -> s.JobAnswer:
    """A variant more."""
    asked, job = cast(NewVariant, call.body), call.job(site)
    if asked.version != job.version:
        raise Stale(job)
    for key in asked.different:
        if key not in LAYERS:
            raise MissingWord("layer", key, LAYERS)
    form = {**asked.different, "name": asked.name, "buildup": asked.buildup}
    return s.job_answer(add_variant(site, job, asked.version, form))


def variant_adopted(site: Site, call: Call) -> s.JobAnswer:
    """Its entries set for good; undo takes it back."""
    asked = cast(s.AtVersion, call.body)
    return s.job_answer(adopt(site, call.job(site), asked.version, _number(call)))


def variant_away(site: Site, call: Call) -> s.JobAnswer:
    """A variant less."""
    asked = cast(s.AtVersion, call.body)
    return s.job_answer(remove_variant(site, call.job(site), asked.version, _number(call)))


def _number(call: Call) -> int:
    given = call.path["variant"]
    return int(given) - 1 if given.isascii() and given.isdigit() and len(given) < 6 else -1


def side_by_side(site: Site, call: Call) -> s.TaskAnswer:
    """The job as it is and its variants."""
    asked, job = cast(WhichPiece, call.body), call.job(site)
    view = site.desk.look(job)
    if asked.piece and asked.piece not in [one.name for one in view.sketch.job.pieces]:
        raise MissingWord("piece", asked.piece, [one.name for one in view.sketch.job.pieces])
    if not view.opened.job.variants:
        raise NotAsThingsStand("This job has no variants. Add one first.")
    task = compared(site, asking(site, job, view, asked.piece), asked.again)

    def shown() -> list[s.TableAnswer]:
        found = task.value
        part = ", ".join(one for one in found.part if one)
        rows = [variant_row(one, found.part, found.locale) for one in found.columns]
        return [s.table_answer(comparison_table(rows, part, call.manner))]

    return s.task_answer(task, shown)


def stop_side_by_side(site: Site, call: Call) -> s.TaskAnswer:
    """End that."""
    job = call.job(site)
    question = asking(site, job, site.desk.look(job), cast(WhichPiece, call.body).piece)
    site.reckoner.stop(question.key)
    return s.task_answer(site.reckoner.known(question.key), list)


def choice(site: Site, call: Call) -> s.TaskAnswer:
    """What a brief leaves over, ranked."""
    asked, job = cast(WhichUse, call.body), call.job(site)
    view = site.desk.look(job)
    brief = brief_for(view, asked.use)
    if brief is None:
        raise NotAsThingsStand("There is no such brief. Name a use, or write [brief] in the job.")
    task = chosen(site, job, view, brief, asked.again)

    def shown() -> list[s.TableAnswer]:
        best = task.value.build_ups[:MOST_BUILD_UPS]
        cells = [(one.facing.title, one.carrier, one.back, one.behaviour, one.lies_flat, one.price_level)
                 for one in best]  # fmt: skip
        tables = [ranking_table(one, call.manner) for one in task.value.rankings]
        return [s.table_answer(one) for one in (*tables, build_ups_table(cells, call.manner))]

    return s.task_answer(task, shown)


def year(site: Site, call: Call) -> YearAnswer:
    """A part through the year."""
    found = year_of(site.desk.look(call.job(site)), call.path["part"])
    if found is None:
        raise NoSuchPage(
            said("Nothing is known of the year of part {part}.", part=repr(call.path["part"][:20]))
        )
    notes: Sequence[str] = flat_notes(found, call.manner)
    return YearAnswer(months=s.table_answer(month_table(found, call.manner)), notes=list(notes))


def backers(site: Site, call: Call) -> s.TaskAnswer:
    """Every way to back a part."""
    job = call.job(site)
    view = site.desk.look(job, flat=False)
    found = view.part(call.path["part"])
    if found is None:
        raise NoSuchPage(said("This job has no part {part}.", part=repr(call.path["part"][:20])))
    name = f"{found[1].piece}, {found[1].name}"
    task = backers_of(site, job, view, name, cast(Again, call.body).again)
    currency = view.sketch.job.currency
    return s.task_answer(
        task, lambda: [s.table_answer(backers_shown(task.value, name, currency, call.manner))]
    )


def widths(site: Site, call: Call) -> s.TableAnswer:
    """The largest safe widths of a wood."""
    view = site.desk.look(call.job(site), flat=False)
    question = question_of(view, cast(WidthQuestion, call.body).model_dump())
    return s.table_answer(limits_shown(view, question, call.manner))


def effect(site: Site, call: Call) -> s.TaskAnswer:
    """A remedy in numbers."""
    job, asked = call.job(site), cast(s.WhichRemedy, call.body)
    if asked.version != job.version:
        raise Stale(job)
    view = site.desk.look(job)
    finding, changes = remedy_at(view, asked)
    trial = site.desk.attempt(job, changes)
    place = (finding.piece, finding.part)
    part = next((one.id for one in view.sketch.parts if (one.piece, one.name) == place), "")
    task = effect_task(site, job, trial)
    currency = view.sketch.job.currency
    return s.task_answer(
        task, lambda: [s.table_answer(effect_shown(task.value, trial, part, currency, call.manner))]
    )


_JOB: Final = "/jobs/{job}"
_PART: Final = "/jobs/{job}/parts/{part}"
OPERATIONS: Final = (
    Operation("GET", f"{_JOB}/variants", "listVariants", "Variants written in the job", variants, list[VariantAnswer]),
    Operation("POST", f"{_JOB}/variants", "addVariant", "A variant more", variant_more, s.JobAnswer, NewVariant,
              refusals=(409,)),
    Operation("POST", f"{_JOB}/variants/{{variant}}/adopt", "adoptVariant", "Set the entries of a variant for good",
              variant_adopted, s.JobAnswer, s.AtVersion, refusals=(409,)),
    Operation("POST", f"{_JOB}/variants/{{variant}}/remove", "removeVariant", "Take a variant out", variant_away,
              s.JobAnswer, s.AtVersion, refusals=(409,)),
    Operation("POST", f"{_JOB}/alternatives", "compareVariants", "Variants side by side; ask until it is done",
              side_by_side, s.TaskAnswer, WhichPiece, refusals=(409,), units=True),
    Operation("POST", f"{_JOB}/alternatives/stop", "stopComparing", "End the comparison of variants",
              stop_side_by_side, s.TaskAnswer, WhichPiece),
    Operation("POST", f"{_JOB}/choice", "choose", "What a brief leaves over; ask until it is done", choice,
              s.TaskAnswer, WhichUse, refusals=(409,), units=True),
    Operation("GET", f"{_PART}/year", "readYear", "A part through the year", year, YearAnswer, units=True),
    Operation("POST", f"{_PART}/backers", "compareBackers", "Every way to back a part; ask until it is done", backers,
              s.TaskAnswer, Again, units=True),
    Operation("POST", f"{_JOB}/widths", "askWidths", "The largest safe widths of solid wood", widths, s.TableAnswer,
              WidthQuestion, units=True),
    Operation("POST", f"{_JOB}/remedies/effect", "readEffect", "A remedy in numbers; ask until it is done", effect,
              s.TaskAnswer, s.WhichRemedy, refusals=(409,), units=True),
)  # fmt: skip
