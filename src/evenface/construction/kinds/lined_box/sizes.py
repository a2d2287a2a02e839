"""Sizes of a lined box: outside, inside, lining, where the bottom lies, and what is cleared at each end.

Every inner size is the outside less the wood and less the lining with its glue line. Lengths in mm.
"""

from dataclasses import dataclass
from typing import Final

from evenface.construction.allowances import GLUE_LINE
from evenface.construction.gaps_through_year import panel_through_year
from evenface.construction.ground import Ground
from evenface.construction.kinds.lined_box.fingers import FingerJoint, finger_joint
from evenface.construction.kinds.lined_box.records import FRONT, SIDES, TO_REAR, DividersAsked, LinedBox
from evenface.construction.placed import Point
from evenface.construction.wood_through_year import ThroughYear, width_through_year

GROOVE_LOOSE_MM: Final = 0.2
"""COMMON PRACTICE: groove, housing and halving are so much wider than what goes into them."""
LEAST_INSIDE_MM: Final = 10.0


@dataclass(frozen=True, slots=True)
class Cleared:
    """What is taken off a wall's lining at each end, over the whole height.

    width_mm : on the wood, from the end of the wall. face_mm : on the face of the lining; more where it is bevelled.
    """

    width_mm: float
    face_mm: float


@dataclass(frozen=True, slots=True)
class BoxSizes:
    """What a lined box measures. [mm]

    outside, inside : width, depth, height. front, side : thickness of the wood of each pair. sheet, line : of
    the lining and its glue. bottom : its thickness; up : wood below it; enters : how far it reaches into the wood
    in x and y. cleared : by pair. grows, moves : height of the walls and the bottom (x, y) through the year.
    """

    outside: Point
    inside: Point
    front_mm: float
    side_mm: float
    sheet_mm: float
    line_mm: float
    bottom_mm: float
    up_mm: float
    enters_mm: tuple[float, float]
    cleared: dict[str, Cleared]
    joint: FingerJoint
    grows: ThroughYear
    bottom_moves: tuple[ThroughYear, ThroughYear]

    @property
    def lining_mm(self) -> float:
        return self.sheet_mm + self.line_mm

    def wood_mm(self, pair: str) -> float:
        """Thickness of the wood of that pair."""
        return self.front_mm if pair == FRONT else self.side_mm

    def length_mm(self, pair: str) -> float:
        """Length of the walls of that pair: over the whole outside."""
        return self.outside[0] if pair == FRONT else self.outside[1]

    def other(self, pair: str) -> str:
        return SIDES if pair == FRONT else FRONT

    @property
    def start(self) -> Point:
        """The corner of the inside nearest to the left, the front and the floor."""
        return self.side_mm + self.lining_mm, self.front_mm + self.lining_mm, self.up_mm + self.bottom_mm

    @property
    def bottom_size(self) -> tuple[float, float]:
        """Of the bottom, along x and y."""
        return (
            self.outside[0] - 2 * (self.side_mm - self.enters_mm[0]),
            self.outside[1] - 2 * (self.front_mm - self.enters_mm[1]),
        )


def box_sizes(box: LinedBox, ground: Ground) -> BoxSizes:
    """All sizes. MissingWord for a material the catalogue lacks."""
    front, side = box.walls.thick(FRONT), box.walls.thick(SIDES)
    measured = ground.made.thicknesses.get(box.lining.facing)
    sheet = measured or box.lining.thickness or ground.materials.facing(box.lining.facing).thickness.nominal
    line = GLUE_LINE.nominal
    bottom = (
        ground.thickness_mm(box.bottom.panel.buildup)
        if box.bottom.panel is not None
        else box.bottom.thickness
    )
    more = (2 * (side + sheet + line), 2 * (front + sheet + line), box.bottom.up + bottom)
    given = box.size_mm
    if box.given_inside:
        inside, outside = given, (given[0] + more[0], given[1] + more[1], given[2] + more[2])
    else:
        inside, outside = (given[0] - more[0], given[1] - more[1], given[2] - more[2]), given
    wood = ground.materials.wood(box.walls.wood)
    moves = _bottom_moves(box, ground, inside)
    return BoxSizes(
        outside=outside,
        inside=inside,
        front_mm=front,
        side_mm=side,
        sheet_mm=sheet,
        line_mm=line,
        bottom_mm=bottom,
        up_mm=box.bottom.up,
        enters_mm=(_enters(box, moves[0]), _enters(box, moves[1])),
        cleared=_cleared(box, front, side, sheet + line),
        joint=finger_joint(box.fingers, outside[2]),
        grows=width_through_year(ground.job, wood, outside[2], box.walls.cut),
        bottom_moves=moves,
    )


def _cleared(box: LinedBox, front: float, side: float, lining: float) -> dict[str, Cleared]:
    """By pair: to the other wall's wood, and by the other lining too where this one stops before it."""
    corner, gap = box.lining.corner, box.lining.gap

    def one(pair: str) -> Cleared:
        other = side if pair == FRONT else front
        if corner == "mitred":
            return Cleared(other + gap, other + gap + lining)
        through = corner == ("front runs through" if pair == FRONT else "sides run through")
        reach = other + gap + (0.0 if through else lining)
        return Cleared(reach, reach)

    return {pair: one(pair) for pair in (FRONT, SIDES)}


def _bottom_moves(box: LinedBox, ground: Ground, inside: Point) -> tuple[ThroughYear, ThroughYear]:
    """Change of the bottom along x and y; solid wood lies with its grain along x."""
    from dataclasses import replace

    wide, deep = max(inside[0], 1.0), max(inside[1], 1.0)
    if box.bottom.panel is not None:
        panel = replace(box.bottom.panel, length_mm=wide, width_mm=deep, edges=())
        return panel_through_year(panel, ground)
    wood = ground.materials.wood(box.bottom.wood)
    across = width_through_year(ground.job, wood, deep, box.bottom.cut)
    return ThroughYear(0.0, 0.0, across.status), across


def _enters(box: LinedBox, moves: ThroughYear) -> float:
    """How far the bottom reaches into the wood: the groove less the play, and less half of what it will grow."""
    return box.bottom.groove - max(box.bottom.play, moves.most_mm / 2)


def divider_thickness(one: DividersAsked, ground: Ground) -> float:
    """Of one divider, over everything. [mm]"""
    return ground.thickness_mm(one.panel.buildup) if one.panel is not None else one.thickness


def divided(one: DividersAsked, sizes: BoxSizes, thick: float) -> tuple[float, ...]:
    """Clear widths between dividers of one way, from the left or the front; they close with the inside."""
    room = sizes.inside[0 if one.way == TO_REAR else 1]
    rest = room - one.count * thick - sum(one.clear)
    left = one.count + 1 - len(one.clear)
    return (*one.clear, *([rest / left] * left))
