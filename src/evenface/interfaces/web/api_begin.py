"""Beginning and taking away, for programs: jobs and pieces of a sort, features of a part, copies, the job's file."""

from collections.abc import Mapping
from typing import Annotated, Final, Literal, cast

from pydantic import BaseModel, Field

from evenface.construction import BuiltPanel
from evenface.errors import Complaint, EvenfaceError, FileError, Place
from evenface.interfaces.web import api_shapes as s
from evenface.interfaces.web.adding import FEATURES, add_feature, features_of, remove_feature
from evenface.interfaces.web.api_operation import Call, Operation
from evenface.interfaces.web.desk import View
from evenface.interfaces.web.keeping import Undecided, keep_from_file, write_to_file
from evenface.interfaces.web.patterns import Asked as Figure
from evenface.interfaces.web.site import NoSuchPage, NotAsThingsStand, Site, file_state
from evenface.interfaces.web.starting import (
    Begun,
    add_piece,
    begin_job,
    copy_job,
    copy_part,
    fields_of,
    offered,
    remove_part,
    remove_piece,
)
from evenface.materials import load_catalogue
from evenface.store import KeptJob, Stale
from evenface.words import said

Figures = Annotated[
    dict[
        Annotated[str, Field(max_length=40)],
        Annotated[str, Field(max_length=200, description='A word or figure; lengths in mm, or as "3/4 in".')],
    ],
    Field(max_length=60, description="By key; what is left out is as usual."),
]


class FigureAnswer(BaseModel):
    """One figure that is asked for."""

    key: str
    label: str
    usual: str
    kind: Literal["length", "whole", "choice", "text"]
    choices: list[str]


class PatternAnswer(BaseModel):
    """A sort of piece that a few figures make; in a job, one of its build-ups instead of the layers."""

    name: str
    title: str
    about: str
    figures: list[FigureAnswer]


class FromPattern(s.Sent):
    """A new job with one piece of that sort."""

    job: Annotated[str, Field(max_length=200)] = ""
    place: Annotated[str, Field(max_length=80)] = ""
    room: Annotated[str, Field(max_length=80)] = ""
    figures: Figures = Field(default_factory=dict)


class PieceFromPattern(s.AtVersion):
    """A piece more, of that sort."""

    figures: Figures = Field(default_factory=dict)


class Feature(s.AtVersion):
    """A profile, cut-out or grip more."""

    what: Annotated[str, Field(max_length=40, description="As listed.")]
    figures: Figures = Field(default_factory=dict)


class WhichFeature(s.AtVersion):
    """A feature that stands on the part."""

    path: Annotated[str, Field(max_length=200, description="Its key path, as listed.")]


class FeaturesAnswer(BaseModel):
    """What stands on a part in its own table, and what may be added."""

    standing: dict[str, str]
    may_be_added: dict[str, list[FigureAnswer]]


class Away(s.Sent):
    """Take from the list, or bring back; nothing of it is lost."""

    away: bool


class FileAnswer(BaseModel):
    """How the job stands to its file."""

    file: Annotated[str, Field(description="Its name; empty when the job has none.")]
    state: Literal["none", "same", "ours", "theirs", "missing"]


class ToFile(s.AtVersion):
    """over : also where the file was changed outside."""

    over: bool = False


def patterns(site: Site, call: Call) -> list[PatternAnswer]:
    """Every sort of piece with its figures, as a new job asks for them."""
    catalogue = load_catalogue(None)
    return [
        PatternAnswer(
            name=one.name, title=one.title, about=one.about, figures=_figures(fields_of(one, catalogue))
        )
        for one in offered()
    ]


def _figures(fields: tuple[Figure, ...]) -> list[FigureAnswer]:
    return [
        FigureAnswer.model_validate(
            {
                "key": one.key,
                "label": one.label,
                "usual": one.usual,
                "kind": one.kind,
                "choices": list(one.choices),
            }
        )
        for one in fields
    ]


