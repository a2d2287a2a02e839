"""The end of one part joined to the face of another: dowel, loose tongue, biscuit, screw or housing.

Each gives its joint, what is worked into both parts, and what has to be bought for it.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from evenface.construction.gathering import Heap, Standing, spread_over
from evenface.construction.joint_room import no_room
from evenface.construction.placed import Axis, Fitting, Joint, Worked
from evenface.piece.records import Side
from evenface.words import Said, said

FIRST_MM: Final = 40.0
"""COMMON PRACTICE: outer dowel, screw or biscuit from the edge."""
STOP_MM: Final = 10.0
"""COMMON PRACTICE: a groove or housing ends so far before a front edge that is seen."""
TONGUE: Final = (6.0, 6.5)
"""A magazine, read: loose tongue of 6 mm in a groove of 6.5 mm."""
FLOOR_MM: Final = 4.0
"""COMMON PRACTICE: board left under a hole or groove in a face."""
BETWEEN_MM: Final = 2.0
"""Own limit: board left between holes from both faces."""
BESIDE_MM: Final = 3.0
"""Own limit: wood left between a dowel or tongue and a groove beside it."""
SCREW_MM: Final = 4.5
BISCUIT: Final = (56.0, 23.0, 4.0)
"""COMMON PRACTICE: length, width and thickness of the usual biscuit."""
DOWELS: Final = ((16.0, 6.0, 30.0), (22.0, 8.0, 35.0), (1e9, 10.0, 40.0))
"""COMMON PRACTICE, a third to a half of the board: up to this carrier, diameter and length."""

NO_DEDUCTION: Final = {
    "dowel": said("Butted: dowels take nothing from the length."),
    "loose tongue": said("Butted: a loose tongue takes nothing from the length."),
    "biscuit": said("Butted: biscuits take nothing from the length."),
    "screw": said("Butted: screws take nothing from the length."),
}


@dataclass(frozen=True, slots=True)
class Joining:
    """A joint as asked for. depth : of a housing. every : spacing along it. kind as in `Joint`.

    low, high : what is taken up by a groove or rebate at the beginning and the end of the line of the joint, where
    nothing else may be worked in. shared : the receiving board takes another such joint at the same place from its
    other face: holes go less deep then, biscuits stand between those of the other. [mm]
    """

    kind: str = "dowel"
    depth: float = 6.0
    every: float = 128.0
    low: float = 0.0
    high: float = 0.0
    shared: bool = False

    @property
    def enters_mm(self) -> float:
        """How far a part reaches into the one that receives it, at each end."""
        return self.depth if self.kind == "housing" else 0.0


def join(heap: Heap, joining: Joining, receiver: str, part: str, end: Side, origin: str) -> int:
    """Lay the joint of a part's end with the face of `receiver` on the heap; how many dowels or the like it has."""
    one, other = heap.of(receiver), heap.of(part)
    along = other.part.width_mm if end in (Side.LEFT, Side.RIGHT) else other.part.length_mm
    places = _places(joining, along, other.middle_mm * 2)
    if joining.shared and joining.kind == "biscuit":
        apart = _between_others(places, _face(one, other, end) == "top")
        places, joining = apart or places, replace(joining, shared=not apart)
    needs, free = _needs_mm(joining.kind, other.middle_mm * 2), along - joining.low - joining.high
    if free < needs:
        heap.findings.append(no_room(joining.kind, other.key, free, needs, origin))
    middle = other.middle_mm
    line = [_at_end(other, end, at, middle) for at in (0.0, along)]
    name = f"{other.key} {end.value}"
    deduction = NO_DEDUCTION.get(joining.kind) or said(
        "Housed: {depth:mm} longer at this end than the clear size.", depth=joining.depth
    )
    number = 0 if joining.kind in ("housing", "loose tongue") else len(places)
    heap.joints.append(
        Joint(
            joining.kind,
            (receiver, part),
            line[0],
            line[1],
            enters_mm=joining.enters_mm,
            number=number,
            glued=joining.kind != "screw",
            area_mm2=0.0 if joining.kind == "screw" else along * other.thickness_mm,
            deduction=deduction,
            name=name,
            origin=origin,
        )
    )
    works = {
        "dowel": _dowels,
        "biscuit": _biscuits,
        "screw": _screws,
        "loose tongue": _tongue,
        "housing": _housing,
    }[joining.kind]
    for work, fitting in works(one, other, end, places, joining, name, origin):
        if work is not None:
            heap.worked.append(work)
        if fitting is not None:
            heap.fittings.append(fitting)
    return max(number, 2)


