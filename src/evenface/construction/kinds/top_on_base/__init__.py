"""A faced top on a base: bench, desk or table, on legs and aprons or on trestles or cabinets given by others."""

from typing import TYPE_CHECKING, Any

from evenface.construction.kind import Kind
from evenface.construction.kinds.top_on_base.build import build
from evenface.construction.kinds.top_on_base.check import check

if TYPE_CHECKING:
    from evenface.construction.kinds.top_on_base.records import TopOnBase
    from evenface.piece.compose import Composer


def _form() -> type[Any]:
    from evenface.construction.kinds.top_on_base.form import TopOnBaseForm

    return TopOnBaseForm


def _compose(form: Any, composer: "Composer", origin: str) -> "TopOnBase":
    from evenface.construction.kinds.top_on_base.compose import compose

    return compose(form, composer, origin)


KIND = Kind("top on a base", _form, _compose, build, check)
