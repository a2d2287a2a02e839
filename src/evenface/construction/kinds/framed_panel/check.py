"""What can only be said of a framed panel: gap through the year, cover, what is left of the frame."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.framed_panel.records import Framed
from evenface.construction.kinds.framed_panel.sizes import FrameSizes, frame_sizes
from evenface.construction.records import Construction
from evenface.evidence import Band, Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.units import number_text
from evenface.words import Said, said

COVER_MM: Final = 3.0
LEDGE_LEFT_MM: Final = 4.0
"""COMMON PRACTICE: what the ledge must still hold, and the wood left behind or before a panel."""
LEAST_PANEL_MM: Final = 50.0
RECKONED: Final = "own reckoning from the year of the room and the movement of the wood"


def check(construction: Construction, ground: Ground) -> tuple[Finding, ...]:
    """Findings `framed.no_panel`, `framed.gap_small`, `framed.cover_small`, `framed.ledge_thin`, `framed.frame_narrow`,
    `framed.arris`, `framed.shut_in`, `framed.proud`."""
    framed = construction.piece.description
    assert isinstance(framed, Framed)
    sizes = frame_sizes(framed, ground)
    return tuple(_told(framed, sizes))


def _told(framed: Framed, sizes: FrameSizes) -> Iterator[Finding]:
    origin, frame = f"{framed.origin}.frame", framed.frame
    if min(sizes.panel_mm) < LEAST_PANEL_MM:
        yield _stop(
            "framed.no_panel", f"{origin}.width", "frame", min(sizes.panel_mm), LEAST_PANEL_MM,
            said(
                "The frame leaves {left:mm} for the panel; it should be {least:mm} at least.",
                left=min(sizes.panel_mm), least=LEAST_PANEL_MM,
            ),
            Remedy("framed.larger", said("Make the piece larger, or frame and gap narrower.")),
        )  # fmt: skip
        return
    yield from _narrow(framed)
    yield from _gap(framed, sizes)
    yield from _cover(framed, sizes)
    left = frame.thickness - sizes.seat_depth_mm - (frame.lip if frame.seat != "rebate" else 0.0)
    if left < (LEDGE_LEFT_MM if frame.seat != "rebate behind" else 0.0):
        yield _stop(
            "framed.ledge_thin", f"{origin}.thickness", "frame", left, LEDGE_LEFT_MM,
            said(
                "A frame {frame:mm} thick leaves {left:mm} of wood at the seat of a panel {panel:mm} thick.",
                frame=frame.thickness, left=left, panel=sizes.thickness.thickness_mm,
            ),
            _thicker(framed, sizes),
        )  # fmt: skip
    if frame.seat == "groove":
        yield Finding(
            code="framed.shut_in", severity=Severity.NOTE, origin=f"{origin}.seat", at="panel",
            message=said("Shut into a groove, the panel cannot be taken out to be refinished alone."),
            source="common practice",
            remedies=(
                Remedy(
                    "framed.rebate", said("Let it into a rebate."),
                    (Change(f"{origin}.seat", '"groove"', '"rebate"'),),
                ),
            ),
        )  # fmt: skip
    if frame.seat == "rebate" and frame.shy == 0.0:
        yield Finding(
            code="framed.proud", severity=Severity.NOTE, origin=f"{origin}.shy", at="panel", value=certain(0.0),
            limit=0.0, unit="mm",
            message=said("A panel quite level with its frame stands proud of it when the frame is dry."),
            source="common practice",
            remedies=(
                Remedy("framed.shy", said("Leave it 0.3 mm shy."), (Change(f"{origin}.shy", "0", "0.3"),)),
            ),
        )  # fmt: skip


def _narrow(framed: Framed) -> Iterator[Finding]:
    """A frame hardly wider, as it is seen, than what is taken out of its inner side or edge."""
    frame, origin = framed.frame, f"{framed.origin}.frame"
    ledge = 0.0 if frame.seat == "rebate" else frame.ledge
    key, seen = min(
        ("width", frame.width), ("rail_width", frame.rail_width or frame.width), key=lambda one: one[1]
    )
    if seen - ledge < LEDGE_LEFT_MM:
        new = ledge + max(LEDGE_LEFT_MM, ledge / 2)
        yield _stop(
            "framed.frame_narrow", f"{origin}.{key}", "frame", seen - ledge, LEDGE_LEFT_MM,
            said(
                "A seat {ledge:mm} wide leaves {left:mm} of a frame {seen:mm} wide.",
                ledge=ledge, left=seen - ledge, seen=seen,
            ),
            Remedy("framed.wider", said("Make it {wide:mm} wide.", wide=new),
                   (Change(f"{origin}.{key}", number_text(seen, 1), number_text(new, 1)),)),
        )  # fmt: skip
    if frame.arris > min(seen, frame.thickness) / 4:
        yield _stop(
            "framed.arris", f"{origin}.arris", "frame", frame.arris, min(seen, frame.thickness) / 4,
            said("A broken edge of {arris:mm} takes more than a quarter of the frame.", arris=frame.arris),
            Remedy("framed.less_arris", said("Break it by {arris:mm}.", arris=1.0),
                   (Change(f"{origin}.arris", number_text(frame.arris, 1), "1"),)),
        )  # fmt: skip


def _gap(framed: Framed, sizes: FrameSizes) -> Iterator[Finding]:
    least = min(
        sizes.gap_mm - shift.most_mm - grown
        for shift, grown in zip(sizes.shifts, sizes.panel_grows_mm, strict=True)
    )
    if least >= 0.0:
        return
    origin = f"{framed.origin}.frame.gap"
    new = number_text(sizes.asked_gap_mm, 1)
    yield Finding(
        code="framed.gap_small", severity=Severity.STOP, origin=origin, at="gap",
        value=Band(least, least, sizes.gap_mm), limit=0.0, unit="mm",
        message=said(
            "A gap of {gap:mm} closes in the damp season: {short:mm} are missing on each side.",
            gap=sizes.gap_mm, short=-least,
        ),
        why=said("The members of the frame grow in width and the panel a little; then they press it out."),
        source=RECKONED, weakest=sizes.shifts[0].status,
        remedies=(
            Remedy(
                "framed.gap", said("Leave {gap:mm} on each side.", gap=sizes.asked_gap_mm),
                (Change(origin, number_text(sizes.gap_mm, 1), new),),
                certain(least + sizes.asked_gap_mm - sizes.gap_mm),
            ),
        ),
    )  # fmt: skip


def _cover(framed: Framed, sizes: FrameSizes) -> Iterator[Finding]:
    """The ledge still holds the panel when the frame is dry and the panel lies against one side."""
    widest = sizes.gap_mm - min(shift.least_mm for shift in sizes.shifts)
    held = framed.frame.ledge - 2 * widest
    if held >= COVER_MM:
        return
    wider = framed.frame.ledge + COVER_MM - held
    yield Finding(
        code="framed.cover_small", severity=Severity.WEIGH, origin=f"{framed.origin}.frame.ledge", at="ledge",
        value=certain(held), limit=COVER_MM, unit="mm",
        message=said(
            "When the panel lies against one side, {held:mm} of the ledge hold it at the other.", held=held
        ),
        why=said("In the dry season the gap is {gap:mm} on each side.", gap=widest),
        source="common practice", weakest=Status.PRACTICE,
        remedies=(
            Remedy(
                "framed.ledge", said("Make the ledge {wide:mm} wide.", wide=wider),
                (
                    Change(
                        f"{framed.origin}.frame.ledge",
                        number_text(framed.frame.ledge, 1),
                        number_text(wider, 1),
                    ),
                ),
            ),
        ),
    )  # fmt: skip


def _thicker(framed: Framed, sizes: FrameSizes) -> Remedy:
    lip = framed.frame.lip if framed.frame.seat != "rebate" else 0.0
    least = sizes.seat_depth_mm + lip + LEDGE_LEFT_MM
    return Remedy(
        "framed.thicker",
        said("Make the frame {thick:mm} thick.", thick=least),
        (
            Change(
                f"{framed.origin}.frame.thickness",
                number_text(framed.frame.thickness, 1),
                number_text(least + 0.049, 1),
            ),
        ),
    )


def _stop(
    code: str, origin: str, at: str, value: float, limit: float, message: Said, *remedies: Remedy
) -> Finding:
    return Finding(
        code=code, severity=Severity.STOP, origin=origin, at=at, value=certain(value), limit=limit, unit="mm",
        message=message, source="sum of the sizes", remedies=remedies,
    )  # fmt: skip
