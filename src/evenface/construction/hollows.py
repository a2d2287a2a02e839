"""Grips as hollows: the cutter, its way, and the wood it is worked into as seen from where it enters."""

from dataclasses import dataclass
from itertools import pairwise

from evenface.construction.records import BuiltPanel
from evenface.piece.records import Grip, Side
from evenface.shape.cutter import Cutter
from evenface.shape.faults import need
from evenface.shape.hollow import Hollow
from evenface.shape.hollow_wood import Slab
from evenface.shape.ring import Ring
from evenface.shape.segment import Segment
from evenface.words import said

ANY_LENGTH_MM = 1000.0
"""Length of a cutter nobody has measured: its reach is not judged."""


@dataclass(frozen=True, slots=True)
class BuiltGrip:
    """A grip as it will be cut.

    side : the edge it is worked from, None from a face. wood : the insert or strip it is worked into, as seen
    from where the cutter enters; None where there is none and it goes into the board.
    """

    asked: Grip
    hollow: Hollow
    wood: Slab | None
    side: Side | None = None


def built_grip(panel: BuiltPanel, grip: Grip, reach_mm: float | None = None) -> BuiltGrip:
    """The grip as a hollow. From an edge its path is (along that edge, height above the underside).

    Raises ShapeError when cutter and path make no hollow.
    """
    hollow = hollow_of(grip, reach_mm)
    if grip.from_ == "edge":
        side = edge_of(panel, grip)
        return BuiltGrip(grip, hollow, _beside_edge(panel, grip, side), side)
    return BuiltGrip(grip, hollow, _below_face(panel, grip))


def hollow_of(grip: Grip, reach_mm: float | None = None) -> Hollow:
    """Cutter and way. A scooped grip comes up to the surface at both ends of its path."""
    length = reach_mm or ANY_LENGTH_MM
    cove = min(grip.depth_mm, grip.cutter_diameter_mm / 2) if grip.cutter == "cove" else 0.0
    shape = {"ball": "ball", "core-box": "core-box", "cove": "cove"}.get(grip.cutter, "straight")
    cutter = Cutter(grip.cutter_diameter_mm, length, shape, cove)  # type: ignore[arg-type]
    need(len(grip.path) > 0, "path", "a grip needs at least one point")
    way = tuple(Segment(*a, *b) for a, b in pairwise(grip.path) if a != b)
    scoop = 0.0
    if grip.scooped and way:
        half, depth = sum(piece.length for piece in way) / 2, grip.depth_mm
        need(
            depth < half,
            "scoop",
            said(
                "a scooped grip {depth:mm} deep needs a path longer than {least:mm}, got {given:mm}",
                depth=depth,
                least=2 * depth,
                given=2 * half,
            ),
        )
        scoop = (half * half + depth * depth) / (2 * depth)
    approach = {"face": "face", "edge": "edge"}.get(grip.from_, "under")
    return Hollow(cutter, grip.depth_mm, way, grip.path[0], scoop, approach)  # type: ignore[arg-type]


def _below_face(panel: BuiltPanel, grip: Grip) -> Slab | None:
    for insert in panel.inserts:
        if insert.asked.name == grip.insert:
            low, high = insert.z0_mm, insert.z1_mm
            if grip.from_ == "face":
                low, high = panel.thickness_mm - high, panel.thickness_mm - low
            return Slab(low, high, insert.piece.outer)
    return None


def edge_of(panel: BuiltPanel, grip: Grip) -> Side:
    """The edge a grip is worked from: named, else the one nearest to its insert, else the first that is edged."""
    if grip.side is not None:
        return grip.side
    for insert in panel.inserts:
        if insert.asked.name == grip.insert:
            x0, y0, x1, y1 = insert.piece.bounds
            away = {
                Side.FRONT: y0,
                Side.REAR: panel.width_mm - y1,
                Side.LEFT: x0,
                Side.RIGHT: panel.length_mm - x1,
            }
            return min(away, key=lambda side: away[side])
    return panel.edgings[0].side if panel.edgings else Side.FRONT


def _beside_edge(panel: BuiltPanel, grip: Grip, side: Side) -> Slab | None:
    """The strip of edging as seen from its edge: the cutter goes into it first."""
    edging = panel.edging(side)
    if edging is None:
        return None
    a, b = sorted((edging.start.inner_mm, edging.end.inner_mm))
    ring: Ring = (
        (a, edging.z0_mm, 0.0),
        (b, edging.z0_mm, 0.0),
        (b, edging.z1_mm, 0.0),
        (a, edging.z1_mm, 0.0),
    )
    return Slab(0.0, edging.width_mm, ring)
