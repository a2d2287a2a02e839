"""Whether joints and fixings can be made as drawn: tenons, the wood round them, slots, screws."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.top_on_base.fixings import (
    SHANK_MM,
    fixing_points,
    moves_at,
    needed_slot_mm,
    screw_mm,
    tongue_mm,
    travel_of,
)
from evenface.construction.kinds.top_on_base.records import Legs, TopOnBase
from evenface.construction.kinds.top_on_base.sizes import WEB_MM, BaseSizes, tenon_of
from evenface.construction.wood_through_year import width_through_year
from evenface.evidence import Band, Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.piece.records import Side
from evenface.units import number_text
from evenface.words import Said, said

WALL_MM: Final = 6.0
SHORT_TENON_MM: Final = 15.0
WIDE_TENON_MM: Final = 100.0
LEFT_MM: Final = 6.0
SCREW_IN_MM: Final = 10.0
ASIDE_MM: Final = 0.5
"""COMMON PRACTICE: wood before a mortise, least tenon, widest tenon in one piece, wood behind a groove, screw in the
board, and what a slotted plate or screw can give lengthwise of the apron."""
RECKONED: Final = "own reckoning from the year of the room and the movement of wood and board"


def holding(piece: TopOnBase, ground: Ground, sizes: BaseSizes) -> Iterator[Finding]:
    """Findings `base.tenon_short`, `base.tenon_long`, `base.wall_thin`, `base.tenon_wide`, `fixing.slot_small`,
    `fixing.no_wood`, `fixing.screw_short`, `fixing.lengthwise`."""
    if piece.legs is not None:
        yield from _tenons(piece, ground)
    if fixing_points(piece, sizes):
        yield from _slots(piece, ground, sizes)
        yield from _screws(piece, ground)


def _tenons(piece: TopOnBase, ground: Ground) -> Iterator[Finding]:
    """Each trouble once, where it is gravest: at the thinner way of the leg, at the highest apron."""
    legs, apron = piece.legs, piece.apron
    assert legs is not None
    assert apron is not None
    told: set[str] = set()
    for side in sorted(Side, key=lambda one: (_across(legs, one), -apron.height_at(one))):
        for finding in (*_length(piece, side), *_wood(piece, ground, side)):
            if finding.code not in told:
                told.add(finding.code)
                yield finding


def _length(piece: TopOnBase, side: Side) -> Iterator[Finding]:
    """Tenons too short to hold, or running into each other."""
    assert piece.legs is not None
    assert piece.apron is not None
    tenon = tenon_of(piece.legs, piece.apron, side)
    longest = _across(piece.legs, side) - tenon.wall - WEB_MM
    if tenon.length < SHORT_TENON_MM:
        yield _fault(
            piece, "base.tenon_short", Severity.STOP, "joint.length", side, tenon.length, SHORT_TENON_MM, said(
                "What joins the {side:word} apron goes {length:mm} into the leg; {least:mm} is the least that holds.",
                side=side.value, length=tenon.length, least=SHORT_TENON_MM,
            ), said("A leg is a long lever: take a thicker leg, or set the apron less far back."),
        )  # fmt: skip
    if tenon.length > longest + 1e-9:
        yield _fault(
            piece, "base.tenon_long", Severity.STOP, "joint.length", side, tenon.length, longest, said(
                "A tenon {length:mm} long runs into the other one in the leg; even mitred there is room for {most:mm}.",
                length=tenon.length, most=longest,
            ), said("Two aprons meet in each leg."),
        )  # fmt: skip


def _wood(piece: TopOnBase, ground: Ground, side: Side) -> Iterator[Finding]:
    """Wood before a mortise, and a tenon glued over too much of it."""
    assert piece.legs is not None
    assert piece.apron is not None
    tenon = tenon_of(piece.legs, piece.apron, side)
    tall = tenon.high - tenon.low
    if tenon.wall < WALL_MM:
        yield _fault(
            piece, "base.wall_thin", Severity.WEIGH, "back", side, tenon.wall, WALL_MM, said(
                "{wall:mm} of wood is left between mortise and outer face of the leg; {least:mm} is usual.",
                wall=tenon.wall, least=WALL_MM,
            ), said("A thin wall splits when the tenon is driven in."),
        )  # fmt: skip
    if piece.apron.joint.kind != "dowel" and tall > WIDE_TENON_MM:
        yield _fault(
            piece, "base.tenon_wide", Severity.WEIGH, "height", side, tall, WIDE_TENON_MM, said(
                "A tenon {tall:mm} high glued across the grain of the leg changes by {swing:mm2} through the year: "
                "make two tenons of it, the upper one glued, the lower one dry.",
                tall=tall, swing=_swing(piece, ground, tall),
            ), said("The leg does not move along its grain, the apron does across its own."),
        )  # fmt: skip


def _fault(
    piece: TopOnBase, code: str, severity: Severity, key: str, side: Side, value: float, limit: float, message: Said,
    why: Said,
) -> Finding:  # fmt: skip
    return Finding(
        code=code, severity=severity, origin=f"{piece.origin}.apron.{key}", at=f"{side.value} apron",
        value=certain(value), limit=limit, unit="mm", message=message, why=why, source="common practice",
        weakest=Status.PRACTICE, remedies=_remedies(piece, code, limit),
    )  # fmt: skip


def _across(legs: Legs, side: Side) -> float:
    """Of the leg, in the direction of the apron at that side. [mm]"""
    return legs.size[0] if side.runs_along_length else legs.size[1]


def _swing(piece: TopOnBase, ground: Ground, tall: float) -> float:
    apron = piece.apron
    assert apron is not None
    return width_through_year(ground.job, ground.materials.wood(apron.wood), tall, apron.cut).swing_mm


def _remedies(piece: TopOnBase, code: str, limit: float) -> tuple[Remedy, ...]:
    apron = piece.apron
    assert apron is not None
    path = f"{piece.origin}.apron"
    if code == "base.tenon_long":
        return (
            Remedy(
                "base.shorter_tenon", said("Make it {length:mm} long.", length=float(int(limit))),
                (Change(f"{path}.joint.length", number_text(apron.joint.length or 0.0, 1), str(int(limit))),),
            ),
        )  # fmt: skip
    if code == "base.tenon_short":
        return (Remedy("base.thicker_leg", said("Take thicker legs, or set the apron less far back.")),)
    if code == "base.tenon_wide":
        return (
            Remedy("base.two_tenons", said("Make two tenons, with a gap of a finger's width between them.")),
        )
    if code == "base.wall_thin":
        more = apron.back + 5.0
        return (
            Remedy(
                "base.further_back", said("Set the apron {back:mm} behind the face of the leg.", back=more),
                (Change(f"{path}.back", f"{apron.back:g}", f"{more:g}"),),
            ),
        )  # fmt: skip
    return ()


def _slots(piece: TopOnBase, ground: Ground, sizes: BaseSizes) -> Iterator[Finding]:
    travel = travel_of(piece, ground, sizes)
    origin, fixing = f"{piece.origin}.fixing", piece.fixing
    needed = max(needed_slot_mm(piece, side, travel) for side in Side)
    status = travel[1].status
    if fixing.slot is not None and fixing.slot < needed and fixing.kind != "button":
        yield Finding(
            code="fixing.slot_small", severity=Severity.STOP, origin=f"{origin}.slot", at="fixing",
            value=certain(fixing.slot), limit=needed, unit="mm", weakest=status,
            message=said(
                "A slot {slot:mm} long is too short: through the year the screws ask for {needed:mm}.",
                slot=fixing.slot, needed=needed,
            ), why=said("Then the screws hold what wants to move, and top or apron splits."), source=RECKONED,
            remedies=(
                Remedy("fixing.slot", said("Make it {needed:mm} long.", needed=needed),
                       (Change(f"{origin}.slot", f"{fixing.slot:g}", f"{needed:g}"),)),
            ),
        )  # fmt: skip
    if piece.apron is None:
        return
    thick = piece.apron.thickness
    moves = max(moves_at(piece, side, travel) for side in Side)
    takes = {
        "button": tongue_mm(moves) + moves + 1.0,
        "slotted plate": 0.0,
        "slotted screw": (fixing.slot or needed) + LEFT_MM,
    }[fixing.kind]
    if takes > thick - LEFT_MM:
        yield _no_wood(piece, takes, thick)
    aside = max(travel[0].most, travel[1].most) / 2
    if fixing.kind != "button" and aside > ASIDE_MM:
        yield Finding(
            code="fixing.lengthwise", severity=Severity.NOTE, origin=f"{origin}.kind", at="corners", unit="mm",
            value=certain(aside), limit=ASIDE_MM, weakest=status,
            message=said(
                "Near the corners the top also moves {aside:mm2} each way along the apron: drill those holes of the "
                "slots wider, or take buttons, which slide both ways.", aside=aside,
            ), source=RECKONED,
            remedies=(
                Remedy("fixing.button", said("Take buttons."), (Change(f"{origin}.kind", fixing.kind, "button"),)),
            ),
        )  # fmt: skip


def _no_wood(piece: TopOnBase, takes: float, thick: float) -> Finding:
    return Finding(
        code="fixing.no_wood", severity=Severity.STOP, origin=f"{piece.origin}.fixing.kind", at="apron",
        value=certain(thick - takes), limit=LEFT_MM, unit="mm",
        message=said(
            "Grooves or slots for these fixings take {takes:mm} of an apron {thick:mm} thick; {left:mm} must stay.",
            takes=takes, thick=thick, left=LEFT_MM,
        ), source="common practice", weakest=Status.PRACTICE,
        remedies=(
            Remedy(
                "fixing.plate", said("Take slotted plates."),
                (Change(f"{piece.origin}.fixing.kind", piece.fixing.kind, "slotted plate"),),
            ),
        ),
    )  # fmt: skip


def _screws(piece: TopOnBase, ground: Ground) -> Iterator[Finding]:
    long, deep = screw_mm(piece, ground)
    if deep < SCREW_IN_MM:
        message: Said = said(
            "A screw {shank:mm} × {long:mm} enters the top by {deep:mm} only; {least:mm} is the least that holds.",
            shank=SHANK_MM, long=long, deep=deep, least=SCREW_IN_MM,
        )  # fmt: skip
        yield Finding(
            code="fixing.screw_short", severity=Severity.WEIGH, origin=f"{piece.origin}.buildup", part="top",
            value=Band(deep, deep, deep), limit=SCREW_IN_MM, unit="mm", message=message,
            why=said("A longer one would come through the carrier."), source="common practice",
            weakest=Status.PRACTICE,
            remedies=(Remedy("fixing.thicker", said("Take a thicker carrier, or screws with a coarse thread.")),),
        )  # fmt: skip
