"""A spoiled part made again: from a rest of this plan, from the rack, or from a sheet that has to be bought.

What is cut stays cut: only the rests of the sheets already cut up, stock not yet taken and stock that can be bought
are looked at, in that order, and nothing of the plan is moved.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.layouts.records import Blank, Demand, Layout, Offcut, Saw
from evenface.layouts.solve import solve_all
from evenface.layouts.stock_records import StockSize
from evenface.units import from_grid
from evenface.words import said

type From = Literal["offcut", "rack", "bought", "nowhere"]


@dataclass(frozen=True, slots=True)
class Remade:
    """Where one spoiled blank is cut again.

    from_ : a rest of this plan ("offcut", `sheet` counted from 1 and `rest` say which), a sheet or rest in the
    rack, a sheet to be bought, or nowhere. stock : id of the stock size. x, y : where it lies on that rest or
    sheet. sheets : how many are newly taken for this blank, 0 where another blank already opened that one.
    cost : of them, None where no price is known.
    """

    blank: str
    part: str
    from_: From
    stock: str = ""
    sheet: int = 0
    rest: Offcut | None = None
    x: int = 0
    y: int = 0
    turned: bool = False
    sheets: int = 0
    cost: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Remaking:
    """All spoiled blanks of one material: where each comes from, sheets bought and money, and the layouts of it.

    plans : what is newly cut up of rests, rack and shop, with cuts and what is left, each checked; the demand of
    each stands beside it, so that it can be verified.
    """

    material: str
    remade: tuple[Remade, ...]
    sheets_bought: int
    cost: Decimal | None
    plans: tuple[tuple[Demand, Layout], ...]
    findings: tuple[Finding, ...]


def remake(demand: Demand, layout: Layout, spoiled: Mapping[str, int]) -> Remaking:
    """Where spoiled blanks are remade. spoiled : how many of each blank id of the demand.

    A rest is taken before the rack and the rack before buying, for the rest costs nothing more; the smallest
    that does is taken. A piece of a matched run or bundle is remade with the whole blank: its pattern goes on.
    A blank of a batch is looked for in all three of that batch first; where there is none of it left, in any, and a
    finding says so.
    Raises ValueError for a blank that is not in the demand, and for more than were made.
    """
    waiting = _asked(demand, spoiled)
    rests = _rests(demand, layout)
    used = Counter(sheet.stock for sheet in layout.sheets)
    rack = [
        replace(size, copies=size.copies - used[size.id])
        for size in demand.stock
        if size.copies is not None and size.copies > used[size.id]
    ]
    shop = [size for size in demand.stock if size.copies is None]
    made: list[Remade] = []
    plans: list[tuple[Demand, Layout]] = []
    other_batch: list[tuple[Blank, int]] = []
    sources: dict[From, list[StockSize]] = {
        "offcut": [size for size, _, _ in rests],
        "rack": rack,
        "bought": shop,
    }
    where = {size.id: (number, rest) for size, number, rest in rests}
    for any_batch in (False, True):
        if any_batch:
            other_batch = [(blank, blank.count) for blank in waiting if blank.batch is not None]
            waiting = tuple(replace(blank, batch=None, same_batch="") for blank in waiting)
        for kind, stock in sources.items():
            if not waiting or not stock or (any_batch and not other_batch):
                continue
            asked = replace(demand, blanks=waiting, stock=tuple(stock), saw=_free(demand.saw), findings=())
            (found,) = solve_all((asked,), budget_s=0.0)
            plans.append((asked, found))
            made += _remade(kind, found, stock, where)
            sources[kind] = _less(stock, found)
            left = Counter(dict(found.unplaced))
            waiting = tuple(replace(blank, count=left[blank.id]) for blank in waiting if left[blank.id])
    lacking = Counter({blank.id: blank.count for blank in waiting})
    other_batch = [(blank, count - lacking[blank.id]) for blank, count in other_batch]
    made += [Remade(blank.id, blank.part, "nowhere") for blank in waiting for _ in range(blank.count)]
    bought = sum(one.sheets for one in made if one.from_ == "bought")
    costs = [one.cost for one in made if one.from_ == "bought" and one.sheets]
    known = [cost for cost in costs if cost is not None]
    total = sum(known, Decimal(0)) if len(known) == len(costs) else None
    findings = (_told(demand, made, bought), *(_strange(demand, *one) for one in other_batch if one[1]))
    return Remaking(demand.material, tuple(made), bought, total, tuple(plans), findings)


def _less(stock: Sequence[StockSize], found: Layout) -> list[StockSize]:
    """What is still there after a plan."""
    used = Counter(sheet.stock for sheet in found.sheets)
    return [
        size if size.copies is None else replace(size, copies=size.copies - used[size.id])
        for size in stock
        if size.copies is None or size.copies > used[size.id]
    ]


def _free(saw: Saw) -> Saw:
    """A rest is small: how often it is turned on the saw does not matter."""
    return Saw(saw.kerf, None, "any", saw.least_offcut)


def _remade(
    kind: From, found: Layout, stock: Sequence[StockSize], where: Mapping[str, tuple[int, Offcut]]
) -> Iterator[Remade]:
    prices = {size.id: size.price for size in stock}
    for sheet in found.sheets:
        at, rest = where.get(sheet.stock, (0, None)) if kind == "offcut" else (0, None)
        for number, piece in enumerate(sheet.placed):
            opened = number == 0 and kind != "offcut"
            cost: Decimal | None = Decimal(0)
            if opened and kind == "bought":
                price = prices[sheet.stock]
                share = Decimal(sheet.length) / 100_000 if sheet.form == "roll" else Decimal(1)
                cost = None if price is None else price * share
            yield Remade(
                piece.blank,
                piece.part,
                kind,
                sheet.stock,
                at,
                rest,
                piece.x,
                piece.y,
                piece.turned,
                int(opened),
                cost,
            )


def _asked(demand: Demand, spoiled: Mapping[str, int]) -> tuple[Blank, ...]:
    known = {blank.id: blank for blank in demand.blanks}
    for name, count in spoiled.items():
        if name not in known or not 1 <= count <= known[name].count:
            most = known[name].count if name in known else 0
            raise ValueError(
                f"spoiled {name!r}: expected 1 to {most} of a blank of {demand.material}, was given {count}"
            )
    return tuple(replace(known[name], count=count, same="") for name, count in spoiled.items())


def _rests(demand: Demand, layout: Layout) -> list[tuple[StockSize, int, Offcut]]:
    """Useful rests of the plan as stock of one copy each, without trims: their edges are sawn already."""
    first = demand.stock[0]
    rests = []
    for number, sheet in enumerate(layout.sheets, start=1):
        own = next((size for size in demand.stock if size.id == sheet.stock), first)
        for at, rest in enumerate(sheet.sound_rests, start=1):
            if own.form == "board" or not rest.useful(demand.saw.least_offcut):
                continue
            form = "stick" if own.form == "stick" else "sheet"
            size = StockSize(
                f"{sheet.stock} sheet {number} rest {at}",
                demand.material,
                "sheet" if form == "sheet" else "stick",
                rest.length,
                rest.width,
                1,
                thickness=own.thickness,
                offcut=True,
                batch=own.batch,
            )
            rests.append((size, number, rest))
    return rests


def _told(demand: Demand, made: Sequence[Remade], bought: int) -> Finding:
    counts = Counter(one.from_ for one in made)
    return Finding(
        code="layout.remade",
        severity=Severity.STOP if counts["nowhere"] else Severity.NOTE,
        part=made[0].part if made else "",
        value=certain(bought),
        unit="sheets",
        message=said(
            "Made again of {material}: {offcut:count} from rests of this plan, {rack:count} from the rack, "
            "{bought:count} from what has to be bought ({sheets:count} sheets), {nowhere:count} from nowhere.",
            material=demand.material,
            offcut=counts["offcut"],
            rack=counts["rack"],
            bought=counts["bought"],
            sheets=bought,
            nowhere=counts["nowhere"],
        ),
        source="layouts",
    )


def _strange(demand: Demand, blank: Blank, count: int) -> Finding:
    return Finding(
        code="layout.remade_other_batch",
        severity=Severity.WEIGH,
        part=blank.part,
        at=blank.layer,
        value=certain(count),
        limit=0.0,
        unit="pieces",
        message=said(
            "Nothing is left of batch {batch} of {material}: {count:count} of {part} would be made again of "
            "another, and may differ in colour and pattern.",
            batch=blank.batch or "-",
            material=demand.material,
            count=count,
            part=blank.part,
        ),
        source="layouts",
        remedies=(
            Remedy(
                "layout.make_set_again", said("Look for a sheet of that batch, or make all of its set again.")
            ),
        ),
    )


def size_of(remade: Remade, demand: Demand) -> tuple[float, float]:
    """Length and width of the blank to be cut again. [mm]"""
    blank = next(one for one in demand.blanks if one.id == remade.blank)
    return from_grid(blank.length), from_grid(blank.width)
