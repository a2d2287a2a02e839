"""What is said of a plan while it is made: too large, not enough, interrupted, engine ended, faulty."""

from typing import Final

from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.layouts.records import Blank, Demand
from evenface.units import from_grid
from evenface.words import said

FAILED: Final = "layout.engine_failed"


def too_large(demand: Demand, blank: Blank) -> Finding:
    longest = max(from_grid(stock.usable_length) for stock in demand.stock)
    widest = max(from_grid(stock.usable_width) for stock in demand.stock)
    over = max(from_grid(blank.length) - longest, from_grid(blank.width) - widest)
    return Finding(
        code="layout.too_large",
        severity=Severity.STOP,
        part=blank.part,
        at=blank.layer,
        value=certain(over),
        limit=0.0,
        unit="mm",
        message=said(
            "The {layer:word} blank {length:mm} × {width:mm} goes into no stock of {material}: "
            "{longest:mm} × {widest:mm} is left of the largest inside its trims.",
            layer=blank.layer,
            length=from_grid(blank.length),
            width=from_grid(blank.width),
            material=demand.material,
            longest=longest,
            widest=widest,
        ),
        source="sizes of supply",
        remedies=(Remedy("layout.other_stock", said("Buy a larger size, or make it in two parts.")),),
    )


def not_enough(demand: Demand, left: int) -> Finding:
    return Finding(
        code="layout.not_enough_stock",
        severity=Severity.STOP,
        value=certain(left),
        limit=0.0,
        unit="pieces",
        message=said(
            "There is not enough {material} in stock: {left:count} pieces are left over.",
            material=demand.material,
            left=left,
        ),
        source="stock list",
        remedies=(Remedy("layout.buy", said("Add a size that can be bought to the stock list.")),),
    )


def no_bound(demand: Demand, problem: str) -> Finding:
    return Finding(
        code=FAILED,
        severity=Severity.NOTE,
        message=said(
            "For {material} no better bound was found: {problem:word}.",
            material=demand.material,
            problem=problem,
        ),
        source="layouts",
    )


def engine_failed(demand: Demand, problem: str) -> Finding:
    return Finding(
        code=FAILED,
        severity=Severity.NOTE,
        message=said(
            "For {material} our own strip plan stands: {problem:word}.",
            material=demand.material,
            problem=problem,
        ),
        source="layouts",
    )


def interrupted(demand: Demand) -> Finding:
    return Finding(
        code="layout.interrupted",
        severity=Severity.NOTE,
        message=said(
            "The search for {material} was interrupted; the best plan found so far stands.",
            material=demand.material,
        ),
        source="layouts",
    )


def fault(demand: Demand, rule: str, what: str) -> Finding:
    return Finding(
        code="layout.faulty",
        severity=Severity.STOP,
        message=said(
            "The layout of {material} breaks the rule {rule} at {what}: do not cut from it.",
            material=demand.material,
            rule=rule,
            what=what,
        ),
        source="second look at the layout",
    )
