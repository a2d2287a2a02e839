"""Outlines a maker asks for by name: rectangles with treated corners, slots, bars, D shapes, notches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import pi, sqrt, tan
from typing import Literal

from evenface.words import said

from .faults import need
from .outline import Outline
from .ring import Vertex
from .validity import TINY_MM, checked

type CornerKind = Literal["square", "radius", "chamfer", "notch"]
QUARTER_BULGE = tan(pi / 8)
_SIDES = ("front", "right", "back", "left")


@dataclass(frozen=True, slots=True)
class CornerCut:
    """How a corner is treated. ``size_mm`` is the radius, or the leg a chamfer takes from each side.

    A notch takes ``bite_mm`` along x and along y instead, its inner corner rounded by ``inner_mm``.
    """

    kind: CornerKind = "square"
    size_mm: float = 0.0
    bite_mm: tuple[float, float] = (0.0, 0.0)
    inner_mm: float = 0.0

    def __post_init__(self) -> None:
        need(
            self.kind in ("square", "radius", "chamfer", "notch"),
            "corner_kind",
            said("no corner is called {kind}", kind=repr(self.kind)),
        )
        if self.kind == "notch":
            need(
                min(self.bite_mm) > 0,
                "size",
                said("a notch needs two sizes above 0, got {bite}", bite=str(self.bite_mm)),
            )
            need(
                0 <= self.inner_mm <= min(self.bite_mm),
                "radius",
                said("a notch's radius must be 0 to its smaller size, got {inner}", inner=self.inner_mm),
            )
        need(
            self.size_mm >= 0,
            "negative",
            said("a corner's size must be 0 or more, got {size}", size=self.size_mm),
        )

    def reach_mm(self, axis: int) -> float:
        """How much the corner uses up of the side along x (axis 0) or along y (axis 1)."""
        if self.kind == "notch":
            return self.bite_mm[axis]
        return 0.0 if self.kind == "square" else self.size_mm


SQUARE = CornerCut()


@dataclass(frozen=True, slots=True)
class Notch:
    """A bite out of one side, square to it.

    ``start_mm`` is measured along the outline's direction of travel from the side's first corner: front from
    the left, right from the front, back from the right, left from the back. ``radius_mm`` rounds the two
    inner corners. ``start_mm`` 0 is refused: that is a corner notch, see ``CornerCut``.
    """

    side: Literal["front", "right", "back", "left"]
    start_mm: float
    length_mm: float
    depth_mm: float
    radius_mm: float = 0.0

    def __post_init__(self) -> None:
        need(
            self.side in _SIDES,
            "side",
            said("a side is one of {words}, got {side}", words=", ".join(_SIDES), side=repr(self.side)),
        )
        need(self.length_mm > 0 and self.depth_mm > 0, "size", "a notch needs a length and a depth above 0")
        need(0 <= self.radius_mm <= self.depth_mm, "radius", "a notch's radius must be 0 to its depth")
        need(
            2 * self.radius_mm <= self.length_mm, "radius", "two inner corners must fit in the notch's length"
        )


def rectangle(
    length_mm: float,
    width_mm: float,
    corners: Sequence[CornerCut] = (SQUARE, SQUARE, SQUARE, SQUARE),
    notches: Sequence[Notch] = (),
) -> Outline:
    """Rectangle from (0, 0) to (length, width) with one treatment per corner and notches in its sides.

    Corners in order of travel: front left, front right, back right, back left. Sides likewise: front (y = 0),
    right (x = length), back (y = width), left (x = 0). Radii and chamfers below 0.01 mm are sharp corners.

    Raises
    ShapeError
        ``size``, ``corners_overlap``, ``notch`` or what ``checked`` finds.
    """
    return _rectangle(length_mm, width_mm, tuple(corners), tuple(notches))


@lru_cache(maxsize=2048)  # its mass, its templates, its checks and every drawing ask for a panel's outline
def _rectangle(
    length_mm: float, width_mm: float, given: tuple[CornerCut, ...], notches: tuple[Notch, ...]
) -> Outline:
    need(
        length_mm > 0 and width_mm > 0,
        "size",
        said("expected sizes above 0, got {length} × {width} mm", length=length_mm, width=width_mm),
    )
    need(len(given) == 4, "corners", said("expected four corners, got {count}", count=len(given)))
    corners = [SQUARE if _is_sharp(corner) else corner for corner in given]
    if not notches and corners == [SQUARE] * 4 and min(length_mm, width_mm) > TINY_MM:
        return plain_rectangle(0.0, 0.0, length_mm, width_mm)
    places = ((0.0, 0.0), (length_mm, 0.0), (length_mm, width_mm), (0.0, width_mm))
    ways = ((1, 0), (0, 1), (-1, 0), (0, -1))
    vertices: list[Vertex] = []
    for side in range(4):
        run = (length_mm, width_mm)[side % 2]
        last = corners[(side + 1) % 4]
        here, there = corners[side].reach_mm(side % 2), last.reach_mm(side % 2)
        need(
            here + there <= run + 1e-9,
            "corners_overlap",
            said(
                "the corners of the {side:word} need {both} mm of its {run} mm",
                side=_SIDES[side],
                both=here + there,
                run=run,
            ),
            here + there,
        )
        (px, py), (ux, uy) = places[side], ways[side]
        mine = sorted((n for n in notches if n.side == _SIDES[side]), key=lambda n: n.start_mm)
        own_axes = _side(run, side % 2, corners[side], last, mine)
        vertices += [(px + ux * s - uy * into, py + uy * s + ux * into, bulge) for s, into, bulge in own_axes]
    return checked(Outline((_without_repeats(vertices),)))


def plain_rectangle(x0_mm: float, y0_mm: float, x1_mm: float, y1_mm: float) -> Outline:
    """From the lower to the upper corner: nothing in it can cross, so nothing is looked for."""
    return Outline((((x0_mm, y0_mm, 0.0), (x1_mm, y0_mm, 0.0), (x1_mm, y1_mm, 0.0), (x0_mm, y1_mm, 0.0)),))


def _is_sharp(corner: CornerCut) -> bool:
    """No tool cuts a rounding or chamfer below the smallest segment an outline may have: it is a sharp corner."""
    return corner.kind in ("radius", "chamfer") and corner.size_mm < TINY_MM


def _side(run: float, axis: int, here: CornerCut, there: CornerCut, notches: Sequence[Notch]) -> list[Vertex]:
    """Vertices of one side in its own axes (along, into the material): from its first corner to its last."""
    begin, stop = here.reach_mm(axis), run - there.reach_mm(axis)
    vertices: list[Vertex] = [(begin, 0.0, 0.0)]
    free_from = begin
    for n in notches:
        end = n.start_mm + n.length_mm
        need(
            n.start_mm > free_from and end < stop,
            "notch",
            said(
                "the notch from {start} to {end} mm on the {side:word} does not lie between {free_from} and {stop} mm",
                start=n.start_mm,
                end=end,
                side=n.side,
                free_from=free_from,
                stop=stop,
            ),
        )
        r = n.radius_mm if n.radius_mm >= TINY_MM else 0.0
        # inside a notch the outline turns right twice, so its round corners bulge clockwise
        vertices += [(n.start_mm, 0.0, 0.0), (n.start_mm, n.depth_mm - r, -QUARTER_BULGE if r else 0.0)]
        vertices += [(n.start_mm + r, n.depth_mm, 0.0), (end - r, n.depth_mm, -QUARTER_BULGE if r else 0.0)]
        vertices += [(end, n.depth_mm - r, 0.0), (end, 0.0, 0.0)]
        free_from = end
    vertices.append((stop, 0.0, QUARTER_BULGE if there.kind == "radius" else 0.0))
    if there.kind == "notch":
        into, r = there.bite_mm[1 - axis], there.inner_mm if there.inner_mm >= TINY_MM else 0.0
        vertices += [(stop, into - r, -QUARTER_BULGE if r else 0.0), (stop + r, into, 0.0)]
    return vertices


def _without_repeats(vertices: Sequence[Vertex]) -> tuple[Vertex, ...]:
    """Drop every vertex whose segment ends where it starts (square corners, corners that meet)."""
    following = (*vertices[1:], vertices[0])
    return tuple(
        v for v, after in zip(vertices, following, strict=True)
        if abs(v[0] - after[0]) + abs(v[1] - after[1]) > 1e-9
    )  # fmt: skip


def rounded_rectangle(length_mm: float, width_mm: float, radius_mm: float) -> Outline:
    """Rectangle with all four corners rounded alike (0 gives square corners)."""
    corner = CornerCut("radius", radius_mm) if radius_mm > 0 else SQUARE
    return rectangle(length_mm, width_mm, (corner,) * 4)


def circle(diameter_mm: float, centre: tuple[float, float] = (0.0, 0.0)) -> Outline:
    """A full circle as two half arcs."""
    need(
        diameter_mm > 0, "size", said("expected a diameter above 0, got {diameter} mm", diameter=diameter_mm)
    )
    (x, y), r = centre, diameter_mm / 2
    return Outline((((x - r, y, 1.0), (x + r, y, 1.0)),))


def slot(length_mm: float, width_mm: float) -> Outline:
    """A slot with round ends, overall length along x, from (0, 0)."""
    need(
        length_mm > width_mm > 0,
        "size",
        said("a slot must be longer than wide, got {length} × {width} mm", length=length_mm, width=width_mm),
    )
    r = width_mm / 2
    return Outline(
        (((r, 0.0, 0.0), (length_mm - r, 0.0, 1.0), (length_mm - r, width_mm, 0.0), (r, width_mm, 1.0)),)
    )


def bar(length_mm: float, width_mm: float, radius_mm: float) -> Outline:
    """A straight bar with rounded corners, as a cutter leaves them, from (0, 0)."""
    return rounded_rectangle(length_mm, width_mm, radius_mm)


def d_shape(length_mm: float, width_mm: float, radius_mm: float = 0.0) -> Outline:
    """A D lying on its flat: flat side along the front, one arc over it, rising ``width_mm`` at the middle.

    ``radius_mm`` rounds the two corners between flat and arc (0 keeps them sharp). ``width_mm`` may not
    exceed half the length: more would be a keyhole.
    """
    need(
        0 < width_mm <= length_mm / 2,
        "size",
        said("a D's width must be up to half its length, got {width} mm", width=width_mm),
    )
    half, rise = length_mm / 2, width_mm
    if not radius_mm:
        return Outline((((0.0, 0.0, 0.0), (length_mm, 0.0, 2 * rise / length_mm)),))
    R = (half * half + rise * rise) / (2 * rise)
    cy = rise - R
    need(
        2 * radius_mm < rise,
        "radius",
        said("corner radius {radius} mm does not fit a D {rise} mm deep", radius=radius_mm, rise=rise),
    )
    reach = sqrt((R - radius_mm) ** 2 - (radius_mm - cy) ** 2)  # centre of the corner arc, from the middle
    share = R / (R - radius_mm)
    x, y = reach * share, cy + (radius_mm - cy) * share
    corner = _bulge_between((half + reach, 0.0), (half + x, y), radius_mm)
    top = _bulge_between((half + x, y), (half - x, y), R)
    return checked(
        Outline(
            (
                (
                    (half - reach, 0.0, 0.0),
                    (half + reach, 0.0, corner),
                    (half + x, y, top),
                    (half - x, y, corner),
                ),
            )
        )
    )


def _bulge_between(a: tuple[float, float], b: tuple[float, float], radius: float) -> float:
    """Bulge of the shorter counter-clockwise arc of ``radius`` from a to b."""
    half = sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) / 2
    return (radius - sqrt(max(radius * radius - half * half, 0.0))) / half
