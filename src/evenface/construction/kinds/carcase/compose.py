"""From the table of a carcase to its description; what does not fit is a complaint with its line."""

from dataclasses import fields
from typing import TYPE_CHECKING, Any

from evenface.construction.drawers.compose import box_asked, needs_of_box
from evenface.construction.fastenings import Joining
from evenface.construction.kinds.carcase import records as c
from evenface.construction.patterns import pattern_of
from evenface.piece.records import Panel
from evenface.words import said

if TYPE_CHECKING:
    from evenface.construction.kinds.carcase import form as f
    from evenface.piece.compose import Composer

_USES = {
    "left side": "side",
    "right side": "side",
    "divider": "side",
    "shelf": "shelf",
    "door": "door",
    "drawer front": "front",
}


def compose(form: "f.CarcaseForm", composer: "Composer", origin: str) -> c.Carcase:
    """The description of one carcase."""
    size = form.size or form.opening
    if (form.size is None) == (form.opening is None):
        composer.complain(
            origin, "size = [width, height, depth], or opening", "both" if form.size else "neither"
        )
    _needs(form, composer, origin)
    return c.Carcase(
        size_mm=size or (1000.0, 1000.0, 400.0),
        bays=tuple(_bays(form, composer, origin)),
        patterns=_patterns(form, composer, origin),
        top_at=form.top_at,
        bottom_at=form.bottom_at,
        joint=_copy(Joining, form.joint),
        shelf_joint=_copy(Joining, form.shelf_joint or form.joint),
        back=_copy(c.Back, form.back) if form.back else None,
        fronts=_fronts(form.fronts) if form.fronts else None,
        drawer=box_asked(form.drawer) if form.drawer else None,
        grip=_copy(c.GripAsked, form.grip, origin=f"{origin}.grip") if form.grip else None,
        scribe=_copy(c.Scribe, form.scribe),
        plinth=_copy(c.Plinth, form.plinth) if form.plinth else None,
        legs_mm=form.legs,
        hanging_rail=_copy(c.HangingRail, form.hanging_rail) if form.hanging_rail else None,
        inside=composer._climate_word("room", form.inside, f"{origin}.inside"),
        run=form.run,
        shelf_setback=form.shelf_setback,
        one_sheet=form.one_sheet,
        fitted=form.opening is not None,
        origin=origin,
    )


def _copy(record: type[Any], form: Any, **other: object) -> Any:
    """A record filled from the form's fields of the same names."""
    names = {one.name for one in fields(record)} & {one.name for one in fields(form)}
    return record(**{name: getattr(form, name) for name in names} | other)


def _fronts(form: "f.FrontsForm") -> c.Fronts:
    """Gaps filled in: 3 mm between overlay fronts and half of it outside, 2 mm round inset ones."""
    gap = form.gap if form.gap is not None else (2.0 if form.lie == "inset" else 3.0)
    outside = gap if form.lie == "inset" else gap / 2
    gaps = {
        side: outside if getattr(form, side) is None else getattr(form, side)
        for side in ("left", "right", "top", "bottom")
    }
    told = tuple(side for side in gaps if getattr(form, side) is not None)
    return c.Fronts(
        form.lie,
        gap,
        **gaps,
        stand_off=form.stand_off,
        shy=form.shy,
        cup=form.cup,
        beside=form.beside,
        told=told,
    )


def _bays(form: "f.CarcaseForm", composer: "Composer", origin: str) -> "list[c.Bay]":
    if not form.bay:
        composer.complain(origin, "at least one [[piece.bay]]", "none")
    bays: list[c.Bay] = []
    for number, bay in enumerate(form.bay):
        path = composer.source.entry(f"{origin}.bay", number)
        if not bay.row:
            composer.complain(path, "at least one [[piece.bay.row]]", "none")
        rows = tuple(
            _row(row, composer, composer.source.entry(f"{path}.row", at)) for at, row in enumerate(bay.row)
        )
        bays += [c.Bay(rows, bay.width, path)] * bay.count
    return bays


