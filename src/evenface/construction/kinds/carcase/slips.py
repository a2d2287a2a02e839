"""What cannot be made as asked, or hardly: too deep, too loose, too close; each told with what to do instead."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.kinds.carcase.around import plinth_mm
from evenface.construction.kinds.carcase.fronts import lap_mm
from evenface.construction.kinds.carcase.joints import meets_across
from evenface.construction.kinds.carcase.room import LEAST_MM, Cell, Limit
from evenface.construction.kinds.carcase.shell import LOOSE_PLAY_MM, Laying, shelf_front_mm
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.words import NOTHING, Said, said

HALF: Final = 0.5
"""COMMON PRACTICE: a housing or groove takes at most half of the board."""
HELD_MM: Final = 3.0
"""COMMON PRACTICE: what a back reaches into its seat, or over the edges it is screwed to, at least."""
LAP_MM: Final = 5.0
"""Own limit: what an overlay front reaches over the edge of its opening, at least."""


def slips(laying: Laying) -> Iterator[Finding]:
    """Findings `carcase.groove_deep`, `housing_deep`, `housings_meet`, `screws_behind_shelf`, `back_loose`,
    `rail_high`, `plinth_shallow`, `shelves_close`, `shelf_shallow`, `no_air`, and `front.no_lap`."""
    yield from _deep_in(laying)
    yield from _back_to_back(laying)
    yield from _behind_shelf(laying)
    yield from _back(laying)
    yield from _rail(laying)
    yield from _plinth(laying)
    for cell in laying.room.cells:
        yield from _shelves(laying, cell)
    yield from _laps(laying)
    yield from _air(laying)


def _deep_in(laying: Laying) -> Iterator[Finding]:
    """Grooves, rebates and housings that take more than half of the thinnest board, or all of it."""
    carcase, room = laying.carcase, laying.room
    thinnest = min(room.thick.left, room.thick.right, room.thick.top, room.thick.bottom)
    if carcase.back is not None and carcase.back.how != "rear" and carcase.back.depth > thinnest * HALF:
        yield _deep(laying, "carcase.groove_deep", "back.depth", carcase.back.depth, thinnest)
    for key, joining in (("joint", carcase.joint), ("shelf_joint", carcase.shelf_joint)):
        if joining.kind == "housing" and joining.depth > thinnest * HALF:
            yield _deep(laying, "carcase.housing_deep", f"{key}.depth", joining.depth, thinnest)


def _back_to_back(laying: Laying) -> Iterator[Finding]:
    """Housings of two shelves at one height, from both sides of a divider."""
    room, deep = laying.room, laying.carcase.shelf_joint.enters_mm
    if deep == 0.0 or 2 * deep <= room.thick.divider * HALF + 1e-9:
        return
    if any(cell.below.kind == "partition" and meets_across(room, cell, 1) for cell in room.cells):
        yield _deep(laying, "carcase.housings_meet", "shelf_joint.depth", 2 * deep, room.thick.divider)


def _deep(laying: Laying, code: str, key: str, deep: float, thick: float) -> Finding:
    least = round(thick / 3 if "meet" not in code else thick / 4, 1)
    path = f"{laying.carcase.origin}.{key}"
    given = deep if "meet" not in code else deep / 2
    through = deep >= thick - 1.0
    return Finding(
        code=code, severity=Severity.STOP if through else Severity.WEIGH, origin=path, value=certain(deep),
        limit=thick * HALF, unit="mm",
        message=said(
            "{deep:mm} is taken out of a board {thick:mm} thick: nothing is left of it there.", deep=deep, thick=thick
        ) if through else said(
            "{deep:mm} is taken out of a board {thick:mm} thick: more than half.", deep=deep, thick=thick
        ),
        why=said("What is left breaks out when the carcase is knocked together or racked."),
        source="common practice: a third to a half of the board", weakest=Status.PRACTICE,
        remedies=(
            Remedy(
                "carcase.shallower", said("Make it {least:mm} deep.", least=least),
                (Change(path, f"{given:g}", f"{least:g}"),),
            ),
        ),
    )  # fmt: skip


def _behind_shelf(laying: Laying) -> Iterator[Finding]:
    """Screws through a divider into a shelf, where the shelf of the next bay stands before them."""
    room = laying.room
    if laying.carcase.shelf_joint.kind != "screw":
        return
    for cell in room.cells:
        if cell.below.kind != "partition" or not meets_across(room, cell, 1):
            continue
        yield _told(
            "carcase.screws_behind_shelf", f"{laying.carcase.origin}.shelf_joint", (None, 0.0), said(
                "The fixed shelves of bays {one:count} and {other:count} stand against one divider at nearly the same "
                "height: each is in the way of the other's screws.",
                one=cell.bay + 1, other=cell.bay + 2,
            ),
            Remedy("carcase.dowelled_shelf", said("Join the shelves with dowels, tongues or in housings.")),
            Remedy(
                "carcase.shelf_apart", said("Set one at least {apart:mm} higher or lower.", apart=room.thick.shelf)
            ),
        )  # fmt: skip


def _back(laying: Laying) -> Iterator[Finding]:
    """A back that would slip out of its seat, or through the carcase it is screwed to."""
    back, thick = laying.carcase.back, laying.room.thick
    if back is None:
        return
    rear = back.how == "rear"
    held = (
        min(thick.left, thick.right, thick.top, thick.bottom) - back.shy if rear else back.depth - back.play
    )
    if held >= HELD_MM:
        return
    key, given, usual = ("shy", back.shy, 2.0) if rear else ("play", back.play, 1.0)
    remedies = [Remedy("carcase.back_wider", said("Make the back larger, or its seat deeper."))]
    if held + given - usual >= HELD_MM:
        path = f"{laying.carcase.origin}.back.{key}"
        text = said("Leave {air:mm} there.", air=usual)
        remedies.insert(0, Remedy("carcase.back_air", text, (Change(path, f"{given:g}", f"{usual:g}"),)))
    yield _told(
        "carcase.back_loose", f"{laying.carcase.origin}.back.{key}", (held, HELD_MM), said(
            "The back reaches {held:mm} over the edges of the carcase." if rear
            else "The back reaches {held:mm} into its groove or rebate.", held=held,
        ), *remedies, severity=Severity.STOP if held <= 0.0 else Severity.WEIGH,
    )  # fmt: skip


def _rail(laying: Laying) -> Iterator[Finding]:
    rail, (low, high) = laying.carcase.hanging_rail, laying.room.inner_z
    if rail is not None and rail.height > high - low:
        path = f"{laying.carcase.origin}.hanging_rail.height"
        new = min(80.0, float(int((high - low) / 2)))
        yield _told(
            "carcase.rail_high", path, (rail.height, high - low), said(
                "A hanging rail {height:mm} high does not go between top and bottom: {clear:mm} is clear.",
                height=rail.height, clear=high - low,
            ),
            Remedy("carcase.lower_rail", said("Make it {height:mm} high.", height=new),
                   (Change(path, f"{rail.height:g}", f"{new:g}"),)),
        )  # fmt: skip


def _plinth(laying: Laying) -> Iterator[Finding]:
    plinth, (front, rear) = laying.carcase.plinth, laying.room.y
    if plinth is None:
        return
    ends = rear - front - plinth.setback - 2 * plinth_mm(laying, plinth)
    if ends < LEAST_MM:
        yield _told(
            "carcase.plinth_shallow", f"{laying.carcase.origin}.plinth.setback", (ends, LEAST_MM), said(
                "Behind the setback of {setback:mm} the ends of the plinth would be {ends:mm} long.",
                setback=plinth.setback, ends=ends,
            ), Remedy("carcase.plinth_forward", said("Set it less far back, or make it of thinner board.")),
        )  # fmt: skip


def _shelves(laying: Laying, cell: Cell) -> Iterator[Finding]:
    """Loose shelves too close to put anything on, or without depth."""
    count, thick = cell.row.shelves, laying.room.thick.shelf
    if count == 0 or cell.row.what == "drawers":
        return
    free = (cell.height_mm - count * thick) / (count + 1)
    if free < LEAST_MM:
        most = max(int((cell.height_mm - LEAST_MM) / (thick + LEAST_MM)), 0)
        path = f"{cell.row.origin}.shelves"
        yield _told(
            "carcase.shelves_close", path, (free, LEAST_MM), said(
                "{count:count} shelves leave {free:mm} between them.", count=count, free=free
            ),
            Remedy("carcase.fewer_shelves", said("At most {most:count}.", most=most),
                   (Change(path, str(count), str(most)),)),
        )  # fmt: skip
    deep = shelf_depth_mm(laying, cell)
    if deep < LEAST_MM:
        yield _told(
            "carcase.shelf_shallow", f"{laying.carcase.origin}.shelf_setback", (deep, LEAST_MM), said(
                "Behind fronts and setback {deep:mm} is left for a loose shelf.", deep=deep
            ), Remedy("carcase.less_setback", said("Set the shelves less far back, or make the carcase deeper.")),
        )  # fmt: skip


def shelf_depth_mm(laying: Laying, cell: Cell) -> float:
    """Depth of a loose shelf of that row. [mm]"""
    return laying.room.back_y - LOOSE_PLAY_MM - shelf_front_mm(laying, cell)


def _laps(laying: Laying) -> Iterator[Finding]:
    """Overlay fronts that hardly reach over the edge of their opening, each side of the carcase once."""
    fronts = laying.carcase.fronts
    if fronts is None or fronts.inset:
        return
    told: set[str] = set()
    for cell in laying.room.cells:
        sides: tuple[tuple[str, Limit], ...] = (
            ("left", cell.left), ("right", cell.right), ("bottom", cell.below), ("top", cell.above),
        )  # fmt: skip
        for side, limit in sides if cell.row.closed else ():
            own = limit.kind == "outer" and (fronts.lie == "overlay" or side in fronts.told)
            key = side if own else "gap"
            lap = lap_mm(fronts, limit, side)
            if limit.kind == "line" or lap >= LAP_MM or key in told:
                continue
            told.add(key)
            given = fronts.between if key == "gap" else float(getattr(fronts, side))
            new = 3.0 if key == "gap" else 1.5
            path = f"{laying.carcase.origin}.fronts.{key}"
            remedies: tuple[Remedy, ...] = (
                Remedy("front.thicker", said("Make {part} thicker, or let the fronts in.", part=limit.part)),
            )
            if lap + (given - new) / (2 if key == "gap" else 1) >= LAP_MM:
                text = said("Leave {air:mm} there.", air=new)
                remedies = (Remedy("front.air", text, (Change(path, f"{given:g}", f"{new:g}"),)), *remedies)
            yield _told(
                "front.no_lap", path, (lap, LAP_MM), said(
                    "The fronts reach {lap:mm} over the edge of {part}.", lap=lap, part=limit.part
                ), *remedies, severity=Severity.STOP if lap <= 0.0 else Severity.WEIGH,
            )  # fmt: skip


def _air(laying: Laying) -> Iterator[Finding]:
    """A carcase quite as wide as the place it goes into."""
    carcase = laying.carcase
    if carcase.fitted and not (carcase.scribe.left or carcase.scribe.right):
        yield _told(
            "carcase.no_air", f"{carcase.origin}.opening", (0.0, 1.0), said(
                "It is as wide as its opening, {width:mm}, with no strip to plane to the wall: it will not slide in.",
                width=carcase.size_mm[0],
            ),
            Remedy("carcase.scribe", said("Leave 10 mm and more at each wall for a strip planed to it.")),
            Remedy("carcase.size", said("Or give the size of the carcase itself, smaller than its place.")),
            why=said("Walls are never true."), severity=Severity.WEIGH,
        )  # fmt: skip


def _told(
    code: str,
    origin: str,
    value_limit: tuple[float | None, float],
    message: Said,
    *remedies: Remedy,
    why: Said = NOTHING,
    severity: Severity = Severity.STOP,
) -> Finding:
    value, limit = value_limit
    return Finding(
        code=code, severity=severity, origin=origin, value=None if value is None else certain(value),
        limit=None if value is None else limit, unit="" if value is None else "mm", message=message, why=why,
        source="sum of the sizes, limits by common practice", weakest=Status.PRACTICE, remedies=remedies,
    )  # fmt: skip
