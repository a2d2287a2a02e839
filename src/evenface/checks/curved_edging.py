"""Edging along the arcs of a free outline: roundings worked in afterwards, bends, segments."""

from collections.abc import Iterator
from math import ceil, floor, radians

from evenface.checks.question import Asked
from evenface.construction import EdgePiece
from evenface.construction.free_outlines import Rounding, roundings_of, way_of
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.shape.corner_pieces import bent_strips
from evenface.shape.edged import rounding_radius, rounding_reserve, rounding_width
from evenface.words import said

STRAIN = rule("bend-strain")
RUN_OUT = rule("grain-run-out")
RESERVE = rule("corner-reserve")


def check_curved_edging(asked: Asked) -> Iterator[Finding]:
    """Findings `outline.rounding`, `edging.bend_strain`, `edging.short_grain` and `edging.tight_arc`."""
    panel = asked.panel
    for rounding in roundings_of(panel):
        if not rounding.afterwards and way_of(panel) == "rounded":
            yield _rounding(asked, rounding)
    for piece in panel.edge_pieces:
        if piece.strips is not None and piece.strips.strain > STRAIN.high + 1e-9:
            yield _strain(asked, piece)
        if piece.blank is not None and piece.blank.run_out_deg > RUN_OUT.nominal + 1e-9:
            yield _short_grain(asked, piece)
        if piece.kind == "sawn":
            yield _tight(piece)


def _rounding(asked: Asked, rounding: Rounding) -> Finding:
    """Why an arc is built of pieces of its own, and what would let straight edging carry it."""
    return Finding(
        code="outline.rounding",
        severity=Severity.NOTE,
        origin=f"{asked.panel.origin}.outline",
        at=f"arc {rounding.number + 1}",
        value=certain(rounding.left_mm),
        limit=rounding.wood_mm,
        unit="mm",
        message=said(
            "Rounded to {radius:mm}, straight edging would leave {left:mm2} of wood before the carrier, "
            "{wood:mm2} are wanted: the arc gets pieces of its own.",
            radius=rounding.radius_mm,
            left=rounding.left_mm,
            wood=rounding.wood_mm,
        )
        if rounding.left_mm < rounding.wood_mm
        else said(
            "The two edgings of a rounding of {radius:mm} are unlike and cannot be mitred: the arc gets pieces of "
            "its own.",
            radius=rounding.radius_mm,
        ),
        source=RESERVE.source,
        weakest=Status.DERIVED,
        remedies=tuple(_remedies(asked, rounding)) if rounding.left_mm < rounding.wood_mm else (),
    )


def _remedies(asked: Asked, rounding: Rounding) -> Iterator[Remedy]:
    turn, wood = radians(rounding.turn_deg), rounding.wood_mm
    width = ceil(10 * rounding_width(rounding.radius_mm, turn, wood) - 1e-6) / 10
    yield Remedy(
        "outline.wider_edging",
        said("Make both edgings {width:mm} wide.", width=width),
        tuple(
            Change(f"{edging.origin}.width", f"{edging.width_mm:g}", f"{width:g}")
            for edging in dict.fromkeys(asked.panel.edging(side) for side in rounding.sides)
            if edging is not None
        ),
        certain(rounding_reserve(rounding.radius_mm, turn, width, width)),
    )
    narrow = min(rounding.widths_mm)
    if narrow >= wood:
        radius = floor(10 * rounding_radius(narrow, turn, wood) + 1e-6) / 10
        if 0 < radius < rounding.radius_mm:
            yield Remedy(
                "outline.smaller_radius",
                said("Take a radius of at most {radius:mm} there.", radius=radius),
                (),
                certain(rounding_reserve(radius, turn, *rounding.widths_mm)),
            )


def _strain(asked: Asked, piece: EdgePiece) -> Finding:
    bend = piece.strips
    if bend is None:
        raise ValueError("expected a piece bent of strips")
    better = bent_strips(bend.outer_radius_mm, piece.width_mm, sweep_deg=piece.sweep_deg)
    corners = asked.panel.panel.corners
    return Finding(
        code="edging.bend_strain",
        severity=Severity.WEIGH,
        origin=piece.origin,
        at=f"arc {piece.number}",
        value=certain(100 * bend.strain),
        limit=100 * STRAIN.high,
        unit="%",
        message=said(
            "Strips of {thick:mm2} bent to a radius of {radius:mm} stretch by {strain:percent}; air-dry wood "
            "bears {low:percent} to {high:percent}.",
            thick=bend.thickness_mm,
            radius=piece.radius_mm,
            strain=bend.strain,
            low=STRAIN.low,
            high=STRAIN.high,
        ),
        why=said("The outer face of each strip tears, or the strips spring open at the ends."),
        source=STRAIN.source,
        weakest=STRAIN.status,
        remedies=(
            Remedy(
                "edging.thinner_strips",
                said(
                    "Take {count:count} strips of {thick:mm2}.", count=better.count, thick=better.thickness_mm
                ),
                (Change(f"{corners[0].origin}.pieces", str(bend.count), str(better.count)),)
                if corners
                else (),
                certain(100 * better.strain),
            ),
        ),
    )


def _short_grain(asked: Asked, piece: EdgePiece) -> Finding:
    blank = piece.blank
    if blank is None:
        raise ValueError("expected a piece built of segments")
    pieces = ceil(piece.sweep_deg / 2 / RUN_OUT.nominal - 1e-9)
    corners = asked.panel.panel.corners
    return Finding(
        code="edging.short_grain",
        severity=Severity.WEIGH,
        origin=piece.origin,
        at=f"arc {piece.number}",
        value=certain(blank.run_out_deg),
        limit=RUN_OUT.nominal,
        unit="°",
        message=said(
            "On an arc of radius {radius:mm} the grain of {count:count} segments runs out by {angle:deg} at their "
            "ends.",
            radius=piece.radius_mm,
            count=blank.count,
            angle=blank.run_out_deg,
        ),
        why=said("Short grain breaks away under the cutter and in use, and takes a finish darker."),
        source=RUN_OUT.source,
        weakest=RUN_OUT.status,
        remedies=(
            Remedy(
                "edging.segments",
                said("Take {pieces:count} segments.", pieces=pieces),
                (Change(f"{corners[0].origin}.pieces", str(blank.count), str(pieces)),) if corners else (),
                certain(piece.sweep_deg / 2 / pieces),
            ),
        ),
    )


def _tight(piece: EdgePiece) -> Finding:
    largest = floor(10 * piece.radius_mm - 1e-6) / 10
    return Finding(
        code="edging.tight_arc",
        severity=Severity.WEIGH,
        origin=piece.origin,
        at=f"arc {piece.number}",
        value=certain(piece.radius_mm),
        limit=piece.width_mm,
        unit="mm",
        message=said(
            "An arc of radius {radius:mm} is tighter than its edging of {width:mm}: neither strips nor segments go "
            "round it, it is sawn from wide board.",
            radius=piece.radius_mm,
            width=piece.width_mm,
        ),
        why=said("Its grain runs out to the end of the arc."),
        source="geometry of the outline",
        remedies=(
            Remedy(
                "edging.narrower",
                said("Make the edging at most {width:mm} wide there.", width=largest),
                (Change(f"{piece.edging.origin}.width", f"{piece.width_mm:g}", f"{largest:g}"),),
                certain(piece.radius_mm - largest),
            ),
        )
        if largest > 0
        else (),
    )
