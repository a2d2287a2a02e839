"""Doors hung: hinges counted by height and mass, cups bored clear of the edging, plates on the sides."""

from collections.abc import Iterator
from typing import Final

from evenface.construction.gathering import Heap, Standing
from evenface.construction.hinges import (
    CUP,
    CUP_DEPTH_MM,
    CUP_FLOOR_MM,
    LEAST_BORE,
    MOST_BORE,
    Hanging,
    corner_needs_mm,
    further_in,
    hang,
)
from evenface.construction.kinds.carcase.beside import opening_beside
from evenface.construction.kinds.carcase.cup_places import PLATE_HALF_MM, cup_places
from evenface.construction.kinds.carcase.fronts import Front, lap_mm, stand_front
from evenface.construction.kinds.carcase.shell import Laying
from evenface.construction.panel_mass import mass_of
from evenface.construction.placed import Fitting, Joint, Worked
from evenface.evidence import Status, certain
from evenface.finding import Change, Finding, Remedy, Severity
from evenface.materials.rules import hinge_rows
from evenface.piece.records import Panel
from evenface.units import number_text
from evenface.words import said

PLATE_IN_MM: Final = 37.0
PLATE_HOLES: Final = (5.0, 32.0)
"""COMMON PRACTICE: plate screws 37 mm behind the front edge (or the inset door), two holes 32 mm apart."""
PLATE_DEEP_MM: Final = 12.0
FURTHER_IN_MM: Final = 48.0
"""COMMON PRACTICE: where plates would meet in one board, the hinges of the second door sit so much nearer together."""
CHART: Final = "a hinge maker's chart by height and mass"


def hang_door(laying: Laying, heap: Heap, front: Front) -> None:
    """One door with everything that carries it."""
    stood = stand_front(laying, front, 2)
    panel = stood.part
    assert isinstance(panel, Panel)
    width = next((edge.width_mm for edge in panel.edges if edge.side is front.hinge_side), 0.0)
    fronts = laying.carcase.fronts
    assert fronts is not None
    hung = hang(front.height_mm, mass_of(panel, laying.ground), width, fronts.cup)
    side = front.cell.left.part if front.hinge == "left" else front.cell.right.part
    if _meets_plates(heap, front, hung, side):
        hung = further_in(hung, FURTHER_IN_MM)
    stood = stand_front(laying, front, hung.count)
    heap.standing.append(stood)
    origin = front.cell.row.origin
    hinge_x = front.x[0] if front.hinge == "left" else front.x[1]
    heap.joints.append(
        Joint(
            "hinge", (side, front.key), (hinge_x, front.y[1], front.z[0]), (hinge_x, front.y[1], front.z[1]),
            number=hung.count, glued=False, moves=True, name=f"{front.key} hinges", origin=origin,
        )
    )  # fmt: skip
    heap.worked += _bored(laying, heap, front, hung, side)
    heap.fittings += _bought(laying, front, hung, side)
    heap.findings += _told(laying, heap, front, panel, hung, width)


def _meets_plates(heap: Heap, front: Front, hung: Hanging, side: str) -> bool:
    """Whether plates hang on the other face of the same board at the same height, and it is too thin for both."""
    carrier = heap.of(side)
    if carrier.thickness_mm - 1.0 >= 2 * PLATE_DEEP_MM:
        return False
    inner = front.cell.x[0] if front.hinge == "left" else front.cell.x[1]
    own = [carrier.local((inner, 0.0, front.z[0] + at)) for at in hung.at_mm]
    face = _face_of(carrier, own[0][2])
    others = [
        x
        for one in heap.worked
        if one.part == side and one.kind == "plate holes" and one.face != face
        for x, _ in one.centres
    ]
    return any(abs(x - at) < PLATE_HALF_MM for x in others for at, _, _ in own)


def _face_of(carrier: Standing, z: float) -> str:
    return "bottom" if z < carrier.thickness_mm / 2 else "top"


