"""A box or tray of solid wood, its corners fingered, faced inside, with a bottom in a groove and dividers."""

from typing import TYPE_CHECKING, Any

from evenface.construction.kind import Kind
from evenface.construction.kinds.lined_box.build import build
from evenface.construction.kinds.lined_box.check import check

if TYPE_CHECKING:
    from evenface.construction.kinds.lined_box.records import LinedBox
    from evenface.piece.compose import Composer


def _form() -> type[Any]:
    from evenface.construction.kinds.lined_box.form import LinedBoxForm

    return LinedBoxForm


def _compose(form: Any, composer: "Composer", origin: str) -> "LinedBox":
    from evenface.construction.kinds.lined_box.compose import compose

    return compose(form, composer, origin)


KIND = Kind("lined box", _form, _compose, build, check)
