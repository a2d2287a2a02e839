"""Sizes at which less is bought: the nearest smaller one that saves a sheet, stick, board or row of a roll, and 1 mm
more.

Told from our own plans: what they reach can be cut so. Bundles of short wood are left out: their pieces would be
bundled otherwise.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final, Literal

from evenface.layouts.boards import board_plan
from evenface.layouts.bounds import lower_bound
from evenface.layouts.plans import bought_by
from evenface.layouts.records import Blank, Demand, Inside, measure_of
from evenface.layouts.stock_records import StockSize
from evenface.layouts.strips import expand, fits
from evenface.layouts.together import plan_kept_together

FARTHEST_SHARE: Final = 0.15
"""A part is not made smaller by more than this: beyond it would be another part."""
FINEST: Final = 1
"""A hundredth of a millimetre: the size told is the largest that does it."""
ONE_MM: Final = 100
NOT_CUT: Final = 10**15
CENT: Final = Decimal("0.01")
MOST_PLANNED: Final = 4_000
"""Pieces planned for one round of all sizes at most: thirty sizes of a hundred and thirty pieces."""

type Measure = Literal["length", "width"]


@dataclass(frozen=True, slots=True)
class BreakPoint:
    """Make `blank` so much smaller on one axis ("length" or "width") and `saved` less is bought.

    smaller_by : of each front where the blank is a matched run that is parted that way; size : of the whole blank.
    saved : in the unit of the aim: sheets or sticks, money, area, running length. Of rolls it is at least as much as
    the shortest side of a blank: less than that is no row fewer. together : all blanks of that size, which are made
    smaller together. nearest : proved that no size nearer to today's saves as much; else a nearer one may exist.
    """

    material: str
    blank: str
    part: str
    axis: str
    smaller_by: int
    size: int
    saved: int | Decimal
    together: tuple[str, ...] = ()
    nearest: bool = False


@dataclass(frozen=True, slots=True)
class OneMore:
    """What `together` cost when they are 1 mm larger on one axis: `more`, in the unit of the aim.

    more : None where they fit no stock, or there is not enough of it.
    sure : no plan can do with less; else a longer search may save some of it.
    """

    material: str
    part: str
    axis: str
    more: int | Decimal | None
    sure: bool
    together: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Now:
    """What today's plan measures, and the least that counts as saved."""

    measure: int | Decimal
    step: int | Decimal

    def saves(self, demand: Demand) -> bool:
        """Whether our own plan for these sizes saves enough; the first one found that does is good enough."""
        return not self.beyond(demand) and self.measure - _measure(demand, self.enough) >= self.step

    @property
    def enough(self) -> int | Decimal:
        """The most a plan may measure that saves something."""
        return self.measure - self.step

    def beyond(self, demand: Demand) -> bool:
        """Whether no plan for these sizes saves as much."""
        return _bound(demand) > self.enough


def break_points(demand: Demand, now: int | Decimal) -> tuple[BreakPoint, ...]:
    """For each size and axis the least shortening that saves something by our own plan, nearest first.

    now : what is bought today, in the unit of the aim (see `Layout.measure`). Sizes in hundredths of a millimetre.
    Blanks of one size are shortened together, the fronts of a matched run all by as much. The largest sizes come
    first: where pieces are many, the small ones are not tried (see `sizes_tried`).
    """
    if not demand.blanks or (demand.aim == "fewest" and now < 2):
        return ()
    today = _Now(now, _step(demand))
    found = []
    for numbers in _tried(demand):
        for axis in _axes(demand):
            point = _search(demand, numbers, axis, today)
            if point is not None:
                found.append(point)
    return tuple(sorted(found, key=lambda point: point.smaller_by))


def one_more(demand: Demand, now: int | Decimal) -> tuple[OneMore, ...]:
    """Sizes of which 1 mm more would cost a sheet, stick, row of a roll or money; the others are left out.

    now : what is bought today, in the unit of the aim. Where our own plan does not reach that today, only what the
    bound proves is told. The largest sizes alone where pieces are many (see `sizes_tried`).
    """
    if not demand.blanks:
        return ()
    comparable, step = _measure(demand, now) <= now, _step(demand)
    found = []
    for numbers in _tried(demand):
        for axis in _axes(demand):
            other = _changed(demand, numbers, axis, ONE_MM)
            if not all(any(fits(other.blanks[n], stock) for stock in other.stock) for n in numbers):
                found.append(_dearer(demand, numbers, axis, None, True))
                continue
            least, ours = _bound(other), _measure(other, now) if comparable else 0
            if ours >= NOT_CUT:
                found.append(_dearer(demand, numbers, axis, None, False))
            elif max(least, ours) - now >= step:
                more = (ours if comparable else least) - now
                found.append(_dearer(demand, numbers, axis, more, least - now >= more))
    return tuple(found)


def sizes_tried(demand: Demand) -> tuple[int, int]:
    """How many sizes of a demand are tried by `break_points` and `one_more`, the largest ones, and how many it has."""
    return len(_tried(demand)), len(_of_one_size(demand.blanks))


