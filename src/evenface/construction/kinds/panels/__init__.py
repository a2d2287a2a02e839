"""Loose panels: tops, shelves, doors, fronts, each written out in the job file."""

from typing import TYPE_CHECKING, Any

from evenface.construction.ground import Ground
from evenface.construction.kind import Kind
from evenface.construction.loaded_shelves import sagging_shelves
from evenface.construction.placed import Assembly
from evenface.construction.records import Construction
from evenface.finding import Finding
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


def _check(construction: Construction, ground: Ground) -> tuple[Finding, ...]:
    return tuple(sagging_shelves(construction, ground))


KIND = Kind("panels", _form, _compose, _build, _check)
