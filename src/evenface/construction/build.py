"""Build a job: each piece turned into built panels, every size following from the edge section."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Protocol

from evenface.construction.allowances import GLUE_LINE, allowed
from evenface.construction.corner_pieces import with_corner_pieces
from evenface.construction.ends import Joint, end_of, meet
from evenface.construction.insets import built_inserts
from evenface.construction.levels import Levels, edging_levels, stack_levels
from evenface.construction.locks import Locked, lock_made
from evenface.construction.objections import objections
from evenface.construction.records import (
    BuiltPanel,
    CarrierLayer,
    Construction,
    Edging,
    FaceLayer,
    Rectangle,
)
from evenface.evidence import Value
from evenface.finding import Finding
from evenface.materials import Carrier, Facing, Glue, Wood
from evenface.piece.records import (
    NOTHING_MADE,
    BuildUp,
    Corner,
    CornerAt,
    Edge,
    Job,
    Layer,
    Made,
    Meeting,
    Order,
    Panel,
    Piece,
    Role,
    Side,
)


class Materials(Protocol):
    """What construction asks of the catalogue; each call raises MissingWord for an unknown name."""

    def carrier(self, name: str) -> Carrier: ...
    def facing(self, name: str) -> Facing: ...
    def wood(self, name: str) -> Wood: ...
    def glue(self, name: str) -> Glue: ...


class Kind(Protocol):
    """What construction asks of a kind of piece."""

    def panels(self, description: object) -> tuple[Panel, ...]: ...


def construct(
    job: Job, materials: Materials, kinds: Mapping[str, Kind], made: Made = NOTHING_MADE
) -> tuple[Construction, ...]:
    """Every piece of the job as it will be built. MissingWord for a material the catalogue lacks."""
    return tuple(_construct_piece(job, piece, materials, kinds[piece.kind], made) for piece in job.pieces)


def _construct_piece(job: Job, piece: Piece, materials: Materials, kind: Kind, made: Made) -> Construction:
    built: list[BuiltPanel] = []
    findings: list[Finding] = []
    for panel in kind.panels(piece.description):
        result, told = build_panel(job, piece, panel, materials, made)
        built.append(result)
        findings += [replace(finding, piece=piece.name, part=panel.name) for finding in told]
    return Construction(piece, tuple(built), tuple(findings))


def build_panel(
    job: Job, piece: Piece, panel: Panel, materials: Materials, made: Made = NOTHING_MADE
) -> tuple[BuiltPanel, tuple[Finding, ...]]:
    """One panel with everything resolved, and what stands against building it so."""
    buildup = job.buildups[panel.buildup]
    locked = lock_made(piece.name, panel, made)
    carrier_layer = _layer(buildup, Role.CARRIER)
    if carrier_layer is None:
        raise ValueError(f"build-up {buildup.name!r} has no carrier")
    carrier, carrier_mm = _carrier(materials, carrier_layer, made)
    sheets = dict(_sheets(materials, buildup, made))
    levels = stack_levels(
        carrier_mm.nominal,
        sheets[Role.FACE][2].nominal if Role.FACE in sheets else None,
        sheets[Role.BACK][2].nominal if Role.BACK in sheets else None,
        GLUE_LINE.nominal,
    )
    edges = {edge.side: edge for edge in locked.edges}
    joints, told = _joints(panel, edges)
    edgings = tuple(_edging(edge, locked, edges, joints, levels, materials) for edge in locked.edges)
    widths = {side: edges[side].width_mm if side in edges else 0.0 for side in Side}
    built = BuiltPanel(
        piece=piece.name,
        name=panel.name,
        count=panel.count * piece.count,
        panel=panel,
        length_mm=locked.length_mm,
        width_mm=locked.width_mm,
        thickness_mm=levels.total_mm,
        carrier=CarrierLayer(
            material=carrier,
            thickness=carrier_mm,
            rectangle=_inside(locked, widths),
            z0_mm=levels.carrier_bottom_mm,
            z1_mm=levels.carrier_top_mm,
            direction_deg=carrier_layer.direction_deg,
            humidity_at_bonding=carrier_layer.humidity_at_bonding,
            locked=locked.carrier_cut,
            origin=carrier_layer.origin,
        ),
        faces=tuple(
            _face(role, layer, facing, thickness, locked, edges, levels)
            for role, (layer, facing, thickness) in sheets.items()
        ),
        edgings=edgings,
        glue=materials.glue(buildup.glue),
        edging_glue=materials.glue(buildup.edging_glue or buildup.glue),
        allowances=allowed(job.allowances, panel.allowances),
        origin=panel.origin,
    )
    built = with_corner_pieces(replace(built, inserts=built_inserts(built, materials)))
    return built, (*locked.findings, *told, *objections(built, locked))


def _layer(buildup: BuildUp, role: Role) -> Layer | None:
    return next((layer for layer in buildup.layers if layer.role is role), None)


def _carrier(materials: Materials, layer: Layer, made: Made) -> tuple[Carrier, Value]:
    carrier = materials.carrier(layer.material)
    measured = made.thicknesses.get(layer.material)
    if measured is not None:
        carrier = carrier.with_thickness(measured)
    elif layer.thickness_mm is not None:
        carrier = carrier.with_thickness(layer.thickness_mm)
    return carrier, carrier.thickness


def _sheets(
    materials: Materials, buildup: BuildUp, made: Made
) -> Iterator[tuple[Role, tuple[Layer, Facing, Value]]]:
    for role in (Role.FACE, Role.BACK):
        layer = _layer(buildup, role)
        if layer is None:
            continue
        facing = materials.facing(layer.material)
        measured = made.thicknesses.get(layer.material, layer.thickness_mm)
        if measured is not None:
            facing = facing.with_thickness(measured)
        yield role, (layer, facing, facing.thickness)


def _inside(locked: Locked, widths: Mapping[Side, float]) -> Rectangle:
    return Rectangle(
        widths[Side.LEFT],
        widths[Side.FRONT],
        locked.length_mm - widths[Side.RIGHT],
        locked.width_mm - widths[Side.REAR],
    )


def _joints(
    panel: Panel, edges: Mapping[Side, Edge]
) -> tuple[dict[CornerAt, Joint | None], tuple[Finding, ...]]:
    corners = {corner.at: corner for corner in panel.corners}
    met = {at: meet(panel, corners.get(at, Corner(at)), edges) for at in CornerAt}
    findings = tuple(finding for _, finding in met.values() if finding is not None)
    return {at: joint for at, (joint, _) in met.items()}, findings


def _edging(
    edge: Edge,
    locked: Locked,
    edges: Mapping[Side, Edge],
    joints: Mapping[CornerAt, Joint | None],
    levels: Levels,
    materials: Materials,
) -> Edging:
    size = locked.length_mm if edge.side.runs_along_length else locked.width_mm
    ends = {at: end_of(edge, Corner(at), joints[at], edges, size) for at in _corners_of(edge.side)}
    first, last = sorted(
        ends,
        key=lambda at: (
            at.along_width in (Side.RIGHT,)
            if edge.side.runs_along_length
            else at.along_length in (Side.REAR,)
        ),
    )
    lower, upper = edging_levels(edge, levels)
    return Edging(
        side=edge.side,
        wood=materials.wood(edge.wood),
        cut=edge.cut,
        width_mm=edge.width_mm,
        top=edge.top,
        bottom=edge.bottom,
        order=edge.order,
        z0_mm=lower,
        z1_mm=upper,
        start=ends[first],
        end=ends[last],
        proud_mm=edge.proud_mm,
        locked=edge.side in locked.cut_sides,
        origin=edge.origin,
    )


def _corners_of(side: Side) -> tuple[CornerAt, ...]:
    return tuple(at for at in CornerAt if side in (at.along_length, at.along_width))


def _face(
    role: Role,
    layer: Layer,
    facing: Facing,
    thickness: Value,
    locked: Locked,
    edges: Mapping[Side, Edge],
    levels: Levels,
) -> FaceLayer:
    flush = {side: edge for side, edge in edges.items() if _meets(edge, role) is Meeting.FLUSH}
    inset = {side: flush[side].width_mm if side in flush else 0.0 for side in Side}
    rectangle = _inside(locked, inset)
    opening = locked.openings.get(role)
    if opening is not None:
        rectangle = Rectangle(
            rectangle.x0,
            rectangle.y0,
            rectangle.x0 + (opening.length_mm or rectangle.length_mm),
            rectangle.y0 + (opening.width_mm or rectangle.width_mm),
        )
    face_side = role is Role.FACE
    return FaceLayer(
        role=role,
        material=facing,
        thickness=thickness,
        rectangle=rectangle,
        z0_mm=levels.face_bottom_mm if face_side else 0.0,
        z1_mm=levels.total_mm if face_side else levels.back_mm,
        direction_deg=layer.direction_deg,
        humidity_at_bonding=layer.humidity_at_bonding,
        fitted=tuple(side for side, edge in flush.items() if edge.order is Order.EDGING_FIRST),
        glue_line_mm=levels.face_glue_mm if face_side else levels.back_glue_mm,
        locked=role in locked.faces_cut,
        origin=layer.origin,
    )


def _meets(edge: Edge, role: Role) -> Meeting:
    return edge.top if role is Role.FACE else edge.bottom
