"""After-calculation: hours and material taken, beside what was planned, and what that did to the money."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from evenface.pricing.money import Money, decimal_of, money, summed
from evenface.pricing.own_times import Timed
from evenface.pricing.records import MATERIAL, Group, Hours, Price
from evenface.workplan import Step, Work

LEAST_TIMED = 0.5
"""Share of an operation that has to be timed before it says something of all of it."""
_BOUGHT = tuple(group for group in MATERIAL if group is not Group.OFFCUTS)


@dataclass(frozen=True, slots=True)
class Taken:
    """Material really taken: amount in the unit of its lines. price : paid for one, None for as planned."""

    material: str
    amount: Decimal
    price: Decimal | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class OperationAfter:
    """One operation: planned for the steps that were timed, measured, and the money between.

    steps_timed, steps : how many of its steps have a time. difference : planned cost, its risk included, less
    what the measured hours cost; below zero the operation lost money.
    """

    work: Work
    planned_minutes: float
    minutes: float
    steps_timed: int
    steps: int
    difference: Money | None

    @property
    def share(self) -> float | None:
        """Measured as a share of planned; None where nothing was planned."""
        return self.minutes / self.planned_minutes if self.planned_minutes > 0.0 else None

    @property
    def loses(self) -> bool:
        return self.difference is not None and self.difference.amount < 0


@dataclass(frozen=True, slots=True)
class MaterialAfter:
    """One material: planned, taken, and the money between. difference : None where it is not priced."""

    material: str
    title: str
    unit: str
    planned: Decimal
    taken: Decimal
    difference: Money | None


@dataclass(frozen=True, slots=True)
class Afterwards:
    """What a job turned out to be. left : net price less what it cost, the margin that was really earned.

    an_hour : what each hour earned once everything else is paid; None while hours or prices lack.
    untimed : operations of which no time is known; they count as planned. timed : what becomes an own time:
    operations of which at least half is timed.
    """

    operations: tuple[OperationAfter, ...]
    materials: tuple[MaterialAfter, ...]
    planned_cost: Money
    cost: Money
    left: Money
    an_hour: Money | None
    planned_an_hour: Money | None
    hours: Decimal
    planned_hours: Decimal
    untimed: tuple[Work, ...]
    timed: tuple[Timed, ...]

    @property
    def losing(self) -> tuple[OperationAfter, ...]:
        """Operations that lost money, the worst first."""
        found = [one for one in self.operations if one.loses]
        return tuple(sorted(found, key=lambda one: one.difference.amount if one.difference else Decimal(0)))


def after(
    job: str,
    steps: Sequence[Step],
    hours: Sequence[Hours],
    price: Price,
    minutes: Mapping[str, float],
    by_work: Mapping[Work, float] | None = None,
    taken: Sequence[Taken] = (),
    day: str = "",
) -> Afterwards:
    """The after-calculation of a job.

    steps : with the usual estimates. hours : as planned and priced, own times in them. minutes : measured, by
    the id of the step. by_work : measured for a whole operation; goes before single steps. taken : material
    taken, in the unit it was planned in. What has no time or amount counts as planned.
    Raises ValueError for a step or material nobody planned and for a time that is not above zero.
    """
    _refuse(steps, minutes, by_work or {})
    operations = tuple(_operations(steps, hours, price, minutes, by_work or {}))
    materials = tuple(_material(one, price) for one in taken)
    timed = {one.work for one in operations}
    more = summed((one.difference for one in operations if one.difference is not None), price.currency)
    more += summed((one.difference for one in materials if one.difference is not None), price.currency)
    cost = price.cost - more
    hours_taken = _hours_taken(hours, operations)
    return Afterwards(
        operations=operations,
        materials=materials,
        planned_cost=price.cost,
        cost=cost,
        left=price.net - cost,
        an_hour=_an_hour(price, cost, hours_taken) if operations else None,
        planned_an_hour=_an_hour(price, price.cost, price.hours),
        hours=hours_taken,
        planned_hours=price.hours,
        untimed=tuple(one.work for one in hours if one.work not in timed and one.minutes > 0.0),
        timed=tuple(_timed(job, steps, operations, minutes, by_work or {}, day)),
    )


def _operations(
    steps: Sequence[Step],
    hours: Sequence[Hours],
    price: Price,
    minutes: Mapping[str, float],
    by_work: Mapping[Work, float],
) -> Iterator[OperationAfter]:
    for one in hours:
        own = [step for step in steps if step.work is one.work]
        whole = one.work in by_work
        done = own if whole else [step for step in own if step.id in minutes]
        if not done:
            continue
        share = one.minutes / one.usual_minutes if one.usual_minutes > 0.0 else 1.0
        planned = sum(map(_hands, done)) * share
        measured = by_work[one.work] if whole else sum(minutes[step.id] * step.people for step in done)
        cost = _cost(price, one, planned, measured)
        yield OperationAfter(one.work, planned, measured, len(done), len(own), cost)


def _cost(price: Price, one: Hours, planned: float, measured: float) -> Money | None:
    """Planned cost with the operation's risk, in the share that was timed, less what the hours cost."""
    if price.rate.hourly is None:
        return None
    lines = [line for line in price.lines if line.work is one.work and line.amount is not None]
    allowed = summed((line.amount for line in lines if line.amount is not None), price.currency)
    timed = decimal_of(planned / one.minutes) if one.minutes > 0.0 else Decimal(0)
    return allowed.times(timed) - price.rate.hourly.times(decimal_of(measured) / 60)


