"""The rack as tables and lines for a screen."""

from collections.abc import Iterator, Sequence

from evenface.documents.display import DASH, length
from evenface.documents.money_text import sum_text
from evenface.documents.tables import Table, table
from evenface.store.rack_codes import code_text
from evenface.store.rack_records import Action, Balance, RackItem
from evenface.words import ENGLISH, Manner, figure

_SQUARE_METRE = 10_000_000_000
_SQUARE_FOOT = 30_480 * 30_480


def items_table(items: Sequence[RackItem], manner: Manner = ENGLISH) -> Table:
    """One row an item; a column in which nothing stands is left out."""
    unit = manner.length_unit
    columns = {
        "code": [code_text(item.code) for item in items],
        "material": [item.material for item in items],
        "form": [manner.translate(item.form.replace("_", " ")) for item in items],
        f">size [{unit}]": [size_text(item, manner, thick=True) for item in items],
        "place": [item.place for item in items],
        "batch": [item.batch for item in items],
        "state": [_state(item, manner) for item in items],
    }
    told = {name: cells for name, cells in columns.items() if any(cells)}
    rows = zip(*([cell or DASH for cell in cells] for cells in told.values()), strict=True)
    return table("", told, rows, "", manner)


def _state(item: RackItem, manner: Manner) -> str:
    state = manner.translate(item.state)
    return f"{state} {manner.translate('for')} {item.reserved_for}" if item.reserved_for else state


def balance_table(balance: Balance, manner: Manner = ENGLISH) -> Table:
    """What became of everything received; the areas of the last four add up to the first."""
    areas = (
        ("received", balance.received_count, balance.received),
        ("free", balance.counts["free"], balance.free),
        ("reserved", balance.counts["reserved"], balance.reserved),
        ("cut", balance.counts["cut"], balance.cut),
        ("spoiled", balance.counts["spoiled"], balance.spoiled),
    )
    rows = [(manner.translate(name), str(count), area_text(area, manner)) for name, count, area in areas]
    rests = manner.translate("{n} rests were booked in of what was cut; they count as pieces of their own.")
    note = rests.format(n=balance.booked_in)
    if not balance.closes:
        note += " " + manner.translate("The sums do not close: keep a backup and look at the log.")
    return table("", ("", ">pieces", ">area"), rows, note, manner)


def log_table(actions: Sequence[Action], manner: Manner = ENGLISH) -> Table:
    """One row an action, the newest first."""
    rows = [
        (
            str(one.number),
            one.at.replace("T", " ").removesuffix("+00:00"),
            one.person or DASH,
            manner.translate(one.kind) + (f" {one.undoes}" if one.undoes is not None else ""),
            ", ".join(one.codes[:4]) + (" …" if len(one.codes) > 4 else ""),
            one.job or DASH,
            one.note,
            manner.translate("undone") if one.undone else "",
        )
        for one in actions
    ]
    return table("", (">no", "when (UTC)", "who", "what", "codes", "job", "note", ""), rows, "", manner)


def item_lines(item: RackItem, rests: Sequence[RackItem], manner: Manner = ENGLISH) -> Iterator[str]:
    """Everything about one item, a line each; what is not known is left out."""
    unit = f" {manner.length_unit}"
    word = manner.translate
    yield f"{code_text(item.code)}  {item.material}, {word(item.form.replace('_', ' '))}"
    yield f"{word('size')}: {size_text(item, manner)}{unit}"
    if item.thickness is not None:
        yield f"{word('thickness as measured')}: {length(item.thickness / 100, 0.1, manner)}{unit}"
    yield f"{word('grain')}: {word(item.grain)}; {word('good face')}: {word(item.faces)}"
    if item.moisture is not None:
        day = f" ({item.moisture_on})" if item.moisture_on else ""
        yield f"{word('moisture')}: {figure(100 * item.moisture, 1, manner)} %{day}"
    told = (
        ("place", item.place),
        ("batch", item.batch),
        ("received", item.received),
        ("price", sum_text(item.price, item.currency, manner)),
        ("counts for", sum_text(item.value, item.currency, manner)),
        ("notes", item.notes),
    )
    for name, text in told:
        if text:
            yield f"{word(name)}: {text}"
    for one in item.defects:
        where = f"{length(one.x / 100, manner=manner)}, {length(one.y / 100, manner=manner)}{unit}"
        yield f"{word('defect')}: {one.kind} {word('at')} {where}"
    yield f"{word('state')}: {_state(item, manner)}"
    if item.parent:
        yield f"{word('cut from')}: {code_text(item.parent)}"
    for rest in rests:
        yield f"{word('rest')}: {code_text(rest.code)}, {size_text(rest, manner)}{unit}, {word(rest.state)}"
    for left in item.planned:
        sizes = f"{length(left.length / 100, manner=manner)} × {length(left.width / 100, manner=manner)}"
        yield f"{word('its plan leaves')}: {sizes}{unit}"


def size_text(item: RackItem, manner: Manner = ENGLISH, thick: bool = False) -> str:
    """Length × width, and × thickness where it was measured and is asked for."""
    sizes = [length(size, manner=manner) for size in item.size_mm]
    if thick and item.thickness is not None:
        sizes.append(length(item.thickness / 100, 0.1, manner))
    return " × ".join(sizes)


def area_text(area: int, manner: Manner = ENGLISH) -> str:
    """An area in square metres or square feet, to the hundredth."""
    inch = manner.system == "inch"
    return f"{figure(area / (_SQUARE_FOOT if inch else _SQUARE_METRE), 2, manner)} {'ft²' if inch else 'm²'}"
