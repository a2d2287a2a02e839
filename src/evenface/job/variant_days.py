"""How many days a variant takes in the job's own shop: its hours, people, free days, clamps, press, steps moved."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta

from evenface.job.opening import Opened
from evenface.job.order_of_work import order_of_work
from evenface.job.shop_days import planner_of
from evenface.piece.calendar_records import Locked
from evenface.piece.order_moves import Move
from evenface.pricing.own_times import OwnTimes
from evenface.result import Sketch

FOR_THE_WHOLE_JOB = "all"


@dataclass(frozen=True, slots=True)
class Days:
    """Hours of all hands with own times, and calendar days from the first morning to the last step, waits included."""

    hours: float
    days: float


def first_day(opened: Opened) -> date:
    """The day the shop begins; where none is said the next Monday, so that no weekend stands at the start."""
    today = date.today()
    return opened.job.calendar.start or today + timedelta(days=-today.weekday() % 7)


def days_of(opened: Opened, drafted: Sketch, own_times: OwnTimes, first: date) -> Days:
    """A variant from its first step on; what is ticked off of the job as it is does not count.

    Moves and locked days of steps the variant does not have are left out. Raises FileError for days that cannot be
    planned.
    """
    plain = order_of_work(drafted.constructions, drafted.parts, 0.0, own_times)
    known = frozenset(step.id for step in plain.steps)
    moves = tuple(one for one in opened.job.moves if {one.step, one.target} <= known)
    locked = tuple(one for one in opened.job.calendar.locked if one.step in known)
    shop = replace(opened.job.calendar, locked=locked)
    varied = replace(
        opened, job=replace(opened.job, moves=moves, calendar=shop), made=replace(opened.made, done=())
    )
    plan = planner_of(varied, drafted, own_times, first.isoformat()).plan()
    hours = sum(one.step.hand_minutes.total * one.step.people for one in plan.placed) / 60.0
    return Days(hours, (plan.finish.date() - first).days + 1.0)


def of_one_piece(opened: Opened, number: int) -> Opened:
    """The job with that piece alone, the first being 1; moves and locked days speak of its steps by their new names."""
    job = opened.job
    shop = replace(job.calendar, locked=tuple(_locked(job.calendar.locked, number)))
    return replace(
        opened,
        job=replace(
            job, pieces=(job.pieces[number - 1],), moves=tuple(_moved(job.moves, number)), calendar=shop
        ),
    )


def _moved(moves: tuple[Move, ...], number: int) -> Iterator[Move]:
    for move in moves:
        step, target = _alone(move.step, number), _alone(move.target, number)
        if step and target:
            yield replace(
                move, step=step, after=target if move.after else "", before="" if move.after else target
            )


def _locked(locked: tuple[Locked, ...], number: int) -> Iterator[Locked]:
    for one in locked:
        step = _alone(one.step, number)
        if step:
            yield replace(one, step=step)


def _alone(step: str, number: int) -> str:
    """The name of a step when its piece stands alone; nothing for a step of another piece."""
    head, dash, tail = step.rpartition("-")
    if head == FOR_THE_WHOLE_JOB:
        return step
    piece, dot, part = head.partition(".")
    return f"1{dot}{part}{dash}{tail}" if piece == str(number) else ""
