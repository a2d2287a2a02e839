"""A faced panel lying loose in a frame of solid wood, so that either can be refinished alone."""

from dataclasses import fields, replace
from typing import TYPE_CHECKING, Any

from evenface.construction.kind import Kind
from evenface.construction.kinds.framed_panel.build import build
from evenface.construction.kinds.framed_panel.check import check
from evenface.construction.kinds.framed_panel.members import PANEL

if TYPE_CHECKING:
    from evenface.construction.kinds.framed_panel.form import FramedPanelForm
    from evenface.construction.kinds.framed_panel.records import Framed
    from evenface.piece.compose import Composer


def _form() -> type[Any]:
    from evenface.construction.kinds.framed_panel.form import FramedPanelForm

    return FramedPanelForm


def _compose(form: "FramedPanelForm", composer: "Composer", origin: str) -> "Framed":
    from evenface.construction.kinds.framed_panel.records import Frame, Framed
    from evenface.piece.forms import ClimateForm, PanelForm

    composer.material(("wood",), form.frame.wood, f"{origin}.frame.wood")
    frame = Frame(**{one.name: getattr(form.frame, one.name) for one in fields(Frame)})
    panel = PanelForm(
        name=PANEL,
        buildup=form.buildup,
        size=form.size,
        edges=(),
        climate=ClimateForm(bottom=form.room_behind),
    )
    named = replace(composer.panel(panel, origin), name=PANEL)  # the kind's, no maker's
    return Framed(named, form.size[0], form.size[1], frame, origin)


KIND = Kind("framed panel", _form, _compose, build, check)
