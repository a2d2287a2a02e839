"""What was already cut stays as it came out; everything not yet cut is re-sized from it.

The finished size is the aim. A carrier that came out 0.6 short is made up by the edgings not yet cut on that
axis, in equal shares; when none is left to give, the finished size moves and a finding says by how much.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from evenface.evidence import certain
from evenface.finding import Finding, Severity
from evenface.piece.records import Edge, Made, MadeSize, Panel, Role, Side
from evenface.words import said

LEAST_EDGING_MM = 1.0
"""Thinner than this an edging re-sized from a carrier is no edging any more."""
CLOSES_MM = 0.005
"""Half the last digit of a size: below this a size has not moved."""


@dataclass(frozen=True, slots=True)
class Locked:
    """Sizes of a panel after what is cut has been taken as it is. Lengths in mm."""

    length_mm: float
    width_mm: float
    edges: tuple[Edge, ...]
    cut_sides: tuple[Side, ...]
    carrier_cut: bool
    openings: Mapping[Role, MadeSize]
    faces_cut: Mapping[Role, MadeSize]
    findings: tuple[Finding, ...]


def lock_made(piece: str, panel: Panel, made: Made) -> Locked:
    """The panel re-sized round everything already cut."""
    mine = [size for size in made.sizes if (size.piece, size.panel) == (piece, panel.name)]
    carrier = next((size for size in mine if size.role is Role.CARRIER), None)
    cut_edges = {size.side: size for size in mine if size.role is Role.EDGING and size.side is not None}
    edges = {
        edge.side: replace(edge, width_mm=cut_edges[edge.side].width_mm or edge.width_mm)
        if edge.side in cut_edges
        else edge
        for edge in panel.edges
    }
    carrier_length = carrier.length_mm if carrier else None
    carrier_width = carrier.width_mm if carrier else None
    length, edges, one = _along(
        panel, edges, set(cut_edges), carrier_length, panel.length_mm, (Side.LEFT, Side.RIGHT)
    )
    width, edges, other = _along(
        panel, edges, set(cut_edges), carrier_width, panel.width_mm, (Side.FRONT, Side.REAR)
    )
    return Locked(
        length_mm=length,
        width_mm=width,
        edges=tuple(edges[edge.side] for edge in panel.edges),
        cut_sides=tuple(cut_edges),
        carrier_cut=carrier is not None,
        openings={size.role: size for size in mine if size.opening},
        faces_cut={
            size.role: size for size in mine if size.role in (Role.FACE, Role.BACK) and not size.opening
        },
        findings=tuple(finding for finding in (one, other) if finding is not None),
    )


def _along(
    panel: Panel,
    edges: dict[Side, Edge],
    cut: set[Side],
    carrier_mm: float | None,
    wanted_mm: float,
    sides: tuple[Side, Side],
) -> tuple[float, dict[Side, Edge], Finding | None]:
    """Re-size the edgings of one axis; returns the finished size, the edges and a finding if it moved."""
    if carrier_mm is None:
        return wanted_mm, edges, None
    present = [edges[side] for side in sides if side in edges]
    missing = wanted_mm - carrier_mm - sum(edge.width_mm for edge in present)
    free = [edge for edge in present if edge.side not in cut]
    if free:
        share = missing / len(free)
        if all(edge.width_mm + share >= LEAST_EDGING_MM for edge in free):
            resized = {edge.side: replace(edge, width_mm=edge.width_mm + share) for edge in free}
            return wanted_mm, {**edges, **resized}, None
    if abs(missing) < CLOSES_MM:
        return wanted_mm, edges, None
    return wanted_mm - missing, edges, _does_not_close(panel, sides, wanted_mm, wanted_mm - missing)


def _does_not_close(panel: Panel, sides: tuple[Side, Side], wanted: float, comes: float) -> Finding:
    axis = "length" if sides[0] is Side.LEFT else "width"
    return Finding(
        code="made.does_not_close",
        severity=Severity.WEIGH,
        origin=panel.origin,
        part=panel.name,
        at=axis,
        value=certain(comes),
        limit=wanted,
        unit="mm",
        message=said(
            "From what is already cut the {axis:word} comes out at {comes:mm}, {wanted:mm} was asked for.",
            axis=axis,
            comes=comes,
            wanted=wanted,
        ),
        why=said("No edging that is still to be cut is left to make up the difference."),
        source="sizes entered as made",
    )
