"""A framed panel built: four members, the panel between them, what is worked into them."""

from collections.abc import Iterator
from dataclasses import replace
from math import atan2, ceil, degrees
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.framed_panel.records import Framed
from evenface.construction.kinds.framed_panel.sizes import FrameSizes, frame_sizes
from evenface.construction.placed import (
    Assembly,
    Axis,
    Board,
    Chain,
    Fitting,
    Gap,
    Joint,
    Placement,
    Worked,
)
from evenface.piece.records import Hold
from evenface.words import Said, said

SCREW_EVERY_MM: Final = 300.0
"""COMMON PRACTICE: screws through the ledge, in holes with play."""
APART_MM: Final = 120.0
STILE, RAIL, PANEL = "stile", "rail", "panel"


def build(framed: Framed, ground: Ground) -> Assembly:
    """The whole piece; a frame that leaves no panel gives the least panel there can be, and its finding."""
    sizes = frame_sizes(framed, ground)
    panel = replace(
        framed.panel,
        length_mm=max(sizes.panel_mm[0], 1.0),
        width_mm=max(sizes.panel_mm[1], 1.0),
        hold=Hold("groove" if framed.frame.seat == "groove" else "free", origin=framed.origin),
    )
    return Assembly(
        panels=(panel,),
        boards=tuple(_boards(framed, sizes)),
        placements=tuple(_placements(framed, sizes)),
        joints=tuple(_joints(framed, sizes)),
        worked=tuple(_worked(framed, sizes)),
        gaps=tuple(_gaps(framed, sizes)),
        chains=tuple(_chains(framed, sizes)) if min(sizes.panel_mm) >= 1.0 else (),
        fittings=tuple(_fittings(framed, sizes)),
        size_mm=(framed.width_mm, framed.frame.thickness, framed.height_mm),
    )


def rail_length_mm(framed: Framed, sizes: FrameSizes) -> float:
    """Length of a rail: over the mitres, between the stiles, or through their slots."""
    return framed.width_mm - (2 * sizes.stile_mm if framed.frame.joint == "butt" else 0.0)


def _boards(framed: Framed, sizes: FrameSizes) -> Iterator[Board]:
    frame = framed.frame
    angle = degrees(atan2(sizes.rail_mm, sizes.stile_mm)) if frame.joint == "mitre" else 90.0
    origin = f"{framed.origin}.frame"
    reason = said(
        "Width {board:mm} = {seen:mm} seen and a ledge of {ledge:mm} under the panel.",
        board=sizes.stile_mm,
        seen=frame.width,
        ledge=frame.ledge,
    )
    reasons: tuple[Said, ...] = (reason,) if frame.seat == "rebate" else ()
    yield Board(
        STILE, 2, frame.wood, framed.height_mm, sizes.stile_mm, frame.thickness, frame.cut, "frame",
        (90.0 - angle if angle != 90.0 else 90.0,) * 2, reasons, origin,
    )  # fmt: skip
    yield Board(
        RAIL, 2, frame.wood, rail_length_mm(framed, sizes), sizes.rail_mm, frame.thickness, frame.cut,
        "frame", (angle, angle), (*reasons, _rail_reason(framed, sizes)), origin,
    )  # fmt: skip


def _rail_reason(framed: Framed, sizes: FrameSizes) -> Said:
    match framed.frame.joint:
        case "mitre":
            return said("Length over the points of the mitres.")
        case "butt":
            return said(
                "Length {length:mm} between the stiles at the ledge; before the ledge it reaches {more:mm} further.",
                length=rail_length_mm(framed, sizes),
                more=framed.frame.ledge if framed.frame.seat == "rebate" else 0.0,
            )
        case _:
            return said(
                "Length through both stiles; between shoulders {inner:mm} behind and {outer:mm} before.",
                inner=framed.width_mm - 2 * sizes.stile_mm,
                outer=framed.width_mm - 2 * framed.frame.width,
            )


