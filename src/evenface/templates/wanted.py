"""Every curve of a panel that is routed along a template, in panel coordinates."""

from collections.abc import Iterator
from dataclasses import replace

from evenface.construction import BuiltCorner, BuiltPanel
from evenface.construction.hollows import BuiltGrip, built_grip
from evenface.construction.notches import notches_of
from evenface.piece.records import Corner, Side
from evenface.shape.build import rounded_rectangle
from evenface.shape.cutter import Cutter
from evenface.shape.faults import ShapeError
from evenface.shape.hollow import Hollow
from evenface.shape.outline import Outline
from evenface.templates.records import Curve

STRAIGHT_MM = 120.0
"""Straight edge between the corners of a corner template: enough to set it by and to start the cut on."""

LEAST_MM = 1.0
"""A smaller radius is taken off with a file or block, not along a template."""
FACES = {"top": "show face", "bottom": "underside"}


def curves_of(panel: BuiltPanel) -> Iterator[Curve]:
    """Rounded corners or the free outline, then cut-outs, recesses with their inserts, and grips."""
    if panel.panel.outline is not None:
        yield Curve(
            piece=panel.piece,
            panel=panel.name,
            what="outline",
            name="outline",
            part=panel.panel.outline,
            work="outside",
            depth_mm=panel.thickness_mm,
            origin=f"{panel.origin}.outline",
        )
    else:
        yield from _corners(panel)
        yield from _carrier_corners(panel)
    yield from _notches(panel)
    yield from _cutouts(panel)
    yield from _inserts(panel)
    yield from _grips(panel)


def _corners(panel: BuiltPanel) -> Iterator[Curve]:
    """One template for each radius, a square with four such corners: it is its own mirror image."""
    kinds: dict[float, list[Corner]] = {}
    for corner in panel.panel.corners:
        if corner.shape == "radius" and corner.size_mm >= LEAST_MM:
            kinds.setdefault(corner.size_mm, []).append(corner)
    for radius, alike in kinds.items():
        side = 2 * radius + STRAIGHT_MM
        yield Curve(
            piece=panel.piece,
            panel=panel.name,
            what="rounded corner",
            name=f"corner R{radius:g}",
            part=rounded_rectangle(side, side, radius),
            work="outside",
            depth_mm=panel.thickness_mm,
            corners=tuple(corner.at.value for corner in alike),
            origin=alike[0].origin,
        )


def _carrier_corners(panel: BuiltPanel) -> Iterator[Curve]:
    """The carrier's own rounding behind a ring or bent strips, once for each radius."""
    kinds: dict[float, list[BuiltCorner]] = {}
    for corner in panel.corners:
        if not corner.fault and corner.carrier.kind == "radius" and corner.carrier.x_mm >= LEAST_MM:
            kinds.setdefault(corner.carrier.x_mm, []).append(corner)
    for radius, alike in kinds.items():
        side = 2 * radius + STRAIGHT_MM
        yield Curve(
            piece=panel.piece,
            panel=panel.name,
            what="rounded corner",
            name=f"carrier corner R{radius:g}",
            part=rounded_rectangle(side, side, radius),
            work="outside",
            depth_mm=panel.carrier.thickness.nominal,
            corners=tuple(corner.at.value for corner in alike),
            origin=alike[0].origin,
        )


def _notches(panel: BuiltPanel) -> Iterator[Curve]:
    """Openings that run out past the edge, so that the cutter comes in and leaves beside the panel."""
    for notch in notches_of(panel):
        yield Curve(
            piece=panel.piece,
            panel=panel.name,
            what="notch",
            name=f"notch {notch.name}" if notch.corner else notch.name,
            part=notch.routed,
            work="inside",
            depth_mm=panel.thickness_mm,
            origin=notch.origin,
        )


def _cutouts(panel: BuiltPanel) -> Iterator[Curve]:
    for cutout in panel.panel.cutouts:
        yield Curve(
            piece=panel.piece,
            panel=panel.name,
            what="cut-out",
            name=cutout.name,
            part=cutout.outline,
            work="inside",
            depth_mm=cutout.depth_mm or panel.thickness_mm,
            origin=cutout.origin,
        )


def _inserts(panel: BuiltPanel) -> Iterator[Curve]:
    for insert in panel.inserts:
        if insert.fault:
            continue
        face = insert.asked.face
        recess = Curve(
            piece=panel.piece,
            panel=panel.name,
            what="recess",
            name=f"{insert.asked.name} recess",
            part=_seen_on(panel, insert.asked.outline, face),
            work="inside",
            depth_mm=insert.height_mm,
            clearance_mm=insert.asked.clearance_mm,
            lies_on=FACES[face],
            origin=insert.asked.origin,
        )
        yield recess
        yield replace(
            recess,
            what="insert",
            name=insert.asked.name,
            part=_seen_on(panel, insert.piece, face),
            work="outside",
            depth_mm=insert.height_mm + insert.flush_mm,
            clearance_mm=None,
        )


def _seen_on(panel: BuiltPanel, outline: Outline, face: str) -> Outline:
    """The outline as it is seen on the face the template lies on: from below it is mirrored."""
    return outline if face == "top" else outline.mirrored(panel.length_mm / 2)


def _grips(panel: BuiltPanel) -> Iterator[Curve]:
    """What each grip's cutter sweeps at its full width; for both hands a mirrored one too, where it differs."""
    for grip in panel.panel.grips:
        try:
            made = built_grip(panel, grip)
            if grip.scooped:
                continue  # it runs on rails, not in a slot
            hollow = _seen_from_its_side(panel, made)
            cutter = Cutter(grip.cutter_diameter_mm, made.hollow.cutter.cutting_length_mm)
            opening = replace(hollow, cutter=cutter).section_at(0.0)
        except ShapeError:
            continue  # told by the checks
        one = Curve(
            piece=panel.piece,
            panel=panel.name,
            what="grip",
            name=grip.name,
            part=opening,
            work="inside",
            depth_mm=grip.depth_mm,
            cutter_mm=grip.cutter_diameter_mm,
            cutter_shape=grip.cutter,
            hand=grip.hand if grip.hand != "both" else "",
            lies_on=side_it_lies_on(made),
            way=hollow.way,
            origin=grip.origin,
        )
        yield one
        middle = (opening.bounds[0] + opening.bounds[2]) / 2
        mirrored = opening.mirrored(middle)
        if grip.hand == "both" and not mirrored.same_as(opening):
            other = hollow.mirrored(middle)
            yield replace(one, name=f"{grip.name} left hand", part=mirrored, hand="left", way=other.way)


def side_it_lies_on(made: BuiltGrip) -> str:
    """The face or edge a template for this grip lies on."""
    if made.side is not None:
        return f"{made.side.value} edge"
    return FACES["top" if made.asked.from_ == "face" else "bottom"]


def _seen_from_its_side(panel: BuiltPanel, made: BuiltGrip) -> Hollow:
    """The hollow as seen by whoever stands before the side it is worked from, show face up or at the top."""
    if made.side in (Side.REAR, Side.LEFT):
        along = panel.length_mm if made.side is Side.REAR else panel.width_mm
        return made.hollow.mirrored(along / 2)
    if made.side is None and made.asked.from_ == "under":
        return made.hollow.mirrored(panel.length_mm / 2)
    return made.hollow