def begin_from(site: Site, call: Call) -> s.JobAnswer:
    """A new job with one piece."""
    asked = cast(FromPattern, call.body)
    form = asked.figures | {"what": call.path["pattern"]}
    form |= {"job": asked.job, "place": asked.place, "room": asked.room}
    return _begun(begin_job(site, form, call.manner), form)


def piece_from(site: Site, call: Call) -> s.JobAnswer:
    """A piece more at the end of the job."""
    asked = cast(PieceFromPattern, call.body)
    form = asked.figures | {"what": call.path["pattern"]}
    return _begun(add_piece(site, _at(site, call, asked), asked.version, form, call.manner), form)


def _begun(made: Begun, form: Mapping[str, str]) -> s.JobAnswer:
    if made.job is None:
        raise FileError(
            [
                Complaint(Place(key=key or "figures"), why, ascii(form.get(key, ""))[:60])
                for key, why in made.reasons.items()
            ]
        )
    return s.job_answer(made.job)


def piece_away(site: Site, call: Call) -> s.JobAnswer:
    """A piece taken out; undo brings it back."""
    asked = cast(s.AtVersion, call.body)
    given = call.path["piece"]
    number = int(given) if given.isascii() and given.isdigit() and len(given) < 6 else 0
    return s.job_answer(remove_piece(site, _at(site, call, asked), asked.version, number - 1))


def part_away(site: Site, call: Call) -> s.JobAnswer:
    """A part taken out that stands by itself."""
    asked = cast(s.AtVersion, call.body)
    job = _at(site, call, asked)
    return s.job_answer(remove_part(site, job, asked.version, _panel(site, job, call).origin))


def part_again(site: Site, call: Call) -> s.JobAnswer:
    """Another part like that one."""
    asked = cast(s.AtVersion, call.body)
    job = _at(site, call, asked)
    return s.job_answer(copy_part(site, job, asked.version, _panel(site, job, call).origin))


def features(site: Site, call: Call) -> FeaturesAnswer:
    """What stands on the part, and what may be added."""
    job = call.job(site)
    view: View = site.desk.look(job, flat=False)
    return FeaturesAnswer(
        standing=features_of(view, _panel(site, job, call).origin),
        may_be_added={what: _figures(fields) for what, (_, fields) in FEATURES.items()},
    )


def feature_more(site: Site, call: Call) -> s.JobAnswer:
    """A feature more."""
    asked = cast(Feature, call.body)
    job = _at(site, call, asked)
    form = asked.figures | {"what": asked.what}
    return s.job_answer(
        add_feature(site, job, asked.version, _panel(site, job, call).origin, form, call.manner)
    )


def feature_away(site: Site, call: Call) -> s.JobAnswer:
    """A feature less."""
    asked = cast(WhichFeature, call.body)
    job = _at(site, call, asked)
    if not asked.path.startswith(f"{_panel(site, job, call).origin}."):
        raise NoSuchPage("That does not stand on this part.")
    return s.job_answer(remove_feature(site, job, asked.version, asked.path))


def copied(site: Site, call: Call) -> s.JobAnswer:
    """The same text as a job of its own."""
    return s.job_answer(copy_job(site, call.job(site)))


def put_away(site: Site, call: Call) -> s.JobLine:
    """From the list, or back to it."""
    job = call.job(site)
    site.store.put_away(job.id, cast(Away, call.body).away)
    return s.JobLine(id=job.id, name=job.name, version=job.version)


def away(site: Site, call: Call) -> list[s.JobLine]:
    """Jobs that were taken from the list."""
    return [s.JobLine(id=one.id, name=one.name, version=one.version) for one in site.store.jobs(gone=True)]


def file(site: Site, call: Call) -> FileAnswer:
    """How the job stands to its file."""
    job = call.job(site)
    return FileAnswer.model_validate({"file": job.file.name if job.file else "", "state": file_state(job)})