def _bored(laying: Laying, heap: Heap, front: Front, hung: Hanging, side: str) -> Iterator[Worked]:
    """Cups in the door's inner face; plate holes in what it hangs on."""
    stood, carrier = heap.of(front.key), heap.of(side)
    left = front.hinge == "left"
    x = front.x[0] + hung.centre_mm if left else front.x[1] - hung.centre_mm
    origin = front.cell.row.origin
    cups = [stood.local((x, front.y[1], front.z[0] + at)) for at in hung.at_mm]
    yield Worked(
        front.key, "hinge cups", "bottom", CUP_DEPTH_MM, diameter_mm=CUP.nominal,
        centres=tuple((round(a, 6), round(b, 6)) for a, b, _ in cups), number=hung.count,
        joint=f"{front.key} hinges", said=said(
            "{count:count} hinge cups Ø {cup:mm}, {deep:mm} deep, their edge {bore:mm} from the door's edge.",
            count=hung.count, cup=CUP.nominal, deep=CUP_DEPTH_MM, bore=hung.bore_mm,
        ), origin=origin,
    )  # fmt: skip
    fronts = laying.carcase.fronts
    assert fronts is not None
    y = (front.y[1] if fronts.inset else laying.room.y[0]) + PLATE_IN_MM
    inner = front.cell.x[0] if left else front.cell.x[1]
    hole, apart = PLATE_HOLES
    points = [
        carrier.local((inner, y, front.z[0] + at + by)) for at in hung.at_mm for by in (-apart / 2, apart / 2)
    ]
    yield Worked(
        side, "plate holes", _face_of(carrier, points[0][2]), PLATE_DEEP_MM,
        diameter_mm=hole, centres=tuple((round(a, 6), round(b, 6)) for a, b, _ in points),
        joint=f"{front.key} hinges", said=said(
            "Two holes Ø {hole:mm}, {apart:mm} apart, for each hinge plate, {back:mm} behind the front edge.",
            hole=hole, apart=apart, back=y - laying.room.y[0],
        ), origin=origin,
    )  # fmt: skip


def _bought(laying: Laying, front: Front, hung: Hanging, side: str) -> Iterator[Fitting]:
    fronts = laying.carcase.fronts
    assert fronts is not None
    left = front.hinge == "left"
    limit = front.cell.left if left else front.cell.right
    lap = lap_mm(fronts, limit, front.hinge)
    size = (
        said("cup Ø {cup:mm}, for an inset door", cup=CUP.nominal)
        if lap < 0
        else said("cup Ø {cup:mm}, for {lap:mm} of overlay", cup=CUP.nominal, lap=lap)
    )
    yield Fitting(
        "hinge with plate", hung.count, size, (front.key, side),
        why=said(
            "Overlay = fixed distance of the hinge + {bore:mm} to the cup − height of the plate: choose plate by it. "
            "Number by height {height:mm} and mass {mass:kg}.",
            bore=hung.bore_mm, height=front.height_mm, mass=hung.mass_kg,
        ), origin=front.cell.row.origin,
    )  # fmt: skip


def _told(
    laying: Laying, heap: Heap, front: Front, panel: Panel, hung: Hanging, edging_mm: float
) -> Iterator[Finding]:
    if not hung.in_chart:
        yield _too_heavy(front, hung)
    if hung.cut_mm > 0.0:
        yield _cup_on_joint(front, panel, hung, edging_mm)
    if not LEAST_BORE.nominal <= hung.bore_mm <= MOST_BORE.nominal:
        yield _bore(laying, front, hung)
    thick = heap.of(front.key).thickness_mm
    if thick - CUP_DEPTH_MM < CUP_FLOOR_MM:
        yield _cup_through(front, thick)
    if hung.at_mm[-1] - hung.at_mm[0] <= front.width_mm:
        yield _low(front, hung)
    yield from cup_places(front, heap.of(front.key), hung)
    yield from _on_a_shelf(laying, heap, front, hung)
    fronts = laying.carcase.fronts
    if fronts is not None and fronts.inset:
        yield from _corner(laying, front, thick)
    elif fronts is not None:
        yield from opening_beside(laying, fronts, front, thick)


