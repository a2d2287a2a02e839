"""A scene as DXF (R2010): layers by name, closed polylines with bulges, real dimensions, unit mm.

ezdxf is an extra and is looked for only when a DXF is asked for.
"""

import io
from dataclasses import replace
from functools import lru_cache
from math import copysign, hypot
from typing import TYPE_CHECKING, Final

from evenface.drawings.dxf_plain import CAPITALS, PLAIN, entities_text
from evenface.drawings.hatch import SOLID, hatch
from evenface.drawings.scene import (
    Anchor,
    Area,
    Circle,
    Dimension,
    Fill,
    Leader,
    Line,
    Path,
    Primitive,
    RadiusDimension,
    Scene,
    Stroke,
    Text,
)
from evenface.drawings.strokes import TICK_MM, taken_apart
from evenface.errors import EvenfaceError

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

_TYPES: Final[dict[Stroke, tuple[str, tuple[float, ...]]]] = {
    Stroke.HIDDEN: ("EVENFACE_HIDDEN", (3.0, 2.0, -1.0)),
    Stroke.CENTRE: ("EVENFACE_CENTRE", (9.0, 6.0, -1.0, 1.0, -1.0)),
    Stroke.DOTTED: ("EVENFACE_DOTTED", (1.2, 0.3, -0.9)),
}
"""Name, and length of the pattern with its dashes and gaps, mm of the paper."""
_WEIGHTS: Final = {
    Stroke.VISIBLE: 35,
    Stroke.CUT: 50,
    Stroke.ACCENT: 35,
    Stroke.HIDDEN: 25,
    Stroke.DOTTED: 25,
}
_THIN: Final = 18
_TONES: Final = {Fill.LINOLEUM: 8, Fill.PAPER: 9, Fill.GLUE: 1, Fill.BAND: 9}
_RED: Final = 1
_STYLE: Final = "EVENFACE"


class NoDxfWriter(EvenfaceError):
    """DXF was asked for, but the library that writes it is not installed."""


def to_dxf(scene: Scene) -> str:
    """The DXF file as text (to be stored as UTF-8), in true mm of the piece.

    Raises NoDxfWriter when ezdxf is not installed.
    """
    layers = tuple(dict.fromkeys(one.layer for one in scene.primitives))
    if all(isinstance(one, PLAIN) for one in scene.primitives):
        return _plain_dxf(scene, layers)
    document = _document(layers, scene.scale)
    writer = _Writer(document.modelspace(), scene.scale)
    for one in scene.primitives:
        writer.put(one)
    return _written(document)


def _plain_dxf(scene: Scene, layers: tuple[str, ...]) -> str:
    """Bare geometry between the two halves of a blank document, which is made once for the same layers."""
    head, middle, tail, owner, first = _blank(layers, scene.scale)
    things: list[tuple[Primitive, dict[str, object]]] = []
    for one in scene.primitives:
        if isinstance(one, Text):
            things.append((replace(one, text=_plain(one.text)), {"layer": one.layer}))
        elif isinstance(one, Line | Path | Circle):
            things.append((one, _look(one.stroke, one.layer)))
    entities, free = entities_text(things, scene.scale, owner, first)
    return f"{head}{free:X}{middle}{entities}{tail}"


@lru_cache(maxsize=32)
def _blank(layers: tuple[str, ...], scale: float) -> tuple[str, str, str, str, int]:
    """A document without entities, cut at its first free handle and where entities stand, with the handle of the
    model space and that free one."""
    document = _document(layers, scale)
    owner = str(document.modelspace().layout_key)
    text = _written(document)
    seed, place = "$HANDSEED\n  5\n", "  2\nENTITIES\n"
    start = text.index(seed) + len(seed)
    end, entities = text.index("\n", start), text.index(place) + len(place)
    return text[:start], text[end:entities], text[entities:], owner, int(text[start:end], 16)


def _document(layers: tuple[str, ...], scale: float) -> "Drawing":
    try:
        from ezdxf.filemanagement import new  # an extra: only who asks for a DXF needs it
    except ImportError as error:
        raise NoDxfWriter(
            "writing DXF needs ezdxf, which is not installed; try: pip install 'evenface[dxf]'"
        ) from error
    document = new("R2010")
    document.units = 4  # mm
    document.header["$MEASUREMENT"] = 1
    _set_up(document, layers, scale)
    return document


def _written(document: "Drawing") -> str:
    out = io.StringIO()
    document.write(out)
    return out.getvalue()


