"""What the work on a panel's wood needs to find and leaves behind: edging, corner pieces, inserts."""

from evenface.construction import EndKind
from evenface.piece.records import Meeting
from evenface.words import said
from evenface.workplan.records import Placed
from evenface.workplan.rules import Rule, Told
from evenface.workplan.surfaces import Joint, Surfaces, shows_at


def cut_carrier(panel: Surfaces, _one: Placed) -> Told:
    if panel.carrier_cut:
        yield Rule.TWICE, said("The carrier is cut already.")
    panel.carrier_cut = True


def cut_facing(panel: Surfaces, _one: Placed) -> Told:
    if panel.blanks_cut:
        yield Rule.TWICE, said("The facings are cut already.")
    panel.blanks_cut = True


def mill_edging(panel: Surfaces, _one: Placed) -> Told:
    if panel.milled:
        yield Rule.TWICE, said("The edging is milled already.")
    panel.milled = True


def glue_edging(panel: Surfaces, one: Placed) -> Told:
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


def trim_ends(panel: Surfaces, one: Placed) -> Told:
    long = {(side, at) for side, at in panel.long_ends if at in one.step.corners}
    if not long:
        yield Rule.PRESENT, said("No end is long there.")
    panel.long_ends -= long


def glue_corners(panel: Surfaces, one: Placed) -> Told:
    if not panel.carrier_cut:
        yield Rule.PRESENT, said("The carrier is not cut.")
    if panel.corner_pieces is not None:
        yield Rule.TWICE, said("The corner pieces are in already.")
    panel.corner_pieces = panel.joint(one.end_h)


def flush_edging(panel: Surfaces, one: Placed) -> Told:
    if panel.corner_pieces is not None:
        yield from firm(panel.corner_pieces, one)
    elif panel.needs_corner_pieces():
        yield Rule.PRESENT, said("The corner pieces that are levelled with it are not in.")
    for role in one.step.roles:
        for side in one.step.sides:
            if side not in panel.edged:
                yield Rule.PRESENT, said("The {side:word} edging is not on.", side=side.value)
                continue
            if role in panel.bonded:
                yield Rule.COVERED, said("The {role:word} is on already.", role=role.value)
            yield from firm(panel.edged[side], one)
            panel.level.add((side, role))


def firm(joint: Joint, one: Placed) -> Told:
    if one.start_h < joint.firm_h - 1e-9:
        left = joint.firm_h - one.start_h
        yield Rule.WET_JOINT, said("The joint needs {hours:count} h more.", hours=left)


def rout_recess(panel: Surfaces, one: Placed) -> Told:
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


def glue_insert(panel: Surfaces, one: Placed) -> Told:
    yield from _not_covered(panel, one)
    if one.step.feature not in panel.recessed:
        yield Rule.PRESENT, said("There is no recess for it.")
    if one.step.feature in panel.inserted:
        yield Rule.TWICE, said("The insert is in already.")
    panel.inserted[one.step.feature] = panel.joint(one.end_h)


def flush_insert(panel: Surfaces, one: Placed) -> Told:
    yield from _not_covered(panel, one)
    joint = panel.inserted.get(one.step.feature)
    if joint is None:
        yield Rule.PRESENT, said("The insert is not in.")
    else:
        yield from firm(joint, one)
        panel.insert_level.add(one.step.feature)
