"""After-calculation of a job: what was timed and taken, read from beside the job file."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Annotated, ClassVar, Final

from pydantic import ConfigDict, Field

from evenface.errors import Complaint, FileError, Place, nearest_words
from evenface.job.opening import Opened
from evenface.job.pricing import Prices, steps_of, to_price
from evenface.piece.fields import Number, Positive, Word
from evenface.piece.price_forms import Amount
from evenface.piece.reader import check_format, gathered
from evenface.piece.source_text import parse, read_text
from evenface.piece.tables import against
from evenface.pricing import Price, price_of
from evenface.pricing.after import Afterwards, Taken, after
from evenface.pricing.records import MATERIAL
from evenface.result import Result
from evenface.workplan import Step, Work

TAKEN_FILE: Final = ".taken.toml"
"""`JOB.taken.toml` beside the job: time of whole operations and material, for what is not ticked step by step."""


@dataclass(frozen=True, slots=True)
class Log:
    """What was noted at the bench: minutes by operation and by step, material taken; where each stands.

    Minutes of a step are by the clock; those of a whole operation are of all hands: two people count twice.
    """

    by_work: Mapping[Work, float] = field(default_factory=dict)
    by_step: Mapping[str, float] = field(default_factory=dict)
    taken: tuple[Taken, ...] = ()
    places: Mapping[str, Place] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class _HoursForm:
    __pydantic_config__: ClassVar[ConfigDict] = ConfigDict(extra="forbid")
    work: Work | None = None
    step: Word | None = None
    minutes: Positive


@dataclass(frozen=True, kw_only=True)
class _TakenForm:
    __pydantic_config__: ClassVar[ConfigDict] = ConfigDict(extra="forbid")
    material: Word
    amount: Annotated[Number, Field(ge=0)]
    price: Amount | None = None


@dataclass(frozen=True, kw_only=True)
class _LogForm:
    __pydantic_config__: ClassVar[ConfigDict] = ConfigDict(extra="forbid")
    format: Annotated[int, Field(strict=True)]
    time: tuple[_HoursForm, ...] = ()
    taken: tuple[_TakenForm, ...] = ()


def log_for(opened: Opened) -> tuple[Log, Path]:
    """The notes beside the job, empty where there are none, and where they are looked for."""
    path = Path(opened.job.file)
    place = path.with_name(path.stem + TAKEN_FILE)
    return (read_log(read_text(place), str(place)) if place.is_file() else Log()), place


def read_log(text: str, file: str) -> Log:
    """The text of such a file; times of one operation or step are added up. FileError with every complaint."""
    source = parse(text, file)
    check_format(source)
    complaints: list[Complaint] = []
    form = against(source, dict(source.data), _LogForm, (), complaints)
    if form is None:
        raise gathered(source, complaints)
    by_work: dict[Work, float] = {}
    by_step: dict[str, float] = {}
    for number, one in enumerate(form.time):
        if (one.work is None) == (one.step is None):
            expected = "work or step"
            complaints.append(Complaint(source.place(f"time[{number}]"), expected, "both or neither"))
        elif one.work is not None:
            by_work[one.work] = by_work.get(one.work, 0.0) + one.minutes
        elif one.step is not None:
            by_step[one.step] = by_step.get(one.step, 0.0) + one.minutes
    if complaints:
        raise gathered(source, complaints)
    taken = tuple(
        Taken(one.material, Decimal(str(one.amount)), one.price, f"taken[{number}].material")
        for number, one in enumerate(form.taken)
    )
    places = {one.origin: source.place(one.origin) for one in taken}
    places |= {one.step: source.place(f"time[{n}].step") for n, one in enumerate(form.time) if one.step}
    return Log(by_work, by_step, taken, places)


def afterwards(
    opened: Opened, result: Result, prices: Prices, log: Log, ticked: Mapping[str, float], day: str = ""
) -> tuple[Price, Afterwards]:
    """The price as planned, and what became of it.

    ticked : minutes by the id of a step, as ticked off in the made file; times in the log go before them.
    Raises FileError for a step or a material the job does not have.
    """
    asked = to_price(opened, result, prices)
    price, steps = price_of(asked, prices.table), steps_of(result)
    minutes = {**ticked, **log.by_step}
    _refuse_strange(steps, minutes, price, log)
    found = after(opened.job.name, steps, asked.hours, price, minutes, log.by_work, log.taken, day)
    return price, found


def ticked_minutes(opened: Opened) -> dict[str, float]:
    """Minutes by step of what is ticked off as done in the made file, as far as they were noted."""
    return {one.step: one.minutes for one in opened.made.done if one.minutes is not None}


def _refuse_strange(steps: tuple[Step, ...], minutes: Mapping[str, float], price: Price, log: Log) -> None:
    known = tuple(step.id for step in steps)
    materials = tuple(
        dict.fromkeys(line.material for line in price.lines if line.group in MATERIAL and line.material)
    )
    wrong = [
        Complaint(
            log.places.get(one, Place(key=one)),
            "a step of the work plan",
            repr(one),
            nearest_words(one, known),
        )
        for one in minutes
        if one not in known
    ]
    wrong += [
        Complaint(
            log.places[one.origin],
            "a material of this job",
            repr(one.material),
            nearest_words(one.material, materials),
        )
        for one in log.taken
        if one.material not in materials
    ]
    if wrong:
        raise FileError(wrong)
