"""A better plan by constraint programming (the extra `calendar`): shortest finish, then fewest interruptions.

Each task has modes: which crew does it, and how much closed time lies in the middle of it. The moments at which
a task may begin with a given gap are a set of stretches, so hours, free days and absence cost no variables.
People with the same hours are one crew of several and told apart at the end. One worker, a fixed seed and a limit
in the solver's own units make the same input give the same plan.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, replace
from importlib.util import find_spec
from typing import TYPE_CHECKING, Any, Final

from evenface.piece.calendar_records import DAY_MIN
from evenface.workplan.schedule.bounds import heads_of, tails_of
from evenface.workplan.schedule.hours import LEAST_PART_MIN, OpenHours
from evenface.workplan.schedule.problem import Placing, Plan, Problem, Task

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

MOST_MODES: Final = 12
_UNITS_A_SECOND: Final = 0.05
"""The solver's own units of work, of which a slow core does so many in a second."""
_WALL_FACTOR: Final = 3.0
"""By the clock it is stopped after this many times the limit, a guard that should never bite."""


@dataclass(frozen=True, slots=True)
class Mode:
    """One way to do a task: how many of each crew, closed minutes in between, and when it may begin so."""

    crew: tuple[tuple[int, int], ...]
    gap: int
    begins: tuple[tuple[int, int], ...]


def can_improve() -> bool:
    """Whether the extra is installed."""
    return find_spec("ortools") is not None


def improved(plan: Plan, seconds: float, seed: int = 0) -> Plan:
    """The plan, or a better one found within the limit; the bound is raised where the solver proves more.

    Without the extra the plan comes back as it is.
    """
    if not can_improve() or not plan.placings or (plan.proved and not plan.interruptions):
        return plan
    model = _Model(plan)
    best, bound = plan, plan.bound
    if not plan.proved:
        found, proved = model.shortest(0.6 * seconds, seed)
        if found is not None and (plan.late_locks or found.end < plan.end):
            best = found
        if not best.late_locks and proved > bound:
            bound, best = proved, replace(best, bound=proved, bound_by="search")
    if best.late_locks:
        return best
    calm = model.calmest(best, 0.4 * seconds, seed)
    return replace(calm, bound=best.bound, bound_by=best.bound_by) if calm is not None else best


