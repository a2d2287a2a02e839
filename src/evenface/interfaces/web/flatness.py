"""What the pages of flatness do: the year of a part, its backers side by side, widths of wood, a remedy's effect."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from evenface.behaviour import Behaviour, Direction
from evenface.construction.room_air import USUAL_PLACE, USUAL_ROOM
from evenface.documents.choice_tables import backers_table, limits_table
from evenface.documents.display import DASH, size
from evenface.documents.flat_tables import range_text
from evenface.documents.money_text import sum_text
from evenface.documents.tables import Table, table
from evenface.errors import Complaint, FileError, Place
from evenface.interfaces.web.desk import Trial, View
from evenface.interfaces.web.reckoning import Task
from evenface.interfaces.web.site import Site, digest
from evenface.job.backers import BackerRow, backers
from evenface.job.limits import LimitQuestion, width_limits
from evenface.job.try_remedy import Effect, effect_of
from evenface.parts import Part
from evenface.store import KeptJob
from evenface.units import number_text, read_length
from evenface.words import Manner, figure


def backers_of(site: Site, job: KeptJob, view: View, part: str, again: bool = False) -> Task:
    """Every way to back the part "piece, name", reckoned beside the page; its value is a tuple of `BackerRow`."""

    def work(task: Task) -> tuple[BackerRow, ...]:
        return backers(view.opened, part)

    return site.reckoner.ask(f"backers {job.id} {_digest(view)} {part}", work, again)


def backers_shown(rows: tuple[BackerRow, ...], part: str, currency: str, manner: Manner) -> Table:
    """The same as a table."""
    return backers_table(
        [(one.title, one.behaviour, one.cost_per_m2) for one in rows], part, currency, manner
    )


def question_of(view: View, form: Mapping[str, str]) -> LimitQuestion:
    """What is asked of the widths of wood; what is not named is as in the job, else as usual. Raises FileError."""
    job = view.sketch.job
    asked = LimitQuestion(
        "oak", place=job.place or USUAL_PLACE, room=job.room or USUAL_ROOM,
        bonded_at=job.shop_humidity if job.shop_humidity is not None else 0.5,
    )  # fmt: skip
    word = {key: form.get(key, "").strip() for key in ("wood", "cut", "facing", "board", "glue")}
    asked = replace(
        asked, wood=word["wood"] or asked.wood, cut=word["cut"] or asked.cut, facing=word["facing"] or asked.facing,
        board=word["board"] or asked.board, glue=word["glue"] or asked.glue,
    )  # fmt: skip
    if form.get("thickness", "").strip():
        try:
            asked = replace(asked, thickness_mm=read_length(form["thickness"]))
        except ValueError as problem:
            complaint = Complaint(Place(key="thickness"), "a length such as 20", repr(form["thickness"][:40]))
            raise FileError([complaint]) from problem
    return asked


def limits_shown(view: View, asked: LimitQuestion, manner: Manner) -> Table:
    """The largest safe widths. Raises MissingWord, FileError."""
    ground, limits = width_limits(asked, view.opened.catalogue)
    return limits_table(ground, limits, manner)


def effect_task(site: Site, job: KeptJob, trial: Trial) -> Task:
    """What a remedy does in numbers, reckoned beside the page; its value is an `Effect`."""

    def work(task: Task) -> Effect:
        return effect_of(trial.before.sketch, trial.after.sketch)

    return site.reckoner.ask(f"effect {job.id} {_digest(trial.before)} {_digest(trial.after)}", work)


def effect_shown(found: Effect, trial: Trial, part: str, currency: str, manner: Manner) -> Table:
    """Before and after, and the difference: sizes, flatness of the part, weight, sheets, hours, money."""
    word = manner.translate
    rows = [
        (
            f"{manner.name(one.part)}, {word('finished size')}",
            _finished(one.before, manner),
            _finished(one.after, manner),
            "",
        )
        for one in found.sizes
        if one.before is None or one.after is None or one.before.finished_mm != one.after.finished_mm
    ]
    rows += _bends(trial, part, manner)
    before, after = found.mass_kg
    rows.append(
        (word("weight, kg"), figure(before, 1, manner), figure(after, 1, manner), _more(after - before, 1))
    )
    rows += [
        (f"{word('sheets')}, {name}", str(was), str(now), _more(now - was, 0))
        for name, (was, now) in found.sheets.items()
        if was != now
    ]
    rows.append((word("hours"), "", "", _more(found.hours, 1)))
    money = word("no price") if found.money is None else _dearer(found.money, currency, manner)
    rows.append((word("sheets and rolls, money"), "", "", money))
    return table("In numbers", ("", ">before", ">after", ">difference"), rows, manner=manner)


def _bends(trial: Trial, part: str, manner: Manner) -> list[tuple[str, str, str, str]]:
    rows = []
    for way in (Direction.BOW, Direction.CUP):
        before, after = (_worst(year_of(view, part), way, manner) for view in (trial.before, trial.after))
        if before != after:
            unit = manner.length_unit
            rows.append((f"{manner.translate(way.value)} [{unit}]", before, after, ""))
    return rows


def _worst(year: Behaviour | None, way: Direction, manner: Manner) -> str:
    return DASH if year is None else range_text(year.bend(way).worst, manner)


def year_of(view: View, part: str) -> Behaviour | None:
    """The behaviour of the part of that number; None where flatness is not known."""
    for one, year in zip(view.sketch.parts, view.sketch.behaviours, strict=False):
        if one.id == part:
            return year
    return None


def _finished(part: Part | None, manner: Manner) -> str:
    return DASH if part is None else size(part.finished_mm, manner=manner)


def _more(difference: float, decimals: int) -> str:
    text = number_text(abs(difference), decimals)
    return "0" if float(text) == 0.0 else f"{'+' if difference > 0 else '−'}{text}"


def _dearer(difference: Decimal, currency: str, manner: Manner) -> str:
    """A difference of money with its sign."""
    sign = "" if difference == 0 else "+" if difference > 0 else "−"
    return sign + sum_text(abs(difference), currency, manner)


def _digest(view: View) -> str:
    return digest(repr(sorted(view.opened.hashes.items())).encode())
