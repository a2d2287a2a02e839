"""What a profile meets that is not wood of the edging: bare carrier, frame and fixings, hinges, inserts, arcs."""

from collections.abc import Iterator
from math import ceil, sqrt

from evenface.checks.profiles import along_edges, names_of
from evenface.checks.question import Asked
from evenface.construction import BuiltInsert, BuiltPanel
from evenface.construction.shapes import edge_shape, profile_of
from evenface.evidence import certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Corner, Profile, Side
from evenface.shape.edge_shape import EdgeShape, undercut
from evenface.shape.faults import ShapeError
from evenface.words import listed, said

CUP_EDGE = rule("hinge-cup-edge-least")
WALL = rule("insert-wall")


def check_profiles_beside(asked: Asked) -> Iterator[Finding]:
    """Findings `profile.in_carrier`, `.in_groove`, `.frame`, `.hinge_cup`, `.insert` and `.ends_in_rounding`."""
    panel = asked.panel
    for profiles, sides in along_edges(panel):
        try:
            edge = edge_shape(panel, sides[0])
        except ShapeError:
            continue  # a finding of its own
        yield from _not_wood(panel, profiles, sides)
        yield from _held(panel, edge, profiles, sides)
        yield from _inserts(panel, edge, profiles, sides)
    yield from _at_corners(panel)


def _not_wood(panel: BuiltPanel, profiles: tuple[Profile, ...], sides: tuple[Side, ...]) -> Iterator[Finding]:
    bare = tuple(side for side in sides if panel.edging(side) is None)
    if bare and panel.edgings:
        yield Finding(
            code="profile.in_carrier",
            severity=Severity.WEIGH,
            origin=profiles[-1].origin,
            at=names_of(bare),
            message=said(
                "Along {sides} there is no edging: the profile is cut into the board.",
                sides=listed(said("{side:word}", side=one.value) for one in bare),
            ),
            why=said("The layers of the board show in it and drink more finish."),
            source="geometry of the edge section",
        )
    if panel.panel.hold.how == "groove":
        yield Finding(
            code="profile.in_groove",
            severity=Severity.WEIGH,
            origin=profiles[-1].origin,
            at=names_of(sides),
            message=said("The panel sits in a groove: a profile on its edge would lie in it or show a gap."),
            source="geometry of the edge section",
        )


def _held(
    panel: BuiltPanel, edge: EdgeShape, profiles: tuple[Profile, ...], sides: tuple[Side, ...]
) -> Iterator[Finding]:
    """A profile from below against what the panel rests on or hangs by."""
    hold = panel.panel.hold
    if hold.how == "hinged":
        at = sides if hold.hinges is None else tuple(side for side in sides if side is hold.hinges)
        begins = (
            CUP_EDGE.nominal if hold.hinges is None else hold.from_edge_mm.get(hold.hinges, CUP_EDGE.nominal)
        )
        left = undercut(edge, begins)
        if at and left < -1e-9:
            yield _hinge_cup(profiles, names_of(at), left, begins)
        return
    for side in sides:
        if side in hold.from_edge_mm and undercut(edge, hold.from_edge_mm[side]) < -1e-9:
            left = undercut(edge, hold.from_edge_mm[side])
            yield _frame(panel, profiles, side, left, hold.from_edge_mm[side])


def _hinge_cup(profiles: tuple[Profile, ...], at: str, left: float, inset: float) -> Finding:
    return Finding(
        code="profile.hinge_cup",
        severity=Severity.WEIGH,
        origin=profiles[-1].origin,
        at=at,
        value=certain(left),
        limit=0.0,
        unit="mm",
        message=said(
            "The profile from below reaches {over:mm2} past where a hinge cup {least:mm} from the edge begins.",
            over=-left,
            least=inset,
        ),
        why=said("On the side of the hinges the cup would be open to the edge."),
        source=CUP_EDGE.source,
        weakest=CUP_EDGE.status,
        remedies=(
            Remedy("profile.leave_hinge_side", said("Leave that profile out along the side of the hinges.")),
        ),
    )


def _frame(
    panel: BuiltPanel, profiles: tuple[Profile, ...], side: Side, left: float, begins: float
) -> Finding:
    inwards = ceil(10 * (begins - left) - 1e-6) / 10
    below = next((one for one in profiles if one.face == "bottom" and one.depth_mm is not None), None)
    smaller = (
        Remedy(
            "profile.less_deep",
            said("Make it at most {depth:mm} deep at the underside.", depth=begins),
            (Change(f"{below.origin}.depth", f"{below.depth_mm:g}", f"{begins:g}"),) if below else (),
            certain(0.0),
        ),
    )
    return Finding(
        code="profile.frame",
        severity=Severity.WEIGH,
        origin=profiles[-1].origin,
        at=side.value,
        value=certain(left),
        limit=0.0,
        unit="mm",
        message=said(
            "Along the {side:word} the profile from below reaches {over:mm2} over the frame or fixings, which begin "
            "{begins:mm} from that edge.",
            side=side.value,
            over=-left,
            begins=begins,
        ),
        why=said("A gap opens above the frame, the panel bears on less, and screws there hold in less wood."),
        source="geometry of the edge section",
        remedies=(
            Remedy(
                "profile.frame_inwards",
                said("Set frame and fixings in by {inset:mm}.", inset=inwards),
                (Change(f"{panel.panel.hold.origin}.from_edge.{side.value}", f"{begins:g}", f"{inwards:g}"),),
                certain(inwards - (begins - left)),
            ),
            *(smaller if begins > 0 else ()),
        ),
    )


