"""Blanks laid out on sheets, rolls and sticks, with the cuts in order, a lower bound and a check.

Takes: blanks, the sizes they may be cut from, and what the saw can do (`Demand`).
Gives: `Layout` for each material: pieces, numbered cuts, offcuts, what is bought, bound, proof, findings.
May import: units, errors, finding, words, evidence, materials, climate, mechanics, shape, piece, construction, parts, behaviour.
Start reading at: `solve.solve_all`.
"""  # noqa: E501

from evenface.layouts.board_findings import BoardWanted, Yield, board_wanted, net_area_mm2, yield_of
from evenface.layouts.breakpoints import BreakPoint, OneMore, break_points, one_more, sizes_tried
from evenface.layouts.by_hand import HandCut, rail_order, shears_order
from evenface.layouts.finishing import settings_of
from evenface.layouts.handling import (
    ApartCut,
    Handled,
    Label,
    cut_apart,
    handled,
    heavy_turns,
    labels_of,
    largest_turned,
    part_labels,
)
from evenface.layouts.merchant import MerchantList, RoughSize, merchant_list
from evenface.layouts.records import (
    Blank,
    Bought,
    Cut,
    Demand,
    Inside,
    Layout,
    Offcut,
    Placed,
    Saw,
    Section,
    Sheet,
)
from evenface.layouts.remaking import Remade, Remaking, remake
from evenface.layouts.solve import Progress, solve_all
from evenface.layouts.stock_records import Flaw, StockSize, Timber
from evenface.layouts.verify import verify
from evenface.layouts.verify_bench import Fault

__all__ = [
    "ApartCut",
    "Blank",
    "BoardWanted",
    "Bought",
    "BreakPoint",
    "Cut",
    "Demand",
    "Fault",
    "Flaw",
    "HandCut",
    "Handled",
    "Inside",
    "Label",
    "Layout",
    "MerchantList",
    "Offcut",
    "OneMore",
    "Placed",
    "Progress",
    "Remade",
    "Remaking",
    "RoughSize",
    "Saw",
    "Section",
    "Sheet",
    "StockSize",
    "Timber",
    "Yield",
    "board_wanted",
    "break_points",
    "cut_apart",
    "handled",
    "heavy_turns",
    "labels_of",
    "largest_turned",
    "merchant_list",
    "net_area_mm2",
    "one_more",
    "part_labels",
    "rail_order",
    "remake",
    "settings_of",
    "shears_order",
    "sizes_tried",
    "solve_all",
    "verify",
    "yield_of",
]
