"""Blanks laid out on sheets, rolls and sticks, with the cuts in order, a lower bound and a check.

Takes: blanks, the sizes they may be cut from, and what the saw can do (`Demand`).
Gives: `Layout` for each material: pieces, numbered cuts, offcuts, what is bought, bound, proof, findings.
May import: units, errors, finding, words, evidence, materials, climate, mechanics, shape, piece, construction, parts, behaviour.
Start reading at: `solve.solve_all`.
"""  # noqa: E501

from evenface.layouts.breakpoints import BreakPoint, OneMore, break_points, one_more
from evenface.layouts.records import (
    Blank,
    Bought,
    Cut,
    Demand,
    Flaw,
    Inside,
    Layout,
    Offcut,
    Placed,
    Saw,
    Section,
    Sheet,
    StockSize,
    Timber,
)
from evenface.layouts.solve import Progress, solve_all
from evenface.layouts.verify import Fault, verify

__all__ = [
    "Blank",
    "Bought",
    "BreakPoint",
    "Cut",
    "Demand",
    "Fault",
    "Flaw",
    "Inside",
    "Layout",
    "Offcut",
    "OneMore",
    "Placed",
    "Progress",
    "Saw",
    "Section",
    "Sheet",
    "StockSize",
    "Timber",
    "break_points",
    "one_more",
    "solve_all",
    "verify",
]
