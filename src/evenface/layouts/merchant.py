"""The list for the merchant's saw, beside the one for one's own: rough sizes, his kerf, his smallest strip."""

from dataclasses import dataclass, replace

from evenface.layouts.records import Blank, Demand, Layout
from evenface.layouts.solve import solve_all
from evenface.layouts.stock_records import StockSize
from evenface.piece.cutting_records import MerchantSaw
from evenface.units import from_grid, grid_up


@dataclass(frozen=True, slots=True)
class RoughSize:
    """A rectangle to be cut at the merchant's: size, count, and the blanks cut from each later.

    strips : how many blanks lie side by side in it, more than one where a single strip is too narrow for his saw.
    """

    length_mm: float
    width_mm: float
    count: int
    blanks: tuple[str, ...]
    strips: int = 1


@dataclass(frozen=True, slots=True)
class MerchantList:
    """What he is asked for, and what it makes the maker buy by his saw.

    sheets : by his kerf and trims; own_sheets : by one's own saw. layout : his plan, to be checked like any other.
    """

    material: str
    sizes: tuple[RoughSize, ...]
    sheets: int
    own_sheets: int
    kerf_mm: float
    layout: Layout
    demand: Demand


def merchant_list(demand: Demand, own: Layout, saw: MerchantSaw, budget_s: float = 0.0) -> MerchantList:
    """Rough sizes for the merchant and the plan by his saw. own : the layout for one's own saw, for comparison.

    Every piece is cut `piece_trim` larger all round, to be trimmed at home; strips narrower than he cuts stay
    together, one's own kerf between them. Not for sticks and boards.
    Raises ValueError for those.
    """
    if demand.stock[0].form in ("stick", "board"):
        raise ValueError(
            f"expected sheets or rolls for the merchant's saw, was given {demand.stock[0].form}s"
        )
    more = 2 * grid_up(saw.piece_trim_mm)
    rough: list[tuple[Blank, RoughSize]] = []
    for blank in demand.blanks:
        rough += _rough(blank, more, grid_up(saw.least_strip_mm), demand.saw.kerf)
    trim = grid_up(saw.sheet_trim_mm)
    his = replace(
        demand,
        blanks=tuple(blank for blank, _ in rough),
        stock=tuple(_trimmed(size, trim) for size in demand.stock),
        saw=replace(demand.saw, kerf=grid_up(saw.kerf_mm)),
    )
    (layout,) = solve_all((his,), budget_s=budget_s)
    sizes = sorted((size for _, size in rough), key=lambda one: (-one.length_mm, -one.width_mm, one.blanks))
    return MerchantList(
        demand.material, tuple(sizes), layout.bought.count, own.bought.count, saw.kerf_mm, layout, his
    )


def _trimmed(size: StockSize, trim: int) -> StockSize:
    return replace(size, trim=trim if size.trim else 0)


def _rough(blank: Blank, more: int, least: int, kerf: int) -> list[tuple[Blank, RoughSize]]:
    """The blank with its trim; narrow ones side by side in blocks as wide as his smallest strip."""
    strips = 1
    while strips < blank.count and strips * blank.width + (strips - 1) * kerf + more < least:
        strips += 1
    found = []
    left = blank.count
    for side_by_side in (strips, blank.count % strips):
        count = left // side_by_side if side_by_side else 0
        if not count:
            continue
        left -= count * side_by_side
        width = max(
            least if blank.width + more < least else 0, side_by_side * (blank.width + kerf) - kerf + more
        )
        name = f"{blank.id} × {side_by_side}" if strips > 1 else blank.id
        whole = replace(
            blank,
            id=name,
            length=blank.length + more,
            width=width,
            count=count,
            inside=(),
            run="",
            thickness=0,
        )
        size = RoughSize(from_grid(whole.length), from_grid(width), count, (blank.id,), side_by_side)
        found.append((whole, size))
    return found
