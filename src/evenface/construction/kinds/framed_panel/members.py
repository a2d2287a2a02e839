"""What is worked into stiles and rails: the seat of the panel, bridle joints, screw holes, the broken arris.

A bridle joint in the middle third meets the seat of the panel; a rebate deeper than that takes slot and tenon down with
it. Where the seat takes wood of that third, tenon and slot are narrower by the ledge: else the slot would stand open at
the outside of the stile, where the seat of the rail has taken the inner edge of its tenon. A seat that reaches the face
runs through both members, and the rail's front shoulder lies out by the ledge; any other seat of a stile stops where
the rails begin.
"""

from collections.abc import Iterator
from math import ceil
from typing import Final

from evenface.construction.kinds.framed_panel.records import Frame, Framed
from evenface.construction.kinds.framed_panel.sizes import FrameSizes, rail_length_mm
from evenface.construction.placed import Worked
from evenface.words import said

STILE, RAIL, PANEL = "stile", "rail", "panel"
SCREW_EVERY_MM: Final = 300.0
"""COMMON PRACTICE: screws through the ledge, in holes with play."""
SCREW_MM: Final = 3.5
SCREW_LENGTHS_MM: Final = (12.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0)
"""COMMON PRACTICE: countersunk screws of 3.5 mm as they are sold."""
UNDER_FACE_MM: Final = 2.0
"""COMMON PRACTICE: so far from the facing of the show face a point ends."""


def tenon_mm(frame: Frame, sizes: FrameSizes) -> float:
    """Width of a bridle tenon and depth of its slot: of the rail, less the ledge where the seat cuts the tenon."""
    low, high = _seat_levels(frame, sizes)
    third = frame.thickness / 3
    return sizes.rail_mm - (frame.ledge if low < 2 * third and high > third else 0.0)


def shoulders_mm(frame: Frame, sizes: FrameSizes) -> tuple[float, float]:
    """Shoulders of a rail from its ends, at the face and behind."""
    return sizes.stile_mm - (frame.ledge if _runs_through(frame, sizes) else 0.0), sizes.stile_mm


def screws_along(side_mm: float) -> int:
    """Screws along a side of the panel."""
    return max(1, ceil(side_mm / SCREW_EVERY_MM))


def screw_mm(frame: Frame, sizes: FrameSizes) -> float:
    """The longest screw that goes through the ledge into the board and stays below the face."""
    board = sizes.thickness
    most = frame.thickness - sizes.seat_depth_mm + board.carrier_z0_mm + board.carrier_mm - UNDER_FACE_MM
    return max((long for long in SCREW_LENGTHS_MM if long <= most), default=SCREW_LENGTHS_MM[0])


def screw_hole_mm(sizes: FrameSizes) -> float:
    """Hole in the ledge: the screw, and what frame and panel move past each other either way through the year."""
    moved = max(
        max(abs(shift.most_mm), abs(shift.least_mm)) + grown
        for shift, grown in zip(sizes.shifts, sizes.panel_grows_mm, strict=True)
    )
    return ceil(2 * (SCREW_MM + 0.5 + 2 * moved)) / 2


def worked(framed: Framed, sizes: FrameSizes) -> Iterator[Worked]:
    """All of it, the stile first."""
    frame = framed.frame
    for name, length, width, side, start in (
        (STILE, framed.height_mm, sizes.stile_mm, sizes.panel_mm[1], sizes.inset_mm[1]),
        (
            RAIL, rail_length_mm(framed, sizes), sizes.rail_mm, sizes.panel_mm[0],
            sizes.inset_mm[0] - (sizes.stile_mm if frame.joint == "butt" else 0.0),
        ),
    ):  # fmt: skip
        yield _seat(framed, sizes, name, length, width)
        if frame.joint == "bridle":
            yield from _slot(framed, sizes, width) if name == STILE else _tenon(framed, sizes, width)
        if frame.seat == "rebate":
            yield _holes(framed, sizes, name, width, side, start)
        if frame.arris > 0.0:
            yield Worked(
                name, "broken edge", "rear", frame.arris, said=said(
                    "Inner arris of the face broken {arris:mm}, so that it can be sanded again.", arris=frame.arris
                ), origin=f"{framed.origin}.frame.arris",
            )  # fmt: skip


def _seat_levels(frame: Frame, sizes: FrameSizes) -> tuple[float, float]:
    """Between which heights over the back of the frame the seat lies."""
    if frame.seat == "rebate":
        return frame.thickness - sizes.seat_depth_mm, frame.thickness
    if frame.seat == "rebate behind":
        return 0.0, frame.thickness - frame.lip
    high = frame.thickness - frame.lip
    return max(high - sizes.seat_depth_mm, 0.0), high


def _tenon_levels(frame: Frame, sizes: FrameSizes) -> tuple[float, float]:
    """Between which heights over the back tenon and slot lie: the middle third, and down to a rebate that goes deeper.

    The shoulder behind reaches under the panel; what the rebate takes from the stile before it only the tenon fills.
    """
    third = frame.thickness / 3
    low, _ = _seat_levels(frame, sizes)
    return (min(third, max(low, 0.0)) if frame.seat == "rebate" else third), 2 * third


