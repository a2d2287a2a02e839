"""Parts of a piece as they are placed one by one; equal ones become one line of the list with its count."""

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field, fields, replace
from math import ceil
from operator import attrgetter
from typing import Final

from evenface.construction.placed import (
    Assembly,
    Chain,
    Fitting,
    Gap,
    Given,
    Joint,
    Placement,
    Point,
    Worked,
)
from evenface.construction.placed import Board as BoardPart
from evenface.finding import Finding
from evenface.piece.records import Panel
from evenface.words import NOTHING

_work: Final = attrgetter(
    *(one.name for one in fields(Worked) if one.name not in ("part", "joint", "origin"))
)
"""What is worked and where, not for which part or joint."""


@dataclass(frozen=True, slots=True)
class Standing:
    """One part where it stands, by a key of its own until equal parts are counted together.

    base : the name it has in lists. part : panel or board, its name and count not yet looked at. thickness_mm :
    over everything; middle_mm : height of the middle of its carrier. alone : it keeps a line of its own. which :
    its number among those of its base, kept in the name where they are not all equal.
    """

    key: str
    base: str
    part: Panel | BoardPart
    placement: Placement
    thickness_mm: float
    middle_mm: float
    alone: bool = False
    which: str = ""

    @property
    def size_mm(self) -> Point:
        return self.part.length_mm, self.part.width_mm, self.thickness_mm

    @property
    def box(self) -> tuple[Point, Point]:
        """Lower and upper corner in the piece. [mm]"""
        return self.placement.box(*self.size_mm)

    def local(self, point: Point) -> Point:
        """A point of the piece in the part's own coordinates. [mm]"""
        (x, y, z), (at_x, at_y, at_z) = point, self.placement.at
        x, y, z = x - at_x, y - at_y, z - at_z
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.placement.axes
        return (  # 0.0 first, for a sum of nothing is not to be -0.0
            0.0 + x * ax + y * ay + z * az,
            0.0 + x * bx + y * by + z * bz,
            0.0 + x * cx + y * cy + z * cz,
        )

    def point(self, x: float, y: float, z: float) -> Point:
        """A point of the part in the piece. [mm]"""
        return self.placement.point(x, y, z)


@dataclass(slots=True)
class Heap:
    """What a kind lays together while it builds; every name in it is a key of a `Standing`."""

    standing: list[Standing] = field(default_factory=list)
    joints: list[Joint] = field(default_factory=list)
    worked: list[Worked] = field(default_factory=list)
    gaps: list[Gap] = field(default_factory=list)
    chains: list[Chain] = field(default_factory=list)
    fittings: list[Fitting] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    given: list[Given] = field(default_factory=list)

    def of(self, key: str) -> Standing:
        """The part of that key. KeyError when there is none."""
        for one in self.standing:
            if one.key == key:
                return one
        raise KeyError(key)


def gathered(heap: Heap, size_mm: Point) -> Assembly:
    """The assembly: equal parts with equal work counted together, in the order they were first laid down."""
    names = _names(heap)
    counts = Counter(names.values())
    first = {names[one.key]: one for one in reversed(heap.standing)}
    order = list(dict.fromkeys(names[one.key] for one in heap.standing))
    parts = [replace(first[name].part, name=name, count=counts[name]) for name in order]
    return Assembly(
        panels=tuple(part for part in parts if isinstance(part, Panel)),
        boards=tuple(part for part in parts if isinstance(part, BoardPart)),
        placements=tuple(replace(one.placement, part=names[one.key]) for one in heap.standing),
        joints=tuple(
            replace(one, between=(names[one.between[0]], names[one.between[1]])) for one in heap.joints
        ),
        worked=_told_once(heap, names),
        gaps=tuple(replace(one, between=_both(one.between, names)) for one in heap.gaps),
        chains=tuple(heap.chains),
        fittings=_counted(heap.fittings, names),
        findings=tuple(_named(one, names) for one in heap.findings),
        size_mm=size_mm,
        given=tuple(heap.given),
    )


def _told_once(heap: Heap, names: dict[str, str]) -> tuple[Worked, ...]:
    """Work of parts that are alike told once, whichever joint it serves in each."""
    told: dict[object, Worked] = {}
    for one in heap.worked:
        told.setdefault((names[one.part], _work(one)), one)
    return tuple(replace(one, part=names[one.part]) for one in told.values())


def _both(between: tuple[str, str], names: dict[str, str]) -> tuple[str, str]:
    return names.get(between[0], between[0]), names.get(between[1], between[1])


def _named(finding: Finding, names: dict[str, str]) -> Finding:
    return replace(finding, part=names.get(finding.part, finding.part))


def _names(heap: Heap) -> dict[str, str]:
    """By key: the base name alone where all of that base are equal, else numbered."""
    work: dict[str, list[object]] = defaultdict(list)
    for done in heap.worked:
        work[done.part].append(_work(done))
    alike: dict[str, dict[object, list[str]]] = defaultdict(dict)
    which = {one.key: one.which for one in heap.standing}
    for one in heap.standing:
        content: object = one.key if one.alone else (_plain(one.part), frozenset(work[one.key]))
        alike[one.base].setdefault(content, []).append(one.key)
    names: dict[str, str] = {}
    for base, groups in alike.items():
        for number, keys in enumerate(groups.values(), start=1):
            own = " & ".join(dict.fromkeys(which[key] for key in keys if which[key])) or str(number)
            names |= dict.fromkeys(keys, base if len(groups) == 1 else f"{base} {own}")
    return names


def _plain(part: Panel | BoardPart) -> str:
    """What a part is, without its name and its place in the file, sizes to a hundredth of a thousandth."""
    bare = replace(part, name="", count=1, origin="", length_mm=1.0, width_mm=1.0)
    if isinstance(bare, Panel):
        span = None if bare.span_mm is None else round(bare.span_mm, 5)
        bare = replace(bare, hold=replace(bare.hold, origin=""), span_mm=span)
    return f"{bare!r} {part.length_mm:.5f} {part.width_mm:.5f}"


def _counted(fittings: Iterable[Fitting], names: dict[str, str]) -> tuple[Fitting, ...]:
    """Fittings of one name, size and reason as one line."""
    lines: dict[object, Fitting] = {}
    for one in fittings:
        parts = tuple(dict.fromkeys(names.get(part, part) for part in one.parts))
        key = (one.name, one.size, one.why if one.why != NOTHING else "", one.price)
        if key in lines:
            before = lines[key]
            parts = tuple(dict.fromkeys((*before.parts, *parts)))
            lines[key] = replace(before, count=before.count + one.count, parts=parts)
        else:
            lines[key] = replace(one, parts=parts)
    return tuple(lines.values())


def spread_over(length_mm: float, first_mm: float, every_mm: float) -> tuple[float, ...]:
    """Evenly spaced places along a line: the outer ones `first_mm` from its ends, none further apart than `every_mm`.

    On a line too short for that: two at its quarters. Raises ValueError for a line of no length.
    """
    if length_mm <= 0.0 or every_mm <= 0.0:
        raise ValueError(f"expected a length and a spacing above 0, was given {length_mm} and {every_mm}")
    first = min(first_mm, length_mm / 4)
    between = length_mm - 2 * first
    pieces = max(1, ceil(between / every_mm - 1e-9))
    return tuple(first + between * number / pieces for number in range(pieces + 1))
