"""Whether an overlay door opens clear of what stands beside its hinge edge: the next door, a wall, the next piece."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.hinges import overlay_needs_mm
from evenface.construction.kinds.carcase.fronts import Front, lap_mm
from evenface.construction.kinds.carcase.records import Fronts
from evenface.construction.kinds.carcase.shell import Laying
from evenface.evidence import Band, Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.words import Said, said

CHART: Final = "hinge makers' charts for overlay doors, from memory"
UNSURE: Final = 1.5
"""The charts differ by about half as much again between hinges."""


def opening_beside(laying: Laying, fronts: Fronts, front: Front, thick: float) -> Iterator[Finding]:
    """Finding `door.beside`: for doors hinged beside each other on one partition, and beside a wall."""
    needs, limit = overlay_needs_mm(thick), front.cell.left if front.hinge == "left" else front.cell.right
    if limit.kind == "partition":
        if _met(laying, front):
            yield from _told(laying, front, "gap", fronts.between, 2 * needs, said(
                "{front} and the door beside it are hinged on one partition: to open both, doors {thick:mm} thick need "
                "a gap of about {needs:mm}; it is {gap:mm}.",
                front=front.key, thick=thick, needs=2 * needs, gap=fronts.between,
            ))  # fmt: skip
    elif limit.kind == "outer" and front.hinge in fronts.beside:
        air = limit.thickness_mm - lap_mm(fronts, limit, front.hinge)
        yield from _told(laying, front, front.hinge, air, needs, said(
            "Something stands close at the {side:word}: a door {thick:mm} thick needs about {needs:mm} beside its "
            "hinge edge while it opens; {gap:mm} is left.",
            side=front.hinge, thick=thick, needs=needs, gap=air,
        ))  # fmt: skip


def _met(laying: Laying, front: Front) -> bool:
    """Whether a door of the next bay is hinged on the same partition; told for the one at its left."""
    if front.hinge != "right":
        return False
    (z0, z1) = front.cell.z
    return any(
        cell.bay == front.cell.bay + 1
        and cell.z[0] < z1
        and cell.z[1] > z0
        and (cell.row.what == "doors" or (cell.row.what == "door" and cell.row.hinge == "left"))
        for cell in laying.room.cells
    )


def _told(
    laying: Laying, front: Front, key: str, gap: float, needs: float, message: Said
) -> Iterator[Finding]:
    if gap >= needs - 1e-9:
        return
    path = f"{laying.carcase.origin}.fronts.{key}"
    wanted = round(needs * UNSURE + 0.049, 1)
    yield Finding(
        code="door.beside", severity=Severity.WEIGH, origin=path, part=front.key, at=key,
        value=Band(gap, gap, gap), limit=needs, unit="mm", message=message,
        why=said("Its hinge edge swings out before it swings away; a rounded arris helps."), source=CHART,
        weakest=Status.MEMORY,
        remedies=(
            Remedy(
                "door.more_air", said("Leave {wanted:mm}, or try it with the hinge in hand.", wanted=wanted),
                (Change(path, f"{gap:g}", f"{wanted:g}"),), certain(wanted),
            ),
        ),
    )  # fmt: skip
