"""Whether holes and slots of one joint run into those of another inside a part, from the same face or the other."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations
from typing import Final

from evenface.construction.fastenings import BISCUIT
from evenface.construction.gathering import Heap, Standing
from evenface.construction.placed import Stretch, Worked
from evenface.evidence import certain
from evenface.finding import Finding, Remedy, Severity
from evenface.words import Said, said

HOLES: Final = frozenset(
    {"dowel holes", "biscuit slots", "screw holes", "pilot holes", "pin holes", "plate holes"}
)
HAIR_MM: Final = 0.01
FLOOR_MM: Final = 1.0
"""Own limit: what a hole that is not to go through leaves of its board."""
HOLDS_MM: Final = 6.0
"""OWN ESTIMATE: a dowel that goes in less far hardly holds."""
type Box = tuple[Stretch, Stretch, Stretch]


def holes_meet(heap: Heap) -> Iterator[Finding]:
    """Findings `joint.holes_meet`, for each pair of works of a part once, `joint.through` and `joint.shallow`.

    What runs past in a groove is not told.
    """
    by_part: dict[str, list[Worked]] = defaultdict(list)
    for one in heap.worked:
        if one.kind in HOLES and one.centres:
            by_part[one.part].append(one)
    for key, works in by_part.items():
        part = heap.of(key)
        yield from _in_thin_board(part, works)
        taken = [(one, boxes_of(one, part)) for one in works]
        for (one, boxes), (other, others) in combinations(taken, 2):
            if one.joint != other.joint and _near(boxes, others) and _any(boxes, others):
                yield _told(part, one, other)


def _in_thin_board(part: Standing, works: list[Worked]) -> Iterator[Finding]:
    """Holes for pins and plates that come out at the other face, and dowels that hardly enter a thin board."""
    told: set[str] = set()
    for one in works:
        if one.face not in ("top", "bottom") or one.kind in told:
            continue
        left = part.thickness_mm - one.depth_mm
        if one.kind in ("pin holes", "plate holes") and left < FLOOR_MM:
            told.add(one.kind)
            yield _thin(part, one, "joint.through", Severity.STOP, (left, FLOOR_MM), said(
                "In {part}, {thick:mm} thick, {kind:word} {deep:mm} deep come out at the other face.",
                kind=one.kind, deep=one.depth_mm, part=part.key, thick=part.thickness_mm,
            ))  # fmt: skip
        elif one.kind == "dowel holes" and one.depth_mm < min(HOLDS_MM, part.thickness_mm / 2):
            told.add(one.kind)
            yield _thin(part, one, "joint.shallow", Severity.WEIGH, (one.depth_mm, HOLDS_MM), said(
                "Dowels go {deep:mm} into {part}, {thick:mm} thick, and hardly hold.",
                deep=one.depth_mm, part=part.key, thick=part.thickness_mm,
            ))  # fmt: skip


def _thin(
    part: Standing,
    one: Worked,
    code: str,
    severity: Severity,
    value_limit: tuple[float, float],
    message: Said,
) -> Finding:
    return Finding(
        code=code, severity=severity, origin=one.origin, part=part.key, at=one.joint or one.kind,
        value=certain(value_limit[0]), limit=value_limit[1], unit="mm", message=message, source="sum of the sizes",
        remedies=(Remedy("joint.thicker", said("Take a thicker board there, or another fitting or joint.")),),
    )  # fmt: skip


def boxes_of(one: Worked, part: Standing) -> list[Box]:
    """What each hole of a work takes out, in coordinates of the part. [mm]"""
    u = v = one.diameter_mm / 2
    if one.kind == "biscuit slots":
        long, _, thick = BISCUIT
        u, v = (thick / 2, long / 2) if one.face in ("top", "bottom") else (long / 2, thick / 2)
    return [one.space(part.size_mm, (a - u, a + u), (b - v, b + v)) for a, b in one.centres]


def _meet(one: Box, other: Box) -> bool:
    return all(min(a[1], b[1]) - max(a[0], b[0]) > HAIR_MM for a, b in zip(one, other, strict=True))


def _round(boxes: list[Box]) -> Box:
    x, y, z = ((min(box[n][0] for box in boxes), max(box[n][1] for box in boxes)) for n in range(3))
    return x, y, z


def _near(boxes: list[Box], others: list[Box]) -> bool:
    return _meet(_round(boxes), _round(others))


def _any(boxes: list[Box], others: list[Box]) -> bool:
    return any(_meet(one, other) for one in boxes for other in others)


def _told(part: Standing, one: Worked, other: Worked) -> Finding:
    return Finding(
        code="joint.holes_meet", severity=Severity.WEIGH, origin=one.origin, part=part.key,
        at=other.joint or other.kind,
        value=certain(one.depth_mm + other.depth_mm), limit=part.thickness_mm, unit="mm",
        message=said(
            "In {part}, {one:word} {deep:mm} deep run into {other:word} {second:mm} deep; it is {thick:mm} thick.",
            part=part.key, one=one.kind, deep=one.depth_mm, other=other.kind, second=other.depth_mm,
            thick=part.thickness_mm,
        ),
        why=said("Neither holds where they meet, and a screw from one side strikes what is in the other."),
        source="geometry of the joints",
        remedies=(
            Remedy("joint.apart", said("Set one of them higher or lower, or take another joint there.")),
        ),
    )  # fmt: skip
