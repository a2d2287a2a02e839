"""Pieces of edging round notches and along free outlines: lengths, ends, blanks, and why."""

from collections.abc import Iterator
from math import cos, radians, sin

from evenface.construction import BuiltPanel, EdgePiece
from evenface.materials.rules import rule
from evenface.parts.corners import bend_reasons
from evenface.parts.edging import proud_mm
from evenface.parts.records import LayerSizes, Size
from evenface.piece.records import Role
from evenface.shape.bending_form import STRAIGHT_MM, TALLER_MM
from evenface.shape.corner_pieces import WORKING_MM
from evenface.words import Said, said

ROUGH_LENGTH = rule("rough-length")
ROUGH_WIDTH = rule("rough-width")
ROUGH_FACE = rule("rough-planed-face")


def edge_piece_sizes(panel: BuiltPanel) -> Iterator[LayerSizes]:
    """Every piece of edging that is no strip of a rectangle's side: length × width in plan × height."""
    for piece in panel.edge_pieces:
        yield _sizes(panel, piece)


def _sizes(panel: BuiltPanel, piece: EdgePiece) -> LayerSizes:
    proud = sum(proud_mm(panel, piece.edging))
    net, over = _net(panel, piece)
    taller = TALLER_MM if piece.strips is not None else proud
    blank = (net[0] + over[0], net[1] + over[1], net[2] + taller)
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
        reasons=tuple(_reasons(piece, over[0])),
        angles_deg=_ends(piece),
        name=_name(piece),
        origin=piece.origin,
    )


def _net(panel: BuiltPanel, piece: EdgePiece) -> tuple[Size, tuple[float, float]]:
    """Net size, and what is left on in length and in width."""
    height = piece.edging.height_mm
    ends = 2 * (panel.allowances.end_mm or 0.0)
    if piece.blank is not None:
        blank = piece.blank
        rough = (blank.rough_length_mm - blank.length_mm, blank.rough_depth_mm - blank.depth_mm)
        return (blank.length_mm, blank.depth_mm, height), rough
    if piece.strips is not None:
        return (max(piece.strips.lengths_mm), piece.strips.thickness_mm, height), (2 * STRAIGHT_MM, 0.0)
    if piece.kind == "sawn":
        half = radians(min(piece.sweep_deg, 180.0)) / 2
        chord, rise = 2 * piece.radius_mm * sin(half), piece.radius_mm * (1 - cos(half))
        if piece.sweep_deg > 180.0:
            chord, rise = 2 * piece.radius_mm, piece.radius_mm * (1 + sin(radians(piece.sweep_deg - 180) / 2))
        return (chord, rise + piece.width_mm, height), (WORKING_MM, WORKING_MM)
    longest = max(piece.outer_mm, piece.inner_mm)
    return (longest, piece.width_mm, height), (ends if piece.kind == "strip" else 0.0, 0.0)


def _ends(piece: EdgePiece) -> tuple[float, float]:
    if piece.blank is not None:
        return 90.0 - piece.blank.mitre_deg, 90.0 - piece.blank.mitre_deg
    return piece.ends_deg


def _name(piece: EdgePiece) -> str:
    if piece.name == "outline":
        return f"{piece.what} {piece.number}"
    return f"{piece.name} {piece.number}" if piece.number else f"{piece.name}, {piece.what}"


def _reasons(piece: EdgePiece, over: float) -> Iterator[Said]:
    if piece.kind == "block":
        yield said(
            "Stands in the inner corner, its rounding of {radius:mm} worked after gluing.",
            radius=piece.radius_mm,
        )
    elif piece.kind == "strip":
        yield said(
            "Outside length {outer:mm}, inside {inner:mm}.", outer=piece.outer_mm, inner=piece.inner_mm
        )
        if piece.ends_deg != (90.0, 90.0):
            yield said(
                "Ends at {first:deg} and {last:deg} to the strip.",
                first=piece.ends_deg[0],
                last=piece.ends_deg[1],
            )
    else:
        yield from _of_the_arc(piece)
    if piece.side is None and piece.kind == "strip":
        yield said("Returns round the notch {name} and butts against its neighbours.", name=piece.name)
    if over and piece.strips is None:
        yield said("{long:mm} over in length, trimmed after gluing.", long=over)


def _of_the_arc(piece: EdgePiece) -> Iterator[Said]:
    yield said(
        "Follows an arc of radius {radius:mm} through {sweep:deg}, turning inwards."
        if piece.hollow
        else "Follows an arc of radius {radius:mm} through {sweep:deg}.",
        radius=piece.radius_mm,
        sweep=piece.sweep_deg,
    )
    if piece.strips is not None:
        bend = piece.strips
        yield said(
            "{count:count} strips of {thick:mm2} bent to {inner:mm} inside and {outer:mm} outside.",
            count=bend.count,
            thick=bend.thickness_mm,
            inner=bend.inner_radius_mm,
            outer=bend.outer_radius_mm,
        )
        yield from bend_reasons(bend)
    elif piece.blank is not None:
        blank = piece.blank
        yield said(
            "{count:count} segments of {angle:deg}, mitred {mitre:deg} off square; the grain runs out by "
            "{run_out:deg} at their ends.",
            count=blank.count,
            angle=piece.sweep_deg / blank.count,
            mitre=blank.mitre_deg,
            run_out=blank.run_out_deg,
        )
    else:
        yield said("Tighter than its width: sawn from wide board, the carrier ends in a corner behind it.")
