"""Lists for whoever cuts: saw, guide rail, knife and shears, the merchant's saw, and sizes that save a sheet."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Final

from evenface.documents.display import FIT_MM, amount, length
from evenface.documents.layout_tables import NO_NAMES, cut_list
from evenface.documents.tables import Table, table
from evenface.layouts import BreakPoint, Demand, HandCut, Layout, MerchantList, OneMore, Sheet, sizes_tried
from evenface.units import from_grid
from evenface.words import ENGLISH, Manner, figure

TOOL_WORDS: Final[Mapping[str, str]] = {
    "rail": "rail",
    "joined rails": "rail, {n} lengths",
    "knife": "knife",
    "shears": "shears",
}
AREA_M2: Final = 10_000_000_000
NEAREST: Final = "no nearer size does it"


def saw_table(
    layout: Layout,
    number: int,
    title: str,
    manner: Manner = ENGLISH,
    kg_per_m2: float = 0.0,
    names: Mapping[str, str] = NO_NAMES,
) -> Table:
    """The numbered cuts of one sheet, for a panel or table saw. number : of the sheet, from 0.

    kg_per_m2 : of the sheet, 0 where it is not known. names : of the parts, by their id.
    """
    made = cut_list(layout.sheets[number], manner, kg_per_m2, names)
    return Table(sheet_title(layout, number, title, manner), made.columns, made.rows, made.note)


def hand_table(
    layout: Layout,
    number: int,
    title: str,
    cuts: Sequence[HandCut],
    manner: Manner = ENGLISH,
    names: Mapping[str, str] = NO_NAMES,
) -> Table:
    """The same cuts by rail, or by knife and shears, on a sheet that lies still. names : of the parts, by their id."""
    rows = [
        (
            str(cut.number),
            manner.translate(TOOL_WORDS[cut.tool]).format(n=cut.settings),
            manner.translate(cut.axis),
            length(from_grid(cut.measure), FIT_MM, manner),
            manner.translate("before it" if cut.beyond else "beyond it"),
            _mm(cut.from_, manner),
            _mm(cut.to_, manner),
            ", ".join(map(str, cut.of)),
            ", ".join(dict.fromkeys(_part_names(part, names) for part in cut.off)),
        )
        for cut in cuts
    ]
    headings = (
        ">No.", "With", "Cut", ">Line at", "Blade", ">From", ">To", "Cuts of the plan", "Comes off"
    )  # fmt: skip
    kerf = max((cut.kerf for cut in layout.sheets[number].cuts), default=0)
    note = ""
    if kerf and any(cut.tool in ("knife", "shears") for cut in cuts):
        note = manner.translate(
            "Lines are those of a saw cut of {kerf}: by knife and shears pieces come out so much larger at most."
        ).format(kerf=length(from_grid(kerf), FIT_MM, manner))
    return table(sheet_title(layout, number, title, manner), headings, rows, note, manner)


def _part_names(parts: str, names: Mapping[str, str]) -> str:
    return ", ".join(names.get(part, part) for part in parts.split(", "))


def sheet_title(layout: Layout, number: int, title: str, manner: Manner) -> str:
    """ "Birch plywood, 1 of 2: 2500 × 1250"."""
    return (
        f"{manner.name(title)}, {number + 1} {manner.translate('of')} {len(layout.sheets)}: "
        + _sheet_size(layout.sheets[number], manner)
    )


def _sheet_size(sheet: Sheet, manner: Manner) -> str:
    sizes = (sheet.length,) if sheet.form == "stick" else (sheet.length, sheet.width)
    return " × ".join(_mm(one, manner) for one in sizes)


def merchant_table(
    listed: MerchantList, title: str, names: Mapping[str, str] = NO_NAMES, manner: Manner = ENGLISH
) -> Table:
    """What the merchant is asked to cut, larger all round. names : of the parts, by their id."""
    rows = [
        (
            str(count),
            length(long, manner=manner),
            length(wide, manner=manner),
            str(strips),
            ", ".join(names.get(part, part) for part in parts),
        )
        for (long, wide, strips), (count, parts) in _alike(listed).items()
    ]
    headings = (">Count", ">Length", ">Width", ">Strips in it", "For")
    note = manner.translate(
        "By the merchant's saw, kerf {kerf}: {his} bought; by your own: {own}. Length runs along the grain."
    ).format(kerf=length(listed.kerf_mm, FIT_MM, manner), his=listed.sheets, own=listed.own_sheets)
    if listed.layout.unplaced:
        note += " " + manner.translate(
            "Some go on no sheet with what is added all round: cut those yourself."
        )
    return table(title, headings, rows, note, manner)


def _alike(listed: MerchantList) -> dict[tuple[float, float, int], tuple[int, list[str]]]:
    """Count and parts of each rough size; what is equally large is asked for in one line."""
    blanks = {blank.id: blank for blank in listed.demand.blanks}
    found: dict[tuple[float, float, int], tuple[int, list[str]]] = {}
    for size in listed.sizes:
        key = size.length_mm, size.width_mm, size.strips
        count, parts = found.get(key, (0, []))
        for name in size.blanks:
            blank = blanks.get(name) or blanks[f"{name} × {size.strips}"]
            parts += [part for part in blank.part.split(", ") if part not in parts]
        found[key] = count + size.count, parts
    return found


def sizes_table(
    found: Sequence[tuple[Demand, Sequence[BreakPoint]]],
    titles: Mapping[str, str],
    names: Mapping[str, str] = NO_NAMES,
    manner: Manner = ENGLISH,
) -> Table:
    """Parts that would save a sheet if they were a little smaller, the nearest first."""
    rows = [row for demand, points in found for row in _points(demand, points, titles, names, manner)]
    headings = ("Material", "Parts", "Way", ">Smaller by", ">Blank then", ">Saved", "Sure")
    note = manner.translate(
        "Sizes of the blanks, at most 15 % smaller, by plans that can be cut so. Of a matched run each front is so "
        "much smaller and the blank is that of all; bundles of short wood are left out."
    )
    if not rows:
        note = manner.translate("No part saves anything by being a little smaller.") + " " + note
    note = " ".join([note, *_not_tried((demand for demand, _ in found), titles, manner)])
    return table("Sizes at which less is bought", headings, rows, note, manner)


def _points(
    demand: Demand,
    points: Sequence[BreakPoint],
    titles: Mapping[str, str],
    names: Mapping[str, str],
    manner: Manner,
) -> Iterator[tuple[str, ...]]:
    blanks = {blank.id: blank for blank in demand.blanks}
    for point in points:
        parts = dict.fromkeys(names.get(blanks[one].part, blanks[one].part) for one in point.together)
        yield (
            titles.get(demand.material, demand.material),
            ", ".join(parts),
            manner.translate(point.axis),
            length(from_grid(point.smaller_by), FIT_MM, manner),
            length(from_grid(point.size), FIT_MM, manner),
            _amount(point.saved, demand, manner),
            manner.translate(NEAREST if point.nearest else "a nearer size may do it"),
        )


def _amount(saved: int | Decimal, demand: Demand, manner: Manner) -> str:
    """Sheets or sticks by number, money, area in m², of a roll its length."""
    if demand.aim == "length":
        return amount(from_grid(int(saved)), "mm", manner)
    if demand.aim == "area":
        return f"{figure(float(saved) / AREA_M2, 2, manner)} m²"
    return str(saved) if demand.aim == "fewest" else figure(float(saved), 2, manner)


def one_more_table(
    found: Sequence[tuple[Demand, Sequence[OneMore]]],
    titles: Mapping[str, str],
    names: Mapping[str, str] = NO_NAMES,
    manner: Manner = ENGLISH,
) -> Table:
    """Parts that stand on the edge: 1 mm more and another sheet or stick is bought, or they fit none."""
    rows = []
    for demand, more in found:
        blanks = {blank.id: blank for blank in demand.blanks}
        for one in more:
            parts = dict.fromkeys(names.get(blanks[name].part, blanks[name].part) for name in one.together)
            rows.append(
                (
                    titles.get(demand.material, demand.material),
                    ", ".join(parts),
                    manner.translate(one.axis),
                    _more(one, demand, manner),
                    manner.translate("sure" if one.sure else "a better plan may do without"),
                )
            )
    headings = ("Material", "Parts", "Way", ">More to buy", "Sure")
    told = [] if rows else [manner.translate("No part costs a sheet or stick by being 1 mm larger.")]
    note = " ".join([*told, *_not_tried((demand for demand, _ in found), titles, manner)])
    return table("What 1 mm more costs", headings, rows, note, manner)


def _more(one: OneMore, demand: Demand, manner: Manner) -> str:
    if one.more is None:
        return manner.translate("fits none" if one.sure else "more than there is")
    return _amount(one.more, demand, manner)


def _not_tried(demands: Iterable[Demand], titles: Mapping[str, str], manner: Manner) -> Iterator[str]:
    """Which sizes were left out because there are many."""
    for demand in demands:
        tried, count = sizes_tried(demand)
        if tried < count:
            yield manner.translate("{material}: the {tried} largest of {count} sizes are tried.").format(
                material=titles.get(demand.material, demand.material), tried=tried, count=count
            )


def _mm(size: int, manner: Manner) -> str:
    return length(from_grid(size), manner=manner)
