"""Wood let into the carrier, and wood that lines a cut-out: sizes of recess, piece and safe blank."""

from collections.abc import Iterator
from math import radians

from evenface.construction import BuiltInsert, BuiltPanel
from evenface.materials.rules import rule
from evenface.parts.records import LayerSizes
from evenface.piece.records import Role
from evenface.words import Said, said

ROUGH_LENGTH = rule("rough-length")
ROUGH_WIDTH = rule("rough-width")
ROUGH_FACE = rule("rough-planed-face")
SAFE_LENGTH = rule("blank-safe-length")
BETWEEN_MM = 6.2
"""A cut and a hair between two small pieces worked on one stick: 3.2 for the saw, 3 to trim."""


def insert_sizes(panel: BuiltPanel) -> Iterator[LayerSizes]:
    """Every insert: along its grain × across × height, less its clearance all round."""
    for insert in panel.inserts:
        if not insert.fault:
            yield _insert(panel, insert)


def _insert(panel: BuiltPanel, insert: BuiltInsert) -> LayerSizes:
    asked = insert.asked
    along, across = insert.piece.rotated(-radians(asked.grain_deg)).size
    net = (along, across, insert.height_mm)
    blank = (along, across, insert.height_mm + insert.flush_mm)
    hollowed = any(grip.insert == asked.name for grip in panel.panel.grips)
    stick = max(along + BETWEEN_MM, SAFE_LENGTH.nominal / panel.count)
    return LayerSizes(
        role=Role.INSERT,
        material=asked.wood,
        net_mm=net,
        cut_mm=blank,
        blank_mm=blank,
        bought_mm=(
            stick,
            across + ROUGH_WIDTH.nominal,
            blank[2] + 2 * ROUGH_FACE.nominal,
        ),
        direction_deg=asked.grain_deg,
        tolerance_mm=0.1,
        depends_on=(said("the recess as it came out"),),
        reasons=tuple(_reasons(insert, along, panel.count, hollowed)),
        name=asked.name,
        origin=asked.origin,
    )


def _reasons(insert: BuiltInsert, along: float, count: int, hollowed: bool) -> Iterator[Said]:
    asked = insert.asked
    length, width = asked.outline.size
    if insert.through:
        yield said("Recess {length:mm} × {width:mm}, right through.", length=length, width=width)
    else:
        yield said(
            "Recess {length:mm} × {width:mm}, {depth:mm} deep from the {face:word}.",
            length=length,
            width=width,
            depth=insert.height_mm,
            face=asked.face,
        )
    yield said("{gap:mm2} clearance on each side: the piece is that much smaller.", gap=asked.clearance_mm)
    yield (
        said("Let in before the facing, which covers it.")
        if asked.when == "before facing"
        else said("Let in after the facing: a rim of wood shows, levelled to the facing.")
    )
    if insert.flush_mm:
        yield said("{over:mm} proud, flushed after gluing.", over=insert.flush_mm)
    yield from _safe_blank(along, count, hollowed)


def _safe_blank(along: float, count: int, hollowed: bool) -> Iterator[Said]:
    """Small pieces stay on one stick, hollows and all, until every cut but the last is done."""
    if along >= SAFE_LENGTH.nominal:
        return
    whole = max(count * (along + BETWEEN_MM), SAFE_LENGTH.nominal)
    yield said(
        "Too short to hold at the cutter: work {count:count} on one stick of {length:mm}, hollows and all, and cut "
        "apart at the end."
        if hollowed
        else "Too short to hold at the cutter: work {count:count} on one stick of {length:mm} and cut apart at "
        "the end.",
        count=count,
        length=whole,
    )


def lining_sizes(panel: BuiltPanel) -> Iterator[LayerSizes]:
    """Wood that lines a cut-out: the length of its edge × width in plan × height of the panel."""
    for cutout in panel.panel.cutouts:
        if not cutout.lining or cutout.lining_width_mm <= 0:
            continue
        net = (cutout.outline.perimeter_mm, cutout.lining_width_mm, panel.carrier.thickness.nominal)
        yield LayerSizes(
            role=Role.LINING,
            material=cutout.lining,
            net_mm=net,
            cut_mm=net,
            blank_mm=net,
            bought_mm=(
                net[0] + ROUGH_LENGTH.nominal,
                net[1] + ROUGH_WIDTH.nominal,
                net[2] + 2 * ROUGH_FACE.nominal,
            ),
            tolerance_mm=0.1,
            depends_on=(said("the opening as it came out"),),
            reasons=(
                said("Measured along the opening: {length:mm} all round.", length=net[0]),
                said("The carrier's opening is {width:mm} larger on every side.", width=net[1]),
            ),
            name=cutout.name,
            origin=cutout.origin,
        )
