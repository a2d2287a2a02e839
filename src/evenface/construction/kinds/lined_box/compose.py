"""From the form of a lined box to its record: what one entry asks of another, materials, patterns of panels."""

from typing import TYPE_CHECKING, Final

from evenface.construction.kinds.lined_box import records as r
from evenface.piece.records import Panel
from evenface.words import said

if TYPE_CHECKING:
    from evenface.construction.kinds.lined_box import form as f
    from evenface.piece.compose import Composer

USUAL_PLAY: Final = {"housed": 0.2, "loose": 0.5}
"""COMMON PRACTICE: air at each end of a divider."""


def compose(form: "f.LinedBoxForm", composer: "Composer", origin: str) -> r.LinedBox:
    """The box as asked for; what does not fit is a complaint."""
    if (form.size is None) == (form.inside is None):
        composer.complain(origin, "size (outside) or inside", "both or neither")
    composer.material(("wood",), form.walls.wood, f"{origin}.walls.wood")
    composer.material(("facing",), form.lining.facing, f"{origin}.lining.facing")
    composer.material(("glue",), form.lining.glue, f"{origin}.lining.glue")
    ways = [one.way for one in form.divider]
    if len(set(ways)) < len(ways):
        composer.complain(f"{origin}.divider", "one table for each way", "two of one way")
    walls, fingers = form.walls, form.fingers
    return r.LinedBox(
        size_mm=form.size or form.inside or (1.0, 1.0, 1.0),
        given_inside=form.size is None,
        walls=r.Walls(walls.wood, walls.thickness, walls.side_thickness, walls.cut),
        lining=r.LiningAsked(
            form.lining.facing,
            form.lining.glue,
            float(form.lining.direction),
            form.lining.corner,
            form.lining.gap,
            form.lining.thickness,
        ),
        bottom=_bottom(form.bottom, composer, f"{origin}.bottom"),
        fingers=r.FingersAsked(
            fingers.number, fingers.width, fingers.cutter, fingers.half_pins, fingers.starts, fingers.fit
        ),
        dividers=tuple(
            _dividers(one, composer, composer.source.entry(f"{origin}.divider", number))
            for number, one in enumerate(form.divider)
        ),
        origin=origin,
    )


def _bottom(form: "f.BottomForm", composer: "Composer", origin: str) -> r.BottomAsked:
    panel = _made_of(form.buildup, form.wood, "bottom", composer, origin)
    return r.BottomAsked(
        panel, form.wood, form.thickness, form.cut, form.groove, form.up, min(form.play, form.groove)
    )


def _dividers(form: "f.DividerForm", composer: "Composer", origin: str) -> r.DividersAsked:
    if len(form.clear) > form.count:
        composer.complain(
            f"{origin}.clear",
            said("at most {count} clear widths, for the last takes the rest", count=form.count),
            str(len(form.clear)),
        )
    panel = _made_of(form.buildup, form.wood, "divider", composer, origin)
    play = USUAL_PLAY[form.held] if form.play is None else form.play
    return r.DividersAsked(
        form.way, form.count, form.clear[: form.count], panel, form.wood, form.thickness, form.cut, form.held,
        form.depth if form.held == "housed" else 0.0, play, form.below, origin,
    )  # fmt: skip


def _made_of(buildup: str, wood: str, name: str, composer: "Composer", origin: str) -> Panel | None:
    """The pattern of a panel, None for solid wood."""
    if bool(buildup) == bool(wood):
        composer.complain(origin, "buildup or wood", "both or neither")
    if wood:
        composer.material(("wood",), wood, f"{origin}.wood")
    if not buildup:
        return None
    from evenface.piece.forms import PanelForm

    return composer.panel(PanelForm(name=name, buildup=buildup, size=(1000.0, 1000.0)), origin)
