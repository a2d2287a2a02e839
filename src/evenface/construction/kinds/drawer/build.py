"""A drawer of its own built: the front before or in its opening, and the box behind it.

The piece begins at the face of the front, or of the box where there is none, at its left and lowest edge.
"""

from collections.abc import Iterator
from typing import Final

from evenface.construction.drawers.build import APART_MM, FRONT_SCREWS, build_box
from evenface.construction.drawers.records import DrawerPlace
from evenface.construction.gaps_through_year import panel_through_year
from evenface.construction.gathering import Heap, Standing, gathered
from evenface.construction.ground import Ground
from evenface.construction.holes_meet import holes_meet
from evenface.construction.kinds.drawer.records import Front, LoneDrawer
from evenface.construction.placed import Assembly, Axis, Chain, Gap, Placement
from evenface.construction.standing_panels import panel_standing
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.piece.records import Hold, Panel, Side
from evenface.words import said

FRONT: Final = "drawer front 1"
LEAST_FRONT_MM: Final = 40.0


def build(drawer: LoneDrawer, ground: Ground) -> Assembly:
    """The whole drawer. Where its opening leaves no room, what there is of it and the findings that say so."""
    front, (wide, high, deep) = drawer.front, drawer.opening_mm
    heap = Heap()
    if front is not None and min(wide, high) + 2 * front.beyond_mm < LEAST_FRONT_MM:
        small = _too_small(drawer, min(wide, high) + 2 * front.beyond_mm)
        return Assembly(panels=(), findings=(small,), size_mm=(wide, deep, high))
    thick = ground.thickness_mm(drawer.patterns["drawer front"].buildup) if front else 0.0
    place = _place(drawer, ground, thick)
    if front is not None:
        heap.standing.append(_stand_front(drawer, front, place))
    build_box(place, heap)
    if front is not None:
        part = heap.of(FRONT).part
        assert isinstance(part, Panel)
        if front.lie == "inset":
            heap.gaps += _gaps_round(front, part, ground, drawer.origin)
        heap.chains[:0] = _rows(drawer, front)
    if not heap.standing:
        return Assembly(panels=(), findings=tuple(heap.findings), size_mm=(wide, deep, high))
    heap.findings += holes_meet(heap)
    corners = [one.box[1] for one in heap.standing]
    x, y, z = (max(corner[n] for corner in corners) for n in range(3))
    return gathered(heap, (x, y, z))


def _place(drawer: LoneDrawer, ground: Ground, thick: float) -> DrawerPlace:
    """The opening, moved so that what stands farthest to the left and lowest begins at 0."""
    front, (wide, high, deep) = drawer.front, drawer.opening_mm
    beyond = front.beyond_mm if front is not None else -deep
    x, z = max(beyond, -drawer.box.clearance), max(beyond, -drawer.box.below)
    ends = deep
    if front is not None:
        ends += -front.shy if front.lie == "inset" else thick + front.stand_off
    return DrawerPlace(
        number=1,
        asked=drawer.box,
        patterns=drawer.patterns,
        ground=ground,
        inside=drawer.inside,
        origin=f"{drawer.origin}.drawer",
        row_origin=drawer.origin,
        x=(x, x + wide),
        z=(z, z + high),
        begins_y=thick,
        ends_y=ends,
        ahead=(("drawer front", thick),) if front is not None else (),
        front_key=FRONT if front is not None else "",
        aside_mm=wide + 2 * APART_MM,
    )


def _stand_front(drawer: LoneDrawer, front: Front, place: DrawerPlace) -> Standing:
    """Edged all round; its grain across, or upright."""
    (x0, x1), (z0, z1) = ((low - front.beyond_mm, high + front.beyond_mm) for low, high in (place.x, place.z))
    y, apart = place.begins_y, (0.0, -3 * APART_MM, 0.0)
    size, at = (x1 - x0, z1 - z0), Placement(FRONT, (x0, y, z0), Axis.RIGHT, Axis.UP, apart)
    if front.grain == "upright":
        size, at = size[::-1], Placement(FRONT, (x0, y, z1), Axis.DOWN, Axis.RIGHT, apart)
    origin = f"{drawer.origin}.front"
    return panel_standing(
        place.ground, drawer.patterns["drawer front"], FRONT, "drawer front", size, at, tuple(Side),
        climate_bottom=drawer.inside, hold=Hold("screwed", FRONT_SCREWS, origin), origin=origin,
    )  # fmt: skip


def _gaps_round(front: Front, panel: Panel, ground: Ground, origin: str) -> Iterator[Gap]:
    """Air round an inset front; it grows from its middle."""
    along, across = panel_through_year(panel, ground)
    wide, high = (across, along) if front.grain == "upright" else (along, across)
    for side, axis, moves in (
        ("left", Axis.LEFT, wide),
        ("right", Axis.RIGHT, wide),
        ("top", Axis.UP, high),
        ("bottom", Axis.DOWN, high),
    ):
        half = moves.over(0.5)
        yield Gap(
            f"drawer front, {side}", axis, front.gap, (FRONT, "outside"),
            front.gap - half.most_mm, front.gap - half.least_mm,
            said("So that fronts pass each other and what they lie in all the year."), f"{origin}.front",
        )  # fmt: skip


def _rows(drawer: LoneDrawer, front: Front) -> list[Chain]:
    """What front and opening have to do with each other, across and upright."""
    wide, high, _ = drawer.opening_mm
    by = front.beyond_mm
    rows = []
    for name, axis, size in (
        ("width at the front", Axis.RIGHT, wide),
        ("height at the front", Axis.UP, high),
    ):
        if front.lie == "inset":
            members = (("gap", -by), ("drawer front", size + 2 * by), ("gap", -by))
            rows.append(Chain(name, axis, members, size))
        else:
            over = (("over the opening", by), ("opening", size), ("over the opening", by))
            rows.append(Chain(name, axis, over, size + 2 * by))
    return rows


def _too_small(drawer: LoneDrawer, size: float) -> Finding:
    return Finding(
        code="drawer.front_small", severity=Severity.STOP, origin=f"{drawer.origin}.opening", at="front",
        value=certain(size), limit=LEAST_FRONT_MM, unit="mm",
        message=said(
            "The front would be {size:mm} wide or high; {least:mm} is the least there can be.",
            size=size, least=LEAST_FRONT_MM,
        ), source="sum of the sizes",
        remedies=(Remedy("drawer.wider", said("Give the opening as it is clear, or leave less air round the front.")),),
    )  # fmt: skip
