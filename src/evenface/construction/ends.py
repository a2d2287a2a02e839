"""How two edgings meet at a corner: mitred, one running past the other, or not at all.

Two edgings may be mitred only when they have the same section on both faces and are glued on in the same
order: otherwise their heights differ, or one is not there yet when the other is cut. An edging that stands
flush with a facing must run past one that lies under it: the other way round the corner would be bare.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from evenface.construction.records import End, EndKind
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.piece.records import Corner, CornerAt, Edge, Ends, Meeting, Order, Panel, Side
from evenface.words import Said, said


@dataclass(frozen=True, slots=True)
class Joint:
    """What happens at one corner. through : the side that runs past; None for a mitre."""

    at: CornerAt
    kind: EndKind
    through: Side | None = None


def meet(panel: Panel, corner: Corner, edges: Mapping[Side, Edge]) -> tuple[Joint | None, Finding | None]:
    """How the two edgings of a corner meet, and a finding where what was asked cannot be made.

    The joint is None where at most one edging comes to the corner. When the wish cannot be met the joint
    returned is the nearest one that can, so that sizes can still be shown.
    """
    long_edge, cross_edge = edges.get(corner.at.along_length), edges.get(corner.at.along_width)
    if long_edge is None or cross_edge is None:
        return None, None
    must, bare = _must_run_past(long_edge, cross_edge)
    if bare:
        return Joint(corner.at, EndKind.THROUGH, long_edge.side), _bare(panel, corner, long_edge, cross_edge)
    if must is not None:
        joint = Joint(corner.at, EndKind.THROUGH, must.side)
        if corner.ends is Ends.MITRE:
            return joint, _no_mitre(panel, corner, long_edge, cross_edge, must)
        wrong = corner.through is not None and corner.through is not must.side
        return joint, _wrong_way(panel, corner, must) if wrong else None
    if corner.ends is Ends.BUTT:
        return Joint(corner.at, EndKind.THROUGH, corner.through or long_edge.side), None
    return Joint(corner.at, EndKind.MITRE), None


def _must_run_past(one: Edge, other: Edge) -> tuple[Edge | None, bool]:
    """The edging that has to run past, None for like edgings; and whether neither way leaves no gap."""
    flush_one = {name for name, meeting in (("t", one.top), ("b", one.bottom)) if meeting is Meeting.FLUSH}
    flush_other = {
        name for name, meeting in (("t", other.top), ("b", other.bottom)) if meeting is Meeting.FLUSH
    }
    if flush_one != flush_other:
        if flush_one > flush_other:
            return one, False
        if flush_other > flush_one:
            return other, False
        return None, True
    if one.order is not other.order:
        return (one if one.order is Order.FACING_FIRST else other), False
    return None, False


def end_of(
    edge: Edge, corner: Corner, joint: Joint | None, edges: Mapping[Side, Edge], size_mm: float
) -> End:
    """Where the strip of `edge` ends at that corner.

    size_mm : finished size of the panel along the edge; distances along the edge are measured from its
    left or front end.
    """
    at_start = _at_start(edge.side, corner.at)
    border = 0.0 if at_start else size_mm
    inward = 1.0 if at_start else -1.0
    if joint is None:
        return End(EndKind.FREE, corner.at, border, border)
    neighbour = edges[corner.at.along_width if edge.side.runs_along_length else corner.at.along_length]
    inner = border + inward * neighbour.width_mm
    if joint.kind is EndKind.MITRE:
        angle = math.degrees(math.atan2(edge.width_mm, neighbour.width_mm))
        return End(EndKind.MITRE, corner.at, border, inner, angle)
    if joint.through is edge.side:
        return End(EndKind.THROUGH, corner.at, border, border)
    return End(EndKind.BETWEEN, corner.at, inner, inner)


def _at_start(side: Side, at: CornerAt) -> bool:
    across = at.along_width if side.runs_along_length else at.along_length
    return across in (Side.LEFT, Side.FRONT)


def _unlike(one: Edge, other: Edge) -> Said:
    if (one.top, one.bottom) != (other.top, other.bottom):
        return said(
            "The {one:word} edging and the {other:word} edging meet the facings differently, so they "
            "differ in height and a mitre cannot close.",
            one=one.side.value,
            other=other.side.value,
        )
    return said(
        "The {one:word} edging and the {other:word} edging are glued on in different orders: one is not "
        "there when the mitre would be fitted.",
        one=one.side.value,
        other=other.side.value,
    )


def _no_mitre(panel: Panel, corner: Corner, one: Edge, other: Edge, must: Edge) -> Finding:
    return Finding(
        code="edging.no_mitre",
        severity=Severity.STOP,
        origin=corner.origin or panel.origin,
        part=panel.name,
        at=corner.at.value,
        message=said("The edgings at the {corner:word} corner cannot be mitred.", corner=corner.at.value),
        why=_unlike(one, other),
        source="geometry of the edge section",
        remedies=(
            Remedy(
                "edging.butt",
                said(
                    "Let the {side:word} edging run past and butt the other against it.", side=must.side.value
                ),
                (Change(f"{corner.origin or panel.origin}.ends", "mitre", "butt"),),
            ),
        ),
    )


def _wrong_way(panel: Panel, corner: Corner, must: Edge) -> Finding:
    return Finding(
        code="edging.wrong_way_past",
        severity=Severity.STOP,
        origin=corner.origin or panel.origin,
        part=panel.name,
        at=corner.at.value,
        message=said(
            "At the {corner:word} corner only the {side:word} edging can run past.",
            corner=corner.at.value,
            side=must.side.value,
        ),
        why=said(
            "It stands flush with a facing, or is glued on later; run the other past and a piece of "
            "carrier or a gap shows at the corner."
        ),
        source="geometry of the edge section",
        remedies=(
            Remedy(
                "edging.through",
                said("Let the {side:word} edging run past.", side=must.side.value),
                (
                    Change(
                        f"{corner.origin or panel.origin}.through",
                        corner.through.value if corner.through else "",
                        must.side.value,
                    ),
                ),
            ),
        ),
    )


def _bare(panel: Panel, corner: Corner, one: Edge, other: Edge) -> Finding:
    return Finding(
        code="edging.bare_corner",
        severity=Severity.STOP,
        origin=corner.origin or panel.origin,
        part=panel.name,
        at=corner.at.value,
        message=said(
            "The {one:word} and the {other:word} edging cannot meet at the {corner:word} corner.",
            one=one.side.value,
            other=other.side.value,
            corner=corner.at.value,
        ),
        why=said(
            "Each is flush with the face where the other lies under it: whichever runs past leaves the "
            "corner bare on one face."
        ),
        source="geometry of the edge section",
        remedies=(
            Remedy(
                "edging.same_section",
                said("Give both edgings the same section on one of the faces."),
                (Change(f"{other.origin}.top", other.top.value, one.top.value),),
            ),
        ),
    )
