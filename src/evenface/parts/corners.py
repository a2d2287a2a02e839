"""Pieces of built corners: blocks, segments of a ring, strips for a bend."""

from collections.abc import Iterator

from evenface.construction import BuiltCorner, BuiltPanel, Edging
from evenface.materials.rules import rule
from evenface.parts.edging import proud_mm
from evenface.parts.records import LayerSizes, Size
from evenface.piece.records import CornerAt, Role
from evenface.shape.bending_form import STRAIGHT_MM, TALLER_MM
from evenface.shape.corner_pieces import BentStrips, CurvedBlank
from evenface.words import Said, said

ROUGH_LENGTH = rule("rough-length")
ROUGH_WIDTH = rule("rough-width")
ROUGH_FACE = rule("rough-planed-face")

RISING = (CornerAt.FRONT_RIGHT, CornerAt.REAR_LEFT)
"""Corners whose cut rises to the right as seen from above: the joint of the other two falls."""


def corner_sizes(panel: BuiltPanel) -> Iterator[LayerSizes]:
    """The pieces of every built corner: length × width in plan × height. None for corners with a fault."""
    for corner in panel.corners:
        if corner.edging is None or corner.fault:
            continue
        if corner.blank is not None:
            yield _blank(panel, corner, corner.edging, corner.blank)
        elif corner.strips is not None:
            yield _strips(panel, corner, corner.edging, corner.strips)


def _blank(panel: BuiltPanel, corner: BuiltCorner, edging: Edging, blank: CurvedBlank) -> LayerSizes:
    proud = sum(proud_mm(panel, edging))
    net = (blank.length_mm, blank.depth_mm, edging.height_mm)
    rough = (blank.rough_length_mm, blank.rough_depth_mm, edging.height_mm + proud)
    return _piece(
        corner,
        edging,
        count=blank.count,
        net=net,
        blank=rough,
        angles=(90.0 - blank.mitre_deg, 90.0 - blank.mitre_deg),
        reasons=tuple(_blank_reasons(corner, blank)),
    )


def _strips(panel: BuiltPanel, corner: BuiltCorner, edging: Edging, bend: BentStrips) -> LayerSizes:
    longest = max(bend.lengths_mm)
    return _piece(
        corner,
        edging,
        count=bend.count,
        net=(longest, bend.thickness_mm, edging.height_mm),
        blank=(longest + 2 * STRAIGHT_MM, bend.thickness_mm, edging.height_mm + TALLER_MM),
        angles=(90.0, 90.0),
        reasons=tuple(_strip_reasons(bend)),
    )


def _piece(
    corner: BuiltCorner,
    edging: Edging,
    count: int,
    net: Size,
    blank: Size,
    angles: tuple[float, float],
    reasons: tuple[Said, ...],
) -> LayerSizes:
    planed = 2 * ROUGH_FACE.nominal
    return LayerSizes(
        role=Role.CORNER,
        material=edging.wood.name,
        net_mm=net,
        cut_mm=blank,
        blank_mm=blank,
        count=count,
        bought_mm=(
            blank[0] + ROUGH_LENGTH.nominal,
            blank[1] + ROUGH_WIDTH.nominal,
            blank[2] + planed,
        ),
        direction_deg=_direction(corner),
        tolerance_mm=0.1,
        depends_on=(said("the thickness of the carrier"),),
        reasons=reasons,
        angles_deg=angles,
        name=corner.at.value,
        origin=corner.origin,
    )


def _direction(corner: BuiltCorner) -> float:
    """Grain of a block on a clipped corner and of the middle of a bend; a solid block lies along the length."""
    if corner.construction == "block":
        return 0.0
    return 45.0 if corner.at in RISING else 135.0


def _blank_reasons(corner: BuiltCorner, blank: CurvedBlank) -> Iterator[Said]:
    if corner.construction == "clipped":
        yield said(
            "Carrier and edgings are cut off at 45° together: {leg:mm} from each side of the carrier; the "
            "block is glued on that flat.",
            leg=corner.carrier.x_mm,
        )
    elif corner.construction == "block":
        yield said(
            "The carrier is notched by {x:mm} along the length and {y:mm} along the width; the edgings stop "
            "at the block.",
            x=corner.carrier.x_mm,
            y=corner.carrier.y_mm,
        )
    else:
        yield said(
            "{count:count} segments of {angle:deg}; the carrier's corner is rounded to {inner:mm}.",
            count=blank.count,
            angle=90.0 / blank.count,
            inner=corner.carrier.x_mm,
        )
        yield said(
            "Mitres between segments and at the edgings: {mitre:deg} off square.", mitre=blank.mitre_deg
        )
    yield said("Grain along the length of the piece; it runs out by {angle:deg} at the ends of the rounding.",
               angle=blank.run_out_deg)  # fmt: skip
    yield said(
        "{over:mm} over in length and depth, rounded to {radius:mm} afterwards.",
        over=blank.rough_length_mm - blank.length_mm,
        radius=corner.radius_mm,
    )


def _strip_reasons(bend: BentStrips) -> Iterator[Said]:
    yield said(
        "{count:count} strips of {thick:mm2} bent to {inner:mm} inside and {outer:mm} outside; the carrier's "
        "corner is rounded to {inner:mm}.",
        count=bend.count,
        thick=bend.thickness_mm,
        inner=bend.inner_radius_mm,
        outer=bend.outer_radius_mm,
    )
    yield from bend_reasons(bend)


def bend_reasons(bend: BentStrips) -> Iterator[Said]:
    """Strain, lengths, form and spring-back of strips bent to a radius."""
    yield said(
        "The strips stretch by {strain:percent}; lengths of the bend from {least:mm} inside to {most:mm} outside.",
        strain=bend.strain,
        least=bend.lengths_mm[0],
        most=bend.lengths_mm[-1],
    )
    yield said(
        "They spring back by {share:percent}: form of {inner:mm} inside and {outer:mm} outside, turning "
        "{sweep:deg}. A form made to size would miss by {missed:deg}.",
        share=bend.lost_share,
        inner=bend.form_inner_mm,
        outer=bend.form_outer_mm,
        sweep=bend.form_sweep_deg,
        missed=bend.spring_back_deg,
    )
    yield said(
        "Strips are {long:mm} over in length, for straight ends on the form, and {tall:mm} in height, planed true "
        "after gluing.",
        long=2 * STRAIGHT_MM,
        tall=TALLER_MM,
    )
