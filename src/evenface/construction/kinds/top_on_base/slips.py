"""What cannot be made of a base as asked: aprons thicker than their legs, low tenons, bearers too high."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.kinds.top_on_base.records import Apron, Legs, TopOnBase
from evenface.construction.kinds.top_on_base.sizes import (
    BaseSizes,
    bearer_height_mm,
    bearer_places,
    tenon_of,
    tenon_thick,
)
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.piece.records import Side
from evenface.units import number_text
from evenface.words import Said, said

LEAST_TENON_HIGH_MM: Final = 20.0
"""Own limit: a lower tenon does not keep an apron from turning."""
HALF: Final = 0.5
"""COMMON PRACTICE: a tenon takes a third of its apron, half at most."""
APART_MM: Final = 40.0
"""Own limit: bearers nearer than this leave no room for a hand."""


def slips(piece: TopOnBase, sizes: BaseSizes) -> Iterator[Finding]:
    """Findings `base.apron_thick`, `base.tenon_low`, `base.tenon_thick`, `base.bearer_high`, `base.bearers_close`."""
    legs, apron = piece.legs, piece.apron
    if legs is None or apron is None:
        return
    yield from _thick(piece, legs, apron)
    yield from _tenon(piece, legs, apron)
    yield from _bearers(piece, legs, apron, sizes)


def _thick(piece: TopOnBase, legs: Legs, apron: Apron) -> Iterator[Finding]:
    taken, thinnest = apron.back + apron.thickness, min(legs.size)
    if taken > thinnest:
        yield _told(
            "base.apron_thick", f"{piece.origin}.apron.thickness", (taken, thinnest), said(
                "An apron {thick:mm} thick, {back:mm} behind the face of the leg, goes beyond a leg of {leg:mm}.",
                thick=apron.thickness, back=apron.back, leg=thinnest,
            ), Remedy("base.thinner_apron", said("Take a thinner apron, set it less far back, or take thicker legs.")),
        )  # fmt: skip


def _tenon(piece: TopOnBase, legs: Legs, apron: Apron) -> Iterator[Finding]:
    if apron.joint.kind == "dowel":
        return
    path = f"{piece.origin}.apron.joint"
    side = min(Side, key=apron.height_at)
    tenon = tenon_of(legs, apron, side)
    tall = tenon.high - tenon.low
    if tall < LEAST_TENON_HIGH_MM:
        yield _told(
            "base.tenon_low", f"{path}.haunch", (tall, LEAST_TENON_HIGH_MM), said(
                "The tenon of the {side:word} apron would be {tall:mm} high.", side=side.value, tall=tall
            ), Remedy("base.less_haunch", said("Leave the haunch out of the file, or make the apron higher.")),
        )  # fmt: skip
    if tenon.thick > HALF * apron.thickness:
        usual = tenon_thick(apron)
        yield _told(
            "base.tenon_thick", f"{path}.thickness", (tenon.thick, HALF * apron.thickness), said(
                "A tenon {thick:mm} thick takes more than half of an apron of {apron:mm}.",
                thick=tenon.thick, apron=apron.thickness,
            ),
            Remedy("base.thinner_tenon", said("Make it {thick:mm} thick.", thick=usual),
                   (Change(f"{path}.thickness", number_text(tenon.thick, 1), number_text(usual, 1)),)),
            severity=Severity.STOP if tenon.thick >= apron.thickness else Severity.WEIGH,
        )  # fmt: skip


def _bearers(piece: TopOnBase, legs: Legs, apron: Apron, sizes: BaseSizes) -> Iterator[Finding]:
    if apron.bearers == 0:
        return
    high, lowest = bearer_height_mm(apron), min(apron.height_at(side) for side in (Side.FRONT, Side.REAR))
    if high > lowest + 1e-9:
        path = f"{piece.origin}.apron.bearer_height"
        yield _told(
            "base.bearer_high", path, (high, lowest), said(
                "A bearer {high:mm} high stands between aprons of {apron:mm}.", high=high, apron=lowest
            ),
            Remedy("base.lower_bearer", said("Make it at most {apron:mm} high.", apron=lowest),
                   (Change(path, number_text(high, 1), number_text(lowest, 1)),)),
        )  # fmt: skip
    free = bearer_places(apron, legs, sizes)[0] - sizes.x[0] - legs.size[0]
    if free < APART_MM:
        yield _told(
            "base.bearers_close", f"{piece.origin}.apron.bearers", (free, APART_MM), said(
                "{count:count} bearers leave {free:mm} between them.", count=apron.bearers, free=free
            ), Remedy("base.fewer_bearers", said("Take fewer bearers.")),
            severity=Severity.STOP if free <= 0.0 else Severity.WEIGH,
        )  # fmt: skip


def _told(
    code: str,
    origin: str,
    value_limit: tuple[float, float],
    message: Said,
    remedy: Remedy,
    severity: Severity = Severity.STOP,
) -> Finding:
    return Finding(
        code=code, severity=severity, origin=origin, at="apron", value=certain(value_limit[0]), limit=value_limit[1],
        unit="mm", message=message, source="sum of the sizes, limits by common practice", weakest=Status.PRACTICE,
        remedies=(remedy,),
    )  # fmt: skip
