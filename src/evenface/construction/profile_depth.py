"""How deep the profiles of some edges are beside what their edging encloses, and the wood to be left there."""

from collections.abc import Iterable, Sequence

from evenface.construction.records import BuiltPanel
from evenface.construction.shapes import edge_shape
from evenface.materials.rules import rule
from evenface.piece.records import Corner, Meeting, Side
from evenface.shape.faults import ShapeError

RESERVE = rule("corner-reserve")


def wood_wanted_mm(panel: BuiltPanel, corner: Corner) -> float:
    """Wood to be left beside the carrier at that corner: the profile's depth there and the reserve."""
    reserve = RESERVE.nominal if corner.reserve_mm is None else corner.reserve_mm
    return profile_depth_inside(panel, (corner.at.along_length, corner.at.along_width)) + reserve


def levels_inside(panel: BuiltPanel, sides: Iterable[Side]) -> tuple[float, float]:
    """Lower and upper level of what the edgings of these sides enclose. [mm]

    That is the carrier, and the sheets the edging stands flush with; what lies over the edging does not count.
    """
    low, high = panel.carrier.z0_mm, panel.carrier.z1_mm
    edgings = [edging for side in sides if (edging := panel.edging(side))]
    for face in panel.faces:
        if any(edging.meets(face.role) is Meeting.FLUSH for edging in edgings):
            low, high = min(low, face.z0_mm), max(high, face.z1_mm)
    return low, high


def profile_depth_inside(panel: BuiltPanel, sides: Sequence[Side]) -> float:
    """Greatest depth of the profiles of these sides beside what their edging encloses. [mm]"""
    low, high = levels_inside(panel, sides)
    depths = [0.0]
    for side in sides:
        try:
            depths.append(edge_shape(panel, side).depth_between(low, high)[0])
        except ShapeError:
            continue  # a profile that cannot be cut is a finding of its own
    return max(depths)
