"""From a planned job to what is priced: hours of each operation, sheets as bought, net wood, finished faces."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal

from evenface.construction import BuiltPanel
from evenface.layouts import Layout, Sheet
from evenface.layouts.records import DEFAULT_LEAST_OFFCUT
from evenface.materials import Carrier, Facing
from evenface.parts import Part
from evenface.parts.supplies import supplies_for
from evenface.piece.records import Job, Meeting, Role
from evenface.pricing.money import decimal_of
from evenface.pricing.records import Hours, Needed, SheetUse
from evenface.units import from_grid
from evenface.words import Said, said
from evenface.workplan import Step, Work

type OwnShares = Mapping[Work, tuple[float, int]]
"""Own time as a share of the estimate, and how many jobs it rests on."""

SHEET_ROLES = (Role.CARRIER, Role.FACE, Role.BACK)


def hours_of(steps: Sequence[Step], own: OwnShares | None = None) -> tuple[Hours, ...]:
    """Minutes of hands by operation, in the order of first use; two people take twice the time.

    steps : with the usual estimates, or with minutes a maker has set; own times are a share of them.
    """
    usual: dict[Work, float] = defaultdict(float)
    for step in steps:
        usual[step.work] += step.hand_minutes.total * step.people
    shares = own or {}
    return tuple(
        Hours(work, minutes * shares.get(work, (1.0, 0))[0], minutes, shares.get(work, (1.0, 0))[1])
        for work, minutes in usual.items()
    )


def sheets_of(
    job: Job, layouts: Sequence[Layout], materials: Mapping[str, Carrier | Facing], currency: str
) -> tuple[SheetUse, ...]:
    """Stock the layouts take, by material and size, with the price of the stock list or the catalogue.

    materials : the record of every sheet material of the job. A price in another currency counts as none.
    """
    return tuple(
        use
        for layout in layouts
        if layout.section is None and layout.material in materials
        for use in _of_layout(job, layout, materials[layout.material], currency)
    )


def _of_layout(job: Job, layout: Layout, material: Carrier | Facing, currency: str) -> Iterator[SheetUse]:
    groups: dict[str, list[Sheet]] = defaultdict(list)
    for sheet in layout.sheets:
        groups[sheet.stock].append(sheet)
    prices = _prices(job, material, currency)
    for stock, sheets in groups.items():
        first = sheets[0]
        by_metre = first.form == "roll"
        yield SheetUse(
            material=material.name,
            title=material.title,
            form=first.form,
            size_mm=(None if by_metre else from_grid(first.length), from_grid(first.width)),
            amount=decimal_of(from_grid(sum(s.length for s in sheets)) / 1000)
            if by_metre
            else Decimal(len(sheets)),
            price=prices.get(stock),
            offcuts_mm=tuple(
                (from_grid(rest.length), from_grid(rest.width))
                for sheet in sheets
                for rest in sheet.sound_rests
                if rest.useful(DEFAULT_LEAST_OFFCUT)
            ),
            origin=_used_at(job, material.name),
        )


def _prices(job: Job, material: Carrier | Facing, currency: str) -> dict[str, Decimal | None]:
    """By the id the layouts give to each size of supply: the name and its number."""
    return {
        f"{material.name} #{number}": supply.price if supply.currency in (currency, "¤") else None
        for number, (supply, _) in enumerate(supplies_for(job, material), start=1)
    }


def wood_of(job: Job, parts: Sequence[Part], titles: Mapping[str, str]) -> tuple[Needed, ...]:
    """Rough volume of solid wood by species in m³, before waste; what is already cut is left out."""
    volume: dict[str, float] = defaultdict(float)
    for part in parts:
        for layer in part.layers:
            if layer.bought_mm is not None and not layer.locked:
                length, width, height = layer.bought_mm
                volume[layer.material] += part.count * layer.count * length * width * height * 1e-9
    return tuple(
        Needed(name, titles.get(name, name), decimal_of(rough), _used_at(job, name))
        for name, rough in volume.items()
    )


def finished_area_m2(panel: BuiltPanel) -> float:
    """Wood of one panel that is oiled, soaped or lacquered: edgings outside and level with a face, bare faces."""
    area = sum(
        edging.outer_length_mm
        * (edging.height_mm + _level_width(panel, edging.meets(Role.FACE), edging.width_mm))
        + edging.outer_length_mm * _level_width(panel, edging.meets(Role.BACK), edging.width_mm)
        for edging in panel.edgings
    )
    if not panel.faces and not getattr(panel.carrier.material, "faced", False):
        area += 2.0 * panel.length_mm * panel.width_mm
    return area * 1e-6


def _level_width(panel: BuiltPanel, meeting: Meeting, width_mm: float) -> float:
    return width_mm if meeting is Meeting.FLUSH or not panel.faces else 0.0


def not_laid_out(job: Job, parts: Sequence[Part], layouts: Sequence[Layout]) -> tuple[Said, ...]:
    """Sheets the layouts hold no place for, so that nobody knows how many are bought."""
    laid = {layout.material for layout in layouts}
    wanted = dict.fromkeys(
        layer.material
        for part in parts
        for layer in part.layers
        if layer.role in SHEET_ROLES and not layer.locked and min(layer.blank_mm[:2]) > 0
    )
    nobody = [
        said("{material}: nobody sells it in sheets", material=name) for name in wanted if name not in laid
    ]
    unplaced = [
        said("{material}: no stock for {blank}", material=layout.material, blank=blank)
        for layout in layouts
        if layout.section is None
        for blank, _ in layout.unplaced
    ]
    return (*nobody, *unplaced)


def _used_at(job: Job, material: str) -> str:
    """File and line where the job names the material first, as far as it is written there."""
    for buildup in job.buildups.values():
        for layer in buildup.layers:
            if layer.material == material and layer.origin in job.texts:
                return f"{job.file}, line {job.texts[layer.origin][0]}"
    return job.file