def _set_up(document: "Drawing", layers: tuple[str, ...], scale: float) -> None:
    """Layers, line types and the style of dimensions, sized for the scale of the drawing."""
    for layer in layers:
        if layer not in document.layers:
            document.layers.add(layer)
    unit = 1.0 / scale
    for name, pattern in _TYPES.values():
        document.linetypes.add(name, pattern=[part * unit for part in pattern])
    style = document.dimstyles.add(_STYLE)
    style.dxf.dimtsz = TICK_MM * unit
    style.dxf.dimasz = 2.0 * unit
    style.dxf.dimtxt = 2.2 * unit
    style.dxf.dimgap = 0.8 * unit
    style.dxf.dimexo = 1.0 * unit
    style.dxf.dimexe = 1.2 * unit
    style.dxf.dimtad = 1
    style.dxf.dimtih = 0
    style.dxf.dimtoh = 0


class _Writer:
    """Puts primitives into a model space."""

    def __init__(self, space: "Modelspace", scale: float) -> None:
        self._space, self._scale = space, scale

    def put(self, one: Primitive) -> None:
        match one:
            case Line():
                self._space.add_line((one.x0, one.y0), (one.x1, one.y1), _look(one.stroke, one.layer))
            case Path():
                self._space.add_lwpolyline(
                    one.vertices, format="xyb", close=one.closed, dxfattribs=_look(one.stroke, one.layer)
                )
            case Circle():
                self._space.add_circle((one.x, one.y), one.radius_mm, _look(one.stroke, one.layer))
            case Area():
                self._area(one)
            case Text():
                self._text(one)
            case Dimension():
                self._space.add_linear_dim(
                    base=one.on, p1=one.start, p2=one.end, angle=one.angle_deg, text=_plain(one.text.text),
                    location=None, dimstyle=_STYLE, dxfattribs={"layer": one.layer},
                ).render()  # fmt: skip
            case RadiusDimension():
                self._radius(one)
            case Leader():
                for part in taken_apart(one, self._scale):
                    self.put(part)

    def _radius(self, one: RadiusDimension) -> None:
        """Its lettering on the line through centre and arc, on the side to which our leader leads."""
        (cx, cy), (x, y) = one.centre, one.at
        radius = hypot(x - cx, y - cy)
        ux, uy = (x - cx) / radius, (y - cy) / radius
        dx, dy = one.elbow[0] - x, one.elbow[1] - y
        away = copysign(hypot(dx, dy), dx * ux + dy * uy)
        self._space.add_radius_dim(
            center=one.centre, radius=radius, text=_plain(one.text.text), dimstyle=_STYLE,
            location=(x + ux * away, y + uy * away), dxfattribs={"layer": one.layer},
        ).render()  # fmt: skip

    def _area(self, one: Area) -> None:
        """Thin sheets as solid fillings, everything else as its strokes."""
        if one.fill is Fill.PIECE:
            return  # paper behind lettering
        if one.fill in SOLID:
            filling = self._space.add_hatch(color=_TONES.get(one.fill, 7), dxfattribs={"layer": one.layer})
            for ring in one.rings:
                filling.paths.add_polyline_path(ring, is_closed=True)
            return
        for x0, y0, x1, y1 in hatch(one, self._scale):
            self._space.add_line((x0, y0), (x1, y1), _look(Stroke.HATCH, one.layer))

    def _text(self, one: Text) -> None:
        from ezdxf.enums import TextEntityAlignment

        align = {
            Anchor.START: TextEntityAlignment.LEFT,
            Anchor.MIDDLE: TextEntityAlignment.CENTER,
            Anchor.END: TextEntityAlignment.RIGHT,
        }[one.anchor]
        height = CAPITALS * one.size_mm / self._scale
        self._space.add_text(
            _plain(one.text), height=height, rotation=one.angle_deg, dxfattribs={"layer": one.layer}
        ).set_placement((one.x, one.y), align=align)


def _look(stroke: Stroke, layer: str) -> dict[str, object]:
    look: dict[str, object] = {"layer": layer, "lineweight": _WEIGHTS.get(stroke, _THIN)}
    if stroke in _TYPES:
        look["linetype"] = _TYPES[stroke][0]
    if stroke is Stroke.ACCENT:
        look["color"] = _RED
    return look


def _plain(text: str) -> str:
    """A text on one row: no control signs, and none of the codes that readers of DXF act upon."""
    clean = "".join(sign if sign.isprintable() else " " for sign in text)
    return clean.replace("%%", "% %").replace("^", "ˆ").replace("\\", "⧵").replace("<>", "< >")