type _Made = Iterator[tuple[Worked | None, Fitting | None]]


def _needs_mm(kind: str, carrier: float) -> float:
    """The shortest end that takes one dowel, biscuit or screw, or a stopped tongue."""
    taken = {
        "dowel": dowel_for(carrier)[0],
        "biscuit": BISCUIT[0],
        "screw": SCREW_MM,
        "loose tongue": STOP_MM,
    }
    return taken[kind] + 2 * BESIDE_MM if kind in taken else 0.0


def _places(joining: Joining, along: float, carrier: float) -> tuple[float, ...]:
    """Middles of dowels, biscuits or screws along a joint, clear of what else is worked in at its ends."""
    half = {"dowel": dowel_for(carrier)[0] / 2, "biscuit": BISCUIT[0] / 2, "screw": SCREW_MM / 2}
    wood = half.get(joining.kind, 0.0) + BESIDE_MM
    first = min(FIRST_MM, along / 4)
    start = max(first, joining.low + wood) if joining.low else first
    end = along - (max(first, joining.high + wood) if joining.high else first)
    if joining.kind == "biscuit":
        start, end = max(start, half["biscuit"]), min(end, along - half["biscuit"])
        if end - start < BISCUIT[0]:
            return (max((start + end) / 2, 0.0),)
    if end <= start:
        return ((start + end) / 2,)
    return tuple(start + at for at in spread_over(end - start, 0.0, joining.every))