def _too_heavy(front: Front, hung: Hanging) -> Finding:
    last = hinge_rows()[-1]
    return Finding(
        code="door.too_heavy", severity=Severity.STOP, origin=front.cell.row.origin, part=front.key,
        value=certain(hung.mass_kg), limit=last.mass_kg, unit="kg",
        message=said(
            "A door of {height:mm} and {mass:kg} is beyond {most:count} hinges: they carry {limit:kg} up to "
            "{tall:mm}.",
            height=front.height_mm, mass=hung.mass_kg, most=last.count, limit=last.mass_kg, tall=last.height_mm,
        ), source=CHART, weakest=Status.READ,
        remedies=(
            Remedy("door.divide", said("Make two doors of it, one above the other or side by side.")),
            Remedy("door.lighter", said("Take a lighter or thinner carrier.")),
        ),
    )  # fmt: skip


def _cup_on_joint(front: Front, panel: Panel, hung: Hanging, edging_mm: float) -> Finding:
    far = hung.bore_mm + CUP.nominal
    narrow = MOST_BORE.nominal - 1.0
    edge = next(edge for edge in panel.edges if edge.side is front.hinge_side)
    given = number_text(edging_mm, 2)
    return Finding(
        code="hinge.on_joint", severity=Severity.WEIGH, origin=edge.origin, part=front.key, at=front.hinge,
        value=certain(edging_mm), limit=narrow, unit="mm",
        message=said(
            "The joint of the edging lies {width:mm} from the hinge side, within the hinge cup from "
            "{near:mm} to {far:mm}.",
            width=edging_mm, near=hung.bore_mm, far=far,
        ),
        why=said("The cup cuts the glue line, and its screws pull where wood and board meet."),
        source="own reckoning from a hinge maker's distances: edging up to 3 mm or from 45 mm clears every cup",
        remedies=(
            Remedy(
                "hinge.narrow_edging", said("Make the edging {width:mm} wide and bore {bore:mm} from the edge.",
                                            width=narrow, bore=MOST_BORE.nominal),
                (Change(f"{edge.origin}.width", given, number_text(narrow, 2)),),
            ),
            Remedy(
                "hinge.wide_edging", said("Make the edging {width:mm} wide: the cup lies wholly in it.", width=45.0),
                (Change(f"{edge.origin}.width", given, "45"),),
            ),
            Remedy("hinge.try", said("Try it on a piece of the same build-up, and glue the edging with a tongue.")),
        ),
    )  # fmt: skip


def _bore(laying: Laying, front: Front, hung: Hanging) -> Finding:
    path = f"{laying.carcase.origin}.fronts.cup"
    return Finding(
        code="hinge.bore", severity=Severity.WEIGH, origin=path, part=front.key,
        value=certain(hung.bore_mm), limit=MOST_BORE.nominal, unit="mm",
        message=said(
            "The cup is {bore:mm} from the edge; hinges of this kind take {least:mm} to {most:mm}.",
            bore=hung.bore_mm, least=LEAST_BORE.nominal, most=MOST_BORE.nominal,
        ), source=LEAST_BORE.source, weakest=LEAST_BORE.status,
        remedies=(
            Remedy(
                "hinge.usual_bore", said("Leave it open: it is chosen by the edging."),
                (Change(path, f"{hung.bore_mm:g}", ""),),
            ),
        ),
    )  # fmt: skip


def _cup_through(front: Front, thick: float) -> Finding:
    least = CUP_DEPTH_MM + CUP_FLOOR_MM
    return Finding(
        code="hinge.cup_deep", severity=Severity.STOP, origin=front.cell.row.origin, part=front.key,
        value=certain(thick), limit=least, unit="mm",
        message=said(
            "A door {thick:mm} thick leaves {left:mm} under a hinge cup {deep:mm} deep.",
            thick=thick, left=thick - CUP_DEPTH_MM, deep=CUP_DEPTH_MM,
        ), why=said("The cup shows on the face or comes through it."),
        source="common practice", weakest=Status.PRACTICE,
        remedies=(
            Remedy(
                "hinge.thicker_door",
                said("Take a carrier that makes the door {least:mm} thick or more.", least=least),
            ),
            Remedy("hinge.shallow_cup", said("Use a hinge for thin doors, and give its depth.")),
        ),
    )  # fmt: skip


