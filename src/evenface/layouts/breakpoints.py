"""The nearest smaller size of a part at which one sheet fewer is bought."""

from dataclasses import dataclass, replace

from evenface.layouts.bounds import lower_bound
from evenface.layouts.plans import bought_by, first_plan
from evenface.layouts.records import Blank, Demand
from evenface.layouts.strips import expand, fits

FARTHEST_SHARE = 0.15
"""A part is not made smaller by more than this: beyond it would be another part."""
FINEST = 1
"""A hundredth of a millimetre: the size told is the largest that does it."""


@dataclass(frozen=True, slots=True)
class BreakPoint:
    """Make `blank` so much smaller on one axis ("length" or "width") and `saved` fewer sheets are bought."""

    material: str
    blank: str
    part: str
    axis: str
    smaller_by: int
    size: int
    saved: int


def break_points(demand: Demand, sheets: int) -> tuple[BreakPoint, ...]:
    """For each blank and axis the least shortening that saves a sheet by our own strip plan, nearest first.

    sheets : how many are bought now. Sizes in hundredths of a millimetre. Only what the quick plan finds is
    told, so a nearer one may exist.
    """
    if demand.aim != "fewest" or sheets < 2:
        return ()
    found = []
    for number, blank in enumerate(demand.blanks):
        for axis in ("length", "width"):
            point = _search(demand, number, blank, axis, sheets)
            if point is not None:
                found.append(point)
    return tuple(sorted(found, key=lambda point: point.smaller_by))


def _search(demand: Demand, number: int, blank: Blank, axis: str, sheets: int) -> BreakPoint | None:
    size = blank.length if axis == "length" else blank.width
    low, high = 0, int(size * FARTHEST_SHARE)
    if _bound(demand, number, axis, high) >= sheets or _count(demand, number, axis, high) >= sheets:
        return None
    while high - low > FINEST:
        middle = (low + high) // 2
        if _count(demand, number, axis, middle) < sheets:
            high = middle
        else:
            low = middle
    return BreakPoint(
        demand.material,
        blank.id,
        blank.part,
        axis,
        high,
        size - high,
        sheets - _count(demand, number, axis, high),
    )


def _shortened(demand: Demand, number: int, axis: str, by: int) -> Demand:
    blanks = list(demand.blanks)
    blank = blanks[number]
    blanks[number] = (
        replace(blank, length=blank.length - by)
        if axis == "length"
        else replace(blank, width=blank.width - by)
    )
    return replace(demand, blanks=tuple(blanks))


def _bound(demand: Demand, number: int, axis: str, by: int) -> int:
    other = _shortened(demand, number, axis, by)
    return int(lower_bound(expand(other.blanks), other.stock, other.saw.kerf, other.aim))


def _count(demand: Demand, number: int, axis: str, by: int) -> int:
    other = _shortened(demand, number, axis, by)
    if not all(any(fits(blank, stock) for stock in other.stock) for blank in other.blanks):
        return 10**9
    pieces = expand(other.blanks)
    return bought_by(first_plan(other, pieces, 0, 0)).count
