"""Boxes of drawers built: sides, box front and back, bottom in its groove, runners, and the air they run in."""

from dataclasses import replace
from typing import Final

from evenface.construction.drawers.records import DrawerPlace
from evenface.construction.drawers.sizes import Box, box_of, front_screw_mm
from evenface.construction.fastenings import join
from evenface.construction.gathering import Heap, Standing
from evenface.construction.panel_mass import mass_of, mass_of_board
from evenface.construction.placed import Axis, Board, Chain, Fitting, Gap, Joint, Placement, Worked
from evenface.construction.standing_panels import board_standing, panel_standing
from evenface.piece.records import Hold, Panel, Side
from evenface.words import NOTHING, Said, said

FRONT_SCREWS: Final = 4
APART_MM: Final = 150.0
BOTTOM_PLAY_MM: Final = 0.5
GROOVE_LOOSE_MM: Final = 0.2
LONG_MM: Final = 64.0
WASHER_MM: Final = 12.0
"""COMMON PRACTICE: diameter of the washer of a screw of 4 mm."""


def build_box(place: DrawerPlace, heap: Heap) -> None:
    """The box of one drawer; its front, where it has one, stands in the heap already."""
    box, told = box_of(place)
    heap.findings += told
    if box is None:
        return
    _boards(heap, box)
    _joints(heap, box)
    _runner_lines(heap, box)
    _fittings(heap, box)
    _gaps(heap, box)
    heap.chains += _chains(box)


def _key(box: Box, what: str) -> str:
    return f"drawer {box.place.number} {what}"


def _boards(heap: Heap, box: Box) -> None:
    drawer = box.place.asked
    (x0, x1), (y0, y1), (z0, z1) = box.x, box.y, box.z
    side, deep = box.side_mm, drawer.joint.enters_mm
    inner = box.inner_mm + 2 * deep
    back_z = z0 + drawer.up + box.bottom_mm
    apart = (0.0, -2 * APART_MM, 0.0)
    label = f"drawer {box.place.number}"
    for what, base, size, placement in (
        ("side left", "drawer side left", (box.length_mm, box.height_mm),
         Placement("", (x0 + side, y1, z0), Axis.FRONT, Axis.UP, apart, label)),
        ("side right", "drawer side right", (box.length_mm, box.height_mm),
         Placement("", (x1 - side, y0, z0), Axis.REAR, Axis.UP, apart, label)),
        ("box front", "drawer box front", (inner, box.height_mm),
         Placement("", (x0 + side - deep, y0 + side, z0), Axis.RIGHT, Axis.UP, apart, label, deep > 0)),
        ("box back", "drawer box back", (inner, z1 - back_z),
         Placement("", (x1 - side + deep, y1 - side, back_z), Axis.LEFT, Axis.UP, apart, label, deep > 0)),
    ):  # fmt: skip
        key = _key(box, what)
        made = _upright(box, key, base, size, replace(placement, part=key))
        heap.standing.append(replace(made, which=str(box.place.number)))
    bottom = _bottom(box, apart, label)
    heap.standing.append(replace(bottom, which=str(box.place.number)))


def _upright(box: Box, key: str, base: str, size: tuple[float, float], at: Placement) -> Standing:
    """A side, front or back of the box: of the build-up, its upper edge edged, or a board."""
    drawer = box.place.asked
    origin = box.place.origin
    if not drawer.wood:
        inside = box.place.inside
        return panel_standing(
            box.place.ground, box.place.patterns["drawer side"],
            key, base, size, at, (Side.REAR,), climate_top=inside, climate_bottom=inside,
            hold=Hold("screwed", 4, origin), origin=origin,
        )  # fmt: skip
    reasons: tuple[Said, ...] = ()
    if base.startswith("drawer side"):
        reasons = (
            said(
                "Height {height:mm}: opening less {above:mm} above and {below:mm} below.",
                height=size[1],
                above=box.above_mm,
                below=box.z[0] - box.place.z[0],
            ),
        )
    else:
        reasons = (
            said(
                "Length {length:mm}: opening less twice the runner's {clearance:mm} and twice the side's {side:mm}"
                "{more}.",
                length=size[0],
                clearance=drawer.clearance,
                side=box.side_mm,
                more=said(", and twice the housing's {deep:mm}", deep=drawer.joint.enters_mm)
                if drawer.joint.enters_mm
                else NOTHING,
            ),
        )
    board = Board(
        base,
        1,
        drawer.wood,
        size[0],
        size[1],
        drawer.thickness,
        drawer.cut,
        "drawer",
        reasons=reasons,
        origin=origin,
    )
    return board_standing(key, base, board, at)


