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
STRETCH: Final = "/"
"""Between the code of a roll and the number of its sound length, from the second on: "K7F32MQT/2"."""
LEAST_STRETCH: Final = 10_000
"""A sound length or width below 100 mm is not planned from."""


@dataclass(frozen=True, slots=True)
class Offered:
    """A job that may be planned from the rack. items : by code. left_out : code and reason."""

    opened: Opened
    items: Mapping[str, RackItem]
    left_out: tuple[tuple[str, Said], ...]


@dataclass(frozen=True, slots=True)
class TakenPiece:
    """A piece of the rack that a plan cuts, with the rests worth keeping that it leaves.

    stretches : of a roll, the sound lengths that are cut from: where each begins and how long it is. [0.01 mm]
    """

    item: RackItem
    rests: tuple[Left, ...]
    stretches: tuple[tuple[int, int], ...] = ()


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
    """What the plan cuts of the rack, in the order of the layouts; a roll once, whatever comes from it."""
    groups = {
        (item.material, item.codes[0]): list(item.codes) for item in offered.opened.job.stock if item.codes
    }
    used: Counter[tuple[str, str]] = Counter()
    cut: dict[str, list[tuple[int, Sheet]]] = defaultdict(list)
    for layout in layouts:
        material = layout.section.wood if layout.section is not None else layout.material
        for sheet in layout.sheets:
            key = material, sheet.stock.rpartition(" ")[2]
            if key in groups:
                code, _, stretch = groups[key][used[key]].partition(STRETCH)
                used[key] += 1
                cut[code].append((int(stretch or 1) - 1, sheet))
    return tuple(_taken(offered.opened, offered.items[code], sheets) for code, sheets in cut.items())


def _taken(opened: Opened, item: RackItem, sheets: Sequence[tuple[int, Sheet]]) -> TakenPiece:
    rests = [rest for _, sheet in sheets for rest in _rests(opened, item, sheet)]
    if item.form != "roll":
        return TakenPiece(item, tuple(rests))
    stretches = sound_stretches(item)
    rolled = [one for one in _rests_of_roll(opened, item, sheets) if _useful(one, _least(opened, item))]
    rests += [Left(one.width, one.length) for one in rolled] if item.grain == "across" else rolled
    return TakenPiece(item, tuple(rests), tuple(sorted(stretches[at] for at, _ in sheets)))


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
    """Pieces that are alike make one entry with as many copies; of a roll each of its sound lengths is one."""
    by_metre = bool(bought) and bought[0].length_mm is None
    rate = _cheapest(bought)
    groups: dict[StockItem, list[str]] = {}
    for item in pieces:
        if item.form != "roll":
            groups.setdefault(_as_stock(job, item, rate, by_metre), []).append(item.code)
            continue
        for at, (_, length) in enumerate(sound_stretches(item), start=1):
            code = item.code if at == 1 else f"{item.code}{STRETCH}{at}"
            groups.setdefault(_as_stock(job, item, rate, by_metre, length), []).append(code)
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
    return next(iter(sound_stretches(item)), (0, 0))


def sound_stretches(item: RackItem) -> tuple[tuple[int, int], ...]:
    """All such lengths of a roll, the longest first; those too short to be a rest are none."""
    across = _along(item)[1]
    sound = [one for one in _stretches(item) if min(one[1], across) >= LEAST_STRETCH]
    return tuple(sorted(sound, key=lambda one: (-one[1], one[0])))


def _stretches(item: RackItem) -> list[tuple[int, int]]:
    across = item.grain == "across"
    spots = [(one.y, one.y + one.width) if across else (one.x, one.x + one.length) for one in item.defects]
    found, free, end = [], 0, _along(item)[0]
    for begin, close in sorted((*spots, (end, end))):
        if begin > free:
            found.append((free, min(begin, end) - free))
        free = max(free, close)
    return found


def _as_stock(
    job: Job, item: RackItem, rate: Decimal | None, by_metre: bool, stretch: int | None = None
) -> StockItem:
    """One piece as stock: length along its grain, price what it counts for (of a roll: a metre of it).

    stretch : length of the part of a roll that is meant; the roll's worth is spread over all that is sound of it.
    """
    length, width = (side / 100 for side in _along(item))
    worth = worth_of(item, job.currency, rate)
    form = item.form
    if form not in WOOD_FORMS:
        form = "roll" if by_metre else "rolled_sheet" if form == "rolled_sheet" else "sheet"
    if stretch is not None:
        length = stretch / 100
        sound = sum(one[1] for one in sound_stretches(item))
        per_metre = form == "roll"
        worth = None if worth is None else worth / sound * (100_000 if per_metre else stretch)
        worth = None if worth is None else worth.quantize(_COIN, ROUND_DOWN)
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
    """Rests worth keeping of what is cut up, in the item's own length and width."""
    least = _least(opened, item)
    if sheet.form == "stick":
        return tuple(Left(one.length, item.width) for one in sheet.offcuts if one.length >= least[1])
    rests = [Left(one.length, one.width) for one in sheet.sound_rests if one.useful(least)]
    if item.grain == "across" and item.form not in WOOD_FORMS:
        rests = [Left(one.width, one.length) for one in rests]
    return tuple(rests)


def _least(opened: Opened, item: RackItem) -> tuple[int, int]:
    """From what size on a rest of the item is worth keeping."""
    least = opened.job.cutting.least_offcut_mm
    return item.least or (grid_up(min(least)), grid_up(max(least)))


def _rests_of_roll(opened: Opened, item: RackItem, sheets: Sequence[tuple[int, Sheet]]) -> list[Left]:
    """What stays of each sound length that is cut from, then the lengths that are not, over the whole width."""
    sound = sound_stretches(item)
    material = _sheet_material(opened.catalogue, item.material)
    kerf = 0 if material is not None and cut_by_knife(material) else grid_up(opened.job.saw.kerf_mm)
    sizes = [sound[at][1] - sheet.length - kerf for at, sheet in sheets if sheet.form == "roll"]
    begun = {sound[at] for at, _ in sheets}
    sizes += [one[1] for one in _stretches(item) if one not in begun]
    return [Left(size, _along(item)[1]) for size in sizes if size > 0]


def _useful(rest: Left, least: tuple[int, int]) -> bool:
    return min(rest.length, rest.width) >= min(least) and max(rest.length, rest.width) >= max(least)