class _Model:
    """The model of a problem between the bound and the end of a plan that is known."""

    def __init__(self, plan: Plan) -> None:
        from ortools.sat.python import cp_model

        self.plan, self.problem = plan, plan.problem
        self.cp: cp_model.CpModel = cp_model.CpModel()
        self.crews = _crews(plan.problem)
        self.heads, _ = heads_of(self.problem)
        self.tails = tails_of(self.problem)
        self.limit = plan.end + (14 * DAY_MIN if plan.late_locks else 0)
        self.start: dict[str, Any] = {}
        self.end: dict[str, Any] = {}
        self.modes: dict[str, list[tuple[Mode, Any]]] = {}
        self.torn: list[Any] = []
        self.finish = self.cp.new_int_var(plan.bound, self.limit, "finish")
        self._everything()

    def _everything(self) -> None:
        hours: dict[tuple[tuple[int, int], ...], OpenHours] = {}
        working: dict[int, list[tuple[Any, int]]] = defaultdict(list)
        holding: dict[str, list[tuple[Any, int]]] = defaultdict(list)
        for task in self.problem.tasks:
            self._task(task, hours, working)
        for task in self.problem.tasks:
            for before, wait in task.after:
                self.cp.add(self.start[task.id] >= self.end[before] + wait)
            self.cp.add(self.finish >= self.end[task.id])
            for hold in task.holds:
                span = self.cp.new_int_var(0, self.limit + DAY_MIN * 400, "")
                until = self.end[task.id] + hold.after_min
                self.cp.add(span == until - self.start[task.id])
                interval = self.cp.new_interval_var(self.start[task.id], span, until, "")
                holding[hold.what].append((interval, hold.amount))
        for number, uses in working.items():
            self.cp.add_cumulative(
                [use for use, _ in uses], [count for _, count in uses], len(self.crews[number])
            )
        for what, uses in holding.items():
            busy = [
                (self.cp.new_fixed_size_interval_var(0, max(1, one.until), ""), one.amount)
                for one in self.problem.taken
                if one.what == what and one.until > 0
            ]
            every = [*uses, *busy]
            self.cp.add_cumulative(
                [use for use, _ in every], [a for _, a in every], self.problem.capacity[what]
            )

    def _task(
        self,
        task: Task,
        hours: dict[tuple[tuple[int, int], ...], OpenHours],
        working: dict[int, list[tuple[Any, int]]],
    ) -> None:
        from ortools.sat.python import cp_model

        latest = self.limit - self.tails[task.id]
        modes = list(_modes(self.problem, task, self.crews, hours, self.heads[task.id], latest))
        every = cp_model.Domain.from_intervals([list(one) for mode in modes for one in mode.begins])
        start = self.cp.new_int_var_from_domain(every, task.id)
        chosen = []
        for mode in modes:
            taken = self.cp.new_bool_var("") if len(modes) > 1 else self.cp.new_constant(1)
            domain = cp_model.Domain.from_intervals([list(one) for one in mode.begins])
            if len(modes) > 1:
                self.cp.add_linear_expression_in_domain(start, domain).only_enforce_if(taken)
            chosen.append((mode, taken))
            length = task.minutes + mode.gap
            interval = self.cp.new_optional_fixed_size_interval_var(start, length, taken, "")
            for number, count in mode.crew:
                working[number].append((interval, count))
        self.cp.add_exactly_one([taken for _, taken in chosen])
        gap = sum(mode.gap * taken for mode, taken in chosen)
        end = self.cp.new_int_var(0, self.limit, "")
        self.cp.add(end == start + task.minutes + gap)
        self.start[task.id], self.end[task.id], self.modes[task.id] = start, end, chosen
        self.torn += [taken for mode, taken in chosen if _overnight(mode, task)]

    def shortest(self, seconds: float, seed: int) -> tuple[Plan | None, int]:
        """The shortest plan found, and the end no plan beats."""
        self._hint(self.plan)
        self.cp.minimize(self.finish)
        solver, fine = self._solve(seconds, seed)
        bound = max(self.plan.bound, round(solver.best_objective_bound)) if fine is not None else 0
        return (self._plan(solver) if fine else None), bound

    def calmest(self, best: Plan, seconds: float, seed: int) -> Plan | None:
        """Of plans as short as this one, one with fewer interruptions; None where none is found."""
        if not best.interruptions or not self.torn:
            return None
        self.cp.add(self.finish <= best.end)
        self._hint(best)
        self.cp.minimize(sum(self.torn))
        solver, fine = self._solve(seconds, seed)
        plan = self._plan(solver) if fine else None
        return plan if plan is not None and plan.interruptions < best.interruptions else None

    def _solve(self, seconds: float, seed: int) -> "tuple[cp_model.CpSolver, bool | None]":
        from ortools.sat.python import cp_model

        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = seed
        solver.parameters.max_deterministic_time = _UNITS_A_SECOND * seconds
        solver.parameters.cp_model_probing_level = 0
        solver.parameters.symmetry_level = 0
        solver.parameters.linearization_level = 0
        solver.parameters.max_time_in_seconds = _WALL_FACTOR * seconds
        status = solver.solve(self.cp)
        if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return solver, True
        return solver, False if status == cp_model.UNKNOWN else None

    def _hint(self, plan: Plan) -> None:
        self.cp.clear_hints()  # type: ignore[no-untyped-call]
        by_task = {one.task: one for one in plan.placings}
        for task in self.problem.tasks:
            one = by_task[task.id]
            self.cp.add_hint(self.start[task.id], one.start)
            crew = _crew_of(one.people, self.crews)
            gap = one.end - one.start - task.minutes
            for mode, taken in self.modes[task.id]:
                if len(self.modes[task.id]) > 1:
                    self.cp.add_hint(taken, mode.crew == crew and mode.gap == gap)

    def _plan(self, solver: "cp_model.CpSolver") -> Plan:
        """People told apart: whoever of the crew is free, the first by name."""
        chosen = []
        for task in self.problem.tasks:
            mode = next(mode for mode, taken in self.modes[task.id] if solver.value(taken))
            start = solver.value(self.start[task.id])
            chosen.append((start, start + task.minutes + mode.gap, task.id, mode))
        free_from = [0] * len(self.problem.people)
        placings = []
        for start, end, name, mode in sorted(chosen, key=lambda one: one[:3]):
            who: list[int] = []
            for number, count in mode.crew:
                who += [one for one in self.crews[number] if free_from[one] <= start][:count]
            for one in who:
                free_from[one] = end
            placings.append(Placing(name, start, end, tuple(sorted(who))))
        return Plan(self.problem, tuple(placings), self.plan.bound, self.plan.bound_by)