def _bottom(box: Box, apart: tuple[float, float, float], label: str) -> Standing:
    """In a groove of the sides and of the box front, under the back; a solid one with room to grow behind."""
    drawer = box.place.asked
    key = _key(box, "bottom")
    enters = drawer.groove - BOTTOM_PLAY_MM
    x0, x1 = box.x[0] + box.side_mm - enters, box.x[1] - box.side_mm + enters
    y0 = box.y[0] + box.side_mm - enters
    y1 = box.y[1] - box.bottom_moves.most_mm
    # below it the next drawer would hide it: it goes past the right side of the piece
    beside = box.place.aside_mm
    at = Placement(
        key,
        (x0, y0, box.z[0] + drawer.up),
        Axis.RIGHT,
        Axis.REAR,
        (beside, apart[1], 0.0),
        label,
        True,
    )
    origin = box.place.origin
    if drawer.bottom_wood:
        board = Board(
            "drawer bottom", 1, drawer.bottom_wood, x1 - x0, y1 - y0, box.bottom_mm, use="bottom",
            reasons=(
                said(
                    "Grain from side to side; {air:mm} short of the rear so that it can grow, screwed to the back "
                    "through a slot.",
                    air=box.bottom_moves.most_mm,
                ),
            ), origin=origin,
        )  # fmt: skip
        return board_standing(key, "drawer bottom", board, at)
    inside = box.place.inside
    return panel_standing(
        box.place.ground, box.place.patterns["drawer bottom"],
        key, "drawer bottom", (x1 - x0, y1 - y0), at, climate_top=inside, climate_bottom=inside,
        hold=Hold("groove", 0, origin), origin=origin,
    )  # fmt: skip


def _joints(heap: Heap, box: Box) -> None:
    drawer = box.place.asked
    origin = f"{box.place.origin}.joint"
    joint = (
        replace(drawer.joint, every=min(drawer.joint.every, LONG_MM))
        if drawer.joint.kind != "housing"
        else drawer.joint
    )
    left, right = _key(box, "side left"), _key(box, "side right")
    front, back = _key(box, "box front"), _key(box, "box back")
    # the box front is grooved for the bottom: what joins it to the sides begins above the groove
    clear = replace(joint, low=drawer.up + box.bottom_mm + GROOVE_LOOSE_MM)
    join(heap, clear, left, front, Side.LEFT, origin)
    join(heap, clear, right, front, Side.RIGHT, origin)
    above = replace(joint, low=GROOVE_LOOSE_MM)
    join(heap, above, right, back, Side.LEFT, origin)
    join(heap, above, left, back, Side.RIGHT, origin)
    (x0, x1), (y0, y1), z = box.x, box.y, box.z[0] + drawer.up
    enters = drawer.groove - BOTTOM_PLAY_MM
    seats = (
        (left, (x0 + box.side_mm, y0, z), (x0 + box.side_mm, y1, z), box.length_mm),
        (right, (x1 - box.side_mm, y0, z), (x1 - box.side_mm, y1, z), box.length_mm),
        (front, (x0, y0 + box.side_mm, z), (x1, y0 + box.side_mm, z), heap.of(front).part.length_mm),
    )
    for key, start, end, long in seats:
        heap.joints.append(
            Joint(
                "groove", (key, _key(box, "bottom")), start, end, enters_mm=enters, glued=not drawer.bottom_wood,
                moves=bool(drawer.bottom_wood), name=f"{key} bottom", origin=origin,
            )
        )  # fmt: skip
        wide = box.bottom_mm + GROOVE_LOOSE_MM
        heap.worked.append(
            Worked(
                key, "groove", "bottom", drawer.groove, 0.0, drawer.up, long, drawer.up + wide,
                joint=f"{key} bottom", said=said(
                    "Groove for the bottom {wide:mm} wide and {deep:mm} deep, {up:mm} above the lower edge, inside.",
                    wide=wide, deep=drawer.groove, up=drawer.up,
                ), origin=origin,
            )
        )  # fmt: skip
    if box.place.front_key:
        _front_screws(heap, box, origin)


def _front_screws(heap: Heap, box: Box, origin: str) -> None:
    """The front is screwed on from inside the box, through holes with play so that it can be set."""
    key, inner = box.place.front_key, heap.of(_key(box, "box front"))
    length, width = inner.part.length_mm, inner.part.width_mm
    # the washers of the lower ones clear the bottom in its groove
    low = max(0.3 * width, box.place.asked.up + box.bottom_mm + GROOVE_LOOSE_MM + WASHER_MM / 2 + 1.0)
    high = min(max(0.7 * width, low + WASHER_MM), width - WASHER_MM / 2)
    centres = tuple((round(length * a, 6), round(at, 6)) for a in (0.2, 0.8) for at in (low, high))
    (x0, _), y, z = box.x, box.y[0], box.z[0]
    heap.joints.append(
        Joint(
            "screw", (key, inner.key), (x0, y, z), (box.x[1], y, z), number=FRONT_SCREWS, glued=False,
            name=f"{key} on its box", origin=origin,
        )
    )  # fmt: skip
    heap.worked.append(
        Worked(
            inner.key, "screw holes", "bottom", box.side_mm, diameter_mm=6.0, centres=centres,
            joint=f"{key} on its box", said=said(
                "{count:count} holes Ø {hole:mm} for screws with washers, so that the front can be set to its gaps.",
                count=FRONT_SCREWS, hole=6.0,
            ), origin=origin,
        )
    )  # fmt: skip


