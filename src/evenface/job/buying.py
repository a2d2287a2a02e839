"""The buying list: whole sheets and metres from the layouts, rough wood and glue by reckoning, fittings counted."""

from collections import defaultdict
from collections.abc import Iterator

from evenface.layouts import Layout
from evenface.materials import Catalogue
from evenface.materials.rules import rule
from evenface.parts import LayerSizes
from evenface.result import BuyingRow, Sketch
from evenface.units import from_grid
from evenface.words import NOTHING, Said, said

WOOD_WASTE = rule("wood-waste")
GLUE_SPARE = 1.1
"""A tenth more glue than the sum: what stays in pot, roller and brush."""


def buying_rows(sketch: Sketch, layouts: tuple[Layout, ...], catalogue: Catalogue) -> tuple[BuyingRow, ...]:
    """Everything to buy, sheets first, then wood, then glue, then fittings; not what lies in the rack."""
    in_rack = {item.stock_id(item.material, 0) for item in sketch.job.stock if item.codes}
    return (
        *_sheets(layouts, catalogue, in_rack),
        *_wood(sketch, catalogue, {layout.material for layout in layouts if layout.section is None}),
        *_sticks(layouts, catalogue),
        *_glue(sketch, catalogue),
        *_fittings(sketch),
    )


def _sheets(layouts: tuple[Layout, ...], catalogue: Catalogue, in_rack: set[str]) -> Iterator[BuyingRow]:
    for layout in layouts:
        if layout.section is not None:
            continue
        title = _title(catalogue, layout.material)
        rows: dict[tuple[str, int, int], int] = defaultdict(int)
        for sheet in layout.sheets:
            if sheet.stock in in_rack:
                continue
            length = 0 if sheet.form == "roll" else sheet.length
            rows[sheet.form, length, sheet.width] += sheet.length if sheet.form == "roll" else 1
        for (form, length, width), amount in sorted(rows.items()):
            by_metre = form == "roll"
            yield BuyingRow(
                material=layout.material,
                title=title,
                form=form,
                size_mm=(None if by_metre else from_grid(length), from_grid(width)),
                amount=from_grid(amount) / 1000 if by_metre else amount,
                unit="m" if by_metre else "boards" if form == "board" else "sheets",
                note=said("No plan needs less." if layout.proved else "A plan with less is not ruled out."),
            )


def _wood(sketch: Sketch, catalogue: Catalogue, laid_out: set[str]) -> Iterator[BuyingRow]:
    """Rough wood by species: net rough volume over what is left of a bought board.

    laid_out : materials that are listed piece by piece already, boards of the stock list among them.
    """
    volume: dict[str, float] = defaultdict(float)
    thickest: dict[str, float] = defaultdict(float)
    for part in sketch.all_parts:
        for layer in part.layers:
            if layer.bought_mm is not None and not layer.locked and layer.material not in laid_out:
                volume[layer.material] += part.count * layer.count * _cubic_metres(layer)
                thickest[layer.material] = max(thickest[layer.material], min(layer.bought_mm[1:]))
    for wood, rough in volume.items():
        yield BuyingRow(
            material=wood,
            title=catalogue.wood(wood).title,
            form="board",
            size_mm=None,
            amount=rough / (1.0 - WOOD_WASTE.nominal),
            unit="m³",
            note=said(
                "Rough sticks {rough} m³ and {waste:percent} waste of what is bought; boards at least "
                "{thickness:mm} thick.",
                rough=round(rough, 5),
                waste=WOOD_WASTE.nominal,
                thickness=thickest[wood],
            ),
        )


def _sticks(layouts: tuple[Layout, ...], catalogue: Catalogue) -> Iterator[BuyingRow]:
    """Metres of each planed section: what the rough wood above has to give, not bought beside it."""
    for layout in layouts:
        section = layout.section
        if section is None or not layout.sheets:
            continue
        yield BuyingRow(
            material=section.wood,
            title=catalogue.wood(section.wood).title,
            form="stick",
            size_mm=(from_grid(section.width), from_grid(section.height)),
            amount=from_grid(sum(sheet.length for sheet in layout.sheets)) / 1000,
            unit="m",
            note=said(
                "Sticks planed to this section, out of the rough wood above: {count:count}.",
                count=len(layout.sheets),
            ),
        )


def _cubic_metres(layer: LayerSizes) -> float:
    assert layer.bought_mm is not None
    length, width, height = layer.bought_mm
    return length * width * height * 1e-9


def _glue(sketch: Sketch, catalogue: Catalogue) -> Iterator[BuyingRow]:
    grams: dict[str, float] = defaultdict(float)
    for construction in sketch.constructions:
        for panel in construction.panels:
            faces = sum(face.rectangle.length_mm * face.rectangle.width_mm for face in panel.faces)
            edges = sum(edging.inner_length_mm * edging.height_mm for edging in panel.edgings)
            grams[panel.glue.name] += (
                panel.count * faces * 1e-6 * _per_square_metre(catalogue, panel.glue.name)
            )
            grams[panel.edging_glue.name] += (
                panel.count * edges * 1e-6 * _per_square_metre(catalogue, panel.edging_glue.name)
            )
        for board in construction.boards:
            lining = board.board.lining
            if lining is not None:
                area = board.count * board.board.length_mm * board.board.width_mm * 1e-6
                grams[lining.glue] += area * _per_square_metre(catalogue, lining.glue)
    jointed = any(joint.glued for one in sketch.constructions for joint in one.arranged.joints)
    for name, amount in grams.items():
        if amount > 0:
            joints = jointed and not catalogue.glue(name).kind.startswith("contact")
            yield BuyingRow(
                material=name,
                title=catalogue.glue(name).title,
                form="glue",
                size_mm=None,
                amount=amount * GLUE_SPARE / 1000,
                unit="kg",
                note=said(
                    "Area × spread on every side and coat, and a tenth over; the little that joints take stands on "
                    "their glue cards."
                )
                if joints
                else said("Area × spread on every side and coat, and a tenth over."),
            )


def _fittings(sketch: Sketch) -> Iterator[BuyingRow]:
    """Hinges, runners, dowels and the like of all pieces, those of one name and size together."""
    counts: dict[tuple[str, Said], int] = defaultdict(int)
    reasons: dict[tuple[str, Said], Said] = {}
    for construction in sketch.constructions:
        for one in construction.arranged.fittings:
            counts[one.name, one.size] += one.count * construction.piece.count
            reasons.setdefault((one.name, one.size), one.why)
    for (name, size), count in counts.items():
        why = reasons[name, size]
        yield BuyingRow(
            material=name,
            title=name,
            form="fitting",
            size_mm=None,
            amount=count,
            unit="pieces",
            note=said("{size}. {why}", size=size, why=why) if size != NOTHING else why,
        )


def _per_square_metre(catalogue: Catalogue, name: str) -> float:
    glue = catalogue.glue(name)
    return glue.spread.nominal * glue.sides * glue.coats


def _title(catalogue: Catalogue, name: str) -> str:
    if name in catalogue.names("wood"):  # boards of the stock list
        return catalogue.wood(name).title
    known = catalogue.names("carrier")
    return catalogue.carrier(name).title if name in known else catalogue.facing(name).title
