"""Outlines from an SVG drawing: paths and basic shapes of one layer, in mm with y upwards."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import hypot
from typing import Any

from evenface.words import said

from .assemble import MOST_BYTES, Drawn, Imported, Note, assembled
from .curves import FIT_MM, cubics_of_arc, fitted
from .faults import ShapeError, need, told
from .segment import Segment
from .svg_path import Matrix, Piece, moved, on_page, path_pieces, times, transform

_PX = 25.4 / 96
MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "px": _PX}
_SHAPES = frozenset({"path", "rect", "circle", "ellipse", "line", "polyline", "polygon"})
_PASSED_BY = frozenset(
    {"defs", "metadata", "title", "desc", "style", "text", "clipPath", "mask", "pattern", "marker"}
)
_REFUSED = frozenset({"use", "image", "symbol", "foreignObject", "script"})
_LENGTH = re.compile(r"\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)\s*([a-zA-Z%]*)\s*$")


def read_svg(
    data: bytes, layer: str | None = None, unit: str | None = None, fit_mm: float = FIT_MM
) -> Imported:
    """Outlines of an SVG drawing.

    ``layer`` is the id or label of a group (None reads all). ``unit`` states what one user unit is (mm, cm,
    in, pt, px) where the drawing's own width and viewBox do not; without either it is 1/96 inch, noted.
    Curves that are no circular arcs are fitted by arcs within ``fit_mm``.

    Raises
    ShapeError
        ``too_large`` (over 2 MB), ``not_svg`` (also for entities), ``layer``, ``unit``, ``reference`` (use,
        image and their like), ``number``, ``path``, ``transform``, and those of ``assemble.assembled``.
    ModuleNotFoundError
        When the ``dxf`` extra (which brings the safe reader) is not installed.
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
    root = _parsed(data)
    to_mm, notes = _to_mm(root, unit)
    found = [
        (source, piece, times(to_mm, matrix)) for element, source, matrix in _elements(root, layer)
        for piece in _pieces(element, source)
    ]  # fmt: skip
    drawn: list[Drawn] = []
    for source, piece, matrix in found:
        pieces, curved = _in_mm(piece, matrix, fit_mm)
        drawn += [Drawn(s, source) for s in pieces]
        if curved:
            notes.append(Note("curve_fitted", source, value=fit_mm))
    return assembled(drawn, hypot(to_mm[0], to_mm[1]), notes)


def _parsed(data: bytes) -> Any:
    from defusedxml.ElementTree import fromstring  # an extra

    try:
        root = fromstring(data)
    except Exception as broken:  # refused entities and broken text alike
        raise ShapeError(
            "not_svg",
            said(
                "this is no SVG drawing that can be read: {name} {broken}",
                name=type(broken).__name__,
                broken=told(broken),
            ),
        ) from broken
    need(
        _tag(root) == "svg",
        "not_svg",
        said("expected an svg element at the top, got {found}", found=repr(_tag(root))),
    )
    return root


def _tag(element: Any) -> str:
    return str(element.tag).rpartition("}")[2]


def _to_mm(root: Any, unit: str | None) -> tuple[Matrix, list[Note]]:
    """The matrix from user units to mm with y turned upwards, from viewBox and size, or the stated unit."""
    notes: list[Note] = []
    box = [float(v) for v in re.split(r"[\s,]+", root.get("viewBox", "").strip()) if v]
    wide, tall = _size(root.get("width")), _size(root.get("height"))
    if unit is not None:
        scale = MM_PER_UNIT[unit]
    elif wide and len(box) == 4:
        scale = wide / box[2]
        across = tall / box[3] if tall else scale
        message = said(
            "{wide:g} × {tall:g} mm and the viewBox have other proportions: state the unit",
            wide=wide,
            tall=tall or 0,
        )
        need(abs(across - scale) <= 1e-3 * scale, "unit", message)
    else:
        scale = _PX
        notes.append(Note("unit_assumed", value=_PX))
    low = box[1] + box[3] if len(box) == 4 else (tall or 0.0) / scale
    left = box[0] if len(box) == 4 else 0.0
    return (scale, 0.0, 0.0, -scale, -left * scale, low * scale), notes


def _size(text: str | None) -> float | None:
    found = _LENGTH.match(text or "")
    if not found or found[2] == "%":
        return None
    return float(found[1]) * MM_PER_UNIT.get(found[2] or "px", _PX)