def _runner_lines(heap: Heap, box: Box) -> None:
    """The middle of each runner on the side of the case, at half the height of the box."""
    half = box.height_mm / 2
    y0, y1, z = box.y[0], box.y[1], box.z[0] + half
    for key, x in ((box.place.left, box.place.x[0]), (box.place.right, box.place.x[1])):
        case = next((one for one in heap.standing if one.key == key), None)
        if case is None:
            continue
        ends = [case.local((x, y, z)) for y in (y0, y1)]
        xs, ys = (sorted(round(end[way], 6) for end in ends) for way in (0, 1))
        heap.worked.append(
            Worked(
                key, "runner line", "bottom" if ends[0][2] < case.thickness_mm / 2 else "top", 0.0,
                xs[0], ys[0], xs[1], ys[1], joint=_key(box, "runner"), said=said(
                    "Middle of the runner of drawer {number:count}; on the side of the drawer {half:mm} above its "
                    "lower edge, from its front end.",
                    number=box.place.number, half=half,
                ), origin=f"{box.place.origin}.runner",
            )
        )  # fmt: skip


def _fittings(heap: Heap, box: Box) -> None:
    drawer = box.place.asked
    mass = 0.0
    for one in heap.standing:
        if one.key.startswith(f"drawer {box.place.number} ") or one.key == box.place.front_key:
            part = one.part
            mass += (
                mass_of(part, box.place.ground)
                if isinstance(part, Panel)
                else mass_of_board(part, box.place.ground)
            )
    origin = f"{box.place.origin}.runner"
    heap.fittings.append(
        Fitting(
            f"pair of {drawer.runner}s", 1, said(
                "{length:mm} long, {clearance:mm} each side", length=box.length_mm, clearance=drawer.clearance
            ), (_key(box, "side left"), _key(box, "side right")),
            why=_about_runners(heap, box, round(mass, 1)),
            origin=origin,
        )
    )  # fmt: skip
    if box.place.front_key:
        heap.fittings.append(
            Fitting(
                "round-head screw with washer", FRONT_SCREWS,
                said("4 × {long:mm}", long=front_screw_mm(box.side_mm, box.place.ahead[-1][1])),
                (box.place.front_key,), why=said("Fronts on their boxes."), origin=origin,
            )
        )  # fmt: skip


def _about_runners(heap: Heap, box: Box, mass: float) -> Said:
    """What the drawer weighs; where nothing of the case is ours to mark, also where the runners go."""
    told = said("One pair for each drawer; empty it weighs {mass:kg}.", mass=mass)
    if any(one.key == box.place.left for one in heap.standing):
        return told
    half = box.height_mm / 2
    return said(
        "{told} Their middle {half:mm} above the lower edge of the sides, {up:mm} above the lower edge of the opening, "
        "beginning {back:mm} behind its front.",
        told=told, half=half, up=box.z[0] - box.place.z[0] + half, back=box.y[0],
    )  # fmt: skip


def _gaps(heap: Heap, box: Box) -> None:
    drawer = box.place.asked
    side, origin = _key(box, "side left"), box.place.row_origin
    heap.gaps.append(
        Gap(
            f"above drawer {box.place.number}", Axis.UP, box.above_mm, (side, box.place.above),
            box.above_mm - box.moves.most_mm, box.above_mm - box.moves.least_mm,
            said("So that the sides can swell and the drawer be tipped out."), origin,
        )
    )  # fmt: skip
    for what, axis, limit in (
        ("left", Axis.LEFT, box.place.left),
        ("right", Axis.RIGHT, box.place.right),
    ):
        heap.gaps.append(
            Gap(
                f"{what} of drawer {box.place.number}", axis, drawer.clearance, (_key(box, f"side {what}"), limit),
                why=said("What the runner takes."), origin=origin,
            )
        )  # fmt: skip
    if drawer.bottom_wood:
        most = box.bottom_moves.most_mm
        heap.gaps.append(
            Gap(
                f"behind the bottom of drawer {box.place.number}", Axis.REAR, most, (_key(box, "bottom"), "outside"),
                0.0, most - box.bottom_moves.least_mm, said("So that a solid bottom can grow."), origin,
            )
        )  # fmt: skip


def _chains(box: Box) -> list[Chain]:
    name, place, drawer = f"drawer {box.place.number}", box.place, box.place.asked
    inner = box.inner_mm
    rest = place.ends_y - sum(size for _, size in place.ahead) - box.length_mm
    return [
        Chain(
            f"{name}, width", Axis.RIGHT, (
                ("gap", drawer.clearance), ("side", box.side_mm), ("box front", inner), ("side", box.side_mm),
                ("gap", drawer.clearance),
            ), place.x[1] - place.x[0],
        ),
        Chain(
            f"{name}, height", Axis.UP, (
                ("gap", drawer.below), ("side", box.height_mm), ("gap", box.above_mm),
            ), box.place.z[1] - box.place.z[0],
        ),
        Chain(
            f"{name}, depth", Axis.REAR,
            (*place.ahead, ("side", box.length_mm), ("gap", rest)), place.ends_y,
        ),
    ]  # fmt: skip
