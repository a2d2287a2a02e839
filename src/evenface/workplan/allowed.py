"""What each kind of work needs to find, breaks when it comes too early, and leaves behind it."""

from collections.abc import Callable, Iterator, Mapping
from enum import StrEnum
from typing import Final

from evenface.construction import EndKind
from evenface.piece.records import Meeting, Role
from evenface.words import Said, said
from evenface.workplan import glue_times as times
from evenface.workplan.records import Placed, Work
from evenface.workplan.surfaces import Joint, Surfaces, shows_at

SAME_DAY_H: Final = 12.0
"""Back and face within one working day: own estimate of what "the same day" allows."""


class Rule(StrEnum):
    """What wood, glue and facings do not allow."""

    CONDITION = "glued before the stock has lain together"
    PRESENT = "works on what is not there"
    TWICE = "done twice"
    COVERED = "works on what a facing covers"
    BENEATH = "a facing is laid over what is not ready beneath it"
    CLEAN = "a facing is laid on a surface that is not clean"
    FITTED = "a facing is laid between edgings without being fitted"
    SAME_DAY = "back and face are bonded too far apart"
    NOT_SET = "worked before glue or finish has set"
    WET_JOINT = "levelled while the joint is still swollen"
    ONE_AT_A_TIME = "edging glued on while its neighbour is in clamps"
    ENDS = "an end left long is in the way"
    OVERHANG = "an untrimmed facing is in the way"
    PROUD = "wood that is not level yet is in the way"
    CORNERS_FIRST = "profiled before the corners have their shape"
    FINISHED = "wood is worked after its finish"
    LEFT_OUT = "something is left out"


type Told = Iterator[tuple[Rule, Said]]


def missing_of(panel: Surfaces) -> tuple[str, ...]:
    """What this panel still lacks, in words of the work."""
    asked = panel.panel.panel
    wood = bool(panel.panel.edgings or asked.inserts)
    names = {one.name for one in asked.cutouts} | {one.name for one in asked.grips}
    needs = {
        Work.CUT_CARRIER: panel.carrier_cut,
        Work.GLUE_EDGING: panel.edged.keys() == {edging.side for edging in panel.panel.edgings},
        Work.TRIM_ENDS: not panel.long_ends,
        Work.GLUE_CORNERS: panel.corner_pieces is not None or not panel.needs_corner_pieces(),
        Work.FLUSH_EDGING: not panel.proud(),
        Work.BOND: set(panel.bonded) == set(panel.sheets),
        Work.TRIM: not panel.overhanging(),
        Work.SHAPE_CORNERS: panel.rounded or not panel.shaped_corners(),
        Work.PROFILE: panel.profiled or not asked.profiles,
        Work.ROUT_CUTOUT: names <= panel.holes,
        Work.FINISH: panel.finish_dry_h is not None or not wood,
        Work.DRILL: panel.drilled,
    }
    return tuple(work.value for work, done in needs.items() if not done)


# --- what every machine needs -------------------------------------------------------------------------


def may_machine(panel: Surfaces, one: Placed) -> Told:
    if not panel.carrier_cut:
        yield Rule.PRESENT, said("The carrier is not cut.")
    if panel.unset(one.start_h):
        yield Rule.NOT_SET, said("Glue of this panel has not set.")
    if panel.finish_dry_h is not None and one.step.work is not Work.DRILL:
        yield Rule.FINISHED, said("The wood is finished already.")
    if one.step.work is Work.DRILL:
        yield from finish_set(panel, one)


def finish_set(panel: Surfaces, one: Placed) -> Told:
    if panel.finish_dry_h is not None and one.start_h < panel.finish_dry_h - 1e-9:
        yield Rule.NOT_SET, said("The finish is not dry.")


def _no_overhang(panel: Surfaces) -> Told:
    for role in panel.overhanging():
        yield Rule.OVERHANG, said("The {role:word} is not on and trimmed.", role=role.value)


def _no_long_ends(panel: Surfaces) -> Told:
    for side, at in sorted(panel.long_ends):
        yield (
            Rule.ENDS,
            said(
                "The {side:word} edging is still long at the {at:word} corner.", side=side.value, at=at.value
            ),
        )


