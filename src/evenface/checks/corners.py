"""Does a rounded corner stay inside the solid wood, at every depth of the profile?"""

import math
from collections.abc import Iterator

from evenface.checks.question import Asked
from evenface.construction import BuiltPanel
from evenface.construction.corner_pieces import profile_depth_inside
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Corner
from evenface.shape.corner import clip_legs, corner_reserve, largest_radius, smallest_width
from evenface.words import said

RESERVE = rule("corner-reserve")


def check_corners(asked: Asked) -> Iterator[Finding]:
    """Findings `corner.through` and `corner.thin` for straight edging rounded afterwards."""
    for corner in asked.panel.panel.corners:
        if corner.shape == "radius" and corner.size_mm > 0 and corner.construction == "rounded":
            yield from _rounded(asked.panel, corner)


def _rounded(panel: BuiltPanel, corner: Corner) -> Iterator[Finding]:
    radius = corner.size_mm
    widths = (panel.edging_width_mm(corner.at.along_length), panel.edging_width_mm(corner.at.along_width))
    if min(widths) <= 0:
        return  # no edging to break through: the carrier's own corner is rounded
    reserve = RESERVE.nominal if corner.reserve_mm is None else corner.reserve_mm
    depth = profile_depth_inside(panel, (corner.at.along_length, corner.at.along_width))
    left = corner_reserve(radius, *widths) - depth
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
            "At the {corner:word} corner a radius of {radius:mm} cuts {out:mm2} into the carrier."
            if through
            else "At the {corner:word} corner a radius of {radius:mm} leaves only {out:mm2} of wood.",
            corner=corner.at.value,
            radius=radius,
            out=abs(left),
        ),
        why=said(
            "The square corner inside the edging lies {distance:mm2} inside the rounded outline; the profile is "
            "{depth:mm2} deep beside it.",
            distance=left + depth,
            depth=depth,
        ),
        source=RESERVE.source,
        weakest=Status.DERIVED,
        remedies=tuple(_remedies(panel, corner, widths, reserve + depth)),
    )


def _remedies(
    panel: BuiltPanel, corner: Corner, widths: tuple[float, float], wood: float
) -> Iterator[Remedy]:
    radius = corner.size_mm
    width = math.ceil(10 * smallest_width(radius, wood)) / 10
    yield Remedy(
        "corner.wider_edging",
        said("Make both edgings {width:mm} wide.", width=width),
        tuple(
            Change(f"{edging.origin}.width", f"{edging.width_mm:g}", f"{width:g}")
            for side in (corner.at.along_length, corner.at.along_width)
            if (edging := panel.edging(side))
        ),
    )
    if min(widths) >= wood:
        largest = math.floor(10 * largest_radius(widths[0], wood, widths[1])) / 10
        yield Remedy(
            "corner.smaller_radius",
            said("Take a radius of at most {radius:mm}.", radius=largest),
            (Change(f"{corner.origin}.radius", f"{radius:g}", f"{largest:g}"),),
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
        )
