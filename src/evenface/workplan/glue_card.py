"""Everything about one bonding on one card: amount, time, climate, pressure, and when it may be worked.

Amounts after the trade's formula: area × spread × coats × (1 + 10 %). Spreading by hand: 10 m² an hour
(trade reference, from memory); closing and laying times are own estimates.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from evenface.construction import BuiltPanel, FaceLayer
from evenface.evidence import Band, Status, Value
from evenface.finding import Finding, Remedy, Severity
from evenface.materials import Glue
from evenface.materials.rules import rule
from evenface.piece.records import Role
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.clamps import Clamping, clamp_strip, force_n
from evenface.workplan.glue_sayings import HOW, LINOLEUM_WET, why_this_glue
from evenface.workplan.pressing import clamped, pressed
from evenface.workplan.records import PanelToMake, Step, Work

WASTE: Final = 0.10
SPREAD_M2_PER_H: Final = Value(
    10.0, 6.0, 15.0, "m²/h", Status.MEMORY, "trade reference: 10 m² an hour rolled by hand; own range"
)
PLACING_MIN: Final = Value(
    1.0, 0.5, 2.0, "min", Status.PRACTICE, "own estimate: a strip laid against its edge"
)
CLAMP_MIN: Final = Value(0.25, 0.15, 0.5, "min", Status.PRACTICE, "own estimate: one clamp set and drawn up")
CLOSING_MIN: Final = Value(5.0, 3.0, 10.0, "min", Status.PRACTICE, "own estimate")
LAYING_MIN_PER_M2: Final = Value(
    6.0, 3.0, 12.0, "min/m²", Status.PRACTICE, "own estimate: laying and rolling a contact-glued sheet"
)
_POROUS: Final = ("mdf", "particleboard", "plywood")


@dataclass(frozen=True, slots=True)
class GlueLine:
    """One surface to be spread. grams : of one piece and coat, with the usual loss."""

    surface: Said
    area_m2: float
    coats: int
    grams: float


@dataclass(frozen=True, slots=True)
class GlueCard:
    """One bonding, per piece; `total_g` is for all pieces.

    needs_min : from the first spread to the closed joint, for one person. open_min : what the glue allows.
    pressure_mpa, force_n : None where the glue's pressure is not known. clamping : of edging only.
    press_h : under pressure; machine_after_h : until it may be worked.
    """

    step: str
    part: str
    title: Said
    glue: Glue
    pieces: int
    why: Said
    lines: tuple[GlueLine, ...]
    total_g: float
    needs_min: float
    open_min: Value
    least_temperature_c: float
    pressure_mpa: float | None
    force_n: float | None
    clamping: Clamping | None
    press_h: float
    machine_after_h: float
    how: tuple[Said, ...]
    means: tuple[Said, ...]
    findings: tuple[Finding, ...]


def glue_cards(panels: tuple[PanelToMake, ...], steps: tuple[Step, ...]) -> tuple[GlueCard, ...]:
    """A card for every step that glues edging or facings, in the order of the steps."""
    known = {one.part: one.panel for one in panels}
    cards = []
    for step in steps:
        if step.work is Work.BOND:
            cards.append(facing_card(step, known[step.part]))
        elif step.work is Work.GLUE_EDGING:
            cards.append(edging_card(step, known[step.part]))
    return tuple(cards)


def grams(area_m2: float, spread_g_m2: float, coats: int = 1) -> float:
    """area × spread × coats × (1 + 10 %). [g]"""
    return area_m2 * spread_g_m2 * coats * (1.0 + WASTE)


def facing_card(step: Step, panel: BuiltPanel) -> GlueCard:
    """The card of bonding the facings of a panel."""
    glue = panel.glue
    faces = [face for role in step.roles if (face := panel.face(role)) is not None]
    lines = tuple(line for face in faces for line in _face_lines(panel, face))
    area_m2 = max(_area_m2(face) for face in faces)
    pressure = glue.pressure.nominal if glue.pressure else None
    force = force_n(pressure, area_m2 * 1e6) if pressure else None
    linoleum = any(face.material.family == "linoleum" for face in faces)
    needs = _needs_min(glue, lines, sum(map(_area_m2, faces)), CLOSING_MIN.nominal)
    return GlueCard(
        step=step.id,
        part=step.part,
        title=step.title,
        glue=glue,
        pieces=panel.count,
        why=why_this_glue(glue),
        lines=lines,
        total_g=panel.count * sum(line.grams * line.coats for line in lines),
        needs_min=needs,
        open_min=_window(glue),
        least_temperature_c=glue.least_temperature.nominal,
        pressure_mpa=pressure,
        force_n=force,
        clamping=None,
        press_h=times.press_h(glue),
        machine_after_h=times.facing_wait_h(panel),
        how=(*HOW[glue.kind], *((LINOLEUM_WET,) if linoleum and times.is_wet(glue) else ())),
        means=tuple(pressed(glue, area_m2)),
        findings=tuple(_too_slow(step, panel, glue, needs)),
    )


def edging_card(step: Step, panel: BuiltPanel) -> GlueCard:
    """The card of gluing on one edging."""
    glue = panel.edging_glue
    edging = panel.edging(step.sides[0])
    if edging is None:
        raise ValueError(f"{step.id}: expected an edged side, was given {step.sides[0].value}")
    height = panel.carrier.z1_mm - panel.carrier.z0_mm
    area_m2 = edging.inner_length_mm * height / 1e6
    lines = _edge_lines(panel, area_m2)
    pressure = (glue.pressure_wood or glue.pressure) if not times.is_contact(glue) else glue.pressure
    clamping = None
    if pressure is not None and not times.is_contact(glue):
        clamping = clamp_strip(
            edging.inner_length_mm, height, pressure.nominal, edging.wood.modulus_along.nominal
        )
    needs = _needs_min(glue, lines, area_m2, _edge_closing_min(clamping))
    return GlueCard(
        step=step.id,
        part=step.part,
        title=step.title,
        glue=glue,
        pieces=panel.count,
        why=why_this_glue(glue),
        lines=lines,
        total_g=panel.count * sum(line.grams * line.coats for line in lines),
        needs_min=needs,
        open_min=_window(glue),
        least_temperature_c=glue.least_temperature.nominal,
        pressure_mpa=pressure.nominal if pressure else None,
        force_n=force_n(pressure.nominal, area_m2 * 1e6) if pressure else None,
        clamping=clamping,
        press_h=times.press_h(glue),
        machine_after_h=times.flush_wait_h(glue),
        how=HOW[glue.kind],
        means=tuple(clamped(clamping)),
        findings=tuple(_too_slow(step, panel, glue, needs)),
    )


def most_area_m2(glue: Glue, faces: int = 1) -> float:
    """The largest panel one person can spread and close within the glue's time, on so many faces. [m²]"""
    each = faces * _minutes_per_m2(glue)
    return max(0.0, (_window(glue).nominal - CLOSING_MIN.nominal) / each)