def _tried(demand: Demand) -> list[list[int]]:
    # each board is looked at for each piece
    planned = demand.pieces * (len(demand.stock) if demand.stock[0].form == "board" else 1)
    return _of_one_size(demand.blanks)[: max(1, MOST_PLANNED // max(1, planned))]


def _step(demand: Demand) -> int | Decimal:
    """The least that counts: a sheet or stick, a cent, or the row that the shortest side of a blank takes of a roll.

    Of rolls of several widths half a row: what is saved by one row less may go on another width in part.
    """
    least = CENT if demand.aim == "money" else 1
    if demand.stock[0].form != "roll":
        return least
    row = min(min(blank.length, blank.width) for blank in demand.blanks)
    cheapest = min(_row(row, roll, demand) for roll in demand.stock)
    return cheapest if demand.aim == "length" else max(least, cheapest / 2)


def _row(length: int, roll: StockSize, demand: Demand) -> Decimal:
    if demand.aim == "money":
        return (roll.price or Decimal(0)) * length / 100_000
    return Decimal(length * roll.width if demand.aim == "area" else length)


def _axes(demand: Demand) -> tuple[Measure, ...]:
    return ("length",) if demand.stock[0].form == "stick" else ("length", "width")


def _dearer(
    demand: Demand, numbers: Sequence[int], axis: str, more: int | Decimal | None, sure: bool
) -> OneMore:
    blanks = [demand.blanks[number] for number in numbers]
    return OneMore(demand.material, blanks[0].part, axis, more, sure, tuple(blank.id for blank in blanks))


def _of_one_size(blanks: Sequence[Blank]) -> list[list[int]]:
    """Indices of the blanks that have one size, the largest first; each matched run by itself, no bundles."""
    sizes: dict[tuple[int, int, bool, str], list[int]] = defaultdict(list)
    for number, blank in enumerate(blanks):
        if not blank.inside or blank.run:
            sizes[blank.length, blank.width, blank.may_turn, blank.id if blank.run else ""].append(number)
    return sorted(sizes.values(), key=lambda held: -blanks[held[0]].length * blanks[held[0]].width)


def _search(demand: Demand, numbers: Sequence[int], axis: Measure, now: _Now) -> BreakPoint | None:
    blank = demand.blanks[numbers[0]]
    size = blank.length if axis == "length" else blank.width
    low, high = 0, int(_least_front(blank, axis) * FARTHEST_SHARE)
    if high < 1 or not now.saves(_changed(demand, numbers, axis, -high)):
        return None
    while high - low > FINEST:
        middle = (low + high) // 2
        if now.saves(_changed(demand, numbers, axis, -middle)):
            high = middle
        else:
            low = middle
    then = _changed(demand, numbers, axis, -high)
    return BreakPoint(
        demand.material,
        blank.id,
        blank.part,
        axis,
        high,
        size - high * _fronts(blank, axis),
        now.measure - _measure(then),
        tuple(demand.blanks[number].id for number in numbers),
        # what does not go with larger pieces goes with smaller ones at most: one proof serves all nearer sizes
        nearest=now.beyond(_changed(demand, numbers, axis, 1 - high)),
    )


def _fronts(blank: Blank, axis: Measure) -> int:
    """How many fronts of a run stand one after another that way; 1 for all else."""
    parted: Measure = "width" if blank.parted == "along" else "length"
    return len(blank.inside) if blank.run and axis == parted else 1


def _least_front(blank: Blank, axis: Measure) -> int:
    if _fronts(blank, axis) > 1:
        return min(front.size for front in blank.inside)
    return blank.length if axis == "length" else blank.width


def _changed(demand: Demand, numbers: Sequence[int], axis: Measure, by: int) -> Demand:
    blanks = list(demand.blanks)
    for number in numbers:
        blanks[number] = _resized(blanks[number], axis, by)
    return replace(demand, blanks=tuple(blanks))


def _resized(blank: Blank, axis: Measure, by: int) -> Blank:
    """The blank with each front in it so much larger that way."""
    fronts = _fronts(blank, axis)
    inside = blank.inside
    if fronts > 1:
        inside = tuple(
            Inside(one.part, one.layer, one.start + by * at, one.size + by) for at, one in enumerate(inside)
        )
    if axis == "length":
        return replace(blank, length=blank.length + by * fronts, inside=inside)
    return replace(blank, width=blank.width + by * fronts, inside=inside)


def _bound(demand: Demand) -> int | Decimal:
    pieces = expand(demand.blanks, demand.stock[0].form == "stick")
    return lower_bound(pieces, demand.stock, demand.saw.kerf, demand.aim)


def _measure(demand: Demand, enough: int | Decimal = 0) -> int | Decimal:
    """Of our own plan; far too much where pieces are left over. enough : no better one than this is looked for."""
    if not all(any(fits(blank, stock) for stock in demand.stock) for blank in demand.blanks):
        return NOT_CUT
    pieces = expand(demand.blanks, demand.stock[0].form == "stick")
    if demand.stock[0].form == "board":
        plan = board_plan(demand, demand.blanks, pieces)
    else:
        plan = plan_kept_together(demand, demand.blanks, pieces, enough, 0)
    return NOT_CUT if plan.left else measure_of(demand.aim, bought_by(plan))