def _nothing_proud(panel: Surfaces) -> Told:
    for name in panel.proud():
        yield Rule.PROUD, said("Not level yet: {name}.", name=name)


# --- one handler for each kind of work ----------------------------------------------------------------


def _cut_carrier(panel: Surfaces, _one: Placed) -> Told:
    if panel.carrier_cut:
        yield Rule.TWICE, said("The carrier is cut already.")
    panel.carrier_cut = True


def _cut_facing(panel: Surfaces, _one: Placed) -> Told:
    if panel.blanks_cut:
        yield Rule.TWICE, said("The facings are cut already.")
    panel.blanks_cut = True


def _mill(panel: Surfaces, _one: Placed) -> Told:
    if panel.milled:
        yield Rule.TWICE, said("The edging is milled already.")
    panel.milled = True


def _glue_edging(panel: Surfaces, one: Placed) -> Told:
    (side,) = one.step.sides
    edging = panel.panel.edging(side)
    if edging is None or not panel.carrier_cut or not panel.milled:
        yield Rule.PRESENT, said("Carrier and edging must be cut before they are glued.")
    if edging is None:
        return
    if side in panel.edged:
        yield Rule.TWICE, said("The {side:word} edging is on already.", side=side.value)
    if panel.unset(one.start_h):
        yield Rule.ONE_AT_A_TIME, said("Another joint of this panel has not set.")
    if panel.finish_dry_h is not None:
        yield Rule.FINISHED, said("The wood is finished already.")
    for role in panel.bonded:
        if edging.meets(role) is Meeting.UNDER:
            yield Rule.COVERED, said("The {role:word} that lies over it is on already.", role=role.value)
        elif role not in panel.trimmed:
            yield Rule.OVERHANG, said("The {role:word} overhangs this edge.", role=role.value)
    past = [end.at for end in (edging.start, edging.end) if end.kind is EndKind.THROUGH]
    if any(at in past for _, at in panel.long_ends):
        yield Rule.ENDS, said("It runs past an end that is still long.")
    panel.long_ends |= panel.left_long(edging)
    panel.edged[side] = panel.joint(one.end_h)


def _trim_ends(panel: Surfaces, one: Placed) -> Told:
    long = {(side, at) for side, at in panel.long_ends if at in one.step.corners}
    if not long:
        yield Rule.PRESENT, said("No end is long there.")
    panel.long_ends -= long


def _glue_corners(panel: Surfaces, one: Placed) -> Told:
    if not panel.carrier_cut:
        yield Rule.PRESENT, said("The carrier is not cut.")
    if panel.corner_pieces is not None:
        yield Rule.TWICE, said("The corner pieces are in already.")
    panel.corner_pieces = panel.joint(one.end_h)


def _flush(panel: Surfaces, one: Placed) -> Told:
    for role in one.step.roles:
        for side in one.step.sides:
            if side not in panel.edged:
                yield Rule.PRESENT, said("The {side:word} edging is not on.", side=side.value)
                continue
            if role in panel.bonded:
                yield Rule.COVERED, said("The {role:word} is on already.", role=role.value)
            yield from _firm(panel.edged[side], one)
            panel.level.add((side, role))


def _firm(joint: Joint, one: Placed) -> Told:
    if one.start_h < joint.firm_h - 1e-9:
        left = joint.firm_h - one.start_h
        yield Rule.WET_JOINT, said("The joint needs {hours:count} h more.", hours=left)


def _rout_recess(panel: Surfaces, one: Placed) -> Told:
    yield from _not_covered(panel, one)
    if one.step.feature in panel.recessed:
        yield Rule.TWICE, said("The recess is there already.")
    panel.recessed.add(one.step.feature)


def _not_covered(panel: Surfaces, one: Placed) -> Told:
    insert = panel.insert(one.step.feature)
    if insert is None:
        yield Rule.PRESENT, said("There is no insert {name}.", name=one.step.feature)
    elif insert.when == "before facing" and any(role in panel.bonded for role in shows_at(insert)):
        yield Rule.COVERED, said("The facing that covers this insert is on already.")