def _minutes_per_m2(glue: Glue) -> float:
    spreading = glue.sides * glue.coats * 60.0 / SPREAD_M2_PER_H.nominal
    return spreading + (LAYING_MIN_PER_M2.nominal if times.is_contact(glue) else 0.0)


def _face_lines(panel: BuiltPanel, face: FaceLayer) -> Iterator[GlueLine]:
    glue = panel.glue
    area = _area_m2(face)
    each = grams(area, glue.spread.nominal)
    thirsty = times.is_contact(glue) and panel.carrier.material.board in _POROUS
    coats = max(2, glue.coats) if thirsty else glue.coats
    name = "carrier, face side" if face.role is Role.FACE else "carrier, back side"
    yield GlueLine(said("{name:word}", name=name), area, coats, each)
    if glue.sides == 2:
        name = "facing" if face.role is Role.FACE else "back sheet"
        yield GlueLine(said("{name:word}", name=name), area, glue.coats, each)


def _edge_lines(panel: BuiltPanel, area_m2: float) -> tuple[GlueLine, ...]:
    """A board's edge drinks glue: brushed on richly, twice on end grain and porous boards."""
    glue = panel.edging_glue
    spread = rule("glue-spread-end-grain").nominal if times.is_wet(glue) else glue.spread.nominal
    coats = 2 if panel.carrier.material.board in _POROUS else glue.coats
    edge = GlueLine(said("edge of the carrier"), area_m2, coats, grams(area_m2, spread))
    strip = GlueLine(said("edging"), area_m2, glue.coats, grams(area_m2, glue.spread.nominal))
    return (edge, strip) if glue.sides == 2 else (edge,)


def _area_m2(face: FaceLayer) -> float:
    return face.rectangle.length_mm * face.rectangle.width_mm / 1e6


def _edge_closing_min(clamping: Clamping | None) -> float:
    return PLACING_MIN.nominal + (CLAMP_MIN.nominal * clamping.count if clamping else 0.0)


def _needs_min(glue: Glue, lines: tuple[GlueLine, ...], laid_m2: float, closing_min: float) -> float:
    """Minutes from the first spread to the closed joint; a first coat left to dry does not count."""
    spreading = sum(line.area_m2 for line in lines) * 60.0 / SPREAD_M2_PER_H.nominal
    laying = laid_m2 * LAYING_MIN_PER_M2.nominal if times.is_contact(glue) else 0.0
    return spreading + laying + closing_min


def _window(glue: Glue) -> Value:
    """Time for it: the open time, of contact glue the time in which the dry films still grab."""
    return glue.closed_time if times.is_contact(glue) and glue.closed_time is not None else glue.open_time


def _too_slow(step: Step, panel: BuiltPanel, glue: Glue, needs: float) -> Iterator[Finding]:
    window = _window(glue)
    if needs <= window.low:
        return
    yield Finding(
        code="glue.open_time",
        severity=Severity.WEIGH if needs > window.nominal else Severity.NOTE,
        origin=panel.origin,
        piece=panel.piece,
        part=panel.name,
        at=step.id,
        message=said(
            "One person needs about {needs:count} min; {glue} gives {low:count} to {high:count} min.",
            needs=needs,
            glue=glue.title,
            low=window.low,
            high=window.high,
        ),
        value=Band(needs / 1.6, needs, needs * 1.6),
        limit=window.nominal,
        unit="min",
        why=said("Glue that has skinned over before the joint is closed does not hold."),
        source=window.source,
        weakest=Status.PRACTICE,
        remedies=(
            Remedy("glue.helper", said("Spread with two pairs of hands.")),
            Remedy("glue.split", said("Bond face and back one after the other, the same day.")),
            Remedy("glue.slower", said("Take a glue with a longer open time.")),
        ),
    )
