"""Edges and corners of a panel: the build-up's edging, changed by the panel's, changed by the side's own."""

from typing import TYPE_CHECKING, Any, Protocol

from evenface.errors import Sentence, all_of
from evenface.piece import records as r
from evenface.toml_places import key_path
from evenface.words import said

if TYPE_CHECKING:
    from evenface.piece import forms as f
    from evenface.piece import shape_forms as sf

_KEYS = ("wood", "width", "cut", "section", "top", "bottom", "order", "proud", "broken_edge", "sealed")
_CORNER_KEYS = (
    *("radius", "chamfer", "construction", "pieces", "strip", "reserve", "ends", "through"),
    *("notch", "inner_radius", "returned"),
)
_SHAPES = ("radius", "chamfer", "notch")


class _Complains(Protocol):
    def complain(self, path: str, expected: Sentence, given: Sentence, hint: Sentence = "") -> None: ...
    def material(self, kinds: tuple[str, ...], given: str, path: str) -> None: ...


def edges_of(
    composer: _Complains, form: "f.PanelForm", usual: "f.EdgingForm | None", origin: str
) -> tuple[r.Edge, ...]:
    """The edgings of a panel, in the order front, rear, left, right."""
    own = form.edging
    written = [side for side in r.Side if own is not None and getattr(own, side.value) is not None]
    if form.edges is not None:
        sides = [side for side in r.Side if side.value in form.edges]
        _doubles(composer, form, origin)
    elif usual is not None or (own is not None and own.wood is not None):
        sides = list(r.Side)
    else:
        sides = written
    for side in written:
        if side not in sides:
            composer.complain(
                f"{origin}.edging.{side.value}",
                "an edge that is edged",
                side.value,
                "Add it to edges, or leave it out.",
            )
    if sides and usual is None and own is None:
        composer.complain(
            f"{origin}.edges", "edging, here or in the build-up", "none that says its wood and width"
        )
        return ()
    return tuple(edge for side in sides if (edge := _edge(composer, form, usual, side, origin)) is not None)


def _doubles(composer: _Complains, form: "f.PanelForm", origin: str) -> None:
    words = list(form.edges or ())
    for word in dict.fromkeys(words):
        if words.count(word) > 1:
            composer.complain(
                f"{origin}.edges",
                "each edge once",
                said("{word} {times} times", word=repr(word), times=words.count(word)),
            )


def _edge(
    composer: _Complains, form: "f.PanelForm", usual: "f.EdgingForm | None", side: r.Side, origin: str
) -> r.Edge | None:
    own = form.edging
    by_side = getattr(own, side.value) if own is not None else None
    values = _merged(_KEYS, usual, own, by_side)
    place = (
        f"{origin}.edging.{side.value}"
        if by_side is not None
        else f"{origin}.edging"
        if own is not None
        else key_path(("buildup", form.buildup, "edging"))
    )
    missing = [key for key in ("wood", "width") if values[key] is None]
    if missing:
        for key in missing:
            composer.complain(f"{place}.{key}", said("the {key} of the edging", key=key), "nothing")
        return None
    for layer, path in ((own, f"{origin}.edging.wood"), (by_side, f"{origin}.edging.{side.value}.wood")):
        if layer is not None and layer.wood is not None:
            composer.material(("wood",), layer.wood, path)
    top, bottom = _sections(usual, own, by_side)
    return r.Edge(
        side=side,
        wood=values["wood"],
        width_mm=values["width"],
        cut=values["cut"] or "flat",
        top=r.Meeting(top),
        bottom=r.Meeting(bottom),
        order=r.Order(values["order"] or "edging first"),
        proud_mm=values["proud"],
        broken_edge_mm=values["broken_edge"],
        sealed=bool(values["sealed"]),
        origin=place,
    )


def _sections(*layers: Any) -> tuple[str, str]:
    """`section` speaks for both faces, `top` and `bottom` for one; the innermost table has the last word."""
    top = bottom = "under"
    for layer in layers:
        if layer is None:
            continue
        top = layer.top or layer.section or top
        bottom = layer.bottom or layer.section or bottom
    return top, bottom


def _merged(keys: tuple[str, ...], *layers: Any) -> dict[str, Any]:
    """Each key from the innermost layer that says it."""
    values: dict[str, Any] = dict.fromkeys(keys)
    for layer in layers:
        if layer is not None:
            values.update({key: given for key in keys if (given := getattr(layer, key)) is not None})
    return values


def corners_of(composer: _Complains, form: "f.PanelForm", origin: str) -> tuple[r.Corner, ...]:
    """Corners that are spoken of; none when the panel says nothing of them."""
    if form.corners is None:
        return ()
    return tuple(_corner(composer, form.corners, at, f"{origin}.corners") for at in r.CornerAt)


def _corner(composer: _Complains, form: "sf.CornersForm", at: r.CornerAt, origin: str) -> r.Corner:
    key = at.value.replace(" ", "_")
    own = getattr(form, key)
    values = _merged(_CORNER_KEYS, form, own)
    place = f"{origin}.{key}" if own is not None else origin
    if own is not None and sum(getattr(own, shape) is not None for shape in _SHAPES) == 1:
        # the corner's own shape replaces the one written for all corners
        values.update({shape: getattr(own, shape) for shape in _SHAPES})
    given = [shape for shape in _SHAPES if values[shape] is not None]
    if len(given) > 1:
        composer.complain(place, "radius, chamfer or notch", all_of(given))
    for key in ("inner_radius", "returned"):
        if values[key] and values["notch"] is None:
            composer.complain(f"{place}.{key}", said("a notch to go with {key}", key=key), "none")
    through = r.Side(values["through"]) if values["through"] else None
    if through is not None and through not in (at.along_length, at.along_width):
        composer.complain(
            f"{place}.through",
            said(
                "{one} or {other}, the edges of that corner",
                one=at.along_length.value,
                other=at.along_width.value,
            ),
            through.value,
        )
        through = None
    size = values["radius"] or values["chamfer"] or 0.0
    shape = "square" if size == 0 else "radius" if values["radius"] else "chamfer"
    notch = values["notch"]
    return r.Corner(
        at=at,
        shape="notch" if notch else shape,
        size_mm=0.0 if notch else size,
        construction=values["construction"] or "rounded",
        pieces=values["pieces"] or 0,
        strip_mm=values["strip"],
        reserve_mm=values["reserve"],
        ends=r.Ends(values["ends"] or "auto"),
        through=through,
        notch_mm=tuple(notch) if notch else (0.0, 0.0),
        inner_radius_mm=values["inner_radius"] or 0.0,
        returned=bool(values["returned"]),
        origin=place,
    )
