"""Up to six variants of a job side by side, each through the whole chain; what they share is reckoned once."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Final

from evenface.behaviour import Behaviour, Direction
from evenface.errors import Complaint, EvenfaceError, FileError, MissingWord, Place, Sentence
from evenface.finding import Severity
from evenface.job.memory import Memory
from evenface.job.opening import Opened
from evenface.job.plan import LAYOUT_BUDGET_S, all_demands, result_of
from evenface.job.pricing import Prices, price_job, prices_for
from evenface.job.sketch import sketch
from evenface.job.texts import changed, text_of
from evenface.job.variant_days import days_of, first_day, of_one_piece
from evenface.layouts import Demand, Layout, solve_all
from evenface.layouts.engine import Engine
from evenface.piece.brief_records import Alternative
from evenface.piece.wanted import MOST_VARIANTS
from evenface.pricing import Price
from evenface.result import Result
from evenface.words import said

AS_IT_IS: Final = "as it is"


@dataclass(frozen=True, slots=True)
class Column:
    """One variant.

    sheets : whole sheets bought, roll_m : running metres. hours : of all hands, with own times. days : calendar
    days from the morning work begins to the end of the last step, waits included, in the job's own shop.
    why_not : why the variant could not be made of the job; everything else is then empty.
    """

    name: str
    alternative: Alternative
    mass_kg: float = 0.0
    sheets: int = 0
    roll_m: float = 0.0
    hours: float = 0.0
    days: float = 0.0
    price: Price | None = None
    stops: int = 0
    weighs: int = 0
    notes: int = 0
    why_not: Sentence = ""
    result: Result | None = None

    def behaviour(self, part: tuple[str, str]) -> Behaviour | None:
        """A part of the variant through the year; None where the variant has no such part."""
        known = self.result.sketch.behaviours if self.result is not None else ()
        return next((one for one in known if (one.piece, one.part) == part), None)


@dataclass(frozen=True, slots=True)
class Comparison:
    """All variants, the job as it is first.

    piece : the one compared, or "" for the whole job. first : the day from which each variant's days are counted.
    part : piece and name of the part whose flatness the
    variants change most, or of the first where they change none. seconds : in all, solver_seconds : of them.
    locale : as the prices are written.
    """

    columns: tuple[Column, ...]
    piece: str
    first: date
    part: tuple[str, str]
    seconds: float
    solver_seconds: float
    shared_layouts: int
    locale: str = ""


class _Shared:
    """Layouts by what was asked: the same demand is laid out once, whichever variant asks."""

    def __init__(self, budget_s: float, seed: int, engine: Engine) -> None:
        self.known: list[tuple[Demand, Layout]] = []
        self.left_s, self.seed, self.engine = budget_s, seed, engine
        self.hits, self.seconds = 0, 0.0

    def layouts(self, demands: Sequence[Demand], share: float) -> tuple[Layout, ...]:
        """One layout a demand; new ones get their share of what is left of the solver's time."""
        new = [one for one in demands if self._find(one) is None]
        self.hits += len(demands) - len(new)
        started = time.perf_counter()
        made = solve_all(new, self.left_s * share, self.seed, engine=self.engine) if new else ()
        self.seconds += time.perf_counter() - started
        self.left_s = max(0.0, self.left_s - (time.perf_counter() - started))
        self.known += zip(new, made, strict=True)
        found = (self._find(one) for one in demands)
        return tuple(layout for layout in found if layout is not None)

    def _find(self, demand: Demand) -> Layout | None:
        return next((layout for asked, layout in self.known if asked == demand), None)


