"""What can only be said of a lined box: its joint, the groove, dividers, and how its walls move and cup."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.lined_box.movement import movement_findings
from evenface.construction.kinds.lined_box.records import PAIRS, LinedBox
from evenface.construction.kinds.lined_box.sizes import (
    GROOVE_LOOSE_MM,
    LEAST_INSIDE_MM,
    BoxSizes,
    box_sizes,
    divider_thickness,
)
from evenface.construction.kinds.lined_box.slips import slips
from evenface.construction.records import Construction
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.units import number_text
from evenface.words import Said, said

LEAST_FINGER_MM: Final = 3.0
"""COMMON PRACTICE: a narrower finger breaks along the grain."""
WOOD_LEFT: Final = 0.4
"""COMMON PRACTICE: at least so much of a wall's thickness stays behind a groove or housing."""
THROUGH_MM: Final = 1.0
"""Own limit: a wall with less left behind a groove or housing is cut through."""
LEAST_UP_MM: Final = 3.0
"""COMMON PRACTICE: wood below the bottom."""


def check(construction: Construction, ground: Ground) -> tuple[Finding, ...]:
    """Findings `box.finger_room`, `box.finger_cutter`, `box.finger_thin`, `box.fingers_even`, `box.groove_deep`,
    `box.groove_stopped`, `box.bottom_shallow`, `box.below_bottom`, `box.housing_shallow`, `box.housing_deep`, and
    those of `slips` and `movement`."""
    box = construction.piece.description
    assert isinstance(box, LinedBox)
    sizes = box_sizes(box, ground)
    if min(sizes.inside) < LEAST_INSIDE_MM:
        return ()
    return (
        *slips(box, sizes),
        *_fingers(box, sizes),
        *_bottom(box, sizes),
        *_housings(box, sizes, ground),
        *movement_findings(box, sizes, ground),
    )


def _fingers(box: LinedBox, sizes: BoxSizes) -> Iterator[Finding]:
    asked, joint, path = box.fingers, sizes.joint, f"{box.origin}.fingers"
    if not joint.fits:
        asked_width = asked.width or joint.width_mm
        yield _told(
            "box.finger_room", Severity.STOP, f"{path}.width", (joint.number - 2) * asked_width, sizes.outside[2],
            said(
                "{number:count} fingers of {width:mm2} leave nothing for the lowest and the highest; they are drawn "
                "equal, {equal:mm2} wide.",
                number=joint.number, width=asked_width, equal=joint.width_mm,
            ),
            _set("box.finger_width", f"{path}.width", asked_width, joint.width_mm, said(
                "Make them {width:mm2} wide, all alike.", width=joint.width_mm)),
        )  # fmt: skip
    slot = joint.width_mm + joint.fit_mm
    if asked.cutter > slot + 1e-9:
        yield _told(
            "box.finger_cutter", Severity.STOP, f"{path}.cutter", asked.cutter, slot,
            said("A cutter of {cutter:mm2} cannot cut a slot of {slot:mm2}.", cutter=asked.cutter, slot=slot),
            _set("box.cutter", f"{path}.cutter", asked.cutter, slot, said(
                "Use one of {slot:mm2} or less.", slot=slot)),
        )  # fmt: skip
    if joint.narrowest_mm < LEAST_FINGER_MM:
        fewer = max(3, int(sizes.outside[2] / LEAST_FINGER_MM) - 2)
        fewer -= 1 - fewer % 2
        yield _told(
            "box.finger_thin", Severity.WEIGH, f"{path}.number", joint.narrowest_mm, LEAST_FINGER_MM,
            said("The narrowest finger is {narrow:mm2} wide: it breaks easily.", narrow=joint.narrowest_mm),
            Remedy("box.fewer", said("Make at most {number:count} fingers of equal width.", number=fewer)),
        )  # fmt: skip
    if joint.number % 2 == 0:
        yield _told(
            "box.fingers_even", Severity.NOTE, f"{path}.number", joint.number, joint.number + 1,
            said("With {number:count} fingers the joint is not alike above and below.", number=joint.number),
            _set("box.odd", f"{path}.number", joint.number, joint.number + 1, said(
                "Make {number:count}.", number=joint.number + 1)), unit="1",
        )  # fmt: skip


