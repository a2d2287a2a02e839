"""From the table of a drawer box to what is asked for."""

from dataclasses import fields
from typing import TYPE_CHECKING

from evenface.construction.drawers.records import DrawerBox
from evenface.construction.fastenings import Joining

if TYPE_CHECKING:
    from evenface.construction.drawers.form import DrawerForm
    from evenface.piece.compose import Composer


def box_asked(form: "DrawerForm") -> DrawerBox:
    """The description of the box."""
    names = {one.name for one in fields(DrawerBox)} - {"joint"}
    joint = Joining(form.joint.kind, form.joint.depth, form.joint.every)
    return DrawerBox(**{name: getattr(form, name) for name in names}, joint=joint)


def needs_of_box(form: "DrawerForm", composer: "Composer", origin: str) -> None:
    """One thing for the sides and one for the bottom, and woods that are known. origin : of the table."""
    if bool(form.wood) == bool(form.buildup):
        composer.complain(origin, "wood or buildup for the box", "both or neither")
    if bool(form.bottom) == bool(form.bottom_wood):
        composer.complain(origin, "bottom or bottom_wood", "both or neither")
    for key in ("wood", "bottom_wood"):
        if getattr(form, key):
            composer.material(("wood",), getattr(form, key), f"{origin}.{key}")