def _glue_insert(panel: Surfaces, one: Placed) -> Told:
    yield from _not_covered(panel, one)
    if one.step.feature not in panel.recessed:
        yield Rule.PRESENT, said("There is no recess for it.")
    if one.step.feature in panel.inserted:
        yield Rule.TWICE, said("The insert is in already.")
    panel.inserted[one.step.feature] = panel.joint(one.end_h)


def _flush_insert(panel: Surfaces, one: Placed) -> Told:
    yield from _not_covered(panel, one)
    joint = panel.inserted.get(one.step.feature)
    if joint is None:
        yield Rule.PRESENT, said("The insert is not in.")
    else:
        yield from _firm(joint, one)
        panel.insert_level.add(one.step.feature)


def _fit(panel: Surfaces, one: Placed) -> Told:
    if not panel.blanks_cut:
        yield Rule.PRESENT, said("The facing is not cut.")
    for role in one.step.roles:
        if role in panel.bonded:
            yield Rule.COVERED, said("The {role:word} is on already.", role=role.value)
        panel.fitted[role] = frozenset(side for side in panel.edged if panel.beside(side, role))


def _prepare(panel: Surfaces, one: Placed) -> Told:
    if not panel.carrier_cut:
        yield Rule.PRESENT, said("The carrier is not cut.")
    panel.clean |= set(one.step.roles)


def _bond(panel: Surfaces, one: Placed) -> Told:
    if not panel.carrier_cut or not panel.blanks_cut:
        yield Rule.PRESENT, said("Carrier and facings must be cut before they are bonded.")
    if panel.unset(one.start_h):
        yield Rule.NOT_SET, said("Glue of this panel has not set.")
    for role in one.step.roles:
        if role in panel.bonded:
            yield Rule.TWICE, said("The {role:word} is on already.", role=role.value)
        if role not in panel.clean:
            yield Rule.CLEAN, said("Not cleaned since it was last worked: {role:word}.", role=role.value)
        yield from _ready_beneath(panel, role)
        here = frozenset(side for side in panel.edged if panel.beside(side, role))
        if not here <= panel.fitted.get(role, frozenset()):
            yield Rule.FITTED, said("An edging stands beside the {role:word}.", role=role.value)
        for other, hour in panel.bonded_at_h.items():
            if other is not role and one.start_h - hour > SAME_DAY_H:
                yield Rule.SAME_DAY, said("{hours:count} h apart.", hours=one.start_h - hour)
        panel.bonded[role] = Joint(one.end_h + times.facing_wait_h(panel.panel), one.end_h)
        panel.bonded_at_h[role] = one.start_h


def _ready_beneath(panel: Surfaces, role: Role) -> Told:
    for edging in panel.panel.edgings:
        if not panel.beside(edging.side, role) and (edging.side, role) not in panel.level:
            yield Rule.BENEATH, said("The {side:word} edging is not on and level.", side=edging.side.value)
    for insert in panel.panel.panel.inserts:
        before = insert.when == "before facing"
        level = insert.name in panel.insert_level
        begun = insert.name in panel.recessed | panel.inserted.keys()
        if role in shows_at(insert) and ((before and not level) or (begun and not before)):
            yield Rule.BENEATH, said("Not as it must be under a facing: {name}.", name=insert.name)
    if panel.holes or panel.drilled:
        yield Rule.BENEATH, said("The facing would bridge a hole.")


def _trim(panel: Surfaces, one: Placed) -> Told:
    for role in one.step.roles:
        if role not in panel.bonded:
            yield Rule.PRESENT, said("The {role:word} is not on.", role=role.value)
        else:
            panel.trimmed.add(role)


def _level(panel: Surfaces, one: Placed) -> Told:
    for role in one.step.roles:
        if role not in panel.bonded:
            yield Rule.PRESENT, said("The {role:word} is not on.", role=role.value)
        elif role in panel.overhanging():
            yield Rule.OVERHANG, said("The {role:word} is not trimmed.", role=role.value)
        for side in one.step.sides:
            if side not in panel.edged:
                yield Rule.PRESENT, said("The {side:word} edging is not on.", side=side.value)
                continue
            yield from _firm(panel.edged[side], one)
            panel.level.add((side, role))


