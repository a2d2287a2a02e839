"""Whether plate and cup of every hinge find their place: clear of what bounds the opening, and of a let-in grip."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.gathering import Standing
from evenface.construction.hinges import CUP, CUP_DEPTH_MM, Hanging
from evenface.construction.kinds.carcase.fronts import Front
from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.piece.records import Panel
from evenface.words import said

PLATE_HALF_MM: Final = 30.0
"""COMMON PRACTICE: a hinge plate takes up so much above and below its middle."""


def cup_places(front: Front, stood: Standing, hung: Hanging) -> Iterator[Finding]:
    """Findings `hinge.no_place` and `hinge.at_grip`."""
    cell, low, high = front.cell, front.z[0] + hung.at_mm[0], front.z[0] + hung.at_mm[-1]
    beside = [low - cell.z[0]] if cell.below.kind != "line" else []
    beside += [cell.z[1] - high] if cell.above.kind != "line" else []
    clear = min(beside, default=PLATE_HALF_MM)
    if clear < PLATE_HALF_MM:
        yield Finding(
            code="hinge.no_place", severity=Severity.STOP, origin=front.cell.row.origin, part=front.key,
            value=certain(clear), limit=PLATE_HALF_MM, unit="mm",
            message=said(
                "On a door {height:mm} high the middle of a hinge comes {clear:mm} from what bounds the opening; its "
                "plate takes {half:mm}.",
                height=front.height_mm, clear=clear, half=PLATE_HALF_MM,
            ), source="common practice", weakest=Status.PRACTICE,
            remedies=(
                Remedy("hinge.higher_door", said("Make the row higher, or hang the door otherwise: on a long hinge.")),
            ),
        )  # fmt: skip
    yield from _grip(front, stood, hung)


def _grip(front: Front, stood: Standing, hung: Hanging) -> Iterator[Finding]:
    """A cup bored into the back of the wood of a grip, where the door is too thin for both."""
    panel = stood.part
    assert isinstance(panel, Panel)
    x = front.x[0] + hung.centre_mm if front.hinge == "left" else front.x[1] - hung.centre_mm
    cups = [stood.local((x, front.y[1], front.z[0] + at)) for at in hung.at_mm]
    half = CUP.nominal / 2
    for insert in panel.inserts:
        x0, y0, x1, y1 = insert.outline.bounds
        deep = insert.depth_mm if insert.depth_mm is not None else stood.thickness_mm
        met = any(x0 - half < a < x1 + half and y0 - half < b < y1 + half for a, b, _ in cups)
        left = stood.thickness_mm - CUP_DEPTH_MM - deep
        if met and left < 1.0:
            yield Finding(
                code="hinge.at_grip", severity=Severity.STOP, origin=front.cell.row.origin, part=front.key,
                value=certain(left), limit=1.0, unit="mm",
                message=said(
                    "A hinge cup {cup:mm} deep comes behind the wood of the grip, let in {deep:mm} into a door of "
                    "{thick:mm}.",
                    cup=CUP_DEPTH_MM, deep=deep, thick=stood.thickness_mm,
                ), source="geometry of the door",
                remedies=(
                    Remedy(
                        "hinge.move_grip",
                        said("Set the grip higher or lower, nearer the closing edge, or shallower."),
                    ),
                ),
            )  # fmt: skip
            return
