"""Steps moved by hand: the order follows, whatever it breaks; what it breaks, the checker tells."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from evenface.finding import Finding, Remedy, Severity
from evenface.piece.order_moves import Move
from evenface.words import said
from evenface.workplan.graph import in_order
from evenface.workplan.order import Breach
from evenface.workplan.records import After, Step


def with_moves(steps: Sequence[Step], moves: Sequence[Move]) -> tuple[Step, ...]:
    """The steps with some of them worked elsewhere, and what must go before each put right for that order.

    A moved step forgets what now comes later, and waits for the glue of what it now follows; what stood between
    is handed on. Raises KeyError for a step nobody knows.
    """
    if not moves:
        return tuple(steps)
    known = {step.id: step for step in steps}
    order = list(in_order(steps))
    for move in moves:
        one = known[move.step]
        order.remove(one)
        order.insert(order.index(known[move.target]) + (1 if move.after else 0), one)
    place = {step.id: number for number, step in enumerate(order)}
    needs = {step.id: list(_kept(step, known, place)) for step in order}
    for move in moves:
        _bind(order, place, known, needs, move)
    return tuple(replace(step, after=_longest(needs[step.id])) for step in order)


def unknown_steps(steps: Sequence[Step], moves: Sequence[Move]) -> tuple[tuple[Move, str, str], ...]:
    """Moves that name no step of the plan: the move, the key, and the name given."""
    known = {step.id for step in steps}
    named = [
        (move, key, name)
        for move in moves
        for key, name in (("step", move.step), ("after", move.after), ("before", move.before))
    ]
    return tuple((move, key, name) for move, key, name in named if name and name not in known)


def move_findings(
    told: Sequence[Breach], steps: Sequence[Step], moves: Sequence[Move]
) -> tuple[Finding, ...]:
    """What breaks in the order, each once; the move that is to blame where one is known."""
    known = {step.id: step for step in steps}
    found = []
    for breach in told:
        step = known.get(breach.step)
        move = _to_blame(breach, known, moves)
        finding = Finding(
            code=f"order.{breach.rule.name.lower()}",
            severity=Severity.STOP,
            origin=move.origin if move is not None else "",
            piece=step.piece if step is not None else "",
            part=breach.part,
            at=breach.step,
            message=said("{title}: {told}", title=step.title, told=breach.message)
            if step is not None
            else breach.message,
            why=said("{rule:word}.", rule=breach.rule.value),
            source="the order of work played through step by step",
            remedies=_back(move),
        )
        found.append(finding)
    return tuple(dict.fromkeys(found))


def _back(move: Move | None) -> tuple[Remedy, ...]:
    if move is None:
        return ()
    return (
        Remedy(
            "order.back", said("Take the move of {step} out again, or move it elsewhere.", step=move.step)
        ),
    )


def _to_blame(breach: Breach, known: Mapping[str, Step], moves: Sequence[Move]) -> Move | None:
    """The move of this very step, else one of the same part or piece, else the only one there is."""
    own = next((move for move in moves if move.step == breach.step), None)
    step = known.get(breach.step)
    near = next((m for m in moves if step is not None and known[m.step].piece == step.piece), None)
    return own or near or (moves[0] if len(moves) == 1 else None)


def _kept(step: Step, known: Mapping[str, Step], place: Mapping[str, int]) -> Iterator[After]:
    """What still comes before it; for what does not any more, what that itself waited for.

    What a step before it has forgotten by being moved, it takes over.
    """
    here = place[step.id]
    for after in step.after:
        if place[after.id] < here:
            yield after
            yield from _forgotten(known[after.id], known, place, here)
        else:
            yield from _earlier(known[after.id], known, place, here)


def _forgotten(step: Step, known: Mapping[str, Step], place: Mapping[str, int], here: int) -> Iterator[After]:
    for after in step.after:
        if place[step.id] < place[after.id] < here:
            yield after


def _earlier(step: Step, known: Mapping[str, Step], place: Mapping[str, int], here: int) -> Iterator[After]:
    for after in step.after:
        if place[after.id] < here:
            yield after
        else:
            yield from _earlier(known[after.id], known, place, here)


def _bind(
    order: Sequence[Step],
    place: Mapping[str, int],
    known: Mapping[str, Step],
    needs: Mapping[str, list[After]],
    move: Move,
) -> None:
    """The moved step stays beside its target, and the next step of the same thing after it."""
    one, target = known[move.step], known[move.target]
    if place[target.id] < place[one.id]:
        needs[one.id].append(_behind(target))
    else:
        needs[target.id].append(_behind(one))
    nearest = [step for step in order[place[one.id] + 1 :] if step.piece == one.piece and _same(step, one)]
    if nearest:
        needs[nearest[0].id].append(_behind(one))


def _same(step: Step, one: Step) -> bool:
    return step.part == one.part if step.part and one.part else True


def _behind(step: Step) -> After:
    return After(step.id, step.wait.most_h if step.wait is not None else 0.0)


def _longest(after: Sequence[After]) -> tuple[After, ...]:
    found: dict[str, float] = {}
    for one in after:
        found[one.id] = max(one.wait_h, found.get(one.id, 0.0))
    return tuple(After(step, wait) for step, wait in found.items())
