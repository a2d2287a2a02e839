"""How legs, aprons and bearers are joined: mortise and tenon, loose tenon or dowels, each in the parts' own places."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.gathering import Heap, Standing, spread_over
from evenface.construction.kinds.top_on_base.records import Apron, TopOnBase
from evenface.construction.kinds.top_on_base.sizes import BaseSizes, Tenon, stub_mm, tenon_of, tenon_thick
from evenface.construction.placed import Fitting, Joint, Point, Worked
from evenface.piece.records import Side
from evenface.words import Said, said

CORNERS: Final = {
    Side.FRONT: ("front left", "front right"),
    Side.REAR: ("rear right", "rear left"),
    Side.LEFT: ("rear left", "front left"),
    Side.RIGHT: ("front right", "rear right"),
}
"""Leg at the left and at the right end of each apron, as its face is looked at."""
DOWELS_MM: Final = (8.0, 10.0, 12.0)
DOWEL_EVERY_MM: Final = 32.0
DOWEL_MOST_MM: Final = 35.0
"""COMMON PRACTICE: dowels near half of the apron, about 32 mm apart, not deeper than so."""
WHY: Final = said("Joints of the base.")


def join_base(piece: TopOnBase, sizes: BaseSizes, heap: Heap) -> None:
    """Eight joints of legs and aprons, and the bearers'."""
    legs, apron = piece.legs, piece.apron
    assert legs is not None
    assert apron is not None
    for side in Side:
        tenon = tenon_of(legs, apron, side)
        for end, corner in zip((Side.LEFT, Side.RIGHT), CORNERS[side], strict=True):
            _joint(piece, apron, heap, (side, end, f"leg {corner}"), tenon)
        if apron.joint.kind == "mortise and tenon":
            heap.worked += _tenoned(piece, side, apron, tenon)
    for one in [one for one in heap.standing if one.base == "bearer"]:
        _bearer(piece, apron, heap, one)


def _joint(piece: TopOnBase, apron: Apron, heap: Heap, where: tuple[Side, Side, str], tenon: Tenon) -> None:
    side, end, leg = where
    one, origin = heap.of(f"{side.value} apron"), f"{piece.origin}.apron.joint"
    kind = apron.joint.kind
    shoulder = tenon.length if kind == "mortise and tenon" else 0.0
    x = shoulder if end is Side.LEFT else one.part.length_mm - shoulder
    middle, height = one.middle_mm, one.part.width_mm
    line = one.point(x, 0.0, middle), one.point(x, height, middle)
    name = f"{one.key} {end.value}"
    count, deduction, area = 0, said("Butted: takes nothing from the length."), 0.0
    if kind == "dowel":
        count, area = _dowels(heap, one, end, leg, tenon, name, origin)
    else:
        if kind == "mortise and tenon":
            deduction = said("{long:mm} longer at this end than the clear size.", long=tenon.length)
        else:
            _loose(heap, one, end, leg, tenon, name, origin)
        _mortise(heap, one, x, end, leg, tenon, name, origin)
        area = 2 * tenon.length * (tenon.high - tenon.low)
    heap.joints.append(
        Joint(
            kind, (leg, one.key), *line, enters_mm=shoulder, number=count, area_mm2=area, deduction=deduction,
            name=name, origin=origin,
        )
    )  # fmt: skip


def _mortise(
    heap: Heap, one: Standing, x: float, end: Side, leg: str, tenon: Tenon, name: str, origin: str
) -> None:
    """In the leg, at the height and depth where the tenon comes."""
    half = tenon.thick / 2
    deep = tenon.length + 1.0
    low = one.point(x, tenon.low, one.middle_mm - half)
    high = one.point(x, tenon.high, one.middle_mm + half)
    heap.worked.append(
        _rectangle(
            heap.of(leg), "mortise", (low, high), deep, name, origin, said(
                "Mortise {thick:mm} wide, {long:mm} high and {deep:mm} deep in an inner side of the leg, {wall:mm} "
                "from its outer face, from {up:mm} above the floor upwards{meets:word}.",
                thick=tenon.thick, long=tenon.high - tenon.low, deep=deep, wall=tenon.wall, up=low[2],
                meets="; it meets the other mortise" if tenon.mitred else "",
            ),
        )
    )  # fmt: skip
    if tenon.haunch:
        top = one.point(x, one.part.width_mm, one.middle_mm + half)
        start = one.point(x, tenon.high, one.middle_mm - half)
        heap.worked.append(
            _rectangle(
                heap.of(leg), "haunch groove", (start, top), tenon.haunch + 1.0, name, origin, said(
                    "Groove {thick:mm} wide and {deep:mm} deep from the mortise to the upper end, for the haunch.",
                    thick=tenon.thick, deep=tenon.haunch + 1.0,
                ),
            )
        )  # fmt: skip


