"""From parts to demands: every sheet blank of the job, gathered by material, with what it may be cut from."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Final

from evenface.construction import BuiltPanel, Construction
from evenface.layouts.batches import batches_named, batches_that_suffice
from evenface.layouts.board_demand import flaw_of
from evenface.layouts.joined import joined_blanks
from evenface.layouts.records import Blank, Demand, Saw
from evenface.layouts.runs import Member, gathered, run_members
from evenface.layouts.sets import sets_named, sets_that_fit
from evenface.layouts.stock_records import UNTOLD, StockSize, Timber, sound_part
from evenface.materials import Carrier, Facing, Supply
from evenface.parts import LayerSizes, Part
from evenface.parts.seams import seams_of
from evenface.parts.supplies import cut_by_knife, may_turn, supplies_for, trim_mm
from evenface.piece.cutting_records import PLAIN_BOARD, RoughBoard
from evenface.piece.records import Job, Role
from evenface.units import grid_down, grid_up

SQUARE_METRE: Final = 100_000 * 100_000
SHEET_ROLES = (Role.CARRIER, Role.FACE, Role.BACK)


def demands_of(
    job: Job,
    parts: Sequence[Part],
    materials: Mapping[str, Carrier | Facing],
    panels: Sequence[BuiltPanel] = (),
    constructions: Sequence[Construction] = (),
) -> tuple[Demand, ...]:
    """One demand a material, in the order of first use; parts already cut are left out.

    So are layers of which the edging leaves nothing and materials that nobody sells: both are findings of
    the rooms before this one.
    materials : the record of every sheet material named by a layer. panels : what the parts were made from;
    needed for matched runs, whose faces become one blank. constructions : the pieces they stand in, for the gaps.
    """
    blanks: dict[str, list[Blank]] = defaultdict(list)
    built = {panel.origin: panel for panel in panels}
    for part in parts:
        for layer in part.layers:
            if layer.role in SHEET_ROLES and not layer.locked and min(layer.blank_mm[:2]) > 0:
                material = materials[layer.material]
                whole = _blank(part, layer, may_turn(material))
                panel = built.get(part.origin) if part.origin else None
                seamed = seams_of(job, panel, part, layer, material) if panel is not None else None
                blanks[layer.material] += joined_blanks(whole, seamed) if seamed else [whole]
    blanks = {
        name: batches_named(sets_named(wanted, parts, panels), parts, panels, job.buildups)
        for name, wanted in blanks.items()
    }
    single = {(blank.part, blank.layer): blank for wanted in blanks.values() for blank in wanted}
    in_runs = run_members(parts, panels, single, constructions)
    return tuple(
        _demand(job, materials[name], wanted, in_runs.get(name, []))
        for name, wanted in blanks.items()
        if supplies_for(job, materials[name])
    )


def _demand(
    job: Job, material: Carrier | Facing, wanted: Sequence[Blank], in_runs: Sequence[Member]
) -> Demand:
    stock, saw = _stock(job, material), _saw(job, material)
    runs, findings = gathered(in_runs, stock, saw.kerf)
    matched = {member.blank.id for member in in_runs}
    single = [blank for blank in wanted if blank.id not in matched]
    kept, told = sets_that_fit((*single, *runs), stock, saw, material.name)
    told = (*findings, *told)
    return batches_that_suffice(Demand(material.name, kept, stock, saw, findings=told, aims=job.cutting.aims))


def _blank(part: Part, layer: LayerSizes, turns: bool) -> Blank:
    length, width = grid_up(layer.blank_mm[0]), grid_up(layer.blank_mm[1])
    if layer.direction_deg % 180 == 90:
        length, width = width, length
    return Blank(
        id=f"{part.id} {layer.role.value}",
        part=part.id,
        layer=layer.role.value,
        length=length,
        width=width,
        count=part.count,
        may_turn=turns,
    )


def _stock(job: Job, material: Carrier | Facing) -> tuple[StockSize, ...]:
    trim = trim_mm(job, material)
    supplies = supplies_for(job, material)
    own = [item for item in job.stock if item.material == material.name]
    rests = [item.form == "offcut" or bool(item.codes) for item in own] or [False] * len(supplies)
    names = [item.stock_id(material.name, number) for number, item in enumerate(own, start=1)]
    by_metre = supplies[0][0].form == "roll"
    return tuple(
        _stock_size(
            names[number - 1] if names else f"{material.name} #{number}",
            _valued(job, supply) if offcut else supply,
            copies,
            material.name,
            trim,
            offcut,
            own[number - 1].board if own else PLAIN_BOARD,
            own[number - 1].batch or (UNTOLD if offcut else "") if own else "",
        )
        for number, ((supply, copies), offcut) in enumerate(zip(supplies, rests, strict=True), start=1)
        if (supply.form == "roll") is by_metre  # a plan is made from sheets or from rolls, the first named
    )


def _valued(job: Job, supply: Supply) -> Supply:
    """A rest without a price costs what the job says a square metre of rest is worth."""
    value = job.cutting.offcut_value
    if supply.price is not None or value is None or supply.length_mm is None or supply.width_mm is None:
        return supply
    area = Decimal(str(supply.length_mm)) * Decimal(str(supply.width_mm)) / 1_000_000
    return replace(supply, price=(value * area).quantize(Decimal("0.01")), currency=job.currency or "¤")


def _stock_size(
    name: str,
    supply: Supply,
    copies: int | None,
    material: str,
    trim_mm: float,
    offcut: bool,
    board: RoughBoard,
    batch: str,
) -> StockSize:
    """A size as the layouts know it; of a damaged sheet there is one, and none where nothing of it is sound."""
    length = None if supply.length_mm is None else grid_down(supply.length_mm)
    flaws = tuple(flaw_of(one) for one in board.defects) if supply.form != "roll" else ()
    trim, width = grid_up(trim_mm), grid_down(supply.width_mm or 0.0)
    if flaws and sound_part(trim, trim, (length or 0) - 2 * trim, width - 2 * trim, flaws) is None:
        flaws, copies = (), 0
    return StockSize(
        id=name,
        material=material,
        form="roll"
        if supply.form == "roll"
        else "rolled_sheet"
        if supply.form == "rolled_sheet"
        else "sheet",
        length=length,
        width=width,
        copies=1 if flaws and copies is None else copies,
        price=supply.price,
        trim=trim,
        offcut=offcut,
        timber=Timber(flaws=flaws) if flaws else None,
        batch=batch,
    )


def _saw(job: Job, material: Carrier | Facing) -> Saw:
    first = job.saw.first_cut if job.saw.first_cut in ("along", "across") else "any"
    return Saw(
        kerf=0 if cut_by_knife(material) else grid_up(job.saw.kerf_mm),
        stages=job.saw.stages,
        first_cut="along" if first == "along" else "across" if first == "across" else "any",
        least_offcut=(
            grid_up(min(job.cutting.least_offcut_mm)),
            grid_up(max(job.cutting.least_offcut_mm)),
        ),
        most_turned=int(job.cutting.lift_kg / kg_per_m2(material) * SQUARE_METRE),
    )


def kg_per_m2(material: Carrier | Facing) -> float:
    """What a square metre of a sheet weighs, by its nominal density and thickness."""
    return material.density.nominal * material.thickness.nominal / 1000.0
