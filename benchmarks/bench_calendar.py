"""How long the calendar takes and how near it comes: list, like to like, and solver, by size and shop.

    python benchmarks/bench_calendar.py

Times are given as multiples of one list schedule of fifty steps on the same machine. The gap is between the end of
the plan and what no plan can beat, in working hours of the first person. Every plan is looked at a second time.
"""

import random
import time
from collections.abc import Callable
from datetime import date

from evenface.piece.calendar_records import DAY_MIN, Person, week_of
from evenface.workplan.schedule.hours import OpenHours
from evenface.workplan.schedule.improve import can_improve, improved
from evenface.workplan.schedule.listing import list_plan, passes_for
from evenface.workplan.schedule.problem import Hold, Plan, Problem, Task
from evenface.workplan.schedule.tidy import tidied
from evenface.workplan.schedule.verify import faults

MONDAY = date(2027, 1, 11)
SIZES = (50, 150, 300)
SECONDS = 2.0


def shop(count: int, people: int, clamps: int | None, seed: int = 1) -> Problem:
    """Panels of about a dozen steps each: cut, edge twice, flush, bond, trim, finish; they share a beginning."""
    dice = random.Random(seed)
    capacity = {} if clamps is None else {"clamps": clamps}
    tasks = [Task("all", (("all", 1),), 100)]
    while len(tasks) < count:
        panel, last = len(tasks), ("all", 240 * 60)
        for number, wait in enumerate((0, 480, 1440, 0, 120, 0, 0, 1440, 0, 0)):
            glue = number in (1, 2, 4)
            holds = (Hold("clamps", dice.randint(4, 10), 480),) if glue and clamps else ()
            name = f"{panel}-{number}"
            minutes = dice.randint(15, 60)
            tasks.append(Task(name, ((name, 1),), minutes, may_split=not glue, holds=holds, after=(last,)))
            last = (name, wait)
    week = week_of(((480, 720), (750, 930)))
    crew = tuple(Person(f"p{number}", week) for number in range(people))
    return Problem(MONDAY, tuple(tasks[:count]), crew, frozenset(), capacity)


def timed(work: Callable[[], Plan]) -> tuple[Plan, float]:
    """A plan and the seconds it took."""
    started = time.perf_counter()
    plan = work()
    return plan, time.perf_counter() - started


def gap_h(plan: Plan) -> float:
    """Working hours between the end and the bound."""
    hours = OpenHours(plan.problem.first, plan.problem.people[:1], plan.problem.closed)
    return max(0, hours.worked_before(plan.end) - hours.worked_before(plan.bound)) / 60.0


def row(problem: Problem, unit: float) -> str:
    """One line of the table."""
    plan, listed = timed(lambda: list_plan(problem, passes_for(problem)))
    better, solved = timed(lambda: improved(plan, SECONDS)) if can_improve() else (plan, 0.0)
    tidy, put = timed(lambda: tidied(better))
    wrong = sum(len(faults(problem, one.placings, one.bound)) for one in (plan, better, tidy))
    whole_days = plan.end / DAY_MIN
    figures = (
        f"{len(problem.tasks):5} {len(problem.people):6} {problem.capacity.get('clamps', 0) or '-':>6} "
        f"{whole_days:8.1f} {gap_h(plan):9.1f} {gap_h(better):10.1f} {better.proved!s:>7} "
    )
    times = f"{listed / unit:9.0f} {solved / unit:9.0f} {put / unit:6.0f} {listed + solved + put:8.1f}"
    return f"{figures}{times} {wrong:6}"


def main() -> None:
    """Print the table."""
    _, unit = timed(lambda: list_plan(shop(50, 1, None), passes=0))
    print("steps people clamps     days  list gap solver gap  proved  list × solver × tidy × seconds  faults")
    for count in SIZES:
        for people, clamps in ((1, None), (2, None), (1, 40), (2, 40)):
            print(row(shop(count, people, clamps), unit), flush=True)


if __name__ == "__main__":
    main()
