"""Outlines from a DXF drawing: lines, arcs, circles and polylines of one layer; curves fitted by arcs."""

from __future__ import annotations

from collections.abc import Iterator
from io import StringIO
from math import radians
from typing import Any

from evenface.words import said

from .assemble import MOST_BYTES, Drawn, Imported, Note, assembled
from .curves import FIT_MM, Cubic, cubic_of_quadratic, fitted
from .faults import ShapeError, need, told
from .segment import Segment, arc_about

MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
_HEADER_UNITS = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m"}


def read_dxf(
    data: bytes, layer: str | None = None, unit: str | None = None, fit_mm: float = FIT_MM
) -> Imported:
    """Outlines of a DXF drawing's model space.

    ``layer`` None reads every layer. ``unit`` (mm, cm, m, in, ft) overrides the drawing's own; a drawing
    without one is read in mm, which is noted. Splines and ellipses are fitted by arcs within ``fit_mm``.

    Raises
    ShapeError
        ``too_large`` (over 2 MB), ``not_dxf``, ``layer`` (with the names there are), ``unit``, ``block``,
        ``not_flat``, and those of ``assemble.assembled``; all with the entity's type and handle.
    ModuleNotFoundError
        When the ``dxf`` extra is not installed.
    """
    need(
        len(data) <= MOST_BYTES,
        "too_large",
        said("a drawing may have {most} bytes, this one has {count}", most=MOST_BYTES, count=len(data)),
    )
    need(
        unit is None or unit in MM_PER_UNIT,
        "unit",
        said("expected one of {words}, got {unit}", words=", ".join(MM_PER_UNIT), unit=repr(unit)),
    )
    document = _parsed(data)
    scale, notes = _scale(document, unit)
    entities = list(document.modelspace())
    if layer is not None:
        names = sorted({e.dxf.layer for e in entities})
        message = said(
            "no layer {layer} has anything on it; there are {others}",
            layer=repr(layer),
            others=", ".join(names) or "none",
        )
        need(any(e.dxf.layer.lower() == layer.lower() for e in entities), "layer", message)
        entities = [e for e in entities if e.dxf.layer.lower() == layer.lower()]
    drawn: list[Drawn] = []
    for entity in entities:
        source = f"{entity.dxftype()} {entity.dxf.handle}"
        pieces = list(_pieces(entity, source, fit_mm / scale, notes))
        drawn += [Drawn(_scaled(s, scale), source) for s in pieces]
    return assembled(drawn, scale, notes)


def _parsed(data: bytes) -> Any:
    import ezdxf  # an extra: only who imports drawings needs it

    need(
        not data.startswith(b"AutoCAD Binary DXF"), "not_dxf", "a binary DXF cannot be read: save it as text"
    )
    try:
        text = data.decode("utf-8", errors="surrogateescape")
        return ezdxf.read(StringIO(text))  # type: ignore[attr-defined]
    except Exception as broken:  # the library raises many kinds on broken text; each means the same here
        raise ShapeError(
            "not_dxf", said("this is no DXF drawing that can be read: {broken}", broken=told(broken))
        ) from broken


def _scale(document: Any, unit: str | None) -> tuple[float, list[Note]]:
    if unit is not None:
        return MM_PER_UNIT[unit], []
    code = document.header.get("$INSUNITS", 0)
    named = _HEADER_UNITS.get(code)
    if named:
        return MM_PER_UNIT[named], []
    need(
        code == 0,
        "unit",
        said("the drawing's unit (code {code}) is none of mm, cm, m, in, ft: state the unit", code=code),
    )
    return 1.0, [Note("unit_assumed", value=1.0)]


def _pieces(entity: Any, source: str, fit: float, notes: list[Note]) -> Iterator[Segment]:
    kind = entity.dxftype()
    if kind == "LINE":
        yield Segment(entity.dxf.start.x, entity.dxf.start.y, entity.dxf.end.x, entity.dxf.end.y)
    elif kind in ("ARC", "CIRCLE"):
        yield from _round(entity, _flip(entity, source))
    elif kind == "LWPOLYLINE":
        vertices = [(float(x), float(y), float(b)) for x, y, b in entity.get_points("xyb")]
        yield from _polyline(vertices, entity.closed, _flip(entity, source))
    elif kind == "POLYLINE" and entity.is_2d_polyline:
        vertices = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
        yield from _polyline(vertices, entity.is_closed, _flip(entity, source))
    elif kind in ("SPLINE", "ELLIPSE"):
        notes.append(Note("curve_fitted", source, value=fit))
        yield from _curve(entity, fit)
    elif kind == "INSERT":
        raise ShapeError(
            "block", said("{source} is a block: break it up into lines and arcs first", source=source)
        )
    else:
        notes.append(Note("ignored", source))


def _flip(entity: Any, source: str) -> float:
    """1, or −1 where the entity is drawn seen from below (x runs the other way)."""
    direction = entity.dxf.get("extrusion", (0.0, 0.0, 1.0))
    x, y, z = direction
    need(
        abs(x) + abs(y) < 1e-6,
        "not_flat",
        said("{source} does not lie in the plane of the drawing", source=source),
    )
    return 1.0 if z > 0 else -1.0


def _round(entity: Any, flip: float) -> Iterator[Segment]:
    c, r = entity.dxf.center, entity.dxf.radius
    if entity.dxftype() == "CIRCLE":
        x = flip * c.x
        yield Segment(x - r, c.y, x + r, c.y, 1.0)
        yield Segment(x + r, c.y, x - r, c.y, 1.0)
        return
    start = radians(entity.dxf.start_angle)
    sweep = radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360.0 or 360.0)
    for k in (0, 1):  # in two halves, so that even a nearly full circle has a bulge
        s = arc_about(c.x, c.y, r, start + k * sweep / 2, sweep / 2)
        yield Segment(flip * s.x0, s.y0, flip * s.x1, s.y1, flip * s.bulge)


def _polyline(vertices: list[tuple[float, float, float]], closed: bool, flip: float) -> Iterator[Segment]:
    following = vertices[1:] + (vertices[:1] if closed else [])
    for (x0, y0, bulge), (x1, y1, _) in zip(vertices, following, strict=False):
        yield Segment(flip * x0, y0, flip * x1, y1, flip * bulge)


def _curve(entity: Any, fit: float) -> Iterator[Segment]:
    from ezdxf.path import Curve3To, Curve4To, make_path

    path = make_path(entity)
    here = (path.start.x, path.start.y)
    for command in path.commands():
        end = (command.end.x, command.end.y)
        if isinstance(command, Curve4To):
            handles = ((command.ctrl1.x, command.ctrl1.y), (command.ctrl2.x, command.ctrl2.y))
            yield from fitted(Cubic(here, *handles, end), fit)
        elif isinstance(command, Curve3To):
            yield from fitted(cubic_of_quadratic(here, (command.ctrl.x, command.ctrl.y), end), fit)
        else:
            yield Segment(*here, *end)
        here = end


def _scaled(s: Segment, scale: float) -> Segment:
    return Segment(s.x0 * scale, s.y0 * scale, s.x1 * scale, s.y1 * scale, s.bulge)
