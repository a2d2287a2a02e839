"""Build a job: each piece turned into built panels, every size following from the edge section."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

from evenface.construction.allowances import allowed
from evenface.construction.corner_pieces import with_corner_pieces
from evenface.construction.ends import Joint, end_of, meet
from evenface.construction.ground import Ground, Materials, layered
from evenface.construction.insets import built_inserts
from evenface.construction.kind import Kind
from evenface.construction.levels import Levels, edging_levels
from evenface.construction.locks import Locked, lock_made
from evenface.construction.objections import objections
from evenface.construction.placed import Arranged, BuiltBoard
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
from evenface.materials import Facing
from evenface.piece.records import (
    NOTHING_MADE,
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

type PanelBuilder = Callable[[Job, Piece, Panel, Materials, Made], tuple[BuiltPanel, tuple[Finding, ...]]]
type Keeper = Callable[[Piece, Callable[[], Construction]], Construction]
"""Gives a piece's construction: one that is remembered, or what the call makes."""


def construct(
    job: Job,
    materials: Materials,
    kinds: Mapping[str, Kind],
    made: Made = NOTHING_MADE,
    build: PanelBuilder | None = None,
    keep: Keeper | None = None,
) -> tuple[Construction, ...]:
    """Every piece of the job as it will be built. MissingWord for a material the catalogue lacks.

    build : in place of `build_panel`, for a caller who remembers panels that have not changed. keep : for one
    who remembers whole pieces: a piece is built on its own record and on the job's tables, never on another piece.
    """
    builder, keeper = build or build_panel, keep or (lambda _, make: make())
    return tuple(
        keeper(piece, partial(_construct_piece, job, piece, materials, kinds[piece.kind], made, builder))
        for piece in job.pieces
    )


def _construct_piece(
    job: Job, piece: Piece, materials: Materials, kind: Kind, made: Made, build: PanelBuilder
) -> Construction:
    ground = Ground(job, piece, materials, made)
    assembly = kind.build(piece.description, ground)
    built: list[BuiltPanel] = []
    findings = [replace(finding, piece=piece.name) for finding in assembly.findings]
    for panel in assembly.panels:
        result, told = build(job, piece, panel, materials, made)
        built.append(result)
        findings += [replace(finding, piece=piece.name, part=panel.name) for finding in told]
    construction = Construction(
        piece,
        tuple(built),
        tuple(findings),
        boards=tuple(
            BuiltBoard(
                piece.name,
                board,
                materials.wood(board.wood),
                board.count * piece.count,
                materials.facing(board.lining.facing).with_thickness(board.lining.thickness_mm)
                if board.lining
                else None,
            )
            for board in assembly.boards
        ),
        arranged=Arranged(
            placements=assembly.placements,
            joints=assembly.joints,
            worked=assembly.worked,
            gaps=assembly.gaps,
            chains=assembly.chains,
            fittings=assembly.fittings,
            size_mm=assembly.size_mm,
            given=assembly.given,
        ),
    )
    own = [replace(finding, piece=piece.name) for finding in kind.check(construction, ground)]
    return replace(construction, findings=(*construction.findings, *own))


def build_panel(
    job: Job, piece: Piece, panel: Panel, materials: Materials, made: Made = NOTHING_MADE
) -> tuple[BuiltPanel, tuple[Finding, ...]]:
    """One panel with everything resolved, and what stands against building it so."""
    buildup = job.buildups[panel.buildup]
    locked = lock_made(piece.name, panel, made)
    layers = layered(buildup, materials, made)
    carrier_layer, levels = layers.carrier_layer, layers.levels
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
            material=layers.carrier,
            thickness=layers.carrier_mm,
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
            for role, (layer, facing, thickness) in layers.sheets.items()
        ),
        edgings=edgings,
        glue=materials.glue(buildup.glue),
        edging_glue=materials.glue(buildup.edging_glue or buildup.glue),
        allowances=allowed(job.allowances, panel.allowances),
        lining_woods={one.lining: materials.wood(one.lining) for one in panel.cutouts if one.lining},
        origin=panel.origin,
    )
    built = with_corner_pieces(replace(built, inserts=built_inserts(built, materials)))
    return built, (*locked.findings, *told, *objections(built, locked))


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
