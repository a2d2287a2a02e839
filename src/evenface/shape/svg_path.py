"""The path language of SVG read into lines, arcs and cubics, in the drawing's own units (y downwards)."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import atan2, cos, hypot, pi, sin, sqrt, tan

from evenface.words import said

from .curves import Cubic, cubic_of_quadratic, cubics_of_arc
from .faults import ShapeError
from .segment import Point, Segment, arc_about

type Piece = Segment | Cubic
type Matrix = tuple[float, float, float, float, float, float]

_TOKEN = re.compile(r"([MmLlHhVvAaCcSsQqTtZz])|([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)|([\s,]+)|(.)")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "A": 7, "C": 6, "S": 4, "Q": 4, "T": 2, "Z": 0}
_FLAG = re.compile(r"[\s,]*([01])")


def path_pieces(text: str, source: str) -> list[Piece]:
    """The pieces of a path's ``d`` attribute, subpaths one after the other.

    Raises
    ShapeError
        ``path`` with the element and what was not understood.
    """
    pieces: list[Piece] = []
    here = start = handle = (0.0, 0.0)
    last = ""
    for letter, values in _commands(text, source):
        kind, (x, y) = letter.upper(), here if letter.islower() else (0.0, 0.0)
        points = [(x + values[k], y + values[k + 1]) for k in range(0, len(values) - 1, 2)]
        before = here
        if kind == "M":
            here = start = points[0]
        elif kind == "Z":
            pieces.append(Segment(*here, *start))
            here = start
        elif kind in "LHV":
            here = {
                "L": points[0] if points else here,
                "H": (x + values[0], here[1]),
                "V": (here[0], y + values[0]),
            }[kind]
            pieces.append(Segment(*before, *here))
        elif kind == "A":
            here = (x + values[5], y + values[6])
            pieces += _arc(before, here, values, source)
        else:
            if kind in "ST":  # the first handle mirrors the last one of a like curve
                smooth = last in ("CS" if kind == "S" else "QT")
                points.insert(0, (2 * here[0] - handle[0], 2 * here[1] - handle[1]) if smooth else here)
            handle, here = points[-2], points[-1]
            curve = Cubic(before, points[0], handle, here) if kind in "CS" else None
            pieces.append(curve or cubic_of_quadratic(before, handle, here))
        last = kind
    return [p for p in pieces if not isinstance(p, Segment) or p.length > 0]


def _commands(text: str, source: str) -> Iterator[tuple[str, list[float]]]:
    """Every command with its own figures; repeated figures repeat the command (M repeats as L)."""
    place, letter = 0, ""
    while place < len(text):
        found = _TOKEN.match(text, place)
        assert found is not None
        if found[4]:
            raise ShapeError(
                "path",
                said(
                    "{source}: {found} at character {place} is not part of a path",
                    source=source,
                    found=repr(found[4]),
                    place=place,
                ),
            )
        if found[3]:
            place = found.end()
            continue
        if found[1]:
            letter, place = found[1], found.end()
            if letter in "Zz":
                yield letter, []
                continue
        elif not letter or letter in "Zz":
            raise ShapeError(
                "path",
                said(
                    "{source}: a figure at character {place} follows no command", source=source, place=place
                ),
            )
        values, place = _values(text, place, letter, source)
        yield letter, values
        letter = {"M": "L", "m": "l"}.get(letter, letter)


def _values(text: str, place: int, letter: str, source: str) -> tuple[list[float], int]:
    values: list[float] = []
    wanted = _TAKES[letter.upper()]
    while len(values) < wanted:
        flag = _FLAG.match(text, place) if letter in "Aa" and len(values) in (3, 4) else None
        if flag:  # flags may stand without a gap between them
            values.append(float(flag[1]))
            place = flag.end()
            continue
        found = _TOKEN.match(text, place)
        if found is None or found[1] or found[4]:
            message = said(
                "{source}: {letter} takes {wanted} figures, got {count} before character {place}",
                source=source,
                letter=letter,
                wanted=wanted,
                count=len(values),
                place=place,
            )
            raise ShapeError("path", message)
        if found[2]:
            values.append(float(found[2]))
        place = found.end()
    return values, place


def _arc(start: Point, end: Point, values: list[float], source: str) -> list[Piece]:
    """An elliptical arc by ends and radii (SVG 2, appendix B.2.4); a circular one stays an arc."""
    rx, ry, turned = abs(values[0]), abs(values[1]), values[2] * pi / 180
    if start == end:
        return []
    if rx == 0 or ry == 0:
        return [Segment(*start, *end)]
    c, s = cos(turned), sin(turned)
    hx, hy = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    u, v = (
        (c * hx + s * hy) / rx,
        (-s * hx + c * hy) / ry,
    )  # half chord in the plane where the ellipse is round
    half = hypot(u, v)
    if half > 1:  # radii too small are grown until the ellipse just reaches
        rx, ry, u, v, half = rx * half, ry * half, u / half, v / half, 1.0
    across = sqrt(max(1 / (half * half) - 1, 0.0)) * (1.0 if bool(values[3]) != bool(values[4]) else -1.0)
    cu, cv = across * v, -across * u
    from_, to = atan2(v - cv, u - cu), atan2(-v - cv, -u - cu)
    sweep = (to - from_) % (2 * pi)
    if not values[4]:
        sweep -= 2 * pi
    if abs(rx - ry) <= 1e-9 * rx:
        return [Segment(*start, *end, tan(sweep / 4))]
    mx, my = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    to_page = (
        rx * c,
        rx * s,
        -ry * s,
        ry * c,
        mx + rx * c * cu - ry * s * cv,
        my + rx * s * cu + ry * c * cv,
    )
    return [moved(cubic, to_page) for cubic in cubics_of_arc(arc_about(0.0, 0.0, 1.0, from_, sweep))]


def on_page(point: Point, m: Matrix) -> Point:
    return m[0] * point[0] + m[2] * point[1] + m[4], m[1] * point[0] + m[3] * point[1] + m[5]


def moved(curve: Cubic, m: Matrix) -> Cubic:
    return Cubic(*(on_page(p, m) for p in (curve.start, curve.handle1, curve.handle2, curve.end)))


def times(a: Matrix, b: Matrix) -> Matrix:
    """The matrix that applies ``b`` first, then ``a``."""
    x, y = on_page((b[4], b[5]), a)
    return (
        a[0] * b[0] + a[2] * b[1], a[1] * b[0] + a[3] * b[1],
        a[0] * b[2] + a[2] * b[3], a[1] * b[2] + a[3] * b[3], x, y,
    )  # fmt: skip


_TRANSFORM = re.compile(r"\s*(\w+)\s*\(([^)]*)\)[\s,]*")


def transform(text: str, source: str) -> Matrix:
    """The matrix of a ``transform`` attribute: translate, scale, rotate, matrix, skewX, skewY.

    Raises
    ShapeError
        ``transform`` with the element and the text.
    """
    total: Matrix = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
    place = 0
    while place < len(text.rstrip()):
        found = _TRANSFORM.match(text, place)
        try:
            assert found is not None
            values = [float(v) for v in re.split(r"[\s,]+", found[2].strip())]
            total = times(total, _one_transform(found[1], values))
        except (AssertionError, ValueError, IndexError, KeyError) as wrong:
            raise ShapeError(
                "transform",
                said("{source}: {text} is no transform that is understood", source=source, text=repr(text)),
            ) from wrong
        place = found.end()
    return total


def _one_transform(name: str, v: list[float]) -> Matrix:
    if name == "translate":
        return 1.0, 0.0, 0.0, 1.0, v[0], v[1] if len(v) > 1 else 0.0
    if name == "scale":
        return v[0], 0.0, 0.0, v[1] if len(v) > 1 else v[0], 0.0, 0.0
    if name == "rotate":
        c, s = cos(v[0] * pi / 180), sin(v[0] * pi / 180)
        x, y = (v[1], v[2]) if len(v) > 2 else (0.0, 0.0)
        return c, s, -s, c, x - c * x + s * y, y - s * x - c * y
    if name == "matrix":
        return v[0], v[1], v[2], v[3], v[4], v[5]
    return {"skewX": (1.0, 0.0, tan(v[0] * pi / 180), 1.0, 0.0, 0.0),
            "skewY": (1.0, tan(v[0] * pi / 180), 0.0, 1.0, 0.0, 0.0)}[name]  # fmt: skip
