"""What stands against building a panel as described, before anything is computed from it."""

from collections.abc import Iterator

from evenface.construction.locks import CLOSES_MM, Locked
from evenface.construction.records import BuiltPanel, Edging
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.piece.records import Meeting, Order, Role
from evenface.words import said


def objections(built: BuiltPanel, locked: Locked) -> tuple[Finding, ...]:
    """Stops of the edge section itself: no carrier left, an order that cannot be, a sheet cut too small."""
    return (
        *_no_carrier(built),
        *(finding for edging in built.edgings for finding in _impossible_order(built, edging)),
        *_cut_too_small(built, locked),
    )


def _no_carrier(built: BuiltPanel) -> Iterator[Finding]:
    net = built.carrier.rectangle
    for axis, left, whole in (
        ("length", net.length_mm, built.length_mm),
        ("width", net.width_mm, built.width_mm),
    ):
        if left <= 0:
            yield Finding(
                code="carrier.none_left",
                severity=Severity.STOP,
                origin=f"{built.origin}.size",
                at=axis,
                value=certain(left),
                limit=0.0,
                unit="mm",
                message=said(
                    "The edgings take {taken:mm} of the {axis:word} of {whole:mm}: no carrier is left.",
                    taken=whole - left,
                    axis=axis,
                    whole=whole,
                ),
                source="sum of the sizes",
            )


def _impossible_order(built: BuiltPanel, edging: Edging) -> Iterator[Finding]:
    """An edging that lies under every facing it meets cannot be glued on after them."""
    meetings = [edging.meets(face.role) for face in built.faces]
    if (
        edging.order is Order.FACING_FIRST
        and meetings
        and all(meeting is Meeting.UNDER for meeting in meetings)
    ):
        yield Finding(
            code="edging.order_impossible",
            severity=Severity.STOP,
            origin=edging.origin or built.origin,
            at=edging.side.value,
            message=said(
                "The {side:word} edging lies under the facing and so cannot be glued on after it.",
                side=edging.side.value,
            ),
            why=said("A facing can only be laid over an edging that is there and flushed."),
            source="geometry of the edge section",
            remedies=(
                Remedy(
                    "edging.first",
                    said("Glue the edging on before the facing."),
                    (Change(f"{edging.origin}.order", "facing first", "edging first"),),
                ),
                Remedy(
                    "edging.flush",
                    said("Let the edging stand flush with the facing instead."),
                    (Change(f"{edging.origin}.section", "under", "flush"),),
                ),
            ),
        )


def _cut_too_small(built: BuiltPanel, locked: Locked) -> Iterator[Finding]:
    """A facing that is already cut must still cover what it is meant to cover."""
    for role, size in locked.faces_cut.items():
        face = built.face(role)
        if face is None:
            continue
        net = face.rectangle
        short = max(
            net.length_mm - (size.length_mm or net.length_mm), net.width_mm - (size.width_mm or net.width_mm)
        )
        if short > CLOSES_MM:
            yield Finding(
                code="made.facing_too_small",
                severity=Severity.STOP,
                origin=face.origin,
                at=role.value,
                value=certain(short),
                limit=0.0,
                unit="mm",
                message=said(
                    "The {role:word} sheet already cut is {short:mm2} short.", role=_name(role), short=short
                ),
                source="sizes entered as made",
            )


def _name(role: Role) -> str:
    return "facing" if role is Role.FACE else "back"
