"""How the walls of a lined box move and cup, and what the corner joint can do about it.

A wall faced on one face cups across its height. A fingered corner holds it flat at its ends, and that reaches
about one width of the board along it, not farther; in between the wall is free.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from evenface.construction.faced_boards import CUP_MM, Swing, faced_board, farthest_swing
from evenface.construction.ground import Ground
from evenface.construction.kinds.lined_box.records import FRONT, PAIRS, LinedBox
from evenface.construction.kinds.lined_box.sizes import BoxSizes
from evenface.construction.room_air import year_of
from evenface.evidence import Band, Status, certain, weakest
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials import values_of
from evenface.materials.rules import rule
from evenface.mechanics.arrays import Floats
from evenface.mechanics.wood import largest_within
from evenface.units import number_text
from evenface.words import Said, said

HEIGHTS: Final = np.arange(10.0, 402.0, 2.0)
THICKEST_MM: Final = 30.0
RECKONED: Final = (
    "own reckoning: lamination of wood and sheet over the year of the room; limit by own practice"
)
WALL: Final = {FRONT: "front and rear", "sides": "left and right"}


@dataclass(frozen=True, slots=True)
class Faced:
    """One wall as the mechanics see it: what it is made of and what the year does to it."""

    box: LinedBox
    ground: Ground
    swing: Swing
    thickness_mm: float
    cut: str
    sheet_mm: float

    def reckon(
        self, heights: ArrayLike, end: int = 1, cut: str = "", thickness_mm: float = 0.0
    ) -> "Reckoned":
        """Cup and tension over the heights; another cut or thickness may be tried."""
        lining, materials = self.box.lining, self.ground.materials
        told = faced_board(
            materials.wood(self.box.walls.wood),
            cut or self.cut,
            thickness_mm or self.thickness_mm,
            self.swing,
            materials.facing(lining.facing).with_thickness(self.sheet_mm),
            materials.glue(lining.glue).rigid,
            np.asarray(heights, float),
            turned=lining.direction == 90.0,
            end=end,
        )
        return Reckoned(np.abs(told.cup_mm), np.asarray(told.tension_mpa))


@dataclass(frozen=True, slots=True)
class Reckoned:
    """Size of the cup, and tension across the grain under the lining."""

    cup_mm: Floats
    tension_mpa: Floats


def movement_findings(box: LinedBox, sizes: BoxSizes, ground: Ground) -> Iterator[Finding]:
    """Findings `box.cups`, `box.cup_held`, `box.cup_within`, `box.tension`, `box.faced_wood`, `box.height_moves`,
    `box.divider_proud`."""
    job = ground.job
    swing = farthest_swing(year_of(job, job.room), job.shop_humidity)
    for pair in PAIRS:
        wall = Faced(box, ground, swing, sizes.wood_mm(pair), box.walls.cut, sizes.sheet_mm)
        yield from _cups(wall, sizes, pair)
        if pair == FRONT:
            yield from _tension(wall, sizes)
    if ground.materials.facing(box.lining.facing).is_laminate:
        yield _maker_says(box)
    yield from _height(box, sizes, ground)


def _cups(wall: Faced, sizes: BoxSizes, pair: str) -> Iterator[Finding]:
    height, length = sizes.outside[2], sizes.length_mm(pair)
    cups = sorted(float(wall.reckon([height], end).cup_mm[0]) for end in (0, 1, 2))
    safe = min(largest_within(HEIGHTS, wall.reckon(HEIGHTS).cup_mm, CUP_MM), float(HEIGHTS[-1]))
    free, within, names = length - 2 * height, cups[1] <= CUP_MM, WALL[pair]
    if within and sizes.front_mm == sizes.side_mm:
        if pair != FRONT:
            return  # told of all four already
        names = "front, rear, left and right"
    if within:
        code, message = "box.cup_within", _within_message(names, cups[1], height)
    elif free > 0.0:
        code, message = "box.cups", _free_message(names, cups[1], free, height)
    else:
        code, message = "box.cup_held", _held_message(names, cups[1], length)
    yield Finding(
        code=code,
        severity=Severity.WEIGH if code == "box.cups" else Severity.NOTE,
        origin=f"{wall.box.origin}.walls",
        at=names,
        value=Band(cups[0], cups[1], cups[2]),
        limit=CUP_MM,
        unit="mm",
        gauge_mm=height,
        message=message,
        why=said(
            "Faced on one face, {thick:mm} of {cut:word}-sawn {wood} stays within {limit:mm} up to about {safe:mm} of "
            "height in this room. The fingers hold a wall flat at its ends and about one height along it; glue and "
            "wood bear that as a lasting pull. Not in this figure: the curve of the rings, and the weeks in which a "
            "wall sealed on one face is drier or damper on the other.",
            thick=wall.thickness_mm, cut=wall.cut, wood=wall.ground.materials.wood(wall.box.walls.wood).title,
            limit=CUP_MM, safe=safe,
        ),
        source=RECKONED,
        weakest=_weakest(wall),
        remedies=() if within else tuple(_remedies(wall, height, pair, safe)),
    )  # fmt: skip


def _within_message(names: str, cup: float, height: float) -> Said:
    return said(
        "The walls {names:word} cup by {cup:mm2} over their height of {height:mm} in the month farthest from the shop.",
        names=names, cup=cup, height=height,
    )  # fmt: skip


def _free_message(names: str, cup: float, free: float, height: float) -> Said:
    return said(
        "The walls {names:word} cup by up to {cup:mm2} over their height of {height:mm}: the corner joint holds them "
        "about one height from each end, {free:mm} between stay free.",
        names=names, cup=cup, height=height, free=free,
    )  # fmt: skip


def _held_message(names: str, cup: float, length: float) -> Said:
    return said(
        "The walls {names:word} would cup by {cup:mm2} if they were free; at a length of {length:mm} the joints at "
        "both ends hold them.",
        names=names, cup=cup, length=length,
    )  # fmt: skip


def _remedies(wall: Faced, height: float, pair: str, safe: float) -> Iterator[Remedy]:
    path = f"{wall.box.origin}.walls"

    def cup(cut: str = "", thick: float = 0.0) -> float:
        return float(wall.reckon([height], cut=cut, thickness_mm=thick).cup_mm[0])

    if wall.cut != "quarter" and (better := cup("quarter")) < 0.9 * cup():
        yield Remedy(
            "box.quarter", said("Quarter-sawn wood: {cup:mm2}.", cup=better),
            (Change(f"{path}.cut", f'"{wall.cut}"', '"quarter"'),), certain(better),
        )  # fmt: skip
    for thick in np.arange(np.floor(wall.thickness_mm) + 1.0, THICKEST_MM + 1.0):
        if (better := cup(thick=float(thick))) <= CUP_MM:
            own = pair != FRONT and wall.box.walls.side_thickness is not None
            key = f"{path}.side_thickness" if own else f"{path}.thickness"
            yield Remedy(
                "box.thicker", said("Walls {thick:mm} thick: {cup:mm2}.", thick=float(thick), cup=better),
                (Change(key, number_text(wall.thickness_mm, 1), number_text(float(thick), 1)),), certain(better),
            )  # fmt: skip
            break
    if safe >= 20.0:
        yield Remedy("box.lower", said("A box at most {safe:mm} high.", safe=safe), (), certain(CUP_MM))


def _tension(wall: Faced, sizes: BoxSizes) -> Iterator[Finding]:
    """Pull across the grain under the lining, at nearly any height of wall."""
    wood = wall.ground.materials.wood(wall.box.walls.wood)
    if wood.tension_across is None:
        return
    pulls = sorted(float(wall.reckon([sizes.outside[2]], end).tension_mpa[0]) for end in (0, 1, 2))
    if pulls[2] <= wood.tension_across.nominal:
        return
    yield Finding(
        code="box.tension", severity=Severity.WEIGH, origin=f"{wall.box.origin}.lining", at="lining",
        value=Band(pulls[0], pulls[1], pulls[2]), limit=wood.tension_across.nominal, unit="N/mm²",
        message=said(
            "When it dries, the wood is pulled across its grain under the lining with {pull:mpa}, at worst {most:mpa}; "
            "it bears about {bears:mpa}.",
            pull=pulls[1], most=pulls[2], bears=wood.tension_across.nominal,
        ),
        why=said("This does not grow with the height: a lower box does not help, a softer lining or glue does."),
        source=RECKONED, weakest=_weakest(wall),
        remedies=(Remedy("box.softer", said("Line it with linoleum, or glue the lining with contact glue.")),),
    )  # fmt: skip


def _maker_says(box: LinedBox) -> Finding:
    return Finding(
        code="box.faced_wood", severity=Severity.NOTE, origin=f"{box.origin}.lining.facing", at="lining",
        message=said(
            "The makers of laminate do not allow solid wood under it. Low walls with strong corner joints are done and "
            "last: common practice, at your own risk."
        ), source=rule("facing-on-solid-wood").source, weakest=Status.PRACTICE,
    )  # fmt: skip


def _height(box: LinedBox, sizes: BoxSizes, ground: Ground) -> Iterator[Finding]:
    grows = sizes.grows
    yield Finding(
        code="box.height_moves", severity=Severity.NOTE, origin=f"{box.origin}.walls", at="height",
        value=certain(grows.swing_mm), unit="mm",
        message=said(
            "Through the year the walls are up to {least:mm2} lower and {most:mm2} higher than when made; all four "
            "alike, so the corners are not worked open by it.",
            least=-grows.least_mm, most=grows.most_mm,
        ), source="movement of the wood over the year of the room", weakest=grows.status,
    )  # fmt: skip
    for one in box.dividers:
        if one.panel is None:
            continue
        share = sizes.inside[2] / sizes.outside[2]
        sinks = -grows.least_mm * share
        if one.below < sinks:
            new = float(np.ceil(sinks * 10) / 10)
            yield Finding(
                code="box.divider_proud", severity=Severity.WEIGH, origin=f"{one.origin}.below",
                at=f"dividers {one.way}", value=certain(one.below), limit=sinks, unit="mm",
                message=said(
                    "The walls sink by up to {sinks:mm2} above the bottom when they dry, dividers of board do not: "
                    "they would stand proud.",
                    sinks=sinks,
                ), source="movement of the wood over the year of the room", weakest=grows.status,
                remedies=(
                    Remedy(
                        "box.below", said("Keep them {below:mm} below the edge.", below=new),
                        (Change(f"{one.origin}.below", number_text(one.below, 1), number_text(new, 1)),),
                    ),
                ),
            )  # fmt: skip


def _weakest(wall: Faced) -> Status:
    materials = wall.ground.materials
    used = (materials.wood(wall.box.walls.wood), materials.facing(wall.box.lining.facing))
    return weakest(tuple(value.status for one in used for value in values_of(one).values()))