def _rectangle(
    part: Standing, kind: str, box: tuple[Point, Point], deep: float, name: str, origin: str, told: Said
) -> Worked:
    """Something rectangular let into that side of a part on which both points of the piece lie."""
    one, other = part.local(box[0]), part.local(box[1])
    length, width, thick = part.size_mm
    near = {
        "front": abs(one[1]), "rear": abs(one[1] - width), "top": abs(one[2] - thick), "bottom": abs(one[2]),
        "left": abs(one[0]), "right": abs(one[0] - length),
    }  # fmt: skip
    both = {
        "front": abs(other[1]), "rear": abs(other[1] - width), "top": abs(other[2] - thick), "bottom": abs(other[2]),
        "left": abs(other[0]), "right": abs(other[0] - length),
    }  # fmt: skip
    face = min(near, key=lambda side: near[side] + both[side])
    a, b = {"front": (0, 2), "rear": (0, 2), "top": (0, 1), "bottom": (0, 1)}.get(face, (1, 2))
    xs, ys = sorted((one[a], other[a])), sorted((one[b], other[b]))
    return Worked(
        part.key, kind, face, deep, round(xs[0], 6), round(ys[0], 6), round(xs[1], 6), round(ys[1], 6),
        joint=name, said=told, origin=origin,
    )  # fmt: skip


def _tenoned(piece: TopOnBase, side: Side, apron: Apron, tenon: Tenon) -> Iterator[Worked]:
    """The tenon, up to the upper edge where it has a haunch; then what is cut back above it."""
    low = (apron.thickness - tenon.thick) / 2
    key, origin, height = f"{side.value} apron", f"{piece.origin}.apron.joint", apron.height_at(side)
    told = said(
        "Tenon {thick:mm} thick, {high:mm} high and {long:mm} long at both ends, in the middle of the thickness, "
        "{low:mm} above the lower edge{haunch}{mitre:word}.",
        thick=tenon.thick,
        high=tenon.high - tenon.low,
        long=tenon.length,
        low=tenon.low,
        haunch=said("; above it a haunch {haunch:mm} long", haunch=tenon.haunch) if tenon.haunch else "",
        mitre="; its end mitred on the inner side, so that it passes the other tenon in the leg"
        if tenon.mitred
        else "",
    )
    yield Worked(
        key, "tenon", "left", tenon.length, tenon.low, low, height if tenon.haunch else tenon.high, low + tenon.thick,
        number=2, joint=key, said=told, origin=origin,
    )  # fmt: skip
    if tenon.haunch:
        off = tenon.length - tenon.haunch
        yield Worked(
            key, "haunch", "left", off, tenon.high, low, height, low + tenon.thick, number=2, joint=key, said=said(
                "Above the tenon its upper {high:mm} cut back by {off:mm}, so that a haunch of {haunch:mm} stays.",
                high=height - tenon.high, off=off, haunch=tenon.haunch,
            ), origin=origin,
        )  # fmt: skip


def _loose(heap: Heap, one: Standing, end: Side, leg: str, tenon: Tenon, name: str, origin: str) -> None:
    low = one.middle_mm - tenon.thick / 2
    heap.worked.append(
        Worked(
            one.key, "mortise", end.value, tenon.length + 1.0, tenon.low, low, tenon.high, low + tenon.thick,
            joint=name, said=said(
                "Mortise {thick:mm} wide, {long:mm} high and {deep:mm} deep in the middle of the end.",
                thick=tenon.thick, long=tenon.high - tenon.low, deep=tenon.length + 1.0,
            ), origin=origin,
        )
    )  # fmt: skip
    heap.fittings.append(
        Fitting(
            "loose tenon", 1, said(
                "hardwood {thick:mm} × {wide:mm}, {long:mm} long",
                thick=tenon.thick, wide=tenon.high - tenon.low - 1.0, long=2 * tenon.length,
            ), (leg, one.key), why=WHY, origin=origin,
        )
    )  # fmt: skip


