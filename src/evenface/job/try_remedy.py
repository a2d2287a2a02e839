"""What a remedy would do: the job before and after it, as findings, sizes, mass and sheets. Nothing is kept."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from evenface.errors import EvenfaceError
from evenface.finding import Finding, Remedy, Severity
from evenface.job.memory import Memory
from evenface.job.opening import Opened
from evenface.job.order_of_work import order_of_work
from evenface.job.plan import all_demands
from evenface.job.sketch import sketch
from evenface.job.texts import changed
from evenface.layouts import Layout, solve_all
from evenface.parts import Part
from evenface.result import Sketch

_GRAVE = {Severity.STOP: 100, Severity.WEIGH: 10, Severity.NOTE: 1}


@dataclass(frozen=True, slots=True)
class SizeChange:
    """A part whose finished size, mass or layers differ. before, after : None where it is not there."""

    part: str
    before: Part | None
    after: Part | None


@dataclass(frozen=True, slots=True)
class Effect:
    """Before and after. gone, new : findings. sheets : of each material before and after, by strip plans.

    money : what sheets and rolls cost more (below zero: less), None where a price is missing; solid wood is
    not counted.
    hours : of hands, more or less.
    """

    gone: tuple[Finding, ...]
    new: tuple[Finding, ...]
    sizes: tuple[SizeChange, ...]
    mass_kg: tuple[float, float]
    sheets: Mapping[str, tuple[int, int]]
    money: Decimal | None
    hours: float

    @property
    def cleared(self) -> int:
        """Findings cleared less new ones, a stop counting as ten risks and a risk as ten notes."""
        return sum(_GRAVE[one.severity] for one in self.gone) - sum(_GRAVE[one.severity] for one in self.new)


def told(finding: Finding) -> tuple[str, ...]:
    """What makes two findings the same one before and after a change."""
    return (finding.code, finding.origin, finding.piece, finding.part, finding.at)


def came_and_went(
    before: Sequence[Finding], after: Sequence[Finding]
) -> tuple[tuple[Finding, ...], tuple[Finding, ...]]:
    """The findings that go, and those that come."""
    old, new = set(map(told, before)), set(map(told, after))
    return (
        tuple(one for one in before if told(one) not in new),
        tuple(one for one in after if told(one) not in old),
    )


def try_remedy(
    opened: Opened, remedy: Remedy, text: str | None = None, before: Sketch | None = None
) -> Effect:
    """The remedy tried on the job. text : of the job where it does not lie in its file. before : its sketch.

    Raises FileError where the job cannot be read with the remedy's changes.
    """
    memory = Memory()
    old = before if before is not None else sketch(opened, memory=memory)
    varied = changed(opened, remedy.changes, text)
    return effect_of(old, sketch(varied, memory=memory))


def effect_of(before: Sketch, after: Sketch, laid_out: Sequence[Layout] | None = None) -> Effect:
    """Two sketches of a job held against each other; sheets by the quick strip plan.

    laid_out : that plan of `before`, where it is at hand.
    """
    gone, new = came_and_went(before.findings, after.findings)
    old_plan = laid_out if laid_out is not None else _quick(before)
    new_plan = _quick(after)
    sheets = _sheets(old_plan), _sheets(new_plan)
    return Effect(
        gone,
        new,
        _sizes(before, after),
        (_mass(before), _mass(after)),
        {
            name: (sheets[0].get(name, 0), sheets[1].get(name, 0))
            for name in dict.fromkeys([*sheets[0], *sheets[1]])
        },
        _money(old_plan, new_plan),
        _hours(after) - _hours(before),
    )


def ranked(
    opened: Opened, remedies: Sequence[Remedy], text: str | None = None
) -> tuple[tuple[Remedy, Effect], ...]:
    """Remedies with their effects: most cleared first, then least money, then fewest hours.

    One whose money is not known stands behind those of the same worth whose money is. One that cannot be
    applied, or changes nothing, is left out.
    """
    memory = Memory()
    before = sketch(opened, memory=memory)
    laid_out = _quick(before)
    tried = []
    for remedy in dict.fromkeys(remedies):
        if not remedy.changes:
            continue
        try:
            after = sketch(changed(opened, remedy.changes, text), memory=memory)
        except EvenfaceError:
            continue
        tried.append((remedy, effect_of(before, after, laid_out)))
    return tuple(sorted(tried, key=lambda pair: order_key(pair[1])))


def order_key(effect: Effect) -> tuple[int, bool, Decimal, float]:
    """Findings cleared, then money, then hours."""
    return (-effect.cleared, effect.money is None, effect.money or Decimal(0), effect.hours)


def _quick(drafted: Sketch) -> tuple[Layout, ...]:
    return solve_all(all_demands(drafted), budget_s=0.0)


def _sheets(layouts: Sequence[Layout]) -> dict[str, int]:
    return {one.material: len(one.sheets) for one in layouts if _is_sheet(one)}


def _is_sheet(layout: Layout) -> bool:
    return bool(layout.sheets) and layout.sheets[0].form != "stick"


def _money(before: Sequence[Layout], after: Sequence[Layout]) -> Decimal | None:
    """What the stock costs more. A material without a price matters only where more or less of it is bought."""
    old, new = ({one.material: one.bought for one in plans if _is_sheet(one)} for plans in (before, after))
    total = Decimal(0)
    for material in dict.fromkeys([*old, *new]):
        was, now = old.get(material), new.get(material)
        if was == now:
            continue
        prices = [one.price for one in (was, now) if one is not None]
        if any(price is None for price in prices):
            return None
        for one, sign in ((was, -1), (now, 1)):
            if one is not None and one.price is not None:
                total += sign * one.price
    return total


def _sizes(before: Sketch, after: Sketch) -> tuple[SizeChange, ...]:
    old = {(one.piece, one.name): one for one in before.all_parts}
    new = {(one.piece, one.name): one for one in after.all_parts}
    changes = []
    for key in dict.fromkeys([*old, *new]):
        was, now = old.get(key), new.get(key)
        if was is None or now is None or _sized(was) != _sized(now):
            changes.append(SizeChange(", ".join(key), was, now))
    return tuple(changes)


def _sized(part: Part) -> object:
    return (part.finished_mm, round(part.mass_kg, 6), part.layers)


def _mass(drafted: Sketch) -> float:
    return sum(part.count * part.mass_kg for part in drafted.all_parts)


def _hours(drafted: Sketch) -> float:
    """Of all hands. Moves by hand take no time, and a remedy may take away the step one of them speaks of."""
    steps = order_of_work(drafted.constructions, drafted.parts).steps
    return sum(step.hand_minutes.total * step.people for step in steps) / 60.0
