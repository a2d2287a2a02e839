"""Loose panels: tops, shelves, doors, fronts, each written out in the job file."""

from typing import TYPE_CHECKING, Any

from evenface.piece.kind import Kind
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


def _panels(description: Any) -> tuple[Panel, ...]:
    return tuple(description)


KIND = Kind("panels", _form, _compose, _panels)
