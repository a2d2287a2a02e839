"""The parts of a whole piece as upright boxes where they stand, less what is taken out of them for joints."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Final

from evenface.construction import BuiltPanel, Construction
from evenface.construction.placed import BuiltBoard, Placement, Point, Worked

type Solid = tuple[Point, Point]
"""Lower and upper corner of an upright box. [mm]"""

TAKEN_OUT: Final = frozenset(
    {
        "groove",
        "rebate",
        "housing",
        "bridle slot",
        "finger slot",
        "lining cleared",
        "halving",
        "mortise",
        "tenon",
        "tenon cheek",
        "haunch",
        "haunch groove",
    }
)
"""What is worked into a part and leaves a hollow that a drawing of the whole piece can show."""
_FINEST_MM: Final = 1e-4
_FAR: Final = 1e5
"""Beyond any part. [mm]"""


@dataclass(frozen=True, slots=True)
class PlacedPart:
    """One part (one of its count) where it stands.

    number : as on labels. whole : its box. solids : that box in pieces, less grooves, rebates and housings; they
    do not overlap. length_mm, width_mm, thickness_mm : of the part itself.
    """

    number: str
    placement: Placement
    made: BuiltPanel | BuiltBoard
    length_mm: float
    width_mm: float
    thickness_mm: float
    whole: Solid
    solids: tuple[Solid, ...]

    @property
    def name(self) -> str:
        return self.placement.part

    @property
    def thin_along(self) -> int:
        """The direction of the piece (0 for x, 1 for y, 2 for z) in which it is thinnest."""
        low, high = self.whole
        return min(range(3), key=lambda n: high[n] - low[n])

    def apart(self) -> "PlacedPart":
        """The same part moved to where it is drawn when the piece is taken apart; whole, without hollows."""
        by = self.placement.apart
        low, high = (_moved(corner, by) for corner in self.whole)
        return replace(self, whole=(low, high), solids=((low, high),))

    def within(self, point: Point) -> Point:
        """A point of the piece in coordinates of the part. [mm]"""
        place = self.placement
        off = [a - b for a, b in zip(point, place.at, strict=True)]
        x, y, z = (
            sum(a * b for a, b in zip(off, axis.vector, strict=True))
            for axis in (place.x_axis, place.y_axis, place.z_axis)
        )
        return x, y, z

    def box_of(self, low: Point, high: Point) -> Solid:
        """A box in coordinates of the part as a box of the piece."""
        return _box(self.placement, low, high)


def placed_parts(
    construction: Construction, numbers: Mapping[str, str] | None = None
) -> tuple[PlacedPart, ...]:
    """Every placed part, in the order of the placements; none where the parts of the piece stand nowhere.

    numbers : of the parts by their names; panels, then boards, are counted from 1 where there is none.
    """
    made: dict[str, BuiltPanel | BuiltBoard] = {one.name: one for one in construction.panels}
    made |= {one.name: one for one in construction.boards}
    given = numbers or {name: str(number) for number, name in enumerate(made, start=1)}
    hollows = [end for one in construction.arranged.worked if one.kind in TAKEN_OUT for end in _taken(one)]
    return tuple(
        _placed(
            placement,
            made[placement.part],
            given[placement.part],
            [one for one in hollows if one.part == placement.part],
        )
        for placement in construction.arranged.placements
    )


def hollows_of(construction: Construction, made: BuiltPanel | BuiltBoard) -> Iterator[Solid]:
    """The boxes taken out of a part for its joints, in coordinates of the part. [mm]"""
    sizes = made if isinstance(made, BuiltPanel) else made.board
    thickness = made.thickness_mm if isinstance(made, BuiltPanel) else made.board.over_mm
    for one in construction.arranged.worked:
        if one.part == made.name and one.kind in TAKEN_OUT:
            for end in _taken(one):
                yield _hollow(end, sizes.length_mm, sizes.width_mm, thickness)


def _placed(
    placement: Placement, made: BuiltPanel | BuiltBoard, number: str, hollows: list[Worked]
) -> PlacedPart:
    sizes = made if isinstance(made, BuiltPanel) else made.board
    length, width = sizes.length_mm, sizes.width_mm
    thickness = made.thickness_mm if isinstance(made, BuiltPanel) else made.board.over_mm
    box = placement.box(length, width, thickness)
    whole = (_rounded(box[0]), _rounded(box[1]))
    solids = [whole]
    for worked in hollows:
        taken = _box(placement, *_hollow(worked, length, width, thickness))
        solids = [rest for solid in solids for rest in _less(solid, taken)]
    return PlacedPart(number, placement, made, length, width, thickness, whole, tuple(solids))


def _taken(worked: Worked) -> Iterator[Worked]:
    """What goes: of a tenon, which is told by what stays, all that stands beside it at both ends."""
    if worked.kind != "tenon":
        yield from both_ends(worked)
        return
    x0, y0, x1, y1 = worked.x0_mm, worked.y0_mm, worked.x1_mm, worked.y1_mm
    for face in ("left", "right")[: worked.number]:
        for a, b, c, d in (
            (0.0, 0.0, x0, _FAR),
            (x1, 0.0, _FAR, _FAR),
            (x0, 0.0, x1, y0),
            (x0, y1, x1, _FAR),
        ):
            yield replace(worked, face=face, x0_mm=a, y0_mm=b, x1_mm=c, y1_mm=d)


def both_ends(worked: Worked) -> Iterator[Worked]:
    """What is cut at an end, as a slot or a tenon, is told once for the two ends of its part."""
    yield worked
    if worked.kind in ("bridle slot", "finger slot", "tenon", "tenon cheek", "haunch") and worked.number == 2:
        yield replace(worked, face="right" if worked.face == "left" else "left")


def _hollow(worked: Worked, length: float, width: float, thickness: float) -> Solid:
    """What is taken out, in coordinates of the part; on an edge x runs along it and y across the thickness."""
    x, y, z = worked.space((length, width, thickness))
    return (x[0], y[0], z[0]), (x[1], y[1], z[1])


def _less(solid: Solid, taken: Solid) -> Iterator[Solid]:
    """A box without another one: at most six boxes that do not overlap."""
    low, high = list(solid[0]), list(solid[1])
    if any(taken[1][n] <= low[n] + _FINEST_MM or taken[0][n] >= high[n] - _FINEST_MM for n in range(3)):
        yield solid
        return
    for n in range(3):
        if taken[0][n] > low[n] + _FINEST_MM:
            yield _corners(low, [*high[:n], taken[0][n], *high[n + 1 :]])
            low[n] = taken[0][n]
        if taken[1][n] < high[n] - _FINEST_MM:
            yield _corners([*low[:n], taken[1][n], *low[n + 1 :]], high)
            high[n] = taken[1][n]


def _corners(low: list[float], high: list[float]) -> Solid:
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])


def _box(placement: Placement, low: Point, high: Point) -> Solid:
    one, other = placement.point(*low), placement.point(*high)
    pairs = [sorted(pair) for pair in zip(one, other, strict=True)]
    return _rounded((pairs[0][0], pairs[1][0], pairs[2][0])), _rounded(
        (pairs[0][1], pairs[1][1], pairs[2][1])
    )


def _rounded(point: Point) -> Point:
    """Places that differ only by the rounding of the machine become the same."""
    return round(point[0], 5), round(point[1], 5), round(point[2], 5)


def _moved(point: Point, by: Point) -> Point:
    return point[0] + by[0], point[1] + by[1], point[2] + by[2]
