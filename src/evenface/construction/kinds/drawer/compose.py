"""From the table of a drawer to its description."""

from typing import TYPE_CHECKING

from evenface.construction.drawers.compose import box_asked, needs_of_box
from evenface.construction.kinds.drawer.records import Front, LoneDrawer
from evenface.construction.patterns import pattern_of

if TYPE_CHECKING:
    from evenface.construction.kinds.drawer.form import LoneDrawerForm
    from evenface.piece.compose import Composer


def compose(form: "LoneDrawerForm", composer: "Composer", origin: str) -> LoneDrawer:
    """The description of one drawer."""
    needs_of_box(form.drawer, composer, f"{origin}.drawer")
    front = form.front
    roles = {}
    if front is not None:
        roles["drawer front"] = (front.buildup, "front.buildup", "front")
    if form.drawer.buildup:
        roles["drawer side"] = (form.drawer.buildup, "drawer.buildup", "panel")
    if form.drawer.bottom:
        roles["drawer bottom"] = (form.drawer.bottom, "drawer.bottom", "panel")
    return LoneDrawer(
        form.opening,
        box_asked(form.drawer),
        {
            role: pattern_of(composer, role, name, f"{origin}.{key}", use)
            for role, (name, key, use) in roles.items()
        },
        Front(front.lie, front.gap, front.over, front.shy, front.stand_off, front.grain) if front else None,
        composer._climate_word("room", form.inside, f"{origin}.inside"),
        origin,
    )
