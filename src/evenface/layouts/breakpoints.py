"""Sizes at which the number of sheets changes: the nearest smaller one that saves a sheet, and what 1 mm more costs."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from evenface.layouts.bounds import lower_bound
from evenface.layouts.plans import bought_by, first_plan
from evenface.layouts.records import Blank, Demand
from evenface.layouts.strips import expand, fits

FARTHEST_SHARE: Final = 0.15
"""A part is not made smaller by more than this: beyond it would be another part."""
FINEST: Final = 1
"""A hundredth of a millimetre: the size told is the largest that does it."""
ONE_MM: Final = 100

type Measure = Literal["length", "width"]


@dataclass(frozen=True, slots=True)
class BreakPoint:
    """Make `blank` so much smaller on one axis ("length" or "width") and `saved` fewer sheets are bought.

    together : all blanks of that size, which are made smaller together. nearest : proved that no size nearer
    to today's saves a sheet; else a nearer one may exist.
    """

    material: str
    blank: str
    part: str
    axis: str
    smaller_by: int
    size: int
    saved: int
    together: tuple[str, ...] = ()
    nearest: bool = False


@dataclass(frozen=True, slots=True)
class OneMore:
    """What `together` cost when they are 1 mm larger on one axis: `more` sheets; None where they fit no sheet.

    sure : no plan can do with fewer; else a longer search may save some of them.
    """

    material: str
    part: str
    axis: str
    more: int | None
    sure: bool
    together: tuple[str, ...]


def break_points(demand: Demand, sheets: int) -> tuple[BreakPoint, ...]:
    """For each size and axis the least shortening that saves a sheet by our own strip plan, nearest first.

    sheets : how many are bought now. Sizes in hundredths of a millimetre. Blanks of one size are shortened
    together; a matched run is left as it is.
    """
    if demand.aim != "fewest" or sheets < 2:
        return ()
    found = []
    for numbers in _of_one_size(demand.blanks):
        for axis in ("length", "width"):
            point = _search(demand, numbers, axis, sheets)
            if point is not None:
                found.append(point)
    return tuple(sorted(found, key=lambda point: point.smaller_by))


def one_more(demand: Demand, sheets: int) -> tuple[OneMore, ...]:
    """Sizes of which 1 mm more would cost a sheet or more; those of which it costs nothing are left out.

    sheets : how many are bought now. Where our own strip plan does not reach that number today, only what
    the bound proves is told.
    """
    if demand.aim != "fewest":
        return ()
    comparable = _count(demand) <= sheets
    found = []
    for numbers in _of_one_size(demand.blanks):
        for axis in ("length", "width"):
            other = _changed(demand, numbers, axis, ONE_MM)
            if not all(fits(other.blanks[n], stock) for n in numbers for stock in other.stock):
                found.append(_dearer(demand, numbers, axis, None, True))
                continue
            least, ours = _bound(other), _count(other)
            if least > sheets or (comparable and ours > sheets):
                more = ours - sheets if comparable else least - sheets
                found.append(_dearer(demand, numbers, axis, more, least - sheets >= more))
    return tuple(found)


def _dearer(demand: Demand, numbers: Sequence[int], axis: str, more: int | None, sure: bool) -> OneMore:
    blanks = [demand.blanks[number] for number in numbers]
    return OneMore(demand.material, blanks[0].part, axis, more, sure, tuple(blank.id for blank in blanks))


def _of_one_size(blanks: Sequence[Blank]) -> list[list[int]]:
    """Indices of the blanks that have one size, in the order of the first; runs and bundles apart."""
    sizes: dict[tuple[int, int, bool], list[int]] = defaultdict(list)
    for number, blank in enumerate(blanks):
        if not blank.inside:
            sizes[blank.length, blank.width, blank.may_turn].append(number)
    return list(sizes.values())


def _search(demand: Demand, numbers: Sequence[int], axis: Measure, sheets: int) -> BreakPoint | None:
    blank = demand.blanks[numbers[0]]
    size = blank.length if axis == "length" else blank.width
    low, high = 0, int(size * FARTHEST_SHARE)
    farthest = _changed(demand, numbers, axis, -high)
    if high < 1 or _bound(farthest) >= sheets or _count(farthest) >= sheets:
        return None
    while high - low > FINEST:
        middle = (low + high) // 2
        if _count(_changed(demand, numbers, axis, -middle)) < sheets:
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
        sheets - _count(_changed(demand, numbers, axis, -high)),
        tuple(demand.blanks[number].id for number in numbers),
        # what does not go with larger pieces goes with smaller ones at most: one proof serves all nearer sizes
        nearest=_bound(_changed(demand, numbers, axis, 1 - high)) >= sheets,
    )


def _changed(demand: Demand, numbers: Sequence[int], axis: Measure, by: int) -> Demand:
    blanks = list(demand.blanks)
    for number in numbers:
        blank = blanks[number]
        blanks[number] = (
            replace(blank, length=blank.length + by)
            if axis == "length"
            else replace(blank, width=blank.width + by)
        )
    return replace(demand, blanks=tuple(blanks))


def _bound(demand: Demand) -> int:
    return int(
        lower_bound(
            expand(demand.blanks, demand.stock[0].form == "stick"), demand.stock, demand.saw.kerf, demand.aim
        )
    )


def _count(demand: Demand) -> int:
    if not all(any(fits(blank, stock) for stock in demand.stock) for blank in demand.blanks):
        return 10**9
    pieces = expand(demand.blanks, demand.stock[0].form == "stick")
    return bought_by(first_plan(demand, pieces, 0, 0)).count
