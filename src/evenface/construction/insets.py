"""Inserts as they will be made: recess, piece with its clearance, height, the levels they take up."""

from typing import Protocol

from evenface.construction.records import BuiltInsert, BuiltPanel
from evenface.materials import Wood
from evenface.materials.rules import rule
from evenface.piece.records import Insert, Role
from evenface.shape.faults import ShapeError
from evenface.shape.offset import offset
from evenface.words import Said

PROUD_BEFORE = rule("edging-proud-under")
PROUD_AFTER = rule("edging-proud-flush")


class Woods(Protocol):
    """What is asked of the catalogue."""

    def wood(self, name: str) -> Wood: ...


def built_inserts(panel: BuiltPanel, materials: Woods) -> tuple[BuiltInsert, ...]:
    """Every insert of the panel, in the order of the file. MissingWord for a wood the catalogue lacks."""
    return tuple(_built(panel, insert, materials.wood(insert.wood)) for insert in panel.panel.inserts)


def _built(panel: BuiltPanel, insert: Insert, wood: Wood) -> BuiltInsert:
    low, high = ground_of(panel, insert)
    z0, z1 = low, high
    if insert.depth_mm is not None:
        z0, z1 = (high - insert.depth_mm, high) if insert.face == "top" else (low, low + insert.depth_mm)
    usual = PROUD_BEFORE if insert.when == "before facing" else PROUD_AFTER
    proud = usual.nominal if insert.flush_mm is None else insert.flush_mm
    if insert.depth_mm is None:
        proud *= 2  # flushed on both faces
    fault: Said | str = ""
    try:
        piece = offset(insert.outline, -insert.clearance_mm).only
    except ShapeError as error:
        piece, fault = insert.outline, error.sentence
    return BuiltInsert(insert, wood, piece, z0, z1, high - low, proud, fault)


def ground_of(panel: BuiltPanel, insert: Insert) -> tuple[float, float]:
    """Levels between which there is something to let it into: the carrier, and sheets already laid.

    An insert let in after the facing goes through the sheet of its own face, and through both when it goes
    right through.
    """
    low, high = panel.carrier.z0_mm, panel.carrier.z1_mm
    if insert.when == "before facing":
        return low, high
    if panel.face(Role.FACE) and (insert.face == "top" or insert.depth_mm is None):
        high = panel.thickness_mm
    if panel.face(Role.BACK) and (insert.face == "bottom" or insert.depth_mm is None):
        low = 0.0
    return low, high
