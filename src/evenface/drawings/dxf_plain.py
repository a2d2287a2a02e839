"""The entities of plain geometry as DXF groups: lines, polylines, circles and lettering.

A plan of a sheet holds nothing else; written straight into a blank document it takes a fraction of the time.
"""

from collections.abc import Iterator, Mapping, Sequence
from itertools import count
from typing import Final

from evenface.drawings.scene import Anchor, Circle, Line, Path, Primitive, Text

PLAIN: Final = (Line, Path, Circle, Text)
CAPITALS: Final = 0.73
"""DXF asks for the height of capitals, as part of our size of lettering."""
_ALIGNED: Final = {Anchor.START: 0, Anchor.MIDDLE: 1, Anchor.END: 2}
type Group = tuple[int, object]
type Look = Mapping[str, object]


def entities_text(
    things: Sequence[tuple[Primitive, Look]], scale: float, owner: str, first: int
) -> tuple[str, int]:
    """Groups of the entities, and the next free handle.

    things : each with its layer, lineweight, line type and colour as ezdxf names them; a text already stripped of
    codes. owner : handle of the model space. first : handle of the first entity.
    """
    handles = count(first)
    rows: list[str] = []
    for one, look in things:
        for code, value in _groups(one, look, scale, owner, f"{next(handles):X}"):
            rows.append(f"{code:3d}\n{value}\n")
    return "".join(rows), next(handles)


def _groups(one: Primitive, look: Look, scale: float, owner: str, handle: str) -> Iterator[Group]:
    name, own = _own(one, scale)
    yield from ((0, name), (5, handle), (330, owner), (100, "AcDbEntity"), (8, look["layer"]))
    for code, key in ((6, "linetype"), (62, "color"), (370, "lineweight")):
        if key in look:
            yield code, look[key]
    yield from own


def _own(one: Primitive, scale: float) -> tuple[str, Iterator[Group]]:
    match one:
        case Line():
            return "LINE", _line(one)
        case Path():
            return "LWPOLYLINE", _polyline(one)
        case Circle():
            return "CIRCLE", _circle(one)
        case Text():
            return "TEXT", _lettering(one, scale)
        case _:
            raise ValueError(f"expected a line, path, circle or text, was given a {type(one).__name__}")


def _line(one: Line) -> Iterator[Group]:
    yield 100, "AcDbLine"
    yield from _point(10, one.x0, one.y0)
    yield from _point(11, one.x1, one.y1)


def _polyline(one: Path) -> Iterator[Group]:
    yield from ((100, "AcDbPolyline"), (90, len(one.vertices)), (70, int(one.closed)))
    for x, y, bulge in one.vertices:
        yield from ((10, float(x)), (20, float(y)))
        if bulge:
            yield 42, float(bulge)


def _circle(one: Circle) -> Iterator[Group]:
    yield 100, "AcDbCircle"
    yield from _point(10, one.x, one.y)
    yield 40, float(one.radius_mm)


def _lettering(one: Text, scale: float) -> Iterator[Group]:
    yield 100, "AcDbText"
    yield from _point(10, one.x, one.y)
    yield from ((40, CAPITALS * one.size_mm / scale), (1, one.text), (50, float(one.angle_deg)))
    if aligned := _ALIGNED[one.anchor]:
        yield 72, aligned
    yield from _point(11, one.x, one.y)
    yield 100, "AcDbText"


def _point(code: int, x: float, y: float) -> Iterator[Group]:
    yield from ((code, float(x)), (code + 10, float(y)), (code + 20, 0.0))
