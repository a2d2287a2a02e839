"""What a panel weighs: sheets, edging and let-in wood by volume and density, openings and notches taken off."""

from math import pi

from evenface.construction import BuiltPanel, FaceLayer, Rectangle
from evenface.construction.notches import BuiltNotch, fault_of, notches_of
from evenface.construction.shapes import finished_outline
from evenface.piece.records import Cutout, Meeting
from evenface.shape.faults import ShapeError
from evenface.shape.offset import offset


def mass_kg(panel: BuiltPanel) -> float:
    """Mass of one panel from net sizes and densities. [kg]

    Edging is what the finished outline has more than the carrier, so corner pieces, roundings and notches are
    in it. Glue, profiles and hollows for the fingers are left out.
    """
    whole, carrier = _finished(panel), _carrier_area(panel)
    grams = carrier * panel.carrier.thickness.nominal * panel.carrier.material.density.nominal
    grams += _edging(panel, whole - carrier)
    grams += sum(_face(panel, face, whole, carrier) for face in panel.faces)
    grams += sum(_insert(panel, number) for number in range(len(panel.inserts)))
    grams += sum(_opening(panel, cutout) for cutout in panel.panel.cutouts)
    return max(grams, 0.0) * 1e-9


def _finished(panel: BuiltPanel) -> float:
    try:
        return finished_outline(panel).area_mm2
    except ShapeError:
        return panel.length_mm * panel.width_mm  # told by the checks


def _carrier_area(panel: BuiltPanel) -> float:
    """The carrier in the finished piece, seen from above: whole where it is not edged. [mm²]"""
    if not panel.edgings:
        return _finished(panel)
    if panel.carrier_outline is None:
        return _area(panel.carrier.rectangle)
    cut = (n for n in notches_of(panel) if not n.returned or fault_of(panel, n))
    return panel.carrier_outline.area_mm2 - sum(_within(n, panel.carrier.rectangle) for n in cut)


def _edging(panel: BuiltPanel, area_mm2: float) -> float:
    """Wood round the carrier, at the mean of height times density of the strips it is made of."""
    shares = [
        (piece.count * piece.width_mm * (piece.outer_mm + piece.inner_mm) / 2, piece.edging)
        for piece in panel.edge_pieces
        if piece.kind in ("strip", "bent")
    ] or [
        (edging.width_mm * (edging.outer_length_mm + edging.inner_length_mm) / 2, edging)
        for edging in panel.edgings
    ]
    whole = sum(share for share, _ in shares)
    if whole <= 0:
        return 0.0
    mean = sum(share * edging.height_mm * edging.wood.density.nominal for share, edging in shares) / whole
    return area_mm2 * mean


def _face(panel: BuiltPanel, face: FaceLayer, whole: float, carrier: float) -> float:
    flush = any(edging.meets(face.role) is Meeting.FLUSH for edging in panel.edgings)
    if not flush:
        area = whole
    elif panel.panel.outline is not None:
        area = carrier
    else:
        area = _area(face.rectangle) - sum(_within(notch, face.rectangle) for notch in notches_of(panel))
    return area * face.thickness.nominal * face.material.density.nominal


def _insert(panel: BuiltPanel, number: int) -> float:
    """Its own wood, less what its recess takes from carrier and sheets."""
    insert = panel.inserts[number]
    if insert.fault:
        return 0.0
    gained = insert.piece.area_mm2 * insert.height_mm * insert.wood.density.nominal
    return gained - insert.asked.outline.area_mm2 * _through(panel, insert.z0_mm, insert.z1_mm)


def _opening(panel: BuiltPanel, cutout: Cutout) -> float:
    """What a cut-out takes away, and the wood that lines it."""
    top = panel.thickness_mm
    low = 0.0 if cutout.depth_mm is None else max(top - cutout.depth_mm, 0.0)
    area = cutout.outline.area_mm2
    lined = 0.0
    wood = panel.lining_woods.get(cutout.lining)
    if wood is not None and cutout.lining_width_mm > 0:
        carrier = panel.carrier
        ring = offset(cutout.outline, cutout.lining_width_mm).area_mm2 - area
        lined = ring * carrier.thickness.nominal * (wood.density.nominal - carrier.material.density.nominal)
    return lined - area * _through(panel, low, top)


def _through(panel: BuiltPanel, low: float, high: float) -> float:
    """Thickness times density of carrier and sheets between two levels."""
    carrier = panel.carrier
    layers = [(carrier.z0_mm, carrier.z1_mm, carrier.material.density.nominal)]
    layers += [(face.z0_mm, face.z1_mm, face.material.density.nominal) for face in panel.faces]
    return sum(max(min(high, z1) - max(low, z0), 0.0) * density for z0, z1, density in layers)


def _area(box: Rectangle) -> float:
    return max(box.length_mm, 0.0) * max(box.width_mm, 0.0)


def _within(notch: BuiltNotch, box: Rectangle) -> float:
    """What a notch takes from a rectangle; the wood left in its rounded inner corners counts. [mm²]"""
    x = min(notch.box.x1, box.x1) - max(notch.box.x0, box.x0)
    y = min(notch.box.y1, box.y1) - max(notch.box.y0, box.y0)
    if x <= 0 or y <= 0:
        return 0.0
    rounded = (1 - pi / 4) * notch.inner_radius_mm**2 * (1 if notch.corner else 2)
    return max(x * y - rounded, 0.0)