def _placements(framed: Framed, sizes: FrameSizes) -> Iterator[Placement]:
    """Everything faces the front; each member has its inner edge at y = its width, so that both of a kind are alike."""
    deep, width, height = framed.frame.thickness, framed.width_mm, framed.height_mm
    through = framed.frame.joint != "butt"
    long = rail_length_mm(framed, sizes)
    left, right = (width - long) / 2, (width + long) / 2
    yield Placement(STILE, (0.0, deep, height), Axis.DOWN, Axis.RIGHT, (-APART_MM, 0.0, 0.0), "left")
    yield Placement(STILE, (width, deep, 0.0), Axis.UP, Axis.LEFT, (APART_MM, 0.0, 0.0), "right")
    yield Placement(RAIL, (right, deep, height), Axis.LEFT, Axis.DOWN, (0.0, 0.0, APART_MM), "top", through)
    yield Placement(RAIL, (left, deep, 0.0), Axis.RIGHT, Axis.UP, (0.0, 0.0, -APART_MM), "bottom", through)
    yield Placement(
        PANEL,
        (sizes.inset_mm[0], sizes.depth_to_face_mm + sizes.thickness.thickness_mm, sizes.inset_mm[1]),
        Axis.RIGHT,
        Axis.UP,
        (0.0, -APART_MM, 0.0),
        sunk=True,
    )


def _joints(framed: Framed, sizes: FrameSizes) -> Iterator[Joint]:
    """Four corners, then the four sides the panel lies against."""
    frame, width, height = framed.frame, framed.width_mm, framed.height_mm
    area = {
        "mitre": (sizes.stile_mm**2 + sizes.rail_mm**2) ** 0.5 * frame.thickness,
        "butt": sizes.rail_mm * frame.thickness,
        "bridle": 2 * sizes.stile_mm * sizes.rail_mm,
    }[frame.joint]
    for side, x, inner in (("left", 0.0, sizes.stile_mm), ("right", width, width - sizes.stile_mm)):
        for end, z, low in (("top", height, height - sizes.rail_mm), ("bottom", 0.0, sizes.rail_mm)):
            yield Joint(
                frame.joint,
                (STILE, RAIL),
                (x if frame.joint == "mitre" else inner, 0.0, z),
                (inner, 0.0, low),
                enters_mm=sizes.stile_mm if frame.joint == "bridle" else 0.0,
                area_mm2=area,
                name=f"{end} {side}",
                origin=f"{framed.origin}.frame.joint",
            )
    x0, z0 = sizes.inset_mm
    x1, z1 = width - x0, height - z0
    for name, member, start, end_ in (
        ("left", STILE, (x0, 0.0, z0), (x0, 0.0, z1)),
        ("right", STILE, (x1, 0.0, z0), (x1, 0.0, z1)),
        ("top", RAIL, (x0, 0.0, z1), (x1, 0.0, z1)),
        ("bottom", RAIL, (x0, 0.0, z0), (x1, 0.0, z0)),
    ):
        yield Joint(
            frame.seat,
            (member, PANEL),
            start,
            end_,
            enters_mm=max(frame.ledge - sizes.gap_mm, 0.0),
            glued=False,
            moves=True,
            name=f"panel, {name}",
            origin=f"{framed.origin}.frame.seat",
        )


def _worked(framed: Framed, sizes: FrameSizes) -> Iterator[Worked]:
    frame, origin = framed.frame, f"{framed.origin}.frame.seat"
    for name, length, width in (
        (STILE, framed.height_mm, sizes.stile_mm),
        (RAIL, rail_length_mm(framed, sizes), sizes.rail_mm),
    ):
        stop = frame.joint == "butt" and name == STILE
        where = (sizes.rail_mm - frame.ledge) if stop else 0.0
        if frame.seat == "groove":
            middle = frame.thickness - frame.lip - sizes.seat_depth_mm
            yield Worked(
                name, "groove", "rear", frame.ledge, where, max(middle, 0.0), length - where,
                max(middle, 0.0) + sizes.seat_depth_mm, joint=f"{name}, panel",
                said=said(
                    "Groove {wide:mm} wide and {deep:mm} deep in the inner edge, {lip:mm} from the face.",
                    wide=sizes.seat_depth_mm, deep=frame.ledge, lip=frame.lip,
                ), origin=origin,
            )  # fmt: skip
        else:
            yield Worked(
                name, "rebate", "top" if frame.seat == "rebate" else "bottom",
                sizes.seat_depth_mm if frame.seat == "rebate" else frame.thickness - frame.lip,
                where, width - frame.ledge, length - where, width, joint=f"{name}, panel",
                said=said(
                    "Rebate {wide:mm} wide and {deep:mm} deep along the inner edge{where:word}.",
                    wide=frame.ledge,
                    deep=sizes.seat_depth_mm if frame.seat == "rebate" else frame.thickness - frame.lip,
                    where=", stopped before both ends" if stop else "",
                ), origin=origin,
            )  # fmt: skip
        if frame.joint == "bridle":
            yield _bridle(framed, sizes, name, length, width)
        if frame.arris > 0.0:
            yield Worked(
                name, "broken edge", "rear", frame.arris, said=said(
                    "Inner arris of the face broken {arris:mm}, so that it can be sanded again.", arris=frame.arris
                ), origin=f"{framed.origin}.frame.arris",
            )  # fmt: skip