def _inserts(
    panel: BuiltPanel, edge: EdgeShape, profiles: tuple[Profile, ...], sides: tuple[Side, ...]
) -> Iterator[Finding]:
    """Wood between a profile and an insert beside it, at the levels the insert takes up."""
    for insert in panel.inserts:
        depth, level = edge.depth_between(insert.z0_mm, insert.z1_mm)
        if insert.fault or depth <= 0:
            continue
        left, side = min((_to(panel, insert, side) - depth, side.value) for side in sides)
        if left < WALL.nominal - 1e-9:
            yield _insert(profiles, insert, side, left, level)


def _to(panel: BuiltPanel, insert: BuiltInsert, side: Side) -> float:
    """From an insert to a side of the panel's rectangle. [mm]"""
    x0, y0, x1, y1 = insert.asked.outline.bounds
    return {
        Side.FRONT: y0,
        Side.REAR: panel.width_mm - y1,
        Side.LEFT: x0,
        Side.RIGHT: panel.length_mm - x1,
    }[side]


def _insert(
    profiles: tuple[Profile, ...], insert: BuiltInsert, side: str, left: float, level: float
) -> Finding:
    return Finding(
        code="profile.insert",
        severity=Severity.STOP if left < 0 else Severity.WEIGH,
        origin=profiles[-1].origin,
        at=insert.asked.name,
        value=certain(left),
        limit=WALL.nominal,
        unit="mm",
        message=said(
            "Along the {side:word} the profile cuts {over:mm2} into {name}, {level:mm2} above the underside."
            if left < 0
            else "Between the profile along the {side:word} and {name} {over:mm2} are left, {level:mm2} above the "
            "underside.",
            side=side,
            name=insert.asked.name,
            over=abs(left),
            level=level,
        ),
        source=WALL.source,
        weakest=WALL.status,
        remedies=(
            Remedy(
                "insert.move",
                said("Move it {more:mm} inwards.", more=WALL.nominal - left),
                (),
                certain(WALL.nominal),
            ),
        ),
    )


def _at_corners(panel: BuiltPanel) -> Iterator[Finding]:
    """On a rounded corner two edges are one: a profile that ends there, or another one, has no place to.

    Run straight off the end, a profile d deep dies out where the arc has left its edge by d: within
    √(2Rd − d²) of where the arc begins. An arc no larger than d is cut away with it, and a stop that is
    given is a place.
    """
    for corner in panel.panel.corners:
        if corner.shape != "radius" or corner.size_mm <= 0:
            continue
        one, other = corner.at.along_length, corner.at.along_width
        for profile in panel.panel.profiles:
            if (one in profile.sides) == (other in profile.sides):
                continue
            if profile.stop_mm is not None and profile.stop_mm >= corner.size_mm - 1e-9:
                continue
            depth = _depth(profile)
            if depth is not None and corner.size_mm > depth + 1e-9:
                yield _ends_in_rounding(corner, profile, depth)
                break


def _depth(profile: Profile) -> float | None:
    try:
        return profile_of(profile).deepest_mm
    except ShapeError:
        return None  # a finding of its own


def _ends_in_rounding(corner: Corner, profile: Profile, depth: float) -> Finding:
    radius = corner.size_mm
    return Finding(
        code="profile.ends_in_rounding",
        severity=Severity.WEIGH,
        origin=profile.origin,
        at=corner.at.value,
        value=certain(radius),
        limit=depth,
        unit="mm",
        message=said(
            "A profile of one edge ends in the rounded {corner:word} corner: run straight off it dies out within "
            "{run:mm} of the arc. Say where it stops.",
            corner=corner.at.value,
            run=sqrt(2 * radius * depth - depth * depth),
        ),
        why=said("Round the arc both edges are one; there is no arris to stop at."),
        source="geometry of the corner",
        remedies=(
            Remedy("profile.both_edges", said("Run it along both edges of a rounded corner.")),
            Remedy(
                "profile.stop",
                said("Stop it {radius:mm} from the end, where the arc begins.", radius=radius),
                (Change(f"{profile.origin}.stop", "", f"{radius:g}"),),
            ),
        ),
    )
