"""The card of closing joints: dowels, loose tongues, biscuits, housings, bridles, fingers, seats in grooves.

Amounts are areas worked out joint by joint; end grain and holes drink, so wet glue is reckoned richly.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from math import ceil, pi
from typing import Final

from evenface.construction.placed import Joint, Worked
from evenface.evidence import Value
from evenface.materials import Glue
from evenface.words import Said, said
from evenface.workplan.clamps import clamps_for, force_n
from evenface.workplan.glue_amounts import line_of
from evenface.workplan.glue_base import base_card
from evenface.workplan.glue_records import GlueCard, GlueLine
from evenface.workplan.glue_sayings import how_of
from evenface.workplan.records import Step
from evenface.workplan.seams import Node, Seam

TONGUE_DEEP_MM: Final = 10.0
"""COMMON PRACTICE: a loose tongue of 20 mm sits half in each part."""
BISCUIT_SLOT_MM: Final = (56.0, 11.5)
"""COMMON PRACTICE: length and depth of one slot of the usual biscuit; its walls are about 0.7 of that rectangle."""
_SEATS: Final = ("groove",)


def joint_card(
    step: Step,
    joints: Sequence[Joint],
    worked: Sequence[Worked],
    glue: Glue,
    needs_min: float,
    count: int = 1,
    clamps: int = 0,
) -> GlueCard:
    """The card of closing these joints in one go. worked : of the piece; needs_min : from the first spread to the
    last clamp, for those who do it. count : pieces alike. clamps : see `clamps_across`.
    Raises ValueError where none of them is glued."""
    glued = [joint for joint in joints if joint.glued]
    if not glued:
        raise ValueError(f"{step.id}: expected joints that are glued, was given none")
    lines = tuple(joint_lines(glued, worked, glue))
    pressure = glue.pressure_wood or glue.pressure
    pressed = [joint for joint in glued if joint.kind not in _SEATS]
    force = max((joint_force_n(joint, pressure) for joint in pressed), default=0.0) if pressure else None
    return replace(
        base_card(step, glue, lines, count, needs_min),
        pressure_mpa=pressure.low if pressure else None,
        force_n=force,
        how=(*_spreading(glued), *how_of(glue)),
        means=tuple(_means(pressed, pressure)),
        order=said(
            "Parts laid out in the order they go together, clamps opened to size; what cannot be reached later first. "
            "Diagonals measured before the glue grabs."
        ),
        clamps=clamps,
    )


def joint_lines(joints: Sequence[Joint], worked: Sequence[Worked], glue: Glue) -> Iterator[GlueLine]:
    """What is spread, one line for each kind of joint."""
    kinds: dict[str, list[Joint]] = defaultdict(list)
    for joint in joints:
        kinds[joint.kind].append(joint)
    for kind, alike in kinds.items():
        area = sum(spread_mm2(joint, worked) for joint in alike) / 1e6
        surface = said("{count:count} × {kind:word}", count=len(alike), kind=kind)
        yield line_of(surface, area, glue, thirsty=kind not in _SEATS)


def spread_mm2(joint: Joint, worked: Sequence[Worked]) -> float:
    """Surface of one joint that is spread: the meeting faces, and the walls of what enters; of dowels, which are set
    in the entering part beforehand, the walls of the other holes. [mm²]"""
    holes = [
        one
        for one in worked
        if one.joint == joint.name and one.diameter_mm > 0.0 and one.part != joint.between[1]
    ]
    walls = {
        "dowel": sum(len(one.centres) * pi * one.diameter_mm * one.depth_mm for one in holes),
        "loose tongue": 4.0 * joint.length_mm * TONGUE_DEEP_MM,
        "mitre with tongue": 4.0 * joint.length_mm * TONGUE_DEEP_MM,
        "biscuit": joint.number * 4.0 * 0.7 * BISCUIT_SLOT_MM[0] * BISCUIT_SLOT_MM[1],
        "housing": 2.0 * joint.length_mm * joint.enters_mm,
        "groove": 2.0 * joint.length_mm * joint.enters_mm,
        "fingers": max(2 * joint.number - 1, 0) * joint.enters_mm**2,
    }
    return joint.area_mm2 + walls.get(joint.kind, 0.0)


def joint_force_n(joint: Joint, pressure: Value) -> float:
    """Force on the meeting faces at the low end of the pressure: they are end grain or board, and dent. [N]"""
    return force_n(pressure.low, joint.area_mm2)


def clamps_on(joint: Joint, pressure: Value) -> int:
    """Clamps across one joint: for its force, and never fewer than two."""
    return max(2, clamps_for(joint_force_n(joint, pressure)))


def clamps_across(seams: Sequence[Seam], glue: Glue) -> int:
    """Clamps closed at once on these joints: one across a part presses the joints at both of its ends."""
    pressure = glue.pressure_wood or glue.pressure
    across: dict[Node, int] = {}
    for seam in seams:
        if pressure is not None and seam.joint.glued and seam.joint.kind not in _SEATS:
            across[seam.enters] = max(across.get(seam.enters, 0), clamps_on(seam.joint, pressure))
    return sum(across.values())


_TENON: Final = said(
    "Tenon: walls of the mortise and cheeks of the tenon, thinly, nothing at its bottom; clamps in line with the rail, "
    "until the shoulder is closed on both faces."
)
_LAID: Final[Mapping[str, Said]] = {
    "mortise and tenon": _TENON,
    "stub tenon": _TENON,
    "loose tenon": said(
        "Loose tenon: walls of both mortises, thinly; the tenon set in one part first, clamps in line with the rail."
    ),
    "dowel": said(
        "Dowels: a drop into each hole, spread with a stick, and a film on the end; fluted dowels only."
    ),
    "loose tongue": said("Tongue: both groove walls, the tongue itself dry; a film on the faces that meet."),
    "mitre with tongue": said(
        "Mitre: size both end-grain faces with thinned glue, wait, then glue; tongue dry."
    ),
    "biscuit": said("Biscuits swell in wet glue: glue into the slots, close at once."),
    "housing": said("Housing: walls and floor, thinly; it is drawn home, not hammered."),
    "bridle": said(
        "Bridle: both cheeks on both parts; shoulders pulled tight before the cheeks are clamped."
    ),
    "fingers": said(
        "Fingers: every cheek, with a small brush, and quickly; cauls notched clear of the fingers."
    ),
    "groove": said("Seat in a groove: a thin bead on one wall only, so that it does not foam into the box."),
}


def _spreading(joints: Sequence[Joint]) -> Iterator[Said]:
    yield from dict.fromkeys(_LAID[joint.kind] for joint in joints if joint.kind in _LAID)


def _means(joints: Sequence[Joint], pressure: Value | None) -> Iterator[Said]:
    if pressure is None or not joints:
        yield said("No pressure is known for this glue: draw the joints tight and keep them so.")
        return
    kinds = dict.fromkeys(joint.kind for joint in joints)
    for kind in kinds:
        alike = [joint for joint in joints if joint.kind == kind]
        worst = max(alike, key=lambda joint: joint.area_mm2)
        count = clamps_on(worst, pressure)
        yield said(
            "{kind:word}: {force} kN at {pressure:mpa}, {count:count} clamps across each joint, about every "
            "{every:mm}, cauls as long as the joint.",
            kind=kind,
            force=round(joint_force_n(worst, pressure) / 1000.0, 1),
            pressure=pressure.low,
            count=count,
            every=float(ceil(worst.length_mm / count)),
        )
