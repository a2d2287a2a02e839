"""Cards of what is glued to the carrier's edges: strips, pieces round notches and outlines, corner pieces."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import hypot, pi
from typing import Final

from evenface.construction import BuiltPanel, EndKind
from evenface.construction.records import BuiltCorner, Edging
from evenface.evidence import Status, Value, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.materials import Glue, Wood
from evenface.piece.records import Order, Side
from evenface.words import NOTHING, Said, said
from evenface.workplan import glue_pace
from evenface.workplan import glue_times as times
from evenface.workplan.clamps import Clamping, clamp_strip, force_n
from evenface.workplan.glue_amounts import both_sides, line_of
from evenface.workplan.glue_base import base_card
from evenface.workplan.glue_faces import unfit_for_water
from evenface.workplan.glue_records import GlueCard, GlueLine
from evenface.workplan.pressing import UNCOUNTED, Means, clamped, too_few_clamps, wood_pressure
from evenface.workplan.records import Step

ON_WOOD: Final = ("pva", "urea", "polyurethane", "epoxy", "hide")
IN_FORM_H: Final = Value(
    24.0, 12.0, 48.0, "h", Status.READ, "makers' forum: bent strips stay 24 h in the form"
)


def edging_card(
    step: Step,
    panel: BuiltPanel,
    means: Means = UNCOUNTED,
    glues: Sequence[Glue] = (),
    before: int = 0,
    in_all: int = 1,
) -> GlueCard:
    """The card of gluing on one edging. before, in_all : edges of the panel glued before it, and all of them."""
    edging = panel.edging(step.sides[0])
    pieces = [piece for piece in panel.edge_pieces if piece.side is step.sides[0]]
    if edging is None and not pieces:
        raise ValueError(f"{step.id}: expected an edged side, was given {step.sides[0].value}")
    edged = edging if edging is not None else pieces[0].edging
    length = edging.inner_length_mm if edging is not None else sum(p.inner_mm * p.count for p in pieces)
    height = _glued_height_mm(panel, edged)
    strips = 1 if edging is not None else sum(piece.count for piece in pieces)
    made = wood_card(
        step,
        panel,
        _edge_lines(panel, panel.edging_glue, length * height / 1e6),
        (length, height, edged.width_mm),
        edged.wood,
        means,
        [(one, _edge_lines(panel, one, length * height / 1e6)) for one in glues],
        strips,
    )
    return replace(made, order=_order(panel, step.sides[0], before, in_all))


def corner_card(
    step: Step, panel: BuiltPanel, means: Means = UNCOUNTED, glues: Sequence[Glue] = ()
) -> GlueCard:
    """The card of gluing in the corner pieces of a panel, one corner after the other; areas are of all of them.

    Raises ValueError for a panel without corner pieces.
    """
    corners = [one for one in panel.corners if not one.fault and one.construction != "notch" and one.edging]
    if not corners:
        raise ValueError(f"{step.id}: expected corners built of pieces, was given none")
    glue = panel.edging_glue
    worst = max(corners, key=bed_mm)
    edging = worst.edging
    assert edging is not None
    lines = tuple(line for one in corners for line in _corner_lines(panel, one, glue))
    size = (bed_mm(worst), edging.height_mm, edging.width_mm)
    made = wood_card(
        step,
        panel,
        lines,
        size,
        edging.wood,
        means,
        [(one, tuple(x for c in corners for x in _corner_lines(panel, c, one))) for one in glues],
        len(corners),
        groups=len(corners),
    )
    bent = [one for one in corners if one.strips is not None]
    rest = IN_FORM_H.nominal if bent else 0.0
    return replace(
        made,
        press_h=max(made.press_h, rest),
        machine_after_h=max(made.machine_after_h, rest),
        means=(*_on_corners(worst), *made.means),
        how=(*made.how, *(_BENT if bent else ())),
        order=said("One corner after the other; the strips beside it are fitted to it, dry, beforehand."),
        findings=(*made.findings, *(_creeping(step, panel, glue) if bent else ())),
    )


def wood_card(
    step: Step,
    panel: BuiltPanel,
    lines: tuple[GlueLine, ...],
    size_mm: tuple[float, float, float],
    wood: Wood,
    means: Means,
    others: Sequence[tuple[Glue, tuple[GlueLine, ...]]],
    strips: int = 1,
    groups: int = 1,
) -> GlueCard:
    """A card of wood glued to a carrier. size_mm : length of the joint, its height, thickness of the wood."""
    glue = panel.edging_glue
    length, height, wide = size_mm
    pressure = wood_pressure(glue, wood)
    clamping: Clamping | None = None
    if pressure is not None and not times.is_contact(glue) and min(length, height) > 0.0:
        clamping = clamp_strip(length, height, pressure.nominal, wood.modulus_along.nominal, wide)
    closing = glue_pace.PLACING_MIN.nominal * strips
    closing += glue_pace.CLAMP_MIN.nominal * clamping.count * groups if clamping else 0.0
    force = force_n(pressure.nominal, length * height) if pressure else None

    def own(one: Glue, spread: tuple[GlueLine, ...]) -> glue_pace.Pace:
        return replace(glue_pace.pace(one, spread, 0.0, closing), groups=groups)

    mine = own(glue, lines)
    told = [
        (one, own(one, spread)) for one, spread in others if one.kind in ON_WOOD and one.name != glue.name
    ]
    few = too_few_clamps(step.id, panel, force or 0.0, clamping.count, pressure, means) if (
        clamping is not None and pressure is not None
    ) else ()  # fmt: skip
    return replace(
        base_card(step, glue, lines, panel.count, mine.needs_min),
        pressure_mpa=pressure.nominal if pressure else None,
        force_n=force,
        clamping=clamping,
        means=tuple(clamped(clamping)),
        findings=(
            *glue_pace.too_slow(step.id, panel, glue, mine, told),
            *few,
            *unfit_for_water(step.id, panel, glue),
        ),
        clamps=clamping.count * groups if clamping is not None else 0,
    )


def bed_mm(corner: BuiltCorner) -> float:
    """Length of the carrier's edge a corner piece is glued to. [mm]"""
    x, y = corner.carrier.x_mm, corner.carrier.y_mm
    return {"chamfer": hypot(x, y), "radius": pi / 2.0 * (x + y) / 2.0, "notch": x + y}.get(
        corner.carrier.kind, sum(corner.widths_mm)
    )


