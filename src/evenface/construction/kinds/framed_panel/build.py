"""A framed panel built: four members, the panel between them, what is worked into them."""

from collections.abc import Iterator
from dataclasses import replace
from math import atan2, degrees
from typing import Final

from evenface.construction.ground import Ground
from evenface.construction.kinds.framed_panel.members import (
    PANEL,
    RAIL,
    SCREW_EVERY_MM,
    STILE,
    screw_hole_mm,
    screw_mm,
    screws_along,
    shoulders_mm,
    tenon_mm,
    worked,
)
from evenface.construction.kinds.framed_panel.records import Framed
from evenface.construction.kinds.framed_panel.sizes import FrameSizes, frame_sizes, rail_length_mm
from evenface.construction.placed import (
    Assembly,
    Axis,
    Board,
    Chain,
    Fitting,
    Gap,
    Joint,
    Placement,
)
from evenface.piece.records import Hold
from evenface.words import Said, said

APART_MM: Final = 120.0


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
        worked=tuple(worked(framed, sizes)),
        gaps=tuple(_gaps(framed, sizes)),
        chains=tuple(_chains(framed, sizes)) if min(sizes.panel_mm) >= 1.0 else (),
        fittings=tuple(_fittings(framed, sizes)),
        size_mm=(framed.width_mm, framed.frame.thickness, framed.height_mm),
    )


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
                "Length {length:mm} between the stiles, whose seat for the panel stops where the rails begin.",
                length=rail_length_mm(framed, sizes),
            )
        case _:
            before, behind = shoulders_mm(framed.frame, sizes)
            if before == behind:
                return said(
                    "Length through both stiles; {inner:mm} between shoulders.",
                    inner=framed.width_mm - 2 * behind,
                )
            return said(
                "Length through both stiles; between shoulders {inner:mm} behind and {outer:mm} before.",
                inner=framed.width_mm - 2 * behind,
                outer=framed.width_mm - 2 * before,
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
        "bridle": 2 * sizes.stile_mm * tenon_mm(frame, sizes),
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
    behind = framed.frame.seat == "rebate behind"
    count = 2 * sum(screws_along(long) for long in sizes.panel_mm)
    yield Fitting(
        "turn button" if behind else "countersunk screw with washer",
        count,
        said("for {panel:mm}", panel=sizes.thickness.thickness_mm) if behind
        else said(
            "3.5 × {long:mm}, in holes of {hole:mm}", long=screw_mm(framed.frame, sizes), hole=screw_hole_mm(sizes)
        ),
        (PANEL, STILE, RAIL),
        why=said("About every {every:mm}, so that the panel can be taken out.", every=SCREW_EVERY_MM),
        origin=f"{framed.origin}.frame.seat",
    )  # fmt: skip
