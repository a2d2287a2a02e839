"""Hollows for the fingers: wall, floor and web at every depth, and whether fingers and cutter get in."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from evenface.checks.question import Asked
from evenface.construction import BuiltPanel
from evenface.construction.hollows import BuiltGrip, built_grip
from evenface.construction.notches import notches_of
from evenface.evidence import Value, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import rule
from evenface.piece.records import Grip, Role
from evenface.shape.cutter import reach_left
from evenface.shape.faults import ShapeError
from evenface.shape.hollow_wood import Slab, Wall, finger_room, floor_left, wall_left, web_left
from evenface.shape.ring import Ring
from evenface.words import Said, said

WALL = rule("insert-wall")
FLOOR = rule("insert-floor")
APART = rule("insert-apart")
OPENING = rule("finger-opening")
LENGTH = rule("finger-length")
DEPTH = rule("finger-depth")
FINGER_MM = 18.0
"""A thick fingertip across: where the hollow is narrower than it, the finger rests on the arrises."""


def check_grips(asked: Asked) -> Iterator[Finding]:
    """Findings `grip.cannot_be_cut`, `.wall`, `.floor`, `.web`, `.in_carrier`, `.reach`, `.finger_room`,
    `.feathered` and `.facing_edge`."""
    panel = asked.panel
    made: list[BuiltGrip] = []
    for grip in panel.panel.grips:
        try:
            made.append(built_grip(panel, grip, asked.job.shop.reach_mm))
        except ShapeError as fault:
            yield _plain(
                grip,
                "grip.cannot_be_cut",
                Severity.STOP,
                said("It cannot be cut: {why:word}.", why=fault.sentence),
            )
    for one in made:
        yield from _wood(one)
        yield from _webs(panel, one)
        yield from _hand(asked, one)
        yield from _facing(panel, one)
    yield from _apart(made)


def _plain(grip: Grip, code: str, severity: Severity, message: Said, why: Said | None = None) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        origin=grip.origin,
        at=grip.name,
        message=message,
        why=why if why is not None else said(""),
        source="geometry of the grip",
    )


def _measured(
    grip: Grip,
    code: str,
    left: float,
    limit: float,
    message: Said,
    source: Value,
    remedies: tuple[Remedy, ...] = (),
) -> Finding:
    return Finding(
        code=code,
        severity=Severity.STOP if left <= 1e-9 else Severity.WEIGH,
        origin=grip.origin,
        at=grip.name,
        value=certain(left),
        limit=limit,
        unit="mm",
        message=message,
        source=source.source,
        weakest=source.status,
        remedies=remedies,
    )


def _wood(one: BuiltGrip) -> Iterator[Finding]:
    grip, slab = one.asked, one.wood
    if slab is None:
        yield _plain(
            grip,
            "grip.in_carrier",
            Severity.WEIGH,
            said("{name} is worked into the board itself: no insert is named for it.", name=grip.name),
            said("The layers of the board show in the hollow, and its edges break under the fingers."),
        )
        return
    wall_wanted = WALL.nominal if grip.wall_mm is None else grip.wall_mm
    floor_wanted = FLOOR.nominal if grip.floor_mm is None else grip.floor_mm
    yield from _wall(one, slab, wall_wanted)
    yield from _floor(one, slab, floor_wanted)


def _wall(one: BuiltGrip, slab: Slab, wanted: float) -> Iterator[Finding]:
    grip = one.asked
    if slab.from_mm >= grip.depth_mm:
        yield _plain(
            grip,
            "grip.not_in_wood",
            Severity.STOP,
            said(
                "{name} ends before it comes to its wood, {depth:mm} down.",
                name=grip.name,
                depth=slab.from_mm,
            ),
        )
        return
    wall = _wall_of(one, slab, wanted)
    if wall.wood_mm >= wanted - 1e-9:
        return
    smaller = grip.cutter_diameter_mm - 2 * (wanted - wall.wood_mm)
    yield _measured(
        grip,
        "grip.wall",
        wall.wood_mm,
        wanted,
        said(
            "{name} comes out of the side of its wood by {out:mm2}, {below:mm2} below the surface."
            if wall.wood_mm < 0
            else "Beside {name} {out:mm2} of wood are left, {below:mm2} below the surface.",
            name=grip.name,
            out=abs(wall.wood_mm),
            below=wall.below_mm,
        ),
        WALL,
        (
            (
                Remedy(
                    "grip.smaller_cutter",
                    said("Take a cutter of at most {size:mm}.", size=smaller),
                    (Change(f"{grip.origin}.diameter", f"{grip.cutter_diameter_mm:g}", f"{smaller:g}"),),
                    certain(wanted),
                ),
            )
            if grip.cutter == "straight" and smaller > 0
            else (Remedy("grip.wider_insert", said("Make its wood {more:mm} wider on that side.",
                                                   more=wanted - wall.wood_mm), (), certain(wanted)),)
        ),
    )  # fmt: skip


def _wall_of(one: BuiltGrip, slab: Slab, wanted: float) -> Wall:
    """The wall; a scoop is only followed point by point where an even hollow would leave too little."""
    bound = wall_left(replace(one.hollow, scoop_radius_mm=0.0), [slab])
    return bound if _sure(one, bound, wanted) else wall_left(one.hollow, [slab])


def _sure(one: BuiltGrip, bound: Wall, wanted: float) -> bool:
    """Whether the bound decides: there is wood enough, or the cutter's own axis is out already."""
    axis = bound.wood_mm + one.hollow.half_width_at(bound.below_mm)
    return not one.hollow.scoop_radius_mm or bound.wood_mm >= wanted - 1e-9 or axis <= 0.0