def _bridle(framed: Framed, sizes: FrameSizes, name: str, length: float, width: float) -> Worked:
    third = framed.frame.thickness / 3
    slot = name == STILE
    deep = sizes.rail_mm if slot else sizes.stile_mm
    return Worked(
        name, "bridle slot" if slot else "bridle tenon", "left", deep, 0.0, third, width, 2 * third, number=2,
        joint=f"{name}, bridle",
        said=said(
            "Open slot {third:mm} wide in the middle third, {deep:mm} deep, at both ends."
            if slot else "Tenon {third:mm} thick in the middle third, {deep:mm} long, at both ends.",
            third=third, deep=deep,
        ), origin=f"{framed.origin}.frame.joint",
    )  # fmt: skip


def _gaps(framed: Framed, sizes: FrameSizes) -> Iterator[Gap]:
    why = said("So that the frame can move through the year and the panel be lifted out.")
    for member, axis, name, way in (
        (STILE, Axis.RIGHT, "left", 0),
        (STILE, Axis.LEFT, "right", 0),
        (RAIL, Axis.DOWN, "top", 1),
        (RAIL, Axis.UP, "bottom", 1),
    ):
        shift, grown = sizes.shifts[way], sizes.panel_grows_mm[way]
        yield Gap(
            f"round the panel, {name}", axis, sizes.gap_mm, (member, PANEL),
            sizes.gap_mm - shift.most_mm - grown, sizes.gap_mm - shift.least_mm, why,
            f"{framed.origin}.frame.gap",
        )  # fmt: skip


def _chains(framed: Framed, sizes: FrameSizes) -> Iterator[Chain]:
    for name, axis, member, way, total in (
        ("width over the frame", Axis.RIGHT, STILE, 0, framed.width_mm),
        ("height over the frame", Axis.UP, RAIL, 1, framed.height_mm),
    ):
        solid = sizes.inset_mm[way] - sizes.gap_mm
        seen = (framed.frame.width, framed.frame.rail_width or framed.frame.width)[way]
        in_sight = ((member, seen), ("clear", total - 2 * seen), (member, seen))
        yield Chain(name.replace("over the frame", "in sight"), axis, in_sight, total)
        yield Chain(
            name,
            axis,
            (
                (member, solid),
                ("gap", sizes.gap_mm),
                (PANEL, sizes.panel_mm[way]),
                ("gap", sizes.gap_mm),
                (member, solid),
            ),
            total,
        )


def _fittings(framed: Framed, sizes: FrameSizes) -> Iterator[Fitting]:
    if framed.frame.seat == "groove":
        return
    around = 2 * sum(sizes.panel_mm)
    behind = framed.frame.seat == "rebate behind"
    long = framed.frame.thickness - sizes.seat_depth_mm + 0.6 * sizes.thickness.carrier_mm
    yield Fitting(
        "turn button" if behind else "countersunk screw with washer",
        max(4, ceil(around / SCREW_EVERY_MM)),
        said("for {panel:mm}", panel=sizes.thickness.thickness_mm) if behind
        else said("3.5 × {long:mm}, in holes of 6 mm", long=5.0 * max(1, int(long / 5))),
        (PANEL, STILE, RAIL),
        why=said("About every {every:mm}, so that the panel can be taken out.", every=SCREW_EVERY_MM),
        origin=f"{framed.origin}.frame.seat",
    )  # fmt: skip
