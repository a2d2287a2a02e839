"""Strips of edging: outside and inside length, mitres, height, and the rough stick they come from."""

from collections.abc import Iterator

from evenface.construction import BuiltPanel, Edging, End, EndKind
from evenface.construction.notches import fault_of, notches_of
from evenface.materials.rules import rule
from evenface.parts.records import LayerSizes
from evenface.piece.records import Meeting, Order, Role
from evenface.words import Said, said

ROUGH_WIDTH = rule("rough-width")
ROUGH_LENGTH = rule("rough-length")
ROUGH_FACE = rule("rough-planed-face")

END_LEFT_LONG = (EndKind.MITRE, EndKind.FREE, EndKind.THROUGH)
"""A strip that stops between its neighbours is fitted; every other end is left long and trimmed."""


def edging_sizes(panel: BuiltPanel) -> Iterator[LayerSizes]:
    """Every strip of a panel. Sizes are outside length × width in plan × height."""
    if panel.panel.outline is not None:
        return  # its edging follows the outline, in pieces
    in_pieces = {piece.side for piece in panel.edge_pieces}
    for edging in panel.edgings:
        if edging.side not in in_pieces:
            yield _strip(panel, edging)


def _strip(panel: BuiltPanel, edging: Edging) -> LayerSizes:
    proud_bottom, proud_top = proud_mm(panel, edging)
    net = (edging.outer_length_mm, edging.width_mm, edging.height_mm)
    long = sum(_left_long(panel, end) for end in (edging.start, edging.end))
    blank = net if edging.locked else (net[0] + long, net[1], net[2] + proud_bottom + proud_top)
    planed = 2 * ROUGH_FACE.nominal
    rough = (blank[0] + ROUGH_LENGTH.nominal, blank[1] + ROUGH_WIDTH.nominal, blank[2] + planed)
    return LayerSizes(
        role=Role.EDGING,
        material=edging.wood.name,
        net_mm=net,
        cut_mm=blank,
        blank_mm=blank,
        side=edging.side,
        bought_mm=rough,
        inner_mm=edging.inner_length_mm,
        along_x=edging.side.runs_along_length,
        tolerance_mm=0.1,
        depends_on=(said("the thickness of the carrier"),),
        reasons=tuple(_reasons(panel, edging, proud_bottom, proud_top, long)),
        angles_deg=(edging.start.angle_deg, edging.end.angle_deg),
        locked=edging.locked,
        origin=edging.origin,
    )


def _left_long(panel: BuiltPanel, end: End) -> float:
    clipped = end.kind is EndKind.SHORT and end.angle_deg != 90.0  # cut off together with the carrier
    return (panel.allowances.end_mm or 0.0) if clipped or end.kind in END_LEFT_LONG else 0.0


def proud_mm(panel: BuiltPanel, edging: Edging) -> tuple[float, float]:
    """Height left to be flushed at the bottom and the top face. [mm]

    Flushing beside a facing already laid takes a hair only; everything levelled before takes the full
    allowance.
    """

    def one(meeting: Meeting) -> float:
        if edging.proud_mm is not None:
            return edging.proud_mm
        late = meeting is Meeting.FLUSH and edging.order is Order.FACING_FIRST
        return (panel.allowances.proud_flush_mm if late else panel.allowances.proud_under_mm) or 0.0

    return one(edging.bottom), one(edging.top)


def _reasons(
    panel: BuiltPanel, edging: Edging, proud_bottom: float, proud_top: float, long: float
) -> Iterator[Said]:
    if edging.locked:
        yield said("Already cut: taken as measured.")
    yield said(
        "Outside length {outer:mm}, inside {inner:mm}.",
        outer=edging.outer_length_mm,
        inner=edging.inner_length_mm,
    )
    for end in (edging.start, edging.end):
        yield _end_reason(end)
    yield _height_reason(panel, edging)
    for notch in notches_of(panel):
        if edging.side in notch.sides and (not notch.returned or fault_of(panel, notch)):
            yield said("Glued on whole; the notch {name} is cut through it afterwards.", name=notch.name)
    mitred = sum(_left_long(panel, end) for end in (edging.start, edging.end) if end.kind is EndKind.MITRE)
    if mitred:
        yield said("{long:mm} over in length, for mitres that are shot to fit before gluing.", long=mitred)
    if long > mitred:
        yield said("{long:mm} over in length, trimmed after gluing.", long=long - mitred)
    if proud_bottom or proud_top:
        yield said(
            "{top:mm} proud at the face and {bottom:mm} at the back, flushed after gluing.",
            top=proud_top,
            bottom=proud_bottom,
        )


_END_WORDS = {
    EndKind.MITRE: "{corner:word}: mitre at {angle:deg} to the strip.",
    EndKind.THROUGH: "{corner:word}: runs past the other edging.",
    EndKind.BETWEEN: "{corner:word}: stops against the other edging, fitted.",
    EndKind.FREE: "{corner:word}: runs to the end of the panel.",
    EndKind.SHORT: "{corner:word}: stops at the corner piece.",
}


def _end_reason(end: End) -> Said:
    if end.kind is EndKind.MITRE:
        return said(_END_WORDS[end.kind], corner=end.at.value, angle=end.angle_deg)
    return said(_END_WORDS[end.kind], corner=end.at.value)


def _height_reason(panel: BuiltPanel, edging: Edging) -> Said:
    flush = [face for face in panel.faces if edging.meets(face.role) is Meeting.FLUSH]
    carrier = panel.carrier.thickness.nominal
    if not flush:
        return said(
            "Height {height:mm} = the carrier alone: the sheets lie over it.", height=edging.height_mm
        )
    sheets = sum(face.thickness.nominal for face in flush)
    glue = sum(face.glue_line_mm for face in flush)
    return said(
        "Height {height:mm} = carrier {carrier:mm} + flush sheets {sheets:mm} + glue lines {glue:mm}.",
        height=edging.height_mm,
        carrier=carrier,
        sheets=sheets,
        glue=glue,
    )