def _shape(panel: Surfaces, _one: Placed) -> Told:
    if panel.profiled:
        yield Rule.CORNERS_FIRST, said("The edge has its profile already.")
    shaped = panel.shaped_corners()
    needed = {
        edging.side
        for edging in panel.panel.edgings
        if any(edging.side in (at.along_length, at.along_width) for at in shaped)
    }
    if not needed <= panel.edged.keys():
        yield Rule.PRESENT, said("The edging of a corner is not on.")
    if panel.needs_corner_pieces() and panel.corner_pieces is None:
        yield Rule.PRESENT, said("The corner pieces are not in.")
    yield from _no_long_ends(panel)
    for role in panel.bonded:
        if role in panel.overhanging():
            yield Rule.OVERHANG, said("The {role:word} is not trimmed.", role=role.value)
    panel.rounded = True


def _profile(panel: Surfaces, one: Placed) -> Told:
    if any(panel.panel.edging(side) and side not in panel.edged for side in one.step.sides):
        yield Rule.PRESENT, said("An edging to be profiled is not on.")
    if panel.shaped_corners() and not panel.rounded:
        yield Rule.CORNERS_FIRST, said("The corners are still square.")
    yield from _no_overhang(panel)
    yield from _no_long_ends(panel)
    yield from _nothing_proud(panel)
    panel.profiled = True


def _rout_hole(panel: Surfaces, one: Placed) -> Told:
    if one.step.feature in panel.holes:
        yield Rule.TWICE, said("That is there already.")
    grip = next((g for g in panel.panel.panel.grips if g.name == one.step.feature), None)
    if grip is not None and panel.insert(grip.insert) and grip.insert not in panel.insert_level:
        yield Rule.PROUD, said("The insert it lies in is not in and level.")
    panel.holes.add(one.step.feature)


def _finish(panel: Surfaces, one: Placed) -> Told:
    yield from _no_overhang(panel)
    yield from _no_long_ends(panel)
    yield from _nothing_proud(panel)
    panel.finish_dry_h = one.end_h + times.FINISH_H.nominal


def _drill(panel: Surfaces, _one: Placed) -> Told:
    yield from _no_overhang(panel)
    panel.drilled = True


HANDLERS: Final[Mapping[Work, Callable[[Surfaces, Placed], Told]]] = {
    Work.CUT_CARRIER: _cut_carrier,
    Work.CUT_FACING: _cut_facing,
    Work.MILL_EDGING: _mill,
    Work.GLUE_EDGING: _glue_edging,
    Work.TRIM_ENDS: _trim_ends,
    Work.GLUE_CORNERS: _glue_corners,
    Work.FLUSH_EDGING: _flush,
    Work.ROUT_RECESS: _rout_recess,
    Work.GLUE_INSERT: _glue_insert,
    Work.FLUSH_INSERT: _flush_insert,
    Work.SHAPE_CORNERS: _shape,
    Work.FIT_FACING: _fit,
    Work.PREPARE: _prepare,
    Work.BOND: _bond,
    Work.TRIM: _trim,
    Work.LEVEL: _level,
    Work.PROFILE: _profile,
    Work.ROUT_CUTOUT: _rout_hole,
    Work.ROUT_GRIP: _rout_hole,
    Work.FINISH: _finish,
    Work.DRILL: _drill,
}
GLUING: Final = frozenset({Work.GLUE_EDGING, Work.GLUE_CORNERS, Work.GLUE_INSERT, Work.BOND})
MACHINING: Final = frozenset(
    {
        Work.TRIM_ENDS,
        Work.FLUSH_EDGING,
        Work.ROUT_RECESS,
        Work.FLUSH_INSERT,
        Work.SHAPE_CORNERS,
        Work.TRIM,
        Work.LEVEL,
        Work.PROFILE,
        Work.ROUT_CUTOUT,
        Work.ROUT_GRIP,
        Work.FINISH,
        Work.DRILL,
    }
)
DUSTY: Final = (MACHINING | GLUING | {Work.CUT_CARRIER}) - {Work.BOND}
