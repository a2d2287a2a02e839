"""What a job costs and what to ask for it: rate, build-up, own times, past jobs, after-calculation, changes.

Takes: the steps, layouts and quantities of a planned job; the maker's `PriceTable`.
Gives: `Price` with every line and everything that is not priced; `OwnTimes`, `Afterwards`, `Estimate`, `Changed`.
May import: units, errors, toml_places, evidence, words, finding, materials, piece, construction, parts, layouts, workplan.
Start reading at: `build_up.price_of`.
"""  # noqa: E501

from evenface.pricing.build_up import price_of
from evenface.pricing.money import Money, money
from evenface.pricing.rate import rate_of
from evenface.pricing.records import (
    Fitting,
    Group,
    Hours,
    Line,
    Missing,
    Needed,
    Price,
    Rate,
    RateLine,
    SheetUse,
    ToPrice,
)

__all__ = [
    "Fitting",
    "Group",
    "Hours",
    "Line",
    "Missing",
    "Money",
    "Needed",
    "Price",
    "Rate",
    "RateLine",
    "SheetUse",
    "ToPrice",
    "money",
    "price_of",
    "rate_of",
]
