"""A scene as SVG: sizes in mm of the paper, presentation attributes only, every text escaped.

Arcs are split at 45° or less: a PDF has no arcs, and what replaces them then stays within 0.003 mm. The
lettering is set in a face that the setting of the packet carries with it; its signs are all as wide, so that
another face of that kind in a browser keeps to the same boxes.
"""

from collections.abc import Iterator
from math import ceil, pi
from typing import Final
from xml.sax.saxutils import escape, quoteattr

from evenface.drawings.hatch import SOLID, hatch
from evenface.drawings.scene import (
    Area,
    Circle,
    Fill,
    Line,
    Path,
    Primitive,
    Scene,
    Stroke,
    Text,
)
from evenface.drawings.strokes import taken_apart
from evenface.shape.segment import Point, Segment

INK: Final = "#1d1d1b"
ACCENT: Final = "#a23b22"
FONT: Final = "DejaVu Sans Mono, monospace"

_PEN: Final[dict[Stroke, tuple[float, str, str]]] = {
    Stroke.VISIBLE: (0.35, "", INK),
    Stroke.CUT: (0.5, "", INK),
    Stroke.HIDDEN: (0.25, "2 1", INK),
    Stroke.CENTRE: (0.18, "6 1 1 1", INK),
    Stroke.DOTTED: (0.25, "0.3 0.9", INK),
    Stroke.FINE: (0.18, "", INK),
    Stroke.HATCH: (0.13, "", INK),
    Stroke.ACCENT: (0.35, "", ACCENT),
}
"""Width on the paper in mm, dashes, colour."""
_TONE: Final[dict[Fill, str]] = {
    Fill.LAMINATE: INK,
    Fill.LINOLEUM: "#8d8d88",
    Fill.GLUE: ACCENT,
    Fill.PAPER: "#d8d6cf",
    Fill.PIECE: "#ffffff",
    Fill.BAND: "#dccfbd",
}


def to_svg(scene: Scene) -> str:
    """The whole SVG document as text, in mm of the paper."""
    sheet = _Sheet(scene)
    width, height = _n(scene.width_mm), _n(scene.height_mm)
    title = _clean(scene.title)
    rows = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="img" aria-label={quoteattr(title)} '
        f'data-scale="{scene.scale_text}">',
        f"<title>{escape(title)}</title>",
    ]
    layer = ""
    for one in scene.primitives:
        if one.layer != layer:
            if layer:
                rows.append("</g>")
            layer = one.layer
            rows.append(f"<g data-layer={quoteattr(_clean(layer))}>")
        rows.extend(sheet.drawn(one))
    return "\n".join([*rows, *(["</g>"] if layer else []), "</svg>"]) + "\n"


class _Sheet:
    """Where a point of the piece lies on the paper, y downwards, and each primitive as elements."""

    def __init__(self, scene: Scene) -> None:
        self._scale = scene.scale
        self._left, self._top = scene.bounds[0], scene.bounds[3]

    def at(self, point: Point) -> str:
        x, y = (point[0] - self._left) * self._scale, (self._top - point[1]) * self._scale
        return f"{_n(x)} {_n(y)}"

    def drawn(self, one: Primitive) -> Iterator[str]:
        match one:
            case Line():
                d = f"M{self.at((one.x0, one.y0))} L{self.at((one.x1, one.y1))}"
                yield f'<path d="{d}" {_pen(one.stroke)}/>'
            case Path():
                yield f'<path d="{self.way(one)}" {_pen(one.stroke)}/>'
            case Circle():
                x, y = self.at((one.x, one.y)).split()
                radius = _n(one.radius_mm * self._scale)
                yield f'<circle cx="{x}" cy="{y}" r="{radius}" {_pen(one.stroke)}/>'
            case Area():
                yield from self.area(one)
            case Text():
                yield self.lettering(one)
            case _:
                for part in taken_apart(one, self._scale):
                    yield from self.drawn(part)

    def way(self, path: Path) -> str:
        first, *_ = path.vertices
        steps = [f"M{self.at(first[:2])}"]
        steps += [self.step(segment) for segment in path.segments]
        return " ".join([*steps, "Z"] if path.closed else steps)

    def step(self, segment: Segment) -> str:
        if not segment.is_arc:
            return f"L{self.at(segment.last)}"
        count = max(1, ceil(abs(segment.sweep) / (pi / 4) - 1e-9))
        radius = _n(segment.radius * self._scale)
        sweep = 0 if segment.sweep > 0 else 1  # y is turned over
        ends = [segment.at(number / count) for number in range(1, count)] + [segment.last]
        return " ".join(f"A{radius} {radius} 0 0 {sweep} {self.at(end)}" for end in ends)

    def area(self, one: Area) -> Iterator[str]:
        if one.fill in SOLID:
            way = " ".join(self.way(Path(ring)) for ring in one.rings)
            yield f'<path d="{way}" fill="{_TONE[one.fill]}" fill-rule="evenodd" stroke="none"/>'
            return
        dashes = [f"M{self.at((x0, y0))} L{self.at((x1, y1))}" for x0, y0, x1, y1 in hatch(one, self._scale)]
        if dashes:
            yield f'<path d="{" ".join(dashes)}" {_pen(Stroke.HATCH)}/>'

    def lettering(self, one: Text) -> str:
        x, y = self.at((one.x, one.y)).split()
        turn = f' transform="rotate({_n(-one.angle_deg)} {x} {y})"' if one.angle_deg else ""
        return (
            f'<text x="{x}" y="{y}" font-family="{FONT}" font-size="{_n(one.size_mm)}" '
            f'text-anchor="{one.anchor.value}" fill="{INK}"{turn}>{escape(_clean(one.text))}</text>'
        )


def _pen(stroke: Stroke) -> str:
    width, dashes, colour = _PEN[stroke]
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'fill="none" stroke="{colour}" stroke-width="{width}"{dashed} stroke-linejoin="round"'


def _n(value: float) -> str:
    """A plain number: a hundred-thousandth of a mm on the paper is finer than any scale needs."""
    text = f"{value:.5f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _clean(text: str) -> str:
    """A text without the signs that no XML file may hold."""
    return (
        "".join(sign for sign in text if sign in "\t\n\r" or " " <= sign <= "\ud7ff" or sign >= "\ue000")
        .replace("\ufffe", "")
        .replace("\uffff", "")
    )
