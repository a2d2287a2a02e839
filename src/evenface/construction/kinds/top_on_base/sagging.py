"""Sag under the lasting load: of the top between what carries it, of the long aprons, of a free end.

A strip of the top 1 mm wide: carrier and facings over each other; its edging is left out, a little to the safe
side. Loads lie evenly. Aprons rest on the legs, or are held by them:
real ones lie between, so both give the range. Span / height is 10 and more for tops; an apron is shorter, where
shear adds some tenths. Creep from the range the sources give.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from evenface.construction.ground import Ground, Layered, layered
from evenface.construction.kinds.top_on_base.records import TopOnBase
from evenface.construction.kinds.top_on_base.sizes import BaseSizes, bearer_places, support_places
from evenface.construction.panel_mass import mass_of
from evenface.construction.records import Construction
from evenface.construction.sagging import CREEP, FACING_CREEP, N_PER_KG, Bar, creep_of, stiffness_of
from evenface.evidence import Band, Status, weakest
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.mechanics.sag import Held, sag_under_even_load
from evenface.piece.records import Role, Side
from evenface.words import Said, said

TARGET: Final = rule("sag-target")
SEEN: Final = rule("sag-seen")
RECKONED: Final = "own reckoning: bending of the layered strip, and creep as the sources give it"


@dataclass(frozen=True, slots=True)
class Strip:
    """Bending stiffness of the top per mm of width, lasting: high, usual, low; and the weakest figure in it."""

    stiffness: tuple[float, float, float]
    status: Status


def sagging(
    piece: TopOnBase, construction: Construction, ground: Ground, sizes: BaseSizes
) -> Iterator[Finding]:
    """Findings `sag.top`, `sag.apron`, `sag.overhang`."""
    top = next(one for one in construction.panels if one.name == "top")
    own = mass_of(top.panel, ground)
    area = top.length_mm * top.width_mm
    pressure = (piece.load.even + own) * N_PER_KG / area
    found = layered(ground.job.buildups[piece.top.buildup], ground.materials, ground.made)
    span, along = top_span(piece, sizes)
    yield from _top(piece, strip_of(found, along), pressure, span)
    yield from _overhangs(piece, found, pressure)
    if piece.apron is not None:
        yield from _aprons(piece, ground, pressure * top.width_mm / 2, sizes)


def top_span(piece: TopOnBase, sizes: BaseSizes) -> tuple[float, bool]:
    """The longest way the top must bridge, and whether it runs along the top's length. [mm]

    Carried all round, a field spans its shorter way.
    """
    if piece.apron is None or piece.legs is None:
        supports = piece.supports
        assert supports is not None
        places = support_places(piece, sizes)
        return places[1] - places[0] - supports.width, True
    apron = piece.apron
    deep = sizes.apron_line(Side.REAR, apron)[1] - sizes.apron_line(Side.FRONT, apron)[1]
    edges = [
        sizes.apron_line(Side.LEFT, apron)[1],
        *bearer_places(apron, piece.legs, sizes),
        sizes.apron_line(Side.RIGHT, apron)[1],
    ]
    starts = [edges[0], *(one + apron.thickness for one in edges[1:-1])]
    long = max(b - a for a, b in zip(starts, edges[1:], strict=True))
    return (long, True) if long < deep else (deep, False)


def strip_of(found: Layered, along: bool) -> Strip:
    """The build-up as a strip along its length, or across it."""
    carrier, level = found.carrier, found.levels
    turned = found.carrier_layer.direction_deg % 180.0 == 90.0
    creep = creep_of(str(carrier.board))
    modulus = carrier.modulus_along if along != turned else carrier.modulus_across
    middle = level.carrier_bottom_mm + level.carrier_mm / 2
    layers: list[Bar] = [(1.0, level.carrier_mm, middle, modulus, creep)]
    for role, (layer, facing, thickness) in found.sheets.items():
        across = layer.direction_deg % 180.0 == 90.0
        sheet = facing.modulus_along if along != across else facing.modulus_across
        half = thickness.nominal / 2
        height = half if role is Role.BACK else level.total_mm - half
        layers.append((1.0, thickness.nominal, height, sheet, FACING_CREEP))
    return Strip(stiffness_of(tuple(layers)), weakest([bar[3].status for bar in layers] + [Status.MEMORY]))


def _top(piece: TopOnBase, strip: Strip, pressure: float, span: float) -> Iterator[Finding]:
    sag = _band(pressure, span, strip.stiffness, Held.RESTING)
    yield from _told(
        piece, "sag.top", "top", sag, span, strip.status, said(
            "Under {load:kg} the top sags by {least:mm2} to {most:mm2} over {span:mm}, in the middle {sag:mm2}.",
            load=piece.load.even, least=sag.low, most=sag.high, span=span, sag=sag.nominal or 0.0,
        ), _bearers(piece),
    )  # fmt: skip


def _bearers(piece: TopOnBase) -> Remedy:
    if piece.apron is None:
        return Remedy("sag.support", said("Add a support, or take a thicker carrier."))
    more = piece.apron.bearers + 1
    return Remedy(
        "sag.bearer", said("Put {count:count} bearers under it.", count=more),
        (Change(f"{piece.origin}.apron.bearers", str(piece.apron.bearers), str(more)),),
    )  # fmt: skip


def _overhangs(piece: TopOnBase, found: Layered, pressure: float) -> Iterator[Finding]:
    """The furthest free edge, as if it were held like a shelf let into a wall."""
    side = max(Side, key=lambda one: piece.overhang[one])
    far = piece.overhang[side]
    if far < 100.0:
        return
    strip = strip_of(found, not side.runs_along_length)
    sag = _band(pressure, far, strip.stiffness, Held.OVERHANG)
    yield from _told(
        piece, "sag.overhang", side.value, sag, far, strip.status, said(
            "The {side:word} edge, {far:mm} over the base, comes down by {least:mm2} to {most:mm2}.",
            side=side.value, far=far, least=sag.low, most=sag.high,
        ), Remedy("sag.less_overhang", said("Let it hang over less, or take a thicker carrier.")),
    )  # fmt: skip


def _aprons(piece: TopOnBase, ground: Ground, line_load: float, sizes: BaseSizes) -> Iterator[Finding]:
    """The weaker of the two long aprons carries half of the top and of what lies on it."""
    apron = piece.apron
    assert apron is not None
    side = min((Side.FRONT, Side.REAR), key=apron.height_at)
    height, span = apron.height_at(side), sizes.clear[0]
    wood = ground.materials.wood(apron.wood)
    inertia = apron.thickness * height**3 / 12.0
    own = apron.thickness * height * wood.density.nominal * 1e-9 * N_PER_KG
    values = [
        modulus * inertia / (1.0 + creep)
        for modulus, creep in zip(
            (wood.modulus_along.high, wood.modulus_along.nominal, wood.modulus_along.low),
            CREEP["solid"],
            strict=True,
        )
    ]
    held = _band(line_load + own, span, (values[0],) * 3, Held.FIXED).low
    resting = _band(line_load + own, span, (values[0], values[1], values[2]), Held.RESTING)
    sag = Band(held, resting.nominal, resting.high)
    higher = height + 20.0
    key = side.value if getattr(apron, side.value) is not None else "height"
    yield from _told(
        piece, "sag.apron", f"{side.value} apron", sag, span, weakest((wood.modulus_along.status, Status.MEMORY)), said(
            "Under {load:kg} the {side:word} apron sags by {least:mm2} to {most:mm2} over {span:mm}: little where the "
            "legs hold its ends, most where it only rests.",
            load=piece.load.even, side=side.value, least=sag.low, most=sag.high, span=span,
        ), Remedy(
            "sag.higher_apron", said("Make it {height:mm} high.", height=higher),
            (Change(f"{piece.origin}.apron.{key}", f"{height:g}", f"{higher:g}"),),
        ),
    )  # fmt: skip


def _band(load: float, span: float, stiffness: tuple[float, float, float], held: Held) -> Band:
    low, middle, high = (
        float(one) for one in np.asarray(sag_under_even_load(load, span, np.asarray(stiffness), held))
    )
    return Band(low, middle, high)


def _told(
    piece: TopOnBase, code: str, at: str, sag: Band, span: float, status: Status, message: Said, remedy: Remedy
) -> Iterator[Finding]:  # fmt: skip
    """Nothing while the worst stays within the target; to be weighed where the usual figure would be seen."""
    target, seen = TARGET.nominal * span, SEEN.nominal * span
    if sag.high <= target:
        return
    middle = sag.nominal if sag.nominal is not None else sag.high
    yield Finding(
        code=code, severity=Severity.WEIGH if middle > seen else Severity.NOTE, origin=f"{piece.origin}.load.even",
        part="top" if at == "top" else "", at=at, value=sag, limit=target, unit="mm", message=message,
        why=said(
            "{target:mm2} is what is aimed for over that length, {seen:mm2} is seen.", target=target, seen=seen
        ), source=f"{TARGET.source}; {SEEN.source}; {RECKONED}", weakest=status, remedies=(remedy,),
    )  # fmt: skip