def _material(taken: Taken, price: Price) -> MaterialAfter:
    """All stock sizes of a material together; what it cost more or less, at the price paid or as planned."""
    lines = [line for line in price.lines if line.material == taken.material and line.group in _BOUGHT]
    if not lines:
        known = ", ".join(dict.fromkeys(line.material for line in price.lines if line.material))
        raise ValueError(f"expected a material of this job ({known}), was given {taken.material}")
    planned = sum((line.quantity for line in lines), start=Decimal(0))
    amounts = [line.amount for line in lines if line.amount is not None]
    difference = None
    if len(amounts) == len(lines) and planned > 0:
        cost = summed(amounts, price.currency)
        paid = (
            money(taken.price * taken.amount, price.currency)
            if taken.price is not None
            else cost.times(taken.amount / planned)
        )
        difference = cost - paid
    return MaterialAfter(taken.material, lines[0].title, lines[0].unit, planned, taken.amount, difference)


def _hours_taken(hours: Sequence[Hours], operations: Sequence[OperationAfter]) -> Decimal:
    by_work = {one.work: one.minutes - one.planned_minutes for one in operations}
    return decimal_of(sum(max(0.0, one.minutes + by_work.get(one.work, 0.0)) for one in hours) / 60.0)


def _an_hour(price: Price, cost: Money, hours: Decimal) -> Money | None:
    """Net price less everything but hours, over the hours taken."""
    if price.rate.hourly is None or price.at_least or hours <= 0:
        return None
    besides = cost - price.rate.hourly.times(hours)
    return (price.net - besides).over(hours)


def _timed(
    job: str,
    steps: Sequence[Step],
    operations: Sequence[OperationAfter],
    minutes: Mapping[str, float],
    by_work: Mapping[Work, float],
    day: str,
) -> Iterator[Timed]:
    usual: dict[Work, float] = defaultdict(float)
    whole: dict[Work, float] = defaultdict(float)
    for step in steps:
        whole[step.work] += _hands(step)
        if step.work in by_work or step.id in minutes:
            usual[step.work] += _hands(step)
    for one in operations:
        if usual[one.work] > 0.0 and one.minutes > 0.0 and usual[one.work] >= LEAST_TIMED * whole[one.work]:
            yield Timed(job, one.work, usual[one.work], one.minutes, day)


def _hands(step: Step) -> float:
    return step.hand_minutes.total * step.people


def _refuse(steps: Sequence[Step], minutes: Mapping[str, float], by_work: Mapping[Work, float]) -> None:
    known = {step.id for step in steps}
    strange = sorted(minutes.keys() - known)
    if strange:
        raise ValueError(f"expected times of steps of this job, was given {', '.join(strange)}")
    for what, time in (*minutes.items(), *((work.value, time) for work, time in by_work.items())):
        if not 0.0 < time < float("inf"):
            raise ValueError(f"expected minutes above 0 of {what}, was given {time}")
