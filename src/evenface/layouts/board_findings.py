"""What boards give and lack: the share that ends up in the piece, and the board still to be bought."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from math import ceil
from typing import Final

from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.layouts.boards import board_plan
from evenface.layouts.demand import SHEET_ROLES
from evenface.layouts.lengths import pack_lengths
from evenface.layouts.records import Demand, Layout
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import expand
from evenface.parts import Part
from evenface.units import from_grid, grid_up
from evenface.words import said

RIPPED_BESIDE_MM = 10.0
"""COMMON PRACTICE: a rough edge jointed straight on each side, beyond the strips themselves."""

MOST_TRIED: Final = 300
"""For more pieces the board is reckoned and not planned with."""
MOST_WIDENED: Final = 8


@dataclass(frozen=True, slots=True)
class BoardWanted:
    """The least board that would hold what is left: length and width inside trims and bark, thickness. [mm]"""

    length_mm: float
    width_mm: float
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class Yield:
    """Of sticks and boards: area cut into blanks, area bought, and their shares.

    ripped : blanks / bought. net : what is left of it in the piece, net / bought; None when no net is known.
    """

    bought_m2: float
    blanks_m2: float
    ripped: float
    net: float | None


def yield_of(demand: Demand, layout: Layout, net_mm2: float | None = None) -> Yield:
    """How much of the bought wood becomes blanks and, with the net area of them known, piece.

    Areas are seen from above; what is planed off the thickness is not in them. Sticks count by length times
    the width of their section.
    """
    wide = (
        demand.section.width
        if demand.section is not None and layout.sheets and layout.sheets[0].form == "stick"
        else 1
    )
    bought = sum(sheet.area for sheet in layout.sheets) * wide / 1e10
    blanks = sum(sheet.pieces_area for sheet in layout.sheets) * wide / 1e10
    net = net_mm2 / 1e6 / bought if net_mm2 is not None and bought else None
    return Yield(bought, blanks, blanks / bought if bought else 0.0, net)


def net_area_mm2(layout: Layout, parts: Sequence[Part]) -> float:
    """What of a layout of sticks or boards is seen from above in the finished piece. [mm²]

    parts : of the job, finished. Each stick counts with its finished length and width.
    """
    wood = layout.section.wood if layout.section is not None else layout.material
    sizes = {
        (part.id, grid_up(layer.blank_mm[0])): layer.net_mm
        for part in parts
        for layer in part.layers
        if layer.material == wood and layer.role not in SHEET_ROLES
    }
    net = 0.0
    for sheet in layout.sheets:
        for piece in (one for placed in sheet.placed for one in placed.apart):
            long, wide, _ = sizes.get((piece.part, piece.length), (0.0, 0.0, 0.0))
            net += long * wide
    return net


def board_wanted(demand: Demand, left: Sequence[tuple[str, int]]) -> BoardWanted | None:
    """The board with which nothing is left over: strips as long as the longest of it, side by side.

    All boards are planned once more with it: where that needs more strips than reckoned, it is made wider.
    """
    blanks = {blank.id: blank for blank in demand.blanks}
    wanted = Counter(dict(left))
    pieces = [blanks[name] for name, count in wanted.items() for _ in range(count) if name in blanks]
    if not pieces:
        return None
    kerf, trim = demand.saw.kerf, max(stock.trim for stock in demand.stock)
    longest = max(piece.length for piece in pieces)
    width = grid_up(RIPPED_BESIDE_MM) - kerf
    for strip in sorted({piece.width for piece in pieces}):
        lengths = [piece.length for piece in pieces if piece.width == strip]
        width += len(pack_lengths(lengths, longest, kerf)) * (strip + kerf)
    thick = max(piece.thickness for piece in pieces)
    board = StockSize(
        "wanted", demand.material, "board", longest + 2 * trim, width, 1, trim=trim, thickness=thick
    )
    for _ in range(MOST_WIDENED if demand.pieces <= MOST_TRIED else 0):
        if _suffices(demand, board):
            break
        board = replace(board, width=board.width + max(piece.width for piece in pieces) + kerf)
    return BoardWanted(from_grid(longest + 2 * trim), from_grid(board.width), from_grid(thick))


def _suffices(demand: Demand, board: StockSize) -> bool:
    priced = any(stock.price is not None for stock in demand.stock)
    board = replace(board, price=Decimal(0) if priced else None)
    with_it = replace(demand, stock=(*demand.stock, board))
    return board_plan(with_it, with_it.blanks, expand(with_it.blanks)).left == 0


def buy_board(demand: Demand, left: Sequence[tuple[str, int]]) -> Finding:
    """Finding `layout.buy_board`: how large another board has to be at least."""
    wanted = board_wanted(demand, left)
    count = sum(number for _, number in left)
    size = wanted or BoardWanted(0.0, 0.0, 0.0)
    return Finding(
        code="layout.buy_board",
        severity=Severity.STOP,
        value=certain(count),
        limit=0.0,
        unit="pieces",
        message=said(
            "The boards of {material} do not give {left:count} of the pieces: buy another board of at least "
            "{length:mm} × {width:mm}, {thickness:mm} thick, clear over that size.",
            material=demand.material,
            left=count,
            length=ceil(size.length_mm),
            width=ceil(size.width_mm),
            thickness=size.thickness_mm,
        ),
        source="stock list",
        remedies=(
            Remedy("layout.buy", said("Add the board to the stock list, or several that do together.")),
        ),
    )
