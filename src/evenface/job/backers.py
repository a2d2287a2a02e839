"""Every back, board and thickness a panel might have instead, side by side."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from evenface.behaviour import Behaviour, behaviour_of, finish_of, variants
from evenface.construction import BuiltPanel, construct
from evenface.construction.kinds import KINDS
from evenface.errors import MissingWord
from evenface.job.opening import Opened
from evenface.materials import Carrier, Facing
from evenface.piece.records import Job
from evenface.words import Said, said


@dataclass(frozen=True, slots=True)
class BackerRow:
    """One way to build the panel. cost_per_m2 : board and sheets; None where a price is missing."""

    title: Said
    kind: str
    behaviour: Behaviour
    panel: BuiltPanel
    cost_per_m2: Decimal | None


def panel_named(opened: Opened, name: str) -> BuiltPanel:
    """The panel of that name, or of "piece, part". MissingWord naming the nearest."""
    panels = [
        panel
        for construction in construct(opened.job, opened.catalogue, KINDS, opened.made)
        for panel in construction.panels
    ]
    for panel in panels:
        if name in (f"{panel.piece}, {panel.name}", f"{panel.piece}: {panel.name}"):
            return panel
    alike = [panel for panel in panels if panel.name == name]
    if len(alike) == 1:
        return alike[0]
    known = [f"{panel.piece}, {panel.name}" for panel in (alike or panels)]
    raise MissingWord("part" if not alike else "single part", name, known)


def backers(opened: Opened, name: str) -> tuple[BackerRow, ...]:
    """The panel as it is, then every other way, flattest first within its kind (back, board, shop)."""
    panel, job = panel_named(opened, name), opened.job
    finish = finish_of(job, panel, opened.catalogue)
    prices = prices_per_m2(job)
    now = behaviour_of(job, panel, opened.made, finish)
    rows = [BackerRow(said("As it is."), "now", now, panel, cost_per_m2(panel, prices))]
    others = [
        BackerRow(
            one.title,
            one.kind,
            behaviour_of(one.job, one.panel, one.made(opened.made), finish),
            one.panel,
            cost_per_m2(one.panel, prices),
        )
        for one in variants(job, panel, opened.catalogue)
    ]
    order = {"back": 0, "board": 1, "shop": 2}
    others.sort(key=lambda row: (order[row.kind], _worst(row.behaviour)))
    return (*rows, *others)


def _worst(behaviour: Behaviour) -> float:
    return max(abs(bend.deciding_mm) for bend in behaviour.bends[:2])


def prices_per_m2(job: Job) -> Mapping[str, Decimal]:
    """Price of each material whose price the job's stock names; the dearest form of it."""
    found: dict[str, Decimal] = {}
    for item in job.stock:
        if item.price is None or item.form == "offcut":
            continue
        area = Decimal(str(item.width_mm * (item.length_mm or 1000.0) / 1e6))
        found[item.material] = max(found.get(item.material, Decimal(0)), item.price / area)
    return found


def cost_per_m2(panel: BuiltPanel, prices: Mapping[str, Decimal]) -> Decimal | None:
    """Board and sheets over their area; None when one of them has no price."""
    materials: list[Carrier | Facing] = [panel.carrier.material, *(face.material for face in panel.faces)]
    known = [prices.get(material.name) for material in materials]
    return None if any(price is None for price in known) else sum((p for p in known if p), Decimal(0))
