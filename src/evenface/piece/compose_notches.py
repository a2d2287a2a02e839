"""Notches in edges, and how a panel is held: the tables that name an edge."""

from typing import TYPE_CHECKING, Protocol

from evenface.errors import Sentence
from evenface.piece import records as r
from evenface.piece.source_text import Source
from evenface.words import said

if TYPE_CHECKING:
    from evenface.piece import forms as f
    from evenface.piece import shape_forms as sf

_OF_OPENINGS = ("at", "diameter", "shape", "turned", "outline", "depth", "lining", "lining_width")
"""Keys of a cut-out that say nothing of a notch."""


class _Complains(Protocol):
    def complain(self, path: str, expected: Sentence, given: Sentence, hint: Sentence = "") -> None: ...


def notches_of(composer: _Complains, source: Source, form: "f.PanelForm", origin: str) -> tuple[r.Notch, ...]:
    """Cut-outs that name an edge: notches, in the order of the file."""
    found = [
        (source.entry(f"{origin}.cutout", number), one)
        for number, one in enumerate(form.cutout)
        if one.edge is not None
    ]
    if form.outline is not None:
        _in_free_outline(composer, form, found, origin)
    return tuple(made for path, one in found if (made := _notch(composer, one, path)) is not None)


def _in_free_outline(
    composer: _Complains, form: "f.PanelForm", found: list[tuple[str, "sf.CutoutForm"]], origin: str
) -> None:
    hint = "Draw the notch in the outline itself."
    for path, _ in found:
        composer.complain(f"{path}.edge", "a panel without a free outline", "one with it", hint)
    for at in r.CornerAt:
        key = at.value.replace(" ", "_")
        own = getattr(form.corners, key, None)
        if own is not None and own.notch is not None:
            composer.complain(
                f"{origin}.corners.{key}.notch", "a panel without a free outline", "one with it", hint
            )


def _notch(composer: _Complains, form: "sf.CutoutForm", path: str) -> r.Notch | None:
    usual = type(form).__dataclass_fields__
    for key in _OF_OPENINGS:
        if getattr(form, key) != usual[key].default:
            hint = "Write returned = true to edge it." if key.startswith("lining") else ""
            composer.complain(f"{path}.{key}", "along, size, radius and returned beside edge", key, hint)
    if form.along is None or form.size is None:
        missing = "along" if form.along is None else "size"
        expected = {
            "along": "along, the middle of the notch from the left or front end of its edge",
            "size": "size = [along the edge, into the panel]",
        }
        composer.complain(f"{path}.{missing}", expected[missing], "nothing")
        return None
    length, depth = form.size
    radius = form.radius or 0.0
    if radius > min(depth, length / 2):
        composer.complain(
            f"{path}.radius",
            said("a radius of at most {most:g} mm", most=min(depth, length / 2)),
            said("{radius:g} mm", radius=radius),
        )
        return None
    return r.Notch(
        name=form.name,
        side=r.Side(str(form.edge)),
        along_mm=form.along,
        length_mm=length,
        depth_mm=depth,
        inner_radius_mm=radius,
        returned=form.returned,
        wet=form.wet,
        service=form.service,
        origin=path,
    )


def hold_of(form: "sf.HoldForm | None", origin: str) -> r.Hold:
    """How the panel is held; what is not said stays open."""
    if form is None:
        return r.Hold()
    given = form.from_edge
    by_side = {
        side: value
        for side in r.Side
        if given is not None
        and (value := given.every if getattr(given, side.value) is None else getattr(given, side.value))
        is not None
    }
    return r.Hold(form.how, form.fixings, origin, by_side, r.Side(form.hinges) if form.hinges else None)
