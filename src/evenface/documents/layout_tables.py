"""Layouts as tables: what is bought and how sure that is, and the cuts in the order they are made."""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from evenface.documents.display import DASH, FIT_MM, length
from evenface.documents.tables import Table, table
from evenface.layouts import Cut, Handled, Layout, Sheet, cut_apart, handled, labels_of, net_area_mm2
from evenface.parts import Part
from evenface.units import from_grid
from evenface.words import ENGLISH, Manner, figure, said, say

FORM_WORDS: Final = {
    "sheet": ("sheet", "sheets"),
    "rolled_sheet": ("rolled sheet", "rolled sheets"),
    "roll": ("run of roll", "runs of roll"),
    "stick": ("stick", "sticks"),
    "board": ("board", "boards"),
}
LYING: Final = ("stick", "board", "roll")
"""What is not turned on a saw: narrow wood, and runs of a roll, which are cut where they lie."""
NO_NAMES: Final[Mapping[str, str]] = MappingProxyType({})
AXIS_WORDS: Final = {"along": "along", "across": "across"}


def layout_summary(
    layouts: Sequence[Layout],
    titles: Mapping[str, str],
    manner: Manner = ENGLISH,
    parts: Sequence[Part] = (),
) -> Table:
    """One row a material: what is bought, how much of it becomes pieces, whether less would do.

    parts : of the job; with them sticks and boards say how much is left of them in the finished piece.
    """
    rows = [
        (
            titles.get(layout.material, layout.material),
            bought(layout, manner),
            figure(100 * used(layout), 0, manner) + " %" + _net(layout, parts, manner),
            sureness(layout, manner),
            manner.translate("checked" if layout.checked else "not checked"),
        )
        for layout in layouts
    ]
    headings = ("Material", "Bought", ">Used", "Could it be less?", "Second check")
    return table("Layouts", headings, rows, manner=manner)


def _net(layout: Layout, parts: Sequence[Part], manner: Manner) -> str:
    """ ", net 41 %" of sticks and boards."""
    if not parts or not layout.sheets or layout.sheets[0].form not in ("stick", "board"):
        return ""
    wide = layout.section.width if layout.sheets[0].form == "stick" and layout.section is not None else 1
    whole = sum(sheet.area for sheet in layout.sheets) * wide / 1e4
    share = figure(100 * net_area_mm2(layout, parts) / whole, 0, manner)
    return ", " + manner.translate("net {share} %").format(share=share)


def used(layout: Layout) -> float:
    """Share of what is bought that becomes pieces."""
    whole = sum(sheet.area for sheet in layout.sheets)
    return sum(sheet.pieces_area for sheet in layout.sheets) / whole if whole else 0.0


def bought(layout: Layout, manner: Manner = ENGLISH) -> str:
    """ "2 sheets of 3050 × 1300", "4120 mm of roll 1200 wide"."""
    if not layout.sheets:
        return manner.translate("nothing")
    counts: dict[tuple[str, int, int], int] = {}
    for sheet in layout.sheets:
        key = (sheet.form, 0 if sheet.form == "roll" else sheet.length, sheet.width)
        counts[key] = counts.get(key, 0) + (sheet.length if sheet.form == "roll" else 1)
    return "; ".join(_bought_words(*key, count, manner) for key, count in counts.items())


def _bought_words(form: str, long: int, wide: int, count: int, manner: Manner) -> str:
    if form == "roll":
        return manner.translate("{run} of roll, {width} wide").format(
            run=f"{length(from_grid(count), manner=manner)} {manner.length_unit}",
            width=length(from_grid(wide), manner=manner),
        )
    of = manner.translate("of")
    sizes = (long,) if form == "stick" else (long, wide)
    shown = " × ".join(length(from_grid(one), manner=manner) for one in sizes)
    return f"{count} {manner.translate(FORM_WORDS[form][count != 1])} {of} {shown}"


def sureness(layout: Layout, manner: Manner = ENGLISH) -> str:
    """Whether less could be bought, in plain words."""
    if layout.unplaced:
        return manner.translate("some pieces fit no stock: see the findings")
    form = layout.sheets[0].form if layout.sheets else "sheet"
    words = _FEWEST.get(form, _SURE["fewest"]) if layout.aim == "fewest" else _SURE[layout.aim]
    told = manner.translate(words[0 if layout.proved else 1])
    if layout.proved or not layout.bound:
        return told
    return say(said("{told}; at most {gap:percent} less", told=told, gap=layout.gap), manner)


_SURE: Final = {
    "fewest": ("no plan with fewer sheets exists", "one sheet fewer is not ruled out"),
    "money": ("no cheaper plan exists", "a cheaper plan is not ruled out"),
    "area": ("no plan with less material exists", "a plan with less material is not ruled out"),
    "length": ("no shorter run exists", "a shorter run is not ruled out"),
}
_FEWEST: Final = {
    "stick": ("no plan with fewer sticks exists", "one stick fewer is not ruled out"),
    "board": ("no plan with fewer boards exists", "one board fewer is not ruled out"),
}


