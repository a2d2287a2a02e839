"""How it stands and is carried: its mass, how many lift it, what load on an edge tips it."""

from collections.abc import Iterator
from math import ceil
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.top_on_base.records import TopOnBase
from evenface.construction.kinds.top_on_base.sizes import BaseSizes
from evenface.construction.panel_mass import mass_of, mass_of_board
from evenface.construction.records import Construction
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.piece.records import Side
from evenface.words import said

ONE_PERSON_KG: Final = 25.0
"""From memory: what one person lifts close to the body."""


def masses(construction: Construction, ground: Ground) -> tuple[float, float]:
    """Of the top, and of the wood of the base. [kg]"""
    top = sum(mass_of(one.panel, ground) for one in construction.panels)
    each = construction.piece.count
    return top, sum(mass_of_board(one.board, ground) * one.count / each for one in construction.boards)


def standing(
    piece: TopOnBase, construction: Construction, ground: Ground, sizes: BaseSizes
) -> Iterator[Finding]:
    """Findings `lift.people`, `stand.tips`."""
    top, base = masses(construction, ground)
    whole = top + base
    if whole > ONE_PERSON_KG:
        people, alone = ceil(whole / ONE_PERSON_KG), ceil(top / ONE_PERSON_KG)
        yield Finding(
            code="lift.people", severity=Severity.NOTE, origin=piece.origin, value=certain(whole),
            limit=ONE_PERSON_KG, unit="kg", message=said(
                "It weighs {whole:kg}, the top alone {top:kg}: {people:count} people to carry it, {alone:count} for "
                "the top.", whole=whole, top=top, people=people, alone=alone,
            ), source="what one person lifts, 25 kg close to the body: from memory", weakest=Status.MEMORY,
            remedies=(Remedy("lift.apart", said("Carry top and base apart: the fixings come off.")),),
        )  # fmt: skip
    if piece.legs is not None:
        yield from _tips(piece, (top, base), sizes)


def tipping_load_kg(
    piece: TopOnBase, masses_kg: tuple[float, float], sizes: BaseSizes, side: Side
) -> float | None:
    """Load on the edge of that side under which the far legs leave the floor; None where none does. [kg]

    It turns about the outer faces of the near legs; top and base (masses_kg) each hold it down at their own middle.
    """
    over = piece.overhang[side]
    if over <= 0.0:
        return None
    low, high = sizes.y if side.runs_along_length else sizes.x
    top = piece.size_mm[2 if side.runs_along_length else 0] / 2 - over
    return (masses_kg[0] * top + masses_kg[1] * (high - low) / 2) / over


def _tips(piece: TopOnBase, both: tuple[float, float], sizes: BaseSizes) -> Iterator[Finding]:
    loads = {side: tipping_load_kg(piece, both, sizes, side) for side in Side}
    side, load = min(
        ((side, load) for side, load in loads.items() if load is not None),
        key=lambda pair: pair[1],
        default=(Side.FRONT, None),
    )
    if load is None or load >= piece.load.edge:
        return
    less = max(float(int(piece.overhang[side] * load / piece.load.edge)), 0.0)
    yield Finding(
        code="stand.tips", severity=Severity.WEIGH, origin=f"{piece.origin}.overhang", at=side.value,
        value=certain(load), limit=piece.load.edge, unit="kg", message=said(
            "{load:kg} on the {side:word} edge, {over:mm} over the legs, tip it; {asked:kg} are asked for.",
            load=load, side=side.value, over=piece.overhang[side], asked=piece.load.edge,
        ), why=said("It weighs {whole:kg} and turns about the outer faces of the legs on that side.", whole=sum(both)),
        source="own reckoning: moments about the feet", weakest=Status.DERIVED,
        remedies=(
            Remedy(
                "stand.less_overhang", said("Let it hang over {less:mm} there.", less=less),
                (Change(f"{piece.origin}.overhang.{side.value}", f"{piece.overhang[side]:g}", f"{less:g}"),),
            ),
            Remedy("stand.fix", said("Fix it to the floor or to a wall.")),
        ),
    )  # fmt: skip
