"""What boards give and lack: the share that ends up in the piece, and the board still to be bought."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.layouts.lengths import pack_lengths
from evenface.layouts.records import Demand, Layout
from evenface.units import from_grid
from evenface.words import said

RIPPED_BESIDE_MM = 10.0
"""COMMON PRACTICE: a rough edge jointed straight on each side, beyond the strips themselves."""


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


def board_wanted(demand: Demand, left: Sequence[tuple[str, int]]) -> BoardWanted | None:
    """The board on which what is left over would find room: strips as long as the longest of it, side by side."""
    blanks = {blank.id: blank for blank in demand.blanks}
    wanted = Counter(dict(left))
    pieces = [blanks[name] for name, count in wanted.items() for _ in range(count) if name in blanks]
    if not pieces:
        return None
    kerf, trim = demand.saw.kerf, max(stock.trim for stock in demand.stock)
    longest = max(piece.length for piece in pieces)
    width = 0
    for strip in sorted({piece.width for piece in pieces}):
        lengths = [piece.length for piece in pieces if piece.width == strip]
        width += len(pack_lengths(lengths, longest, kerf)) * (strip + kerf)
    return BoardWanted(
        from_grid(longest + 2 * trim),
        from_grid(width - kerf) + RIPPED_BESIDE_MM,
        from_grid(max(piece.thickness for piece in pieces)),
    )


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
            length=size.length_mm,
            width=size.width_mm,
            thickness=size.thickness_mm,
        ),
        source="stock list",
        remedies=(
            Remedy("layout.buy", said("Add the board to the stock list, or several that do together.")),
        ),
    )
