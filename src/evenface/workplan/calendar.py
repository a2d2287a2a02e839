"""Steps on the calendar: what a plan of tasks means for each step, for one person or a whole shop.

Hours count from midnight of the first day. `schedule` is the short way for one person without limits;
`plan_shop` takes people, free days, clamps, press, locked days and ticks.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta

from evenface.piece.calendar_records import Done, Person, ShopCalendar, week_of
from evenface.workplan.records import Placed, Step
from evenface.workplan.schedule.listing import list_plan, passes_for
from evenface.workplan.schedule.loads import Need
from evenface.workplan.schedule.problem import Placing, Plan
from evenface.workplan.schedule.tasks import ToPlan, problem_of
from evenface.workplan.schedule.tidy import tidied
from evenface.workplan.schedule.verify import faults

_QUICK_PASSES = 3


@dataclass(frozen=True, slots=True)
class WorkDays:
    """When the shop is open: from `opens_h` for `hours` on these weekdays (0 = Monday), not on free days.

    Raises ValueError for a day that does not fit into 24 hours or a week without a working day.
    """

    first: date
    hours: float = 7.0
    opens_h: float = 8.0
    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4)
    free: frozenset[date] = field(default_factory=frozenset)

    def __post_init__(self) -> None:
        if not (self.hours > 0.0 and self.opens_h >= 0.0 and self.opens_h + self.hours <= 24.0):
            raise ValueError(
                f"expected hours within one day, was given {self.hours} from {self.opens_h} o'clock"
            )
        if not set(self.weekdays) & set(range(7)):
            raise ValueError(f"expected at least one working day of 0 to 6, was given {self.weekdays}")

    def clock(self, hour: float) -> datetime:
        """Date and time of that hour, to the minute."""
        return datetime.combine(self.first, time()) + timedelta(minutes=round(hour * 60.0))

    def as_shop(self) -> ShopCalendar:
        """One person at these hours, nothing else counted."""
        opens, closes = round(self.opens_h * 60.0), round((self.opens_h + self.hours) * 60.0)
        person = Person("", week_of(((opens, max(closes, opens + 1)),), self.weekdays))
        return ShopCalendar(self.first, (person,), self.free)


@dataclass(frozen=True, slots=True)
class Schedule:
    """Placed steps in the order they begin; the last hour of work, and the hour no plan can beat.

    bound_by : "waits" when the longest way through decides the bound, "hands" when the work of the people,
    "clamps", "press" or "bench" when these are short, "search" when a solver proved it.
    plan : the tasks behind the steps. ticked : steps that are done. lacking_hands : steps that ask for more people
    than the shop has.
    """

    days: WorkDays
    placed: tuple[Placed, ...]
    end_h: float
    bound_h: float
    bound_by: str
    plan: Plan | None = None
    ticked: frozenset[str] = frozenset()
    lacking_hands: tuple[str, ...] = ()

    @property
    def finish(self) -> datetime:
        return self.days.clock(self.end_h)

    @property
    def bound(self) -> datetime:
        return self.days.clock(self.bound_h)

    @property
    def proved(self) -> bool:
        """Whether no plan can be shorter."""
        return self.plan is not None and self.plan.proved

    def people_of(self, step: str) -> tuple[str, ...]:
        """Who works on a step, in the order of the job file; empty names left out."""
        return tuple(self._people[who].name for who in sorted(self._who(step)) if self._people[who].name)

    def tasks_of(self, step: str) -> tuple[Placing, ...]:
        """The goes in which a step is done."""
        if self.plan is None:
            return ()
        own = {task.id for task in self.plan.problem.tasks if any(s == step for s, _ in task.pieces)}
        return tuple(one for one in self.plan.placings if one.task in own)

    @property
    def _people(self) -> tuple[Person, ...]:
        return self.plan.problem.people if self.plan is not None else ()

    def _who(self, step: str) -> set[int]:
        return {who for one in self.tasks_of(step) for who in one.people}


def schedule(steps: Sequence[Step], days: WorkDays) -> Schedule:
    """Place every step for one person. Raises ValueError for steps that wait for each other."""
    to_plan = problem_of(steps, days.as_shop(), days.first)
    return schedule_of(steps, list_plan(to_plan.problem, _QUICK_PASSES), to_plan)


def plan_shop(
    steps: Sequence[Step],
    shop: ShopCalendar,
    first: date,
    needs: Mapping[str, Need] | None = None,
    done: Sequence[Done] = (),
    now: int = 0,
    seconds: float = 0.0,
) -> Schedule:
    """Place every step with what the shop has, from `now` (minutes from midnight of `first`) on.

    seconds : time a solver may search for a better plan; 0 for the list schedule alone. Without the extra
    `calendar` installed the list schedule stands. Raises ValueError for steps that wait for each other and
    for people who never meet.
    """
    to_plan = problem_of(steps, shop, first, needs, done, now)
    plan = list_plan(to_plan.problem, passes_for(to_plan.problem))
    if seconds > 0.0 and to_plan.problem.tasks:
        from evenface.workplan.schedule.improve import improved

        plan = improved(plan, seconds)
    plan = tidied(plan)
    wrong = faults(plan.problem, plan.placings, plan.bound, plan.late_locks)
    if wrong:
        raise AssertionError(f"the second look finds faults in the plan: {wrong[:3]}")
    return schedule_of(steps, plan, to_plan)


def schedule_of(steps: Sequence[Step], plan: Plan, to_plan: ToPlan) -> Schedule:
    """What a plan of tasks means for the steps: each begins with its first go and ends with its last."""
    times = {name: (one.start, one.end) for name, one in to_plan.ticked.items()}
    by_task = {one.task: one for one in plan.placings}
    for task in plan.problem.tasks:
        one = by_task[task.id]
        for step, _ in task.pieces:
            start, end = times.get(step, (one.start, one.end))
            times[step] = min(start, one.start), max(end, one.end)
    placed = [Placed(step, times[step.id][0] / 60.0, times[step.id][1] / 60.0) for step in steps]
    number = {step.id: at for at, step in enumerate(steps)}
    placed.sort(key=lambda one: (one.start_h, one.end_h, number[one.step.id]))
    end = max([plan.end, *(one.end for one in to_plan.ticked.values())])
    return Schedule(
        days=_days_of(plan),
        placed=tuple(placed),
        end_h=end / 60.0,
        bound_h=max(plan.bound, 0 if plan.placings else end) / 60.0,
        bound_by=plan.bound_by,
        plan=plan,
        ticked=frozenset(to_plan.ticked),
        lacking_hands=to_plan.lacking_hands,
    )


def _days_of(plan: Plan) -> WorkDays:
    """Only the first day is asked of it; the hours are those of the first person on the longest day."""
    week = plan.problem.people[0].week
    opens, closes = max(((day[0][0], day[-1][1]) for day in week if day), key=lambda d: d[1] - d[0])
    weekdays = tuple(number for number, day in enumerate(week) if day)
    closed = plan.problem.closed
    return WorkDays(plan.problem.first, (closes - opens) / 60.0, opens / 60.0, weekdays, closed)
