"""A part as it stands in its piece: which way its faces and edges look, and places on it from its low corner.

A maker marks out a cupboard side as it will stand, from its lower end and its front edge, left and right alike; part
coordinates run the other way on one of the two.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from evenface.construction.placed import Axis, Placement, Worked
from evenface.construction.records import Construction

FACES: Final[Mapping[Axis, str]] = {
    Axis.RIGHT: "right face",
    Axis.LEFT: "left face",
    Axis.REAR: "rear face",
    Axis.FRONT: "front face",
    Axis.UP: "upper face",
    Axis.DOWN: "lower face",
}
EDGES: Final[Mapping[Axis, str]] = {
    Axis.RIGHT: "right edge",
    Axis.LEFT: "left edge",
    Axis.REAR: "rear edge",
    Axis.FRONT: "front edge",
    Axis.UP: "upper edge",
    Axis.DOWN: "lower edge",
}
WAYS: Final[Mapping[Axis, str]] = {
    Axis.RIGHT: "to the right",
    Axis.REAR: "to the rear",
    Axis.UP: "upwards",
}
OPPOSITE: Final[Mapping[Axis, Axis]] = {
    Axis.RIGHT: Axis.LEFT,
    Axis.LEFT: Axis.RIGHT,
    Axis.REAR: Axis.FRONT,
    Axis.FRONT: Axis.REAR,
    Axis.UP: Axis.DOWN,
    Axis.DOWN: Axis.UP,
}


def forward(axis: Axis) -> Axis:
    """The direction measured in: to the right, back or up."""
    return axis if axis in WAYS else OPPOSITE[axis]


@dataclass(frozen=True, slots=True)
class AsItStands:
    """A part whose every copy stands the same way. size_mm : length, width, thickness over everything."""

    placement: Placement
    size_mm: tuple[float, float, float]

    def looks(self, face: str) -> Axis:
        """Where a face ("top", "bottom") or an edge ("front", "left" …) of the part looks."""
        own = self.placement
        return {
            "top": own.z_axis,
            "bottom": OPPOSITE[own.z_axis],
            "right": own.x_axis,
            "left": OPPOSITE[own.x_axis],
            "rear": own.y_axis,
            "front": OPPOSITE[own.y_axis],
        }[face]

    def word(self, face: str) -> str:
        """The same in words: right face, upper edge."""
        return (FACES if face in ("top", "bottom") else EDGES)[self.looks(face)]

    def ways(self, face: str) -> tuple[Axis, Axis]:
        """The part's own directions in which the two figures of a place on that face run."""
        own = self.placement
        if face in ("top", "bottom"):
            return own.x_axis, own.y_axis
        return (own.x_axis if face in ("front", "rear") else own.y_axis), own.z_axis

    def along(self, axis: Axis, x: float) -> float:
        """A place along one of the part's own directions, measured to the right, back or up."""
        return x if axis in WAYS else self.size_along(axis) - x

    def size_along(self, axis: Axis) -> float:
        """How long the part is that way. [mm]"""
        own = self.placement
        for direction, size in zip((own.x_axis, own.y_axis, own.z_axis), self.size_mm, strict=True):
            if axis in (direction, OPPOSITE[direction]):
                return size
        raise ValueError(f"no direction of the part runs along {axis}")


def standing(construction: Construction, name: str) -> AsItStands | None:
    """The part as it stands; None where it stands nowhere, or its copies stand in several ways."""
    places = [one for one in construction.arranged.placements if one.part == name]
    if len({(one.x_axis, one.y_axis) for one in places}) != 1:
        return None
    for panel in construction.panels:
        if panel.name == name:
            return AsItStands(places[0], (panel.length_mm, panel.width_mm, panel.thickness_mm))
    for one in construction.boards:
        if one.name == name:
            return AsItStands(places[0], (one.board.length_mm, one.board.width_mm, one.board.over_mm))
    return None


def centres_of(stands: AsItStands, one: Worked) -> list[tuple[float, float]]:
    """Middle points of holes as the part stands, from its low corner. [mm]"""
    first, second = stands.ways(one.face)
    return [(stands.along(first, x), stands.along(second, y)) for x, y in one.centres]


def stretches_of(stands: AsItStands, one: Worked) -> tuple[tuple[float, float], tuple[float, float]]:
    """The rectangle of a hollow as the part stands: from and to, both ways. [mm]"""
    first, second = stands.ways(one.face)
    xs = sorted((stands.along(first, one.x0_mm), stands.along(first, one.x1_mm)))
    ys = sorted((stands.along(second, one.y0_mm), stands.along(second, one.y1_mm)))
    return (xs[0], xs[1]), (ys[0], ys[1])
