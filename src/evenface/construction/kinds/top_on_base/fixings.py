"""The top held down so that it and the base may move: how far they move apart, how long the slots, what is bought.

Boards keep their length; legs and aprons change across the grain, the top as its board and edging do. Between the
aprons of two sides only the wood inside the shoulders counts: of a leg, what lies between the shoulder of one
apron and the middle of the other. Top and base stand in the same air and mostly go the same way; the larger of
the two changes is an upper bound of what passes between them.
"""

from dataclasses import dataclass, replace
from math import ceil
from typing import Final

from evenface.construction.gaps_through_year import panel_through_year
from evenface.construction.gathering import Heap, spread_over
from evenface.construction.ground import Ground
from evenface.construction.kinds.top_on_base.records import TopOnBase
from evenface.construction.kinds.top_on_base.sizes import BaseSizes, support_places
from evenface.construction.placed import Fitting, Joint, Worked
from evenface.construction.wood_through_year import ThroughYear, width_through_year
from evenface.evidence import Status, weakest
from evenface.piece.records import Panel, Side
from evenface.units import number_text
from evenface.words import Said, said

SHANK_MM: Final = 4.0
PLAY_MM: Final = 2.0
"""A trade association, read: holes of sliding fixings 2 to 3 mm over the shank."""
STEP_MM: Final = 0.5
FIRST_MM: Final = 60.0
"""COMMON PRACTICE: the first fixing from a leg."""
HOLDS_MM: Final = 6.0
"""COMMON PRACTICE: what the tongue of a button must still reach into its groove."""
BUTTON: Final = (6.0, 12.0, 18.0, 16.0)
"""COMMON PRACTICE: tongue thick; groove below the edge; button thick; screw from the apron."""
PLATE: Final = (60.0, 16.0, 2.0, 14.0)
"""COMMON PRACTICE: length, width, thickness of a slotted plate; its slot from the apron."""
UNDER_HEAD_MM: Final = 30.0
"""COMMON PRACTICE: wood left over the head of a screw driven up through an apron."""
SKIN_MM: Final = 4.0
"""COMMON PRACTICE: what a screw stays away from the show face of the carrier."""


@dataclass(frozen=True, slots=True)
class Travel:
    """How far top and base move against each other over the whole distance between two aprons. [mm]"""

    shrinks: float
    swells: float
    status: Status

    @property
    def most(self) -> float:
        return max(self.shrinks, self.swells)


@dataclass(frozen=True, slots=True)
class Point:
    """One fixing: the side it is on, where its screw enters the top in x and y of the piece. [mm]"""

    side: Side
    x: float
    y: float
    along: float


def fixing_points(piece: TopOnBase, sizes: BaseSizes) -> tuple[Point, ...]:
    """Every fixing, apron by apron; in two rows on every support."""
    if piece.legs is None or piece.apron is None:
        return _on_supports(piece, sizes)
    apron, legs = piece.apron, piece.legs
    beyond = {
        "button": BUTTON[3],
        "slotted plate": PLATE[3],
        "slotted screw": -apron.thickness / 2,
    }[piece.fixing.kind]
    found = []
    for side in Side:
        inner = sizes.apron_line(side, apron)[1]
        line = inner + (beyond if side in (Side.FRONT, Side.LEFT) else -beyond)
        way = 0 if side.runs_along_length else 1
        start = (sizes.x if way == 0 else sizes.y)[0] + legs.size[way]
        for at in spread_over(sizes.clear[way], FIRST_MM, piece.fixing.every):
            x, y = (start + at, line) if way == 0 else (line, start + at)
            found.append(Point(side, x, y, at))
    return tuple(found)


def _on_supports(piece: TopOnBase, sizes: BaseSizes) -> tuple[Point, ...]:
    supports = piece.supports
    if supports is None or not supports.screwed:
        return ()
    middle = supports.width / 2
    return tuple(
        Point(side, x + middle, y, 0.0)
        for x in support_places(piece, sizes)
        for side, y in ((Side.FRONT, sizes.y[0] + FIRST_MM), (Side.REAR, sizes.y[1] - FIRST_MM))
    )


def travel_of(piece: TopOnBase, ground: Ground, sizes: BaseSizes) -> tuple[Travel, Travel]:
    """Between the end aprons, along x, and between front and rear, along y."""
    top = panel_through_year(_between_fixings(piece, sizes), ground)
    still = ThroughYear(0.0, 0.0, Status.DERIVED)
    base = (still, still)
    if piece.legs is not None and piece.apron is not None:
        wood = ground.materials.wood(piece.legs.wood)
        line = piece.apron.back + piece.apron.thickness / 2
        wide, deep = (
            width_through_year(ground.job, wood, max(2 * (size - line), 0.0), piece.legs.cut)
            for size in piece.legs.size
        )
        base = (wide, deep)
    along, across = (
        Travel(max(-a.least_mm, -b.least_mm), max(a.most_mm, b.most_mm), weakest((a.status, b.status)))
        for a, b in zip(top, base, strict=True)
    )
    return along, across


