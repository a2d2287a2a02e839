"""Corners built of pieces: can they be made, does the grain hold, do they move under a facing?"""

from collections.abc import Iterator
from math import ceil

from evenface.checks.question import Asked
from evenface.checks.wood_moves import movement_across
from evenface.construction import BuiltCorner
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Meeting
from evenface.shape.corner_pieces import CurvedBlank, bent_strips
from evenface.words import said

STRAIN = rule("bend-strain")
RUN_OUT = rule("grain-run-out")
UNDER = rule("edging-width-under")


def check_corner_pieces(asked: Asked) -> Iterator[Finding]:
    """Findings `corner.cannot_be_built`, `corner.short_grain`, `corner.moves` and `corner.strain`."""
    for corner in asked.panel.corners:
        if corner.fault:
            yield _cannot(corner)
            continue
        if corner.blank is not None:
            yield from _short_grain(corner, corner.blank)
            yield from _moves(asked, corner, corner.blank)
        yield from _strain(corner)


def _cannot(corner: BuiltCorner) -> Finding:
    return Finding(
        code="corner.cannot_be_built",
        severity=Severity.STOP,
        origin=corner.origin,
        at=corner.at.value,
        message=said(
            "The {corner:word} corner cannot be built as {how:word}: {why:word}.",
            corner=corner.at.value,
            how=corner.construction,
            why=corner.fault,
        ),
        source="geometry of the corner",
        remedies=(
            Remedy(
                "corner.rounded",
                said("Leave the edgings straight and round them afterwards."),
                (Change(f"{corner.origin}.construction", corner.construction, "rounded"),),
            ),
        ),
    )


def _short_grain(corner: BuiltCorner, blank: CurvedBlank) -> Iterator[Finding]:
    if blank.run_out_deg <= RUN_OUT.nominal + 1e-9:
        return
    pieces = ceil(45.0 / RUN_OUT.nominal - 1e-9)
    construction = Change(f"{corner.origin}.construction", corner.construction, "ring")
    changes = (Change(f"{corner.origin}.pieces", str(blank.count), str(pieces)),)
    yield Finding(
        code="corner.short_grain",
        severity=Severity.WEIGH,
        origin=corner.origin,
        at=corner.at.value,
        value=certain(blank.run_out_deg),
        limit=RUN_OUT.nominal,
        unit="°",
        message=said(
            "At the {corner:word} corner the grain runs out by {angle:deg} at the ends of the rounding.",
            corner=corner.at.value,
            angle=blank.run_out_deg,
        ),
        why=said("Short grain breaks away under the cutter and in use, and takes a finish darker."),
        source=RUN_OUT.source,
        weakest=RUN_OUT.status,
        remedies=(
            Remedy(
                "corner.segments",
                said("Build it as a ring of {pieces:count} segments.", pieces=pieces),
                changes if corner.construction == "ring" else (construction, *changes),
                certain(45.0 / pieces),
            ),
            Remedy(
                "corner.strips",
                said("Bend it from thin strips: the grain then follows the edge."),
                (Change(f"{corner.origin}.construction", corner.construction, "strips"),),
                certain(0.0),
            ),
        ),
    )


def _moves(asked: Asked, corner: BuiltCorner, blank: CurvedBlank) -> Iterator[Finding]:
    """A piece wider across its grain than an edging may be under a facing moves as an insert does."""
    edging = corner.edging
    if edging is None or blank.across_grain_mm <= UNDER.high + 1e-9:
        return
    if not any(edging.meets(face.role) is Meeting.UNDER for face in asked.panel.faces):
        return
    moves = movement_across(asked.job, edging.wood, blank.across_grain_mm)
    yield Finding(
        code="corner.moves",
        severity=Severity.WEIGH,
        origin=corner.origin,
        at=corner.at.value,
        value=certain(blank.across_grain_mm),
        limit=UNDER.high,
        unit="mm",
        message=said(
            "The piece in the {corner:word} corner is {across:mm} across its grain under the facing and moves "
            "{least:mm2} to {most:mm2} in a year.",
            corner=corner.at.value,
            across=blank.across_grain_mm,
            least=moves.low,
            most=moves.high,
        ),
        why=said(
            "The board beside it hardly moves, so its joint shows through a thin facing; "
            "the limit for edging holds for corner pieces too."
        ),
        source=UNDER.source,
        weakest=UNDER.status,
        remedies=(
            Remedy(
                "corner.flush",
                said("Let the edging stand flush with the facing, so that no facing lies over the piece."),
                (Change(f"{edging.origin}.section", "under", "flush"),),
            ),
            Remedy("corner.less", said("Take a smaller radius, which needs a smaller piece.")),
        ),
    )


def _strain(corner: BuiltCorner) -> Iterator[Finding]:
    bend = corner.strips
    if bend is None or bend.strain <= STRAIN.high + 1e-9:
        return
    better = bent_strips(corner.radius_mm, corner.widths_mm[0])
    yield Finding(
        code="corner.strain",
        severity=Severity.WEIGH,
        origin=corner.origin,
        at=corner.at.value,
        value=certain(100 * bend.strain),
        limit=100 * STRAIN.high,
        unit="%",
        message=said(
            "Strips of {thick:mm2} bent round the {corner:word} corner stretch by {strain:percent}; air-dry "
            "wood bears {low:percent} to {high:percent}.",
            thick=bend.thickness_mm,
            corner=corner.at.value,
            strain=bend.strain,
            low=STRAIN.low,
            high=STRAIN.high,
        ),
        why=said("The outer face of each strip tears, or the strips spring open at the ends."),
        source=STRAIN.source,
        weakest=STRAIN.status,
        remedies=(
            Remedy(
                "corner.thinner_strips",
                said(
                    "Take {count:count} strips of {thick:mm2}.",
                    count=better.count,
                    thick=better.thickness_mm,
                ),
                (Change(f"{corner.origin}.pieces", str(bend.count), str(better.count)),),
                certain(100 * better.strain),
            ),
        ),
    )
