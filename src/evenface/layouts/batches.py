"""Parts that are to come from one batch: for each set the batch that holds it for the least, named on its blanks.

Rests and sheets that lie there and of which nobody told the batch serve no set: no two of them are known to be alike.
What is bought at will without a batch counts as bought together, in one.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from evenface.construction import BuiltPanel
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.layouts.plans import Plan, rank
from evenface.layouts.records import Blank, Demand
from evenface.layouts.stock_records import UNTOLD
from evenface.layouts.strips import expand, fits
from evenface.layouts.together import of_batch, standing_plan
from evenface.parts import Part
from evenface.piece.records import BuildUp
from evenface.words import Said, said


def batches_named(
    wanted: Sequence[Blank],
    parts: Sequence[Part],
    panels: Sequence[BuiltPanel],
    buildups: Mapping[str, BuildUp],
) -> list[Blank]:
    """The blanks with the name of their set and the batch written for their layer, as panels and build-ups have it."""
    by_origin = {panel.origin: panel.panel for panel in panels}
    owners = {part.id: by_origin[part.origin] for part in parts if part.origin in by_origin}
    named = []
    for blank in wanted:
        panel = owners.get(blank.part)
        buildup = buildups.get(panel.buildup) if panel is not None else None
        layers = buildup.layers if buildup is not None else ()
        batch = next((layer.batch for layer in layers if layer.role.value == blank.layer), "")
        usual = buildup.same_batch if buildup is not None else ""
        name = panel.same_batch or usual if panel is not None else ""
        named.append(replace(blank, same_batch=name, batch=batch or None))
    return named


def batches_that_suffice(demand: Demand) -> Demand:
    """The demand with a batch on every blank of a set, or with the set given up and a finding that says so.

    Where the stock tells no batches a set stays as it is: all of it is bought together.
    """
    demand = replace(demand, blanks=_carried(demand.blanks))
    wanted = _sets(demand.blanks)
    told = {size.batch for size in demand.stock}
    if not wanted or told == {""}:
        blanks = tuple(replace(blank, batch=None) for blank in demand.blanks)
        notes = tuple(_note(demand, name, held, "") for name, held in wanted.items() if held[0].same_batch)
        return replace(demand, blanks=blanks, findings=(*demand.findings, *notes))
    chosen: dict[str, str | None] = {}
    there: dict[str, list[Blank]] = defaultdict(list)
    findings = list(demand.findings)
    for name, held in sorted(wanted.items(), key=lambda item: -_area(item[1])):
        names = sorted({held[0].batch} if held[0].batch is not None else told - {UNTOLD})
        chosen[name], most = _best(demand, held, names, there)
        batch = chosen[name]
        if batch is None:
            findings.append(_given_up(demand, name, held, names, most))
        else:
            there[batch] += held
            findings.append(_note(demand, name, held, batch))
    named = []
    for blank in demand.blanks:
        name = _set_of(blank)
        batch = chosen[name] if name else None
        named.append(replace(blank, batch=batch, same_batch=blank.same_batch if batch is not None else ""))
    return replace(demand, blanks=tuple(named), findings=tuple(findings))


def _set_of(blank: Blank) -> str:
    """Blanks of a set that already have a batch are told apart from those that look for one."""
    return f"{blank.same_batch}\n{blank.batch or ''}" if blank.same_batch or blank.batch else ""


def _carried(blanks: Sequence[Blank]) -> tuple[Blank, ...]:
    """What comes from one sheet comes from one batch as well, whichever of them names it."""
    first: dict[str, Blank] = {}
    for blank in blanks:
        if blank.same and _set_of(blank):
            first.setdefault(blank.same, blank)
    return tuple(
        replace(blank, same_batch=first[blank.same].same_batch, batch=first[blank.same].batch)
        if blank.same in first
        else blank
        for blank in blanks
    )


def _sets(blanks: Sequence[Blank]) -> dict[str, list[Blank]]:
    wanted: dict[str, list[Blank]] = defaultdict(list)
    for blank in blanks:
        if _set_of(blank):
            wanted[_set_of(blank)].append(blank)
    return wanted


def _best(
    demand: Demand, held: Sequence[Blank], names: Sequence[str], there: Mapping[str, list[Blank]]
) -> tuple[str | None, int]:
    """The batch that holds the set beside what it holds already for the least more; else how many go at most."""
    count = sum(blank.count for blank in held)
    best: tuple[Decimal, str] | None = None
    most = 0
    for name in names:
        before, after = _plan(demand, name, there[name]), _plan(demand, name, [*there[name], *held])
        if after.left:
            most = max(most, count - after.left)
            continue
        more = rank(after, demand.aim)[1] - rank(before, demand.aim)[1]
        if best is None or (more, name) < best:
            best = more, name
    return (best[1], count) if best is not None else (None, most)


def _plan(demand: Demand, batch: str, blanks: Sequence[Blank]) -> Plan:
    stock = of_batch(demand.stock, batch)
    pieces = expand(blanks)
    if not pieces:
        return Plan(())
    able = [piece for piece in pieces if any(fits(piece, size) for size in stock)]
    if not able:
        return Plan((), len(pieces))
    plan = standing_plan(replace(demand, stock=stock), blanks, able, 0, 0)
    return replace(plan, left=plan.left + len(pieces) - len(able))


def _area(held: Sequence[Blank]) -> int:
    return sum(blank.length * blank.width * blank.count for blank in held)


def _note(demand: Demand, name: str, held: Sequence[Blank], batch: str) -> Finding:
    count, title = sum(blank.count for blank in held), name.partition("\n")[0]
    values: dict[str, str | int] = {"name": title, "count": count, "material": demand.material}
    if not title:
        message = said("Of batch {batch}: {count:count} blanks of {material}.", batch=batch, **values)
    elif batch:
        message = said(
            "The set {name}: {count:count} blanks come from batch {batch} of {material}.",
            batch=batch,
            **values,
        )
    else:
        message = said(
            "The set {name}: {count:count} blanks come from {material} bought together: order it in one batch.",
            **values,
        )
    return _finding("layout.of_one_batch", Severity.NOTE, held, count, message)


def _given_up(demand: Demand, name: str, held: Sequence[Blank], names: Sequence[str], most: int) -> Finding:
    count, title = sum(blank.count for blank in held), name.partition("\n")[0]
    values: dict[str, str | int] = {"name": title, "count": count, "material": demand.material, "most": most}
    if held[0].batch:
        message = said(
            "Batch {batch} of {material} holds {most:count} of {count:count} blanks at most: they are laid out "
            "freely.",
            batch=held[0].batch,
            **values,
        )
    else:
        message = said(
            "The set {name} goes into no one batch of {material}: the best holds {most:count} of {count:count} "
            "blanks. They are laid out freely.",
            **values,
        )
    remedies = (
        Remedy(
            "layout.buy_batch",
            said("Buy enough for all of them in one batch and enter it in the stock list."),
        ),
        Remedy(
            "layout.smaller_batch_set", said("Make two sets of it, such as one for each piece of furniture.")
        ),
    )
    return _finding("layout.not_one_batch", Severity.WEIGH, held, most, message, float(count), remedies)


def _finding(
    code: str,
    severity: Severity,
    held: Sequence[Blank],
    value: int,
    message: Said,
    limit: float | None = None,
    remedies: tuple[Remedy, ...] = (),
) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        part=held[0].part,
        at=held[0].layer,
        value=certain(value),
        limit=limit,
        unit="pieces",
        message=message,
        why=said("Sheets of two batches differ in colour and move differently."),
        source="stock list",
        remedies=remedies,
    )
