"""Precedence as a graph: an order that keeps it, and the longest way through it."""

from collections.abc import Mapping, Sequence

from evenface.workplan.records import Step


def in_order(steps: Sequence[Step]) -> tuple[Step, ...]:
    """The steps in an order that keeps every `after`, otherwise as given.

    Raises ValueError for an id twice, an `after` that is no step, or a circle, naming the steps.
    """
    known = {step.id: step for step in steps}
    if len(known) != len(steps):
        raise ValueError("expected every step once, was given an id twice")
    for step in steps:
        for before in step.after:
            if before.id not in known:
                raise ValueError(f"{step.id}: expected a known step before it, was given {before.id!r}")
    done: dict[str, Step] = {}
    left = list(steps)
    while left:
        ready = next((s for s in left if all(before.id in done for before in s.after)), None)
        if ready is None:
            raise ValueError(f"these steps wait for each other: {', '.join(step.id for step in left)}")
        done[ready.id] = ready
        left.remove(ready)
    return tuple(done.values())


def tails_h(steps: Sequence[Step]) -> Mapping[str, float]:
    """Hours from the beginning of each step to the end of everything that depends on it, waits included.

    Work is counted as if hands never rested, so the longest tail is a bound no calendar can beat.
    """
    found: dict[str, float] = {}
    follow: dict[str, list[tuple[Step, float]]] = {step.id: [] for step in steps}
    for step in steps:
        for before in step.after:
            follow[before.id].append((step, before.wait_h))
    for step in reversed(in_order(steps)):
        rest = max((wait + found[after.id] for after, wait in follow[step.id]), default=0.0)
        found[step.id] = step.hand_minutes.total / 60.0 + rest
    return found
