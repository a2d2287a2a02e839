"""`evenface cutting`: lists for whoever cuts, from the plan kept beside the packet or one made now."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Final

from rich.console import Console

from evenface.documents import cutting_tables as tables
from evenface.documents.display import titles_of, weights_in
from evenface.documents.files import write_files
from evenface.documents.part_labels import part_label_pdf
from evenface.documents.plan_file import kept_plans
from evenface.documents.tables import Table
from evenface.errors import Complaint, FileError, Place, one_of
from evenface.finding import Severity
from evenface.interfaces.screen import manner_of, show_findings, show_table, tell
from evenface.job.opening import open_with_all
from evenface.job.plan import all_demands, plan, sheet_materials
from evenface.layouts import (
    BreakPoint,
    Demand,
    Layout,
    OneMore,
    break_points,
    merchant_list,
    one_more,
    rail_order,
    shears_order,
)
from evenface.materials import Facing
from evenface.parts.supplies import cut_by_knife
from evenface.result import Result
from evenface.words import Manner, said

LISTS: Final = ("saw", "rail", "shears", "merchant", "sizes")
type Sizes = tuple[Demand, tuple[BreakPoint, ...], tuple[OneMore, ...]]
FLAT_FORMS: Final = ("sheet", "rolled_sheet", "roll")


def cutting_and_show(
    path: Path, which: str, out: Path | None, seconds: float, materials: Path | None, units: str
) -> int:
    """Show one of the lists; the exit code is 1 when a stop stands. out : where a kept plan may lie.

    Raises FileError for a list nobody knows.
    """
    if which not in LISTS:
        raise FileError([Complaint(Place(key="--list"), one_of(LISTS), repr(which))])
    console, manner = Console(highlight=False), manner_of(units)
    opened = open_with_all(path, materials)
    result = plan(opened, budget_s=seconds, kept=kept_plans(out) if out is not None else {})
    shown = list(lists_of(result, which, manner))
    for one in shown:
        show_table(console, one)
    if not shown:
        console.print(manner.translate("Nothing of this job is cut that way."))
    stops = [finding for finding in result.findings if finding.severity is Severity.STOP]
    if stops:
        show_findings(console, stops, manner)
    return int(bool(stops))


def labels_and_show(
    path: Path, file: Path, skip: int, out: Path | None, seconds: float, materials: Path | None, units: str
) -> int:
    """Write the stickers for the parts to `file`; the exit code is 1 when a stop stands.

    skip : stickers already used at the head of the first sheet.
    """
    manner = manner_of(units)
    opened = open_with_all(path, materials)
    result = plan(opened, budget_s=seconds, kept=kept_plans(out) if out is not None else {})
    made = part_label_pdf(result, date.today(), skip, manner)
    write_files({file.name: made}, file.parent)
    tell(Console(highlight=False), said("Written to {file}. Print at 100 %.", file=str(file)))
    return int(any(finding.severity is Severity.STOP for finding in result.findings))


def lists_of(result: Result, which: str, manner: Manner) -> Iterator[Table]:
    """The tables of one list, in the order of the layouts."""
    titles = titles_of(result)
    names = {part.id: f"{part.piece}: {manner.name(part.name)}" for part in result.sketch.all_parts}
    pairs = list(zip(all_demands(result.sketch), result.layouts, strict=True))
    if which == "sizes":
        found = [_sizes(demand, layout) for demand, layout in pairs]
        yield tables.sizes_table([(demand, points) for demand, points, _ in found], titles, names, manner)
        yield tables.one_more_table([(demand, more) for demand, _, more in found], titles, names, manner)
        return
    knife = {name for name, one in sheet_materials(result.sketch).items() if cut_by_knife(one)}
    for demand, layout in pairs:
        title = titles.get(layout.material, layout.material)
        if which == "merchant":
            if demand.stock[0].form in FLAT_FORMS and layout.material not in knife:
                listed = merchant_list(demand, layout, result.sketch.job.cutting.merchant)
                yield tables.merchant_table(listed, title, names, manner)
        elif which == "saw" or _cut_so(which, layout, demand, knife, result):
            yield from _sheets(layout, which, title, result, layout.material in knife, manner)


def _sheets(
    layout: Layout, which: str, title: str, result: Result, knife: bool, manner: Manner
) -> Iterator[Table]:
    cutting = result.sketch.job.cutting
    weight = weights_in(result.sketch).get(layout.material, 0.0)
    names = {part.id: f"{part.id} {manner.name(part.name)}" for part in result.sketch.all_parts}
    for number, sheet in enumerate(layout.sheets):
        if which == "saw":
            yield tables.saw_table(layout, number, title, manner, weight, names)
        elif which == "rail":
            yield tables.hand_table(layout, number, title, rail_order(sheet, cutting.rail_mm), manner, names)
        else:
            by_hand = shears_order(sheet, cutting.shears_mm, trims=not knife)
            yield tables.hand_table(layout, number, title, by_hand, manner, names)


def _cut_so(which: str, layout: Layout, demand: Demand, knife: set[str], result: Result) -> bool:
    """Rails are for boards and laminate in sheets; knife and shears for linoleum, veneer, paper, thin laminate."""
    if demand.stock[0].form not in FLAT_FORMS:
        return False
    material: Mapping[str, object] = sheet_materials(result.sketch)
    if which == "rail":
        return layout.material not in knife
    return isinstance(material.get(layout.material), Facing)


def _sizes(demand: Demand, layout: Layout) -> Sizes:
    """Sizes at which less would be bought, and what 1 mm more costs; of none where pieces are left out.

    Where one size that can be had at will is all that is bought, as if only that existed.
    """
    only = _of_one_size(demand, layout)
    if layout.unplaced:
        return demand, (), ()
    if only is None:
        return demand, break_points(demand, layout.measure), one_more(demand, layout.measure)
    bought = layout.bought.running_length if only.aim == "length" else layout.bought.count
    return only, break_points(only, bought), one_more(only, bought)


def _of_one_size(demand: Demand, layout: Layout) -> Demand | None:
    bought = set(layout.bought.by_stock)
    stock = tuple(size for size in demand.stock if size.id in bought)
    if len(stock) != 1 or stock[0].offcut or stock[0].copies is not None:
        return None
    return replace(demand, stock=stock)