def cut_list(
    sheet: Sheet, manner: Manner = ENGLISH, kg_per_m2: float = 0.0, names: Mapping[str, str] = NO_NAMES
) -> Table:
    """The cuts of one sheet in their order: what the fence is set to, what lies on the saw, which part comes off. [mm]

    kg_per_m2 : of the sheet, 0 where it is not known. names : of the parts, by their id.
    """
    headings = [">No.", "Cut", ">Fence", ">From", ">To", "On the saw", "", "Comes off"]
    if sheet.form in LYING:
        headings[5:7] = []
    if sheet.form == "stick":
        headings[3:5] = []
    note = ""
    if any(cut.stage == 0 for cut in sheet.cuts[_trimmed_first(sheet) :]):
        note = manner.translate(
            "Cuts before the later trims run on over the edges that are still to be trimmed."
        )
    return table("Cuts in order", headings, _cut_rows(sheet, kg_per_m2, names, manner), note, manner)


def _trimmed_first(sheet: Sheet) -> int:
    """How many trims stand before all other cuts."""
    return next((n for n, cut in enumerate(sheet.cuts) if cut.stage > 0), len(sheet.cuts))


def _cut_rows(
    sheet: Sheet, kg_per_m2: float, names: Mapping[str, str], manner: Manner
) -> Iterator[tuple[str, ...]]:
    off: dict[int, dict[str, None]] = {}
    for one in labels_of(sheet):
        off.setdefault(one.after_cut, {})[_named(one.part.split(", "), names, manner)] = None
    on: dict[int, list[Handled]] = {}
    for lying in handled(sheet, kg_per_m2, 0.0):
        on.setdefault(lying.cut.number, []).append(lying)
    for cut in sheet.cuts:
        kind = "trim, " if cut.stage == 0 else ""
        yield (
            str(cut.number),
            manner.translate(kind + AXIS_WORDS[cut.axis]),
            length(from_grid(cut.fence), FIT_MM, manner),
            *_from_to(cut, sheet, manner),
            *(() if sheet.form in LYING else _on_the_saw(on.get(cut.number, []), manner)),
            ", ".join(off.get(cut.number, ())),
        )
    for last in cut_apart(sheet):
        cut = last.cut
        yield (
            str(cut.number),
            manner.translate("apart, " + AXIS_WORDS[cut.axis]),
            length(from_grid(cut.fence), FIT_MM, manner),
            *_from_to(cut, sheet, manner),
            *(() if sheet.form in LYING else ("", "")),
            ", ".join(names.get(part, part) for part in last.off),
        )


def _from_to(cut: Cut, sheet: Sheet, manner: Manner) -> tuple[str, ...]:
    """Where the cut begins and ends; nothing for a stick, which is cut through."""
    if sheet.form == "stick":
        return ()
    return length(from_grid(cut.from_), manner=manner), length(from_grid(cut.to_), manner=manner)


def _named(parts: Sequence[str], names: Mapping[str, str], manner: Manner) -> str:
    """A part by its name; several that are still to be cut apart, together."""
    shown = ", ".join(names.get(part, part) for part in parts)
    return manner.translate("{parts} together").format(parts=shown) if len(parts) > 1 else shown


def _on_the_saw(lying: Sequence[Handled], manner: Manner) -> tuple[str, str]:
    """Size and mass of what lies there, the largest of several strips with their number, and whether it is turned."""
    if not lying:
        return "", ""
    most = max(lying, key=lambda one: one.length * one.width)
    size = " × ".join(length(from_grid(one), manner=manner) for one in (most.length, most.width))
    mass = (
        f", {figure(most.mass_kg, 1 if most.mass_kg < 10.0 else 0, manner)}\N{NO-BREAK SPACE}kg"
        if most.mass_kg
        else ""
    )
    shown = size + mass
    if len(lying) > 1:
        shown = manner.translate("{count} strips, up to {size}").format(count=len(lying), size=shown)
    return shown, manner.translate("turned") if any(one.turned for one in lying) else ""


def pieces_table(sheet: Sheet, names: Mapping[str, str] = NO_NAMES, manner: Manner = ENGLISH) -> Table:
    """What is cut from one sheet, equal pieces of one part together. names : of the parts, by their id."""
    counts: dict[tuple[str, str, bool], int] = {}
    for piece in (one for placed in sheet.placed for one in placed.apart):
        sizes = (piece.length,) if sheet.form == "stick" else (piece.length, piece.width)
        shown = " × ".join(length(from_grid(one), FIT_MM, manner) for one in sizes)
        counts[piece.part, shown, piece.turned] = counts.get((piece.part, shown, piece.turned), 0) + 1
    rows = [
        (str(count), names.get(part, part), shown, manner.translate("turned") if turned else DASH)
        for (part, shown, turned), count in counts.items()
    ]
    return table("Pieces", (">Count", "Part", ">Size as it lies", "Direction"), rows, manner=manner)


def offcut_line(sheet: Sheet, manner: Manner = ENGLISH) -> str:
    """Rests worth keeping, largest first; empty when there is none to speak of (shortest side 100 mm)."""
    keep = [
        rest for rest in sheet.sound_rests if rest.useful((30_000, 10_000 if sheet.form != "stick" else 1))
    ]
    keep.sort(key=lambda rest: rest.area, reverse=True)
    sizes = ((rest.length,) if sheet.form == "stick" else (rest.length, rest.width) for rest in keep)
    return ", ".join(" × ".join(length(from_grid(one), manner=manner) for one in rest) for rest in sizes)