def _between_others(places: tuple[float, ...], second: bool) -> tuple[float, ...]:
    """The same line with room for a biscuit from the other face between two of these; empty where it is too short."""
    start, end = places[0], places[-1]
    spaces = int((end - start) // (2 * (BISCUIT[0] + BETWEEN_MM)))
    if not spaces:
        return ()
    step = (end - start) / spaces
    return tuple(start + step * (number + second / 2) for number in range(spaces + (not second)))


def _floor(one: Standing, joining: Joining) -> float:
    """How deep a hole in the receiving board may go. [mm]"""
    most = (one.thickness_mm - BETWEEN_MM) / 2 if joining.shared else one.thickness_mm - FLOOR_MM
    return max(most, 1.0)


def _at_end(part: Standing, end: Side, along: float, z: float) -> tuple[float, float, float]:
    """A point on the end of a part, in the piece."""
    length, width = part.part.length_mm, part.part.width_mm
    x, y = {
        Side.LEFT: (0.0, along),
        Side.RIGHT: (length, along),
        Side.FRONT: (along, 0.0),
        Side.REAR: (along, width),
    }[end]
    return part.point(x, y, z)


def _face(one: Standing, other: Standing, end: Side) -> str:
    """Which face of the receiver the end lies against."""
    z = one.local(_at_end(other, end, 0.0, other.middle_mm))[2]
    return "bottom" if z < one.thickness_mm / 2 else "top"


def _centres(
    one: Standing, other: Standing, end: Side, places: tuple[float, ...]
) -> tuple[tuple[float, float], ...]:
    """The same places on the receiver's face."""
    points = [one.local(_at_end(other, end, at, other.middle_mm)) for at in places]
    return tuple((round(x, 6), round(y, 6)) for x, y, _ in points)


def dowel_for(carrier_mm: float) -> tuple[float, float]:
    """Diameter and length of the dowel for the end of a board of that thickness. [mm]"""
    return next((diameter, length) for most, diameter, length in DOWELS if carrier_mm < most)


def _dowels(
    one: Standing,
    other: Standing,
    end: Side,
    places: tuple[float, ...],
    joining: Joining,
    name: str,
    origin: str,
) -> _Made:
    diameter, length = dowel_for(other.middle_mm * 2)
    deep = min(length / 3, _floor(one, joining))
    rest = length - deep + 2.0
    told: Said = said(
        "{count:count} holes Ø {diameter:mm}, {deep:mm} deep.",
        count=len(places),
        diameter=diameter,
        deep=deep,
    )
    yield Worked(
        one.key, "dowel holes", _face(one, other, end), deep, diameter_mm=diameter,
        centres=_centres(one, other, end, places), joint=name, said=told, origin=origin,
    ), None  # fmt: skip
    yield Worked(
        other.key, "dowel holes", end.value, rest, diameter_mm=diameter,
        centres=tuple((at, other.middle_mm) for at in places), joint=name,
        said=said(
            "{count:count} holes Ø {diameter:mm}, {deep:mm} deep, in the middle of the board.",
            count=len(places), diameter=diameter, deep=rest,
        ), origin=origin,
    ), Fitting(
        "dowel", len(places), said("Ø {diameter:mm} × {length:mm}", diameter=diameter, length=length),
        (one.key, other.key), why=said("For the joints."), origin=origin,
    )  # fmt: skip


def _screws(
    one: Standing, other: Standing, end: Side, places: tuple[float, ...], _: Joining, name: str, origin: str
) -> _Made:
    long = 5.0 * round((one.thickness_mm + 32.0) / 5.0)
    yield Worked(
        one.key, "screw holes", _face(one, other, end), one.thickness_mm, diameter_mm=SCREW_MM,
        centres=_centres(one, other, end, places), joint=name,
        said=said(
            "{count:count} holes Ø {diameter:mm} right through; wider through laminate, so that it does not crack.",
            count=len(places), diameter=SCREW_MM,
        ), origin=origin,
    ), None  # fmt: skip
    yield Worked(
        other.key, "pilot holes", end.value, 35.0, diameter_mm=3.0,
        centres=tuple((at, other.middle_mm) for at in places), joint=name,
        said=said("{count:count} pilot holes Ø {diameter:mm}.", count=len(places), diameter=3.0), origin=origin,
    ), Fitting(
        "countersunk screw", len(places), said("4 × {long:mm}", long=long), (one.key, other.key),
        why=said("For the joints."), origin=origin,
    )  # fmt: skip


def _biscuits(
    one: Standing,
    other: Standing,
    end: Side,
    places: tuple[float, ...],
    joining: Joining,
    name: str,
    origin: str,
) -> _Made:
    length, wide, thick = BISCUIT
    deep = min(wide / 2 + 0.5, _floor(one, joining))
    rest = wide + 1.0 - deep

    def told(deep: float) -> Said:
        return said(
            "{count:count} slots for biscuits {thick:mm} wide and {deep:mm} deep, their middles marked.",
            count=len(places), thick=thick, deep=deep,
        )  # fmt: skip

    yield Worked(
        one.key, "biscuit slots", _face(one, other, end), deep, centres=_centres(one, other, end, places),
        number=len(places), joint=name, said=told(deep), origin=origin,
    ), None  # fmt: skip
    yield Worked(
        other.key, "biscuit slots", end.value, rest,
        centres=tuple((at, other.middle_mm) for at in places), number=len(places), joint=name,
        said=told(rest), origin=origin,
    ), Fitting(
        "biscuit", len(places), said("{length:mm} × {wide:mm} × {thick:mm}", length=length, wide=wide, thick=thick),
        (one.key, other.key), why=said("For the joints."), origin=origin,
    )  # fmt: skip


def _tongue(
    one: Standing, other: Standing, end: Side, _: tuple[float, ...], joining: Joining, name: str, origin: str
) -> _Made:
    along = other.part.width_mm if end in (Side.LEFT, Side.RIGHT) else other.part.length_mm
    thick, wide = TONGUE
    deep = min(8.0, _floor(one, joining))
    start, end_at = max(STOP_MM, joining.low + BESIDE_MM), along - max(STOP_MM, joining.high + BESIDE_MM)
    start, end_at = min(start, along / 2), max(end_at, along / 2 + 1.0)
    rest = deep + 4.0
    low, high = other.middle_mm - wide / 2, other.middle_mm + wide / 2
    ends = [one.local(_at_end(other, end, at, z)) for at, z in ((start, low), (end_at, high))]
    yield Worked(
        one.key, "groove", _face(one, other, end), deep, *_rectangle(ends[0], ends[1]), joint=name,
        said=_told_groove(wide, deep, start, along - end_at), origin=origin,
    ), None  # fmt: skip
    yield Worked(
        other.key, "groove", end.value, rest, start, low, end_at, high, joint=name,
        said=_told_groove(wide, rest, start, along - end_at), origin=origin,
    ), Fitting(
        "loose tongue", 1, said(
            "plywood {thick:mm} × {wide:mm}, {long:mm} long",
            thick=thick, wide=deep + rest - 1.0, long=end_at - start,
        ), (one.key, other.key), why=said("For the joints."), origin=origin,
    )  # fmt: skip


def _told_groove(wide: float, deep: float, start: float, end: float) -> Said:
    if abs(start - end) < 0.01:
        return said(
            "Groove {wide:mm} wide and {deep:mm} deep, stopped {stop:mm} before both ends.",
            wide=wide, deep=deep, stop=start,
        )  # fmt: skip
    return said(
        "Groove {wide:mm} wide and {deep:mm} deep, stopped {start:mm} and {end:mm} before its ends, so that it stays "
        "clear of the groove or rebate beside it.",
        wide=wide, deep=deep, start=start, end=end,
    )  # fmt: skip


def _housing(
    one: Standing, other: Standing, end: Side, _: tuple[float, ...], joining: Joining, name: str, origin: str
) -> _Made:
    """Stopped before a front that is seen, the part notched there; right through where the part stands on edge."""
    along = other.part.width_mm if end in (Side.LEFT, Side.RIGHT) else other.part.length_mm
    stop = STOP_MM if other.placement.y_axis is Axis.REAR and end in (Side.LEFT, Side.RIGHT) else 0.0
    ends = [one.local(_at_end(other, end, at, z)) for at, z in ((stop, 0.0), (along, other.thickness_mm))]
    wide, deep = other.thickness_mm, joining.depth
    told = (
        said(
            "Housing {wide:mm} wide (measure the part that goes in) and {deep:mm} deep, stopped {stop:mm} before "
            "the front; the part is notched there.",
            wide=wide, deep=deep, stop=stop,
        )
        if stop
        else said(
            "Housing {wide:mm} wide (measure the part that goes in) and {deep:mm} deep, right through.",
            wide=wide, deep=deep,
        )
    )  # fmt: skip
    yield Worked(
        one.key, "housing", _face(one, other, end), deep, *_rectangle(ends[0], ends[1]), joint=name,
        said=told, origin=origin,
    ), None  # fmt: skip
    if stop:
        yield Worked(
            other.key, "corner notch", end.value, joining.depth, 0.0, 0.0, stop, other.thickness_mm, joint=name,
            said=said(
                "Front corner notched {deep:mm} in from the end and {stop:mm} back, over the end of the housing.",
                deep=joining.depth, stop=stop,
            ), origin=origin,
        ), None  # fmt: skip


def _rectangle(
    one: tuple[float, float, float], other: tuple[float, float, float]
) -> tuple[float, float, float, float]:
    xs, ys = sorted((one[0], other[0])), sorted((one[1], other[1]))
    return round(xs[0], 6), round(ys[0], 6), round(xs[1], 6), round(ys[1], 6)
