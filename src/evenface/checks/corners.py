"""Does a rounded or chamfered corner stay inside the solid wood, at every depth of the profile?"""

import math
from collections.abc import Iterator

from evenface.checks.question import Asked
from evenface.construction import BuiltPanel
from evenface.construction.profile_depth import profile_depth_inside
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Corner
from evenface.shape.corner import clip_legs, corner_reserve, largest_radius, smallest_width
from evenface.words import said

RESERVE = rule("corner-reserve")


def check_corners(asked: Asked) -> Iterator[Finding]:
    """Findings `corner.through` and `corner.thin` for straight edging rounded or chamfered afterwards."""
    for corner in asked.panel.panel.corners:
        if corner.size_mm <= 0 or corner.construction != "rounded":
            continue
        if corner.shape in ("radius", "chamfer"):
            yield from _rounded(asked.panel, corner)


def _rounded(panel: BuiltPanel, corner: Corner) -> Iterator[Finding]:
    radius = corner.size_mm
    widths = (panel.edging_width_mm(corner.at.along_length), panel.edging_width_mm(corner.at.along_width))
    if min(widths) <= 0:
        return  # no edging to break through: the carrier's own corner is rounded
    reserve = RESERVE.nominal if corner.reserve_mm is None else corner.reserve_mm
    depth = profile_depth_inside(panel, (corner.at.along_length, corner.at.along_width))
    chamfer = corner.shape == "chamfer"
    left = (_beside_chamfer(radius, *widths) if chamfer else corner_reserve(radius, *widths)) - depth
    if left >= reserve - 1e-9:
        return
    through = left < 0
    yield Finding(
        code="corner.through" if through else "corner.thin",
        severity=Severity.STOP if through else Severity.WEIGH,
        origin=corner.origin,
        at=corner.at.value,
        value=certain(left),
        limit=reserve,
        unit="mm",
        message=said(
            "At the {corner:word} corner a {shape:word} of {radius:mm} cuts {out:mm2} into the carrier."
            if through
            else "At the {corner:word} corner a {shape:word} of {radius:mm} leaves only {out:mm2} of wood.",
            corner=corner.at.value,
            shape=corner.shape,
            radius=radius,
            out=abs(left),
        ),
        why=said(
            "The square corner inside the edging lies {distance:mm2} inside the outline; the profile is "
            "{depth:mm2} deep beside it.",
            distance=left + depth,
            depth=depth,
        ),
        source=RESERVE.source,
        weakest=Status.DERIVED,
        remedies=tuple(
            _chamfer_remedies(corner, widths, reserve, depth)
            if chamfer
            else _remedies(panel, corner, widths, reserve, depth)
        ),
    )


def _beside_chamfer(leg_mm: float, width1_mm: float, width2_mm: float) -> float:
    """Least wood between a square carrier corner and a chamfer of equal legs: (w1 + w2 − c)/√2, or a width."""
    return min(width1_mm, width2_mm, (width1_mm + width2_mm - leg_mm) / math.sqrt(2))


def _chamfer_remedies(
    corner: Corner, widths: tuple[float, float], reserve: float, depth: float
) -> Iterator[Remedy]:
    leg = math.floor(10 * (sum(widths) - math.sqrt(2) * (reserve + depth))) / 10
    if 0 < leg < corner.size_mm:
        yield Remedy(
            "corner.smaller_chamfer",
            said("Take a chamfer of at most {leg:mm}.", leg=leg),
            (Change(f"{corner.origin}.chamfer", f"{corner.size_mm:g}", f"{leg:g}"),),
            certain(_beside_chamfer(leg, *widths) - depth),
        )


def _remedies(
    panel: BuiltPanel, corner: Corner, widths: tuple[float, float], reserve: float, depth: float
) -> Iterator[Remedy]:
    radius, wood = corner.size_mm, reserve + depth
    width = math.ceil(10 * smallest_width(radius, wood)) / 10
    yield Remedy(
        "corner.wider_edging",
        said("Make both edgings {width:mm} wide.", width=width),
        tuple(
            Change(f"{edging.origin}.width", f"{edging.width_mm:g}", f"{width:g}")
            for side in (corner.at.along_length, corner.at.along_width)
            if (edging := panel.edging(side))
        ),
        certain(corner_reserve(radius, width, width) - depth),
    )
    if min(widths) >= wood:
        largest = math.floor(10 * largest_radius(widths[0], wood, widths[1])) / 10
        yield Remedy(
            "corner.smaller_radius",
            said("Take a radius of at most {radius:mm}.", radius=largest),
            (Change(f"{corner.origin}.radius", f"{radius:g}", f"{largest:g}"),),
            certain(corner_reserve(largest, *widths) - depth),
        )
        legs = clip_legs(radius, widths[1], widths[0], wood)
        yield Remedy(
            "corner.clip",
            said(
                "Clip the carrier's corner by {leg:mm} and glue a block on the flat; a block under a thin "
                "facing moves and may show.",
                leg=max(legs),
            ),
            (Change(f"{corner.origin}.construction", corner.construction, "clipped"),),
            certain(reserve),
        )
