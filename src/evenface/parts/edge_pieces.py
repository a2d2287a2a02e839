"""Pieces of edging round notches and along free outlines: lengths, ends, blanks, and why."""

from collections.abc import Iterator

from evenface.construction import BuiltPanel, EdgePiece
from evenface.materials.rules import rule
from evenface.parts.edging import proud_mm
from evenface.parts.records import LayerSizes
from evenface.piece.records import Role
from evenface.words import Said, said

ROUGH_LENGTH = rule("rough-length")
ROUGH_WIDTH = rule("rough-width")
ROUGH_FACE = rule("rough-planed-face")


def edge_piece_sizes(panel: BuiltPanel) -> Iterator[LayerSizes]:
    """Every piece of edging that is no strip of a rectangle's side: length × width in plan × height."""
    for piece in panel.edge_pieces:
        yield _sizes(panel, piece)


def _sizes(panel: BuiltPanel, piece: EdgePiece) -> LayerSizes:
    height = piece.edging.height_mm
    proud = sum(proud_mm(panel, piece.edging))
    net = (max(piece.outer_mm, piece.inner_mm), piece.width_mm, height)
    over = 2 * (panel.allowances.end_mm or 0.0) if piece.kind in ("strip", "bent") else 0.0
    blank = (net[0] + over, net[1], height + proud)
    return LayerSizes(
        role=Role.CORNER if piece.kind == "block" else Role.EDGING,
        material=piece.edging.wood.name,
        net_mm=net,
        cut_mm=blank,
        blank_mm=blank,
        count=piece.count,
        side=piece.side,
        bought_mm=(
            blank[0] + ROUGH_LENGTH.nominal,
            blank[1] + ROUGH_WIDTH.nominal,
            blank[2] + 2 * ROUGH_FACE.nominal,
        ),
        inner_mm=piece.inner_mm if piece.kind == "strip" else None,
        along_x=piece.direction_deg == 0.0,
        direction_deg=piece.direction_deg,
        tolerance_mm=0.1,
        depends_on=(said("the thickness of the carrier"),),
        reasons=tuple(_reasons(piece, over)),
        angles_deg=piece.ends_deg,
        name=f"{piece.name} {piece.number}" if piece.number else f"{piece.name}, {piece.what}",
        origin=piece.origin,
    )


def _reasons(piece: EdgePiece, over: float) -> Iterator[Said]:
    if piece.kind == "block":
        yield said(
            "Stands in the inner corner, its rounding of {radius:mm} worked after gluing.",
            radius=piece.radius_mm,
        )
    else:
        yield said(
            "Outside length {outer:mm}, inside {inner:mm}.", outer=piece.outer_mm, inner=piece.inner_mm
        )
    if piece.side is None and piece.kind == "strip":
        yield said("Returns round the notch {name} and butts against its neighbours.", name=piece.name)
    if over:
        yield said("{long:mm} over in length, trimmed after gluing.", long=over)