def _bottom(box: LinedBox, sizes: BoxSizes) -> Iterator[Finding]:
    asked, path = box.bottom, f"{box.origin}.bottom"
    thinnest = min(sizes.front_mm, sizes.side_mm)
    if thinnest - asked.groove < WOOD_LEFT * thinnest - 1e-9:
        most = int(2 * (1 - WOOD_LEFT) * thinnest) / 2
        through = thinnest - asked.groove < THROUGH_MM
        yield _told(
            "box.groove_deep", Severity.STOP if through else Severity.WEIGH, f"{path}.groove",
            thinnest - asked.groove, WOOD_LEFT * thinnest,
            said(
                "The groove leaves {left:mm} of {thick:mm} wood behind it, and in front of its stopped ends.",
                left=thinnest - asked.groove, thick=thinnest,
            ),
            _set("box.groove", f"{path}.groove", asked.groove, most, said("Cut it {most:mm} deep.", most=most)),
        )  # fmt: skip
    held = min(
        enters + move.least_mm / 2 for enters, move in zip(sizes.enters_mm, sizes.bottom_moves, strict=True)
    )
    if held < 1.5:
        yield _told(
            "box.bottom_shallow", Severity.WEIGH, f"{path}.groove", held, 1.5,
            said("In the dry season {held:mm2} of the bottom stay in the wood of its groove at each edge.", held=held),
            Remedy("box.bottom_still", said("Cut the groove deeper, or take a bottom of plywood.")),
        )  # fmt: skip
    if sizes.up_mm < LEAST_UP_MM:
        yield _told(
            "box.below_bottom", Severity.WEIGH, f"{path}.up", sizes.up_mm, LEAST_UP_MM,
            said("Only {up:mm} of wood stay below the bottom.", up=sizes.up_mm),
            _set("box.up", f"{path}.up", sizes.up_mm, LEAST_UP_MM, said("Leave {up:mm}.", up=LEAST_UP_MM)),
        )  # fmt: skip
    yield from _stopped(box, sizes)


def _stopped(box: LinedBox, sizes: BoxSizes) -> Iterator[Finding]:
    """A groove that crosses a line of the joint is stopped in all four walls."""
    wide, up = sizes.bottom_mm + GROOVE_LOOSE_MM, sizes.up_mm
    if sizes.joint.owner_over(up, up + wide):
        return
    inside = [
        (max(one.low_mm, LEAST_UP_MM), one.high_mm - wide)
        for one in sizes.joint.fingers
        if one.high_mm - wide >= max(one.low_mm, LEAST_UP_MM)
    ]
    remedies: tuple[Remedy, ...] = ()
    if inside:
        new = min((min(max(up, low), high) for low, high in inside), key=lambda at: abs(at - up))
        text = said(
            "Set the bottom {up:mm2} above the lower edge: its groove then lies in one finger.", up=new
        )
        remedies = (_set("box.in_finger", f"{box.origin}.bottom.up", up, new, text),)
    yield Finding(
        code="box.groove_stopped", severity=Severity.NOTE, origin=f"{box.origin}.bottom.up", at="groove",
        message=said(
            "The groove crosses from one finger into the next, so it is stopped in all four walls; within one finger "
            "two walls could be grooved right through."
        ), source="sum of the sizes", remedies=remedies,
    )  # fmt: skip


def _housings(box: LinedBox, sizes: BoxSizes, ground: Ground) -> Iterator[Finding]:
    for one in box.dividers:
        if one.held != "housed":
            continue
        path, wood = f"{one.origin}.depth", one.depth - sizes.lining_mm
        walls = [sizes.wood_mm(pair) for pair in PAIRS]
        wall = walls[0] if one.way == "front to rear" else walls[1]
        if wood < 1.0:
            new = sizes.lining_mm + 1.5
            yield _told(
                "box.housing_shallow", Severity.WEIGH, path, one.depth, sizes.lining_mm + 1.0,
                said(
                    "A housing {deep:mm2} deep hardly reaches through the lining of {lining:mm2}: the divider leans on "
                    "the lining alone.",
                    deep=one.depth, lining=sizes.lining_mm,
                ),
                _set("box.housing", path, one.depth, new, said("Cut it {deep:mm2} deep.", deep=new)),
            )  # fmt: skip
        if wall - wood < WOOD_LEFT * wall:
            most = int(2 * (sizes.lining_mm + (1 - WOOD_LEFT) * wall)) / 2
            through = wall - wood < THROUGH_MM
            yield _told(
                "box.housing_deep", Severity.STOP if through else Severity.WEIGH, path, wall - wood, WOOD_LEFT * wall,
                said("The housing leaves {left:mm2} of {wall:mm} wood behind it.", left=wall - wood, wall=wall),
                _set("box.housing", path, one.depth, most, said("Cut it {deep:mm2} deep.", deep=most)),
            )  # fmt: skip
        if divider_thickness(one, ground) < 3.0:
            yield _told(
                "box.divider_thin", Severity.NOTE, f"{one.origin}.thickness", divider_thickness(one, ground), 3.0,
                said("A divider so thin needs a cutter of its own for its housing."),
            )  # fmt: skip


def _set(code: str, path: str, old: float, new: float, message: Said) -> Remedy:
    return Remedy(code, message, (Change(path, number_text(old, 2), number_text(new, 2)),))


def _told(
    code: str,
    severity: Severity,
    origin: str,
    value: float,
    limit: float,
    message: Said,
    *remedies: Remedy,
    unit: str = "mm",
) -> Finding:
    return Finding(
        code=code, severity=severity, origin=origin, at=origin.rsplit(".", 1)[-1], value=certain(value), limit=limit,
        unit=unit, message=message, source="sum of the sizes, limits by common practice", weakest=Status.PRACTICE,
        remedies=remedies,
    )  # fmt: skip