def _crews(problem: Problem) -> list[list[int]]:
    """People with the same hours and absence together."""
    found: dict[tuple[object, frozenset[object]], list[int]] = defaultdict(list)
    for number, person in enumerate(problem.people):
        found[(person.week, frozenset(person.absent))].append(number)
    return list(found.values())


def _crew_of(people: Iterable[int], crews: list[list[int]]) -> tuple[tuple[int, int], ...]:
    counts = ((number, sum(one in crew for one in people)) for number, crew in enumerate(crews))
    return tuple((number, count) for number, count in counts if count)


def _groups(crews: list[list[int]], wanted: int) -> list[tuple[tuple[int, int], ...]]:
    """Every way to take so many people out of the crews."""
    found: list[tuple[tuple[tuple[int, int], ...], int]] = [((), wanted)]
    for number, crew in enumerate(crews):
        found = [
            (((*group, (number, count)) if count else group), left - count)
            for group, left in found
            for count in range(min(len(crew), left) + 1)
        ]
    return [group for group, left in found if left == 0]


def _modes(
    problem: Problem,
    task: Task,
    crews: list[list[int]],
    known: dict[tuple[tuple[int, int], ...], OpenHours],
    head: int,
    latest: int,
) -> Iterable[Mode]:
    for group in _groups(crews, task.people):
        if group not in known:
            people = [problem.people[one] for number, count in group for one in crews[number][:count]]
            try:
                known[group] = OpenHours(problem.first, people, problem.closed)
            except ValueError:
                continue
        begins = _begins(task, known[group], head, latest)
        for gap in sorted(begins)[:MOST_MODES]:
            yield Mode(group, gap, tuple(begins[gap]))


def _begins(task: Task, hours: OpenHours, head: int, latest: int) -> dict[int, list[tuple[int, int]]]:
    """Stretches of moments at which the task may begin, by the closed time that then lies within it."""
    last = latest if task.begin_until is None else min(latest, task.begin_until)
    found: dict[int, list[tuple[int, int]]] = defaultdict(list)
    if last < head:
        return found
    for start, _ in hours.stretches(head, last + 1):
        needed = task.minutes if not task.may_split else min(task.minutes, LEAST_PART_MIN)
        stop = min(hours.closing(start) - min(needed, hours.longest), last)
        at = start
        while at <= stop:
            gap = hours.end_of(at, task.minutes) - at - task.minutes
            # the gap stays the same until the end of the work meets the next closing time
            finish = at + task.minutes + gap
            until = min(stop, at + hours.closing(finish - 1) - finish)
            if hours.next_begin(at, task.minutes, task.may_split) == at:
                found[gap].append((at, until))
            at = until + 1
    return found


def _overnight(mode: Mode, task: Task) -> bool:
    """Whether a mode lays the work down over a night, not only over a break."""
    begin = mode.begins[0][0]
    return (begin + task.minutes + mode.gap - 1) // DAY_MIN > begin // DAY_MIN