def _runs_through(frame: Frame, sizes: FrameSizes) -> bool:
    """Whether the seat of a bridled stile runs out at its ends: it takes the whole front cheek there."""
    return (
        frame.joint == "bridle"
        and frame.seat == "rebate"
        and _seat_levels(frame, sizes)[0] <= 2 * frame.thickness / 3
    )


def _seat(framed: Framed, sizes: FrameSizes, name: str, length: float, width: float) -> Worked:
    frame, origin = framed.frame, f"{framed.origin}.frame.seat"
    stop = name == STILE and frame.joint != "mitre" and not _runs_through(frame, sizes)
    where = (sizes.rail_mm - frame.ledge) if stop else 0.0
    low, high = _seat_levels(frame, sizes)
    if frame.seat == "groove":
        return Worked(
            name, "groove", "rear", frame.ledge, where, low, length - where, high, joint=f"{name}, panel",
            said=said(
                "Groove {wide:mm} wide and {deep:mm} deep in the inner edge, {lip:mm} from the face{where:word}.",
                wide=sizes.seat_depth_mm, deep=frame.ledge, lip=frame.lip,
                where=", stopped before both ends" if stop else "",
            ), origin=origin,
        )  # fmt: skip
    return Worked(
        name, "rebate", "top" if frame.seat == "rebate" else "bottom", high - low,
        where, width - frame.ledge, length - where, width, joint=f"{name}, panel",
        said=said(
            "Rebate {wide:mm} wide and {deep:mm} deep along the inner edge{where:word}.",
            wide=frame.ledge, deep=high - low, where=", stopped before both ends" if stop else "",
        ), origin=origin,
    )  # fmt: skip


def _slot(framed: Framed, sizes: FrameSizes, width: float) -> Iterator[Worked]:
    deep, (low, high) = tenon_mm(framed.frame, sizes), _tenon_levels(framed.frame, sizes)
    yield Worked(
        STILE, "bridle slot", "left", deep, 0.0, low, width, high, number=2, joint=f"{STILE}, bridle",
        said=said(
            "Open slot {wide:mm} wide, {low:mm} from the back, {deep:mm} deep, at both ends.",
            wide=high - low, low=low, deep=deep,
        ), origin=f"{framed.origin}.frame.joint",
    )  # fmt: skip


def _tenon(framed: Framed, sizes: FrameSizes, width: float) -> Iterator[Worked]:
    """What is sawn off at both ends of a rail, so that the tenon stays."""
    frame = framed.frame
    wide, (low, high) = tenon_mm(frame, sizes), _tenon_levels(frame, sizes)
    before, behind = shoulders_mm(frame, sizes)
    face = said(
        "Face side of the tenon: {off:mm} off at both ends, shoulder {deep:mm} from the end.",
        off=frame.thickness - high,
        deep=before,
    )
    back = said(
        "Back of the tenon: {off:mm} off at both ends, shoulder {deep:mm} from the end; {third:mm} stay in the middle.",
        off=low, deep=behind, third=high - low,
    )  # fmt: skip
    inner = said(
        "Inner edge of the tenon: {off:mm} off at both ends, {wide:mm} stay, as wide as the slot is deep.",
        off=width - wide, wide=wide,
    )  # fmt: skip
    off = [
        (before, 0.0, width, high, frame.thickness, face),
        (behind, 0.0, width, 0.0, low, back),
        (behind, wide, width, low, high, inner),
    ]
    for deep, y0, y1, z0, z1, told in off if wide < width else off[:2]:
        yield Worked(
            RAIL, "tenon cheek", "left", deep, y0, z0, y1, z1, number=2, joint=f"{RAIL}, bridle", said=told,
            origin=f"{framed.origin}.frame.joint",
        )  # fmt: skip


def _holes(framed: Framed, sizes: FrameSizes, name: str, width: float, side: float, start: float) -> Worked:
    """In the middle of what panel and ledge share; the first half a spacing from the corner of the panel."""
    frame, count, hole = framed.frame, screws_along(side), screw_hole_mm(sizes)
    each = side / count
    y = width - max(frame.ledge - sizes.gap_mm, 0.0) / 2
    return Worked(
        name, "screw holes", "bottom", frame.thickness - sizes.seat_depth_mm, diameter_mm=hole,
        centres=tuple((round(start + each * (n + 0.5), 6), round(y, 6)) for n in range(count)),
        joint=f"{name}, panel", said=said(
            "{count:count} holes Ø {hole:mm} through the ledge, {each:mm} apart, {edge:mm} from its edge; pilot holes "
            "Ø {pilot:mm} in the back of the panel with the panel centred in its gap.",
            count=count, hole=hole, each=each, edge=width - y, pilot=2.5,
        ), origin=f"{framed.origin}.frame.seat",
    )  # fmt: skip
