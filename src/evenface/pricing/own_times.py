"""How long the maker takes: what was measured, as a share of the estimate, and a robust mean of it.

A share keeps what the estimate knows of lengths and areas; halves and doubles weigh alike, so the mean is
taken of logarithms. Huber's estimate of location (tuning 1.345, scale from the median absolute deviation)
lets one spoiled day move the mean little, and gives the plain mean where no job stands out.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from statistics import median
from typing import Annotated, ClassVar, Final

from pydantic import ConfigDict, Field

from evenface.errors import Complaint
from evenface.piece.fields import Day, Line, Positive, Word
from evenface.piece.reader import check_format, gathered
from evenface.piece.source_text import parse, read_text
from evenface.piece.tables import against
from evenface.workplan import Minutes, Step, Work

OWN_TIMES: Final = "own-times.toml"
TUNING: Final = 1.345
MAD_TO_SIGMA: Final = 1.4826
_ROUNDS: Final = 100


@dataclass(frozen=True, slots=True)
class Timed:
    """One operation of one job: minutes estimated before own times, and as measured. Both above zero."""

    job: str
    work: Work
    usual_minutes: float
    minutes: float
    day: str = ""

    def __post_init__(self) -> None:
        if not (0.0 < self.usual_minutes < math.inf and 0.0 < self.minutes < math.inf):
            raise ValueError(
                f"expected minutes above 0 of {self.work.value}, was given {self.usual_minutes}, {self.minutes}"
            )

    @property
    def share(self) -> float:
        return self.minutes / self.usual_minutes


@dataclass(frozen=True, slots=True)
class OwnTime:
    """Own time of an operation as a share of the estimate. low, high : about two jobs of three lie between.

    Both are None while fewer than three jobs are known: then nobody can tell a spread.
    """

    work: Work
    share: float
    jobs: int
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class OwnTimes:
    """Everything that was timed; one entry a job and operation."""

    timed: tuple[Timed, ...] = ()

    def averages(self) -> dict[Work, OwnTime]:
        """The robust mean of each operation that was timed."""
        by_work: dict[Work, list[float]] = defaultdict(list)
        for one in self.timed:
            by_work[one.work].append(one.share)
        return {work: _average(work, by_work[work]) for work in Work if work in by_work}

    def shares(self) -> dict[Work, tuple[float, int]]:
        """What the next estimate multiplies the usual minutes with, and on how many jobs that rests."""
        return {work: (one.share, one.jobs) for work, one in self.averages().items()}

    def with_job(self, timed: Iterable[Timed]) -> "OwnTimes":
        """The same with these; what was known of the same job and operation is replaced."""
        new = {(one.job, one.work): one for one in timed}
        return OwnTimes((*(one for one in self.timed if (one.job, one.work) not in new), *new.values()))


NO_TIMES: Final = OwnTimes()


def robust_mean(values: Sequence[float]) -> tuple[float, float]:
    """Huber's location of the values, and their scale (MAD × 1.4826; 0 when half of them agree).

    Raises ValueError for no values.
    """
    if not values:
        raise ValueError("expected at least one value, was given none")
    centre = median(values)
    scale = MAD_TO_SIGMA * median(abs(value - centre) for value in values)
    if scale <= 1e-12:
        return centre, 0.0
    for _ in range(_ROUNDS):
        weights = [min(1.0, TUNING * scale / max(abs(value - centre), 1e-300)) for value in values]
        moved = sum(w * v for w, v in zip(weights, values, strict=True)) / sum(weights)
        if abs(moved - centre) < 1e-12:
            break
        centre = moved
    return centre, scale


def _average(work: Work, shares: Sequence[float]) -> OwnTime:
    centre, scale = robust_mean([math.log(share) for share in shares])
    if len(shares) < 3:
        return OwnTime(work, math.exp(centre), len(shares))
    return OwnTime(work, math.exp(centre), len(shares), math.exp(centre - scale), math.exp(centre + scale))


def with_own_times(steps: Sequence[Step], own: OwnTimes) -> tuple[Step, ...]:
    """The steps with the maker's own times in place of the estimates, for calendar and cards."""
    from evenface.evidence import Status

    shares = own.shares()
    return tuple(
        replace(
            step,
            hand_minutes=Minutes(
                step.hand_minutes.set_up * shares[step.work][0],
                step.hand_minutes.each * shares[step.work][0],
                step.hand_minutes.pieces,
                Status.MEASURED,
                f"own times, jobs: {shares[step.work][1]}",
            ),
        )
        if step.work in shares
        else step
        for step in steps
    )


# --- the file -----------------------------------------------------------------------------------------


@dataclass(frozen=True, kw_only=True)
class _TimedForm:
    __pydantic_config__: ClassVar[ConfigDict] = ConfigDict(extra="forbid")
    job: Word
    work: Work
    usual: Positive
    minutes: Positive
    day: Day | Annotated[Line, Field(max_length=0)] = ""


@dataclass(frozen=True, kw_only=True)
class _TimesForm:
    __pydantic_config__: ClassVar[ConfigDict] = ConfigDict(extra="forbid")
    format: Annotated[int, Field(strict=True)]
    time: tuple[_TimedForm, ...] = ()


def open_own_times(path: Path) -> OwnTimes:
    """Read `own-times.toml`. Raises FileError holding every complaint."""
    return read_own_times(read_text(path), str(path))


def own_times_beside(job: Path) -> OwnTimes:
    """Own times of the folder the job lies in; none where there is no such file. Raises FileError."""
    path = job.parent / OWN_TIMES
    return open_own_times(path) if path.is_file() else NO_TIMES


def read_own_times(text: str, file: str) -> OwnTimes:
    """Read the text of a file of own times."""
    source = parse(text, file)
    check_format(source)
    complaints: list[Complaint] = []
    form = against(source, dict(source.data), _TimesForm, (), complaints)
    if form is None:
        raise gathered(source, complaints)
    return OwnTimes(tuple(Timed(one.job, one.work, one.usual, one.minutes, one.day) for one in form.time))


def own_times_text(own: OwnTimes) -> str:
    """The file as text: the means as remarks, then what was timed, which is all that is read."""
    lines = [
        "# Minutes as measured, beside what would have been estimated. The means are worked out anew.",
        "format = 1",
    ]
    lines += [_remark(one) for one in own.averages().values()]
    for one in own.timed:
        lines += ["", "[[time]]", *_entry({"job": one.job, "work": one.work.value, "usual": one.usual_minutes,
                                           "minutes": one.minutes, "day": one.day})]  # fmt: skip
    return "\n".join(lines) + "\n"


def _remark(one: OwnTime) -> str:
    spread = f", from {one.low:.2f} to {one.high:.2f}" if one.low is not None and one.high is not None else ""
    return f"# {one.work.value}: {one.share:.2f} of the estimate{spread}, jobs: {one.jobs}"


def _entry(values: Mapping[str, str | float]) -> list[str]:
    import json

    return [
        f"{key} = {json.dumps(value, ensure_ascii=False) if isinstance(value, str) else round(value, 3)}"
        for key, value in values.items()
        if value != ""
    ]
