"""Sizes at which less is bought: the nearest smaller one that saves a sheet, stick or row of a roll, and 1 mm more.

Told from our own strip plans: what they reach can be cut so. Boards are left out.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Final, Literal

from evenface.layouts.bounds import lower_bound
from evenface.layouts.plans import bought_by
from evenface.layouts.records import Blank, Demand, measure_of
from evenface.layouts.strips import expand, fits
from evenface.layouts.together import plan_kept_together

FARTHEST_SHARE: Final = 0.15
"""A part is not made smaller by more than this: beyond it would be another part."""
FINEST: Final = 1
"""A hundredth of a millimetre: the size told is the largest that does it."""
ONE_MM: Final = 100
NOT_CUT: Final = 10**15
MOST_PLANNED: Final = 4_000
"""Pieces planned for one round of all sizes at most: thirty sizes of a hundred and thirty pieces."""

type Measure = Literal["length", "width"]


@dataclass(frozen=True, slots=True)
class BreakPoint:
    """Make `blank` so much smaller on one axis ("length" or "width") and `saved` less is bought.

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
    """What `together` cost when they are 1 mm larger on one axis: `more` sheets; None where they fit no sheet.

    sure : no plan can do with fewer; else a longer search may save some of them.
    """

    material: str
    part: str
    axis: str
    more: int | None
    sure: bool
    together: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Now:
    """What today's plan measures, and the least that counts as saved."""

    measure: int | Decimal
    step: int = 1

    def saved_by(self, demand: Demand) -> int | Decimal:
        """How much less our own plan for these sizes measures; 0 where it is not enough."""
        saved = self.measure - _measure(demand)
        return saved if saved > 0 and saved >= self.step else 0

    def beyond(self, demand: Demand) -> bool:
        """Whether no plan for these sizes saves as much."""
        bound = _bound(demand)
        return bound > self.measure - self.step if demand.aim == "length" else bound >= self.measure


def break_points(demand: Demand, now: int | Decimal) -> tuple[BreakPoint, ...]:
    """For each size and axis the least shortening that saves something by our own strip plan, nearest first.

    now : what is bought today, in the unit of the aim (see `Layout.measure`). Sizes in hundredths of a millimetre.
    Blanks of one size are shortened together; a matched run is left as it is. The largest sizes come first: where
    pieces are many, the small ones are not tried (see MOST_PLANNED).
    """
    form, aim = demand.stock[0].form, demand.aim
    if form == "board" or (form == "roll" and aim != "length") or not demand.blanks:
        return ()
    if aim == "fewest" and now < 2:
        return ()
    least = min(min(blank.length, blank.width) for blank in demand.blanks)
    today = _Now(now, least if aim == "length" else 0)
    found = []
    for numbers in _of_one_size(demand.blanks)[: max(1, MOST_PLANNED // max(1, demand.pieces))]:
        for axis in _axes(demand):
            point = _search(demand, numbers, axis, today)
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
    comparable = _measure(demand, sheets) <= sheets
    found = []
    for numbers in _of_one_size(demand.blanks):
        for axis in _axes(demand):
            other = _changed(demand, numbers, axis, ONE_MM)
            if not all(fits(other.blanks[n], stock) for n in numbers for stock in other.stock):
                found.append(_dearer(demand, numbers, axis, None, True))
                continue
            least, ours = int(_bound(other)), int(_measure(other, sheets)) if comparable else 0
            if least > sheets or (comparable and ours > sheets):
                more = ours - sheets if comparable else least - sheets
                found.append(_dearer(demand, numbers, axis, more, least - sheets >= more))
    return tuple(found)


def _axes(demand: Demand) -> tuple[Measure, ...]:
    return ("length",) if demand.stock[0].form == "stick" else ("length", "width")


def _dearer(demand: Demand, numbers: Sequence[int], axis: str, more: int | None, sure: bool) -> OneMore:
    blanks = [demand.blanks[number] for number in numbers]
    return OneMore(demand.material, blanks[0].part, axis, more, sure, tuple(blank.id for blank in blanks))


def _of_one_size(blanks: Sequence[Blank]) -> list[list[int]]:
    """Indices of the blanks that have one size, the largest first; runs and bundles apart."""
    sizes: dict[tuple[int, int, bool], list[int]] = defaultdict(list)
    for number, blank in enumerate(blanks):
        if not blank.inside:
            sizes[blank.length, blank.width, blank.may_turn].append(number)
    return sorted(sizes.values(), key=lambda held: -blanks[held[0]].length * blanks[held[0]].width)


def _search(demand: Demand, numbers: Sequence[int], axis: Measure, now: _Now) -> BreakPoint | None:
    blank = demand.blanks[numbers[0]]
    size = blank.length if axis == "length" else blank.width
    low, high = 0, int(size * FARTHEST_SHARE)
    farthest = _changed(demand, numbers, axis, -high)
    if high < 1 or now.beyond(farthest) or not now.saved_by(farthest):
        return None
    while high - low > FINEST:
        middle = (low + high) // 2
        if now.saved_by(_changed(demand, numbers, axis, -middle)):
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
        now.saved_by(_changed(demand, numbers, axis, -high)),
        tuple(demand.blanks[number].id for number in numbers),
        # what does not go with larger pieces goes with smaller ones at most: one proof serves all nearer sizes
        nearest=now.beyond(_changed(demand, numbers, axis, 1 - high)),
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


def _bound(demand: Demand) -> int | Decimal:
    pieces = expand(demand.blanks, demand.stock[0].form == "stick")
    return lower_bound(pieces, demand.stock, demand.saw.kerf, demand.aim)


def _measure(demand: Demand, enough: int | Decimal = 0) -> int | Decimal:
    """Of our own plan; far too much where pieces are left over. enough : no better one than this is looked for."""
    if not all(any(fits(blank, stock) for stock in demand.stock) for blank in demand.blanks):
        return NOT_CUT
    pieces = expand(demand.blanks, demand.stock[0].form == "stick")
    plan = plan_kept_together(demand, demand.blanks, pieces, enough, 0)
    return NOT_CUT if plan.left else measure_of(demand.aim, bought_by(plan))
