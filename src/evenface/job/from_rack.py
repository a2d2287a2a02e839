"""Planning from the rack: what is free or reserved for the job stands beside what can be bought, at its worth.

A rest is not taken at any price: it costs a plan what it still counts for. Where nobody told, it counts as much as
the same area of the cheapest whole sheet that can be bought.
"""

import hashlib
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_DOWN, Decimal
from typing import Final

from evenface.job.opening import Opened
from evenface.layouts import Layout, Sheet
from evenface.materials import Carrier, Catalogue, Facing
from evenface.parts.supplies import SHEET_FORMS, cut_by_knife
from evenface.piece.cutting_records import PLAIN_BOARD, Defect, RoughBoard
from evenface.piece.records import Job, StockItem
from evenface.store.rack_records import Left, RackItem
from evenface.units import grid_up
from evenface.words import Said, said

WOOD_FORMS: Final = ("board", "stick")
_COIN: Final = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Offered:
    """A job that may be planned from the rack. items : by code. left_out : code and reason."""

    opened: Opened
    items: Mapping[str, RackItem]
    left_out: tuple[tuple[str, Said], ...]


@dataclass(frozen=True, slots=True)
class TakenPiece:
    """A piece of the rack that a plan cuts, with the rests worth keeping that it leaves."""

    item: RackItem
    rests: tuple[Left, ...]


def with_rack(opened: Opened, items: Iterable[RackItem]) -> Offered:
    """The job with these items in its stock; of what is not there enough can be bought as before.

    items : free, or reserved for this job. Rolls with no sound length of use and rests below their least useful
    size are left out, with the reason.
    """
    job, catalogue = opened.job, opened.catalogue
    kept: dict[str, list[RackItem]] = defaultdict(list)
    left_out = []
    for item in sorted(items, key=lambda one: one.code):
        reason = _reason_against(item, catalogue)
        if reason is None:
            kept[item.material].append(item)
        else:
            left_out.append((item.code, reason))
    stock = list(job.stock)
    for material, pieces in kept.items():
        bought = [item for item in stock if item.material == material]
        if not bought:
            bought = _usual(catalogue, material)
            stock += bought
        stock += _grouped(job, pieces, bought)
    offered = {item.code: item for pieces in kept.values() for item in pieces}
    seen = "\n".join(repr(offered[code]) for code in sorted(offered))
    hashes = {**opened.hashes, "rack": hashlib.sha256(seen.encode()).hexdigest()[:16]}
    return Offered(
        replace(opened, job=replace(job, stock=tuple(stock)), hashes=hashes), offered, tuple(left_out)
    )


def taken_by(offered: Offered, layouts: Sequence[Layout]) -> tuple[TakenPiece, ...]:
    """What the plan cuts of the rack, in the order of the layouts."""
    groups = {
        (item.material, item.codes[0]): list(item.codes) for item in offered.opened.job.stock if item.codes
    }
    used: Counter[tuple[str, str]] = Counter()
    found = []
    for layout in layouts:
        material = layout.section.wood if layout.section is not None else layout.material
        for sheet in layout.sheets:
            key = material, sheet.stock.rpartition(" ")[2]
            if key in groups:
                item = offered.items[groups[key][used[key]]]
                used[key] += 1
                found.append(TakenPiece(item, _rests(offered.opened, item, sheet)))
    return tuple(found)


def _reason_against(item: RackItem, catalogue: Catalogue) -> Said | None:
    known = {name for kind in ("carrier", "facing", "wood") for name in catalogue.names(kind)}
    if item.material not in known:
        return said("{material} is no material of the catalogue.", material=item.material)
    if (item.material in catalogue.names("wood")) is not (item.form in WOOD_FORMS):
        return said("A {form} of {material} is not planned from.", form=item.form, material=item.material)
    length, width = _along(item)
    if item.form == "roll":
        length = sound_stretch(item)[1]
        if length == 0:
            return said("Nothing of this roll is sound over its whole width.")
    small, large = sorted((length, width))
    if item.least is not None and (small < item.least[0] or large < item.least[1]):
        return said("It is smaller than its least useful size.")
    return None


def _usual(catalogue: Catalogue, material: str) -> list[StockItem]:
    """What the trade supplies, written as a stock list; for wood the layouts add it by themselves."""
    record = _sheet_material(catalogue, material)
    if record is None:
        return []
    return [
        StockItem(
            material, supply.length_mm, supply.width_mm or 0.0, None, supply.price, supply.form, origin=""
        )
        for supply in record.supplies
        if supply.form in SHEET_FORMS and supply.width_mm is not None
    ]


def _sheet_material(catalogue: Catalogue, material: str) -> Carrier | Facing | None:
    if material in catalogue.names("carrier"):
        return catalogue.carrier(material)
    return catalogue.facing(material) if material in catalogue.names("facing") else None


def _grouped(job: Job, pieces: Sequence[RackItem], bought: Sequence[StockItem]) -> list[StockItem]:
    """Pieces that are alike make one entry with as many copies."""
    by_metre = bool(bought) and bought[0].length_mm is None
    rate = _cheapest(bought)
    groups: dict[StockItem, list[str]] = {}
    for item in pieces:
        groups.setdefault(_as_stock(job, item, rate, by_metre), []).append(item.code)
    return [
        replace(one, copies=len(codes), codes=tuple(codes), origin=f"rack.{codes[0]}")
        for one, codes in groups.items()
    ]


