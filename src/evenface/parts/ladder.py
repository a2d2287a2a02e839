"""From built panels to parts: each layer climbs from net to blank by the allowances of its panel."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from evenface.construction import BuiltPanel, CarrierLayer, Construction, FaceLayer
from evenface.construction.notches import bite_in_carrier, fault_of, notches_of
from evenface.parts.corners import corner_sizes
from evenface.parts.edge_pieces import edge_piece_sizes
from evenface.parts.edging import edging_sizes
from evenface.parts.inserts import insert_sizes, lining_sizes
from evenface.parts.mass import mass_kg
from evenface.parts.records import LayerSizes, Part
from evenface.piece.records import Meeting, Role, Side
from evenface.words import Said, said


def parts_of(
    constructions: Sequence[Construction], make: Callable[[BuiltPanel, str], Part] | None = None
) -> tuple[Part, ...]:
    """Every part of the job, numbered piece.part in the order of the file.

    make : in place of `part_of`, for a caller who remembers parts that have not changed.
    """
    return tuple(
        with_mitres((make or part_of)(panel, f"{number}.{position}"), construction)
        for number, construction in enumerate(constructions, start=1)
        for position, panel in enumerate(construction.panels, start=1)
    )


def part_of(panel: BuiltPanel, part_id: str) -> Part:
    """One panel as a part with all its layers, bottom to top, then edgings and other pieces of wood."""
    back, face = panel.face(Role.BACK), panel.face(Role.FACE)
    layers = (
        *((sheet_sizes(panel, back),) if back else ()),
        carrier_sizes(panel),
        *((sheet_sizes(panel, face),) if face else ()),
        *edging_sizes(panel),
        *edge_piece_sizes(panel),
        *corner_sizes(panel),
        *insert_sizes(panel),
        *lining_sizes(panel),
    )
    return Part(
        id=part_id,
        piece=panel.piece,
        name=panel.name,
        count=panel.count,
        finished_mm=(panel.length_mm, panel.width_mm, panel.thickness_mm),
        layers=layers,
        mass_kg=mass_kg(panel),
        marks={"face": said("show face"), "edge": said("front edge is the reference edge")},
        origin=panel.origin,
    )


def with_mitres(part: Part, construction: Construction) -> Part:
    """The same part; where its ends are mitred at last, its inner facing is what is left of it then."""
    short = sum(
        one.depth_mm for one in construction.arranged.worked if one.part == part.name and one.kind == "mitre"
    )
    if not short:
        return part

    def inner(layer: LayerSizes) -> LayerSizes:
        if layer.role is not Role.BACK:
            return layer
        long, wide, thick = layer.net_mm
        reason = said(
            "Glued on as long as the panel: {inner:mm} of it are left inside once the ends are mitred.",
            inner=long - short,
        )
        return replace(layer, net_mm=(long - short, wide, thick), reasons=(*layer.reasons, reason))

    return replace(part, layers=tuple(inner(layer) for layer in part.layers))


def carrier_sizes(panel: BuiltPanel) -> LayerSizes:
    """The carrier: finished size less the edging on each side; cut to net unless an allowance is set."""
    carrier = panel.carrier
    net = (carrier.rectangle.length_mm, carrier.rectangle.width_mm, carrier.thickness.nominal)
    extra = 2 * (panel.allowances.carrier_mm or 0.0)
    blank = net if carrier.locked else (net[0] + extra, net[1] + extra, net[2])
    return LayerSizes(
        role=Role.CARRIER,
        material=carrier.material.name,
        net_mm=net,
        cut_mm=net,
        blank_mm=blank,
        direction_deg=carrier.direction_deg,
        tolerance_mm=0.5,
        reasons=tuple(_carrier_reasons(panel, carrier)),
        locked=carrier.locked,
        origin=carrier.origin,
    )


_CORNER_WORDS = {
    "square": "{corner:word} corner left square.",
    "chamfer": "{corner:word} corner cut off at 45°, {x:mm} from each side, together with the edging.",
    "notch": "{corner:word} corner notched {x:mm} along the length and {y:mm} along the width.",
    "radius": "{corner:word} corner rounded to {x:mm}.",
}


def _carrier_reasons(panel: BuiltPanel, carrier: CarrierLayer) -> Iterator[Said]:
    if carrier.locked:
        yield said("Already cut: taken as measured; what is still to be cut follows it.")
    yield from _deductions(panel, {side: panel.edging_width_mm(side) for side in Side}, "edging")
    for corner in panel.corners:
        if not corner.fault:
            yield said(
                _CORNER_WORDS[corner.carrier.kind],
                corner=corner.at.value,
                x=corner.carrier.x_mm,
                y=corner.carrier.y_mm,
            )
    if panel.panel.outline is not None:
        yield said("Cut from this rectangle to the outline less its edging.")
    for notch in notches_of(panel):
        if notch.returned and notch.corner is None and not fault_of(panel, notch):
            bite = bite_in_carrier(panel, notch)
            yield said(
                "Notched for {name}, {x:mm} along the length and {y:mm} along the width with the edging round it.",
                name=notch.name,
                x=min(bite.x1, carrier.rectangle.x1) - max(bite.x0, carrier.rectangle.x0),
                y=min(bite.y1, carrier.rectangle.y1) - max(bite.y0, carrier.rectangle.y0),
            )
    if panel.allowances.carrier_mm:
        yield said(
            "Left {extra:mm} oversize on each edge, cut to net later.", extra=panel.allowances.carrier_mm
        )
    spread = carrier.thickness.high - carrier.thickness.low
    if spread > 0.2:
        yield said(
            "Thickness {nominal:mm}, a batch measures from {low:mm} to {high:mm}: measure it and enter it.",
            nominal=carrier.thickness.nominal,
            low=carrier.thickness.low,
            high=carrier.thickness.high,
        )


def _deductions(panel: BuiltPanel, taken: dict[Side, float], what: str) -> Iterator[Said]:
    """One sentence an axis: from the finished size, less what each side takes."""
    for axis, size, first, last in (
        ("Length", panel.length_mm, Side.LEFT, Side.RIGHT),
        ("Width", panel.width_mm, Side.FRONT, Side.REAR),
    ):
        one, other = taken[first], taken[last]
        left = size - one - other
        if one and other:
            yield said(
                "{axis:word} {left:mm} = {size:mm} finished, less {what:word} {one:mm} {first:word} and "
                "{other:mm} {last:word}.",
                axis=axis,
                left=left,
                size=size,
                what=what,
                one=one,
                first=first.value,
                other=other,
                last=last.value,
            )
        elif one or other:
            yield said(
                "{axis:word} {left:mm} = {size:mm} finished, less {what:word} {one:mm} {first:word}.",
                axis=axis,
                left=left,
                size=size,
                what=what,
                one=one or other,
                first=(first if one else last).value,
            )
        else:
            yield said("{axis:word} {size:mm} = finished, nothing to take off.", axis=axis, size=size)


def sheet_sizes(panel: BuiltPanel, face: FaceLayer) -> LayerSizes:
    """A facing or balancing sheet: over the edging where it lies on it, inside where it is flush."""
    net = (face.rectangle.length_mm, face.rectangle.width_mm, face.thickness.nominal)
    over = {side: 0.0 if side in face.fitted else panel.allowances.overhang_mm[side] for side in Side}
    blank = (
        net[0] + over[Side.LEFT] + over[Side.RIGHT],
        net[1] + over[Side.FRONT] + over[Side.REAR],
        net[2],
    )
    fitted = bool(face.fitted)
    return LayerSizes(
        role=face.role,
        material=face.material.name,
        net_mm=net,
        cut_mm=blank,
        blank_mm=blank,
        direction_deg=face.direction_deg,
        tolerance_mm=0.1 if fitted else 0.5,
        depends_on=(said("the opening between the edgings, as it came out"),) if fitted else (),
        reasons=tuple(_sheet_reasons(panel, face, over)),
        locked=face.locked,
        fitted=fitted,
        origin=face.origin,
    )


def _sheet_reasons(panel: BuiltPanel, face: FaceLayer, over: dict[Side, float]) -> Iterator[Said]:
    taken = {
        side: edging.width_mm
        if (edging := panel.edging(side)) and edging.meets(face.role) is Meeting.FLUSH
        else 0.0
        for side in Side
    }
    yield from _deductions(panel, taken, "flush edging")
    trimmed = {side: extra for side, extra in over.items() if extra}
    if trimmed and len(set(trimmed.values())) == 1 and len(trimmed) == 4:
        yield said("Blank {extra:mm} over on every edge, trimmed flush.", extra=over[Side.FRONT])
    else:
        for side, extra in trimmed.items():
            yield said(
                "Blank {extra:mm} over at the {side:word}, trimmed flush.", extra=extra, side=side.value
            )
    if panel.panel.outline is not None:
        yield said("Laid as this rectangle, trimmed to the outline.")
    for notch in notches_of(panel):
        yield said("The notch {name} is cut out of it after trimming.", name=notch.name)
    if face.fitted:
        yield said(
            "Fitted into the opening at {sides}: nothing to trim there, scribe it to the opening as made.",
            sides=_named([side.value for side in face.fitted]),
        )


def _named(words: Sequence[str]) -> Said:
    """Words in a row, each in the reader's language."""
    row = said("{a:word}", a=words[0])
    for word in words[1:]:
        row = said("{before}, {side:word}", before=row, side=word)
    return row