def _dowels(
    heap: Heap, one: Standing, end: Side, leg: str, tenon: Tenon, name: str, origin: str
) -> tuple[int, float]:
    """How many there are, and their glued area."""
    diameter = min(DOWELS_MM, key=lambda size: abs(size - one.thickness_mm * 0.45))
    deep = min(tenon.length + (tenon.thick - diameter) / 2, DOWEL_MOST_MM)
    long = max(10.0 * int(2 * (deep - 1.0) / 10.0), 10.0)
    rest = long - deep + 3.0
    heights = spread_over(one.part.width_mm, 20.0, DOWEL_EVERY_MM)
    x = 0.0 if end is Side.LEFT else one.part.length_mm
    post = heap.of(leg)
    points = [post.local(one.point(x, at, one.middle_mm)) for at in heights]
    side_of_leg = "top" if abs(points[0][2] - post.thickness_mm) < 1e-3 else "rear"
    centres = [(p[0], p[1] if side_of_leg == "top" else p[2]) for p in points]
    for part, face, depth, places in (
        (leg, side_of_leg, deep, tuple((round(a, 6), round(b, 6)) for a, b in centres)),
        (one.key, end.value, rest, tuple((at, one.middle_mm) for at in heights)),
    ):
        heap.worked.append(
            Worked(
                part, "dowel holes", face, depth, diameter_mm=diameter, centres=places, joint=name, said=said(
                    "{count:count} holes Ø {diameter:mm}, {deep:mm} deep.",
                    count=len(places), diameter=diameter, deep=depth,
                ), origin=origin,
            )
        )  # fmt: skip
    heap.fittings.append(
        Fitting(
            "dowel", len(heights), said("Ø {diameter:mm} × {length:mm}", diameter=diameter, length=long),
            (leg, one.key), why=WHY, origin=origin,
        )
    )  # fmt: skip
    return len(heights), len(heights) * 3.14159 * diameter * deep


def _bearer(piece: TopOnBase, apron: Apron, heap: Heap, one: Standing) -> None:
    """A stub tenon at each end, in the middle of its height."""
    stub, origin = stub_mm(apron), f"{piece.origin}.apron.bearers"
    height = one.part.width_mm
    thick = tenon_thick(apron)
    low, high = height / 4, height * 3 / 4
    half = thick / 2
    heap.worked.append(
        Worked(
            one.key, "tenon", "left", stub, low, one.middle_mm - half, high, one.middle_mm + half, number=2,
            joint=one.key, said=said(
                "Stub tenon {thick:mm} thick, {high:mm} high and {long:mm} long at both ends, in the middle.",
                thick=thick, high=high - low, long=stub,
            ), origin=origin,
        )
    )  # fmt: skip
    for end, side in ((Side.LEFT, "front apron"), (Side.RIGHT, "rear apron")):
        x = stub if end is Side.LEFT else one.part.length_mm - stub
        box = one.point(x, low, one.middle_mm - half), one.point(x, high, one.middle_mm + half)
        name = f"{one.key} {end.value}"
        heap.joints.append(
            Joint(
                "stub tenon", (side, one.key), one.point(x, 0.0, one.middle_mm), one.point(x, height, one.middle_mm),
                enters_mm=stub, area_mm2=2 * stub * (high - low),
                deduction=said("{long:mm} longer at this end than the clear size.", long=stub),
                name=name, origin=origin,
            )
        )  # fmt: skip
        deep = stub + 0.5
        middle = round(heap.of(side).local(one.point(x, low, one.middle_mm))[0], 4)
        heap.worked.append(
            _rectangle(
                heap.of(side), "mortise", box, deep, name, origin, said(
                    "Mortise {thick:mm} wide, {long:mm} high and {deep:mm} deep in the inner face, for a bearer: its "
                    "middle {middle:mm} from the left end, its foot {low:mm} above the lower edge.",
                    thick=thick, long=high - low, deep=deep, middle=middle, low=low,
                ),
            )
        )  # fmt: skip
