"""A drawer of its own, for an opening that is there already: in a desk, under a bench, in an old case."""

from typing import TYPE_CHECKING, Any

from evenface.construction.kind import Kind
from evenface.construction.kinds.drawer.build import build

if TYPE_CHECKING:
    from evenface.construction.kinds.drawer.records import LoneDrawer
    from evenface.piece.compose import Composer


def _form() -> type[Any]:
    from evenface.construction.kinds.drawer.form import LoneDrawerForm

    return LoneDrawerForm


def _compose(form: Any, composer: "Composer", origin: str) -> "LoneDrawer":
    from evenface.construction.kinds.drawer.compose import compose

    return compose(form, composer, origin)


KIND = Kind("drawer", _form, _compose, build)
