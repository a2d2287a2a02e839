"""A carcase: cupboard, cabinet, wall unit or pedestal, with shelves, doors and drawers."""

from typing import TYPE_CHECKING, Any

from evenface.construction.kind import Kind
from evenface.construction.kinds.carcase.build import build
from evenface.construction.kinds.carcase.check import check

if TYPE_CHECKING:
    from evenface.construction.kinds.carcase.records import Carcase
    from evenface.piece.compose import Composer


def _form() -> type[Any]:
    from evenface.construction.kinds.carcase.form import CarcaseForm

    return CarcaseForm


def _compose(form: Any, composer: "Composer", origin: str) -> "Carcase":
    from evenface.construction.kinds.carcase.compose import compose

    return compose(form, composer, origin)


KIND = Kind("carcase", _form, _compose, build, check)