def _low(front: Front, hung: Hanging) -> Finding:
    apart = hung.at_mm[-1] - hung.at_mm[0]
    return Finding(
        code="hinge.close_together", severity=Severity.WEIGH, origin=front.cell.row.origin, part=front.key,
        value=certain(apart), limit=front.width_mm, unit="mm",
        message=said(
            "The outer hinges are {apart:mm} apart on a door {width:mm} wide; they should be further apart "
            "than it is wide.",
            apart=apart, width=front.width_mm,
        ), why=said("The wider the door for its height, the harder it pulls at the upper hinge."),
        source=CHART, weakest=Status.READ,
        remedies=(Remedy("door.pair", said("Make a pair of doors of it.")),),
    )  # fmt: skip


def _on_a_shelf(laying: Laying, heap: Heap, front: Front, hung: Hanging) -> Iterator[Finding]:
    """Shelves that stand where a plate comes."""
    place = f"shelf {front.cell.bay + 1}.{front.cell.number + 1}."
    shelves: list[Standing] = [one for one in heap.standing if one.key.startswith(place)]
    for at in hung.at_mm:
        z = front.z[0] + at
        hit = [one for one in shelves if one.box[0][2] - PLATE_HALF_MM < z < one.box[1][2] + PLATE_HALF_MM]
        if hit:
            yield Finding(
                code="hinge.at_shelf", severity=Severity.NOTE, origin=front.cell.row.origin, part=front.key,
                value=certain(z - hit[0].box[0][2]), limit=PLATE_HALF_MM, unit="mm",
                message=said(
                    "A hinge {at:mm} above the lower edge of the door comes where a loose shelf stands.", at=at
                ), source="geometry of the carcase",
                remedies=(
                    Remedy("hinge.move", said("Set the shelf a row of holes higher or lower, or move the hinge.")),
                ),
            )  # fmt: skip
            return


def _corner(laying: Laying, front: Front, thick: float) -> Iterator[Finding]:
    """Whether the rear corner of an inset door passes what stands on its closing side."""
    fronts = laying.carcase.fronts
    assert fronts is not None
    limit, side = (front.cell.right, "right") if front.hinge == "left" else (front.cell.left, "left")
    pair = front.cell.row.what == "doors"
    gap = fronts.between if pair else -lap_mm(fronts, limit, side)
    needs = corner_needs_mm(front.width_mm, thick)
    if gap >= needs - 1e-9:
        return
    key = "gap" if pair or limit.kind == "partition" or gap == fronts.between else side
    wanted = round(needs + 0.5, 1)
    yield Finding(
        code="door.corner", severity=Severity.STOP, origin=f"{laying.carcase.origin}.fronts.{key}", part=front.key,
        at=side, value=certain(gap), limit=needs, unit="mm",
        message=said(
            "Opening, the rear corner of a door {width:mm} wide and {thick:mm2} thick needs {needs:mm2}; the gap "
            "is {gap:mm2}.",
            width=front.width_mm, thick=thick, needs=needs, gap=gap,
        ), why=said("It would bind on what stands beside it."), source="√(w² + t²) − w, turned about its front arris",
        remedies=(
            Remedy(
                "door.gap", said("Make the gap {wanted:mm}.", wanted=wanted),
                (Change(f"{laying.carcase.origin}.fronts.{key}", f"{gap:g}", f"{wanted:g}"),),
            ),
            Remedy("door.bevel", said("Bevel the closing edge by {angle:deg}.", angle=3.0)),
        ),
    )  # fmt: skip
