"""Solid wood out of boards and sticks of the stock list that have a price: priced as taken, not by volume."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from evenface.layouts import Layout, Sheet
from evenface.layouts.records import DEFAULT_LEAST_OFFCUT
from evenface.layouts.sticks import stick_demands
from evenface.parts import Part
from evenface.piece.records import Job
from evenface.pricing.records import SheetUse
from evenface.units import from_grid


def wood_taken(
    job: Job, parts: Sequence[Part], layouts: Sequence[Layout], titles: Mapping[str, str]
) -> tuple[SheetUse, ...]:
    """Boards and sticks the layouts take, of each wood all of whose boards and sticks have a price of their own.

    A wood of which one piece more has to be bought is left to its price by volume. titles : by the name of the wood.
    """
    prices = {stock.id: stock.price for demand in stick_demands(job, parts) for stock in demand.stock}
    by_wood: dict[str, list[Layout]] = defaultdict(list)
    for layout in layouts:
        wood = layout.section.wood if layout.section is not None else layout.material
        if wood in titles and layout.sheets:
            by_wood[wood].append(layout)
    return tuple(
        use
        for wood, made in by_wood.items()
        if all(prices.get(sheet.stock) is not None for layout in made for sheet in layout.sheets)
        for layout in made
        for use in _uses(wood, titles[wood], layout, prices)
    )


def _uses(wood: str, title: str, layout: Layout, prices: Mapping[str, Decimal | None]) -> Iterator[SheetUse]:
    groups: dict[str, list[Sheet]] = defaultdict(list)
    for sheet in layout.sheets:
        groups[sheet.stock].append(sheet)
    section = layout.section
    for stock, taken in groups.items():
        first = taken[0]
        width = section.width if section is not None else first.width
        yield SheetUse(
            material=wood,
            title=title,
            form=first.form,
            size_mm=(from_grid(first.length), from_grid(width)),
            amount=Decimal(len(taken)),
            price=prices[stock],
            offcuts_mm=tuple(
                (from_grid(rest.length), from_grid(rest.width))
                for sheet in taken
                for rest in sheet.sound_rests
                if section is None and rest.useful(DEFAULT_LEAST_OFFCUT)
            ),
        )