def to_file(site: Site, call: Call) -> FileAnswer:
    """The job written to its file."""
    asked = cast(ToFile, call.body)
    try:
        write_to_file(site, _at(site, call, asked), asked.over)
    except Undecided as why:
        raise NotAsThingsStand(str(why)) from why
    except OSError as problem:
        raise EvenfaceError(
            said("The file cannot be written: {why}.", why=problem.strerror or "")
        ) from problem
    return file(site, call)


def from_file(site: Site, call: Call) -> s.JobAnswer:
    """What stands in the file taken over."""
    asked = cast(s.AtVersion, call.body)
    try:
        return s.job_answer(keep_from_file(site, _at(site, call, asked), asked.version))
    except Undecided as why:
        raise NotAsThingsStand(str(why)) from why
    except OSError as problem:
        raise EvenfaceError(said("The file cannot be read: {why}.", why=problem.strerror or "")) from problem
    except UnicodeDecodeError as problem:
        raise FileError([Complaint(Place("the file"), "text in UTF-8", "other bytes")]) from problem


def _at(site: Site, call: Call, asked: s.AtVersion) -> KeptJob:
    """The job, still as it was looked at. Raises Stale."""
    job = call.job(site)
    if asked.version != job.version:
        raise Stale(job)
    return job


def _panel(site: Site, job: KeptJob, call: Call) -> BuiltPanel:
    found = site.desk.look(job, flat=False).part(call.path["part"])
    if found is None:
        raise NoSuchPage(said("This job has no part {part}.", part=repr(call.path["part"][:20])))
    return found[1]


_JOB: Final = "/jobs/{job}"
_PART: Final = "/jobs/{job}/parts/{part}"
OPERATIONS: Final = (
    Operation("GET", "/patterns", "listPatterns", "Sorts of piece that a few figures make", patterns,
              list[PatternAnswer]),
    Operation("POST", "/patterns/{pattern}", "beginFromPattern", "A new job with one piece of that sort", begin_from,
              s.JobAnswer, FromPattern, 201, refusals=(404,)),
    Operation("POST", f"{_JOB}/patterns/{{pattern}}", "addPiece", "A piece more, of that sort", piece_from,
              s.JobAnswer, PieceFromPattern, refusals=(409,)),
    Operation("POST", f"{_JOB}/pieces/{{piece}}/remove", "removePiece", "Take a piece out", piece_away, s.JobAnswer,
              s.AtVersion, refusals=(409,)),
    Operation("POST", f"{_PART}/remove", "removePart", "Take a part out that stands by itself", part_away,
              s.JobAnswer, s.AtVersion, refusals=(409,)),
    Operation("POST", f"{_PART}/copy", "copyPart", "Another part like that one", part_again, s.JobAnswer,
              s.AtVersion, refusals=(409,)),
    Operation("GET", f"{_PART}/features", "listFeatures", "Profiles, cut-outs and grips: standing, and to be added",
              features, FeaturesAnswer),
    Operation("POST", f"{_PART}/features", "addFeature", "A profile, cut-out or grip more", feature_more,
              s.JobAnswer, Feature, refusals=(409,)),
    Operation("POST", f"{_PART}/features/remove", "removeFeature", "Take a feature out", feature_away, s.JobAnswer,
              WhichFeature, refusals=(409,)),
    Operation("POST", f"{_JOB}/copy", "copyJob", "The same text as a job of its own", copied, s.JobAnswer, s.Sent, 201),
    Operation("POST", f"{_JOB}/away", "putAway", "Take a job from the list, or bring it back", put_away, s.JobLine,
              Away),
    Operation("GET", "/away", "listAway", "Jobs that were taken from the list", away, list[s.JobLine]),
    Operation("GET", f"{_JOB}/file", "readFile", "How the job stands to its file", file, FileAnswer),
    Operation("POST", f"{_JOB}/file/write", "writeFile", "Write the job to its file", to_file, FileAnswer, ToFile,
              refusals=(409,)),
    Operation("POST", f"{_JOB}/file/take", "takeFile", "Take over what stands in the file", from_file, s.JobAnswer,
              s.AtVersion, refusals=(409,)),
)  # fmt: skip
