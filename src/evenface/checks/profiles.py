"""Profiles along the straight edges: can they be cut, what wood do they leave, what do they show?"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import ceil, floor

from evenface.checks.question import Asked
from evenface.construction import BuiltPanel, Edging
from evenface.construction.profile_depth import levels_inside
from evenface.construction.shapes import edge_shape, profile_of
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Profile, Side
from evenface.shape.edge_shape import EdgeShape, level_of_breakthrough, wood_left
from evenface.shape.faults import ShapeError
from evenface.words import said

RESERVE = rule("corner-reserve")
BROKEN = rule("broken-edge")

type Along = tuple[tuple[Profile, ...], tuple[Side, ...]]


def check_profiles(asked: Asked) -> Iterator[Finding]:
    """Findings `profile.cannot_be_cut`, `profile.meet`, `profile.through`, `profile.thin`, `edge.sharp`."""
    panel = asked.panel
    for profiles, sides in along_edges(panel):
        try:
            edge = edge_shape(panel, sides[0])
        except ShapeError as fault:
            yield _cannot(profiles, sides, fault)
            continue
        yield from _wood(panel, edge, profiles, sides)
    yield from _sharp(panel)


def along_edges(panel: BuiltPanel) -> Iterator[Along]:
    """The sets of profiles that run along edges, each with its edges in the order of the sides."""
    found: dict[tuple[int, ...], list[Side]] = {}
    for side in Side:
        worked = tuple(n for n, one in enumerate(panel.panel.profiles) if side in one.sides)
        if worked:
            found.setdefault(worked, []).append(side)
    for worked, sides in found.items():
        yield tuple(panel.panel.profiles[n] for n in worked), tuple(sides)


def names_of(sides: tuple[Side, ...]) -> str:
    return ", ".join(side.value for side in sides)


def _cannot(profiles: tuple[Profile, ...], sides: tuple[Side, ...], fault: ShapeError) -> Finding:
    meet = fault.problem == "profiles_meet"
    return Finding(
        code="profile.meet" if meet else "profile.cannot_be_cut",
        severity=Severity.STOP,
        origin=profiles[-1].origin,
        at=names_of(sides),
        value=certain(fault.value) if meet and fault.value is not None else None,
        limit=0.0 if meet else None,
        unit="mm" if meet else "",
        message=said(
            "The upper and the lower profile run into each other: {why:word}."
            if meet
            else "The profile cannot be cut: {why:word}.",
            why=fault.sentence,
        ),
        source="geometry of the profile",
        remedies=(Remedy("profile.lower", said("Make one of them less high.")),) if meet else (),
    )


def _wood(
    panel: BuiltPanel, edge: EdgeShape, profiles: tuple[Profile, ...], sides: tuple[Side, ...]
) -> Iterator[Finding]:
    """One finding for the narrowest edging of these sides that leaves too little."""
    given = [profile.reserve_mm for profile in profiles if profile.reserve_mm is not None]
    reserve = max(given, default=RESERVE.nominal)
    thin: list[tuple[float, Edging]] = []
    for edging in filter(None, map(panel.edging, sides)):
        low, high = levels_inside(panel, (edging.side,))
        left = wood_left(edging.width_mm, edge, low, high)
        if left.depth_mm > 0 and left.wood_mm < reserve - 1e-9:
            thin.append((left.wood_mm, edging))
    if thin:
        yield _too_little(panel, edge, profiles, min(thin, key=lambda pair: pair[0])[1], reserve)


def _too_little(
    panel: BuiltPanel, edge: EdgeShape, profiles: tuple[Profile, ...], edging: Edging, reserve: float
) -> Finding:
    low, high = levels_inside(panel, (edging.side,))
    left = wood_left(edging.width_mm, edge, low, high)
    level = level_of_breakthrough(edging.width_mm, edge, low, high)
    through = level is not None
    return Finding(
        code="profile.through" if through else "profile.thin",
        severity=Severity.STOP if through else Severity.WEIGH,
        origin=profiles[-1].origin,
        at=edging.side.value,
        value=certain(left.wood_mm),
        limit=reserve,
        unit="mm",
        message=said(
            "Along the {side:word} the profile comes out of the edging {level:mm2} above the underside."
            if through
            else "Along the {side:word} the profile leaves {left:mm2} of wood at its deepest, {level:mm2} above the "
            "underside.",
            side=edging.side.value,
            left=left.wood_mm,
            level=left.z_mm if level is None else level,
        ),
        why=said(
            "It is {depth:mm2} deep beside what an edging of {width:mm} encloses.",
            depth=left.depth_mm,
            width=edging.width_mm,
        ),
        source=RESERVE.source,
        weakest=Status.DERIVED,
        remedies=(*_wider(edging, left.depth_mm, reserve), *_smaller(panel, profiles, edging, reserve)),
    )


def _wider(edging: Edging, depth: float, reserve: float) -> Iterator[Remedy]:
    width = ceil(10 * (depth + reserve) - 1e-6) / 10
    yield Remedy(
        "profile.wider_edging",
        said("Make the edging {width:mm} wide.", width=width),
        (Change(f"{edging.origin}.width", f"{edging.width_mm:g}", f"{width:g}"),),
        certain(width - depth),
    )


def _smaller(
    panel: BuiltPanel, profiles: tuple[Profile, ...], edging: Edging, reserve: float
) -> Iterator[Remedy]:
    """The largest radius or depth that leaves the reserve, where one profile has such a figure."""
    low, high = levels_inside(panel, (edging.side,))
    for profile in profiles:
        field = "radius_mm" if profile.radius_mm is not None else "depth_mm"
        given = getattr(profile, field)
        if given is None:
            continue

        def left(size: float, profile: Profile = profile, field: str = field) -> float:
            tried = profile_of(_resized(profile, field, size))
            top = profile.face == "top"
            edge = EdgeShape(panel.thickness_mm, tried if top else None, None if top else tried)
            return wood_left(edging.width_mm, edge, low, high).wood_mm

        size = _largest(left, given, reserve)
        if size is not None:
            key = field.removesuffix("_mm")
            yield Remedy(
                "profile.smaller",
                said("Take a {what:word} of at most {size:mm}.", what=key, size=size),
                (Change(f"{profile.origin}.{key}", f"{given:g}", f"{size:g}"),),
                certain(left(size)),
            )


def _resized(profile: Profile, field: str, size_mm: float) -> Profile:
    if field == "radius_mm":
        return replace(profile, radius_mm=size_mm)
    return replace(profile, depth_mm=size_mm)


def _largest(left: Callable[[float], float], given: float, reserve: float) -> float | None:
    """The largest size below the one given, in tenths, that leaves the reserve; None when none does."""
    low, high = 0.0, given
    try:
        for _ in range(30):
            middle = (low + high) / 2
            if left(middle) >= reserve:
                low = middle
            else:
                high = middle
    except ShapeError:
        return None
    size = floor(10 * low + 1e-6) / 10
    return size if 0 < size < given else None


def _sharp(panel: BuiltPanel) -> Iterator[Finding]:
    for edge in panel.panel.edges:
        if edge.broken_edge_mm is not None and edge.broken_edge_mm < BROKEN.nominal - 1e-9:
            yield Finding(
                code="edge.sharp",
                severity=Severity.WEIGH,
                origin=edge.origin,
                at=edge.side.value,
                value=certain(edge.broken_edge_mm),
                limit=BROKEN.nominal,
                unit="mm",
                message=said(
                    "The {side:word} edge is broken by {broken:mm2} only; hands want {least:mm2}.",
                    side=edge.side.value,
                    broken=edge.broken_edge_mm,
                    least=BROKEN.nominal,
                ),
                why=said("A sharp edge of laminate cuts, and chips at the first knock."),
                source=BROKEN.source,
                weakest=BROKEN.status,
                remedies=(
                    Remedy(
                        "edge.break",
                        said("Break it by {least:mm2}.", least=BROKEN.nominal),
                        (
                            Change(
                                f"{edge.origin}.broken_edge",
                                f"{edge.broken_edge_mm:g}",
                                f"{BROKEN.nominal:g}",
                            ),
                        ),
                        certain(BROKEN.nominal),
                    ),
                ),
            )
