"""The order of work: steps derived from the construction, proved by what wood and glue allow, on a calendar.

Takes: constructions and their parts; the hours worked in a day and the day's date are handed in.
Gives: `Step` records, breaches of an order, glue cards, placed steps, safety lines and a care sheet.
May import: units, errors, evidence, words, finding, materials, piece, construction, parts, layouts.
Start reading at: `steps.derive_steps`, then `order.breaches`.
"""

from evenface.workplan.order import Breach, breaches, one_after_another
from evenface.workplan.records import (
    After,
    BoardToMake,
    Minutes,
    PanelToMake,
    PieceToMake,
    Placed,
    Step,
    Wait,
    Work,
)
from evenface.workplan.rules import Rule
from evenface.workplan.steps import (
    derive_steps,
    joint_findings,
    order_findings,
    panels_to_make,
    pieces_to_make,
)

__all__ = [
    "After",
    "BoardToMake",
    "Breach",
    "Minutes",
    "PanelToMake",
    "PieceToMake",
    "Placed",
    "Rule",
    "Step",
    "Wait",
    "Work",
    "breaches",
    "derive_steps",
    "joint_findings",
    "one_after_another",
    "order_findings",
    "panels_to_make",
    "pieces_to_make",
]
