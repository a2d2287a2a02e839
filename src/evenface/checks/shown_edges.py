"""What is seen of a facing where a profile runs through it."""

from collections.abc import Iterator

from evenface.checks.profiles import along_edges, names_of
from evenface.checks.question import Asked
from evenface.construction import BuiltPanel, FaceLayer
from evenface.construction.shapes import profile_of
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Meeting, Profile, Role, Side
from evenface.shape.faults import ShapeError
from evenface.shape.profile import Band, band
from evenface.words import said

WANDER = rule("profile-wander")
ERROR = rule("profile-height-error")
CHAMFER_MM = 1.0
"""A chamfer at the face that hands still feel as rounded: common practice."""


def check_shown_edges(asked: Asked) -> Iterator[Finding]:
    """Findings `profile.band` and `profile.wander` for profiles through a facing that lies over the edging."""
    panel = asked.panel
    for profiles, sides in along_edges(panel):
        for profile in profiles:
            face = panel.face(Role.FACE if profile.face == "top" else Role.BACK)
            seen = tuple(side for side in sides if face and _lies_over(panel, side, face))
            if face is None or not seen:
                continue
            try:
                shown = band(profile_of(profile), 0.0, face.thickness.nominal, ERROR.nominal)
            except ShapeError:
                continue  # a finding of its own
            yield _band(profile, face, seen, shown)
            if shown.wander_mm > WANDER.nominal + 1e-9:
                yield _wander(profile, seen, shown)


def _lies_over(panel: BuiltPanel, side: Side, face: FaceLayer) -> bool:
    edging = panel.edging(side)
    return edging is None or edging.meets(face.role) is Meeting.UNDER


def _band(profile: Profile, face: FaceLayer, sides: tuple[Side, ...], shown: Band) -> Finding:
    return Finding(
        code="profile.band",
        severity=Severity.NOTE,
        origin=profile.origin,
        at=names_of(sides),
        value=certain(shown.true_width_mm),
        unit="mm",
        message=said(
            "The {shape:word} cuts through the facing: its edge of {thick:mm} shows as a band {true:mm2} wide, "
            "{above:mm2} seen from above.",
            shape=profile.shape,
            thick=face.thickness.nominal,
            true=shown.true_width_mm,
            above=shown.from_above_mm,
        ),
        source="geometry of the profile",
    )


def _wander(profile: Profile, sides: tuple[Side, ...], shown: Band) -> Finding:
    return Finding(
        code="profile.wander",
        severity=Severity.WEIGH,
        origin=profile.origin,
        at=names_of(sides),
        value=certain(shown.wander_mm),
        limit=WANDER.nominal,
        unit="mm",
        message=said(
            "The line where the facing ends wanders by {wander:mm2} for {error:mm2} in the cutter's height.",
            wander=shown.wander_mm,
            error=ERROR.nominal,
        ),
        why=said("The profile leaves the face without an angle, so every dip of the face moves its line."),
        source="geometry of the profile",
        weakest=WANDER.status,
        remedies=(
            Remedy(
                "profile.chamfer",
                said("Take a chamfer of {size:mm}: its line follows the cutter one to one.", size=CHAMFER_MM),
                (
                    Change(f"{profile.origin}.shape", profile.shape, "chamfer"),
                    Change(f"{profile.origin}.height", "", f"{CHAMFER_MM:g}"),
                ),
                certain(ERROR.nominal),
            ),
            Remedy(
                "profile.quirk",
                said("Set the cutter a little deep, so that a small step marks the line."),
            ),
        ),
    )