def _between_fixings(piece: TopOnBase, sizes: BaseSizes) -> Panel:
    """The part of the top between the middles of the aprons: board, and edging as far as it reaches in there."""
    line = piece.apron.back + piece.apron.thickness / 2 if piece.apron else 0.0
    gone = {side: over + line for side, over in piece.overhang.items()}
    edges = tuple(
        replace(edge, width_mm=edge.width_mm - gone[edge.side])
        for edge in piece.top.edges
        if edge.width_mm > gone[edge.side]
    )
    return replace(
        piece.top,
        length_mm=piece.top.length_mm - gone[Side.LEFT] - gone[Side.RIGHT],
        width_mm=piece.top.width_mm - gone[Side.FRONT] - gone[Side.REAR],
        edges=edges,
    )


def moves_at(piece: TopOnBase, side: Side, travel: tuple[Travel, Travel]) -> float:
    """How far a fixing at that side goes, each way. [mm]"""
    whole = travel[1 if side.runs_along_length else 0].most
    if piece.fixing.fixed == "front" and side.runs_along_length:
        return 0.0 if side is Side.FRONT else whole
    return whole / 2


def needed_slot_mm(piece: TopOnBase, side: Side, travel: tuple[Travel, Travel]) -> float:
    """Length of the slot a screw asks for at that side: its shank, the way to both sides and play. [mm]"""
    ask = SHANK_MM + 2 * moves_at(piece, side, travel) + PLAY_MM
    return ceil(round(ask / STEP_MM, 6)) * STEP_MM


def slot_mm(piece: TopOnBase, side: Side, travel: tuple[Travel, Travel]) -> float:
    """As given, else as needed. [mm]"""
    return piece.fixing.slot or needed_slot_mm(piece, side, travel)


def tongue_mm(moves: float) -> float:
    """How far the tongue of a button reaches into its groove. [mm]"""
    return ceil(round(2 * (HOLDS_MM + moves), 6)) / 2


def screw_mm(piece: TopOnBase, ground: Ground) -> tuple[float, float]:
    """Length of the screw, in steps of 5, and how far it enters the top. [mm]"""
    sizes = ground.sizes_of(piece.top.buildup)
    grip = {"button": BUTTON[2], "slotted plate": PLATE[2], "slotted screw": UNDER_HEAD_MM}[piece.fixing.kind]
    most = sizes.carrier_z0_mm + sizes.carrier_mm - SKIN_MM
    long = 5.0 * int((grip + most) / 5.0)
    return long, long - grip


def fix_top(piece: TopOnBase, ground: Ground, sizes: BaseSizes, heap: Heap) -> None:
    """Holes in the top, what is worked into the aprons, joints and what is bought."""
    points = fixing_points(piece, sizes)
    if not points:
        return
    travel = travel_of(piece, ground, sizes)
    long, deep = screw_mm(piece, ground)
    origin = f"{piece.origin}.fixing"
    heap.worked.append(
        Worked(
            "top", "pilot holes", "bottom", deep, diameter_mm=3.0,
            centres=tuple((round(one.x, 6), round(one.y, 6)) for one in points), joint="top on its base", said=said(
                "{count:count} pilot holes Ø {hole:mm}, {deep:mm} deep; drill {wide:mm} through a laminate on the "
                "underside first, so that it does not crack. Mark them through the slots with the top in its place.",
                count=len(points), hole=3.0, deep=deep, wide=SHANK_MM + 1.0,
            ), origin=origin,
        )
    )  # fmt: skip
    kind = piece.fixing.kind if piece.apron else "screw"
    for side in dict.fromkeys(one.side for one in points):
        mine = [one for one in points if one.side is side]
        if piece.apron is not None:
            _worked(piece, sizes, heap, side, mine, travel)
            _held(sizes, heap, side, kind, len(mine), origin)
        heap.fittings.append(_bought(piece, side, len(mine), travel))
    heap.fittings.append(
        Fitting(
            "round-head screw", len(points), said("{shank:mm} × {long:mm}", shank=SHANK_MM, long=long), ("top",),
            why=said(
                "The top on its base, {deep:mm} into the top. Drive them home and turn them back a little, so that "
                "they slide.",
                deep=deep,
            ), origin=origin,
        )
    )  # fmt: skip
    if kind == "slotted plate":
        heap.fittings.append(
            Fitting(
                "countersunk screw", len(points), said("3.5 × {long:mm}", long=25.0),
                tuple(f"{side.value} apron" for side in Side),
                why=said("The plates on the aprons, one in each."), origin=origin,
            )
        )  # fmt: skip


def _held(sizes: BaseSizes, heap: Heap, side: Side, kind: str, number: int, origin: str) -> None:
    apron = heap.of(f"{side.value} apron")
    ends = [apron.point(x, apron.part.width_mm, apron.middle_mm) for x in (0.0, apron.part.length_mm)]
    heap.joints.append(
        Joint(
            kind, (apron.key, "top"), ends[0], ends[1], number=number, glued=False,
            deduction=said("The top lies on the apron and may slide on it, without glue."),
            name=f"top on the {apron.key}", origin=origin,
        )
    )  # fmt: skip