def _cheapest(bought: Sequence[StockItem]) -> Decimal | None:
    """Least money a square metre of what can be bought at will; None where a price is not known."""
    rates = []
    for item in (one for one in bought if one.copies is None):
        if item.price is None:
            return None
        length = Decimal(str(item.length_mm)) if item.length_mm is not None else Decimal(1000)
        rates.append(item.price / (length * Decimal(str(item.width_mm))) * 1_000_000)
    return min(rates, default=None)


def _along(item: RackItem) -> tuple[int, int]:
    """Length along the grain and width across it, as the layouts count them."""
    across = item.grain == "across" and item.form not in WOOD_FORMS
    return (item.width, item.length) if across else (item.length, item.width)


def sound_stretch(item: RackItem) -> tuple[int, int]:
    """Of a roll the longest length between its damages, over the whole width: where it begins and how long it is.

    Counted from the left end of the roll as it was booked in, [0.01 mm]; of equal ones the first.
    """
    return max(_stretches(item), key=lambda one: (one[1], -one[0]), default=(0, 0))


def _stretches(item: RackItem) -> list[tuple[int, int]]:
    across = item.grain == "across"
    spots = [(one.y, one.y + one.width) if across else (one.x, one.x + one.length) for one in item.defects]
    found, free, end = [], 0, _along(item)[0]
    for begin, close in sorted((*spots, (end, end))):
        if begin > free:
            found.append((free, min(begin, end) - free))
        free = max(free, close)
    return found


def _as_stock(job: Job, item: RackItem, rate: Decimal | None, by_metre: bool) -> StockItem:
    """One piece as stock: length along its grain, price what it counts for (of a roll: a metre of it)."""
    length, width = (side / 100 for side in _along(item))
    worth = worth_of(item, job.currency, rate)
    form = item.form
    if form not in WOOD_FORMS:
        form = "roll" if by_metre else "rolled_sheet" if form == "rolled_sheet" else "sheet"
    if item.form == "roll":
        length = sound_stretch(item)[1] / 100
    if form == "roll" and worth is not None:
        worth = (worth / Decimal(str(length)) * 1000).quantize(_COIN, ROUND_DOWN)
    return StockItem(item.material, length, width, None, worth, form, item.batch, board=_board(item))


def worth_of(item: RackItem, currency: str, rate: Decimal | None) -> Decimal | None:
    """What a plan has to pay for the item: its value, else its price, else its area at the rate a square metre.

    Money in another currency than the job's counts as not told.
    """
    told = item.value if item.value is not None else item.price
    if told is not None and (not currency or item.currency == currency):
        return told
    if rate is None:
        return None
    return (rate * item.area / 10_000_000_000).quantize(_COIN, ROUND_DOWN)


def _board(item: RackItem) -> RoughBoard:
    if item.form == "roll":  # planned from the length between its damages
        return PLAIN_BOARD
    defects = tuple(
        Defect((one.x / 100, one.y / 100), (one.length / 100, one.width / 100), one.kind)
        for one in item.defects
    )
    if item.form not in WOOD_FORMS:
        if item.grain == "across":  # length along the grain, as the layouts count it
            defects = tuple(Defect(one.at_mm[::-1], one.size_mm[::-1], one.kind) for one in defects)
        return RoughBoard(defects=defects) if defects else PLAIN_BOARD
    thickness = None if item.thickness is None else item.thickness / 100
    return RoughBoard(thickness, defects=defects)


def _rests(opened: Opened, item: RackItem, sheet: Sheet) -> tuple[Left, ...]:
    """Rests worth keeping, in the item's own length and width."""
    job = opened.job
    least = item.least or (
        grid_up(min(job.cutting.least_offcut_mm)),
        grid_up(max(job.cutting.least_offcut_mm)),
    )
    if sheet.form == "stick":
        return tuple(Left(one.length, item.width) for one in sheet.offcuts if one.length >= least[1])
    rests = [Left(one.length, one.width) for one in sheet.sound_rests if one.useful(least)]
    if item.form == "roll":
        rests += [one for one in _rests_of_roll(opened, item, sheet) if _useful(one, least)]
    if item.grain == "across" and item.form not in WOOD_FORMS:
        rests = [Left(one.width, one.length) for one in rests]
    return tuple(rests)


def _rests_of_roll(opened: Opened, item: RackItem, sheet: Sheet) -> list[Left]:
    """What stays on the roll, and its other lengths between damages, each over the whole width."""
    begin, length = sound_stretch(item)
    sizes = [size for at, size in _stretches(item) if at != begin]
    if sheet.form == "roll":
        material = _sheet_material(opened.catalogue, item.material)
        knife = material is not None and cut_by_knife(material)
        sizes.insert(0, length - sheet.length - (0 if knife else grid_up(opened.job.saw.kerf_mm)))
    return [Left(size, _along(item)[1]) for size in sizes if size > 0]


def _useful(rest: Left, least: tuple[int, int]) -> bool:
    return min(rest.length, rest.width) >= min(least) and max(rest.length, rest.width) >= max(least)