def _row(form: "f.RowForm", composer: "Composer", origin: str) -> c.Row:
    if form.heights and len(form.heights) != form.count - 1:
        composer.complain(
            f"{origin}.heights",
            said("the heights of {count} fronts, for the lowest takes the rest", count=form.count - 1),
            str(len(form.heights)),
        )
    if form.count > 1 and form.what != "drawers":
        composer.complain(f"{origin}.count", "a count of drawers", said("one of {what}", what=form.what))
    heights = form.heights if len(form.heights) == form.count - 1 else ()
    made: c.Row = _copy(c.Row, form, origin=origin, heights=heights)
    return made


def _needs(form: "f.CarcaseForm", composer: "Composer", origin: str) -> None:
    """What one entry asks of another."""
    what = {row.what for bay in form.bay for row in bay.row}
    if what & {"door", "doors", "drawers"} and form.fronts is None:
        composer.complain(origin, "[piece.fronts], the build-up of doors and drawer fronts", "none")
    if "drawers" in what and form.drawer is None:
        composer.complain(origin, "[piece.drawer], how the boxes are made", "none")
    if form.drawer is not None:
        needs_of_box(form.drawer, composer, f"{origin}.drawer")
    _needs_of_plinth(form, composer, origin)
    if form.hanging_rail is not None:
        composer.material(("wood",), form.hanging_rail.wood, f"{origin}.hanging_rail.wood")
        if form.back is None or form.back.how != "groove":
            composer.complain(
                f"{origin}.hanging_rail", "a back let into a groove, for the rail lies behind it", "none"
            )
    if form.grip is not None:
        composer.material(("wood",), form.grip.wood, f"{origin}.grip.wood")
    scribe = form.scribe
    if scribe.left or scribe.right or scribe.top:
        composer.material(("wood",), scribe.wood, f"{origin}.scribe.wood")


def _needs_of_plinth(form: "f.CarcaseForm", composer: "Composer", origin: str) -> None:
    if form.plinth is not None:
        if bool(form.plinth.wood) == bool(form.plinth.buildup):
            composer.complain(f"{origin}.plinth", "wood or buildup for the plinth", "both or neither")
        if form.plinth.wood:
            composer.material(("wood",), form.plinth.wood, f"{origin}.plinth.wood")
    if form.plinth is not None and form.legs:
        composer.complain(f"{origin}.legs", "a plinth or legs", "both")


def _patterns(form: "f.CarcaseForm", composer: "Composer", origin: str) -> dict[str, Panel]:
    """A panel for every role that occurs, as large as nothing yet."""
    roles = {
        "left side": (form.left or form.sides, "left" if form.left else "sides"),
        "right side": (form.right or form.sides, "right" if form.right else "sides"),
        "top": (form.top or form.sides, "top" if form.top else "sides"),
        "bottom": (form.bottom or form.sides, "bottom" if form.bottom else "sides"),
        "divider": (form.dividers or form.sides, "dividers" if form.dividers else "sides"),
        "shelf": (form.shelves or form.sides, "shelves" if form.shelves else "sides"),
    }
    if form.back is not None:
        roles["back"] = (form.back.buildup, "back.buildup")
    if form.plinth is not None and form.plinth.buildup:
        roles["plinth"] = (form.plinth.buildup, "plinth.buildup")
    if form.fronts is not None:
        roles["door"] = (form.fronts.buildup, "fronts.buildup")
        roles["drawer front"] = (
            form.fronts.drawers or form.fronts.buildup,
            "fronts.drawers" if form.fronts.drawers else "fronts.buildup",
        )
    if form.drawer is not None and form.drawer.buildup:
        roles["drawer side"] = (form.drawer.buildup, "drawer.buildup")
    if form.drawer is not None and form.drawer.bottom:
        roles["drawer bottom"] = (form.drawer.bottom, "drawer.bottom")
    cutouts = form.back.cutout if form.back is not None else ()
    return {
        role: pattern_of(
            composer,
            role,
            name,
            f"{origin}.{key}",
            _USES.get(role, "panel"),
            cutouts if role == "back" else (),
        )
        for role, (name, key) in roles.items()
    }
