"""The card of bonding facings to a panel."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from evenface.construction import BuiltBoard, BuiltPanel, FaceLayer
from evenface.evidence import Status, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.materials import Glue
from evenface.piece.records import Role
from evenface.words import Said, said
from evenface.workplan import glue_pace
from evenface.workplan import glue_times as times
from evenface.workplan.clamps import force_n
from evenface.workplan.glue_amounts import POROUS, line_of
from evenface.workplan.glue_base import base_card
from evenface.workplan.glue_records import GlueCard, GlueLine
from evenface.workplan.glue_sayings import (
    FACES_WET,
    LINOLEUM_FITTED,
    LINOLEUM_WET,
    how_of,
)
from evenface.workplan.pressing import UNCOUNTED, Means, pressed, too_large
from evenface.workplan.records import Step

ON_FACES: Final = ("pva", "contact_solvent", "contact_water", "urea", "hide", "epoxy")
"""READ, trade reference: what holds facings in a small shop; epoxy from memory."""
_FOR_WATER: Final = ("D3", "D4")


def facing_card(
    step: Step, panel: BuiltPanel, means: Means = UNCOUNTED, glues: Sequence[Glue] = ()
) -> GlueCard:
    """The card of bonding the facings of a panel."""
    glue = panel.glue
    faces = [face for role in step.roles if (face := panel.face(role)) is not None]
    lines = _lines(panel, faces, glue)
    area_m2 = max(_area_m2(face) for face in faces)
    pressure = glue.pressure.nominal if glue.pressure else None
    force = force_n(pressure, area_m2 * 1e6) if pressure else None
    own = _pace(panel, faces, glue)
    others = [(one, _pace(panel, faces, one)) for one in glues if _does_too(one, panel)]
    size = (panel.length_mm, panel.width_mm)
    return replace(
        base_card(step, glue, lines, panel.count, own.needs_min),
        pressure_mpa=pressure,
        force_n=force,
        machine_after_h=times.facing_wait_h(panel),
        how=(*how_of(glue), *((FACES_WET,) if times.is_wet(glue) else ()), *_linoleum(faces, glue)),
        means=tuple(pressed(glue, area_m2, size)),
        findings=(
            *glue_pace.too_slow(step.id, panel, glue, own, others),
            *too_large(step.id, panel, glue, means),
            *unfit_for_water(step.id, panel, glue),
        ),
        order=_order(faces, glue),
    )


def lining_card(step: Step, board: BuiltBoard, glue: Glue) -> GlueCard:
    """The card of lining a board on one face. Raises ValueError for a board without lining."""
    if board.board.lining is None:
        raise ValueError(f"{step.id}: expected a board that is lined, was given {board.name!r}")
    area = board.board.length_mm * board.board.width_mm / 1e6
    lines = [line_of(said("board"), area, glue, glue.coats)]
    if glue.sides == 2:
        lines.append(line_of(said("lining"), area, glue, glue.coats))
    pace = glue_pace.pace(glue, lines, area, glue_pace.CLOSING_MIN.nominal)
    pressure = glue.pressure.nominal if glue.pressure else None
    soft = board.facing is not None and board.facing.family == "linoleum" and times.is_wet(glue)
    return replace(
        base_card(step, glue, lines, board.count, pace.needs_min),
        pressure_mpa=pressure,
        force_n=force_n(pressure, area * 1e6) if pressure else None,
        machine_after_h=max(times.press_h(glue), times.LINOLEUM_REST_H.nominal if soft else 0.0),
        how=(*how_of(glue), *((LINOLEUM_WET,) if soft else ())),
        means=tuple(pressed(glue, area, (board.board.length_mm, board.board.width_mm))),
        order=said("All boards of the box in one go, lined faces together in pairs with paper between."),
    )


def unfit_for_water(step: str, panel: BuiltPanel, glue: Glue) -> Iterator[Finding]:
    """Finding `glue.water`: a wet opening in a panel glued with less than D3."""
    wet = [cutout.name for cutout in panel.panel.cutouts if cutout.wet]
    if not wet or glue.water_class in _FOR_WATER or glue.kind == "epoxy":
        return
    yield Finding(
        code="glue.water",
        severity=Severity.WEIGH,
        origin=panel.origin,
        piece=panel.piece,
        part=panel.name,
        at=step,
        message=said(
            "{where} is wet, and {glue} is {grade}.",
            where=wet[0],
            glue=glue.title,
            grade=said("of class {grade}", grade=glue.water_class)
            if glue.water_class
            else said("of no water class"),
        ),
        value=certain(float(glue.water_class[1:]) if glue.water_class else 0.0),
        limit=3.0,
        unit="grade",
        why=said("Water that gets into the cut edge opens the joint."),
        source="EN 204: D3 for water that comes often but briefly",
        weakest=Status.READ,
        remedies=(
            Remedy("glue.class", said("Take a glue of class D3 or D4, or epoxy.")),
            Remedy("glue.seal", said("Seal the cut edge twice before anything is set into it.")),
        ),
    )


def _pace(panel: BuiltPanel, faces: Sequence[FaceLayer], glue: Glue) -> glue_pace.Pace:
    lines = _lines(panel, faces, glue)
    laid = sum(map(_area_m2, faces))
    return glue_pace.pace(glue, lines, laid, glue_pace.CLOSING_MIN.nominal, groups=len(faces))


def _does_too(glue: Glue, panel: BuiltPanel) -> bool:
    """Whether another glue may be named: made for faces, and no less against water."""
    if glue.name == panel.glue.name or glue.kind not in ON_FACES:
        return False
    wet = any(cutout.wet for cutout in panel.panel.cutouts)
    return not wet or glue.water_class in _FOR_WATER or glue.kind == "epoxy"


def _lines(panel: BuiltPanel, faces: Sequence[FaceLayer], glue: Glue) -> tuple[GlueLine, ...]:
    return tuple(line for face in faces for line in _face_lines(panel, face, glue))


def _face_lines(panel: BuiltPanel, face: FaceLayer, glue: Glue) -> Iterator[GlueLine]:
    area = _area_m2(face)
    thirsty = times.is_contact(glue) and panel.carrier.material.board in POROUS
    coats = max(2, glue.coats) if thirsty else glue.coats
    name = "carrier, face side" if face.role is Role.FACE else "carrier, back side"
    yield line_of(said("{name:word}", name=name), area, glue, coats)
    if glue.sides == 2:
        name = "facing" if face.role is Role.FACE else "back sheet"
        yield line_of(said("{name:word}", name=name), area, glue, glue.coats)


def _area_m2(face: FaceLayer) -> float:
    return face.rectangle.length_mm * face.rectangle.width_mm / 1e6


def _linoleum(faces: Sequence[FaceLayer], glue: Glue) -> Iterator[Said]:
    soft = [face for face in faces if face.material.family == "linoleum"]
    if not soft or not times.is_wet(glue):
        return
    yield LINOLEUM_WET
    if any(face.fitted for face in soft):
        yield LINOLEUM_FITTED


def _order(faces: Sequence[FaceLayer], glue: Glue) -> Said:
    if len(faces) == 1:
        return said("One face only: the bare one gets nothing that balances it, so watch the bow.")
    if times.is_contact(glue):
        return said("Back first: lay, roll, turn over; then the face. Both the same day.")
    return said(
        "Stack from below: caul, back, carrier, face, caul, paper between. Both faces in one pressing."
    )
