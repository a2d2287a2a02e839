"""Inner corners through a laminate: what its grade asks for, and where the sources disagree."""

from collections.abc import Iterator

from evenface.construction import BuiltPanel
from evenface.evidence import Value, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials import Facing
from evenface.materials.rules import rule
from evenface.shape.outline import Outline
from evenface.shape.ring import turn_at
from evenface.shape.segment import Segment
from evenface.words import said

SHARP_RAD = 0.02
"""A turn of more than about a degree between two sides is a corner that can start a crack."""

STOP = rule("inner-radius-stop")
WEIGH = rule("inner-radius-weigh")
LONG_MM = 250.0
"""The trade association's radius holds up to this side; beyond it says only: larger."""


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


def limits_of(panel: BuiltPanel) -> tuple[Facing | None, Value, Value]:
    """The laminate of the panel that asks for most, with the radius below which it breaks, or may break."""
    laminates = [face.material for face in panel.faces if face.material.is_laminate]
    if not laminates:
        return None, STOP, WEIGH
    hardest = max(laminates, key=lambda one: (one.inner_radius_weigh or WEIGH).high)
    return hardest, hardest.inner_radius_stop or STOP, hardest.inner_radius_weigh or WEIGH


def inner_radius(
    panel: BuiltPanel, radius_mm: float, longest_mm: float, name: str, key: str
) -> Iterator[Finding]:
    """Finding `cutout.inner_radius`; key is the place in the job file where the radius is written.

    An opening longer than 250 mm is told so even at the radius usually safe: there one source asks for more
    without a number.
    """
    facing, stop, weigh = limits_of(panel)
    if facing is None:
        return
    large = longest_mm > LONG_MM + 1e-9
    if radius_mm >= (weigh.high if large else weigh.nominal) - 1e-9:
        return
    breaks = radius_mm < stop.nominal - 1e-9
    aim = weigh.high if large else weigh.nominal
    yield Finding(
        code="cutout.inner_radius",
        severity=Severity.STOP if breaks else Severity.WEIGH,
        origin=key.rpartition(".")[0],
        at=name,
        value=certain(radius_mm),
        limit=stop.nominal if breaks else aim,
        unit="mm",
        message=said(
            "The inner corners of {name} have a radius of {radius:mm}; sources ask for {stop:mm} at least "
            "and {weigh:mm} to be safe.",
            name=name,
            radius=radius_mm,
            stop=stop.nominal,
            weigh=aim,
        ),
        why=said(
            "A laminate shrinks in dry months and tears from the sharpest inner corner; {facing} is of {grade:word} "
            "grade.",
            facing=facing.title,
            grade=facing.grade or "no",
        ),
        source=f"{stop.source}; {weigh.source}",
        weakest=weigh.status,
        remedies=(
            Remedy(
                "cutout.larger_radius",
                said("Round them to {radius:mm} or more; drill the corners first.", radius=aim),
                (Change(key, f"{radius_mm:g}", f"{aim:g}"),),
            ),
        ),
    )