def _bought(piece: TopOnBase, side: Side, count: int, travel: tuple[Travel, Travel]) -> Fitting:
    origin = f"{piece.origin}.fixing"
    slot = slot_mm(piece, side, travel)
    moves = moves_at(piece, side, travel)
    parts = (f"{side.value} apron", "top") if piece.apron else ("top",)
    why = said(
        "Through the year top and base pass each other here by {moves:mm2} each way at most: slots square to the "
        "apron.",
        moves=moves,
    )
    if moves == 0.0:
        why = said("Here top and base stay together: plain holes, or the screw at the end of its slot.")
    if not piece.apron:
        why = said("Slots across the top, through the given base.")
        return Fitting(
            "washer for a slot", count, said("slot {shank:mm} × {slot:mm}", shank=SHANK_MM + 0.5, slot=slot), parts,
            why=why, origin=origin,
        )  # fmt: skip
    if piece.fixing.kind == "button":
        thick, _, body, _ = BUTTON
        return Fitting(
            "button", count, said(
                "hardwood, 30 wide, {body:mm} thick, tongue {thick:mm} × {tongue:mm}, a plain hole for the screw",
                body=body, thick=thick, tongue=tongue_mm(moves),
            ), parts, why=said(
                "Grain along the tongue. Here top and base pass each other by {moves:mm2} each way at most; the tongue "
                "slides in its groove.", moves=moves,
            ), origin=origin,
        )  # fmt: skip
    if piece.fixing.kind == "slotted plate":
        long, wide, thick, _ = PLATE
        return Fitting(
            "slotted plate", count, said(
                "{long:mm} × {wide:mm} × {thick:mm}, slot {slot:mm} long or longer", long=long, wide=wide, thick=thick,
                slot=slot,
            ), parts, why=why, origin=origin,
        )  # fmt: skip
    return Fitting(
        "washer for a slot", count, said("slot {shank:mm} × {slot:mm}", shank=SHANK_MM + 0.5, slot=slot), parts,
        why=why, origin=origin,
    )  # fmt: skip


def _worked(
    piece: TopOnBase, sizes: BaseSizes, heap: Heap, side: Side, points: list[Point], travel: tuple[Travel, Travel]
) -> None:  # fmt: skip
    """Grooves, recesses or slotted holes in an apron, in its own coordinates."""
    one, kind = heap.of(f"{side.value} apron"), piece.fixing.kind
    length, height = one.part.length_mm, one.part.width_mm
    at = sorted(round(one.local((point.x, point.y, sizes.legs_mm))[0], 6) for point in points)
    slot, origin = slot_mm(piece, side, travel), f"{piece.origin}.fixing"
    spans = "; ".join(number_text(x, 1) for x in at)
    if kind == "button":
        thick, below, _, _ = BUTTON
        deep = tongue_mm(moves_at(piece, side, travel)) + moves_at(piece, side, travel) + 1.0
        deep = ceil(round(2 * deep, 6)) / 2
        high = height - below
        told = said(
            "Groove {wide:mm} wide and {deep:mm} deep in the inner face, {below:mm} below the upper edge, for buttons "
            "at {spans} mm from the left end of the board; their tongues 0.5 mm lower, so that they draw.",
            wide=thick + 0.2, deep=deep, below=below, spans=spans,
        )  # fmt: skip
        work = Worked(
            one.key, "groove", "bottom", deep, 0.0, high - thick - 0.2, length, high, joint="top on its base",
            said=told, origin=origin,
        )  # fmt: skip
    elif kind == "slotted plate":
        _, wide, deep, _ = PLATE
        work = Worked(
            one.key, "plate recesses", "rear", deep, centres=tuple((x, one.middle_mm) for x in at), number=len(at),
            joint="top on its base", said=said(
                "{count:count} recesses {wide:mm} wide and {deep:mm} deep in the upper edge, their middles at {spans} "
                "mm from the left end, open to the inner face, for plates that reach out under the top; the fixed hole "
                "in the apron.",
                count=len(at), wide=wide, deep=deep, spans=spans,
            ), origin=origin,
        )  # fmt: skip
    else:
        work = Worked(
            one.key, "slotted holes", "front", height, diameter_mm=SHANK_MM + 0.5,
            centres=tuple((x, one.middle_mm) for x in at), number=len(at), joint="top on its base", said=_slotted(
                height, slot, len(at)
            ), origin=origin,
        )  # fmt: skip
    heap.worked.append(work)


def _slotted(height: float, slot: float, count: int) -> Said:
    deep = max(height - UNDER_HEAD_MM, 0.0)
    return said(
        "{count:count} holes up from the lower edge, {deep:mm} deep and {wide:mm} wide, for head and driver; above "
        "them a slot {shank:mm} × {slot:mm}, its length across the apron.",
        count=count, deep=deep, wide=max(12.0, slot + 6.0), shank=SHANK_MM + 0.5, slot=slot,
    )  # fmt: skip