def _elements(root: Any, layer: str | None) -> Iterator[tuple[Any, str, Matrix]]:
    """Every drawn element with its name and matrix; those outside the layer are passed by."""
    seen: list[str] = []
    count = 0
    queue: list[tuple[Any, Matrix, bool]] = [(root, (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), layer is None)]
    while queue:
        element, matrix, wanted = queue.pop()
        if (
            not isinstance(element.tag, str)
            or _tag(element) in _PASSED_BY
            or element.get("display") == "none"
        ):
            continue
        names = [v for key, v in element.attrib.items() if key.rpartition("}")[2] in ("id", "label")]
        source = f"{_tag(element)} {names[0]}" if names else _tag(element)
        if _tag(element) == "g":
            seen += names
        wanted = wanted or layer in names
        if element.get("transform"):
            matrix = times(matrix, transform(element.get("transform"), source))
        if wanted:
            message = said(
                "{source} refers to something else: put its lines into the drawing itself", source=source
            )
            need(_tag(element) not in _REFUSED, "reference", message)
            if _tag(element) in _SHAPES:
                count += 1
                yield element, source, matrix
        queue += [(child, matrix, wanted) for child in reversed(element)]
    message = said(
        "no layer {layer} has anything on it; there are {others}",
        layer=repr(layer),
        others=", ".join(seen) or "none",
    )
    need(count > 0 or layer is None, "layer", message)


def _pieces(element: Any, source: str) -> list[Piece]:
    kind = _tag(element)
    if kind == "path":
        return path_pieces(element.get("d", ""), source)
    if kind in ("polyline", "polygon"):
        return _chain(_numbers(element.get("points", ""), source), kind == "polygon")

    def number(key: str) -> float:
        return _number(element, key, source)

    if kind == "line":
        return [Segment(number("x1"), number("y1"), number("x2"), number("y2"))]
    if kind in ("circle", "ellipse"):
        rx, ry = (number("r"),) * 2 if kind == "circle" else (number("rx"), number("ry"))
        x, y = number("cx"), number("cy")
        return path_pieces(f"M{x - rx} {y}A{rx} {ry} 0 0 1 {x + rx} {y}A{rx} {ry} 0 0 1 {x - rx} {y}", source)
    return _rectangle(element, source)


def _rectangle(element: Any, source: str) -> list[Piece]:
    x, y, w, h = (_number(element, key, source) for key in ("x", "y", "width", "height"))
    given = [element.get("rx"), element.get("ry")]
    rx = _number(element, "rx" if given[0] else "ry", source)
    ry = _number(element, "ry" if given[1] else "rx", source)
    rx, ry = min(rx, w / 2), min(ry, h / 2)
    if not (rx and ry):
        return path_pieces(f"M{x} {y}h{w}v{h}h{-w}z", source)
    corner = f"a{rx} {ry} 0 0 1 "
    straight_x, straight_y = w - 2 * rx, h - 2 * ry
    return path_pieces(
        f"M{x + rx} {y}h{straight_x}{corner}{rx} {ry}v{straight_y}{corner}{-rx} {ry}"
        f"h{-straight_x}{corner}{-rx} {-ry}v{-straight_y}{corner}{rx} {-ry}z",
        source,
    )


def _number(element: Any, key: str, source: str) -> float:
    """A length in user units; absolute units are turned into them at 96 to the inch."""
    text = element.get(key, "0")
    found = _LENGTH.match(text)
    if not found or found[2] not in ("", *MM_PER_UNIT):
        raise ShapeError(
            "number",
            said(
                "{source}: {key} = {text} is no length that is understood",
                source=source,
                key=key,
                text=repr(text),
            ),
        )
    return float(found[1]) * (MM_PER_UNIT[found[2]] / _PX if found[2] else 1.0)


def _numbers(text: str, source: str) -> list[float]:
    try:
        return [float(v) for v in re.split(r"[\s,]+", text.strip()) if v]
    except ValueError as wrong:
        raise ShapeError(
            "number",
            said(
                "{source}: points holds something that is no number: {wrong}", source=source, wrong=str(wrong)
            ),
        ) from wrong


def _chain(values: list[float], closed: bool) -> list[Piece]:
    points = list(zip(values[::2], values[1::2], strict=False))
    following = points[1:] + (points[:1] if closed else [])
    return [Segment(*a, *b) for a, b in zip(points, following, strict=False) if a != b]


def _in_mm(piece: Piece, m: Matrix, fit: float) -> tuple[list[Segment], bool]:
    """A piece on the page in mm, and whether it had to be fitted. Turning, moving, scaling keep arcs arcs."""
    if isinstance(piece, Segment):
        alike = abs(hypot(m[0], m[1]) - hypot(m[2], m[3])) + abs(m[0] * m[2] + m[1] * m[3]) < 1e-9 * hypot(
            m[0], m[1]
        )
        if alike or not piece.is_arc:
            bulge = piece.bulge if m[0] * m[3] - m[1] * m[2] > 0 else -piece.bulge
            return [Segment(*on_page(piece.first, m), *on_page(piece.last, m), bulge)], False
        return [s for cubic in cubics_of_arc(piece) for s in fitted(moved(cubic, m), fit)], True
    return fitted(moved(piece, m), fit), True
