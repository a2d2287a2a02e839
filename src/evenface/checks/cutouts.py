"""Are the inner corners of cut-outs round enough, and is there enough left round them?"""

from collections.abc import Iterator

from evenface.checks.question import Asked
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Cutout
from evenface.shape.outline import Outline
from evenface.shape.ring import turn_at
from evenface.shape.segment import Segment
from evenface.shape.template_board import corner_holes
from evenface.words import said

SHARP_RAD = 0.02
"""A turn of more than about a degree between two sides is a corner that can start a crack."""

STOP = rule("inner-radius-stop")
WEIGH = rule("inner-radius-weigh")


def least_inner_radius(outline: Outline) -> float:
    """The smallest radius in the corners of an opening; 0 where two straight sides meet. [mm]"""
    segments = [segment for segment in outline.segments if segment.length > 1e-9]
    radii = [segment.radius for segment in segments if segment.is_arc]
    if not radii or any(
        _sharp(one, other) for one, other in zip(segments, segments[1:] + segments[:1], strict=True)
    ):
        return 0.0
    return min(radii)


def _sharp(one: Segment, other: Segment) -> bool:
    return abs(turn_at(one, other)) > SHARP_RAD


def check_cutouts(asked: Asked) -> Iterator[Finding]:
    """Findings `cutout.inner_radius` and the cautions of openings for water, gas and electricity."""
    laminated = any(face.material.is_laminate for face in asked.panel.faces)
    for cutout in asked.panel.panel.cutouts:
        if laminated:
            yield from _radius(asked, cutout)
            yield from _drill_first(cutout)
        if cutout.service in ("water", "gas", "electricity"):
            yield _service(cutout)


def _radius(asked: Asked, cutout: Cutout) -> Iterator[Finding]:
    radius = least_inner_radius(cutout.outline)
    if radius >= WEIGH.nominal - 1e-9:
        return
    breaks = radius < STOP.nominal - 1e-9
    yield Finding(
        code="cutout.inner_radius",
        severity=Severity.STOP if breaks else Severity.WEIGH,
        origin=cutout.origin,
        at=cutout.name,
        value=certain(radius),
        limit=STOP.nominal if breaks else WEIGH.nominal,
        unit="mm",
        message=said(
            "The inner corners of {name} have a radius of {radius:mm}; sources ask for {stop:mm} at least "
            "and {weigh:mm} to be safe.",
            name=cutout.name,
            radius=radius,
            stop=STOP.nominal,
            weigh=WEIGH.nominal,
        ),
        why=said("A laminate shrinks in dry months and tears from the sharpest inner corner."),
        source=f"{STOP.source}; {WEIGH.source}",
        weakest=WEIGH.status,
        remedies=(
            Remedy(
                "cutout.larger_radius",
                said("Round them to {radius:mm} or more; drill the corners first.", radius=WEIGH.nominal),
                (Change(f"{cutout.origin}.radius", f"{radius:g}", f"{WEIGH.nominal:g}"),),
            ),
        ),
    )


def _drill_first(cutout: Cutout) -> Iterator[Finding]:
    holes = corner_holes(cutout.outline)
    if not holes:
        return
    sizes = [hole.diameter_mm for hole in holes]
    least, most = min(sizes), max(sizes)
    yield Finding(
        code="cutout.drill_first",
        severity=Severity.NOTE,
        origin=cutout.origin,
        at=cutout.name,
        message=said(
            "Drill the corners of {name} first: {count:count} holes of {size:mm}, then cut from hole to hole.",
            name=cutout.name,
            count=len(holes),
            size=least,
        )
        if most - least < 1e-6
        else said(
            "Drill the corners of {name} first: {count:count} holes of {least:mm} to {most:mm}, then cut from "
            "hole to hole.",
            name=cutout.name,
            count=len(holes),
            least=least,
            most=most,
        ),
        why=said("A saw or cutter that overruns a corner leaves the notch from which laminate tears."),
        source="common practice",
        weakest=Status.PRACTICE,
    )


def _service(cutout: Cutout) -> Finding:
    return Finding(
        code="cutout.service",
        severity=Severity.NOTE,
        origin=cutout.origin,
        at=cutout.name,
        message=said(
            "{name} is for {service:word}: connecting it belongs to licensed people, and local rules come first.",
            name=cutout.name,
            service=cutout.service,
        ),
        source="usual caution",
    )
