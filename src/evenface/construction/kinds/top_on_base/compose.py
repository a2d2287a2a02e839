"""From the table of a top on a base to its description; what does not fit is a complaint with its line."""

from dataclasses import fields
from typing import TYPE_CHECKING, Any

from evenface.construction.kinds.top_on_base import records as r
from evenface.piece.records import Side

if TYPE_CHECKING:
    from evenface.construction.kinds.top_on_base.form import TopOnBaseForm
    from evenface.piece.compose import Composer

_OF_PANEL = (
    "edges",
    "edging",
    "corners",
    "profile",
    "insert",
    "grip",
    "cutout",
    "allowances",
    "limit",
    "seams",
)
USUAL_OVERHANG_MM = 20.0


def compose(form: "TopOnBaseForm", composer: "Composer", origin: str) -> r.TopOnBase:
    """The description of one table, desk or bench."""
    from evenface.piece.forms import PanelForm

    _needs(form, composer, origin)
    width, _, depth = form.size
    panel = PanelForm(
        name="top",
        buildup=form.buildup,
        size=(width, depth),
        use="top",
        **{key: getattr(form, key) for key in _OF_PANEL},
    )
    over = form.overhang
    every = USUAL_OVERHANG_MM if over.every is None else over.every
    by_edge = {side: getattr(over, side.value) for side in Side}
    supports = form.supports if form.legs is None or form.apron is None else None
    return r.TopOnBase(
        top=composer.panel(panel, origin),
        size_mm=form.size,
        overhang={side: every if given is None else given for side, given in by_edge.items()},
        legs=_copy(r.Legs, form.legs) if form.legs and form.apron else None,
        apron=_copy(r.Apron, form.apron, joint=_copy(r.ApronJoint, form.apron.joint))
        if form.legs and form.apron
        else None,
        supports=_copy(r.Supports, supports) if supports else None,
        fixing=_copy(r.Fixing, form.fixing),
        seats=_copy(r.Seats, form.seats),
        load=_copy(r.Load, form.load),
        way=_copy(r.Way, form.way),
        origin=origin,
    )


def _needs(form: "TopOnBaseForm", composer: "Composer", origin: str) -> None:
    base = (form.legs is not None, form.apron is not None, form.supports is not None)
    if base not in ((True, True, False), (False, False, True)):
        given = ", ".join(
            name for name, there in zip(("legs", "apron", "supports"), base, strict=True) if there
        )
        composer.complain(origin, "legs and apron, or supports alone", given or "none of them")
    for key in ("legs", "apron"):
        part = getattr(form, key)
        if part is not None:
            composer.material(("wood",), part.wood, f"{origin}.{key}.wood")


def _copy(record: type[Any], form: Any, **other: object) -> Any:
    """A record filled from the form's fields of the same names."""
    names = {one.name for one in fields(record)} & {one.name for one in fields(form)}
    return record(**{name: getattr(form, name) for name in names} | other)
