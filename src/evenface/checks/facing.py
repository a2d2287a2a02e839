"""Is the facing one that can be had, and fit for where it lies?"""

from collections.abc import Iterator

from evenface.checks.question import Asked
from evenface.construction import FaceLayer
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.piece.records import Role
from evenface.units import number_text
from evenface.words import said

THICKNESS_SPREAD = 0.13
"""A sheet may measure so much off its named thickness and still be that sheet. [mm]"""
LINOLEUM_SPREAD = 0.25


def check_facing(asked: Asked) -> Iterator[Finding]:
    """Findings `facing.thickness_not_sold`, `facing.grade`, `facing.not_decorative`."""
    for face in asked.panel.faces:
        yield from _thickness(face)
        if face.role is Role.FACE:
            yield from _grade(asked, face)


def _thickness(face: FaceLayer) -> Iterator[Finding]:
    sold = face.material.sold_thicknesses_mm
    given = face.thickness.nominal
    spread = LINOLEUM_SPREAD if face.material.family == "linoleum" else THICKNESS_SPREAD
    if not sold or any(abs(given - thickness) <= spread for thickness in sold):
        return
    nearest = min(sold, key=lambda thickness: abs(thickness - given))
    yield Finding(
        code="facing.thickness_not_sold",
        severity=Severity.STOP,
        origin=face.origin,
        at=face.role.value,
        value=certain(given),
        limit=nearest,
        unit="mm",
        message=said(
            "{title:word} is not sold {given:mm} thick; it is sold in {sold} mm.",
            title=face.material.title,
            given=given,
            sold=", ".join(number_text(thickness, 2) for thickness in sold),
        ),
        source=face.material.source,
        weakest=face.material.thickness.status,
        remedies=(Remedy("facing.nearest", said("The nearest sold is {nearest:mm}.", nearest=nearest)),),
    )


def _grade(asked: Asked, face: FaceLayer) -> Iterator[Finding]:
    if face.material.grade == "vertical" and asked.panel.panel.use in ("top", "shelf"):
        yield Finding(
            code="facing.grade",
            severity=Severity.WEIGH,
            origin=face.origin,
            at="face",
            message=said(
                "{title:word} is a grade for upright surfaces; this is a {use:word}.",
                title=face.material.title,
                use=asked.panel.panel.use,
            ),
            why=said("It has a thinner wearing layer and less core behind it against knocks."),
            source=face.material.source,
            weakest=face.material.thickness.status,
            remedies=(
                Remedy("facing.horizontal", said("Take a horizontal grade, usually 0.8 mm or thicker.")),
            ),
        )
    if not face.material.decorative:
        yield Finding(
            code="facing.not_decorative",
            severity=Severity.WEIGH,
            origin=face.origin,
            at="face",
            message=said(
                "{title:word} has no decor and no wearing layer, and lies on the show face.",
                title=face.material.title,
            ),
            source=face.material.source,
        )
