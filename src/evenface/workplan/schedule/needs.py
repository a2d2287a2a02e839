"""What each gluing asks of clamps and press, from its glue card."""

import math
from collections.abc import Sequence
from typing import Final

from evenface.construction import BuiltPanel
from evenface.piece.calendar_records import ShopCalendar
from evenface.workplan.glue_card import GlueCard
from evenface.workplan.glue_pace import CLOSING_MIN
from evenface.workplan.records import PanelToMake, Step, Work
from evenface.workplan.schedule.loads import Need

_OVERHANG_MM: Final = 3.0
"""The facing lies this far over on each side in the press: the usual overhang."""


def needs_of(
    panels: Sequence[PanelToMake], steps: Sequence[Step], cards: Sequence[GlueCard], shop: ShopCalendar
) -> dict[str, Need]:
    """Needs by step, as far as the shop counts clamps or has a press. Contact glue needs neither."""
    by_step = {card.step: card for card in cards}
    known = {one.part: one.panel for one in panels}
    found: dict[str, Need] = {}
    for step in steps:
        card = by_step.get(step.id)
        if step.work is Work.BOND and card and step.part in known and shop.press_mm and card.press_h > 0.0:
            found[step.id] = _pressed(card, known[step.part], shop)
        elif card is not None and card.clamps and shop.clamps:
            found[step.id] = Need(clamps=card.clamps, held_min=_minutes(card.press_h))
    return found


def _pressed(card: GlueCard, panel: BuiltPanel, shop: ShopCalendar) -> Need:
    faces = [(face.role.value, face.material.name, f"{face.thickness.nominal:g}") for face in panel.faces]
    board = (panel.carrier.material.name, f"{panel.carrier.thickness.nominal:g}")
    blank = max((face.rectangle.length_mm for face in panel.faces), default=panel.length_mm)
    across = max((face.rectangle.width_mm for face in panel.faces), default=panel.width_mm)
    overhang = 2.0 * _OVERHANG_MM
    return Need(
        press_mm=(max(blank, panel.length_mm) + overhang, max(across, panel.width_mm) + overhang),
        alike=(card.glue.name, *board, *(word for face in faces for word in face)),
        spread_min=card.needs_min - CLOSING_MIN.nominal,
        open_min=card.open_min.nominal - CLOSING_MIN.nominal,
        held_min=_minutes(shop.press_hours if shop.press_hours is not None else card.press_h),
    )


def _minutes(hours: float) -> int:
    return math.ceil(hours * 60.0 - 1e-6)