def _web_of(one: BuiltGrip, ring: Ring) -> float:
    bound = web_left(replace(one.hollow, scoop_radius_mm=0.0), ring)
    exact = bound if _sure(one, bound, APART.nominal) else web_left(one.hollow, ring)
    return exact.wood_mm


def _floor(one: BuiltGrip, slab: Slab, wanted: float) -> Iterator[Finding]:
    grip = one.asked
    floor = floor_left(one.hollow, slab.to_mm)
    if floor >= wanted - 1e-9:
        return
    depth = slab.to_mm - wanted
    yield _measured(
        grip,
        "grip.floor",
        floor,
        wanted,
        said(
            "{name} goes {out:mm2} through the floor of its wood."
            if floor < 0
            else "Under {name} {out:mm2} of its wood are left.",
            name=grip.name,
            out=abs(floor),
        ),
        FLOOR,
        (
            Remedy(
                "grip.shallower",
                said("Make it {depth:mm2} deep.", depth=depth),
                (Change(f"{grip.origin}.depth", f"{grip.depth_mm:g}", f"{depth:g}"),),
                certain(wanted),
            ),
        )
        if depth > 0
        else (),
    )


def _webs(panel: BuiltPanel, one: BuiltGrip) -> Iterator[Finding]:
    if one.side is not None:
        return
    others: list[tuple[str, Ring]] = [(cutout.name, cutout.outline.outer) for cutout in panel.panel.cutouts]
    others += [
        (insert.asked.name, insert.asked.outline.outer)
        for insert in panel.inserts
        if insert.asked.name != one.asked.insert
    ]
    others += [(notch.name, notch.outline.outer) for notch in notches_of(panel)]
    for name, ring in others:
        yield from _web(one, name, _web_of(one, ring))


def _apart(made: list[BuiltGrip]) -> Iterator[Finding]:
    """Grips from one face against one another: the boxes their cutters sweep, then their openings."""
    for one, other in combinations(made, 2):
        if one.side is not other.side or one.asked.from_ != other.asked.from_:
            continue
        try:
            ring = other.hollow.section_at(0.0).outer
        except ShapeError:
            continue  # it cannot be cut: a finding of its own
        yield from _web(one, other.asked.name, _web_of(one, ring))


def _web(one: BuiltGrip, name: str, web: float) -> Iterator[Finding]:
    if web >= APART.nominal - 1e-9:
        return
    yield _measured(
        one.asked,
        "grip.web",
        web,
        APART.nominal,
        said(
            "{name} runs into {other}." if web < 0 else "Between {name} and {other} {web:mm2} are left.",
            name=one.asked.name,
            other=name,
            web=web,
        ),
        APART,
        (
            Remedy(
                "grip.move",
                said("Move it {more:mm} away.", more=APART.nominal - web),
                (),
                certain(APART.nominal),
            ),
        ),
    )


def _hand(asked: Asked, one: BuiltGrip) -> Iterator[Finding]:
    grip = one.asked
    if asked.job.shop.reach_mm is not None:
        left = reach_left(one.hollow.cutter, grip.depth_mm, asked.job.shop.template_mm)
        if left < -1e-9:
            yield _measured(
                grip,
                "grip.reach",
                left,
                0.0,
                said(
                    "The cutter is {short:mm} too short for {name} under its template.",
                    short=-left,
                    name=grip.name,
                ),
                WALL,
            )
    room = finger_room(one.hollow, FINGER_MM)
    tight = [
        words
        for given, least, words in (
            (room.opening_width_mm, OPENING.low, said("wide {given:mm}", given=room.opening_width_mm)),
            (room.opening_length_mm, LENGTH.low, said("long {given:mm}", given=room.opening_length_mm)),
            (room.finger_depth_mm, DEPTH.low, said("deep {given:mm}", given=room.finger_depth_mm)),
        )
        if given < least - 1e-9
    ]
    if tight:
        yield _finger_room(grip, tight)


def _finger_room(grip: Grip, tight: list[Said]) -> Finding:
    return Finding(
        code="grip.finger_room",
        severity=Severity.WEIGH,
        origin=grip.origin,
        at=grip.name,
        message=said(
            "{name} is tight for fingers, only {what}; try for {length:mm} × {width:mm} and {depth:mm} deep.",
            name=grip.name,
            what=tight[0] if len(tight) == 1 else said("{a}, {b}", a=tight[0], b=tight[1]),
            length=LENGTH.nominal,
            width=OPENING.nominal,
            depth=DEPTH.nominal,
        ),
        source=OPENING.source,
        weakest=OPENING.status,
    )


def _facing(panel: BuiltPanel, one: BuiltGrip) -> Iterator[Finding]:
    """A hollow cut through a facing shows its edge; one that runs out flat feathers it."""
    grip = one.asked
    face = panel.face(Role.FACE if grip.from_ == "face" else Role.BACK)
    covered = any(i.asked.name == grip.insert and i.asked.when == "before facing" for i in panel.inserts)
    if one.side is not None or face is None or not (covered or one.wood is None):
        return
    yield _plain(
        grip,
        "grip.facing_edge",
        Severity.NOTE,
        said("{name} is cut through the facing: its edge of {thick:mm} shows round the hollow.",
             name=grip.name, thick=face.thickness.nominal),
    )  # fmt: skip
    if grip.scooped:
        yield _plain(
            grip,
            "grip.feathered",
            Severity.WEIGH,
            said(
                "{name} runs out flat at its ends and feathers the facing to a sharp edge there.",
                name=grip.name,
            ),
            said("A feathered edge of laminate cuts fingers and chips; let the wood in after the facing."),
        )
