"""Blade or cutter, rotation, feed, passes, backing and which face is up, for every step at a machine.

READ: blade for laminate, face up or down, overhang, rim speed, rotation limits (`cutters`). The rest is common
practice in small shops; what is stamped on a tool and written in its instructions goes before.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from evenface.construction import BuiltPanel, Worked
from evenface.materials.rules import rule
from evenface.piece.records import Grip, Insert, Profile
from evenface.words import Said, said
from evenface.workplan import cutters as c
from evenface.workplan.machining_of_wood import OF_WOOD, joint_cutting
from evenface.workplan.machining_record import Machining, spoken_speed, traced
from evenface.workplan.records import Work

TRIMMER: Final = c.Cutter(12.7)
STRAIGHT: Final = c.Cutter(12.0)
LEVELLER: Final = c.Cutter(19.0)
BEARING_MM: Final = 12.7
"""COMMON PRACTICE: a trimming cutter, a straight one, a wide one for levelling; bearing under a profile cutter."""
SAW: Final = (250.0, 4500.0)
"""COMMON PRACTICE: diameter of the blade and turns a minute of a bench saw."""
SHEET_TEETH: Final = 80
"""READ: at least 80 teeth at 250 mm, at least 100 at 300 mm, for laminate."""


def machining_of(work: Work, panel: BuiltPanel, feature: str = "") -> Machining | None:
    """Settings of a step at a machine; None for work without one. feature names cut-out, insert or grip."""
    return _BY_WORK[work](panel, feature) if work in _BY_WORK else OF_WOOD.get(work)


def needs_machine(work: Work) -> bool:
    """Whether something is cut, planed, bored or sanded in this work."""
    return work in _BY_WORK or work in OF_WOOD


# --- saws ---------------------------------------------------------------------------------------------


def _sawn(tool: Said, face: Said, teeth: int, tooth_mm: float) -> Machining:
    diameter, turns = SAW
    return Machining(
        tool=tool,
        speed=said(
            "{turns:count} turns a minute at {diameter:mm} are {rim:count} m/s at the rim; never above what is "
            "stamped on the blade.",
            turns=turns,
            diameter=diameter,
            rim=c.rim_speed_m_s(diameter, turns),
        ),
        feed=said(
            "Feed up to {feed:count} m a minute: {tooth} mm a tooth.",
            feed=c.feed_m_min(tooth_mm, turns, teeth),
            tooth=tooth_mm,
        ),
        passes=said("One pass; the blade stands a tooth's height above the work."),
        backing=said("Tight insert round the blade or a scoring blade; a strip behind the last 50 mm."),
        face=face,
    )


def _carrier(panel: BuiltPanel, _feature: str) -> Machining:
    return _sawn(
        said("Blade 250 mm, 60 teeth or more, alternate bevels."),
        _SAW_FACE if panel.carrier.material.faced else said("Better face up on a bench saw."),
        60,
        c.TOOTH_WOOD_MM.low,
    )


def cut_by_knife(panel: BuiltPanel) -> bool:
    """Whether its facings are cut by hand: linoleum and nothing else."""
    return bool(panel.faces) and all(face.material.family == "linoleum" for face in panel.faces)


def _facing(panel: BuiltPanel, _feature: str) -> Machining:
    if cut_by_knife(panel):
        return Machining(
            said("A hooked or trapezoid blade, new; steel rule held over its whole length."),
            said("By hand: nothing turns."),
            said("Draw slowly, upright, without stopping."),
            said("Scored once from the face, cut through in two or three draws."),
            said("A flat board below that may be cut into."),
            said("Face up, arrow along the rule."),
        )
    return _sawn(
        said("Triple-chip blade, 10 to 15° positive, at least 80 teeth at 250 mm (100 at 300 mm)."),
        _SAW_FACE,
        SHEET_TEETH,
        c.TOOTH_LAMINATE_MM.nominal,
    )


def _edging(_panel: BuiltPanel, _feature: str) -> Machining:
    diameter, turns = SAW
    return Machining(
        said("Ripping blade, 24 to 40 teeth; then planer and thicknesser with sharp knives."),
        said(
            "{turns:count} turns a minute at {diameter:mm}: {rim:count} m/s.",
            turns=turns,
            diameter=diameter,
            rim=c.rim_speed_m_s(diameter, turns),
        ),
        said("Even, with a push stick; with the grain rising away from the knives."),
        said("Thicknesser in passes of 1 mm, the last 0.3 mm; a rest is kept for setting up."),
        said(
            "Blanks of at least {least:mm}; nothing shorter through the thicknesser.",
            least=rule("blank-safe-length").nominal,
        ),
        said("Face mark on the side that will lie against the carrier."),
    )


def _ends(_panel: BuiltPanel, _feature: str) -> Machining:
    return Machining(
        said("Fine cross-cut saw, then block plane or trimmer on the carrier's edge."),
        spoken_speed(TRIMMER),
        traced(TRIMMER),
        said("Saw to 1 mm, then in thin cuts down to the carrier."),
        said("A scrap clamped behind the end grain where the tool runs out."),
        said("Panel flat, base of the tool on the carrier's edge."),
    )


# --- router -------------------------------------------------------------------------------------------


def _deep(depth_mm: float, cutter: c.Cutter) -> Said:
    count, each = c.passes(depth_mm, cutter.diameter_mm)
    if count == 1:
        return said("{depth:mm} deep: in one pass.", depth=depth_mm)
    return said("{depth:mm} deep: {count:count} passes of {each:mm}.", depth=depth_mm, count=count, each=each)


def _levelled(_panel: BuiltPanel, _feature: str) -> Machining:
    return Machining(
        said("Straight cutter on a levelling base, or a sharp plane; set with a paper's thickness to spare."),
        spoken_speed(LEVELLER),
        traced(LEVELLER),
        said("Not more than 0.5 mm a pass; the last tenth by scraper or block."),
        said("From the outside inwards, so that no fibre breaks out at the edge."),
        said("The face that is levelled up; base fully on carrier or taped facing."),
    )


def _recess(panel: BuiltPanel, feature: str) -> Machining:
    insert = _insert(panel, feature)
    depth = panel.carrier.thickness.nominal
    if insert is not None and insert.depth_mm is not None:
        depth = insert.depth_mm
    return Machining(
        said("Straight cutter and bush as measured; collet and bush nut tight."),
        spoken_speed(STRAIGHT),
        traced(STRAIGHT),
        _deep(depth, STRAIGHT),
        _BOARD_BELOW if insert is None or insert.depth_mm is None else _TEMPLATE_HELD,
        said("Up: the face the insert shows at."),
    )


def _corners(panel: BuiltPanel, _feature: str) -> Machining:
    height = panel.carrier.z1_mm - panel.carrier.z0_mm
    return Machining(
        said("Sawn to 2 mm outside the line, then a cutter with bearing longer than the panel is thick."),
        spoken_speed(LEVELLER),
        traced(LEVELLER),
        _deep(height, LEVELLER),
        said("Downhill on the grain, from both sides to the middle of the arc; a scrap where it runs out."),
        said("Template on the better face, screwed or taped; bearing on the template."),
    )


def _trimmed(_panel: BuiltPanel, _feature: str) -> Machining:
    return Machining(
        said(
            "Overhang back to {left:mm} first; flush cutter of solid carbide, bearing clean.",
            left=rule("facing-overhang-trim").nominal,
        ),
        spoken_speed(TRIMMER),
        traced(TRIMMER),
        said("One pass, then a fine file from the face towards the carrier; arris broken with 100 to 150."),
        said("Bearing on solid wood or a closed edge: it drops into any void."),
        said("The face just bonded up, base flat on it, a felt or tape below."),
    )


def _fitted(panel: BuiltPanel, feature: str) -> Machining:
    if cut_by_knife(panel):
        return _facing(panel, feature)
    return _trimmed(panel, feature)


def _profiled(panel: BuiltPanel, _feature: str) -> Machining:
    profiles = panel.panel.profiles
    deep = max((_across(one) for one in profiles), default=3.0)
    high = max((_down(one) for one in profiles), default=3.0)
    cutter = c.Cutter(BEARING_MM + 2.0 * deep)
    return Machining(
        said(
            "Profile cutter with bearing, about Ø {wide:mm}; on a spindle of 100 mm {low:count} to {high:count} turns "
            "a minute on faced panels.",
            wide=cutter.diameter_mm,
            low=round(c.turns_for(c.FACED_RIM.low, 100.0), -2),
            high=round(c.turns_for(c.FACED_RIM.high, 100.0), -2),
        ),
        spoken_speed(cutter),
        traced(cutter),
        _deep(high, c.Cutter(min(cutter.diameter_mm, 12.0))),
        said("End grain first, along the grain last; a scrap at corners that end; try it on a rest."),
        said("Profile up, bearing below on the edge; two profiles: the show face first."),
    )


def _across(profile: Profile) -> float:
    return profile.depth_mm or profile.radius_mm or _of_curve(profile, 1)


def _down(profile: Profile) -> float:
    return profile.height_mm or profile.radius_mm or profile.depth_mm or _of_curve(profile, 0)


def _of_curve(profile: Profile, axis: int) -> float:
    return max((abs(point[axis]) for point in profile.curve), default=3.0) or 3.0


def _opening(panel: BuiltPanel, feature: str) -> Machining:
    cutout = next((one for one in panel.panel.cutouts if one.name == feature), None)
    radius = cutout.inner_radius_mm if cutout is not None and cutout.inner_radius_mm else 6.0
    cutter = c.Cutter(min(STRAIGHT.diameter_mm, 2.0 * radius))
    depth = cutout.depth_mm if cutout is not None and cutout.depth_mm else panel.thickness_mm
    return Machining(
        said(
            "Corners drilled first, Ø {least:mm} or more; jigsaw 2 mm inside the line, then cutter and template.",
            least=2.0 * radius,
        ),
        spoken_speed(cutter),
        traced(cutter),
        _deep(depth, cutter),
        said("Waste held up from below until the last cut, or it tears out; {board}", board=_BOARD_BELOW),
        said("Jigsaw from the underside; router from the show face with its base taped."),
    )


def _gripped(panel: BuiltPanel, feature: str) -> Machining:
    grip = _grip(panel, feature)
    cutter = c.Cutter(grip.cutter_diameter_mm if grip is not None else 12.0)
    kind = grip.cutter if grip is not None else "straight"
    return Machining(
        said("{kind:word} cutter Ø {wide:mm}, in the template's bush.", kind=kind, wide=cutter.diameter_mm),
        spoken_speed(cutter),
        traced(cutter),
        _deep(grip.depth_mm if grip is not None else 8.0, cutter),
        _TEMPLATE_HELD,
        said("Up: the face the grip is worked from; mirrored pairs with the template turned over."),
    )


def _drilled(panel: BuiltPanel, _feature: str) -> Machining:
    laminate = any(face.material.family != "linoleum" for face in panel.faces)
    return Machining(
        said("Brad-point drills; hinge cups with a cup cutter in a stand; depth stop set on a rest."),
        said("Drills to 10 mm up to 3000 turns a minute, cup cutters about 1500 to 2000."),
        said("Lift now and then; slow where it comes out."),
        said("Full depth in one go; through holes from both sides or into a backing board."),
        said("A waste board clamped tight below."),
        said("Through laminate: hole larger than the screw, arris eased; pierce the face first.")
        if laminate
        else said("From the face where the fitting sits."),
    )


def _sanded(_panel: BuiltPanel, _feature: str) -> Machining:
    return Machining(
        said(
            "Grits 120, 150, 180 on the wood, each until the one before is gone; hand block beside facings."
        ),
        said("Sander at middle speed, extraction on before it touches."),
        said("Slow, along the grain, lifted before it stops."),
        said("Two coats at least, a light rub with 240 between."),
        said("Facing masked to the joint: a scratch in it stays."),
        said("Underside and inside first, what is seen last."),
    )


def _insert(panel: BuiltPanel, feature: str) -> Insert | None:
    return next((one for one in panel.panel.inserts if one.name == feature), None)


def _grip(panel: BuiltPanel, feature: str) -> Grip | None:
    return next((one for one in panel.panel.grips if one.name == feature), None)


_SAW_FACE: Final = said("Show face up on a bench saw, down with a hand-held saw.")
_BOARD_BELOW: Final = said("A waste board below, clamped tight, against breaking out.")
_TEMPLATE_HELD: Final = said("Template held at two points or more, packed to full bearing for the base.")
_BY_WORK: Final[Mapping[Work, Callable[[BuiltPanel, str], Machining]]] = {
    Work.CUT_CARRIER: _carrier,
    Work.CUT_FACING: _facing,
    Work.MILL_EDGING: _edging,
    Work.TRIM_ENDS: _ends,
    Work.FLUSH_EDGING: _levelled,
    Work.FLUSH_INSERT: _levelled,
    Work.LEVEL: _levelled,
    Work.ROUT_RECESS: _recess,
    Work.SHAPE_CORNERS: _corners,
    Work.FIT_FACING: _fitted,
    Work.TRIM: _trimmed,
    Work.PROFILE: _profiled,
    Work.ROUT_CUTOUT: _opening,
    Work.ROUT_GRIP: _gripped,
    Work.DRILL: _drilled,
    Work.FINISH: _sanded,
}


def wood_lines(work: Work, worked: Sequence[Worked] = ()) -> tuple[Said, ...]:
    """The settings for boards of solid wood and for joints; nothing for work without a machine.

    worked : what is worked into the part: joints are cut with the cutter that fits the narrowest of it.
    """
    if work is Work.CUT_JOINT:
        return joint_cutting(worked).lines
    return OF_WOOD[work].lines if work in OF_WOOD else ()


def machine_lines(work: Work, panel: BuiltPanel, feature: str = "") -> Iterator[Said]:
    """The settings as sentences; nothing for work without a machine."""
    made = machining_of(work, panel, feature)
    if made is not None:
        yield from made.lines