def alternatives(
    opened: Opened,
    variants: Sequence[Alternative] | None = None,
    piece: str = "",
    prices: Prices | None = None,
    budget_s: float = LAYOUT_BUDGET_S,
    seed: int = 0,
    text: str | None = None,
    progress: Callable[[int, int, str], None] | None = None,
) -> Comparison:
    """The job as it is and each variant, planned and priced.

    variants : default those of the job's `[[variant]]`. piece : only this piece, by name. prices : default
    those of the job and of the file beside it. budget_s : the
    solver's time for all variants together. text : the job's text where it does not lie in its file.
    progress : told before each variant its number, how many there are, and its name; what it raises ends it all.
    Raises MissingWord for a piece nobody knows, FileError for more than six variants or none.
    """
    started = time.perf_counter()
    asked = tuple(variants if variants is not None else opened.job.variants)
    _check(opened, asked, piece)
    words = text if text is not None else text_of(opened)
    terms = prices if prices is not None else prices_for(opened)
    memory, engine, first = Memory(), Engine(), first_day(opened)
    shared = _Shared(budget_s, seed, engine)
    columns = []
    try:
        for number, one in enumerate((Alternative(AS_IT_IS, ()), *asked)):
            share = 1.0 / (len(asked) + 1 - number)
            if progress is not None:
                progress(number + 1, len(asked) + 1, one.name)
            columns.append(_column(opened, one, words, piece, terms, first, memory, shared, share))
    finally:
        engine.close()
    part = most_changed(columns)
    seconds = time.perf_counter() - started
    return Comparison(
        tuple(columns), piece, first, part, seconds, shared.seconds, shared.hits, terms.table.locale
    )


def _check(opened: Opened, asked: Sequence[Alternative], piece: str) -> None:
    names = tuple(one.name for one in opened.job.pieces)
    if piece and piece not in names:
        raise MissingWord("piece", piece, names)
    if not 0 < len(asked) <= MOST_VARIANTS:
        raise FileError(
            [
                Complaint(
                    Place(opened.job.file, key="variant"),
                    said("one to {most} [[variant]] tables", most=MOST_VARIANTS),
                    str(len(asked)),
                    'Write [[variant]], name = "…", changes = { "buildup.NAME.carrier" = "mdf-22" }.',
                )
            ]
        )


def _column(
    opened: Opened,
    one: Alternative,
    text: str,
    piece: str,
    prices: Prices,
    first: date,
    memory: Memory,
    shared: _Shared,
    share: float,
) -> Column:
    try:
        varied = _only(changed(opened, one.changes, text) if one.changes else opened, piece)
    except EvenfaceError as fault:
        return Column(one.name, one, why_not=fault.sentence)
    started = time.perf_counter()
    drafted = sketch(varied, memory=memory)
    layouts = shared.layouts(all_demands(drafted), share)
    result = result_of(varied, drafted, layouts, shared.seed, started)
    return _filled(Column(one.name, one), varied, result, prices, first)


def _only(opened: Opened, piece: str) -> Opened:
    if not piece:
        return opened
    names = tuple(one.name for one in opened.job.pieces)
    if piece not in names:
        raise MissingWord("piece", piece, names)
    return of_one_piece(opened, names.index(piece) + 1)


def _filled(column: Column, opened: Opened, result: Result, prices: Prices, first: date) -> Column:
    days = days_of(opened, result.sketch, prices.own_times, first)
    count = {level: sum(one.severity is level for one in result.findings) for level in Severity}
    bought = [one for layout in result.layouts for one in layout.sheets if one.form != "stick"]
    return replace(
        column,
        mass_kg=sum(part.count * part.mass_kg for part in result.sketch.all_parts),
        sheets=sum(one.form != "roll" for one in bought),
        roll_m=sum(row.amount for row in result.buying if row.form == "roll"),
        hours=days.hours,
        days=days.days,
        price=price_job(opened, result, prices),
        stops=count[Severity.STOP],
        weighs=count[Severity.WEIGH],
        notes=count[Severity.NOTE],
        result=result,
    )


def most_changed(columns: Sequence[Column]) -> tuple[str, str]:
    """Piece and name of the part whose bow or cup differs most between the variants."""
    spread: dict[tuple[str, str], list[tuple[float, float]]] = {}
    for column in columns:
        for one in column.result.sketch.behaviours if column.result is not None else ():
            bends = (one.bend(Direction.BOW).deciding_mm, one.bend(Direction.CUP).deciding_mm)
            spread.setdefault((one.piece, one.part), []).append((abs(bends[0]), abs(bends[1])))
    return max(spread, key=lambda part: _range(spread[part]), default=("", ""))


def _range(bends: Sequence[tuple[float, float]]) -> float:
    bows, cups = zip(*bends, strict=True)
    return float(max(max(bows) - min(bows), max(cups) - min(cups)))
