"""Are the inner corners of cut-outs round enough, and is there enough left round them?"""

from collections.abc import Iterator

from evenface.checks.inner_radius import inner_radius, least_inner_radius
from evenface.checks.question import Asked
from evenface.evidence import Status
from evenface.finding import Finding, Severity
from evenface.piece.records import Cutout
from evenface.shape.template_board import corner_holes
from evenface.words import said


def check_cutouts(asked: Asked) -> Iterator[Finding]:
    """Findings `cutout.inner_radius` and the cautions of openings for water, gas and electricity."""
    laminated = any(face.material.is_laminate for face in asked.panel.faces)
    for cutout in asked.panel.panel.cutouts:
        if laminated:
            radius = least_inner_radius(cutout.outline)
            longest = max(cutout.outline.size)
            yield from inner_radius(asked.panel, radius, longest, cutout.name, f"{cutout.origin}.radius")
            yield from _drill_first(cutout)
        if cutout.service in ("water", "gas", "electricity"):
            yield service_caution(cutout.name, cutout.service, cutout.origin)


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


def service_caution(name: str, service: str, origin: str) -> Finding:
    """Connecting water, gas and electricity is not the maker's work."""
    return Finding(
        code="cutout.service",
        severity=Severity.NOTE,
        origin=origin,
        at=name,
        message=said(
            "{name} is for {service:word}: connecting it belongs to licensed people, and local rules come first.",
            name=name,
            service=service,
        ),
        source="usual caution",
    )
