"""What programs send and get, as models; sizes, findings and results are those of `result.json`."""

from collections.abc import Callable
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from evenface.documents.result_file import FindingEntry, PartEntry
from evenface.documents.tables import Table
from evenface.interfaces.web.reckoning import Task
from evenface.store import KeptJob

Version = Annotated[
    int, Field(ge=0, description="Of the job when it was looked at; an older one is refused.")
]

LocalTime = Annotated[
    str, Field(description="Clock of the shop, without a zone, such as 2027-01-11T08:00:00.")
]


class Sent(BaseModel):
    """What is sent is taken exactly: no other fields, no text for a number."""

    model_config = ConfigDict(extra="forbid", strict=True)


class NewJob(Sent):
    """A job to begin: its text, or the example when there is none."""

    text: Annotated[str | None, Field(max_length=2_000_000, description="The job file, TOML.")] = None


class AtVersion(Sent):
    """Which state of the job was looked at."""

    version: Version


class NewText(AtVersion):
    """The whole job file anew."""

    text: Annotated[str, Field(max_length=2_000_000)]


class Entry(Sent):
    """One entry of the job file to set."""

    path: Annotated[str, Field(max_length=1000, description="Key path, such as piece[0].panel[1].size[0].")]
    new: Annotated[str, Field(max_length=100_000, description="As written in the file; empty takes it out.")]


class Changes(AtVersion):
    """Entries to set or take out, all of them or none."""

    changes: Annotated[list[Entry], Field(min_length=1, max_length=200)]


class WhichRemedy(AtVersion):
    """A remedy by the places of its finding and itself in the answer of `findings`."""

    finding: Annotated[int, Field(ge=0)]
    remedy: Annotated[int, Field(ge=0)]


class JobLine(BaseModel):
    """A job in the list."""

    id: int
    name: str
    version: int


class JobAnswer(JobLine):
    """A job as it stands."""

    text: str
    can_undo: bool
    can_redo: bool
    file: Annotated[str, Field(description="Name of the file it was opened from; empty when it has none.")]


class PieceAnswer(BaseModel):
    """One object of the order and the numbers of its parts."""

    name: str
    kind: str
    count: int
    origin: str
    parts: list[str]


class SketchAnswer(BaseModel):
    """Everything known without layouts."""

    version: int
    parts: list[PartEntry]
    findings: list[FindingEntry]


class Trial(BaseModel):
    """What a change or a remedy would do. Nothing is kept."""

    version: int
    gone: list[FindingEntry]
    come: list[FindingEntry]
    parts: list[PartEntry]


class DrawingLine(BaseModel):
    """A drawing that can be had."""

    part: str
    name: str
    address: str


class PlanAnswer(BaseModel):
    """How far the layouts are."""

    state: Literal["none", "running", "done", "cancelled", "failed"]
    material: str = ""
    number: int = 0
    of: int = 0
    problem: str = ""


class PriceLine(BaseModel):
    """One line of a price. Amounts are decimals as text; none while it is not priced."""

    group: str
    what: str
    quantity: str
    unit: str
    each: str | None
    amount: str | None
    basis: str


class BlankAnswer(BaseModel):
    """Something that is not priced. field : takes the figure; empty where only a file can say it, by `line`."""

    what: str
    field: str
    per: str
    line: str


class PriceAnswer(BaseModel):
    """The price line by line; a lower bound while something is not priced."""

    currency: str
    total: str
    net: str
    cost: str
    at_least: bool
    hours: str
    lines: list[PriceLine]
    missing: list[str]
    blanks: list[BlankAnswer]


class StepAnswer(BaseModel):
    """One step on the calendar."""

    id: str
    title: str
    piece: str
    parts: list[str]
    start: LocalTime
    end: LocalTime
    hand_minutes: float
    done: bool
    after: list[str]
    took_minutes: float | None
    timer_minutes: float | None
    timer_runs: bool


class RackAnswer(BaseModel):
    """One piece of stock in the rack."""

    code: str
    form: str
    material: str
    length_mm: float
    width_mm: float
    thickness_mm: float | None
    place: str
    state: str
    reserved_for: str


class TableAnswer(BaseModel):
    """A table as the papers have it: finished texts."""

    title: str
    columns: list[str]
    rows: list[list[str]]
    note: str = ""


class TaskAnswer(BaseModel):
    """How far something is that is reckoned beside; its tables once it is done."""

    state: Literal["none", "running", "done", "cancelled", "failed"]
    said: str = ""
    problem: str = ""
    tables: list[TableAnswer] = []


def table_answer(table: Table) -> TableAnswer:
    """A table for a program."""
    return TableAnswer(
        title=table.title, columns=[one.title for one in table.columns], rows=[list(row) for row in table.rows],
        note=table.note,
    )  # fmt: skip


def task_answer(task: Task | None, shown: Callable[[], list[TableAnswer]]) -> TaskAnswer:
    """A reckoning for a program. shown : its tables, asked for once it is done."""
    if task is None:
        return TaskAnswer(state="none")
    state = task.state  # read once: the reckoning goes on
    tables = shown() if state == "done" else []
    return TaskAnswer.model_validate(
        {"state": state, "said": task.said, "problem": task.problem, "tables": tables}
    )


def job_answer(job: KeptJob) -> JobAnswer:
    """A job for a program; of its file only the name leaves this machine."""
    return JobAnswer(
        id=job.id, name=job.name, version=job.version, text=job.text, can_undo=job.can_undo,
        can_redo=job.can_redo, file=job.file.name if job.file else "",
    )  # fmt: skip
