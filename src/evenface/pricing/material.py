"""Material: whole sheets and metres as bought, less offcuts credited; wood by volume; glue and finish by quantity."""

from collections.abc import Iterator
from decimal import Decimal

from evenface.materials.rules import rule
from evenface.piece.price_records import MaterialPrice, PriceTable
from evenface.pricing.money import Money, money
from evenface.pricing.records import Group, Line, Missing, Needed, SheetUse, ToPrice
from evenface.words import said

type Priced = tuple[Line, Missing | None]


def material_lines(asked: ToPrice, table: PriceTable) -> Iterator[Priced]:
    """A line for each material, in the order they are named."""
    for sheet in asked.sheets:
        priced = _sheet(sheet, table)
        yield priced
        yield from _credit(sheet, priced[0], table)
    for wood in asked.wood:
        yield _wood(wood, table)
    for board in asked.boards:
        line = _board(board, table)
        yield line, None
        yield from _credit(board, line, table)
    for glue in asked.glue:
        yield _by_quantity(Group.GLUE, glue, "kg", table)
    for finish in asked.finish:
        yield _by_quantity(Group.FINISH, finish, "m2", table)


def bought(net: Decimal, waste: Decimal) -> Decimal:
    """What has to be bought: the waste is a share of what is bought, not of what is needed.

    Raises ValueError for a waste that is not at least 0 and below 1.
    """
    if not 0 <= waste < 1:
        raise ValueError(f"expected a waste of at least 0 and below 1, was given {waste}")
    return net / (1 - waste)


def waste_of(table: PriceTable) -> Decimal:
    """The maker's waste of solid wood, else the trade's usual one."""
    return table.wood_waste if table.wood_waste is not None else Decimal(str(rule("wood-waste").nominal))


def _sheet(sheet: SheetUse, table: PriceTable) -> Priced:
    each = _each(sheet, table)
    unit = "m" if sheet.by_metre else "sheets"
    amount = each.times(sheet.amount) if each is not None else None
    length, width = sheet.size_mm
    what = (
        said("{title}, roll {width:mm} wide", title=sheet.title, width=width)
        if length is None or sheet.by_metre
        else said("{title}, {length:mm} × {width:mm}", title=sheet.title, length=length, width=width)
    )
    line = Line(
        Group.STOCK, what, amount, sheet.amount, unit, each, material=sheet.material, title=sheet.title
    )
    key = f'material."{sheet.material}" = {{ price = …, per = "{"m" if sheet.by_metre else "sheet"}" }}'
    return line, None if each is not None else Missing(what, key, sheet.origin)


def _each(sheet: SheetUse, table: PriceTable) -> Money | None:
    """Of one sheet or metre: as the stock list says, else as the maker's prices do."""
    if sheet.price is not None:
        return money(sheet.price, table.currency)
    own = table.materials.get(sheet.material)
    if own is None:
        return None
    one_m2 = sheet.area_m2 / sheet.amount if sheet.amount else Decimal(0)
    if own.per == "m2":
        return money(own.price * one_m2, table.currency)
    if own.per == ("m" if sheet.by_metre else "sheet") and _fits(own, sheet):
        return money(own.price, table.currency)
    return None


def _fits(own: MaterialPrice, sheet: SheetUse) -> bool:
    return own.size_mm is None or sheet.size_mm in (own.size_mm, own.size_mm[::-1])


def _credit(sheet: SheetUse, line: Line, table: PriceTable) -> Iterator[Priced]:
    """What is worth keeping, at the maker's share of what its area cost; nothing unless a share is named."""
    share, whole = table.offcut_credit or Decimal(0), sheet.area_m2
    if not share or not sheet.offcuts_mm or line.amount is None or not whole or not line.amount.amount:
        return
    area = sum((Decimal(str(a)) * Decimal(str(b)) / 1_000_000 for a, b in sheet.offcuts_mm), start=Decimal(0))
    credited = line.amount.times(min(area / whole, Decimal(1)) * share)
    basis = said("{share:percent} of what their area cost", share=float(share))
    what = said("{title}: offcuts kept, {count:count}", title=sheet.title, count=len(sheet.offcuts_mm))
    yield Line(Group.OFFCUTS, what, money(-credited.amount, table.currency), area, "m2", None, basis), None


def _wood(wood: Needed, table: PriceTable) -> Priced:
    waste = waste_of(table)
    amount = bought(wood.amount, waste)
    own = table.materials.get(wood.material)
    each = money(own.price, table.currency) if own is not None and own.per == "m3" else None
    what = said("{title}, rough-sawn", title=wood.title)
    basis = said(
        "net {net} m³ / (1 − {waste:percent} waste)", net=round(float(wood.amount), 4), waste=float(waste)
    )
    cost = each.times(amount) if each is not None else None
    line = Line(Group.WOOD, what, cost, amount, "m3", each, basis, None, wood.material, wood.title)
    key = f'material."{wood.material}" = {{ price = …, per = "m3" }}'
    return line, None if each is not None else Missing(what, key, wood.origin)


def _board(board: SheetUse, table: PriceTable) -> Line:
    """Whole boards or sticks at the price the stock list gives them."""
    each = money(board.price or Decimal(0), table.currency)
    length, width = board.size_mm
    form = "{title}, board, {length:mm} × {width:mm}"
    if board.form == "stick":
        form = "{title}, stick {width:mm} wide, {length:mm}"
    what = said(form, title=board.title, length=length or 0.0, width=width)
    return Line(
        Group.WOOD, what, each.times(board.amount), board.amount, "", each,
        said("as in the stock list of the job"), None, board.material, board.title,
    )  # fmt: skip


def _by_quantity(group: Group, needed: Needed, unit: str, table: PriceTable) -> Priced:
    """Glue by weight; finish by the area it covers, or by the kg or litre that covers so much."""
    own = table.materials.get(needed.material)
    what, amount, bought_unit = said("{title}", title=needed.title), needed.amount, unit
    each = money(own.price, table.currency) if own is not None and own.per == unit else None
    if own is not None and each is None and own.covers is not None and unit == "m2":
        each, amount, bought_unit = money(own.price, table.currency), needed.amount / own.covers, own.per
    cost = each.times(amount) if each is not None else None
    line = Line(group, what, cost, amount, bought_unit, each, material=needed.material, title=needed.title)
    form = 'per = "kg"' if unit == "kg" else 'per = "m2"'
    key = f'material."{needed.material}" = {{ price = …, {form} }}'
    return line, None if each is not None else Missing(what, key, needed.origin)
