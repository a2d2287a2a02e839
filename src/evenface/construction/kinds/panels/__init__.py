"""Loose panels: tops, shelves, doors, fronts, each written out in the job file."""

from typing import TYPE_CHECKING, Any

from evenface.construction.ground import Ground
from evenface.construction.kind import Kind
from evenface.construction.placed import Assembly
from evenface.piece.records import Panel

if TYPE_CHECKING:
    from evenface.piece.compose import Composer


def _form() -> type[Any]:
    from evenface.construction.kinds.panels.form import PanelsForm

    return PanelsForm


def _compose(form: Any, composer: "Composer", origin: str) -> tuple[Panel, ...]:
    composer.panel_names(form.panel, origin)
    return tuple(
        composer.panel(panel, f"{origin}.panel[{number}]") for number, panel in enumerate(form.panel)
    )


def _build(description: Any, _ground: Ground) -> Assembly:
    return Assembly(panels=tuple(description))


KIND = Kind("panels", _form, _compose, _build)