def _corner_lines(panel: BuiltPanel, corner: BuiltCorner, glue: Glue) -> Iterator[GlueLine]:
    """Bed on the carrier, both ends against the strips, and what lies between segments or bent strips."""
    edging = corner.edging
    assert edging is not None
    height = edging.height_mm / 1e6
    where = corner.at.value
    yield from both_sides(
        said("{at:word}: carrier", at=where),
        said("{at:word}: piece", at=where),
        bed_mm(corner) * height,
        glue,
        panel.carrier.material.board,
    )
    ends = sum(corner.widths_mm) * height
    yield line_of(said("{at:word}: ends of the strips", at=where), ends, glue, 2, thirsty=True)
    if corner.strips is not None:
        inside = sum(corner.strips.lengths_mm[1:]) * height
        yield line_of(said("{at:word}: between the strips", at=where), inside, glue)
    elif corner.construction == "ring" and corner.blank is not None and corner.blank.count > 1:
        inside = (corner.blank.count - 1) * corner.widths_mm[0] * height
        yield line_of(said("{at:word}: between the segments", at=where), inside, glue, 2, thirsty=True)


def _edge_lines(panel: BuiltPanel, glue: Glue, area_m2: float) -> tuple[GlueLine, ...]:
    board = panel.carrier.material.board
    return both_sides(said("edge of the carrier"), said("edging"), area_m2, glue, board)


def _glued_height_mm(panel: BuiltPanel, edging: Edging) -> float:
    """Against the carrier's edge; an edging glued on after the facings is held by their edges too. [mm]"""
    if edging.order is Order.FACING_FIRST:
        return edging.height_mm
    return min(edging.height_mm, panel.carrier.z1_mm - panel.carrier.z0_mm)


def _order(panel: BuiltPanel, side: Side, before: int, in_all: int) -> Said:
    if in_all < 2:
        return NOTHING
    edging = panel.edging(side)
    kinds = {end.kind for end in (edging.start, edging.end)} if edging is not None else set()
    why = said("")
    if EndKind.THROUGH in kinds:
        why = said(": it runs past its neighbours, whose ends are trimmed before")
    elif EndKind.BETWEEN in kinds:
        why = said(": it stops against its neighbours, so its ends stay long until they go on")
    values = {"number": before + 1, "all": in_all, "side": side.value, "why": why}
    if before + 1 == in_all:
        return said("Edge {number:count} of {all:count}, {side:word}{why}.", **values)
    return said(
        "Edge {number:count} of {all:count}, {side:word}{why}. The next goes on when this one is out of the clamps.",
        **values,
    )


_BENT: Final = (
    said(
        "All strips at once: glue between each two, into the form from the middle outwards, film against the form."
    ),
    said("Strips about 13 mm taller than finished; they slide while they are drawn in."),
)
_ON_CORNERS: Final[Mapping[str, Said]] = {
    "clipped": said("One flat joint at 45°: a notched block outside, clamp square to the joint."),
    "block": said(
        "Two flat joints at right angles: two clamps, drawn up in turn, so that it does not ride up."
    ),
    "ring": said("Segments against the round edge: a sawn counter-form with cork, clamps square to the arc."),
    "strips": said("Form and counter-form or a row of clamps, begun in the middle of the bend."),
}


def _on_corners(corner: BuiltCorner) -> Iterator[Said]:
    if corner.construction in _ON_CORNERS:
        yield _ON_CORNERS[corner.construction]


def _creeping(step: Step, panel: BuiltPanel, glue: Glue) -> Iterator[Finding]:
    """Finding `glue.creep`: bent strips held by glue that gives."""
    if glue.rigid:
        return
    yield Finding(
        code="glue.creep",
        severity=Severity.STOP,
        origin=panel.origin,
        piece=panel.piece,
        part=panel.name,
        at=step.id,
        message=said("{glue} stays soft, and bent strips pull for ever.", glue=glue.title),
        value=certain(0.0),
        limit=1.0,
        unit="rigid",
        why=said("The bend opens again, strip by strip."),
        source="what is known of contact glues: low resistance to creep",
        weakest=Status.READ,
        remedies=(Remedy("glue.rigid", said("Take urea glue, epoxy or polyurethane for the bend.")),),
    )
